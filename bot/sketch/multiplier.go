package sketch

import (
	"fmt"

	"dogleg/geometry"
	"dogleg/parser"
)

// multiplier draws the triangle of an angle, a foot of travel on its diagonal,
// with its multipliers below.
func (s sketcher) multiplier() []View {
	if len(s.answer.Factors) == 0 {
		return nil
	}
	v := View{Name: "triangle"}
	a := s.answer.Angle
	first := Point{}
	second := first.Toward(at(a), geometry.Foot)
	foot := Point{second.X, 0}
	v.Lines = append(
		v.Lines,
		Line{ThickStroke, []Point{first.Toward(left, 2), first, second, second.Toward(right, 2)}},
		Line{DashStroke, []Point{first, foot, second}},
	)
	v.Labels = append(
		v.Labels,
		Label{At: Point{second.X / 2, second.Y / 2}, Side: at(a).square(), Text: s.say(wordTravel)},
		Label{At: Point{second.X, second.Y / 2}, Side: right, Text: s.say(wordSet)},
	)
	if a < geometry.QuarterBend {
		v.Labels = append(v.Labels, Label{At: Point{second.X / 2, 0}, Side: down, Text: s.say(wordRun)})
	}
	v.Arcs = append(v.Arcs, Arc{Center: first, Radius: 3, Sweep: a, Label: degrees(a)})
	for _, f := range s.answer.Factors {
		from, known := s.sideOf(f.From)
		to, both := s.sideOf(f.To)
		if known && both {
			v.Caption = append(v.Caption, fmt.Sprintf("%s × %s = %s", from, f.Printed, to))
		}
	}
	return []View{v}
}

// sideOf names a side of the triangle; false for what is none.
func (s sketcher) sideOf(r parser.Role) (string, bool) {
	names := map[parser.Role]word{parser.Set: wordSet, parser.Run: wordRun, parser.Travel: wordTravel}
	w, ok := names[r]
	return s.say(w), ok
}
