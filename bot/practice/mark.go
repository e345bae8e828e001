package practice

import (
	"math"

	"dogleg/bot/figure"
	"dogleg/geometry"
)

// Tolerance is how far a reply may be off.
const Tolerance = geometry.Inch / 16

// Mark is how a reply was marked.
type Mark struct {
	Right bool
	Key   geometry.Length // the answer, by the apprentice's own book
	Slip  Slip            // what a wrong one looks like, if anything
}

// Mark marks a reply within [Tolerance] of the exact answer and, where the
// apprentice is marked by a handbook's multipliers, of that book's; or of the
// nearest sixteenth of either.
func (p Problem) Mark(reply geometry.Length, book figure.HandbookSet) Mark {
	m := Mark{Key: p.ByTheBook(book)}
	for _, right := range []geometry.Length{p.Figure(), m.Key} {
		mark := right.Tape(geometry.Sixteenths).Length()
		if within(reply, right, Tolerance) || within(reply, mark, Tolerance) {
			m.Right = true
			return m
		}
	}
	m.Slip = p.slipOf(reply)
	return m
}

// slipOf is the slip whose figure a reply is nearest to, within the tolerance.
// Figures by two-place multipliers must be met to half of it: they are near
// the right one themselves.
func (p Problem) slipOf(reply geometry.Length) Slip {
	found, nearest := NoSlip, Tolerance+epsilon
	for _, s := range p.slips() {
		off := geometry.Length(math.Abs((reply - s.figure).Inches()))
		if s.slip == TwoPlaces && off > Tolerance/2+epsilon {
			continue
		}
		if off < nearest {
			found, nearest = s.slip, off
		}
	}
	return found
}

// epsilon is what the last binary places may make.
const epsilon geometry.Length = 1e-9

func within(a, b, tolerance geometry.Length) bool {
	return math.Abs((a - b).Inches()) <= (tolerance + epsilon).Inches()
}
