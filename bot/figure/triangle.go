package figure

import (
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// triangle finds the offset from what was given, in the order of what is
// surest: with an angle the set, travel, run; then the cut or the end gap with
// their takeoffs; without an angle two lengths.
func (w *work) triangle() (solved, error) {
	set, hasSet, err := w.set()
	if err != nil {
		return solved{}, err
	}
	run, hasRun, err := w.centered(parser.Run)
	if err != nil {
		return solved{}, err
	}
	travel, hasTravel, err := w.centered(parser.Travel)
	if err != nil {
		return solved{}, err
	}
	o := solved{rolling: w.rolling}
	a := w.asked
	switch {
	case a != 0 && hasSet:
		o.from = parser.Set
		o.Offset, err = geometry.SetAngle(set, a)
	case a != 0 && hasTravel:
		o.from = parser.Travel
		o.Offset, err = geometry.TravelAngle(travel, a)
	case a != 0 && hasRun:
		o.from = parser.Run
		o.Offset, err = geometry.RunAngle(run, a)
	case a == 0 && hasSet && hasRun:
		o.Offset, err = geometry.SetRun(set, run)
	case a == 0 && hasSet && hasTravel:
		o.Offset, err = geometry.SetTravel(set, travel)
	case a == 0 && hasRun && hasTravel:
		o.Offset, err = geometry.RunTravel(run, travel)
	default:
		return w.fromPiece(set, run, hasSet, hasRun)
	}
	if err != nil {
		return o, err
	}
	return o, w.agrees(o.Offset)
}

// agrees refuses a run or a travel, measured beside what made the triangle,
// that the triangle does not have: with these bends no pipe has both, and
// which of them is wrong nobody can say from here.
func (w *work) agrees(o geometry.Offset) error {
	for _, side := range []Length{{Role: parser.Run, Length: o.Run}, {Role: parser.Travel, Length: o.Travel}} {
		measured, ok := w.given.of(side.Role)
		if ok && !within(measured, side.Length, apart) {
			return &Impossible{
				Cause: Overgiven, Subject: string(side.Role), Lengths: [2]geometry.Length{measured, side.Length},
				Near: []string{catalog.AngleName(o.Angle)},
			}
		}
	}
	return nil
}

// fromPiece finds the offset from a cut, or from an end gap, and the takeoffs.
func (w *work) fromPiece(set, run geometry.Length, hasSet, hasRun bool) (o solved, err error) {
	o.rolling = w.rolling
	a := w.asked
	cut, hasCut, err := w.centered(parser.Cut)
	if err != nil {
		return o, err
	}
	if hasCut && (a != 0 || hasSet || hasRun) {
		return w.fromCut(o, cut, set, run, hasSet)
	}
	gap, hasGap, err := w.endGap()
	if err != nil {
		return o, err
	}
	if a == 0 || !hasGap {
		return o, w.missingOfOffset()
	}
	j, err := w.join(a)
	if err != nil {
		return o, err
	}
	if j.tooRough() {
		return o, w.measureFirst(j)
	}
	o.from, o.joint = parser.Run, j
	o.standing = w.standingEnds(j)
	if _, unknown := w.endsUnknown(j.ends); unknown && o.standing == nil {
		return o, &Missing{Wanted: parser.TakeoffOf, Of: parser.EndGap}
	}
	run, err = geometry.RunOf(gap, o.ofStanding())
	if err != nil {
		return o, err
	}
	w.add(RuleFromEndGap, length(parser.Run, run), append([]Quantity{{Role: parser.EndGap, Length: gap}}, takenTerms(o.ofStandingJoint(), true)...)...)
	o.Offset, err = geometry.RunAngle(run, a)
	return o, err
}

func (w *work) fromCut(o solved, cut, set, run geometry.Length, hasSet bool) (solved, error) {
	j, err := w.join(w.asked)
	if err != nil {
		return o, err
	}
	travel, err := geometry.Centers(cut, j.taken())
	if err != nil {
		return o, err
	}
	w.add(RuleFromCut, length(parser.Travel, travel), append([]Quantity{{Role: parser.Cut, Length: cut}}, takenTerms(j, false)...)...)
	o.back = true
	switch {
	case w.asked != 0:
		o.from = parser.Travel
		o.Offset, err = geometry.TravelAngle(travel, w.asked)
	case hasSet:
		o.Offset, err = geometry.SetTravel(set, travel)
	default:
		o.Offset, err = geometry.RunTravel(run, travel)
	}
	return o, err
}

// endGap is the room along the line that was measured, by either name.
func (w *work) endGap() (geometry.Length, bool, error) {
	if l, ok, err := w.centered(parser.EndGap); ok || err != nil {
		return l, ok, err
	}
	return w.centered(parser.Room)
}

// missingOfOffset asks for the one fact that helps most: the angle, then the
// pipe, then the set.
func (w *work) missingOfOffset() error {
	if w.asked == 0 {
		return w.missingAngle()
	}
	if !w.takeoffsSaid() {
		if err := w.pipe(); err != nil {
			return err
		}
	}
	return &Missing{Wanted: parser.Set}
}

func (w *work) missingAngle() error {
	bends := []geometry.Angle{geometry.EighthBend, geometry.SixteenthBend, geometry.SixthBend, geometry.QuarterBend}
	if err := w.pipe(); err == nil && len(w.answer.System.Bends()) > 0 {
		bends = w.answer.System.Bends()
	}
	return &Missing{Wanted: parser.AngleOf, Options: bendNames(bends)}
}
