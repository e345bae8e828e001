package figure

import (
	"math"

	"dogleg/geometry"
	"dogleg/parser"
)

// Handbooks print rounded multipliers, and apprentices are marked against
// them. S. E. Dibble, Elements of Plumbing, 1918, "Measurements" prints two
// decimals (1.15, 1.41, 2.00, 2.61); exam keys commonly print three (1.155,
// 1.414, 2.000, 2.613). Both sets are rounded correctly here: Dibble's 5.12
// for 11-1/4 and 10.22 for 5-5/8 are slips of 5.13 and 10.20.

// decimals is how many decimals a set of multipliers has; 0 for full
// precision.
func (h HandbookSet) decimals() int {
	switch h {
	case TwoDecimals:
		return 2
	case ThreeDecimals:
		return 3
	case ExactFigures:
	}
	return 0
}

// rounded rounds a multiplier to so many decimals, a half up as print does.
func rounded(exact float64, decimals int) float64 {
	scale := math.Pow(10, float64(decimals))
	return math.Floor(exact*scale+0.5) / scale
}

// multipliers are those of one angle, as a set prints them.
type multipliers struct{ toTravel, toRun, toSet float64 }

// byTheBook figures an offset with the multipliers that lead from what was
// given: set, run or travel.
func byTheBook(o geometry.Offset, from parser.Role, set HandbookSet) (geometry.Offset, multipliers) {
	d, a := set.decimals(), o.Angle
	m := multipliers{1, 1, 1}
	switch from {
	case parser.Run:
		m.toTravel, m.toSet = rounded(1/a.Cos(), d), rounded(a.Tan(), d)
		return scaled(o.Run, m, a), m
	case parser.Travel:
		m.toRun, m.toSet = rounded(a.Cos(), d), rounded(a.Sin(), d)
		return scaled(o.Travel, m, a), m
	default:
		m.toTravel, m.toRun = rounded(1/a.Sin(), d), rounded(a.Cos()/a.Sin(), d)
		return scaled(o.Set, m, a), m
	}
}

func scaled(base geometry.Length, m multipliers, a geometry.Angle) geometry.Offset {
	return geometry.Offset{
		Set:    base * geometry.Length(m.toSet),
		Run:    base * geometry.Length(m.toRun),
		Travel: base * geometry.Length(m.toTravel),
		Angle:  a,
	}
}

// exactly are the multipliers at full precision, by the same road.
func exactly(a geometry.Angle, from parser.Role) multipliers {
	switch from {
	case parser.Run:
		return multipliers{toTravel: 1 / a.Cos(), toSet: a.Tan(), toRun: 1}
	case parser.Travel:
		return multipliers{toTravel: 1, toRun: a.Cos(), toSet: a.Sin()}
	default:
		return multipliers{toTravel: 1 / a.Sin(), toRun: a.Cos() / a.Sin(), toSet: 1}
	}
}

// handbook puts beside the exact figures what rounded multipliers make of
// them: those of the user's set, or three decimals to compare with.
func (w *work) handbook(o solved) {
	set := w.settings.Handbook
	if set == ExactFigures {
		set = ThreeDecimals
	}
	book, m := byTheBook(o.Offset, o.from, set)
	h := &Handbook{Name: string(set), Multiplier: m.toTravel, Travel: book.Travel, Run: book.Run}
	if o.pieced {
		h.Cut = book.Travel - o.lost()
		h.EndGap = book.Run + o.lostOfStanding()
	}
	h.Differs = w.differs(o, h)
	w.answer.Handbook = h
}

// choicesByHandbook figures the bends of a fit as the answer is figured, by the
// user's handbook. Whether a bend fits was settled by the exact figures.
func (w *work) choicesByHandbook(set geometry.Length) {
	if w.settings.Handbook == ExactFigures {
		return
	}
	for i, c := range w.answer.Bends {
		if c.Why == TrimmedElbow {
			continue // no book has its multiplier
		}
		lost := c.Travel - c.Cut
		book, _ := byTheBook(geometry.Offset{Set: set, Run: c.Run, Travel: c.Travel, Angle: c.Angle}, parser.Set, w.settings.Handbook)
		longer := book.Run - c.Run
		c.Run, c.Travel = book.Run, book.Travel
		c.Spare -= longer
		if c.EndGap != 0 {
			c.EndGap += longer
		}
		if c.Cut != 0 {
			c.Cut = book.Travel - lost
		}
		w.answer.Bends[i] = c
	}
}

// differs says whether the user's tape shows another mark by the handbook.
func (w *work) differs(o solved, h *Handbook) bool {
	pairs := [][2]geometry.Length{{o.Travel, h.Travel}, {o.Run, h.Run}}
	if o.pieced {
		pairs = append(pairs, [2]geometry.Length{o.cut, h.Cut}, [2]geometry.Length{o.endGap, h.EndGap})
	}
	for _, p := range pairs {
		if p[0].Tape(w.settings.Division).Length() != p[1].Tape(w.settings.Division).Length() {
			return true
		}
	}
	return false
}
