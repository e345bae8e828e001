package sketch

import (
	"math"
	"strconv"

	"dogleg/geometry"
	"dogleg/parser"
)

// shownFall is how much of the length a graded line comes down in the picture
// at least: a quarter inch per foot, drawn as it is, is the width of the line.
const shownFall = 0.2

// fall draws a graded line from its upper to its lower end, with the fall drawn
// so many times too large and saying so.
func (s sketcher) fall() []View {
	long, hasLong := s.answer.Length(parser.Long)
	drop, hasDrop := s.answer.Length(parser.Drop)
	if !hasLong || !hasDrop || drop <= 0 {
		return nil
	}
	v := View{Name: "fall"}
	times := max(1, math.Round(shownFall*float64(long/drop)))
	shown := drop * geometry.Length(times)
	upper, lower := Point{0, shown}, Point{long, 0}
	corner := Point{long, shown}
	v.Bands = append(v.Bands, Band{StandingPipe, []Point{upper, lower}, s.outside(), [2]bool{true, true}})
	v.Lines = append(v.Lines, Line{DashStroke, []Point{upper, corner}})
	s.dimension(&v, Dimension{Role: parser.Long, Axis: Along, From: upper, To: lower, Through: lower, Row: -1})
	s.dimension(&v, Dimension{Role: parser.Drop, Axis: Plumb, From: lower, To: corner, Through: corner, Row: -1})
	for i := range v.Dimensions {
		v.Dimensions[i].Main = v.Dimensions[i].Role == s.answer.Main
	}
	v.Labels = append(v.Labels, Label{At: Point{long * 0.42, shown}, Side: up, Text: s.grade(), Main: s.answer.Main == parser.Grade})
	s.invertOn(&v, parser.Upper, upper, up)
	s.invertOn(&v, parser.Lower, lower, down)
	if times > 1 {
		v.Caption = append(v.Caption, s.say(wordSteeper)+" "+strconv.Itoa(int(times)))
	}
	return []View{v}
}

// grade says how steep the line is, by the foot and in percent.
func (s sketcher) grade() string {
	percent := strconv.FormatFloat(s.answer.Grade.Percent(), 'f', 2, 64) + " %"
	if s.options.Metric {
		return percent
	}
	return s.tape(geometry.Length(s.answer.Grade.InchesPerFoot())) + " " + s.say(wordPerFoot) + " = " + percent
}

func (s sketcher) invertOn(v *View, r parser.Role, where Point, side Direction) {
	if l, ok := s.length(r); ok {
		v.Labels = append(v.Labels, Label{At: where, Side: side, Text: s.given(r, l)})
	}
}
