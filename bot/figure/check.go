package figure

import (
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// check figures what a dry fit showed against what was wanted: how much to
// trim off the piece, and what may explain the difference. Any one of the
// findings would do; which it was, a look at the fittings says.
func (w *work) check() error {
	if w.asked == 0 {
		return w.missingAngle()
	}
	dry, ok, err := w.centered(parser.DryFit)
	if err != nil {
		return err
	}
	if !ok {
		return &Missing{Wanted: parser.DryFit}
	}
	set, ok, err := w.set()
	if err != nil {
		return err
	}
	if !ok && w.has(parser.Cut) {
		return w.shownTakeoff()
	}
	if !ok {
		return &Missing{Wanted: parser.Set}
	}
	wanted, err := geometry.SetAngle(set, w.asked)
	if err != nil {
		return err
	}
	shown, err := geometry.SetAngle(dry, w.asked)
	if err != nil {
		return err
	}
	w.answer.Angle = w.asked
	w.checkSteps(wanted, shown)
	w.findings(wanted, shown)
	return w.checkAnswer(wanted, shown)
}

// shownTakeoff is what each fitting takes, by a dry fit of a known cut: all
// that it says where nobody said which set was wanted.
func (w *work) shownTakeoff() error {
	d, err := w.dryFit(w.asked)
	if err != nil {
		return err
	}
	takeoff, err := d.Takeoff()
	if err != nil {
		return err
	}
	w.answer.Angle, w.answer.Main = w.asked, parser.TakeoffOf
	w.multiply(RuleDryFit, length(parser.DryFit, d.Set), 1/d.Angle.Sin(), length(parser.Travel, d.Set/geometry.Length(d.Angle.Sin())))
	w.takeoffSteps(d, takeoff)
	w.figured(parser.TakeoffOf, takeoff)
	return nil
}

func (w *work) checkSteps(wanted, shown geometry.Offset) {
	factor := 1 / w.asked.Sin()
	w.multiply(RuleDryFit, length(parser.DryFit, shown.Set), factor, length(parser.Travel, shown.Travel))
	w.multiply(RuleSetToTravel, length(parser.Set, wanted.Set), factor, length(parser.Travel, wanted.Travel))
	w.add(RuleTrim, length(parser.TrimOff, shown.Travel-wanted.Travel), length(parser.Travel, shown.Travel), less(parser.Travel, wanted.Travel))
}

// findings lists what would explain the difference: a set measured wrong, a
// takeoff that is off at each end, or fittings that do not turn what they say.
func (w *work) findings(wanted, shown geometry.Offset) {
	if within(wanted.Set, shown.Set, geometry.Hair) {
		return
	}
	w.answer.Findings = append(w.answer.Findings,
		Finding{What: parser.Set, By: shown.Set - wanted.Set},
		Finding{What: parser.TakeoffOf, By: (shown.Travel - wanted.Travel) / 2},
	)
	if o, err := geometry.SetTravel(shown.Set, wanted.Travel); err == nil {
		w.answer.Findings = append(w.answer.Findings, Finding{What: parser.AngleOf, Turn: o.Angle - w.asked})
	}
}

func (w *work) checkAnswer(wanted, shown geometry.Offset) error {
	trim := shown.Travel - wanted.Travel
	w.answer.Main = parser.TrimOff
	w.figured(parser.TrimOff, trim)
	w.figured(parser.Set, wanted.Set)
	if !w.has(parser.Cut) {
		return nil
	}
	d, err := w.dryFit(w.asked)
	if err != nil {
		return err
	}
	return w.newCut(d, wanted)
}

// dryFit is the trial as it was measured.
func (w *work) dryFit(a geometry.Angle) (geometry.DryFit, error) {
	cut, _, err := w.centered(parser.Cut)
	if err != nil {
		return geometry.DryFit{}, err
	}
	dry, _, err := w.centered(parser.DryFit)
	if err != nil {
		return geometry.DryFit{}, err
	}
	if w.pipeSaid() && w.ask.Pipe.Size != "" {
		if err := w.pipe(); err != nil {
			return geometry.DryFit{}, err
		}
	}
	return geometry.DryFit{Cut: cut, Set: dry, Angle: a, Gap: w.gapIn(w.answer.System).Length}, nil
}

// newCut is the piece trimmed, or cut anew, for the set that was wanted; it is
// walked with the takeoffs that the dry fit showed.
func (w *work) newCut(d geometry.DryFit, wanted geometry.Offset) error {
	trim, err := d.Trim(wanted.Set)
	if err != nil {
		return err
	}
	takeoff, err := d.Takeoff()
	if err != nil {
		return err
	}
	cut := d.Cut - trim
	w.answer.Main = parser.Cut
	w.figured(parser.Cut, cut)
	w.figured(parser.TakeoffOf, takeoff)
	w.takeoffSteps(d, takeoff)
	w.add(RuleCut, length(parser.Cut, cut), length(parser.Cut, d.Cut), less(parser.TrimOff, trim))
	w.siteSteps(length(parser.Cut, cut))
	o := solved{Offset: wanted, from: parser.Set, pieced: true, cut: cut, rolling: w.rolling}
	t := catalog.Takeoff{Fitting: catalog.BendOf(wanted.Angle), Length: takeoff, Evidence: catalog.Said}
	o.joint = joint{ends: [2]End{{Takeoff: t}, {Takeoff: t}}, gap: catalog.Allowance{Length: d.Gap}}
	o.endGap = wanted.Run + o.lost()
	return w.walked(o)
}

// takeoffSteps are those from a dry fit to what each fitting takes.
func (w *work) takeoffSteps(d geometry.DryFit, takeoff geometry.Length) {
	travel := d.Set / geometry.Length(d.Angle.Sin())
	both := travel - d.Cut - 2*d.Gap
	terms := []Quantity{length(parser.Travel, travel), less(parser.Cut, d.Cut)}
	if d.Gap != 0 {
		terms = append(terms, Quantity{Role: parser.JointGap, Length: d.Gap, Minus: true, Times: 2})
	}
	if w.ask.Kind == parser.Takeoff {
		w.multiply(RuleDryFit, length(parser.DryFit, d.Set), 1/d.Angle.Sin(), length(parser.Travel, travel))
	}
	w.add(RuleDryFit, length(parser.TakeoffOf, both), terms...)
	w.divide(RuleEachEnd, length(parser.TakeoffOf, both), 2, length(parser.TakeoffOf, takeoff))
}
