package sketch

import (
	"math"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// assembly is an offset as it lies in the plane of its step, with the line it
// leaves along X. Its points are those that were walked.
type assembly struct {
	points  []Point // as walk numbers them
	ends    [2]figure.End
	outside geometry.Length // of the pipe; 0 where it is not known
	stub    geometry.Length // how much is shown of each pipe that stands
	beyond  geometry.Length // and how much more of the second
}

// assembled is the offset that was walked; false where no piece was.
func (s sketcher) assembled() (assembly, bool) {
	if len(s.answer.Path) != walk.SecondEnd+1 {
		return assembly{}, false
	}
	a := assembly{points: flat(s.answer.Path), ends: s.answer.Ends, outside: s.outside()}
	end := a.points[walk.SecondEnd]
	a.stub = max(0.22*end.X, 0.4*end.Y, 1.2*a.outside)
	return a, true
}

// flat turns a path about its first line until it lies in the picture: along
// the line stays along, and what is square to it points up.
func flat(path walk.Path) []Point {
	end := path.End()
	across := math.Hypot(float64(end.Y), float64(end.Z))
	side, rise := geometry.Length(1), geometry.Length(0)
	if across > 0 {
		side, rise = end.Y/geometry.Length(across), end.Z/geometry.Length(across)
	}
	points := make([]Point, len(path))
	for i, p := range path {
		points[i] = Point{p.X, p.Y*side + p.Z*rise}
	}
	return points
}

// outside is the pipe's outside diameter, 0 where no pipe was said.
func (s sketcher) outside() geometry.Length {
	d, _ := s.answer.System.Dimensions(s.answer.Size)
	return d.Outside
}

// moved is the assembly somewhere else.
func (a assembly) moved(by Point) assembly {
	points := make([]Point, len(a.points))
	for i, p := range a.points {
		points[i] = p.Plus(by)
	}
	a.points = points
	return a
}

func (a assembly) at(i int) Point { return a.points[i] }

// first and last are the outer ends of what is shown of the standing pipes.
func (a assembly) first() Point { return a.at(walk.FirstEnd).Toward(left, a.stub) }

func (a assembly) last() Point {
	return a.at(walk.SecondEnd).Toward(a.leaves(), a.stub+a.beyond)
}

// leaves is the direction in which the far line goes on: to the right, unless its
// bend turns otherwise than the first.
func (a assembly) leaves() Direction { return from(a.at(walk.SecondCenter), a.at(walk.SecondEnd)) }

// travels is the direction of the piece.
func (a assembly) travels() Direction { return from(a.at(walk.FirstCenter), a.at(walk.SecondCenter)) }

// half is how far the thickest part reaches from the centerline.
func (a assembly) half() geometry.Length { return a.outside * hubSwell / 2 }

// drawOn puts pipes and fittings into a view.
func (a assembly) drawOn(v *View) {
	t := a.travels()
	fittings := [2]fitting{
		{a.at(walk.FirstCenter), left, t, a.ends[0], a.outside},
		{a.at(walk.SecondCenter), t.back(), a.leaves(), a.ends[1], a.outside},
	}
	for _, f := range fittings {
		f.drawOn(v)
	}
	v.Bands = append(
		v.Bands,
		Band{StandingPipe, []Point{a.first(), a.at(walk.FirstEnd)}, a.outside, [2]bool{true, false}},
		Band{StandingPipe, []Point{a.at(walk.SecondEnd), a.last()}, a.outside, [2]bool{false, true}},
		Band{PipePiece, []Point{a.at(walk.PieceStart), a.at(walk.PieceEnd)}, a.outside, [2]bool{}},
	)
	v.Lines = append(v.Lines, Line{CenterStroke, []Point{a.first(), a.at(walk.FirstCenter), a.at(walk.SecondCenter), a.last()}})
	for _, f := range fittings {
		f.doubtOn(v)
	}
}

// hubSwell is how much thicker a hub is drawn than the pipe that goes in.
const hubSwell = 1.36

// fitting is a bend, or what turns the line like one, at its center, with the
// directions in which its two ends lie.
type fitting struct {
	center  Point
	in, out Direction
	figure.End
	outside geometry.Length
}

// drawOn sketches the fitting, with a hub over as much of each pipe as goes in.
func (f fitting) drawOn(v *View) {
	if f.Takeoff.Length <= 0 {
		return
	}
	legs := []Direction{f.in, f.out}
	if f.branches() {
		legs = append(legs, f.in.back())
	}
	f.hubsOn(v, legs)
	for _, middle := range f.body(f.wide() / 2) {
		v.Bands = append(v.Bands, Band{FittingBody, middle, f.wide(), [2]bool{}})
	}
}

// wide is how thick the body is: a little more than the pipe that goes in.
func (f fitting) wide() geometry.Length {
	if f.Takeoff.Insertion > 0 {
		return f.outside * 1.1
	}
	return f.outside
}

// branches says whether the fitting is no bend: a takeoff that was said may be
// of one whose shape was not.
func (f fitting) branches() bool { return f.Fitting.Shape != catalog.Bend && f.Fitting.Shape != "" }

// body is the middle of the fitting's body, between where its pipes come to
// rest: of a bend a circle that touches both legs there, of what branches a
// straight run and from its wall the branch. It leaves each face square to its
// leg, as a fitting is made.
func (f fitting) body(wall geometry.Length) [][]Point {
	const parts = 12
	first, last := f.center.Toward(f.in, f.Takeoff.Length), f.center.Toward(f.out, f.Takeoff.Length)
	if f.branches() {
		run := []Point{first, f.center.Toward(f.in.back(), f.Takeoff.Length)}
		return [][]Point{run, {f.center.Toward(f.out, min(wall, f.Takeoff.Length)), last}}
	}
	turn := []Point{first}
	begin, end := first.Toward(f.in.back(), f.Takeoff.Length*straightOn), last.Toward(f.out.back(), f.Takeoff.Length*straightOn)
	for i := range parts + 1 {
		turn = append(turn, onArc(begin, f.center, end, float64(i)/parts))
	}
	return [][]Point{append(turn, last)}
}

// straightOn is how far a bend goes straight on from its faces before it turns,
// as a part of its takeoff: a chord of its circle would not leave them square.
const straightOn = 0.25

// onArc is a point on the circle that touches the legs from a corner at first
// and last, both as far from it. The circle is the conic with these three as
// its frame, weighted by the cosine of half the turn (as in any book on
// rational curves).
func onArc(first, corner, last Point, t float64) Point {
	one, other := from(corner, first), from(corner, last)
	half := math.Acos(min(1, max(-1, one.X*other.X+one.Y*other.Y))) / 2
	w := math.Sin(half)
	a, b, c := (1-t)*(1-t), 2*t*(1-t)*w, t*t
	sum := geometry.Length(a + b + c)
	weigh := func(x, y, z geometry.Length) geometry.Length {
		return (x*geometry.Length(a) + y*geometry.Length(b) + z*geometry.Length(c)) / sum
	}
	return Point{weigh(first.X, corner.X, last.X), weigh(first.Y, corner.Y, last.Y)}
}

// hubsOn sketches the hubs; pipes that butt have none.
func (f fitting) hubsOn(v *View, legs []Direction) {
	if f.Takeoff.Insertion <= 0 {
		return
	}
	for _, leg := range legs {
		from := f.center.Toward(leg, f.Takeoff.Length-f.Takeoff.Insertion/8)
		to := f.center.Toward(leg, f.Takeoff.CenterToFace())
		v.Bands = append(v.Bands, Band{FittingHub, []Point{from, to}, f.outside * hubSwell, [2]bool{}})
	}
}

// doubtOn hatches a fitting whose takeoff nobody has checked.
func (f fitting) doubtOn(v *View) {
	if f.Takeoff.Length <= 0 || f.Takeoff.Evidence.Sure() {
		return
	}
	for _, middle := range f.body(f.wide() / 2) {
		v.Hatches = append(v.Hatches, Hatch{middle, f.wide()})
	}
}

// unsure says whether any takeoff of the answer is.
func (s sketcher) unsure() bool {
	for _, e := range s.answer.Ends {
		if e.Takeoff.Length > 0 && !e.Takeoff.Evidence.Sure() {
			return true
		}
	}
	return false
}

// dimension adds a dimension of a figured length, if the answer has it.
func (s sketcher) dimension(v *View, d Dimension) {
	text, ok := s.label(d.Role)
	if !ok || d.measures() < geometry.Hair {
		return
	}
	d.Label, d.Main = text, d.Role == parser.Cut
	v.Dimensions = append(v.Dimensions, d)
}
