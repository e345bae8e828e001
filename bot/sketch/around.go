package sketch

import (
	"math"
	"strings"

	"dogleg/bot/wording"
	"dogleg/geometry"
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// around draws a line that steps around an obstacle, and back where it comes
// back. The near face of the obstacle is at zero; what is drawn of it sticks
// out past the line by its reach.
func (s sketcher) around() []View {
	start, _ := s.answer.Length(parser.Start)
	set, _ := s.answer.Length(parser.Set)
	run, hasRun := s.answer.Length(parser.Run)
	if !hasRun || start <= 0 {
		return nil
	}
	v := View{Name: "around"}
	first, second := Point{-start, 0}, Point{run - start, set}
	long := s.obstacleOn(&v, second)
	a, pieced := s.assembled()
	if pieced {
		a = a.moved(Point{first.X - a.at(walk.FirstCenter).X, 0})
		a.beyond = max(0, long-a.last().X)
		a.drawOn(&v)
		s.cutsOn(&v, a)
	} else {
		stub := 0.25 * max(run, start)
		s.pipeOn(&v, first.Toward(left, stub), first, second, second.Toward(right, max(stub, long-second.X)))
	}
	s.comesBackOn(&v, second, run)
	s.clearancesOn(&v, first, second, long)
	if pieced {
		s.chainOn(&v, a)
		s.endsOn(&v, a)
	} else {
		s.dimension(&v, Dimension{Role: parser.Travel, Axis: Along, From: first, To: second, Through: first.Toward(up, s.outside()), Row: 1})
	}
	s.angleOn(&v, first, second, s.outside()*hubSwell/2)
	for i, d := range v.Dimensions {
		v.Dimensions[i].Main = d.Role == parser.Start || d.Role == parser.Cut
	}
	if s.unsure() {
		v.Caption = append(v.Caption, s.say(wordUnsure))
	}
	return []View{v}
}

// endsOn dimensions where the standing pipe stops, and how far the two ends are
// apart.
func (s sketcher) endsOn(v *View, a assembly) {
	below := Point{0, s.bottom()}
	if text, ok := s.label(parser.MarkAt); ok {
		v.Dimensions = append(v.Dimensions, Dimension{
			Role: parser.MarkAt, Axis: Level, From: a.at(walk.FirstEnd), To: Point{}, Through: below, Row: -2,
			Label: s.say(wordStop) + " " + strings.TrimPrefix(text, wording.RoleName(parser.MarkAt, s.options)+" ") + " " + s.say(wordBefore),
		})
	}
	s.dimension(v, Dimension{
		Role: parser.EndGap, Axis: Level, From: a.at(walk.FirstEnd), To: a.at(walk.SecondEnd), Through: below, Row: -3,
	})
}

// bottom is how far down the obstacle is drawn.
func (s sketcher) bottom() geometry.Length { return min(-0.35*s.reach(), -s.outside()) }

// pipeOn draws pipe through points, without its fittings.
func (s sketcher) pipeOn(v *View, points ...Point) {
	v.Bands = append(v.Bands, Band{StandingPipe, points, s.outside(), [2]bool{true, true}})
	v.Lines = append(v.Lines, Line{CenterStroke, points})
}

// obstacleOn draws the obstacle and returns how long it is drawn: as it is,
// where that matters, or else to the end of the picture.
func (s sketcher) obstacleOn(v *View, second Point) geometry.Length {
	long, known := s.answer.Ask.Length(parser.Obstacle)
	if !known {
		long = max(1.3*s.reach(), second.X+0.5*s.reach())
	}
	bottom := s.bottom()
	middle, width := (s.reach()+bottom)/2, s.reach()-bottom
	v.Bands = append(v.Bands, Band{Solid, []Point{{0, middle}, {long, middle}}, width, [2]bool{false, !known}})
	return long
}

// reach is that past the centerline, as it was brought to it.
func (s sketcher) reach() geometry.Length {
	for _, step := range s.answer.Steps {
		for _, term := range step.Terms {
			if term.Role == parser.Reach {
				return term.Length
			}
		}
	}
	return 0
}

// comesBackOn draws the way back, the way out walked backward.
func (s sketcher) comesBackOn(v *View, second Point, run geometry.Length) {
	between, ok := s.answer.Length(parser.CenterToCenter)
	if !ok {
		return
	}
	third := second.Plus(Point{between, 0})
	fourth := Point{third.X + run, 0}
	s.pipeOn(v, second, third, fourth, fourth.Toward(right, 0.2*run))
	s.dimension(v, Dimension{Role: parser.CenterToCenter, Axis: Level, From: second, To: third, Through: second, Row: 1})
}

// clearancesOn dimensions where the first bend goes, the reach and the set, and
// the clearance where nothing but it is between pipe and obstacle.
func (s sketcher) clearancesOn(v *View, first, second Point, long geometry.Length) {
	reach, half := s.reach(), s.outside()/2
	s.dimension(v, Dimension{Role: parser.Start, Axis: Level, From: first, To: Point{}, Through: Point{0, s.bottom()}, Row: -1})
	foot := Point{long * 0.3, 0} // on the obstacle
	v.Dimensions = append(v.Dimensions, Dimension{
		Role: parser.Reach, Axis: Plumb, From: foot, To: foot.Toward(up, reach), Through: foot, Row: 0, Label: s.given(parser.Reach, reach),
	})
	s.setOn(v, first, second, v.rightmost(), -1)
	clear, _ := s.answer.Ask.Length(parser.Clearance)
	if between := second.Y - half - reach; between-clear < geometry.Hair && clear-between < geometry.Hair {
		x := long * 0.7
		v.Dimensions = append(v.Dimensions, Dimension{
			Role: parser.Clearance, Axis: Plumb, From: Point{x, reach}, To: Point{x, second.Y - half}, Through: Point{x, 0}, Row: 0,
			Label: s.given(parser.Clearance, clear),
		})
	}
}

// rightmost is where the bands of a view end.
func (v View) rightmost() geometry.Length {
	edge := geometry.Length(math.Inf(-1))
	for _, b := range v.Bands {
		for _, p := range b.Points {
			edge = max(edge, p.X)
		}
	}
	return edge
}
