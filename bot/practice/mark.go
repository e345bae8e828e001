package practice

import (
	"cmp"
	"math"
	"slices"

	"dogleg/bot/figure"
	"dogleg/geometry"
)

// Tolerance is how far a reply may be off.
const Tolerance = geometry.Inch / 16

// Said is what an apprentice sent.
type Said struct {
	Length  geometry.Length
	Decimal bool // it was written with a decimal point
}

// Mark is how a reply was marked.
type Mark struct {
	Right bool
	Near  bool            `json:",omitempty"` // right, but not on the nearest mark of the tape
	Key   geometry.Length // the answer, by the apprentice's own book
	Slip  Slip            // what a wrong one looks like, if anything
	Or    Slip            `json:",omitempty"` // what else it looks as much like
	Bend  geometry.Angle  `json:",omitempty"` // whose multiplier it has, of [OtherBend]
}

// Mark marks a reply within [Tolerance] of the exact answer and, where the
// apprentice is marked by a handbook's multipliers, of that book's; or of the
// nearest sixteenth of either.
func (p Problem) Mark(reply Said, book figure.HandbookSet) Mark {
	m := Mark{Key: p.ByTheBook(book)}
	for _, right := range []geometry.Length{p.Figure(), m.Key} {
		mark := p.onTape(right)
		if within(reply.Length, right, Tolerance) || within(reply.Length, mark, Tolerance) {
			m.Right = true
		}
	}
	if m.Right {
		m.Near = !p.onTheMark(reply.Length, p.Figure()) && !p.onTheMark(reply.Length, m.Key)
		return m
	}
	m.Slip, m.Or, m.Bend = p.named(reply)
	return m
}

// onTape is the nearest mark on the apprentice's tape: a sixteenth, or a millimeter.
func (p Problem) onTape(l geometry.Length) geometry.Length {
	if p.Metric {
		return geometry.Length(math.Round(l.Millimeters())) * geometry.Millimeter
	}
	return l.Tape(geometry.Sixteenths).Length()
}

// onTheMark says whether a reply is a figure as the tape reads it, or nearer to it
// than the tape can be read.
func (p Problem) onTheMark(reply, right geometry.Length) bool {
	half := geometry.Inch / 32
	if p.Metric {
		half = geometry.Millimeter / 2
	}
	return within(reply, p.onTape(right), 0) || within(reply, right, half)
}

// farClose is how far off a reply may be that was only rounded on the way.
const farClose = geometry.Inch / 4

// mostNamed is how many slips are named where a reply looks like several.
const mostNamed = 2

// named are the slips that a reply looks like, the likeliest first. One of the
// commonest must be met within the tolerance, any other on the mark of the tape:
// there are many of them, and one would soon be met by chance. So must figures by
// two-place multipliers, which are near the right one themselves.
func (p Problem) named(reply Said) (first, second Slip, bend geometry.Angle) {
	if reply.Decimal && p.fromDecimals(reply.Length) {
		return Decimals, NoSlip, 0
	}
	met := p.slips(slices.DeleteFunc(p.candidates(), func(s slipped) bool {
		off := Tolerance
		if s.rare || s.slip == TwoPlaces {
			off = Tolerance / 2
		}
		return !within(reply.Length, s.figure, off)
	}))
	slices.SortStableFunc(met, func(a, b slipped) int {
		return cmp.Compare(rank(a, reply.Length), rank(b, reply.Length))
	})
	met = slices.CompactFunc(met, func(a, b slipped) bool { return a.slip == b.slip })
	met = met[:min(len(met), mostNamed)]
	if len(met) == 0 {
		if within(reply.Length, p.Figure(), farClose) {
			return Close, NoSlip, 0
		}
		return NoSlip, NoSlip, 0
	}
	for _, m := range met {
		bend = cmp.Or(bend, m.bend)
	}
	if len(met) == 2 && met[1].slip != met[0].slip {
		second = met[1].slip
	}
	return met[0].slip, second, bend
}

// rank puts what is met on the mark before what is only near, and there the commonest
// first.
func rank(s slipped, reply geometry.Length) int {
	n := 0
	if !within(reply, s.figure, Tolerance/2) {
		n += 2
	}
	if s.rare {
		n++
	}
	return n
}

// epsilon is what the last binary places may make.
const epsilon geometry.Length = 1e-9

func within(a, b, tolerance geometry.Length) bool {
	return math.Abs((a - b).Inches()) <= (tolerance + epsilon).Inches()
}
