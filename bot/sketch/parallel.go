package sketch

import (
	"strconv"

	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// mostDrawn is how many parallel lines a picture holds before they run into
// each other; each further one is like the last.
const mostDrawn = 8

// squareOn is the angle between bank and step from which the lines of a bank
// hide each other, seen from the side that the step is square to.
const squareOn geometry.Angle = 85

// parallel draws a bank of lines, each bending as much sooner as it must to keep
// the spacing. Of a bank that rolls, the spacing is seen from the side that the
// step is square to, so its lines come out closer than they are.
func (s sketcher) parallel() []View {
	v := View{Name: "parallel", high: 560}
	set, hasSet := s.answer.Length(parser.Set)
	run, hasRun := s.answer.Length(parser.Run)
	if !hasSet || !hasRun || len(s.answer.Lines) == 0 {
		return nil
	}
	lines := s.answer.Lines[:min(len(s.answer.Lines), mostDrawn)]
	if s.answer.Bank.Roll > squareOn {
		lines = lines[:1] // seen from here they hide each other
	}
	last := lines[len(lines)-1]
	stub := max(0.25*max(set, run), 0.1*last.Spacing)
	for _, l := range lines {
		for _, e := range s.endsOf(l) {
			stub = max(stub, 2*e.Takeoff.CenterToFace())
		}
	}
	begin, end := -max(0, last.Start)-stub, run+stub+max(0, -last.Start)
	all := numberedAll(lines, set)
	for i, l := range lines {
		first := s.bendOf(l)
		second := first.Plus(Point{run, set})
		whole := []Point{{begin, first.Y}, first, second, {end, second.Y}}
		if a, ok := s.lineOf(l, first, second, begin, end); ok {
			a.drawOn(&v)
		} else {
			v.Bands = append(v.Bands, Band{StandingPipe, whole, s.outsideOf(l), [2]bool{true, true}})
			v.Lines = append(v.Lines, Line{CenterStroke, whole})
		}
		if l.Cover > 0 {
			half := l.Outside/2 + l.Cover
			v.Lines = append(v.Lines, Line{DashStroke, beside(whole, half)}, Line{DashStroke, beside(whole, -half)})
		}
		if !all && i > 0 && i < len(lines)-1 {
			continue
		}
		for _, end := range []Label{{At: Point{begin, first.Y}, Side: left, away: pastSpacing}, {At: Point{end, second.Y}, Side: right}} {
			end.Text = strconv.Itoa(l.Number)
			v.Labels = append(v.Labels, end)
		}
	}
	s.bankOn(&v, lines, begin, set, run)
	if len(s.answer.Lines) > mostDrawn {
		v.Caption = append(v.Caption, strconv.Itoa(mostDrawn)+"/"+strconv.Itoa(len(s.answer.Lines))+" "+s.say(wordTooMany))
	}
	if s.unsure() {
		v.Caption = append(v.Caption, s.say(wordUnsure))
	}
	if s.answer.Rolling {
		v.Over = s.say(wordSquare)
		return append([]View{v}, s.rolled()...)
	}
	return []View{v}
}

// pastSpacing is how far off the lines their numbers stand, in points, so that
// the spacing of the first two is dimensioned between.
const pastSpacing = firstRow + 28

// numberedAll says whether the lines of a bank come out so far apart that each
// can have its number, and not only the first and the last.
func numberedAll(lines []figure.Line, set geometry.Length) bool {
	const apart = 9 // of the height of the picture
	last := lines[len(lines)-1].Spacing
	return last*apart >= (set+last)*geometry.Length(len(lines)-1)
}

// lineOf is one line of a bank with its fittings, from the one end of the picture
// to the other; false where it is not known what these take.
func (s sketcher) lineOf(l figure.Line, first, second Point, begin, end geometry.Length) (assembly, bool) {
	takes, gap, ends := [2]geometry.Length{}, s.answer.Gap.Length, s.endsOf(l)
	if l.Alone != nil {
		gap = l.Alone.Gap.Length
	}
	for i, e := range ends {
		if takes[i] = e.Takeoff.Length; takes[i] <= 0 {
			return assembly{}, false
		}
	}
	t := from(first, second)
	if apart(first, second) <= takes[0]+takes[1]+2*gap {
		return assembly{}, false
	}
	a := assembly{ends: ends, outside: s.outsideOf(l), points: []Point{
		walk.FirstEnd: first.Toward(left, takes[0]+gap), walk.FirstCenter: first,
		walk.PieceStart: first.Toward(t, takes[0]+gap), walk.PieceEnd: second.Toward(t.back(), takes[1]+gap),
		walk.SecondCenter: second, walk.SecondEnd: second.Toward(right, takes[1]+gap),
	}}
	a.stub = a.at(walk.FirstEnd).X - begin
	a.beyond = end - a.at(walk.SecondEnd).X - a.stub
	return a, true
}

// bendOf is the center of a line's first bend; that of the first line lies at
// the origin.
func (s sketcher) bendOf(l figure.Line) Point {
	spacing := l.Spacing * geometry.Length(s.answer.Bank.Roll.Cos())
	if s.answer.Ask.LineOne == parser.Toward {
		spacing = -spacing
	}
	return Point{-l.Start, spacing}
}

// farStaggerOn dimensions the stagger of the last two lines where they go on, if
// it is that of the first two.
func (s sketcher) farStaggerOn(v *View, lines []figure.Line, second Point) {
	last, before := lines[len(lines)-1], lines[len(lines)-2]
	stagger, _ := s.answer.Length(parser.Stagger)
	if off := last.Start - before.Start - stagger; off > geometry.Hair || off < -geometry.Hair {
		return
	}
	far, near := s.bendOf(last).Plus(second), s.bendOf(before).Plus(second)
	s.dimension(v, Dimension{Role: parser.Stagger, Axis: Level, From: far, To: near, Through: far.Toward(up, s.outside()/2), Row: 1})
	v.Dimensions[len(v.Dimensions)-1].Main = false
}

// endsOf are the fittings of a line, and outsideOf is the outside diameter of its
// pipe: its own where the lines of a bank differ.
func (s sketcher) endsOf(l figure.Line) [2]figure.End {
	if s.answer.Rack == nil {
		return s.answer.Ends
	}
	if l.Alone == nil {
		return [2]figure.End{}
	}
	return l.Alone.Ends
}

func (s sketcher) outsideOf(l figure.Line) geometry.Length {
	if s.answer.Rack == nil {
		return s.outside()
	}
	return l.Outside
}

// beside is a line through points moved so far to the left of the way that it goes.
func beside(points []Point, far geometry.Length) []Point {
	moved := make([]Point, len(points))
	for i, p := range points {
		in := from(points[max(0, i-1)], points[max(1, i)]).square()
		out := from(points[min(i, len(points)-2)], points[min(i+1, len(points)-1)]).square()
		together := geometry.Length(1 + in.X*out.X + in.Y*out.Y)
		moved[i] = p.Plus(Point{far * geometry.Length(in.X+out.X) / together, far * geometry.Length(in.Y+out.Y) / together})
	}
	return moved
}

// underAll is a place under all lines.
func (s sketcher) underAll(lines []figure.Line) Point {
	under := Point{}
	for _, l := range lines {
		under.Y = min(under.Y, s.bendOf(l).Y-s.outsideOf(l)/2-l.Cover)
	}
	return under
}

// rackOn dimensions the spacing of each line from the one before, and its stagger
// from line 1, a row each, for the two figures of one row would run into each other.
func (s sketcher) rackOn(v *View, lines []figure.Line, begin geometry.Length, under Point) {
	for i, l := range lines[1:] {
		before, at := s.bendOf(lines[i]), s.bendOf(l)
		if l.Start > geometry.Hair || l.Start < -geometry.Hair {
			v.Dimensions = append(v.Dimensions, Dimension{
				Role: parser.Stagger, Axis: Level, From: at, To: Point{}, Through: under, Row: -1 - i, Main: true,
				Label: s.mark(max(l.Start, -l.Start)),
			})
		}
		v.Dimensions = append(v.Dimensions, Dimension{
			Role: parser.Spacing, Axis: Plumb, From: Point{begin, before.Y}, To: Point{begin, at.Y}, Through: Point{begin, 0}, Row: 1,
			Label: s.mark(l.Next),
		})
	}
}

// bankOn dimensions the spacing and the stagger of the first two lines, and
// the step of the first.
func (s sketcher) bankOn(v *View, lines []figure.Line, begin, set, run geometry.Length) {
	first, second, half := Point{}, Point{run, set}, s.outsideOf(lines[0])/2
	s.dimension(v, Dimension{Role: parser.Travel, Axis: Along, From: first, To: second, Through: first.Toward(from(first, second).square().back(), half), Row: -1})
	under, row := s.underAll(lines), -3
	if s.answer.Rack != nil {
		row = -len(lines) - 1
	}
	s.dimension(v, Dimension{Role: parser.Run, Axis: Level, From: first, To: second, Through: under, Row: row})
	if len(lines) < 2 {
		return
	}
	if s.answer.Rack != nil {
		s.rackOn(v, lines, begin, under)
		s.angleOn(v, first, second, half)
		return
	}
	next := s.bendOf(lines[1])
	s.dimension(v, Dimension{Role: parser.Stagger, Axis: Level, From: next, To: first, Through: Point{0, -half}, Row: -1})
	v.Dimensions = append(v.Dimensions, Dimension{
		Role: parser.Spacing, Axis: Plumb, From: Point{begin, 0}, To: Point{begin, next.Y}, Through: Point{begin, 0}, Row: 1,
		Label: s.given(parser.Spacing, lines[1].Spacing),
	})
	for i := range v.Dimensions {
		v.Dimensions[i].Main = v.Dimensions[i].Role == parser.Stagger
	}
	last := s.bendOf(lines[len(lines)-1])
	v.Lines = append(v.Lines, Line{DashStroke, []Point{{}, last}}, Line{DashStroke, []Point{second, last.Plus(second)}})
	s.farStaggerOn(v, lines, second)
	s.angleOn(v, first, second, half)
}
