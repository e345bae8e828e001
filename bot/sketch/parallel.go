package sketch

import (
	"strconv"

	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"
)

// mostDrawn is how many parallel lines a picture holds before they run into
// each other; each further one is like the last.
const mostDrawn = 8

// squareOn is the angle between bank and step from which the lines of a bank
// hide each other, seen from the side that the step is square to.
const squareOn geometry.Angle = 85

// parallel draws a bank of lines, each bending as much sooner as it must to keep
// the spacing. Of a bank that rolls, the spacing is seen from the side that the
// step is square to, so its lines come out closer than they are.
func (s sketcher) parallel() []View {
	v := View{Name: "parallel", high: 560}
	set, hasSet := s.answer.Length(parser.Set)
	run, hasRun := s.answer.Length(parser.Run)
	if !hasSet || !hasRun || len(s.answer.Lines) == 0 {
		return nil
	}
	lines := s.answer.Lines[:min(len(s.answer.Lines), mostDrawn)]
	if s.answer.Bank.Roll > squareOn {
		lines = lines[:1] // seen from here they hide each other
	}
	last := lines[len(lines)-1]
	stub := max(0.25*max(set, run), 0.1*last.Spacing)
	begin, end := -last.Start-stub, run+stub
	for _, l := range lines {
		first := s.bendOf(l)
		second := first.Plus(Point{run, set})
		points := []Point{{begin, first.Y}, first, second, {end, second.Y}}
		v.Bands = append(v.Bands, Band{StandingPipe, points, s.outside(), [2]bool{true, true}})
		v.Lines = append(v.Lines, Line{CenterStroke, points})
		v.Labels = append(v.Labels, Label{At: points[3], Side: right, Text: strconv.Itoa(l.Number), Size: Small})
	}
	s.bankOn(&v, lines, begin, set, run)
	if len(s.answer.Lines) > mostDrawn {
		v.Caption = append(v.Caption, strconv.Itoa(mostDrawn)+"/"+strconv.Itoa(len(s.answer.Lines))+" "+s.say(wordTooMany))
	}
	if s.answer.Rolling {
		v.Over = s.say(wordSquare)
		return append([]View{v}, s.rolled()...)
	}
	return []View{v}
}

// bendOf is the center of a line's first bend; that of the first line lies at
// the origin.
func (s sketcher) bendOf(l figure.Line) Point {
	spacing := l.Spacing
	spacing *= geometry.Length(s.answer.Bank.Roll.Cos())
	return Point{-l.Start, spacing}
}

// bankOn dimensions the spacing and the stagger of the first two lines, and
// the step of the first.
func (s sketcher) bankOn(v *View, lines []figure.Line, begin, set, run geometry.Length) {
	first, second, half := Point{}, Point{run, set}, s.outside()/2
	s.dimension(v, Dimension{Role: parser.Travel, Axis: Along, From: first, To: second, Through: first.Toward(from(first, second).square().back(), half), Row: -1})
	s.dimension(v, Dimension{Role: parser.Run, Axis: Level, From: first, To: second, Through: Point{0, -half}, Row: -3})
	if len(lines) < 2 {
		return
	}
	next := s.bendOf(lines[1])
	s.dimension(v, Dimension{Role: parser.Stagger, Axis: Level, From: next, To: first, Through: Point{0, -half}, Row: -1})
	v.Dimensions = append(v.Dimensions, Dimension{
		Role: parser.Spacing, Axis: Plumb, From: Point{begin, 0}, To: Point{begin, next.Y}, Through: Point{begin, 0}, Row: 1,
		Label: s.given(parser.Spacing, lines[1].Spacing),
	})
	for i := range v.Dimensions {
		v.Dimensions[i].Main = v.Dimensions[i].Role == parser.Stagger
	}
	v.Lines = append(v.Lines, Line{DashStroke, []Point{{}, s.bendOf(lines[len(lines)-1])}})
	s.angleOn(v, first, second, half)
}
