package sketch

import (
	"math"

	"dogleg/geometry"
	"dogleg/parser"
)

// Drawing is a picture as data: its heading, and its views from top to bottom.
type Drawing struct {
	Title      string // the one number
	Understood string
	Views      []View
}

// View returns the view of a name; false if the drawing has none.
func (d *Drawing) View(name string) (View, bool) {
	for _, v := range d.Views {
		if v.Name == name {
			return v, true
		}
	}
	return View{}, false
}

// View is one picture to scale, in its own coordinates. What is listed later
// lies on top.
type View struct {
	Name    string   // "offset", "tape"
	Over    string   // a line of text above it: how it is seen
	Caption []string // lines of text under it
	high    float64  // the most that it takes of the page without its words, in points; 0 is the usual

	Bands      []Band
	Circles    []Circle
	Hatches    []Hatch
	Lines      []Line
	Arcs       []Arc
	Dimensions []Dimension
	Labels     []Label
}

// Point is a place in a view, in inches: X to the right, Y up.
type Point struct{ X, Y geometry.Length }

// Plus is p moved by q.
func (p Point) Plus(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Toward is p moved by a length in a direction.
func (p Point) Toward(d Direction, l geometry.Length) Point {
	return Point{p.X + l*geometry.Length(d.X), p.Y + l*geometry.Length(d.Y)}
}

// Direction is a way to go in a view; its length is 1.
type Direction struct{ X, Y float64 }

// The directions along the axes.
var (
	right = Direction{X: 1}
	left  = Direction{X: -1}
	up    = Direction{Y: 1}
	down  = Direction{Y: -1}
)

// from is the direction from one point to another; to the right where they are
// one.
func from(p, q Point) Direction {
	x, y := float64(q.X-p.X), float64(q.Y-p.Y)
	if size := math.Hypot(x, y); size > 0 {
		return Direction{x / size, y / size}
	}
	return right
}

// at is the direction this many degrees from the right, counterclockwise.
func at(a geometry.Angle) Direction { return Direction{a.Cos(), a.Sin()} }

// back is the opposite direction.
func (d Direction) back() Direction { return Direction{-d.X, -d.Y} }

// square is d turned by a right angle, counterclockwise.
func (d Direction) square() Direction { return Direction{-d.Y, d.X} }

// Part says what a band is.
type Part string

// The parts.
const (
	StandingPipe Part = "standing pipe"
	PipePiece    Part = "piece"     // that is cut
	FittingBody  Part = "fitting"   // cut open
	FittingHub   Part = "hub"       // that a pipe goes into
	ComesOff     Part = "comes off" // of a pipe or an elbow; or is lacking
	Solid        Part = "obstacle"
	Blade        Part = "tape"
	Doubt        Part = "doubt" // how far the mark may be out
)

// Band is something with a width: a pipe, a fitting, a tape. An open end is one
// where it goes on past the picture.
type Band struct {
	Part   Part
	Points []Point // along its middle
	Width  geometry.Length
	Open   [2]bool
}

// Circle is a pipe that is seen from its end.
type Circle struct {
	Part   Part
	Center Point
	Radius geometry.Length
}

// Hatch is a hatched stretch: what is not sure.
type Hatch struct {
	Points []Point // along its middle
	Width  geometry.Length
}

// Stroke says how a line is drawn.
type Stroke string

// The strokes.
const (
	CenterStroke Stroke = "centerline"
	ThinStroke   Stroke = "thin"
	ThickStroke  Stroke = "thick"
	CutStroke    Stroke = "cut" // where the saw or the mark goes
	DashStroke   Stroke = "dashed"
	HookStroke   Stroke = "hook" // of a tape, at its end
)

// Line is a line through points.
type Line struct {
	Stroke Stroke
	Points []Point
}

// Arc is an angle, or a way to turn, with what is said of it.
type Arc struct {
	Center Point
	Radius geometry.Length
	Start  geometry.Angle // from the right, counterclockwise
	Sweep  geometry.Angle
	Label  string
}

// Axis is the direction in which a dimension is measured.
type Axis string

// The axes.
const (
	Along Axis = "along" // from the one point to the other
	Level Axis = "level"
	Plumb Axis = "plumb"
)

// Dimension is a length with arrows at its ends and what is said of it. Its
// line runs beside the thing measured: through a point, and so many rows of
// figures off it, to the left of its direction where Row is more than nothing,
// to the right where it is less, and on the thing itself where it is nothing. The left of level is up; that of plumb is
// left.
type Dimension struct {
	Role     parser.Role
	From, To Point
	Axis     Axis
	Through  Point
	Row      int
	Label    string
	Main     bool // the one that is cut
}

// measures is how long the dimension's line is.
func (d Dimension) measures() geometry.Length {
	along := d.direction()
	step := Point{d.To.X - d.From.X, d.To.Y - d.From.Y}
	return geometry.Length(math.Abs(float64(step.X)*along.X + float64(step.Y)*along.Y))
}

// direction is that of the dimension's line.
func (d Dimension) direction() Direction {
	switch d.Axis {
	case Level:
		return right
	case Plumb:
		return up
	case Along:
	}
	return from(d.From, d.To)
}

// Label is words at a point, on one side of it.
type Label struct {
	At   Point
	Side Direction // which way the words lie from it; zero is on it
	Text string
	Size Size
	Main bool // of what is cut

	away float64 // so many points off; then it goes before the words of dimensions. 0 is close by
}

// Size is how large words are.
type Size string

// The sizes.
const (
	Figure Size = "" // as dimensions
	Large  Size = "large"
	Small  Size = "small"
	Tiny   Size = "tiny" // figures that stand close together
)
