package figure

import (
	"cmp"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// takeoff looks a takeoff up, or takes one to be kept as the user's own, or one
// for each of two fittings: said as it is, made of face and depth, or of what a
// dry fit showed.
func (w *work) takeoff() error {
	f := w.fittingsOfPiece()
	if (f[0] == catalog.Fitting{}) {
		return &Missing{Wanted: parser.FittingOf, Options: []string{"45", "90", "22-1/2"}}
	}
	if err := w.pipe(); err != nil {
		return err
	}
	w.answer.Angle, w.answer.Main = f[0].Angle, parser.TakeoffOf
	w.assume(func(catalog.System) geometry.Length { return 0 })
	for end := range f {
		if end == 1 && f[1] == f[0] {
			break // one takeoff, said of both ends
		}
		t, how, err := w.givenTakeoff(end, f[end])
		if err != nil {
			return err
		}
		sides, err := w.keepSides(end, f[end])
		if err != nil {
			return err
		}
		switch {
		case how == "" && sides:
			w.answer.Main = w.answer.Lengths[0].Role
			continue
		case how == "":
			return w.lookUp(f[end])
		}
		if err := w.keep(end, t, how); err != nil {
			return err
		}
	}
	return nil
}

// How an own takeoff was come by.
const (
	CenterToStop   = "center to stop"
	FaceLessDepth  = "face less depth"
	ByDryFit       = "dry fit"
	CenterToSpigot = "center to spigot end"
)

// givenTakeoff is the takeoff that the message gives for the fitting at an end,
// and how; how is empty where it gives none.
func (w *work) givenTakeoff(end int, f catalog.Fitting) (catalog.Takeoff, string, error) {
	said, s := w.ask.Ends[end], w.answer.System
	switch {
	case said.Takeoff != 0:
		t, _, err := w.saidAt(s, end, f)
		return t, CenterToStop, err
	case said.Face != 0:
		t, _, err := w.saidAt(s, end, f)
		w.add(RuleDeepness, length(parser.TakeoffOf, t.Length), length(parser.Face, said.Face), less(parser.Depth, t.Insertion))
		return t, FaceLessDepth, err
	case w.has(parser.DryFit) && w.has(parser.Cut):
		t, err := w.dryTakeoff(f)
		return t, ByDryFit, err
	case w.has(parser.CenterToCenter) && w.has(parser.Cut):
		t, err := w.centersTakeoff(f)
		return t, ByDryFit, err
	}
	return catalog.Takeoff{}, "", nil
}

// centersTakeoff is what each fitting really takes, by the distance between the
// centers of two of them, dry on a piece of known length. That is a dry fit
// whose set lies along the pipe.
func (w *work) centersTakeoff(f catalog.Fitting) (catalog.Takeoff, error) {
	centers, _, err := w.centered(parser.CenterToCenter)
	if err != nil {
		return catalog.Takeoff{}, err
	}
	cut, _, err := w.centered(parser.Cut)
	if err != nil {
		return catalog.Takeoff{}, err
	}
	gap := w.gapIn(w.answer.System).Length
	l, err := geometry.DryFit{Cut: cut, Set: centers, Angle: geometry.QuarterBend, Gap: gap}.Takeoff()
	if err != nil {
		return catalog.Takeoff{}, err
	}
	terms := []Quantity{length(parser.CenterToCenter, centers), less(parser.Cut, cut)}
	if gap != 0 {
		terms = append(terms, Quantity{Role: parser.JointGap, Length: gap, Minus: true, Times: 2})
	}
	both := centers - cut - 2*gap
	w.add(RuleDryFit, length(parser.TakeoffOf, both), terms...)
	w.divide(RuleEachEnd, length(parser.TakeoffOf, both), 2, length(parser.TakeoffOf, l))
	return w.byDryFit(f, l), nil
}

// dryTakeoff is what each fitting really takes, by a dry fit.
func (w *work) dryTakeoff(f catalog.Fitting) (catalog.Takeoff, error) {
	d, err := w.dryFit(f.Angle)
	if err != nil {
		return catalog.Takeoff{}, err
	}
	l, err := d.Takeoff()
	if err != nil {
		return catalog.Takeoff{}, err
	}
	w.takeoffSteps(d, l)
	return w.byDryFit(f, l), nil
}

func (w *work) byDryFit(f catalog.Fitting, l geometry.Length) catalog.Takeoff {
	t := catalog.Takeoff{Fitting: f, Size: w.answer.Size, Length: l, Evidence: catalog.Said}
	t.Insertion, _ = insertionOf(w.answer.System, w.answer.Size)
	return t
}

// lookUp answers with what is known: the user's own, or the catalog's. A
// hub-and-spigot fitting has two ends.
func (w *work) lookUp(f catalog.Fitting) error {
	s := w.answer.System
	t, err := w.knownIn(s, 0, f)
	if err == nil && t.Note == NoLength {
		err = noTakeoff(s, f, t.Size)
	}
	if err != nil {
		return err
	}
	w.answer.Ends[0] = End{Fitting: f, Takeoff: t}
	if s.Joint == catalog.Hub {
		if spigot, err := w.knownIn(s, 1, f); err == nil {
			w.answer.Ends[1] = End{Fitting: f, Takeoff: spigot}
		}
	}
	w.answer.Provisional, w.answer.Band, w.answer.TakesOff = !t.Evidence.Sure(), t.Band, 2*t.Band
	w.answer.NoLine = w.noLine(w.answer.Ends[0])
	w.figured(parser.TakeoffOf, t.Length)
	if t.Insertion != 0 {
		w.figured(parser.Face, t.CenterToFace())
		w.figured(parser.Depth, t.Insertion)
	}
	return nil
}

// keep takes a takeoff to be kept as the user's own, if it can be one.
func (w *work) keep(end int, t catalog.Takeoff, how string) error {
	if !t.Evidence.Sure() {
		return &Missing{Wanted: parser.Depth} // a takeoff to be trusted is not made of a depth that isn't
	}
	if err := w.plausible(t); err != nil {
		return err
	}
	w.figured(parser.TakeoffOf, t.Length)
	w.answer.Ends[end] = End{Fitting: t.Fitting, Takeoff: t}
	if w.ask.Store {
		kept := t
		kept.Evidence = catalog.Own
		w.answer.Own = append(w.answer.Own, Stored{
			System: w.answer.System, Takeoff: kept, Line: w.ask.Line, How: how, Crew: w.ask.Crew,
		})
	}
	return nil
}

// plausible questions a figure that can't be the takeoff of this fitting,
// unless the user was asked and stands by it.
func (w *work) plausible(t catalog.Takeoff) error {
	s := w.answer.System
	stands := OwnTakeoff{System: s.ID, Fitting: t.Fitting.Key(), Size: t.Size, Length: t.Length}
	if stands == w.settings.StandsBy && t.Length > 0 {
		return nil
	}
	if err := Plausible(s, t); err != nil {
		return err
	}
	said := w.ask.Ends[0]
	switch {
	case w.ask.Store && said.Takeoff != 0:
		return notMeasured(s, t)
	case w.ask.Store && said.Face != 0 && said.Depth == 0 && stands.with(said.Face) != w.settings.StandsBy:
		return faceNotMeasured(s, t, said.Face)
	}
	return nil
}

// with is the takeoff with another length: a face that was taken for one, and
// asked about.
func (t OwnTakeoff) with(l geometry.Length) OwnTakeoff {
	t.Length = l
	return t
}

// Plausible says why a length can't be the takeoff of its fitting, as a
// *[Impossible]; nil if it can. A bend that turns on half the pipe's outside
// diameter takes the least, OD/2 · tan(a/2); on three diameters, with a straight
// end of an inch and the depth of the pipe twice over, more than any that is
// sold. Nor is it less than half of what the pipe goes in, unless the catalog
// has fittings of this kind that short. An eighth is left for the tape. Common
// practice; a fitting without an angle counts as a 90, and what only joins pipe
// in line may take next to nothing.
func Plausible(s catalog.System, t catalog.Takeoff) error {
	d, ok := s.Dimensions(t.Size)
	if !ok {
		return &Impossible{Cause: NoSuchSize, Subject: string(t.Size), Near: names(catalog.Near(s.Sizes(), t.Size)), System: s}
	}
	tan := geometry.Length(cmp.Or(t.Fitting.Angle, geometry.QuarterBend).Half().Tan())
	depth, _ := insertionOf(s, t.Size)
	least := max(d.Outside/2*tan-geometry.Inch/8, halfSocket(s, t, depth))
	if inLine(t.Fitting.Shape) || t.Fitting.Side == catalog.Inlet || t.Fitting.Side == catalog.Outlet {
		least = 0
	}
	most := 3*d.Outside*tan + 2*max(depth, t.Insertion) + geometry.Inch
	if t.Length > 0 && t.Length >= least-geometry.Hair && t.Length <= most+geometry.Hair {
		return nil
	}
	return &Impossible{
		Cause: BadTakeoff, Subject: t.Fitting.Key(), System: s,
		Doubted: t, Between: [2]geometry.Length{least, most},
	}
}

// halfSocket is half of how far the pipe goes in; 0 where the catalog knows a
// fitting of this kind, or thinks that there may be one, that takes less.
func halfSocket(s catalog.System, t catalog.Takeoff, depth geometry.Length) geometry.Length {
	known, ok := s.Takeoff(t.Fitting, t.Size)
	if s.Joint == catalog.PushFit {
		return 0 // whose sockets are deep, and whose bends begin right behind them
	}
	if ok && known.Length-known.Band < depth/2 {
		return 0
	}
	return depth / 2
}

// inLine says whether a fitting only joins pipe in line.
func inLine(s catalog.Shape) bool {
	switch s {
	case catalog.Coupling, catalog.Union, catalog.Cap, catalog.Valve, catalog.Reducer, catalog.Flange, catalog.CleanoutTee:
		return true
	case catalog.Bend, catalog.Tee, catalog.SanitaryTee, catalog.Wye, catalog.Combination:
	}
	return false
}
