package sketch

import (
	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// The points of the path of a straight piece: from center to center, or from
// face to face.
const (
	lineStart = iota
	pieceStart
	pieceEnd
	lineEnd
)

// piece draws a straight piece between two fittings; between two faces, it
// shows how far it goes in.
func (s sketcher) piece() []View {
	if len(s.answer.Path) != lineEnd+1 {
		return nil
	}
	v := View{Name: "piece"}
	p := flat(s.answer.Path)
	outside := s.outside()
	if p[pieceStart].X < p[lineStart].X {
		s.facesOn(&v, p, outside)
	} else {
		s.fittingsOn(&v, p, outside)
	}
	half := outside * hubSwell / 2
	v.Bands = append(v.Bands, Band{PipePiece, []Point{p[pieceStart], p[pieceEnd]}, outside, [2]bool{}})
	s.inlineOn(&v, p[lineStart], right)
	v.Lines = append(v.Lines, Line{CenterStroke, []Point{p[lineStart], p[lineEnd]}})
	for _, end := range []Point{p[pieceStart], p[pieceEnd]} {
		v.Lines = append(v.Lines, Line{CutStroke, []Point{end.Toward(up, half), end.Toward(down, half)}})
	}
	s.dimension(&v, Dimension{
		Role: parser.Cut, Axis: Level, From: p[pieceStart], To: p[pieceEnd], Through: Point{0, -half}, Row: -1,
	})
	if s.unsure() {
		v.Caption = append(v.Caption, s.say(wordUnsure))
	}
	return []View{v}
}

// fittingsOn draws the fittings at both ends, with how far they lie apart and
// what each takes.
func (s sketcher) fittingsOn(v *View, p []Point, outside geometry.Length) {
	ends := s.answer.Ends
	first := fitting{p[lineStart], leg(ends[0], left), right, ends[0], outside}
	second := fitting{p[lineEnd], left, leg(ends[1], right), ends[1], outside}
	for _, f := range []fitting{first, second} {
		f.drawOn(v)
		f.doubtOn(v)
	}
	top := Point{0, max(outside*hubSwell/2, reachOf(ends[0], outside), reachOf(ends[1], outside))}
	s.dimension(v, Dimension{
		Role: parser.CenterToCenter, Axis: Level, From: p[lineStart], To: p[lineEnd], Through: top, Row: 1,
	})
	s.takeoffOn(v, ends[0], p[lineStart], p[pieceStart], outside)
	s.takeoffOn(v, ends[1], p[pieceEnd], p[lineEnd], outside)
}

// leg is where the other end of a fitting at the end of a straight piece lies,
// if the piece comes in along outward: a bend turns up, what branches stands
// across.
func leg(e figure.End, outward Direction) Direction {
	turn := e.Fitting.Angle
	switch e.Fitting.Shape {
	case catalog.Bend, catalog.Wye:
	case catalog.Tee, catalog.SanitaryTee, catalog.Combination:
		turn = geometry.QuarterBend
	case catalog.Coupling, catalog.Union, catalog.Cap, catalog.Valve, catalog.Reducer, catalog.Flange, catalog.CleanoutTee:
		turn = 0
	}
	return Direction{outward.X * turn.Cos(), turn.Sin()}
}

// reachOf is how far up a fitting at the end of a straight piece reaches.
func reachOf(e figure.End, outside geometry.Length) geometry.Length {
	up := leg(e, right).Y
	return e.Takeoff.CenterToFace()*geometry.Length(up) + outside/2
}

func (s sketcher) takeoffOn(v *View, e figure.End, p, q Point, outside geometry.Length) {
	if e.Takeoff.Length <= 0 {
		return
	}
	v.Dimensions = append(v.Dimensions, Dimension{
		Role: parser.TakeoffOf, Axis: Level, From: p, To: q, Through: Point{0, -outside * hubSwell / 2}, Row: -2,
		Label: takesOff(e.Takeoff, s),
	})
}

// facesOn draws the sockets that a piece goes into, and how far they stand
// apart.
func (s sketcher) facesOn(v *View, p []Point, outside geometry.Length) {
	for _, socket := range [][2]Point{{p[pieceStart], p[lineStart]}, {p[pieceEnd], p[lineEnd]}} {
		outward := from(socket[1], socket[0])
		depth := apart(socket[0], socket[1])
		closed := socket[0].Toward(outward, 0.6*depth)
		v.Bands = append(v.Bands, Band{FittingHub, []Point{closed, socket[1]}, outside * hubSwell, [2]bool{true, false}})
		v.Dimensions = append(v.Dimensions, Dimension{
			Role: parser.Depth, Axis: Level, From: socket[0], To: socket[1], Through: Point{0, -outside * hubSwell / 2}, Row: -2,
			Label: s.known(parser.Depth, depth),
		})
	}
	v.Dimensions = append(v.Dimensions, Dimension{
		Role: parser.CenterToCenter, Axis: Level, From: p[lineStart], To: p[lineEnd], Through: Point{0, outside * hubSwell / 2}, Row: 1,
		Label: s.say(wordFaces) + " " + s.tape(apart(p[lineStart], p[lineEnd])),
	})
}
