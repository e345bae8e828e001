package figure

import (
	"cmp"
	"errors"
	"math"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Solve figures one ask. Its error is a *[Missing] when one more fact is
// needed and an *[Impossible] when what was asked can't be built; it returns
// no other. The same ask and settings always make the same answer.
func Solve(ask parser.Ask, settings Settings) (*Answer, error) {
	w := newWork(ask, settings)
	err := w.sane()
	if err == nil {
		err = w.refuseLoad()
	}
	if err == nil {
		err = w.byKind()
	}
	if err == nil {
		err = w.refuseLoad() // the pipe is settled
	}
	if err == nil {
		err = w.finite()
	}
	if err != nil {
		return nil, w.refusal(err)
	}
	w.finish()
	return w.answer, nil
}

// work is one ask on its way to an answer.
type work struct {
	ask      *parser.Ask // that of the answer
	settings Settings
	answer   *Answer

	given   given            // measures, brought to center to center
	asked   geometry.Angle   // the angle that was said, 0 if none
	rolling geometry.Rolling // the parts of a true set

	settled bool             // the pipe is, in answer.System and answer.Size
	others  []catalog.System // that the pipe could be as well
}

// given are measures by their roles: so few that a list is searched sooner than a
// map is made.
type given []Length

// of is the measure of a role.
func (g given) of(r parser.Role) (geometry.Length, bool) {
	for _, l := range g {
		if l.Role == r {
			return l.Length, true
		}
	}
	return 0, false
}

// put adds a measure, or changes it.
func (g *given) put(r parser.Role, l geometry.Length) {
	for i := range *g {
		if (*g)[i].Role == r {
			(*g)[i].Length = l
			return
		}
	}
	*g = append(*g, Length{Role: r, Length: l})
}

func newWork(ask parser.Ask, settings Settings) *work {
	if settings.Division == 0 {
		settings.Division = geometry.Sixteenths
	}
	if ask.Handbook && settings.Handbook == ExactFigures {
		settings.Handbook = ThreeDecimals
	}
	settings.Metric = settings.Metric || ask.Metric()
	answer := &Answer{Ask: ask, Kind: ask.Kind}
	w := &work{ask: &answer.Ask, settings: settings, answer: answer}
	w.asked = ask.Angle
	for _, end := range ask.Ends {
		if w.asked == 0 {
			w.asked = end.Fitting.Angle
		}
	}
	return w
}

func (w *work) byKind() error {
	switch w.ask.Kind {
	case parser.Unstated, parser.Offset:
		w.answer.Kind = parser.Offset
		return w.offset()
	case parser.Fit:
		return w.fit()
	case parser.Piece:
		return w.piece()
	case parser.Mark:
		return w.mark()
	case parser.Parallel:
		return w.parallel()
	case parser.Around:
		return w.around()
	case parser.Fall:
		return w.fall()
	case parser.Trim:
		return w.trim()
	case parser.Sum:
		return w.sum()
	case parser.Multiplier:
		return w.multiplier()
	case parser.Takeoff:
		return w.takeoff()
	case parser.Check:
		return w.check()
	case parser.Corner:
		return w.corner()
	case parser.Miter:
		return w.miter()
	case parser.Saddle:
		return w.saddle()
	case parser.Wrap:
		return w.wrap()
	case parser.Riser:
		return w.riser()
	case parser.Doglegs:
		return w.doglegs()
	}
	return w.offset()
}

// refusal makes of any error one of the two that Solve may return.
func (w *work) refusal(err error) error {
	var missing *Missing
	var impossible *Impossible
	var problem *geometry.Problem
	if isUnmeasured(err) {
		err = &Missing{Wanted: parser.TakeoffOf}
	}
	switch {
	case errors.As(err, &missing):
		if missing.Partly == nil {
			missing.Partly = w.answer
		}
		return missing
	case errors.As(err, &impossible):
		if impossible.Partly == nil {
			impossible.Partly = w.answer
		}
		if impossible.System.ID == "" {
			impossible.System = w.answer.System
		}
		return impossible
	case errors.As(err, &problem):
		return &Impossible{Cause: BadGeometry, Problem: problem, Subject: problem.What, Partly: w.answer, System: w.answer.System}
	}
	return &Impossible{Cause: BadGeometry, Subject: err.Error(), Partly: w.answer, System: w.answer.System}
}

// mostLines is how many parallel lines one ask may have.
const mostLines = 100

// sane refuses figures that nothing can be figured with, before they meet a
// formula: not finite, negative where that means nothing, over a mile.
func (w *work) sane() error {
	for _, m := range w.ask.Measures {
		if err := saneLength(m.Role, m.Length); err != nil {
			return err
		}
	}
	for _, e := range w.ask.Ends {
		for _, l := range []geometry.Length{e.Takeoff, e.Face, e.Depth, e.Spigot, e.Inlet, e.Outlet} {
			if err := saneLength(parser.TakeoffOf, l); err != nil {
				return err
			}
		}
	}
	if err := w.saneLists(); err != nil {
		return err
	}
	return w.saneNumbers()
}

// saneLists is the same for what stands in the travel, and for a riser.
func (w *work) saneLists() error {
	for _, in := range w.ask.Inline {
		if err := cmp.Or(saneLength(parser.Laying, in.Laying), saneLength(parser.Place, in.Place)); err != nil {
			return err
		}
	}
	for _, s := range w.ask.Stations {
		if err := saneLength(parser.Reading, s.Reading); err != nil {
			return err
		}
		for _, l := range []geometry.Length{s.Below, s.Above} {
			if err := saneLength(parser.TakeoffOf, l); err != nil {
				return err
			}
		}
	}
	for _, l := range w.ask.Rack {
		if err := cmp.Or(saneLength(parser.TakeoffOf, l.Takeoff), saneLength(Covers, l.Insulation)); err != nil {
			return err
		}
	}
	if len(w.ask.Rack) > mostLines || len(w.ask.Inline) > mostLines || len(w.ask.Stations) > mostLines {
		return &geometry.Problem{Reason: geometry.TooLong, What: "lines", Value: mostLines}
	}
	return nil
}

func (w *work) saneNumbers() error {
	for _, a := range []geometry.Angle{w.ask.Angle, w.ask.Ends[0].Fitting.Angle, w.ask.Ends[1].Fitting.Angle} {
		if math.IsNaN(a.Degrees()) || a < 0 || a > geometry.QuarterBend {
			return &geometry.Problem{Reason: geometry.AngleRange, What: "angle", Value: a.Degrees()}
		}
	}
	if n := w.ask.Lines; n < 0 || n > mostLines {
		return &geometry.Problem{Reason: geometry.TooLong, What: "lines", Value: float64(n)}
	}
	return saneGrade(w.ask.Grade)
}

// saneGrade: none, or falling and no steeper than one in one.
func saneGrade(s geometry.Slope) error {
	switch g := float64(s); {
	case math.IsNaN(g):
		return &geometry.Problem{Reason: geometry.NotANumber, What: "grade", Value: g}
	case g < 0:
		return &geometry.Problem{Reason: geometry.NotPositive, What: "grade", Value: g}
	case g > 1:
		return &geometry.Problem{Reason: geometry.TooSteep, What: "grade", Value: g}
	}
	return nil
}

func saneLength(r parser.Role, l geometry.Length) error {
	v := l.Inches()
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return &geometry.Problem{Reason: geometry.NotANumber, What: string(r), Value: v}
	case l > geometry.Longest || l < -geometry.Longest:
		return &geometry.Problem{Reason: geometry.TooLong, What: string(r), Value: v}
	case l < 0 && !mayBeNegative(r):
		return &geometry.Problem{Reason: geometry.NotPositive, What: string(r), Value: v}
	}
	return nil
}

// mayBeNegative: an elevation or a reading may lie below its zero.
func mayBeNegative(r parser.Role) bool {
	return r == parser.Upper || r == parser.Lower || r == parser.Reading
}

// finite is the last gate: no answer leaves with a figure that is not one, or
// with a piece of negative length.
func (w *work) finite() error {
	for _, l := range w.answer.Lengths {
		v := l.Length.Inches()
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return &geometry.Problem{Reason: geometry.NotANumber, What: string(l.Role), Value: v}
		}
		if l.Role == parser.Cut && l.Length < 0 {
			return &Impossible{Cause: TooShort, Subject: string(parser.Cut)}
		}
	}
	return nil
}

// finish puts in what every answer carries.
func (w *work) finish() {
	w.mainFirst()
	w.inSiteOrder()
	w.answer.Cautions = w.cautions()
}

// mainFirst moves the main figure to the front of the lengths.
func (w *work) mainFirst() {
	lengths := w.answer.Lengths
	for i, l := range lengths {
		if l.Role == w.answer.Main {
			copy(lengths[1:i+1], lengths[:i])
			lengths[0] = l
			return
		}
	}
}

// figured adds a length to the answer.
func (w *work) figured(r parser.Role, l geometry.Length) {
	if w.answer.Lengths == nil {
		w.answer.Lengths = make([]Length, 0, usualLengths)
	}
	w.answer.Lengths = append(w.answer.Lengths, Length{Role: r, Length: l})
}

// usualLengths is how many lengths an answer has room for at first: those of an
// offset.
const usualLengths = 6

// wants says whether the words ask for one of these.
func (w *work) wants(roles ...parser.Role) bool {
	for _, r := range roles {
		if w.ask.Want == r && r != parser.Bare {
			return true
		}
	}
	return false
}

// has says whether a role was measured.
func (w *work) has(r parser.Role) bool {
	_, ok := w.ask.Length(r)
	return ok
}
