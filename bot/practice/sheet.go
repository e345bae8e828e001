package practice

import (
	"math"

	"dogleg/bot/figure"
	"dogleg/geometry"
)

// sheet is what an apprentice writes down: a length, the multiplier that it is
// taken by, and what is added at the end, which is less than nothing where
// takeoffs come off. All kinds of problem are worked on such a sheet; the slips
// are sheets filled in wrong.
type sheet struct{ base, multiplier, ends float64 }

func (s sheet) result() geometry.Length { return geometry.Length(s.base*s.multiplier + s.ends) }

// sheet fills in the sheet of a problem, rightly and at full precision.
func (p Problem) sheet() sheet {
	sine, cosine := math.Sincos(p.Angle().Degrees() * math.Pi / 180)
	both := (p.Takeoffs[0] + p.Takeoffs[1]).Inches()
	s := sheet{base: p.Set.Inches(), multiplier: 1}
	switch p.Kind {
	case Travel:
		s.multiplier = 1 / sine
	case Cut:
		s.multiplier, s.ends = 1/sine, -both
	case EndGap:
		s.multiplier, s.ends = cosine/sine, both
	case Rolling:
		s.base = math.Hypot(p.Roll.Inches(), p.Rise.Inches())
		s.multiplier, s.ends = 1/sine, -both
	case Piece:
		s.base, s.ends = p.Centers.Inches(), -both
	case Stagger:
		s.base, s.multiplier = p.Spacing.Inches(), (1-cosine)/sine
	case Fall:
		s.base, s.multiplier = p.Long.Inches()/12, p.Grade.InchesPerFoot()
	}
	return s
}

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
