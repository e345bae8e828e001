package figure

import (
	"dogleg/geometry"
	"dogleg/parser"
)

// toCenters brings a measure to center to center, by the way the tape was
// laid.
func (w *work) toCenters(m parser.Measure) (geometry.Length, error) {
	switch m.Method {
	case "", parser.Centers:
		return m.Length, nil
	case parser.OutsideToOutside, parser.BackToBack:
		return w.byOutsides(m, geometry.OutsideToOutside)
	case parser.InsideToInside:
		return w.byOutsides(m, geometry.InsideToInside)
	case parser.OutsideToInside:
		return w.byOutsides(m, func(reading, first, second geometry.Length) (geometry.Length, error) {
			if first != second {
				return 0, &Missing{Wanted: m.Role, Of: unlikeSides} // which of the two was the outside one?
			}
			return geometry.SameSide(reading, first, second)
		})
	case parser.CenterToOutside:
		return w.byOneSide(m, geometry.CenterToOutside)
	case parser.CenterToInside:
		return w.byOneSide(m, geometry.CenterToInside)
	case parser.FaceToFace, parser.CenterToFace, parser.EndToCenter, parser.EndToEnd:
		return w.byEnds(m)
	}
	return m.Length, nil
}

// unlikeSides marks a length that can't be read as long as nobody says which of
// two unlike pipes its outside was of.
const unlikeSides parser.Role = "method"

func (w *work) byOutsides(m parser.Measure, bring func(reading, first, second geometry.Length) (geometry.Length, error)) (geometry.Length, error) {
	first, err := w.outside(0)
	if err != nil {
		return 0, err
	}
	second, err := w.outside(1)
	if err != nil {
		return 0, err
	}
	return bring(m.Length, first, second)
}

// byOneSide brings a reading from one pipe's center to the other's side to
// center to center. Whose side it was doesn't matter where the pipes are alike;
// where they aren't, the reading is asked for again.
func (w *work) byOneSide(m parser.Measure, bring func(reading, other geometry.Length) (geometry.Length, error)) (geometry.Length, error) {
	return w.byOutsides(m, func(reading, first, second geometry.Length) (geometry.Length, error) {
		if first != second {
			return 0, &Missing{Wanted: m.Role}
		}
		return bring(reading, second)
	})
}

// byEnds brings a reading from faces or pipe ends to center to center. Only
// along a piece does that mean anything; a set that was measured so is asked
// for again.
func (w *work) byEnds(m parser.Measure) (geometry.Length, error) {
	if m.Role != parser.CenterToCenter && m.Role != parser.Travel {
		return 0, &Missing{Wanted: m.Role}
	}
	j, err := w.join(w.asked)
	if err != nil {
		return 0, err
	}
	if j.tooRough() && m.Method != parser.EndToEnd {
		return 0, w.measureFirst(j)
	}
	taken := j.taken()
	switch m.Method {
	case parser.FaceToFace:
		return geometry.FaceToFace(m.Length, j.faces())
	case parser.CenterToFace:
		return geometry.CenterToFace(m.Length, j.faces()[1])
	case parser.EndToCenter:
		taken.Takeoffs[1], taken.Gaps[1] = 0, 0
		return geometry.Centers(m.Length, taken)
	case parser.EndToEnd:
		return geometry.Centers(m.Length, taken)
	case parser.Centers, parser.OutsideToOutside, parser.InsideToInside, parser.OutsideToInside, parser.BackToBack,
		parser.CenterToOutside, parser.CenterToInside:
	}
	return m.Length, nil
}

// measured adds the steps that take a measure from the tape to the figuring.
func (w *work) measured(m parser.Measure, centers geometry.Length) {
	taken := length(m.Role, m.Length)
	w.step(Step{Name: StepMeasure, Rule: RuleTape, Result: taken})
	change := centers - m.Length
	if m.Method == "" || m.Method == parser.Centers || change == 0 {
		return
	}
	terms := []Quantity{taken, {Role: changeBy(m.Method), Length: max(change, -change), Minus: change < 0}}
	w.step(Step{Name: StepConvert, Rule: RuleCenters, Result: length(m.Role, centers), Terms: terms})
}

// changeBy is what a way of laying the tape leaves out, or counts in.
func changeBy(m parser.Method) parser.Role {
	switch m {
	case parser.FaceToFace, parser.CenterToFace:
		return parser.Face
	case parser.EndToCenter, parser.EndToEnd:
		return parser.TakeoffOf
	case parser.Centers, parser.OutsideToOutside, parser.InsideToInside, parser.OutsideToInside, parser.BackToBack,
		parser.CenterToOutside, parser.CenterToInside:
	}
	return HalfOutsides
}

// step adds a step.
func (w *work) step(s Step) {
	if w.answer.Steps == nil {
		w.answer.Steps = make([]Step, 0, usualSteps)
	}
	w.answer.Steps = append(w.answer.Steps, s)
}

// usualSteps is how many steps an answer has room for at first: those of an offset,
// with what [work.inSiteOrder] puts in.
const usualSteps = 12
