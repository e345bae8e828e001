package figure

import (
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// This file figures with fittings whose ends are unlike: a street fitting, which
// has a hub for the piece and a spigot that goes straight into the next hub, and
// what a branch fitting takes of the run that it sits in.

// sideAt is how far it is from the center of the fitting at one end to that side
// of it: said, the user's own, or the catalog's. It is false where nobody knows.
func (w *work) sideAt(end int, f catalog.Fitting, side catalog.Side) (catalog.Takeoff, bool) {
	t := catalog.Takeoff{Fitting: f.At(side), Size: w.sizeAt(end), Length: w.ask.Ends[end].Of(side), Evidence: catalog.Said}
	if t.Length != 0 {
		return t, true
	}
	s := w.answer.System
	if s.ID == "" {
		return t, false
	}
	if own, ok := w.ownIn(s, f.At(side), t.Size); ok {
		own.Insertion = 0
		return own, true
	}
	t, ok := s.Takeoff(f.At(side), t.Size)
	return w.readable(t), ok
}

// ofTheLine is what the fitting at an end takes of the line that stands: as much
// as of the piece, unless it is a street fitting, whose spigot goes into a hub
// there, or a branch fitting, whose run lies in the line.
func (w *work) ofTheLine(end int, e End) (catalog.Takeoff, bool) {
	switch f := e.Fitting; {
	case f.Street:
		return w.sideAt(end, f, catalog.Spigot)
	case f.Shape.BranchShape():
		return w.sideAt(end, f, catalog.Outlet)
	}
	return e.Takeoff, true
}

// standingEnds is what two fittings take of the lines that stand; nil where that
// is what they take of the piece, or isn't known.
func (w *work) standingEnds(j joint) *[2]geometry.Length {
	var taken [2]geometry.Length
	unlike := false
	for end, e := range j.ends {
		t, known := w.ofTheLine(end, e)
		if !known {
			return nil
		}
		taken[end] = t.Length
		if t.Fitting.Side != "" {
			unlike = true
			w.side(t)
		}
	}
	if !unlike {
		return nil
	}
	return &taken
}

// side notes a side of a fitting that was figured with. One that nobody has
// checked makes what hangs on it unsure.
func (w *work) side(t catalog.Takeoff) {
	for _, e := range w.answer.Sides {
		if e.Takeoff == t {
			return
		}
	}
	w.answer.Sides = append(w.answer.Sides, End{Fitting: t.Fitting, Takeoff: t})
	if !t.Evidence.Sure() {
		w.answer.Provisional = true
		w.answer.Band += t.Band
	}
}

// ofStanding is what the lines that stand lose to the fittings.
func (o solved) ofStanding() geometry.Ends {
	taken := o.joint.taken()
	if o.standing != nil {
		taken.Takeoffs = *o.standing
	}
	return taken
}

// ofStandingJoint is the joint as the lines that stand see it.
func (o solved) ofStandingJoint() joint {
	j := o.joint
	taken := o.ofStanding()
	for end := range j.ends {
		j.ends[end].Takeoff.Length = taken.Takeoffs[end]
	}
	return j
}

// lostOfStanding is that as one length.
func (o solved) lostOfStanding() geometry.Length { return o.ofStandingJoint().lost() }

// streetFor is how long a street fitting would have to be, from its center to
// the end of its spigot, to make this set straight in the hub of the other; 0
// where the system has none, or none is that long or that short. The sets are
// the least and the most that it makes: one and the same where somebody has
// measured the spigot, else by what a street fitting can be.
//
// That is geometry: its spigot is as long as the other's hub is deep, behind a
// bend on no less than half the outside diameter and no more than the hub's side
// of the bend takes (common practice).
func (w *work) streetFor(o solved) (long geometry.Length, sets [2]geometry.Length) {
	s, other := w.answer.System, o.joint.ends[1].Takeoff
	street := catalog.Fitting{Shape: catalog.Bend, Angle: o.Angle, Street: true}
	if s.ID == "" || !s.Has(street) || o.joint.ends[1].Fitting != catalog.BendOf(o.Angle) {
		return 0, sets
	}
	least, most := spigotRange(s, w.answer.Size, o.Angle, other)
	if t, ok := w.sideAt(0, street, catalog.Spigot); ok {
		least, most = t.Length, t.Length
	}
	for i, l := range []geometry.Length{least, most} {
		set, err := geometry.StreetSet(l, other.Length, o.Angle)
		if err != nil {
			return 0, [2]geometry.Length{}
		}
		sets[i] = set
	}
	long = o.Set/geometry.Length(o.Angle.Sin()) - other.Length
	if long < least-geometry.Inch/8 || long > most+geometry.Inch/8 {
		return 0, sets
	}
	return long, sets
}

// spigotRange is between what a street bend can measure from its center to the
// end of its spigot.
func spigotRange(s catalog.System, size catalog.Size, a geometry.Angle, hub catalog.Takeoff) (least, most geometry.Length) {
	d, _ := s.Dimensions(size)
	depth, _ := insertionOf(s, size)
	least = depth + d.Outside/2*geometry.Length(a.Half().Tan())
	return least, max(least, hub.Length+hub.Band+depth)
}

// isStreetSet says whether it is asked what one street fitting makes in another
// bend, with nothing between them.
func (w *work) isStreetSet() bool {
	first, second := w.ask.Ends[0].Fitting, w.ask.Ends[1].Fitting
	both := first.Shape == catalog.Bend && second.Shape == catalog.Bend && first.Angle == second.Angle
	return both && first.Street != second.Street && !w.stepped() && !w.has(parser.Cut) && !w.has(parser.EndGap)
}

// streetSet answers what set a street fitting makes, its spigot straight in the
// other's hub: of its center to spigot end and the other's takeoff.
func (w *work) streetSet() error {
	if err := w.pipeIfNeeded(); err != nil {
		return err
	}
	street, other := 0, 1
	if w.ask.Ends[1].Fitting.Street {
		street, other = 1, 0
	}
	spigot, err := w.spigotOf(street)
	if err != nil {
		return err
	}
	t, err := w.takeoffIn(w.answer.System, other, w.fittingAt(other, w.asked))
	if err != nil {
		return err
	}
	return w.streetOffset(street, spigot, t)
}

// spigotOf is the street fitting's center to spigot end. A takeoff that was said
// of it is taken for that: what its hub takes doesn't enter the set.
func (w *work) spigotOf(end int) (catalog.Takeoff, error) {
	f := w.fittingAt(end, w.asked)
	if t, ok := w.sideAt(end, f, catalog.Spigot); ok {
		return t, nil
	}
	said := w.ask.Ends[end].Takeoff
	if said == 0 {
		return catalog.Takeoff{}, &Missing{Wanted: parser.TakeoffOf, Of: parser.FittingOf}
	}
	return catalog.Takeoff{Fitting: f.At(catalog.Spigot), Size: w.sizeAt(end), Length: said, Evidence: catalog.Said}, nil
}

// streetOffset is the offset of a street fitting straight in another: a piece of
// nothing between them.
func (w *work) streetOffset(street int, spigot, other catalog.Takeoff) error {
	a := spigot.Fitting.Angle
	set, err := geometry.StreetSet(spigot.Length, other.Length, a)
	if err != nil {
		return err
	}
	o := solved{from: parser.Travel, rolling: w.rolling}
	if o.Offset, err = geometry.TravelAngle(spigot.Length+other.Length, a); err != nil {
		return err
	}
	o.Set = set
	w.answer.Angle, w.answer.Main = a, parser.Set
	w.side(spigot)
	w.answer.Ends[1-street] = End{Fitting: other.Fitting, Takeoff: other}
	if !other.Evidence.Sure() {
		w.answer.Provisional, w.answer.Band = true, w.answer.Band+other.Band
	}
	w.figured(parser.Set, set)
	w.figured(parser.Run, o.Run)
	between := length(parser.Travel, o.Travel)
	w.add(RuleStreet, between, length(parser.Spigot, spigot.Length), length(parser.TakeoffOf, other.Length))
	w.multiply(RuleTravelToRun, between, a.Cos(), length(parser.Run, o.Run))
	if err := w.streetEnds(o, street, spigot, other); err != nil {
		return err
	}
	w.multiply(RuleTravelToSet, between, a.Sin(), length(parser.Set, set))
	return nil
}

// streetEnds figures how far apart the two pipes end that go into the hubs of a
// street fitting and of the bend that it sits in, where the street fitting's hub
// is known; and lays it all out.
func (w *work) streetEnds(o solved, street int, spigot, other catalog.Takeoff) error {
	hub, err := w.takeoffIn(w.answer.System, street, w.fittingAt(street, o.Angle))
	if err != nil || w.ask.Ends[street].Of(catalog.Spigot) == 0 && hub.Evidence == catalog.Said {
		hub.Length = 0 // one number was said of the street fitting: that is its spigot
	}
	o.joint.ends[street] = End{Takeoff: spigot}
	o.joint.ends[1-street] = End{Takeoff: other}
	standing := [2]geometry.Length{}
	standing[street], standing[1-street] = hub.Length, other.Length
	o.standing = &standing
	o.endGap = o.Run + hub.Length + other.Length
	if hub.Length > 0 {
		w.answer.Ends[street] = End{Fitting: hub.Fitting, Takeoff: hub}
		w.figured(parser.EndGap, o.endGap)
		w.add(RuleEndGap, length(parser.EndGap, o.endGap), length(parser.Run, o.Run), length(parser.TakeoffOf, other.Length), length(parser.TakeoffOf, hub.Length))
	}
	return w.walked(o)
}

// isLeast says whether it is asked how small a set two fittings can make.
func (w *work) isLeast() bool { return w.ask.Want == parser.Least && w.asked != 0 && !w.stepped() }

// leastSet answers how small a set two fittings can make: their hubs touching,
// with the piece that fills both; or a street fitting straight in the other.
func (w *work) leastSet() error {
	j, err := w.join(w.asked)
	if err != nil {
		return err
	}
	w.use(j)
	if j.tooRough() {
		_ = w.measureFirst(j)
		return &Missing{Wanted: parser.TakeoffOf}
	}
	least, err := smallestSet(w.asked, j)
	if err != nil {
		return err
	}
	o := solved{joint: j}
	o.Set, o.Angle = least, w.asked
	w.answer.Angle, w.answer.Main = w.asked, parser.Least
	_, w.answer.StreetSets = w.streetFor(o)
	w.answer.Lengths = append(w.answer.Lengths, Length{Role: parser.Least, Length: least, Up: true})
	w.figured(parser.Cut, j.least()-j.lost())
	faces := j.faces()
	between := length(parser.Travel, j.least())
	if faces[0]+faces[1] > j.lost() {
		w.add(RuleTouching, between, length(parser.Face, faces[0]), length(parser.Face, faces[1]))
	} else {
		w.add(RuleTouching, between, takenTerms(j, false)...)
	}
	w.multiply(RuleTravelToSet, between, w.asked.Sin(), length(parser.Least, least))
	return nil
}

// endsUnknown is the first fitting of an offset of which the other side isn't
// the one that was figured with: of a street fitting it is a spigot, of a tee or
// a wye the run or the branch. Where the pipe ends there, nobody said.
func (w *work) endsUnknown(ends [2]End) (catalog.Fitting, bool) {
	for _, e := range ends {
		if f := e.Fitting; f.Street || f.Shape != catalog.Bend && f.Shape != "" && !inLine(f.Shape) {
			return f, true
		}
	}
	return catalog.Fitting{}, false
}

// endOf puts into the answer where the lines end that stand: how far apart; or
// where one is a run that goes on, what a branch fitting takes out of it; or
// where the piece ends in a fitting that stands square to the step, how far from
// its center the other line ends.
func (w *work) endOf(o solved) {
	for end, e := range o.joint.ends {
		if e.Fitting.Shape.BranchShape() {
			w.branch(o, end)
			return
		}
	}
	if end, square := w.squareEnd(); square {
		w.farEndFrom(o, end)
		return
	}
	if f, unknown := w.endsUnknown(o.joint.ends); unknown && o.standing == nil {
		w.answer.NoEnds = f
		return
	}
	w.figured(parser.EndGap, o.endGap)
}

// farEndFrom figures how far along the line from the center of the fitting at one
// end the pipe at the other end stops.
func (w *work) farEndFrom(o solved, end int) {
	other := o.joint.ends[1-end]
	if other.Fitting.Shape.BranchShape() {
		return
	}
	t, known := w.ofTheLine(1-end, other)
	if !known {
		w.answer.NoEnds = other.Fitting
		return
	}
	if t.Fitting.Side != "" {
		w.side(t)
	}
	w.answer.From = o.joint.ends[end].Fitting
	w.figured(parser.FarEnd, o.Run+t.Length+o.joint.gap.Length)
}

// EndGapKnown says whether it was figured how far apart the lines end.
func (a *Answer) EndGapKnown() bool {
	_, known := a.Length(parser.EndGap)
	return known
}
