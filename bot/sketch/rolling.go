package sketch

import (
	"dogleg/bot/wording"
	"dogleg/geometry"
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// rolled are the views that only a rolling offset has: in perspective, where it
// has a run to be seen, and looking along the line.
func (s sketcher) rolled() []View {
	if v, ok := s.perspective(); ok {
		return []View{v, s.alongLine()}
	}
	return []View{s.alongLine()}
}

// parts are the roll and the rise of a rolling offset, given or figured.
func (s sketcher) parts() (roll, rise geometry.Length) {
	set, _ := s.length(parser.Set)
	if set <= 0 {
		roll, _ = s.length(parser.Roll)
		rise, _ = s.length(parser.Rise)
		return roll, rise
	}
	return set * geometry.Length(s.answer.RollAngle.Sin()), set * geometry.Length(s.answer.RollAngle.Cos())
}

// How the roll is drawn in perspective: in this direction, and so much shorter
// than it is. The run and the rise are drawn as they are.
const (
	receding geometry.Angle  = 38
	shorter  geometry.Length = 0.7
)

// seen is where a point in space lies in perspective: X along the line, Y as the
// offset rolls, Z up.
func seen(p walk.Point) Point {
	return Point{p.X, p.Z}.Toward(at(receding), p.Y*shorter)
}

// perspective draws the box that a rolling offset lies in, with the pipe from
// corner to corner: the run and the roll along its floor, the rise up its end,
// and across the end the true set. False where there is no run, and so no box.
func (s sketcher) perspective() (View, bool) {
	roll, rise := s.parts()
	run, ok := s.answer.Length(parser.Run)
	if !ok || min(run, roll, rise) < geometry.Hair {
		return View{}, false
	}
	v := View{Name: "box", Over: s.say(wordPerspective), high: 300}
	corner := func(x, y, z geometry.Length) Point { return seen(walk.Point{X: run * x, Y: roll * y, Z: rise * z}) }
	stub := 0.3 * max(run, roll, rise)
	s.throughBox(&v, run, roll, rise, stub)
	v.Lines = append(
		v.Lines,
		Line{DashStroke, []Point{corner(0, 0, 0), corner(0, 1, 0), corner(1, 1, 0)}}, // behind
		Line{DashStroke, []Point{corner(0, 1, 0), corner(0, 1, 1)}},
		Line{ThinStroke, []Point{corner(1, 0, 0), corner(0, 0, 0), corner(0, 0, 1), corner(1, 0, 1), corner(1, 0, 0)}},
		Line{ThinStroke, []Point{corner(0, 0, 1), corner(0, 1, 1), corner(1, 1, 1), corner(1, 0, 1)}},
		Line{ThickStroke, []Point{corner(1, 0, 0), corner(1, 1, 0), corner(1, 1, 1), corner(1, 0, 0)}},
	)
	if text, ok := s.label(parser.Set); ok { // beside the end, with a line to it
		beside := Point{corner(1, 1, 0).X + stub/4, corner(1, 0.5, 0.5).Y}
		v.Lines = append(v.Lines, Line{ThinStroke, []Point{corner(1, 0.5, 0.5), beside}})
		v.Labels = append(v.Labels, Label{At: beside, Side: right, Text: text})
	}
	v.Labels = append(
		v.Labels,
		Label{At: corner(0.5, 0, 0), Side: down, Text: s.given(parser.Run, run)},
		Label{At: corner(1, 0.5, 0), Side: Direction{0.7, -0.7}, Text: s.given(parser.Roll, roll)},
		Label{At: corner(1, 1, 0.8), Side: right, Text: s.given(parser.Rise, rise)},
	)
	if text, ok := s.label(parser.Travel); ok {
		v.Labels = append(v.Labels, Label{At: corner(0.5, 0.5, 0.5), Side: Direction{-0.7, 0.7}, Text: text})
	}
	return v, true
}

// throughBox draws the pipe through the box, as it was walked; where no piece
// was, its centerlines.
func (s sketcher) throughBox(v *View, run, roll, rise, stub geometry.Length) {
	first, second := walk.Point{}, walk.Point{X: run, Y: roll, Z: rise}
	before, after := seen(walk.Point{X: -stub}), seen(walk.Point{X: run + stub, Y: roll, Z: rise})
	if len(s.answer.Path) != walk.SecondEnd+1 {
		v.Lines = append(v.Lines, Line{ThickStroke, []Point{before, seen(first), seen(second), after}})
		return
	}
	// The path begins at the end of the pipe that stands, the box at the fitting.
	path := make([]Point, len(s.answer.Path))
	for i, p := range s.answer.Path {
		p.X -= s.answer.Path[walk.FirstCenter].X
		path[i] = seen(p)
	}
	outside := s.outside()
	v.Bands = append(
		v.Bands,
		Band{StandingPipe, []Point{before, path[walk.FirstEnd]}, outside, [2]bool{true, false}},
		Band{StandingPipe, []Point{path[walk.SecondEnd], after}, outside, [2]bool{false, true}},
		Band{PipePiece, []Point{path[walk.PieceStart], path[walk.PieceEnd]}, outside, [2]bool{}},
		Band{FittingBody, path[walk.FirstEnd : walk.PieceStart+1], outside, [2]bool{}},
		Band{FittingBody, path[walk.PieceEnd : walk.SecondEnd+1], outside, [2]bool{}},
	)
}

// alongLine shows how far the fitting of a rolling offset is turned, as one sees
// it looking along the line: both pipes cut across, roll and rise between their
// centers, and the true set from the one to the other.
func (s sketcher) alongLine() View {
	roll, rise := s.parts()
	v := View{Name: "end", Over: s.say(wordAlong), high: 270, Caption: []string{wording.Turn(s.answer, s.options)}}
	near, far := Point{}, Point{roll, rise}
	reach := apart(near, far)
	radius := s.outside() / 2
	v.Bands = append(v.Bands, Band{FittingBody, []Point{near, far}, 2 * radius, [2]bool{}})
	v.Circles = append(v.Circles, Circle{StandingPipe, far, radius}, Circle{StandingPipe, near, radius})
	v.Lines = append(
		v.Lines,
		Line{DashStroke, []Point{near, {roll + reach*0.1, 0}}},
		Line{DashStroke, []Point{{roll, -reach * 0.05}, far}},
		Line{CenterStroke, []Point{near, far}},
	)
	fromLevel := geometry.QuarterBend - s.answer.RollAngle
	v.Arcs = append(v.Arcs, Arc{near, max(reach*0.4, 1.6*radius), 0, fromLevel, wholeDegrees(fromLevel)})
	s.legOn(&v, parser.Roll, roll, Dimension{Axis: Level, From: near, To: Point{roll, 0}, Through: Point{0, -radius}, Row: -1})
	s.legOn(&v, parser.Rise, rise, Dimension{Axis: Plumb, From: Point{roll, 0}, To: far, Through: Point{roll + radius, 0}, Row: -1})
	s.dimension(&v, Dimension{
		Role: parser.Set, Axis: Along, From: near, To: far, Through: near.Toward(from(near, far).square(), radius), Row: 1,
	})
	return v
}

// legOn dimensions the roll or the rise, which may be given or figured.
func (s sketcher) legOn(v *View, r parser.Role, l geometry.Length, d Dimension) {
	if l < geometry.Hair {
		return
	}
	d.Role, d.Label = r, s.given(r, l)
	v.Dimensions = append(v.Dimensions, d)
}
