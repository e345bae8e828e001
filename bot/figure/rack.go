package figure

import (
	"cmp"
	"slices"
	"strconv"

	"dogleg/geometry"
	"dogleg/parser"
)

// rack figures parallel lines that differ in size, or are covered: each takes the
// same offset, so travel and run are alike, but cuts differ with what the fittings
// take, and staggers with how far the centers lie apart. A spacing from inside to
// inside is the clear space between what covers the lines, and alike between all of
// them; one from center to center is alike from center to center.
//
// The centers are taken to lie in one plane. Pipes whose undersides lie on one
// steel differ in that; where the step is level too, the staggers are the same, for
// only the level part of the spacing counts.
func (w *work) rack() error {
	if n := len(w.ask.Rack); n < 2 || w.ask.Lines != 0 && w.ask.Lines != n {
		return &Missing{Wanted: parser.LineCount}
	}
	size := w.ask.Pipe.Size
	w.ask.Pipe.Size = cmp.Or(size, w.ask.Rack[0].Size) // how the tape was laid on the step is by line 1
	o, err := w.triangle()
	w.ask.Pipe.Size = size
	if err != nil {
		return err
	}
	w.answer.Angle, w.answer.Main = o.Angle, parser.Travel
	spacing, err := w.rackSpacing(o)
	if err != nil {
		return err
	}
	w.withoutPiece(o)
	w.explain(o)
	if err := w.rackLines(o, spacing); err != nil {
		return err
	}
	return w.walkedLines(o)
}

// rackSpacing is the spacing as it was measured.
func (w *work) rackSpacing(o solved) (parser.Measure, error) {
	for _, m := range w.ask.All(parser.Spacing) {
		switch m.Method {
		case "", parser.Centers:
			return m, nil
		case parser.InsideToInside, parser.FaceToFace:
			m.Method = parser.InsideToInside
			return m, nil
		case parser.OutsideToOutside, parser.OutsideToInside, parser.CenterToOutside, parser.CenterToInside,
			parser.BackToBack, parser.CenterToFace, parser.EndToCenter, parser.EndToEnd:
		}
	}
	w.withoutPiece(o)
	return parser.Measure{}, &Missing{Wanted: parser.Spacing}
}

// rackLines lays the lines out, each from the one before.
func (w *work) rackLines(o solved, m parser.Measure) error {
	rack := &Rack{Clear: m.Method == parser.InsideToInside}
	w.answer.Rack = rack
	w.step(Step{Name: StepMeasure, Rule: RuleTape, Result: length(parser.Spacing, m.Length)})
	var staggers []geometry.Length
	for i, said := range w.ask.Rack {
		line, err := w.rackLine(o, said)
		if err != nil {
			return err
		}
		line.Number = i + 1
		if i > 0 {
			stagger, err := w.besideLine(&line, w.answer.Lines[i-1], m, o)
			if err != nil {
				return err
			}
			staggers = append(staggers, stagger)
		}
		w.answer.Lines = append(w.answer.Lines, line)
	}
	for _, s := range staggers {
		rack.Uneven = rack.Uneven || !within(s, staggers[0], geometry.Inch/32)
	}
	if !rack.Uneven {
		w.figured(parser.Stagger, staggers[0])
		w.answer.Main = parser.Stagger
	}
	if w.wants(parser.Travel, parser.Run, parser.Set) {
		w.answer.Main = w.ask.Want
	}
	for _, l := range w.answer.Lines {
		w.rackCut(l)
	}
	return nil
}

// rackLine is one line by itself: its pipe, and its piece where the words name what
// it is made of.
func (w *work) rackLine(o solved, said parser.RackLine) (Line, error) {
	l := Line{Run: o.Run, Travel: o.Travel, Cover: said.Insulation, Size: cmp.Or(said.Size, w.ask.Pipe.Size)}
	alone := *w.ask
	alone.Kind, alone.Lines, alone.Rack, alone.Want = parser.Offset, 0, nil, parser.Bare
	alone.Pipe.Size = l.Size
	alone.Measures = nil
	for _, m := range w.ask.Measures {
		if m.Role != parser.Spacing {
			alone.Measures = append(alone.Measures, m)
		}
	}
	for i := range alone.Ends {
		if said.Takeoff > 0 {
			alone.Ends[i].Takeoff, alone.Ends[i].Face, alone.Ends[i].Depth = said.Takeoff, 0, 0
		}
	}
	if !w.pipeSaid() && alone.Ends[0].Takeoff == 0 {
		return l, nil // lines can be laid out without a piece
	}
	answer, err := Solve(alone, w.settings)
	if err != nil {
		return l, err
	}
	l.Alone = answer
	l.Cut, l.HasCut = answer.Length(parser.Cut)
	d, _ := answer.System.Dimensions(answer.Size)
	l.Outside = d.Outside
	if w.answer.System, w.answer.Size = answer.System, answer.Size; w.sizesOfRackDiffer() {
		w.answer.Size = ""
	}
	w.answer.Provisional = w.answer.Provisional || answer.Provisional
	return l, nil
}

// sizesOfRackDiffer says whether the lines are not all of one size.
func (w *work) sizesOfRackDiffer() bool {
	first := cmp.Or(w.ask.Rack[0].Size, w.ask.Pipe.Size)
	return slices.ContainsFunc(w.ask.Rack, func(l parser.RackLine) bool { return cmp.Or(l.Size, w.ask.Pipe.Size) != first })
}

// besideLine finds where a line lies beside the one before, and how much sooner its
// bend begins than that one's.
func (w *work) besideLine(l *Line, before Line, m parser.Measure, o solved) (geometry.Length, error) {
	first, second := geometry.Covered{Outside: before.Outside, Cover: before.Cover}, geometry.Covered{Outside: l.Outside, Cover: l.Cover}
	l.Next = m.Length
	if m.Method == parser.InsideToInside {
		if first.Outside == 0 || second.Outside == 0 {
			return 0, &Missing{Wanted: parser.PipeOf}
		}
		var err error
		if l.Next, err = geometry.Apart(m.Length, first, second); err != nil {
			return 0, err
		}
		w.step(Step{Name: StepConvert, Rule: RuleRack, Line: l.Number, Result: length(parser.Spacing, l.Next), Terms: rackTerms(m.Length, first, second)})
	}
	l.Clear = geometry.ClearOf(l.Next, first, second)
	if first.Outside > 0 && second.Outside > 0 && l.Clear < 0 {
		return 0, &Impossible{Cause: LinesOverlap, Subject: strconv.Itoa(l.Number), Smallest: l.Next - l.Clear}
	}
	stagger, err := w.rackStagger(l, o)
	if err != nil {
		return 0, err
	}
	l.Spacing, l.Start = before.Spacing+l.Next, before.Start+stagger
	if w.ask.LineOne == parser.Toward {
		l.Start = before.Start - stagger
	}
	return stagger, nil
}

// rackStagger is that of a line against the one before.
func (w *work) rackStagger(l *Line, o solved) (geometry.Length, error) {
	b := geometry.Bank{Spacing: l.Next, Angle: o.Angle, Roll: w.lieOfBank().Roll}
	stagger, err := b.Stagger()
	if err != nil {
		return 0, err
	}
	other := b
	other.Roll = geometry.QuarterBend - b.Roll
	lies := w.lieOfBank()
	if lies.Other, err = other.Stagger(); err != nil {
		return 0, err
	}
	if l.Number == 2 {
		lies.Other, lies.Differ = noHair(lies.Other), !within(noHair(stagger), noHair(lies.Other), geometry.Inch/32)
		w.answer.Bank = lies
		if w.answer.Unstaggered, err = b.Unstaggered(); err != nil {
			return 0, err
		}
	}
	stagger = noHair(stagger)
	w.step(Step{
		Name: StepMultiply, Rule: RuleStagger, Line: l.Number, Result: length(parser.Stagger, stagger),
		Terms: []Quantity{length(parser.Spacing, l.Next)}, Factor: b.Roll.Cos() * o.Angle.Half().Tan(),
	})
	return stagger, nil
}

// rackTerms are the clear space, half of both pipes, and what covers them.
func rackTerms(space geometry.Length, first, second geometry.Covered) []Quantity {
	terms := []Quantity{length(parser.Clearance, space), length(HalfOutsides, (first.Outside+second.Outside)/2)}
	if covers := first.Cover + second.Cover; covers > 0 {
		terms = append(terms, length(Covers, covers))
	}
	return terms
}

// rackCut takes over the step that makes a line's cut.
func (w *work) rackCut(l Line) {
	if l.Alone == nil {
		return
	}
	for _, s := range l.Alone.Steps {
		if s.Name == StepAdd && s.Result.Role == parser.Cut {
			s.Line = l.Number
			w.step(s)
		}
	}
}
