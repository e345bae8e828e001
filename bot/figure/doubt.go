package figure

import (
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Doubt is a takeoff that was said and that reads on the tape like another
// measure of the same fitting: the face, or how far the pipe goes in.
type Doubt struct {
	Said   catalog.Takeoff
	Like   parser.Role     // Face or Depth
	Known  catalog.Takeoff // as the table has it
	Cut    geometry.Length // by the table's takeoff, 0 where there is none
	System catalog.System
}

// doubts notes the takeoffs of a piece that look like something else. The cut
// is figured as it was said, but it isn't sure before the question is answered.
func (w *work) doubts(ends [2]End, lost, centers geometry.Length) {
	for end, e := range ends {
		d, ok := w.doubted(end, e.Takeoff)
		if !ok || end == 1 && len(w.answer.Doubts) > 0 && w.answer.Doubts[0].Said == d.Said {
			continue
		}
		other := lost - e.Takeoff.Length + d.Known.Length
		if ends[0] == ends[1] {
			other += d.Known.Length - e.Takeoff.Length
		}
		d.Cut = max(0, centers-other)
		w.answer.Doubts = append(w.answer.Doubts, d)
		w.answer.Provisional = true
	}
}

// doubted says what a takeoff that was said looks like. One that was made of a
// face and a depth is none.
func (w *work) doubted(end int, t catalog.Takeoff) (Doubt, bool) {
	if t.Evidence != catalog.Said || w.ask.Ends[end].Takeoff == 0 || w.answer.System.ID == "" {
		return Doubt{}, false
	}
	d, ok := looksLike(w.answer.System, t)
	if !ok && (w.ask.Ends[end].Depth != 0 || w.has(parser.Depth)) {
		d, ok = lessDepth(w.answer.System, t)
	}
	return d, ok
}

// looksLike compares a takeoff, as it reads in sixteenths, with the face and
// the depth that the catalog has for its fitting.
func looksLike(s catalog.System, t catalog.Takeoff) (Doubt, bool) {
	known, ok := s.Takeoff(t.Fitting, t.Size)
	if !ok || known.Insertion == 0 {
		return Doubt{}, false
	}
	d := Doubt{Said: t, Known: known, System: s}
	switch {
	case sameMark(t.Length, known.Length):
		return d, false
	case sameMark(t.Length, known.CenterToFace()):
		d.Like = parser.Face
	case sameMark(t.Length, known.Insertion) && !within(t.Length, known.Length, known.Band):
		d.Like = parser.Depth
	default:
		return d, false
	}
	return d, true
}

// lessDepth tells a face by the depth that was said beside it: the one less the
// other is about the takeoff.
func lessDepth(s catalog.System, t catalog.Takeoff) (Doubt, bool) {
	known, ok := s.Takeoff(t.Fitting, t.Size)
	if !ok || within(t.Length, known.Length, known.Band) || !within(t.Length-t.Insertion, known.Length, known.Band) {
		return Doubt{}, false
	}
	return Doubt{Said: t, Like: parser.Face, Known: known, System: s}, true
}

// sameMark says whether a length that was said is the mark, in sixteenths, that
// a known one reads at.
func sameMark(said, known geometry.Length) bool {
	return within(said, known.Tape(geometry.Sixteenths).Length(), 0)
}

// faceNotMeasured questions a face that is to be kept and is just what the table
// makes of a takeoff that nobody has checked.
func faceNotMeasured(s catalog.System, t catalog.Takeoff, face geometry.Length) error {
	known, ok := s.Takeoff(t.Fitting, t.Size)
	if !ok || known.Evidence.Sure() || !sameMark(face, known.CenterToFace()) {
		return nil
	}
	return &Impossible{Cause: NotMeasured, Subject: MeasuredFace, System: s, Doubted: t}
}

// MeasuredFace is the subject of [NotMeasured] where a face was said as one.
const MeasuredFace = "measured face"

// notMeasured questions a takeoff that is to be kept and is just what the table
// has of the fitting, its takeoff, its face or its depth: nobody may have
// measured it.
func notMeasured(s catalog.System, t catalog.Takeoff) error {
	i := &Impossible{Cause: NotMeasured, Subject: string(parser.TakeoffOf), System: s, Doubted: t}
	if d, ok := looksLike(s, t); ok {
		i.Subject = string(d.Like)
		return i
	}
	known, ok := s.Takeoff(t.Fitting, t.Size)
	if ok && !known.Evidence.Sure() && within(t.Length, known.Length.Tape(geometry.Sixteenths).Length(), 0) {
		return i
	}
	return nil
}
