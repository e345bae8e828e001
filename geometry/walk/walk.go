// Package walk lays the pieces of a line end to end in space and says where
// they land. It shares no formula with package geometry: it turns a heading
// about an axis and steps along it, as a person would walk the line.
//
// That makes it the check on every answer. The formulas say how long the piece
// is and how far apart the standing pipes must be; the walk lays the piece and
// looks. Where the two disagree, nothing should be cut.
//
// # Caveats
//
// The walk is exact only as far as floating point goes: over a mile of pipe it
// is good to a millionth of an inch or so. A bend is a corner in it, since a
// rounded one has the same centers. It lays whatever it is told to, a piece of
// negative length too, walking backward: whether it can be built is not its
// question.
package walk

import (
	"math"

	"dogleg/geometry"
)

// Point is a place in space: X along the old line, Y to the side, Z up.
type Point struct{ X, Y, Z geometry.Length }

// Distance is how far apart two points are.
func (p Point) Distance(q Point) geometry.Length {
	x, y, z := float64(p.X-q.X), float64(p.Y-q.Y), float64(p.Z-q.Z)
	return geometry.Length(math.Sqrt(x*x + y*y + z*z))
}

// Path is a line walked piece by piece: the centers of its fittings and the
// ends of its pipes, in order.
type Path []Point

// The points of the path that [Offset] walks.
const (
	FirstEnd     = iota // end of the pipe that stands
	FirstCenter         // of the fitting on it
	PieceStart          // of the travel piece
	PieceEnd            // of the travel piece
	SecondCenter        // of the fitting on the far line
	SecondEnd           // end of the far line's pipe
)

// End is where the path lands, the origin for an empty one.
func (p Path) End() Point {
	if len(p) == 0 {
		return Point{}
	}
	return p[len(p)-1]
}

// Direction is a way to face or an axis to turn about; its length is 1 for the
// three below and stays so in walking.
type Direction struct{ X, Y, Z float64 }

// The directions to start from.
var (
	Ahead = Direction{X: 1} // along the old line
	Aside = Direction{Y: 1}
	Up    = Direction{Z: 1}
)

// Turned is d turned by a about an axis, the way a right-handed screw turns
// that goes in along it. The part of d along the axis stays; the part square
// to it swings toward the direction square to both.
func (d Direction) Turned(a geometry.Angle, axis Direction) Direction {
	sin, cos := math.Sincos(float64(a) / 180 * math.Pi)
	along := d.X*axis.X + d.Y*axis.Y + d.Z*axis.Z
	stays := Direction{axis.X * along, axis.Y * along, axis.Z * along}
	square := Direction{d.X - stays.X, d.Y - stays.Y, d.Z - stays.Z}
	across := Direction{
		axis.Y*d.Z - axis.Z*d.Y,
		axis.Z*d.X - axis.X*d.Z,
		axis.X*d.Y - axis.Y*d.X,
	}
	return Direction{
		stays.X + cos*square.X + sin*across.X,
		stays.Y + cos*square.Y + sin*across.Y,
		stays.Z + cos*square.Z + sin*across.Z,
	}
}

// Walker walks a line: it stands somewhere, faces somewhere and remembers
// where it stopped.
type Walker struct {
	heading Direction
	path    Path
}

// From is a walker that stands at a point and faces ahead.
func From(start Point) *Walker {
	return &Walker{heading: Ahead, path: append(make(Path, 0, usualPoints), start)}
}

// usualPoints is how many points a path has room for at first: those of an offset.
const usualPoints = 6

// Forward walks this far the way it faces, and stops there.
func (w *Walker) Forward(l geometry.Length) {
	at := w.path.End()
	w.path = append(w.path, Point{
		at.X + l*geometry.Length(w.heading.X),
		at.Y + l*geometry.Length(w.heading.Y),
		at.Z + l*geometry.Length(w.heading.Z),
	})
}

// Turn turns the walker by a about an axis of length 1, as [Direction.Turned]
// does.
func (w *Walker) Turn(a geometry.Angle, axis Direction) { w.heading = w.heading.Turned(a, axis) }

// Path is where the walker has stopped, the start included.
func (w *Walker) Path() Path { return w.path }

// Pieces are the pieces of an offset, as they are on the bench.
type Pieces struct {
	// Takeoffs and Gaps are those of the first and the second fitting. A fitting
	// has the same on both its sides, unless Standing says what it takes of the
	// line that stands: a street fitting's spigot, a branch fitting's run.
	Takeoffs, Gaps [2]geometry.Length
	Standing       *[2]geometry.Length
	Cut            geometry.Length
	Angle          geometry.Angle
	Back           geometry.Angle // that the second bend turns back; 0 is as much as the first
	Roll           geometry.Angle // direction of the step, up from level
}

// Offset walks the pieces from the end of the first standing pipe, at the
// origin and heading along X: gap and takeoff to the first fitting's center,
// bend, takeoff and gap to the piece, the piece, and the same through the
// second fitting, which bends back. The last point is where the second
// standing pipe must end: end gap along X, roll along Y and rise along Z.
func Offset(p Pieces) Path {
	axis := Up.Turned(p.Roll, Ahead)
	standing, back := p.Takeoffs, p.Angle
	if p.Standing != nil {
		standing = *p.Standing
	}
	if p.Back != 0 {
		back = p.Back
	}
	w := From(Point{})
	w.Forward(p.Gaps[0] + standing[0])
	w.Turn(p.Angle, axis)
	w.Forward(p.Gaps[0] + p.Takeoffs[0])
	w.Forward(p.Cut)
	w.Forward(p.Takeoffs[1] + p.Gaps[1])
	w.Turn(-back, axis)
	w.Forward(standing[1] + p.Gaps[1])
	return w.Path()
}
