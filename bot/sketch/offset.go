package sketch

import (
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// offset draws an offset with its piece in place; or, where no piece was
// figured, its centerlines. A rolling one is seen square onto the step, with
// what only a rolling one has below.
func (s sketcher) offset() []View {
	if s.answer.From != (catalog.Fitting{}) && len(s.answer.Path) == 5 {
		return s.squarely()
	}
	v := View{Name: "offset"}
	a, pieced := s.assembled()
	switch {
	case pieced:
		a.drawOn(&v)
		s.inlineOn(&v, a.at(walk.FirstCenter), a.travels())
		s.dimensionsOn(&v, a)
	case !s.centerlinesOn(&v):
		return nil
	}
	if gap := s.answer.Gap.Length; pieced && gap >= geometry.Hair { // else takeoffs and cut don't add up to the travel
		v.Caption = append(v.Caption, s.given(parser.JointGap, gap)+" "+s.say(wordEachEnd))
	}
	if s.unsure() {
		v.Caption = append(v.Caption, s.say(wordUnsure))
	}
	if !s.answer.Rolling {
		return []View{v}
	}
	v.Over, v.high = s.say(wordSquare), 300
	return append([]View{v}, s.rolled()...)
}

// dimensionsOn puts set, run, travel, cut, takeoffs and end gap where they lie.
func (s sketcher) dimensionsOn(v *View, a assembly) {
	first, second := a.at(walk.FirstCenter), a.at(walk.SecondCenter)
	below := Point{0, -a.half()}
	s.chainOn(v, a)
	s.dimension(v, Dimension{
		Role: parser.Travel, Axis: Along, From: first, To: second,
		Through: first.Toward(a.travels().square().back(), a.half()), Row: -1,
	})
	s.dimension(v, Dimension{Role: parser.Run, Axis: Level, From: first, To: second, Through: below, Row: -2})
	s.dimension(v, Dimension{
		Role: parser.EndGap, Axis: Level, From: a.at(walk.FirstEnd), To: a.at(walk.SecondEnd), Through: below, Row: -3,
	})
	row := -1
	if second.X-first.X < geometry.Hair {
		row = -4 // straight up: what is said of the cut lies there
	}
	s.setOn(v, first, second, a.last().X, row)
	s.angleOn(v, first, second, a.half())
	s.cutsOn(v, a)
}

// chainOn dimensions what makes up the travel, on one line over the piece: what
// the first fitting takes, the cut, and what the second takes.
func (s sketcher) chainOn(v *View, a assembly) {
	t := a.travels()
	over := a.at(walk.FirstCenter).Toward(t.square(), a.half())
	s.dimension(v, Dimension{
		Role: parser.Cut, Axis: Along, From: a.at(walk.PieceStart), To: a.at(walk.PieceEnd), Through: over, Row: 1,
	})
	for i, end := range a.ends {
		if end.Takeoff.Length <= 0 {
			continue
		}
		from, to := a.at(walk.FirstCenter), a.at(walk.FirstCenter).Toward(t, end.Takeoff.Length)
		if i == 1 {
			from, to = a.at(walk.SecondCenter).Toward(t.back(), end.Takeoff.Length), a.at(walk.SecondCenter)
		}
		v.Dimensions = append(v.Dimensions, Dimension{
			Role: parser.TakeoffOf, Axis: Along, From: from, To: to, Through: over, Row: 1,
			Label: takesOff(end.Takeoff, s),
		})
	}
}

// setOn dimensions the set at the right, so many rows off the old line drawn on.
func (s sketcher) setOn(v *View, first, second Point, edge geometry.Length, row int) {
	foot := Point{edge, first.Y}
	v.Lines = append(v.Lines, Line{CenterStroke, []Point{first, foot}})
	s.dimension(v, Dimension{
		Role: parser.Set, Axis: Plumb, From: foot, To: Point{edge, second.Y}, Through: foot, Row: row,
	})
}

// angleOn shows the angle that the line is turned through, as it was drawn, far
// enough out that the pipe, which reaches half to either side, doesn't hide it.
func (s sketcher) angleOn(v *View, first, second Point, half geometry.Length) {
	turn := geometry.Atan2(second.Y-first.Y, second.X-first.X)
	radius := 0.24 * apart(first, second)
	if sin := geometry.Length(turn.Sin()); sin > 0 {
		radius = max(radius, min(1.5*half/sin, 0.8*apart(first, second)))
	}
	v.Arcs = append(v.Arcs, Arc{first, radius, 0, turn, degrees(turn)})
}

func apart(p, q Point) geometry.Length {
	return walk.Point{X: p.X, Y: p.Y}.Distance(walk.Point{X: q.X, Y: q.Y})
}

// cutsOn marks both ends of the piece, where the saw goes.
func (s sketcher) cutsOn(v *View, a assembly) {
	across := a.travels().square()
	for _, end := range []Point{a.at(walk.PieceStart), a.at(walk.PieceEnd)} {
		v.Lines = append(v.Lines, Line{CutStroke, []Point{
			end.Toward(across, a.half()), end.Toward(across.back(), a.half()),
		}})
	}
}

// centerlinesOn draws an offset of which only the triangle is known; false
// where not even that is.
func (s sketcher) centerlinesOn(v *View) bool {
	set, hasSet := s.answer.Length(parser.Set)
	run, hasRun := s.answer.Length(parser.Run)
	if !hasSet || !hasRun {
		return false
	}
	stub := 0.2 * max(set, run)
	first, second := Point{}, Point{run, set}
	v.Lines = append(v.Lines, Line{ThickStroke, []Point{
		first.Toward(left, stub), first, second, second.Toward(right, stub),
	}})
	s.dimension(v, Dimension{Role: parser.Travel, Axis: Along, From: first, To: second, Through: first, Row: 1})
	s.dimension(v, Dimension{Role: parser.Run, Axis: Level, From: first, To: second, Through: first, Row: -1})
	s.setOn(v, first, second, run+stub, -1)
	s.angleOn(v, first, second, 0)
	return true
}
