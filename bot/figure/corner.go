package figure

import (
	"cmp"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// corner figures a turn made of two bends: from the corner where the two lines
// would meet to each bend's center, where each line stops, the piece between.
func (w *work) corner() error {
	turns, err := w.cornerTurns()
	if err != nil {
		return err
	}
	w.asked = turns[0]
	w.answer.Angle, w.answer.Legs = turns[0]+turns[1], turns
	c, back, err := w.cornerOf(turns)
	if err != nil {
		return err
	}
	w.answer.Main = parser.Travel
	j, err := w.joinIn(w.answer.System, w.cornerBends(turns))
	if err == nil && j.tooRough() {
		err = w.measureFirst(j)
	}
	if isUnmeasured(err) {
		w.cornerTriangle(c, back)
		return nil
	}
	if err != nil {
		w.cornerTriangle(c, back)
		return err
	}
	w.use(j)
	if c.Travel < j.least()-hairline || c.Travel <= j.lost() {
		return w.cornerCollides(turns, j)
	}
	return w.cornerPiece(c, j, back)
}

// cornerTurns is what each bend turns: those that were named, one for both, or
// half of the turn each.
func (w *work) cornerTurns() ([2]geometry.Angle, error) {
	var turns [2]geometry.Angle
	for i, f := range w.fittingsOfCorner() {
		turns[i] = f.Angle
	}
	whole := cmp.Or(w.ask.Angle, geometry.QuarterBend)
	switch {
	case turns[0] == 0 && w.ask.Angle != 0 && w.ask.Angle < geometry.QuarterBend && w.ask.Angle != geometry.SixthBend*2:
		turns = [2]geometry.Angle{w.ask.Angle, w.ask.Angle} // two 45s: the bend was said, not the turn
	case turns[0] == 0:
		turns = [2]geometry.Angle{whole / 2, whole / 2}
	case w.ask.Angle == geometry.QuarterBend && turns[0]+turns[1] != geometry.QuarterBend:
		return turns, &Impossible{Cause: TurnDiffers, Subject: catalog.AngleName(turns[0]) + ", " + catalog.AngleName(turns[1]), Turns: [2]geometry.Angle{turns[0] + turns[1], whole}}
	}
	return turns, nil
}

// fittingsOfCorner are the two bends as they were said, one for both.
func (w *work) fittingsOfCorner() [2]catalog.Fitting {
	f := [2]catalog.Fitting{w.ask.Ends[0].Fitting, w.ask.Ends[1].Fitting}
	for end := range f {
		if (f[end] == catalog.Fitting{}) {
			f[end] = w.ask.Ends[1-end].Fitting
		}
	}
	return f
}

func (w *work) cornerBends(turns [2]geometry.Angle) [2]catalog.Fitting {
	return [2]catalog.Fitting{w.fittingAt(0, turns[0]), w.fittingAt(1, turns[1])}
}

// cornerOf finds the corner from a leg, the travel, where a line stops or the
// piece at hand. It settles the pipe on the way.
func (w *work) cornerOf(turns [2]geometry.Angle) (c geometry.Corner, back bool, err error) {
	pipe := w.pipeIfNeeded()
	for which, role := range []parser.Role{parser.Leg, parser.OtherLeg} {
		leg, ok, err := w.centered(role)
		if ok && err == nil {
			c, err = geometry.CornerLeg(leg, which, turns)
			if err == nil {
				err = pipe
			}
		}
		if ok || err != nil {
			return c, false, err
		}
	}
	if travel, ok, err := w.centerToCenter(); ok || err != nil {
		if err == nil {
			c, err = geometry.CornerTravel(travel, turns)
		}
		return c, false, err
	}
	if pipe != nil {
		return c, false, pipe
	}
	return w.cornerFromPipe(turns)
}

// cornerFromPipe finds the corner from what is there of pipe: where one stops
// before the corner, or the piece; or, where nothing is, the tightest that there
// is.
func (w *work) cornerFromPipe(turns [2]geometry.Angle) (c geometry.Corner, back bool, err error) {
	j, err := w.joinIn(w.answer.System, w.cornerBends(turns))
	if err != nil {
		return c, false, err
	}
	if j.tooRough() {
		return c, false, &Missing{Wanted: parser.TakeoffOf}
	}
	taken := j.taken()
	for which, role := range []parser.Role{parser.StopAt, parser.OtherStopAt} {
		if stop, ok, err := w.centered(role); ok || err != nil {
			if err == nil {
				c, err = geometry.CornerLeg(stop-taken.Takeoffs[which]-taken.Gaps[which], which, turns)
			}
			return c, false, err
		}
	}
	cut, ok, err := w.centered(parser.Cut)
	switch {
	case err != nil:
		return c, false, err
	case ok:
		travel, err := geometry.Centers(cut, taken)
		if err != nil {
			return c, false, err
		}
		w.add(RuleFromCut, length(parser.Travel, travel), append([]Quantity{length(parser.Cut, cut)}, takenTerms(j, false)...)...)
		c, err = geometry.CornerTravel(travel, turns)
		return c, true, err
	case w.ask.Want == parser.Least:
		c, err = geometry.CornerTravel(j.least(), turns)
		return c, false, err
	}
	return c, false, &Missing{Wanted: parser.Leg}
}

// cornerCollides says how near to the corner the bends can come.
func (w *work) cornerCollides(turns [2]geometry.Angle, j joint) error {
	least, err := geometry.CornerTravel(j.least(), turns)
	if err != nil {
		return err
	}
	return &Impossible{Cause: CornerTooTight, Subject: j.ends[0].Fitting.Key(), Smallest: least.Legs[0]}
}

// cornerTriangle puts the triangle into the answer, with its steps.
func (w *work) cornerTriangle(c geometry.Corner, back bool) {
	whole, turns := c.Turn(), c.Turns
	travel := length(parser.Travel, c.Travel)
	legs := [2]Quantity{length(parser.Leg, c.Legs[0]), length(parser.OtherLeg, c.Legs[1])}
	from := -1
	for i, q := range legs {
		if w.has(q.Role) && from < 0 {
			from = i
		}
	}
	if from >= 0 {
		w.multiply(RuleCorner, legs[from], whole.Sin()/turns[1-from].Sin(), travel)
	}
	for i, q := range legs {
		if i != from && (i == 0 || turns[0] != turns[1]) {
			w.multiply(RuleCornerLeg, travel, turns[1-i].Sin()/whole.Sin(), q)
		}
	}
	w.multiply(RuleCornerClear, legs[0], turns[0].Sin(), length(parser.Diagonal, c.Square))
	w.figured(parser.Leg, c.Legs[0])
	if turns[0] != turns[1] {
		w.figured(parser.OtherLeg, c.Legs[1])
	}
	w.figured(parser.Travel, c.Travel)
	w.figured(parser.Diagonal, c.Square)
	if back {
		w.answer.Main = parser.Leg
	}
}

// cornerPiece puts the piece into the answer and where the two lines stop, and
// lays them out.
func (w *work) cornerPiece(c geometry.Corner, j joint, back bool) error {
	taken := j.taken()
	cut, err := geometry.Cut(c.Travel, taken)
	if err != nil {
		return err
	}
	w.answer.Main = parser.Cut
	w.figured(parser.Cut, cut)
	w.pipeLength(cut)
	var stops [2]geometry.Length
	for i, role := range []parser.Role{parser.StopAt, parser.OtherStopAt} {
		stops[i] = c.Legs[i] + taken.Takeoffs[i] + taken.Gaps[i]
		if i == 0 || !within(stops[1], stops[0], 0) {
			w.figured(role, stops[i])
		}
	}
	w.cornerTriangle(c, back)
	if w.ask.Want == parser.Least {
		w.answer.Main = parser.Leg
	}
	w.doubts(j.ends, j.lost(), c.Travel)
	for i, role := range []parser.Role{parser.StopAt, parser.OtherStopAt} {
		if _, ok := w.answer.Length(role); ok {
			terms := []Quantity{length([]parser.Role{parser.Leg, parser.OtherLeg}[i], c.Legs[i]), length(parser.TakeoffOf, taken.Takeoffs[i])}
			w.add(RuleStop, length(role, stops[i]), withGaps(terms, taken.Gaps[i], 1)...)
		}
	}
	if !back {
		w.add(RuleCut, length(parser.Cut, cut), append([]Quantity{length(parser.Travel, c.Travel)}, takenTerms(j, true)...)...)
	}
	w.endWith(w.answer.Main)
	if w.answer.Main == parser.Cut {
		w.siteSteps(length(parser.StopAt, stops[0]), w.sawn(cut))
	}
	w.assume(func(s catalog.System) geometry.Length {
		other, err := w.joinIn(s, w.cornerBends(c.Turns))
		if err != nil || other.tooRough() {
			return 0
		}
		return max(0, c.Travel-other.lost())
	})
	return w.walkedCorner(c, j, cut, stops)
}

// walkedCorner lays the corner out: the first line along X toward the corner at
// the origin, the second away from it as far turned as the two bends turn.
func (w *work) walkedCorner(c geometry.Corner, j joint, cut geometry.Length, stops [2]geometry.Length) error {
	taken := j.taken()
	walker := walk.From(walk.Point{X: -stops[0]})
	walker.Forward(taken.Takeoffs[0] + taken.Gaps[0])
	walker.Turn(c.Turns[0], walk.Up)
	walker.Forward(taken.Takeoffs[0] + taken.Gaps[0])
	walker.Forward(cut)
	walker.Forward(taken.Takeoffs[1] + taken.Gaps[1])
	walker.Turn(c.Turns[1], walk.Up)
	walker.Forward(taken.Takeoffs[1] + taken.Gaps[1])
	whole := c.Turn()
	return w.landed(walker.Path(), walk.Point{X: stops[1] * geometry.Length(whole.Cos()), Y: stops[1] * geometry.Length(whole.Sin())})
}
