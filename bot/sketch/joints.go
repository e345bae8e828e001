package sketch

import (
	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// bend draws what stands where the line turns, between the points of the path
// before and behind it.
func (s sketcher) bend(v *View, points []Point, at int, e figure.End) {
	in, out := left, right
	if at > 0 && apart(points[at], points[at-1]) > geometry.Hair {
		in = from(points[at], points[at-1])
	}
	if at < len(points)-1 && apart(points[at], points[at+1]) > geometry.Hair {
		out = from(points[at], points[at+1])
	}
	f := fitting{points[at], in, out, e, s.outside()}
	f.drawOn(v)
	f.doubtOn(v)
}

// pipePiece draws a piece between two points, with the saw's marks at its ends.
func (s sketcher) pipePiece(v *View, p, q Point) {
	half, across := s.outside()*hubSwell/2, from(p, q).square()
	v.Bands = append(v.Bands, Band{PipePiece, []Point{p, q}, s.outside(), [2]bool{}})
	for _, end := range []Point{p, q} {
		v.Lines = append(v.Lines, Line{CutStroke, []Point{end.Toward(across, half), end.Toward(across.back(), half)}})
	}
}

// captioned is a view with the words for what is not sure.
func (s sketcher) captioned(v View) []View {
	if s.unsure() {
		v.Caption = append(v.Caption, s.say(wordUnsure))
	}
	return []View{v}
}

// corner draws a turn of two bends: both lines, the piece across, and the corner
// where the lines would meet.
func (s sketcher) corner() []View {
	if len(s.answer.Path) != walk.SecondEnd+1 {
		return nil
	}
	v := View{Name: "corner"}
	var p []Point
	for _, at := range s.answer.Path {
		p = append(p, Point{at.X, at.Y})
	}
	stub := 0.3 * apart(p[walk.FirstCenter], p[walk.SecondCenter])
	first, last := p[walk.FirstEnd].Toward(left, stub), p[walk.SecondEnd].Toward(from(p[walk.SecondCenter], p[walk.SecondEnd]), stub)
	s.bend(&v, p, walk.FirstCenter, s.answer.Ends[0])
	s.bend(&v, p, walk.SecondCenter, s.answer.Ends[1])
	v.Bands = append(
		v.Bands,
		Band{StandingPipe, []Point{first, p[walk.FirstEnd]}, s.outside(), [2]bool{true, false}},
		Band{StandingPipe, []Point{p[walk.SecondEnd], last}, s.outside(), [2]bool{false, true}},
	)
	s.pipePiece(&v, p[walk.PieceStart], p[walk.PieceEnd])
	v.Lines = append(v.Lines, Line{DashStroke, []Point{p[walk.FirstCenter], {}, p[walk.SecondCenter]}})
	half := s.outside() * hubSwell / 2
	inside := from(p[walk.FirstCenter], p[walk.SecondCenter]).square()
	s.dimension(&v, Dimension{
		Role: parser.Cut, Axis: Along, From: p[walk.PieceStart], To: p[walk.PieceEnd],
		Through: p[walk.FirstCenter].Toward(inside, half), Row: 1,
	})
	s.dimension(&v, Dimension{Role: parser.Leg, Axis: Level, From: p[walk.FirstCenter], To: Point{}, Through: Point{0, -half}, Row: -1})
	s.dimension(&v, Dimension{Role: parser.StopAt, Axis: Level, From: p[walk.FirstEnd], To: Point{}, Through: Point{0, -half}, Row: -2})
	s.dimension(&v, Dimension{Role: parser.OtherLeg, Axis: Along, From: Point{}, To: p[walk.SecondCenter], Through: Point{half, 0}, Row: -1})
	return s.captioned(v)
}

// doglegs draws two offsets in one line: four bends, three pieces. Its path goes
// from center to center, with the ends of each piece between.
func (s sketcher) doglegs() []View {
	path := s.answer.Path
	if len(path) != 10 {
		return nil
	}
	v := View{Name: "line"}
	var p []Point
	for _, at := range path {
		p = append(p, Point{at.X, at.Y})
	}
	stub := 0.12 * p[9].X
	lead := append([]Point{p[0].Toward(left, stub)}, p...)
	lead = append(lead, p[9].Toward(right, stub))
	v.Lines = append(v.Lines, Line{CenterStroke, lead})
	for i, at := range []int{1, 4, 7, 10} {
		s.bend(&v, lead, at, s.answer.Ends[i/2])
	}
	labels := wording.Pieces(s.answer, s.options)
	for i := range 3 {
		from, to := p[3*i+1], p[3*i+2]
		s.pipePiece(&v, from, to)
		v.Labels = append(v.Labels, Label{
			At: Point{(from.X + to.X) / 2, (from.Y + to.Y) / 2}, Side: up, Text: withoutFeet(labels[i]), Main: true,
		})
	}
	low := Point{0, min(p[0].Y, p[9].Y, p[3].Y) - s.outside()}
	s.dimension(&v, Dimension{Role: parser.Run, Axis: Level, From: p[0], To: p[9], Through: low, Row: -2})
	s.dimension(&v, Dimension{Role: parser.Straight, Axis: Level, From: p[3], To: p[6], Through: low, Row: -1})
	return s.captioned(v)
}

// squarely draws an offset that ends in what stands square to the step: a tee's
// branch, a 90 that may be rolled any way.
func (s sketcher) squarely() []View {
	path := s.answer.Path
	if len(path) != 5 {
		return nil
	}
	v := View{Name: "offset"}
	p := flat(path)
	bend, square := s.answer.Ends[0], s.answer.Ends[1]
	if bend.Fitting == s.answer.From {
		bend, square = square, bend
	}
	stub := 0.3 * p[4].X
	first := p[0].Toward(left, stub)
	s.bend(&v, p, 1, bend)
	v.Bands = append(v.Bands, Band{StandingPipe, []Point{first, p[0]}, s.outside(), [2]bool{true, false}})
	v.Bands = append(v.Bands, Band{FittingBody, []Point{p[3], p[4].Toward(from(p[3], p[4]), s.outside()/2)}, s.outside() * 1.2, [2]bool{}})
	s.pipePiece(&v, p[2], p[3])
	v.Lines = append(v.Lines, Line{CenterStroke, []Point{first, p[1], p[4]}})
	half := s.outside() * hubSwell / 2
	t := from(p[1], p[4])
	s.dimension(&v, Dimension{Role: parser.Cut, Axis: Along, From: p[2], To: p[3], Through: p[1].Toward(t.square().back(), half), Row: -1})
	s.dimension(&v, Dimension{Role: parser.Travel, Axis: Along, From: p[1], To: p[4], Through: p[1].Toward(t.square(), half), Row: 1})
	s.dimension(&v, Dimension{Role: parser.Run, Axis: Level, From: p[1], To: p[4], Through: Point{0, -half}, Row: -2})
	if far, ok := s.answer.Length(parser.FarEnd); ok {
		v.Dimensions = append(v.Dimensions, Dimension{
			Role: parser.FarEnd, Axis: Level, From: p[0], To: p[4], Through: Point{0, -half}, Row: -3, Label: s.tape(far),
		})
	}
	s.setOn(&v, p[1], p[4], p[4].X+stub/2, -1)
	v.Labels = append(v.Labels, Label{At: p[4], Side: up, Text: wording.FittingName(square.Fitting, s.options), Size: Small})
	return s.captioned(v)
}

// inlineOn draws what stands in the travel on the piece, each at its place from
// the first center.
func (s sketcher) inlineOn(v *View, first Point, travels Direction) {
	for _, in := range s.answer.Inline {
		half := in.Laying.Length / 2
		from, to := first.Toward(travels, in.Place-half), first.Toward(travels, in.Place+half)
		v.Bands = append(v.Bands, Band{FittingHub, []Point{from, to}, s.outside() * hubSwell, [2]bool{}})
		v.Labels = append(v.Labels, Label{
			At: first.Toward(travels, in.Place), Side: travels.square(),
			Text: wording.FittingName(in.Fitting, s.options) + " " + s.tape(in.Place), Size: Small,
		})
	}
}

// riser draws a line that is marked from one tape, upright, with the reading of
// each center to its right and of each piece to its left.
func (s sketcher) riser() []View {
	all := s.answer.Stations
	if len(all) < 2 {
		return nil
	}
	v := View{Name: "riser", high: 760}
	high := all[len(all)-1].Center - all[0].Center
	wide := max(s.outside(), high/30)
	labels := wording.Pieces(s.answer, s.options)
	for i, station := range all {
		if station.Fitting != (catalog.Fitting{}) {
			v.Bands = append(v.Bands, Band{FittingBody, []Point{{0, min(station.Below, station.Center-wide/4)}, {0, max(station.Above, station.Center+wide/4)}}, wide * 1.3, [2]bool{}})
		}
		if station.Cut > 0 {
			v.Bands = append(v.Bands, Band{PipePiece, []Point{{0, station.Above}, {0, station.Above + station.Cut}}, wide, [2]bool{}})
			v.Labels = append(v.Labels, Label{At: Point{-wide, station.Above + station.Cut/2}, Side: left, Text: withoutFeet(labels[i]), Main: true})
		}
		text := s.tape(station.Center)
		if station.Fitting != (catalog.Fitting{}) {
			text += " " + wording.FittingName(station.Fitting, s.options)
		}
		v.Lines = append(v.Lines, Line{ThinStroke, []Point{{-wide, station.Center}, {2 * wide, station.Center}}})
		v.Labels = append(v.Labels, Label{At: Point{2 * wide, station.Center}, Side: right, Text: text})
	}
	return s.captioned(v)
}

// arc draws a turn on the wall laid flat: all the way around, and the part of it.
func (s sketcher) arc() []View {
	arc, hasArc := s.answer.Length(parser.Arc)
	girth, hasGirth := s.answer.Length(parser.Girth)
	if !hasArc || !hasGirth {
		return nil
	}
	v := View{Name: "wrap", high: 200}
	tick := girth / 40
	v.Lines = append(
		v.Lines,
		Line{ThickStroke, []Point{{}, {girth, 0}}},
		Line{CutStroke, []Point{{0, -tick}, {0, tick}}},
		Line{CutStroke, []Point{{arc, -tick}, {arc, tick}}},
	)
	s.dimension(&v, Dimension{Role: parser.Arc, Axis: Level, From: Point{}, To: Point{arc, 0}, Through: Point{0, tick}, Row: 1})
	s.dimension(&v, Dimension{Role: parser.Girth, Axis: Level, From: Point{}, To: Point{girth, 0}, Through: Point{0, -tick}, Row: -1})
	return []View{v}
}
