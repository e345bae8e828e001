package sketch

import (
	"strconv"

	"dogleg/bot/wording"
	"dogleg/geometry"
)

// Triangle draws the triangle that the multipliers of an angle come from: its
// set is 1, and the other two sides are what the set is multiplied by. The
// error is [ErrNothingToDraw] for what turns as far as a square corner or
// farther, which has no run.
func Triangle(a geometry.Angle, title string, o wording.Options) (*Drawing, error) {
	if a <= 0 || a >= geometry.QuarterBend {
		return nil, ErrNothingToDraw
	}
	s := sketcher{options: o}
	first, corner := Point{}, Point{geometry.Length(1 / a.Tan()), 0}
	second := Point{corner.X, 1}
	box := geometry.Length(0.09)
	v := View{
		Name: "triangle", high: 620,
		Lines: []Line{
			{ThickStroke, []Point{first, second, corner, first}},
			{ThinStroke, []Point{{corner.X - box, 0}, {corner.X - box, box}, {corner.X, box}}},
		},
		Arcs: []Arc{{Center: first, Radius: 0.3 * apart(first, second), Sweep: a, Label: degrees(a)}},
		Labels: []Label{
			{At: Point{corner.X / 2, 0.5}, Side: from(first, second).square(), Text: s.side(wordTravel, 1/a.Sin()), Main: true},
			{At: Point{corner.X, 0.5}, Side: right, Text: s.side(wordSet, 1)},
			{At: Point{corner.X / 2, 0}, Side: down, Text: s.side(wordRun, 1/a.Tan())},
		},
	}
	return &Drawing{Title: title, Views: []View{v}}, nil
}

// side names a side of a triangle with its length, to the three decimals that
// books print at most.
func (s sketcher) side(name word, long float64) string {
	return s.say(name) + " " + strconv.FormatFloat(float64(int(long*1000+0.5))/1000, 'f', -1, 64)
}
