package sketch

import (
	"math"
	"strconv"

	"dogleg/geometry"
	"dogleg/parser"
)

// shownOff is how far off a dry fit is drawn at least, as a part of the set: as
// it is, it would be no more than the width of a line.
const shownOff = 0.14

// check draws a dry fit as it lies, against the set that was wanted: how far the
// far line is off, and what has to come off the piece or is lacking. What was
// figured anew comes below.
func (s sketcher) check() []View {
	trim, hasTrim := s.answer.Length(parser.TrimOff)
	set, hasSet := s.answer.Length(parser.Set)
	sin := geometry.Length(s.answer.Angle.Sin())
	if !hasTrim || !hasSet || sin <= 0 || trim == 0 {
		return s.offset()
	}
	views := []View{s.dryFit(set, set/sin, trim, trim*sin)}
	if _, pieced := s.assembled(); pieced {
		views = append(views, s.offset()...)
	}
	return views
}

// dryFit draws a piece that is too long for its set by a trim, or too short by
// less than nothing, and so off on the far line.
func (s sketcher) dryFit(set, travel, trim, off geometry.Length) View {
	v := View{Name: "dry fit", Over: s.say(wordDryFit)}
	size := max(off, -off)
	times := geometry.Length(max(1, math.Round(float64(shownOff*set/size))))
	along := at(s.answer.Angle)
	first, wanted, lies := Point{}, Point{}.Toward(along, travel), Point{}.Toward(along, travel+trim*times)
	stub, outside := 0.35*travel, s.outside()
	edge := max(wanted.X, lies.X) + stub
	sawn, end := wanted, lies
	if trim < 0 {
		sawn, end = lies, wanted
	}
	v.Bands = append(
		v.Bands,
		Band{StandingPipe, []Point{first.Toward(left, stub), first}, outside, [2]bool{true, false}},
		Band{StandingPipe, []Point{wanted, {edge, wanted.Y}}, outside, [2]bool{false, true}},
		Band{ComesOff, []Point{sawn, end}, outside, [2]bool{}},
		Band{PipePiece, []Point{first, sawn}, outside, [2]bool{}},
	)
	v.Lines = append(
		v.Lines,
		Line{DashStroke, []Point{lies, {edge, lies.Y}}},
		Line{CutStroke, []Point{wanted.Toward(along.square(), 0.04*travel), wanted.Toward(along.square().back(), 0.04*travel)}},
		Line{CenterStroke, []Point{first, {edge, 0}}},
	)
	s.dimension(&v, Dimension{Role: parser.TrimOff, Axis: Along, From: sawn, To: end, Through: wanted, Row: 1})
	for i := range v.Dimensions {
		v.Dimensions[i].Main = true
	}
	word := wordHigh
	if off < 0 {
		word = wordLow
	}
	v.Dimensions = append(
		v.Dimensions,
		Dimension{
			Role: parser.Set, Axis: Plumb, From: Point{edge, 0}, To: Point{edge, set}, Through: Point{edge, 0}, Row: -1,
			Label: s.given(parser.Set, set),
		},
		Dimension{
			Role: parser.DryFit, Axis: Plumb, From: Point{edge, 0}, To: Point{edge, lies.Y}, Through: Point{edge, 0}, Row: -3,
			Label: s.given(parser.DryFit, set+off),
		},
	)
	v.Labels = append(v.Labels, Label{
		At: Point{(max(wanted.X, lies.X) + edge) / 2, max(wanted.Y, lies.Y)}, Side: up, Text: s.tape(size) + " " + s.say(word),
	})
	if times > 1 {
		v.Caption = append(v.Caption, s.say(wordLarger)+" "+strconv.Itoa(int(times)))
	}
	return v
}
