package figure

import (
	"strconv"

	"dogleg/geometry"
	"dogleg/parser"
)

// multiplier lists the multipliers of an angle: the six of the right
// triangle, and the tangent of half the angle, which staggers parallel lines
// and sizes a bend's takeoff from its radius.
//
// Set to run is cos a ÷ sin a, so that a 90 has 0; at 90 the run says nothing
// of set or travel, and those two are left out.
func (w *work) multiplier() error {
	a := w.asked
	if a == 0 {
		return w.missingAngle()
	}
	w.answer.Angle, w.answer.Main = a, parser.AngleOf
	w.triangleOfOne(a)
	w.factor(parser.Set, parser.Travel, 1/a.Sin())
	w.factor(parser.Set, parser.Run, a.Cos()/a.Sin())
	w.factor(parser.Travel, parser.Set, a.Sin())
	w.factor(parser.Travel, parser.Run, a.Cos())
	if a != geometry.QuarterBend {
		w.factor(parser.Run, parser.Travel, 1/a.Cos())
		w.factor(parser.Run, parser.Set, a.Tan())
	}
	w.factor(parser.Spacing, parser.Stagger, a.Half().Tan())
	w.factor(parser.Radius, parser.TakeoffOf, a.Half().Tan())
	return nil
}

// triangleOfOne are the steps that make the multipliers: in the triangle whose
// set is 1, run and travel are what a set is multiplied by.
func (w *work) triangleOfOne(a geometry.Angle) {
	set, run, travel := length(parser.Set, 1), length(parser.Run, 0), length(parser.Travel, geometry.Length(1/a.Sin()))
	if a != geometry.QuarterBend {
		run.Length = geometry.Length(1 / a.Tan())
		w.divide(RuleRunOfOne, set, a.Tan(), run)
	}
	w.step(Step{Name: StepRoot, Rule: RuleSquares, Terms: []Quantity{set, run}, Result: travel})
}

func (w *work) factor(from, to parser.Role, exact float64) {
	decimals := 3
	if w.settings.Handbook == TwoDecimals {
		decimals = 2
	}
	printed := strconv.FormatFloat(rounded(exact, decimals), 'f', decimals, 64)
	w.answer.Factors = append(w.answer.Factors, Factor{From: from, To: to, Exact: exact, Printed: printed})
}
