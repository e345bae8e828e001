package sketch

import (
	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"
)

// fit draws the best bend in place, and below it all of them from one corner:
// how far along the line each takes the step, and the room there is.
func (s sketcher) fit() []View {
	views := s.offset()
	if len(s.answer.Bends) > 1 {
		views = append(views, s.fan())
	}
	return views
}

// fan is the centerlines of all bends, from where the old line ends to where the
// new one begins; where only the run was given, from center to center. Those
// that need more than a quarter over the space there is are broken off.
func (s sketcher) fan() View {
	v := View{Name: "bends", high: 360}
	set, _ := s.answer.Length(parser.Set)
	role, space := s.space()
	edge := 1.25 * space
	v.Lines = append(v.Lines, Line{DashStroke, []Point{{space, 0}, {space, set}}})
	for i, c := range s.answer.Bends {
		lead := geometry.Length(0)
		if role != parser.Run && c.EndGap > 0 {
			lead = (c.EndGap - c.Run) / 2
		}
		s.bendOn(&v, c, []Point{{}, {lead, 0}, {lead + c.Run, set}, {2*lead + c.Run, set}}, edge, i == 0)
	}
	v.Dimensions = append(v.Dimensions, Dimension{
		Role: role, Axis: Level, From: Point{}, To: Point{space, 0}, Through: Point{}, Row: -1, Label: s.given(role, space),
	})
	return v
}

// space is what there is along the line, and what it was called.
func (s sketcher) space() (parser.Role, geometry.Length) {
	for _, r := range []parser.Role{parser.Run, parser.Room, parser.EndGap} {
		if l, ok := s.answer.Ask.Length(r); ok {
			return r, l
		}
	}
	best := s.answer.Bends[0]
	return parser.Run, best.Run + best.Spare
}

func (s sketcher) bendOn(v *View, c figure.Choice, points []Point, edge geometry.Length, best bool) {
	stroke := DashStroke
	switch {
	case best:
		stroke = CutStroke
	case c.Fits:
		stroke = ThickStroke
	}
	label, side := points[2], up
	if points[2].X > edge {
		part := (edge - points[1].X) / c.Run
		label, side = Point{edge, part * points[2].Y}, right
		points = []Point{points[0], points[1], label}
	}
	text := degrees(c.Angle)
	if c.Run >= geometry.Hair {
		text += ", " + s.given(parser.Run, c.Run)
	}
	v.Lines = append(v.Lines, Line{stroke, points})
	v.Labels = append(v.Labels, Label{At: label, Side: side, Text: text, Size: Small, Main: best})
}
