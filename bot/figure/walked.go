package figure

import (
	"dogleg/geometry"
	"dogleg/geometry/walk"
)

// landing is how near the walk must come to the far line: a thousandth of an
// inch, far below any tape and far above floating point.
const landing = geometry.Inch / 1000

// walked lays the pieces of the answer end to end in space. They must land
// where the formulas say, at the end gap along and the set across, or nothing
// is answered. A handbook's rounded figures are not walked; the exact piece
// is.
func (w *work) walked(o solved) error {
	if end, square := w.squareEnd(); square {
		return w.walkedSquare(o, end)
	}
	return w.landed(walkOf(o), farEnd(o))
}

// walkedSquare lays the pieces from the line that ends in a bend to the center of
// the fitting that stands square to the step.
func (w *work) walkedSquare(o solved, end int) error {
	other := o.joint.ends[1-end]
	t, known := w.ofTheLine(1-end, other)
	if !known {
		t = other.Takeoff
	}
	across, gap := o.across(), o.joint.gap.Length
	walker := walk.From(walk.Point{})
	walker.Forward(t.Length + gap)
	walker.Turn(o.Angle, walk.Up.Turned(geometry.Atan2(across.Rise, across.Roll), walk.Ahead))
	walker.Forward(other.Takeoff.Length + gap)
	walker.Forward(o.cut)
	walker.Forward(o.joint.ends[end].Takeoff.Length + gap)
	return w.landed(walker.Path(), walk.Point{X: o.Run + t.Length + gap, Y: across.Roll, Z: across.Rise})
}

// walkOf lays the pieces of an offset.
func walkOf(o solved) walk.Path {
	taken, across := o.joint.taken(), o.across()
	return walk.Offset(walk.Pieces{
		Takeoffs: taken.Takeoffs, Gaps: taken.Gaps,
		Standing: o.standing, Cut: o.cut, Angle: o.Angle, Roll: geometry.Atan2(across.Rise, across.Roll),
	})
}

// farEnd is where the formulas say that the far pipe ends.
func farEnd(o solved) walk.Point {
	across := o.across()
	return walk.Point{X: o.endGap, Y: across.Roll, Z: across.Rise}
}

// across is the step by its two parts; one that was not said to roll is level.
func (o solved) across() geometry.Rolling {
	if o.rolling == (geometry.Rolling{}) {
		return geometry.Rolling{Roll: o.Set}
	}
	return o.rolling
}

// walkedStraight lays a straight piece from center to center.
func (w *work) walkedStraight(centers, cut geometry.Length, j joint) error {
	taken := j.taken()
	walker := walk.From(walk.Point{})
	walker.Forward(taken.Takeoffs[0] + taken.Gaps[0])
	walker.Forward(cut)
	walker.Forward(taken.Takeoffs[1] + taken.Gaps[1])
	return w.landed(walker.Path(), walk.Point{X: centers})
}

// walkedBetweenFaces lays a piece from one face to the other: back into the
// first socket, along the piece, back out of the second.
func (w *work) walkedBetweenFaces(faces, cut geometry.Length, depths [2]geometry.Length, gap geometry.Length) error {
	walker := walk.From(walk.Point{})
	walker.Forward(gap - depths[0])
	walker.Forward(cut)
	walker.Forward(gap - depths[1])
	return w.landed(walker.Path(), walk.Point{X: faces})
}

// landed takes a path into the answer if it ends where it should.
func (w *work) landed(path walk.Path, wanted walk.Point) error {
	if off := path.End().Distance(wanted); !(off <= landing) {
		return &Impossible{Cause: NotLanding, Subject: off.String()}
	}
	w.answer.Path = path
	return nil
}
