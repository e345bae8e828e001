package catalog

import (
	"slices"

	"dogleg/geometry"
)

// StockLength is a length that pipe is sold in.
type StockLength struct {
	Length   geometry.Length
	Evidence Evidence
	Source   string
	Note     string
}

// StockLengths lists the lengths that the pipe of the system is sold in, the
// usual one first.
func (s System) StockLengths() []StockLength { return slices.Clone(loaded().stock[s.ID]) }

// Kerf is the width that a saw takes.
type Kerf struct {
	Saw string // "hacksaw"
	Allowance
	Note string
}

// Kerfs lists the saws and what each takes. All of it is common practice: a
// blade is measured by a cut in scrap.
func Kerfs() []Kerf { return slices.Clone(loaded().kerfs) }
