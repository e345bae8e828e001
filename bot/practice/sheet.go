package practice

import (
	"math"

	"dogleg/bot/figure"
	"dogleg/geometry"
)

// sheet is what an apprentice writes down: a length, the multiplier that it is
// taken by, the takeoffs, which are less than nothing where they come off, and what
// is there already and comes off too. All kinds of problem are worked on such a
// sheet; the slips are sheets filled in wrong.
type sheet struct{ base, multiplier, ends, there float64 }

func (s sheet) result() geometry.Length {
	return geometry.Length(s.base*s.multiplier + s.ends - s.there)
}

// sheet fills in the sheet of a problem, rightly and at full precision.
func (p Problem) sheet() sheet {
	both := (p.Takeoffs[0] + p.Takeoffs[1]).Inches()
	s := sheet{base: p.Set.Inches(), multiplier: p.Kind.multiplier(p.Angle())}
	switch p.Kind {
	case Travel:
	case Cut, Branch, TwoAngles:
		s.ends = -both
	case EndGap:
		s.ends = both
	case Trimming:
		s.base = (p.Dry - p.Set).Inches()
	case Marking:
		s.ends, s.there = both, p.Apart.Inches()
	case Rolling:
		s.base, s.ends = math.Hypot(p.Roll.Inches(), p.Rise.Inches()), -both
	case Piece:
		s.base, s.ends = p.Centers.Inches(), -both
	case Stagger:
		s.base = p.Spacing.Inches()
	case Fall:
		s.base, s.multiplier = p.Long.Inches()/12, p.Grade.InchesPerFoot()
	}
	return s
}

// multiplier is what a length is taken by in problems of a kind with bends of an
// angle; 1 where there is none.
func (k Kind) multiplier(bend geometry.Angle) float64 {
	sine, cosine := math.Sincos(bend.Degrees() * math.Pi / 180)
	switch k {
	case Travel, Cut, Branch, TwoAngles, Trimming, Rolling:
		return 1 / sine
	case EndGap, Marking:
		return cosine / sine
	case Stagger:
		return (1 - cosine) / sine
	case Piece, Fall:
	}
	return 1
}

// Multiplier is what a length is taken by in a problem, at full precision; 1 where
// there is none.
func (p Problem) Multiplier() float64 { return p.sheet().multiplier }

// Figure is the exact answer.
func (p Problem) Figure() geometry.Length { return p.sheet().result() }

// ByTheBook is the answer by multipliers that are rounded to so many decimals.
func (p Problem) ByTheBook(set figure.HandbookSet) geometry.Length {
	s := p.sheet()
	switch set {
	case figure.TwoDecimals:
		s.multiplier = math.Round(s.multiplier*100) / 100
	case figure.ThreeDecimals:
		s.multiplier = math.Round(s.multiplier*1000) / 1000
	case figure.ExactFigures:
	}
	if p.Kind == Fall || p.Kind == Stagger {
		return p.Figure() // no handbook table has these
	}
	return s.result()
}
