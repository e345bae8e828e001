package geometry

// Ends is what the two fittings take from the pipe between them: the takeoff,
// from a fitting's center to where the end of the pipe comes to rest, and the
// gap left at the joint (a weld's root, a coupling's stop; none in sockets and
// threads). Both must be known at either end, since ends are often unlike.
//
// A takeoff is not the depth that the pipe goes in. Center to face, less that
// depth, is the takeoff (US Army Engineer School plumbing course, "Measuring
// pipes": pipe = center to center - fitting dimensions + engagements).
type Ends struct{ Takeoffs, Gaps [2]Length }

// Cut is the length of pipe to cut, end to end, between two fitting centers:
// each end stops a takeoff and a gap short of its center. For an offset the
// centers are its travel apart, for a straight piece as far as was measured.
//
// It is an error if nothing is left ([NoRoom], with what is lacking as a
// negative Value). A cut that is more than nothing may still be too short: see
// [TouchingSet].
func Cut(centers Length, e Ends) (Length, error) {
	if err := firstProblem(length("center to center", centers), e.problem()); err != nil {
		return 0, err
	}
	cut := centers - e.taken()
	if cut <= 0 {
		return 0, &Problem{NoRoom, "cut", cut.Inches()}
	}
	return cut, nil
}

// Centers is how far apart two fitting centers come with a piece of this
// length between them, [Cut] the other way about: the travel of an offset from
// the piece at hand.
func Centers(cut Length, e Ends) (Length, error) {
	if err := firstProblem(length("cut", cut), e.problem()); err != nil {
		return 0, err
	}
	centers := cut + e.taken()
	return figured(centers, length("center to center", centers))
}

// EndGap is the clear distance along the line between the ends of the two
// standing pipes once the offset is in: each stops a takeoff and a gap back
// from its center, and the centers are the run apart. The run of two 90s is 0.
func EndGap(run Length, e Ends) (Length, error) {
	if err := firstProblem(lengthOrZero("run", run), e.problem()); err != nil {
		return 0, err
	}
	gap := run + e.taken()
	return figured(gap, lengthOrZero("end gap", gap))
}

// RunOf is the run that just fills an end gap, [EndGap] the other way about.
// Takeoffs that alone are longer leave no room.
func RunOf(endGap Length, e Ends) (Length, error) {
	if err := firstProblem(length("end gap", endGap), e.problem()); err != nil {
		return 0, err
	}
	run := endGap - e.taken()
	if run < 0 {
		return 0, &Problem{NoRoom, "run", run.Inches()}
	}
	return run, nil
}

// taken is all that comes off between the two centers.
func (e Ends) taken() Length {
	return e.Takeoffs[0] + e.Gaps[0] + e.Takeoffs[1] + e.Gaps[1]
}

func (e Ends) problem() *Problem {
	for i := range e.Takeoffs {
		if p := lengthOrZero("takeoff", e.Takeoffs[i]); p != nil {
			return p
		}
		if p := lengthOrZero("gap", e.Gaps[i]); p != nil {
			return p
		}
	}
	return nil
}
