package geometry

import (
	"fmt"
	"math"
	"strconv"
)

// This file is the one place where a length is rounded. The exact value
// travels through every formula; it meets the tape here, once, at the end.

// Division is how finely a tape is read: the number of parts of an inch. One
// that is no division (0 or less) reads as [Sixteenths].
type Division int

// The divisions of a tape. An ordinary tape's smallest mark is a sixteenth.
const (
	Eighths       Division = 8
	Sixteenths    Division = 16
	ThirtySeconds Division = 32
)

// Lean says on which side of its mark a length lies. It goes by size: heavy on
// -2 is a hair more than 2, the other way. Only where a length is so little
// under nothing that it reads as 0, light says that it is under.
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

// hairline is the width of a mark: a length within it of the middle between two
// marks counts as the middle, and one within it of a mark as on it. It absorbs
// the last bits of floating point, nothing a tape could show.
const hairline = Inch / 1e9

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
	size := math.Abs(float64(l))
	if math.IsNaN(size) || size > float64(Longest) {
		return Tape{Denominator: 1}
	}
	d = d.orSixteenths()
	parts := int(math.Floor((size+float64(hairline))*float64(d) + 0.5))
	t := Tape{
		Negative: l < 0 && parts > 0,
		Inches:   parts / int(d),
		Lean:     lean(Length(size), Length(parts)/Length(d)),
	}
	t.Numerator, t.Denominator = lowest(parts%int(d), int(d))
	if l < 0 && parts == 0 && t.Lean == Heavy {
		t.Lean = Light
	}
	return t
}

// TapeUp reads l on the first mark that is not shorter than l, for clearances:
// they round to the safe side, never to the nearest.
func (l Length) TapeUp(d Division) Tape {
	d = d.orSixteenths()
	up := Length(math.Ceil(float64(l-hairline)*float64(d)) / float64(d))
	return up.Tape(d)
}

func (d Division) orSixteenths() Division {
	if d <= 0 {
		return Sixteenths
	}
	return d
}

// lean compares an exact size with its mark.
func lean(exact, mark Length) Lean {
	switch {
	case exact-mark > Hair+hairline:
		return Heavy
	case mark-exact > Hair+hairline:
		return Light
	}
	return OnMark
}

// lowest halves a fraction down to its lowest terms; no numerator is 0 of 1.
func lowest(numerator, denominator int) (int, int) {
	if numerator == 0 {
		return 0, 1
	}
	for numerator%2 == 0 && denominator%2 == 0 {
		numerator, denominator = numerator/2, denominator/2
	}
	return numerator, denominator
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
	over, under := strconv.Itoa(t.Numerator), strconv.Itoa(t.Denominator)
	switch {
	case t.Numerator == 0:
		return strconv.Itoa(whole)
	case whole == 0:
		return over + "/" + under
	}
	return strconv.Itoa(whole) + "-" + over + "/" + under
}

// Metric writes l in millimeters with the given number of decimals: 425 mm.
// A half goes away from zero, as on the tape.
func (l Length) Metric(decimals int) string {
	scale := math.Pow(10, float64(decimals))
	size := math.Floor((math.Abs(l.Millimeters())+float64(hairline))*scale+0.5) / scale
	if l < 0 && size > 0 {
		size = -size
	}
	return strconv.FormatFloat(size, 'f', decimals, 64) + " mm"
}
