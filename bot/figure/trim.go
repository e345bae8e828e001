package figure

import (
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// trim figures a butt-weld elbow that is cut to an odd angle: its takeoff, and
// the eight marks around it that the cut goes through, from the throat over
// the side to the back.
//
// The radius is what was said, or the takeoff of the 90 that the elbow is cut
// from, which is its centerline radius (ASME B16.9).
func (w *work) trim() error {
	if w.asked == 0 {
		return &Missing{Wanted: parser.AngleOf}
	}
	e, err := w.elbow()
	if err != nil {
		return err
	}
	takeoff, err := e.Takeoff()
	if err != nil {
		return err
	}
	marks, err := e.Ordinates()
	if err != nil {
		return err
	}
	w.answer.Angle, w.answer.Main = w.asked, parser.TakeoffOf
	w.figured(parser.TakeoffOf, takeoff)
	w.figured(parser.Radius, e.Radius)
	for _, m := range marks {
		w.answer.Ordinates = append(w.answer.Ordinates, Ordinate{Eighth: m.Eighth, Arc: m.Around, Back: m.Along})
	}
	w.multiply(RuleHalfAngle, length(parser.Radius, e.Radius), w.asked.Half().Tan(), length(parser.TakeoffOf, takeoff))
	return nil
}

// elbow is the elbow to cut: by a size of butt-weld pipe, or by a radius that
// was said and the pipe's diameter.
func (w *work) elbow() (geometry.Elbow, error) {
	e := geometry.Elbow{Angle: w.asked}
	assumed := *w.ask // the answer's own stays as it was understood
	if !w.pipeSaid() {
		assumed.Pipe.Material = catalog.Steel // what elbows are trimmed of
	}
	if assumed.Pipe.Joint == "" {
		assumed.Pipe.Joint = catalog.ButtWeld
	}
	w.ask = &assumed
	outside, err := w.outside(0)
	if err != nil {
		return e, err
	}
	e.Outside = outside
	if r, ok := w.ask.Length(parser.Radius); ok {
		e.Radius = r
		return e, nil
	}
	quarter := catalog.Fitting{Shape: catalog.Bend, Angle: geometry.QuarterBend, Sweep: w.fittingAt(0, w.asked).Sweep}
	t, ok := w.answer.System.Takeoff(quarter, w.answer.Size)
	if !ok {
		return e, &Missing{Wanted: parser.Radius}
	}
	e.Radius = t.Length
	t.Fitting.Angle, t.Length, t.Note = w.asked, t.Length*geometry.Length(w.asked.Half().Tan()), TrimmedElbow
	w.answer.Ends[0] = End{Fitting: t.Fitting, Takeoff: t}
	w.answer.Provisional = !t.Evidence.Sure()
	return e, nil
}
