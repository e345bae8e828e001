package figure

import (
	"cmp"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// takeoff looks a takeoff up, or takes one to be kept as the user's own: said
// as it is, made of face and depth, or of what a dry fit showed.
func (w *work) takeoff() error {
	f := w.fittingsOfPiece()[0]
	if (f == catalog.Fitting{}) {
		return &Missing{Wanted: parser.FittingOf, Options: []string{"45", "90", "22-1/2"}}
	}
	if err := w.pipe(); err != nil {
		return err
	}
	w.answer.Angle, w.answer.Main = f.Angle, parser.TakeoffOf
	w.assume(func(catalog.System) geometry.Length { return 0 })
	t, how, err := w.givenTakeoff(f)
	if err != nil {
		return err
	}
	if how == "" {
		return w.lookUp(f)
	}
	return w.keep(t, how)
}

// How an own takeoff was come by.
const (
	CenterToStop  = "center to stop"
	FaceLessDepth = "face less depth"
	ByDryFit      = "dry fit"
)

// givenTakeoff is the takeoff that the message gives, and how; how is empty
// where it gives none.
func (w *work) givenTakeoff(f catalog.Fitting) (catalog.Takeoff, string, error) {
	said, s := w.ask.Ends[0], w.answer.System
	switch {
	case said.Takeoff != 0:
		t, _, err := w.saidAt(s, 0, f)
		return t, CenterToStop, err
	case said.Face != 0:
		t, _, err := w.saidAt(s, 0, f)
		w.add(RuleDeepness, length(parser.TakeoffOf, t.Length), length(parser.Face, said.Face), less(parser.Depth, t.Insertion))
		return t, FaceLessDepth, err
	case w.has(parser.DryFit) && w.has(parser.Cut):
		t, err := w.dryTakeoff(f)
		return t, ByDryFit, err
	}
	return catalog.Takeoff{}, "", nil
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
	t := catalog.Takeoff{Fitting: f, Size: w.answer.Size, Length: l, Evidence: catalog.Said}
	t.Insertion, _ = insertionOf(w.answer.System, w.answer.Size)
	w.takeoffSteps(d, l)
	return t, nil
}

// lookUp answers with what is known: the user's own, or the catalog's. A
// hub-and-spigot fitting has two ends.
func (w *work) lookUp(f catalog.Fitting) error {
	s := w.answer.System
	t, err := w.knownIn(s, 0, f)
	if err != nil {
		return err
	}
	w.answer.Ends[0] = End{Fitting: f, Takeoff: t}
	if s.Joint == catalog.Hub {
		if spigot, err := w.knownIn(s, 1, f); err == nil {
			w.answer.Ends[1] = End{Fitting: f, Takeoff: spigot}
		}
	}
	w.answer.Provisional, w.answer.Band = !t.Evidence.Sure(), t.Band
	w.figured(parser.TakeoffOf, t.Length)
	if t.Insertion != 0 {
		w.figured(parser.Face, t.CenterToFace())
		w.figured(parser.Depth, t.Insertion)
	}
	return nil
}

// keep takes a takeoff to be kept as the user's own, if it can be one.
func (w *work) keep(t catalog.Takeoff, how string) error {
	if err := w.plausible(t); err != nil {
		return err
	}
	w.figured(parser.TakeoffOf, t.Length)
	w.answer.Ends[0] = End{Fitting: t.Fitting, Takeoff: t}
	if w.ask.Store {
		kept := t
		kept.Evidence = catalog.Own
		w.answer.Own = append(w.answer.Own, Stored{System: w.answer.System, Takeoff: kept, Line: w.ask.Line, How: how})
	}
	return nil
}

// plausible refuses a figure that can't be the takeoff of this fitting. A bend
// that turns on half the pipe's outside diameter takes the least,
// OD/2 · tan(a/2); on three diameters, with a straight end of an inch and the
// depth of the pipe twice over, more than any that is sold. An eighth is left
// for the tape. Common practice; a fitting without an angle counts as a 90.
func (w *work) plausible(t catalog.Takeoff) error {
	d, ok := w.answer.System.Dimensions(t.Size)
	if !ok {
		return w.noSizeAt(0)
	}
	tan := geometry.Length(cmp.Or(t.Fitting.Angle, geometry.QuarterBend).Half().Tan())
	least := d.Outside/2*tan - geometry.Inch/8
	most := 3*d.Outside*tan + 2*t.Insertion + geometry.Inch
	if t.Length < least || t.Length > most {
		return &Impossible{Cause: BadTakeoff, Subject: t.Length.Tape(w.settings.Division).String()}
	}
	return nil
}
