package figure

import (
	"cmp"
	"errors"
	"slices"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// gentlest is why a bend is the best: of all that fit, it turns the line
// least, which keeps the flow.
const gentlest = "gentlest that fits"

// Why a bend can't be.
const (
	hubsCollide = "hubs collide"
	tooLong     = "too long for the room"
)

// MeasureFirst is what is to be done about a bend that may fit, of which the
// takeoff is known too badly to cut by.
const MeasureFirst = "measure the fitting first"

// space is what there is along the line: a run, center to center, or a room,
// which holds the takeoffs too.
type space struct {
	long   geometry.Length
	isRoom bool
}

// fit finds which bend suits a set and the space there is for it. The angle of
// the answer is the true one; Bends holds each bend that there is, the best
// first, and the lengths are those of the best.
//
// A run is filled by one angle exactly: its tangent is set over run. A room
// holds the takeoffs, which depend on the angle; for elbows that are trimmed
// to suit there is a closed form. Otherwise the angle is that of the flattest
// offset that could fit at all, and a bend must be sharper.
func (w *work) fit() error {
	set, ok, err := w.set()
	if err != nil {
		return err
	}
	if !ok {
		return &Missing{Wanted: parser.Set}
	}
	s, err := w.space()
	if err != nil {
		return err
	}
	w.answer.Kind = parser.Fit
	if w.asked == 0 && !s.isRoom {
		return w.offset() // one angle fills a run: the true one
	}
	if w.asked == 0 && w.fittingSaid() {
		missing := &Missing{Wanted: parser.AngleOf, Of: parser.TakeoffOf}
		if w.pipe() == nil {
			missing.Options = bendNames(w.answer.System.Bends())
		}
		return missing
	}
	if err := w.pipeForFit(s); err != nil {
		return err
	}
	if err := w.trueAngle(set, s); err != nil {
		return err
	}
	return w.choose(set, s)
}

func (w *work) space() (space, error) {
	run, ok, err := w.centered(parser.Run)
	if ok || err != nil {
		return space{long: run}, err
	}
	room, ok, err := w.endGap()
	if !ok && err == nil {
		err = &Missing{Wanted: parser.Room}
	}
	return space{room, true}, err
}

// fittingSaid says whether the message has a measure of a fitting. Where it
// names none it can be that of any bend, and holds for no other.
func (w *work) fittingSaid() bool {
	return w.ask.Ends[0].Takeoff != 0 || w.ask.Ends[0].Face != 0 || w.ask.Ends[1].Takeoff != 0 || w.ask.Ends[1].Face != 0
}

// pipeForFit settles the pipe. For a run it is not needed: the bends are then
// compared by their runs alone.
func (w *work) pipeForFit(s space) error {
	err := w.pipeIfNeeded()
	var missing *Missing
	if !s.isRoom && errors.As(err, &missing) {
		return nil
	}
	return err
}

// trueAngle figures the angle that fills the space.
func (w *work) trueAngle(set geometry.Length, s space) error {
	o, err := geometry.SetRun(set, s.long)
	if err != nil {
		return err
	}
	w.answer.Angle = cmp.Or(w.asked, o.Angle)
	return nil
}

// choose compares the bends there are and puts the best into the answer.
func (w *work) choose(set geometry.Length, s space) error {
	for _, a := range w.bendsToTry() {
		if c, ok := w.choice(set, s, a); ok {
			w.answer.Bends = append(w.answer.Bends, c)
		}
	}
	if c, ok := w.trimmedChoice(set, s); ok {
		w.answer.Angle = c.Angle
		w.answer.Bends = append(w.answer.Bends, c)
	}
	slices.SortStableFunc(w.answer.Bends, byFit)
	if len(w.answer.Bends) == 0 {
		return &Impossible{Cause: NoFit, Subject: catalog.AngleName(w.answer.Angle)}
	}
	if !w.answer.Bends[0].Fits {
		return w.noneFits(set, s)
	}
	if w.answer.Bends[0].Why == "" {
		w.answer.Bends[0].Why = gentlest
	}
	before := slices.Clone(w.answer.Steps)
	if err := w.best(set, s, w.answer.Bends[0]); err != nil {
		return err
	}
	w.choicesByHandbook(set)
	if w.answer.Main == parser.AngleOf {
		w.explainAngle(before, set, s)
	}
	return nil
}

// explainAngle leaves of the steps those that lead to the true angle, where that
// is what was asked for. For elbows that are trimmed to suit there is no short
// way to it, and where no pipe was said it is explained already.
func (w *work) explainAngle(before []Step, set geometry.Length, s space) {
	explained := slices.ContainsFunc(w.answer.Steps, func(s Step) bool { return s.Result.Role == parser.AngleOf })
	trimmed := func(c Choice) bool { return c.Why == TrimmedElbow }
	if explained || slices.ContainsFunc(w.answer.Bends, trimmed) {
		return
	}
	w.answer.Steps = before
	long := length(parser.Run, s.long)
	if s.isRoom {
		long.Role = parser.Room
	}
	angle := Quantity{Role: parser.AngleOf, Angle: w.answer.Angle}
	w.step(Step{Name: StepTangent, Rule: RuleTrueAngle, Result: angle, Terms: []Quantity{length(parser.Set, set), long}})
}

// byFit puts what fits before what does not; of what fits stock bends before
// elbows that are cut by hand, the gentlest first, of what does not the nearest
// to fitting.
func byFit(a, b Choice) int {
	switch {
	case a.Fits != b.Fits && a.Fits:
		return -1
	case a.Fits != b.Fits:
		return 1
	case a.Fits && (a.Why == TrimmedElbow) != (b.Why == TrimmedElbow):
		return cmp.Compare(boolInt(a.Why == TrimmedElbow), boolInt(b.Why == TrimmedElbow))
	case a.Fits:
		return cmp.Compare(a.Angle, b.Angle)
	}
	return cmp.Compare(b.Spare, a.Spare)
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// bendsToTry are the bends of the pipe, or of the trade where no pipe was
// said; an angle that was said is tried alone.
func (w *work) bendsToTry() []geometry.Angle {
	switch {
	case w.asked != 0:
		return []geometry.Angle{w.asked}
	case w.settled && len(w.answer.System.Bends()) > 0:
		return w.answer.System.Bends()
	}
	return geometry.Bends()
}

// choice is what one bend makes of the space; false where it makes nothing.
func (w *work) choice(set geometry.Length, s space, a geometry.Angle) (Choice, bool) {
	o, err := geometry.SetAngle(set, a)
	if err != nil {
		return Choice{}, false
	}
	c := Choice{Angle: a, Run: o.Run, Travel: o.Travel, Spare: s.long - o.Run}
	j, err := w.joinForFit(a)
	if err != nil {
		c.Fits = !s.isRoom && c.Spare >= -hairline && !w.settled
		if !c.Fits {
			c.Why = whyNot(err)
		}
		return c, true
	}
	w.chosen(&c, s, j)
	return c, true
}

// joinForFit is the joint of one bend: of what was said of this bend, or else of
// what is known. What was said of another does not hold for it.
func (w *work) joinForFit(a geometry.Angle) (joint, error) {
	if w.fittingSaid() && a != w.asked {
		return w.knownJoint(catalog.BendOf(a))
	}
	if !w.settled && !w.takeoffsSaid() {
		return joint{}, &Missing{Wanted: parser.PipeOf}
	}
	return w.joinIn(w.answer.System, [2]catalog.Fitting{w.fittingAt(0, a), w.fittingAt(1, a)})
}

// chosen puts the piece into a choice and says whether it can be.
func (w *work) chosen(c *Choice, s space, j joint) {
	c.Ends = j.ends
	c.Unsure, c.Band = !j.sure() || !j.sureGap(), j.band()
	c.EndGap = c.Run + j.lost()
	if s.isRoom {
		c.Spare = s.long - c.EndGap
	}
	switch {
	case c.Travel < j.least()-hairline || c.Travel <= j.lost():
		c.Why = hubsCollide
	case c.Spare < -hairline:
		c.Why, c.Cut = tooLong, c.Travel-j.lost()
	case j.tooRough():
		c.Fits, c.Why = true, MeasureFirst
	default:
		c.Fits, c.Cut = true, c.Travel-j.lost()
	}
}

func whyNot(err error) string {
	var impossible *Impossible
	if errors.As(err, &impossible) {
		return string(impossible.Cause)
	}
	return tooLong
}

// trimmedChoice is the pair of butt-weld elbows that are cut to fill a space
// exactly.
func (w *work) trimmedChoice(set geometry.Length, s space) (Choice, bool) {
	sys := w.answer.System
	quarter, ok := sys.Takeoff(catalog.BendOf(geometry.QuarterBend), w.answer.Size)
	if sys.Joint != catalog.ButtWeld || !ok || w.asked != 0 || w.takeoffsSaid() {
		return Choice{}, false
	}
	a := w.answer.Angle
	if s.isRoom {
		t, err := geometry.TrimElbows(set, s.long, quarter.Length, w.gapIn(sys).Length)
		if err != nil {
			return Choice{}, false
		}
		a = t.Offset.Angle
	}
	if slices.Contains(sys.Bends(), a) {
		return Choice{}, false
	}
	c, ok := w.choice(set, s, a)
	if c.Fits {
		c.Why, c.Unsure = TrimmedElbow, true
	}
	return c, ok && c.Fits
}

// noneFits says that no bend does, and which others would where one was asked
// for.
func (w *work) noneFits(set geometry.Length, s space) error {
	first := w.answer.Bends[0]
	if w.asked != 0 && first.Why == hubsCollide {
		o := solved{joint: joint{ends: first.Ends, gap: w.gapIn(w.answer.System)}}
		o.Set, o.Travel, o.Angle = set, first.Travel, first.Angle
		w.answer.Ends = first.Ends
		w.figured(parser.Set, set)
		return w.collision(o)
	}
	if first.Why == string(NoTakeoff) {
		return &Impossible{Cause: NoTakeoff, Subject: string(w.answer.Size) + " " + catalog.BendOf(first.Angle).Key(), System: w.answer.System}
	}
	i := &Impossible{Cause: NoFit, Subject: catalog.AngleName(w.answer.Angle)}
	for _, a := range w.answer.System.Bends() {
		if c, ok := w.choice(set, s, a); ok && c.Fits {
			i.Bends = append(i.Bends, a)
		}
	}
	return i
}

// best puts the best bend into the answer: its lengths, its ends, its walk.
func (w *work) best(set geometry.Length, s space, c Choice) error {
	o := solved{from: parser.Set, rolling: w.rolling}
	o.Set, o.Run, o.Travel, o.Angle = set, c.Run, c.Travel, c.Angle
	if c.Why == MeasureFirst {
		_ = w.measureFirst(joint{ends: c.Ends})
		w.answer.Main, w.answer.Angle = parser.Travel, c.Angle
		w.withoutPiece(o)
		w.explain(o)
		return nil
	}
	if c.Cut == 0 {
		return w.bestWithoutPiece(o, s)
	}
	j := joint{ends: c.Ends, gap: w.gapIn(w.answer.System)}
	o.joint, o.cut, o.endGap, o.pieced = j, c.Cut, c.EndGap, true
	w.use(j)
	if err := w.limit(c.Angle, j); err != nil {
		return err
	}
	w.withPiece(o)
	return w.built(o)
}

// bestWithoutPiece answers with the triangle alone: the true one, which fills
// the run, unless an angle was said.
func (w *work) bestWithoutPiece(o solved, s space) error {
	w.answer.Main = parser.Travel
	if w.asked == 0 {
		var err error
		if o.Offset, err = geometry.SetRun(o.Set, s.long); err != nil {
			return err
		}
		w.answer.Main, o.from = parser.AngleOf, parser.Bare
	}
	w.withoutPiece(o)
	w.explain(o)
	return nil
}
