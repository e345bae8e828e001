package figure

import (
	"dogleg/geometry"
	"dogleg/parser"
)

// set is the set, or the true set of roll and rise. One of the two alone is a
// set that is level or plumb; one of them beside a set leaves the other leg. A
// set that is shorter than the rise cannot be the true one: it is the roll.
func (w *work) set() (geometry.Length, bool, error) {
	set, hasSet, err := w.centered(parser.Set)
	if err != nil {
		return 0, false, err
	}
	roll, hasRoll, err := w.centered(parser.Roll)
	if err != nil {
		return 0, false, err
	}
	rise, hasRise, err := w.centered(parser.Rise)
	switch {
	case err != nil:
		return 0, false, err
	case hasRoll && hasRise:
		return w.trueSet(geometry.Rolling{Roll: roll, Rise: rise})
	case hasSet && hasRise && set <= rise:
		return w.trueSet(geometry.Rolling{Roll: set, Rise: rise})
	case hasSet && hasRoll:
		return w.otherLeg(set, roll, parser.Rise)
	case hasSet && hasRise:
		return w.otherLeg(set, rise, parser.Roll)
	case hasSet:
		return set, true, nil
	case w.ask.Rolling && !hasRoll:
		return 0, false, &Missing{Wanted: parser.Roll}
	case w.ask.Rolling && !hasRise:
		return 0, false, &Missing{Wanted: parser.Rise}
	}
	return roll + rise, hasRoll || hasRise, nil
}

// trueSetAlone answers with the true set where nothing else is asked: it hangs
// on no angle.
func (w *work) trueSetAlone() error {
	set, _, err := w.set()
	if err != nil {
		return err
	}
	w.answer.Main = parser.Set
	w.figured(parser.Set, set)
	w.endWith(parser.Set)
	return nil
}

func (w *work) trueSet(r geometry.Rolling) (geometry.Length, bool, error) {
	set, err := r.TrueSet()
	if err != nil {
		return 0, false, err
	}
	w.roll(r)
	if w.has(parser.Roll) {
		w.crosscheckFigured(parser.Set, set)
	}
	w.step(Step{
		Name: StepRoot, Rule: RuleTrueSet, Result: length(parser.Set, set),
		Terms: []Quantity{{Role: parser.Roll, Length: r.Roll}, {Role: parser.Rise, Length: r.Rise}},
	})
	w.step(Step{
		Name: StepTangent, Rule: RuleRollAngle, Result: Quantity{Role: parser.RollAngle, Angle: w.answer.RollAngle},
		Terms: []Quantity{{Role: parser.Roll, Length: r.Roll}, {Role: parser.Rise, Length: r.Rise}},
	})
	return set, true, nil
}

// otherLeg finds the roll or the rise that goes with a true set and the other.
func (w *work) otherLeg(set, leg geometry.Length, other parser.Role) (geometry.Length, bool, error) {
	o, err := geometry.SetTravel(leg, set)
	if err != nil {
		return 0, false, &geometry.Problem{Reason: geometry.TravelTooShort, What: "set", Value: set.Inches()}
	}
	r := geometry.Rolling{Roll: leg, Rise: o.Run}
	if other == parser.Roll {
		r = geometry.Rolling{Roll: o.Run, Rise: leg}
	}
	w.roll(r)
	return set, true, nil
}

func (w *work) roll(r geometry.Rolling) {
	w.rolling = r
	w.answer.Rolling = true
	w.answer.RollAngle, _ = r.FromPlumb() // r has a set: it was just figured
}
