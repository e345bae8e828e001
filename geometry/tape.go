package geometry

import (
	"fmt"
	"math"
	"strconv"
)

// This file is the one place where a length is rounded. The exact value
// travels through every formula; it meets the tape here, once, at the end.

// Division is how finely a tape is read: the number of parts of an inch.
type Division int

// The divisions of a tape. An ordinary tape's smallest mark is a sixteenth.
const (
	Eighths       Division = 8
	Sixteenths    Division = 16
	ThirtySeconds Division = 32
)

// Lean says on which side of its mark a length lies.
type Lean int

// Heavy is a hair over the mark, light a hair under; on the mark is neither.
const (
	Light Lean = iota - 1
	OnMark
	Heavy
)

// Hair is how far off the mark a length may lie and still be called on it:
// 1/64 in. That heavy and light begin there is common practice; no citable
// source was found.
const Hair = Inch / 64

// halfway is the width of the half-way case: a length within it of the middle
// between two marks counts as the middle, and goes up. It absorbs the last
// bits of floating point, nothing a tape could show.
const halfway = 1e-9

// Tape is a length as it is read on a tape: whole inches and a fraction in
// lowest terms, and on which side of that mark the exact length lies.
type Tape struct {
	Negative    bool
	Inches      int // whole inches
	Numerator   int // of the fraction, 0 if there is none
	Denominator int // of the fraction in lowest terms, 1 if there is none
	Lean        Lean
}

// Tape reads l on a tape with the given division.
//
// It rounds to the nearest mark; a length half-way between two marks goes to
// the longer one (half away from zero), since a piece cut long can be trimmed.
// l must be finite and no longer than [Longest] in size; anything else reads
// as zero.
func (l Length) Tape(d Division) Tape {
	exact := float64(l)
	if math.IsNaN(exact) || math.Abs(exact) > float64(Longest) {
		return Tape{Denominator: 1}
	}
	size := math.Abs(exact)
	parts := int(math.Floor(size*float64(d) + 0.5 + halfway))
	mark := float64(parts) / float64(d)
	n, den := parts%int(d), int(d)
	for n%2 == 0 && den > 1 {
		n, den = n/2, den/2
	}
	t := Tape{
		Negative:    exact < 0 && parts > 0,
		Inches:      parts / int(d),
		Numerator:   n,
		Denominator: den,
	}
	switch hair := float64(Hair) + halfway; {
	case size-mark > hair:
		t.Lean = Heavy
	case mark-size > hair:
		t.Lean = Light
	}
	return t
}

// TapeUp reads l on the first mark that is not shorter than l, for clearances:
// they round to the safe side, never to the nearest.
func (l Length) TapeUp(d Division) Tape {
	up := Length(math.Ceil(float64(l)*float64(d)-halfway) / float64(d))
	return up.Tape(d)
}

// Length is the length of the mark itself.
func (t Tape) Length() Length {
	l := Length(t.Inches) + Length(t.Numerator)/Length(t.Denominator)
	if t.Negative {
		return -l
	}
	return l
}

// String writes the mark in inches: 14-3/4, 5/8, 9, -2-1/16. It carries
// neither a unit nor heavy or light: those are words, for the package that
// words answers.
func (t Tape) String() string {
	sign := ""
	if t.Negative {
		sign = "-"
	}
	return sign + mixed(t.Inches, t)
}

// FeetInches writes the mark in feet and inches from one foot up: 1' 6-1/2",
// 4' 0"; under a foot in inches with their mark: 9-1/8".
func (t Tape) FeetInches() string {
	if t.Inches < 12 {
		return t.String() + `"`
	}
	sign := ""
	if t.Negative {
		sign = "-"
	}
	return fmt.Sprintf(`%s%d' %s"`, sign, t.Inches/12, mixed(t.Inches%12, t))
}

func mixed(whole int, t Tape) string {
	switch {
	case t.Numerator == 0:
		return strconv.Itoa(whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", t.Numerator, t.Denominator)
	}
	return fmt.Sprintf("%d-%d/%d", whole, t.Numerator, t.Denominator)
}

// Metric writes l in millimeters with the given number of decimals: 425 mm.
// A half goes away from zero, as on the tape.
func (l Length) Metric(decimals int) string {
	scale := math.Pow(10, float64(decimals))
	mm := l.Millimeters()
	rounded := math.Copysign(math.Floor(math.Abs(mm)*scale+0.5+halfway)/scale, mm)
	if rounded == 0 {
		rounded = 0 // not "-0"
	}
	return strconv.FormatFloat(rounded, 'f', decimals, 64) + " mm"
}
