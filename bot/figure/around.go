package figure

import (
	"errors"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// around figures how a line steps around an obstacle: the smallest set that
// keeps the clearance, and how far before the obstacle the first bend's center
// goes at the latest. Both are clearances and read rounded up, and so does where
// the standing pipe stops, unless its takeoff is unsure and it is left long.
//
// A butt-weld elbow is so round that it can come nearer to the obstacle's
// corner than the corner of its centerlines does; what that takes is added to
// the clearance.
func (w *work) around() error {
	ob, err := w.obstacle()
	if err != nil {
		return err
	}
	a, err := w.angleAround(ob)
	if err != nil {
		return err
	}
	ob = w.roundCorner(ob, a)
	smallest, err := ob.SmallestSet()
	if err != nil {
		return err
	}
	start, err := ob.FirstBend(a)
	if err != nil {
		return err
	}
	set, err := w.setAround(smallest)
	if err != nil {
		return err
	}
	o := solved{from: parser.Set}
	if o.Offset, err = geometry.SetAngle(set, a); err != nil {
		return err
	}
	w.aroundSteps(ob, a, set, start)
	return w.aroundAnswer(o, ob, start)
}

// obstacle is what stands in the way, brought to the pipe's centerline.
func (w *work) obstacle() (geometry.Obstacle, error) {
	var ob geometry.Obstacle
	if w.asked == 0 && !w.has(parser.Start) {
		return ob, w.missingAngle()
	}
	outside, err := w.outside(0)
	if err != nil {
		return ob, err
	}
	reach := w.ask.All(parser.Reach)
	if len(reach) == 0 {
		return ob, &Missing{Wanted: parser.Reach}
	}
	ob = geometry.Obstacle{Reach: w.reachOf(reach[0], outside), Outside: outside}
	w.measured(reach[0], ob.Reach)
	for _, m := range reach[1:] {
		w.crosscheck(parser.Reach, reach[0], m, [2]geometry.Length{ob.Reach, w.reachOf(m, outside)})
	}
	clearance, ok, err := w.centered(parser.Clearance)
	if err != nil || !ok {
		return ob, errors.Join(err, unless(ok, parser.Clearance))
	}
	ob.Clearance = clearance
	return ob, nil
}

func unless(ok bool, wanted parser.Role) error {
	if ok {
		return nil
	}
	return &Missing{Wanted: wanted}
}

// reachOf is a reach past the centerline; measured from the pipe's outside it
// lacks half a diameter.
func (w *work) reachOf(m parser.Measure, outside geometry.Length) geometry.Length {
	if m.Method == "" || m.Method == parser.Centers {
		return m.Length
	}
	return m.Length + outside/2
}

// angleAround is the angle that was said; or, where it was said how far before
// the obstacle the line may turn, the gentlest bend that is soon enough.
func (w *work) angleAround(ob geometry.Obstacle) (geometry.Angle, error) {
	room, limited, err := w.centered(parser.Start)
	if err != nil {
		return 0, err
	}
	if !limited {
		return w.asked, nil
	}
	var soon []geometry.Angle
	for _, a := range w.answer.System.Bends() {
		if start, err := w.roundCorner(ob, a).FirstBend(a); err == nil && start <= room+hairline {
			soon = append(soon, a)
		}
	}
	if w.asked != 0 {
		if start, err := w.roundCorner(ob, w.asked).FirstBend(w.asked); err == nil && start <= room+hairline {
			return w.asked, nil
		}
	}
	if len(soon) == 0 || w.asked != 0 {
		return 0, &Impossible{Cause: NoFit, Subject: string(parser.Start), Bends: soon}
	}
	return soon[len(soon)-1], nil
}

// roundCorner adds to the clearance what a butt-weld elbow, whose centerline
// radius is its 90's takeoff, takes from it.
func (w *work) roundCorner(ob geometry.Obstacle, a geometry.Angle) geometry.Obstacle {
	s := w.answer.System
	if s.Joint != catalog.ButtWeld {
		return ob
	}
	quarter := catalog.Fitting{Shape: catalog.Bend, Angle: geometry.QuarterBend, Sweep: w.fittingAt(0, a).Sweep}
	t, ok := s.Takeoff(quarter, w.answer.Size)
	if !ok {
		return ob
	}
	if loss, err := ob.CornerLoss(t.Length, a); err == nil {
		ob.Clearance += loss
	}
	return ob
}

// setAround is the set that was said, if it is enough, or the smallest.
func (w *work) setAround(smallest geometry.Length) (geometry.Length, error) {
	set, ok, err := w.centered(parser.Set)
	if err != nil || !ok {
		return smallest, err
	}
	if set < smallest-hairline {
		return 0, &Impossible{
			Cause: BadGeometry, Subject: string(parser.Set), Smallest: smallest,
			Problem: &geometry.Problem{Reason: geometry.NoRoom, What: string(parser.Set), Value: set.Inches()},
		}
	}
	return set, nil
}

func (w *work) aroundAnswer(o solved, ob geometry.Obstacle, start geometry.Length) error {
	w.answer.Angle, w.answer.Main = o.Angle, parser.Start
	w.answer.Lengths = append(w.answer.Lengths, Length{Role: parser.Start, Length: start, Up: true})
	if err := w.comeBack(o, ob); err != nil {
		return err
	}
	if err := w.pieceAround(&o); err != nil {
		return err
	}
	if o.pieced {
		stop := start + o.joint.ends[0].Takeoff.Length + o.joint.gap.Length
		w.answer.Lengths = append(w.answer.Lengths, Length{Role: parser.MarkAt, Length: stop, Up: true})
		w.withPiece(o)
	} else {
		w.withoutPiece(o)
	}
	w.answer.HubNear = w.hubNear()
	for i, l := range w.answer.Lengths {
		w.answer.Lengths[i].Up = l.Up || l.Role == parser.Set && !w.has(parser.Set)
	}
	w.answer.Main = parser.Start
	if _, ok := w.answer.Length(w.ask.Want); ok {
		w.answer.Main = w.ask.Want
	}
	if o.pieced {
		return w.built(o)
	}
	w.explain(o)
	return nil
}

// hubNear says whether a fitting wider than the pipe comes as near to the
// obstacle as the pipe does: its center lies on the line that halves the turn,
// where the corner is. How much wider it is no table here has.
func (w *work) hubNear() bool {
	switch w.answer.System.Joint {
	case catalog.Solvent, catalog.Solder, catalog.Thread, catalog.SocketWeld, catalog.NoHub, catalog.Hub, catalog.PushFit:
		return true
	case catalog.ButtWeld, catalog.Crimp, catalog.Fusion:
	}
	return false
}

// pieceAround figures the piece; one whose takeoff nobody knows is left out,
// since where the bends go does not need it.
func (w *work) pieceAround(o *solved) error {
	err := w.pieceOf(o)
	var impossible *Impossible
	if errors.As(err, &impossible) && (impossible.Cause == NoTakeoff || impossible.Cause == NoSuchFitting) {
		w.forgetPiece()
		return nil
	}
	if isUnmeasured(err) {
		return nil
	}
	return err
}

// comeBack figures how far apart the two inner bends' centers go where the
// line comes back behind the obstacle.
func (w *work) comeBack(o solved, ob geometry.Obstacle) error {
	if !w.ask.ComeBack {
		return nil
	}
	long, ok, err := w.centered(parser.Obstacle)
	if err != nil || !ok {
		return errors.Join(err, unless(ok, parser.Obstacle))
	}
	between, err := ob.BetweenBends(long, o.Offset)
	if err != nil {
		return err
	}
	w.answer.Lengths = append(w.answer.Lengths, Length{Role: parser.CenterToCenter, Length: between, Up: true})
	return nil
}

func (w *work) aroundSteps(ob geometry.Obstacle, a geometry.Angle, set, start geometry.Length) {
	keep := ob.Clearance + ob.Outside/2
	kept := length(parser.Clearance, keep)
	reach := length(parser.Reach, ob.Reach)
	w.add(RuleKeepClear, kept, length(parser.Clearance, ob.Clearance), length(HalfOutsides, ob.Outside/2))
	if !w.has(parser.Set) {
		w.add(RuleSmallestSet, length(parser.Set, set), reach, kept)
	}
	clear := length(parser.Clearance, keep/geometry.Length(a.Sin()))
	back := length(parser.Reach, ob.Reach*geometry.Length(a.Cos()/a.Sin()))
	w.multiply(RuleClearPart, kept, 1/a.Sin(), clear)
	w.multiply(RuleReachPart, reach, a.Cos()/a.Sin(), back)
	w.add(RuleClearBefore, length(parser.Start, start), clear, back)
}
