package figure

import (
	"dogleg/geometry"
	"dogleg/parser"
)

// mark figures where the cut goes on a pipe that stands: the end gap that the
// offset needs less the gap there is comes off, from either pipe or shared. A
// trim of less than nothing is a piece that must be added.
//
// Given where the pipe's end stands on a tape, the mark is that much less;
// without it the mark is measured back from the end.
func (w *work) mark() error {
	o, err := w.triangle()
	if err != nil {
		return err
	}
	w.answer.Angle, w.answer.Main = o.Angle, parser.Travel
	if err := w.pieceOf(&o); err != nil {
		w.withoutPiece(o)
		if isUnmeasured(err) {
			if _, err := w.standing(); err != nil {
				return err
			}
			w.explain(o)
			return nil
		}
		return err
	}
	w.withPiece(o)
	if !w.answer.EndGapKnown() {
		return &Missing{Wanted: parser.TakeoffOf, Of: parser.EndGap}
	}
	stands, err := w.standing()
	if err != nil {
		return err
	}
	w.answer.Main = parser.EndGap // the steps go on from there
	if err := w.built(o); err != nil {
		return err
	}
	return w.markAt(stands)
}

// standing is how the two pipes stand now: the gap between their ends, less
// than nothing where they overlap, and where the end to be cut reads on the
// tape, if that was said.
type standing struct {
	gap     geometry.Length
	end     geometry.Length
	endRead bool
}

// standing finds it from a gap or an overlap, or from two readings of one
// tape; the pipe with the lower reading is then the one to cut.
func (w *work) standing() (standing, error) {
	var s standing
	ends := append(w.ask.All(parser.Reading), w.ask.All(parser.StickOut)...)
	if len(ends) > 0 {
		s.end, s.endRead = ends[0].Length, true
	}
	if l, ok := w.ask.Length(parser.GapNow); ok {
		s.gap = l
		return s, nil
	}
	if l, ok := w.ask.Length(parser.Overlap); ok {
		s.gap = -l
		return s, nil
	}
	if len(ends) < 2 {
		return s, &Missing{Wanted: parser.GapNow}
	}
	low, high := min(ends[0].Length, ends[1].Length), max(ends[0].Length, ends[1].Length)
	s.gap, s.end = high-low, low
	w.add(RuleArithmetic, length(parser.GapNow, s.gap), length(parser.Reading, high), less(parser.Reading, low))
	return s, nil
}

// term is the gap as it is taken from the end gap.
func (s standing) term() Quantity {
	if s.gap < 0 {
		return length(parser.Overlap, -s.gap)
	}
	return less(parser.GapNow, s.gap)
}

// markAt puts the trim and the mark into the answer, with their steps.
func (w *work) markAt(s standing) error {
	endGap, _ := w.answer.Length(parser.EndGap)
	trim, err := geometry.Trim(endGap, s.gap)
	if err != nil {
		return err
	}
	w.add(RuleTrim, length(parser.TrimOff, trim), length(parser.EndGap, endGap), s.term())
	if trim < 0 {
		w.figured(parser.TrimOff, trim)
		w.answer.Main = parser.TrimOff // nothing to mark: the pipes are too far apart
		return nil
	}
	mark := trim
	if s.endRead {
		if mark, err = geometry.MarkAt(s.end, trim); err != nil {
			return err
		}
		w.add(RuleMark, length(parser.MarkAt, mark), length(parser.Reading, s.end), less(parser.TrimOff, trim))
	}
	w.figured(parser.MarkAt, mark)
	w.figured(parser.TrimOff, trim)
	w.answer.Main = parser.MarkAt
	if w.wants(parser.Cut, parser.EndGap, parser.TrimOff) {
		w.answer.Main = w.ask.Want
		w.endWith(w.answer.Main)
		return nil
	}
	w.siteSteps(length(parser.MarkAt, mark))
	return nil
}
