package sketch

import (
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// marking draws the pipes as they stand now, with where the saw goes, and then the
// offset that comes between them.
func (s sketcher) marking() []View {
	a, ok := s.assembled()
	if !ok {
		return s.offset()
	}
	return append([]View{s.standing(a)}, s.offset()...)
}

// standing is the pipes as they are. The new end of the first is at the origin:
// past it lies what comes off, or before it what is lacking. All of it is shown
// on the first pipe, though it may come off either or be shared.
func (s sketcher) standing(a assembly) View {
	v := View{Name: "standing", Over: s.say(wordNow), high: 260}
	trim, _ := s.answer.Length(parser.TrimOff)
	now, far := Point{trim, 0}, a.at(walk.SecondEnd)
	begin := Point{min(0, trim) - a.stub, 0}
	v.Bands = append(
		v.Bands,
		Band{StandingPipe, []Point{begin, {min(0, trim), 0}}, a.outside, [2]bool{true, false}},
		Band{ComesOff, []Point{{min(0, trim), 0}, {max(0, trim), 0}}, a.outside, [2]bool{}},
		Band{StandingPipe, []Point{far, a.last()}, a.outside, [2]bool{false, true}},
	)
	v.Lines = append(
		v.Lines,
		Line{CenterStroke, []Point{begin, {max(0, trim), 0}}},
		Line{CenterStroke, []Point{far, a.last()}},
		Line{CutStroke, []Point{{0, a.half()}, {0, -a.half()}}},
	)
	s.markOn(&v, a, now, far)
	return v
}

// markOn dimensions what was measured, what the offset needs and what comes off,
// and says where the mark is.
func (s sketcher) markOn(v *View, a assembly, now, far Point) {
	above, below := Point{0, a.half()}, Point{0, -a.half()}
	s.dimension(v, Dimension{Role: parser.EndGap, Axis: Level, From: Point{}, To: far, Through: below, Row: -1})
	s.dimension(v, Dimension{Role: parser.TrimOff, Axis: Level, From: Point{}, To: now, Through: above, Row: 1})
	for i := range v.Dimensions {
		v.Dimensions[i].Main = v.Dimensions[i].Role == parser.TrimOff
	}
	gap := Dimension{Role: parser.GapNow, Axis: Level, From: now, To: far, Through: above, Row: 1}
	if now.X > far.X {
		gap.Role, gap.Row = parser.Overlap, 2
	}
	gap.Label = s.given(gap.Role, gap.measures())
	v.Dimensions = append(v.Dimensions, gap)
	mark, _ := s.answer.Length(parser.MarkAt)
	trim, _ := s.answer.Length(parser.TrimOff)
	if mark != trim {
		text, _ := s.label(parser.MarkAt)
		v.Labels = append(v.Labels, Label{At: Point{0, a.half()}, Side: Direction{-0.7, 0.7}, Text: text, Main: true})
		v.Labels = append(v.Labels, Label{At: now, Side: right, Text: s.given(parser.Reading, mark+trim)})
	}
}
