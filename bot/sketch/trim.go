package sketch

import (
	"math"
	"strings"

	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"
)

// trim draws the elbow with the cut through it, and the wall of the pipe laid
// flat with the line of the cut on it, to be wrapped around.
func (s sketcher) trim() []View {
	radius, _ := s.answer.Length(parser.Radius)
	if len(s.answer.Ordinates) != 8 || radius <= 0 {
		return nil
	}
	return []View{s.elbow(radius), s.wrap()}
}

// elbow is a quarter turn that begins at the origin, heading right, and turns
// up; what lies past the angle comes off.
func (s sketcher) elbow(radius geometry.Length) View {
	v := View{Name: "elbow", high: 420}
	outside := s.answer.Ordinates[1].Arc * 8 / math.Pi
	center := Point{0, radius}
	on := func(a geometry.Angle, r geometry.Length) Point { return center.Toward(at(a-90), r) }
	arc := func(from, to geometry.Angle) []Point {
		// Around it, not in it: its ends are square to the centerline, as a chord's aren't.
		const parts = 12
		step := (to - from) / parts
		points := []Point{on(from, radius)}
		for i := range parts {
			points = append(points, on(from+step*(geometry.Angle(i)+0.5), radius/geometry.Length((step/2).Cos())))
		}
		return append(points, on(to, radius))
	}
	cut := s.answer.Angle
	if cut < geometry.QuarterBend {
		v.Bands = append(v.Bands, Band{ComesOff, arc(cut, geometry.QuarterBend), outside, [2]bool{}})
	}
	kept := arc(0, cut)
	v.Bands = append(v.Bands, Band{FittingBody, kept, outside, [2]bool{}})
	v.Lines = append(
		v.Lines,
		Line{CenterStroke, kept},
		Line{CutStroke, []Point{on(cut, radius-0.62*outside), on(cut, radius+0.62*outside)}},
	)
	throat := radius - outside/2
	v.Lines = append(v.Lines, Line{DashStroke, []Point{on(0, throat), center, on(cut, throat)}})
	v.Arcs = append(v.Arcs, Arc{Center: center, Radius: 0.5 * throat, Start: -90, Sweep: cut})
	v.Labels = append(
		v.Labels,
		Label{At: center, Side: up, Text: degrees(cut)},
		Label{At: on(cut/2, radius), Text: s.say(wordKeep), Size: Small},
	)
	takeoff, _ := s.answer.Length(parser.TakeoffOf)
	s.dimension(&v, Dimension{
		Role: parser.TakeoffOf, Axis: Level, From: Point{}, To: Point{takeoff, 0}, Through: Point{0, -outside / 2}, Row: -1,
	})
	s.dimension(&v, Dimension{Role: parser.Radius, Axis: Plumb, From: Point{}, To: center, Through: Point{}, Row: 1})
	return v
}

// wrapped is the wall of a pipe that is mitered, or cut to sit on another.
func (s sketcher) wrapped() []View {
	if len(s.answer.Ordinates) != 8 || len(s.answer.Strip.Points) < 2 {
		return nil
	}
	return []View{s.wrap()}
}

// wrap is the wall laid flat, from the throat all the way around to it: the
// face of the elbow below, the cut above. The second half mirrors the first, so
// only the first has figures.
func (s sketcher) wrap() View {
	v := View{Name: "wrap", high: 300}
	marks := append([]figure.Ordinate{}, s.answer.Ordinates...)
	around := 8 * marks[1].Arc
	marks = append(marks, figure.Ordinate{Eighth: 8, Arc: around, Back: marks[0].Back})
	for _, m := range marks {
		top := Point{m.Arc, m.Back}
		v.Lines = append(v.Lines, Line{ThinStroke, []Point{{m.Arc, 0}, top}})
		if m.Eighth <= 4 {
			v.Labels = append(v.Labels, Label{At: top, Side: up, Text: strings.TrimSuffix(s.mark(m.Back), " mm"), Size: Small, Main: true})
		}
	}
	v.Lines = append(
		v.Lines,
		Line{ThickStroke, []Point{{}, {around, 0}}},
		Line{CutStroke, s.curve(around)},
	)
	v.Labels = append(
		v.Labels,
		Label{At: Point{0, 0}, Side: down, Text: s.say(wordThroat), Size: Small},
		Label{At: Point{around / 4, 0}, Side: down, Text: s.say(wordSide), Size: Small},
		Label{At: Point{around / 2, 0}, Side: down, Text: s.say(wordBack), Size: Small},
		Label{At: Point{around, 0}, Side: down, Text: s.say(wordThroat), Size: Small},
	)
	v.Dimensions = append(v.Dimensions, Dimension{
		Axis: Level, From: Point{}, To: Point{around, 0}, Through: Point{}, Row: -2,
		Label: s.say(wordAllRound) + " " + s.tape(around),
	})
	v.Caption = []string{s.say(wordMirrored)}
	return v
}

// curve is the line of the cut on the wall laid flat, as it was figured. A slanting plane cuts a
// round wall in a cosine, which the throat and the back give whole.
func (s sketcher) curve(around geometry.Length) []Point {
	if strip := s.answer.Strip.Points; len(strip) > 1 {
		var points []Point
		for i, past := range strip {
			points = append(points, Point{around * geometry.Length(i) / geometry.Length(len(strip)-1), past})
		}
		return points
	}
	throat, back := s.answer.Ordinates[0].Back, s.answer.Ordinates[4].Back
	const parts = 64
	var points []Point
	for i := range parts + 1 {
		cos := geometry.Length(math.Cos(2 * math.Pi * float64(i) / parts))
		points = append(points, Point{around * geometry.Length(i) / parts, (throat+back)/2 + (throat-back)/2*cos})
	}
	return points
}
