package geometry

// Obstacle is a square-cornered thing that stands in the way of a line and
// that the line steps around, to the side it sticks out to. All of these are
// clearances: on the tape they round up ([Length.TapeUp]).
//
// No book with a worked example of a square obstacle was found; the formulas
// are plain geometry, and the tests measure them by brute force.
type Obstacle struct {
	// Reach is how far it sticks out past the pipe's centerline, square to it.
	// Measured from the pipe's outside, it lacks half a diameter.
	Reach     Length
	Clearance Length // wanted between it and the pipe
	Outside   Length // diameter of the pipe, or of a hub if one comes near
}

// Keep is how far the centerline keeps off the obstacle: the clearance and
// half the outside diameter.
func (o Obstacle) Keep() (Length, error) {
	if err := o.problem(); err != nil {
		return 0, err
	}
	return o.keep(), nil
}

// SmallestSet is the least set that takes the far line clear of the face:
// reach + keep.
func (o Obstacle) SmallestSet() (Length, error) {
	if err := o.problem(); err != nil {
		return 0, err
	}
	return o.Reach + o.keep(), nil
}

// FirstBend is how far before the obstacle's near face the first bend's center
// goes at the latest:
//
//	start = (keep + reach · cos a) / sin a
//
// The corner lies start · sin a - reach · cos a off the diagonal, and that must
// be keep. A set larger than the smallest does not change it.
func (o Obstacle) FirstBend(a Angle) (Length, error) {
	if err := o.problem(); err != nil {
		return 0, err
	}
	if err := firstProblem(angle(a)); err != nil {
		return 0, err
	}
	start := (o.keep() + o.Reach*Length(a.Cos())) / Length(a.Sin())
	return figured(start, length("start", start))
}

// CornerLoss is how much of the clearance a bend of this centerline radius
// takes away at the smallest set, where the corner sits on the line that
// halves the second bend:
//
//	loss = (radius - keep) · (1 / cos (a/2) - 1), and none where radius ≤ keep
//
// A round bend cuts the corner that its centerlines make by
// radius · (1 / cos (a/2) - 1), and by less as the obstacle's own corner lies
// nearer to the middle of the round. Short fittings lose nothing; a long sweep
// or a butt-weld elbow does.
func (o Obstacle) CornerLoss(radius Length, a Angle) (Length, error) {
	if err := o.problem(); err != nil {
		return 0, err
	}
	if err := firstProblem(length("radius", radius), angle(a)); err != nil {
		return 0, err
	}
	return max(0, radius-o.keep()) * Length(1/a.Half().Cos()-1), nil
}

// BetweenBends is how far apart the two inner bends' centers go where the line
// comes back behind an obstacle that is this long along the line:
//
//	long + 2 · (start - run)
//
// The second bend stands a run past the first, that is start - run before the
// near face; the third as far past the far face, since coming back is the same
// step walked backward. A set so large that the two would pass each other is
// no room.
func (o Obstacle) BetweenBends(long Length, step Offset) (Length, error) {
	start, err := o.FirstBend(step.Angle)
	if err != nil {
		return 0, err
	}
	smallest := o.Reach + o.keep()
	if err := firstProblem(length("length", long), length("set", step.Set), lengthOrZero("run", step.Run)); err != nil {
		return 0, err
	}
	if step.Set < smallest-hairline {
		return 0, &Problem{NoRoom, "set", step.Set.Inches()}
	}
	between := long + 2*(start-step.Run)
	if between < 0 {
		return 0, &Problem{NoRoom, "set", step.Set.Inches()}
	}
	return between, nil
}

// keep is Keep of an obstacle without a problem.
func (o Obstacle) keep() Length { return o.Clearance + o.Outside/2 }

func (o Obstacle) problem() error {
	return firstProblem(length("reach", o.Reach), lengthOrZero("clearance", o.Clearance), length("outside diameter", o.Outside))
}
