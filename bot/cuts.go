package bot

import (
	"slices"

	"dogleg/store"
)

// cuts is the cut list of a [Forgetful].
type cuts struct {
	list     []store.Cut
	numbered uint64
}

// Cuts returns the cut list.
func (f *Forgetful) Cuts() []store.Cut { return slices.Clone(f.cuts.list) }

// AddCut puts a piece on the list, unless it is full.
func (f *Forgetful) AddCut(c store.Cut) uint64 {
	if len(f.cuts.list) >= store.KeptCuts {
		return 0
	}
	f.cuts.numbered++
	c.Number = f.cuts.numbered
	f.cuts.list = append(f.cuts.list, c)
	return c.Number
}

// ChangeCut changes a piece.
func (f *Forgetful) ChangeCut(c store.Cut) bool {
	i := f.cuts.at(c.Number)
	if i >= 0 {
		f.cuts.list[i] = c
	}
	return i >= 0
}

// DropCut drops a piece.
func (f *Forgetful) DropCut(number uint64) bool {
	i := f.cuts.at(number)
	if i >= 0 {
		f.cuts.list = slices.Delete(f.cuts.list, i, i+1)
	}
	return i >= 0
}

// ClearCuts begins a new list.
func (f *Forgetful) ClearCuts() { f.cuts = cuts{} }

func (c cuts) at(number uint64) int {
	return slices.IndexFunc(c.list, func(cut store.Cut) bool { return cut.Number == number })
}
