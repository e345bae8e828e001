package figure

import (
	"dogleg/geometry"
	"dogleg/parser"
)

// fall figures a graded line: of length, grade and fall the one that is
// missing, and the invert at the other end. An offset that lies flat in the
// drain counts with its travel, not its run: the line falls over all the pipe
// there is.
//
// Whether the line meets the least grade for its size is noted by the code that
// the person has named, and by no other.
func (w *work) fall() error {
	long, hasLong, err := w.developed()
	if err != nil {
		return err
	}
	drop, hasDrop, err := w.drop()
	if err != nil {
		return err
	}
	grade := w.ask.Grade
	var g geometry.Graded
	switch {
	case grade != 0 && hasLong:
		g, err = geometry.SlopeLength(grade, long)
		w.multiply(RuleFall, length(parser.Long, long), float64(grade), length(parser.Drop, g.Fall))
		w.answer.Main = parser.Drop
	case grade != 0 && hasDrop:
		g, err = geometry.SlopeFall(grade, drop)
		w.divide(RuleLength, length(parser.Drop, drop), float64(grade), length(parser.Long, g.Length))
		w.answer.Main = parser.Long
	case hasDrop && hasLong:
		g, err = geometry.FallLength(drop, long)
		along := long.Feet()
		if w.settings.Metric {
			along = long.Millimeters() / 1000
		}
		w.divide(RuleGrade, length(parser.Drop, drop), along, length(parser.Grade, geometry.Length(g.Slope.InchesPerFoot())))
		w.answer.Main = parser.Grade
	default:
		return w.missingOfFall(hasLong || hasDrop)
	}
	if err != nil {
		return err
	}
	return w.fallAnswer(g)
}

func (w *work) missingOfFall(hasOne bool) error {
	switch {
	case w.ask.Grade != 0 || !hasOne:
		return &Missing{Wanted: parser.Long}
	case w.has(parser.Drop) || w.has(parser.Upper) && w.has(parser.Lower):
		return &Missing{Wanted: parser.Long}
	}
	return &Missing{Wanted: parser.Grade, Options: []string{"1/4 in per foot", "1/8 in per foot"}}
}

// developed is all the pipe along the line: the lengths given, and the travel
// of an offset in it.
func (w *work) developed() (geometry.Length, bool, error) {
	var straights geometry.Length
	var terms []Quantity
	for _, m := range w.ask.All(parser.Long) {
		w.measured(m, m.Length)
		straights += m.Length
		terms = append(terms, length(parser.Long, m.Length))
	}
	set, flat, err := w.set()
	if err != nil {
		return 0, false, err
	}
	if w.asked == 0 || !flat || len(terms) == 0 {
		if len(terms) > 1 {
			w.add(RuleDeveloped, length(parser.Long, straights), terms...)
		}
		return straights, len(terms) > 0, nil
	}
	o, err := geometry.SetAngle(set, w.asked)
	if err != nil {
		return 0, false, err
	}
	w.answer.Angle = w.asked
	w.figured(parser.Travel, o.Travel)
	w.multiply(RuleSetToTravel, length(parser.Set, set), 1/w.asked.Sin(), length(parser.Travel, o.Travel))
	long, err := geometry.DevelopedLength(straights, o)
	w.add(RuleDeveloped, length(parser.Long, long), append(terms, length(parser.Travel, o.Travel))...)
	return long, true, err
}

// drop is how far the line comes down: measured, or between two inverts.
func (w *work) drop() (geometry.Length, bool, error) {
	drop, ok, err := w.centered(parser.Drop)
	if err != nil {
		return 0, false, err
	}
	upper, hasUpper := w.ask.Length(parser.Upper)
	lower, hasLower := w.ask.Length(parser.Lower)
	if !hasUpper || !hasLower {
		return drop, ok, nil
	}
	between, err := geometry.FallBetween(upper, lower)
	if err != nil {
		return 0, false, err
	}
	w.crosscheckFigured(parser.Drop, between)
	if ok {
		return drop, true, nil
	}
	w.add(RuleInvert, length(parser.Drop, between), length(parser.Upper, upper), less(parser.Lower, lower))
	return between, true, nil
}

func (w *work) fallAnswer(g geometry.Graded) error {
	w.answer.Grade = g.Slope
	w.figured(parser.Drop, g.Fall)
	w.figured(parser.Long, g.Length)
	w.crosscheckFigured(parser.Drop, g.Fall)
	if err := w.otherInvert(g); err != nil {
		return err
	}
	if w.wants(parser.Upper, parser.Lower) {
		if _, ok := w.answer.Length(w.ask.Want); ok {
			w.answer.Main = w.ask.Want
		}
	}
	w.endWith(w.answer.Main)
	return w.minimums(g.Slope)
}

// otherInvert figures the invert at the end where it was not given.
func (w *work) otherInvert(g geometry.Graded) error {
	upper, hasUpper := w.ask.Length(parser.Upper)
	lower, hasLower := w.ask.Length(parser.Lower)
	fall := length(parser.Drop, g.Fall)
	switch {
	case hasUpper && !hasLower:
		l, err := g.LowerInvert(upper)
		if err != nil {
			return err
		}
		fall.Minus = true
		w.figured(parser.Lower, l)
		w.add(RuleInvert, length(parser.Lower, l), length(parser.Upper, upper), fall)
		w.answer.Main = parser.Lower
	case hasLower && !hasUpper:
		l, err := g.UpperInvert(lower)
		if err != nil {
			return err
		}
		w.figured(parser.Upper, l)
		w.add(RuleInvert, length(parser.Upper, l), length(parser.Lower, lower), fall)
		w.answer.Main = parser.Upper
	}
	return nil
}
