package sketch

import (
	"dogleg/bot/wording"
	"dogleg/geometry"
	"dogleg/parser"
)

// turn shows how far the fitting of a rolling offset is turned, as one sees it
// looking along the line: from plumb, and as roll and rise on a level.
func (s sketcher) turn() View {
	roll, _ := s.length(parser.Roll)
	rise, _ := s.length(parser.Rise)
	v := View{Name: "turn", high: 260, Caption: []string{wording.Turn(s.answer, s.options), s.say(wordAlong)}}
	near, far := Point{}, Point{roll, rise}
	reach := apart(near, far)
	outside := min(s.outside(), reach/6)
	v.Bands = append(v.Bands, Band{FittingBody, []Point{near, far}, outside, [2]bool{}})
	v.Lines = append(
		v.Lines,
		Line{DashStroke, []Point{{0, -reach * 0.1}, {0, reach * 1.1}}},
		Line{DashStroke, []Point{{-reach * 0.1, 0}, {reach * 1.1, 0}}},
		Line{CenterStroke, []Point{near, far}},
	)
	fromLevel := geometry.QuarterBend - s.answer.RollAngle
	v.Arcs = append(
		v.Arcs,
		Arc{near, reach * 0.5, 0, fromLevel, wholeDegrees(fromLevel)},
		Arc{near, reach * 0.8, fromLevel, s.answer.RollAngle, wholeDegrees(s.answer.RollAngle)},
	)
	v.Labels = append(
		v.Labels,
		Label{At: Point{0, reach * 1.1}, Side: up, Text: s.say(wordPlumb), Size: Small},
		Label{At: Point{reach * 1.1, 0}, Side: right, Text: s.say(wordLevel), Size: Small},
	)
	s.legOn(&v, parser.Roll, roll, Dimension{Axis: Level, From: near, To: Point{roll, 0}, Through: Point{0, -outside}, Row: -1})
	s.legOn(&v, parser.Rise, rise, Dimension{Axis: Plumb, From: Point{roll, 0}, To: far, Through: Point{roll + outside, 0}, Row: -1})
	return v
}

// legOn dimensions the roll or the rise, which may be given or figured.
func (s sketcher) legOn(v *View, r parser.Role, l geometry.Length, d Dimension) {
	if l <= 0 {
		return
	}
	d.Role, d.Label = r, s.given(r, l)
	v.Dimensions = append(v.Dimensions, d)
}
