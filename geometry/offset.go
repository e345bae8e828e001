package geometry

import "math"

// Offset is a simple offset: a right triangle with the set square across, the
// run along the line and the travel on the diagonal, all center to center of
// the two fittings, and the angle that the first fitting turns the line
// through (and the second turns it back).
//
// Sources for the relations: the sine, cosine and tangent of a right triangle;
// Dibble, Elements of Plumbing, 1918, "Measurements" prints set × 1.41 = travel
// for a 1/8 bend.
type Offset struct {
	Set, Run, Travel Length
	Angle            Angle
}

// SetAngle solves an offset from its set and angle: travel = set / sin a,
// run = set · cos a / sin a (written so that 90° gives a run of 0).
func SetAngle(set Length, a Angle) (Offset, error) {
	if err := firstProblem(length("set", set), angle(a)); err != nil {
		return Offset{}, err
	}
	return checked(Offset{Set: set, Run: set * Length(a.Cos()/a.Sin()), Travel: set / Length(a.Sin()), Angle: a})
}

// RunAngle solves an offset from its run and angle: set = run · tan a,
// travel = run / cos a. At 90° the run is 0 and cannot say what the set is.
func RunAngle(run Length, a Angle) (Offset, error) {
	if err := firstProblem(length("run", run), angle(a)); err != nil {
		return Offset{}, err
	}
	if a == QuarterBend {
		return Offset{}, &Problem{NothingToResolve, "run", run.Inches()}
	}
	return checked(Offset{Set: run * Length(a.Tan()), Run: run, Travel: run / Length(a.Cos()), Angle: a})
}

// TravelAngle solves an offset from its travel and angle: set = travel · sin a,
// run = travel · cos a.
func TravelAngle(travel Length, a Angle) (Offset, error) {
	if err := firstProblem(length("travel", travel), angle(a)); err != nil {
		return Offset{}, err
	}
	return checked(Offset{Set: travel * Length(a.Sin()), Run: travel * Length(a.Cos()), Travel: travel, Angle: a})
}

// SetRun solves an offset from its set and run: tan a = set / run,
// travel² = set² + run². A run of 0 is a 90.
func SetRun(set, run Length) (Offset, error) {
	if err := firstProblem(length("set", set), lengthOrZero("run", run)); err != nil {
		return Offset{}, err
	}
	return checked(Offset{Set: set, Run: run, Travel: hypot(set, run), Angle: Atan2(set, run)})
}

// SetTravel solves an offset from its set and travel: sin a = set / travel.
// Travel must be longer than the set: an equal one would be a 90, and a hair
// of measuring error there swings the angle by degrees.
func SetTravel(set, travel Length) (Offset, error) {
	if err := firstProblem(length("set", set), length("travel", travel)); err != nil {
		return Offset{}, err
	}
	if travel <= set {
		return Offset{}, &Problem{TravelTooShort, "travel", travel.Inches()}
	}
	run := otherLeg(travel, set)
	return checked(Offset{Set: set, Run: run, Travel: travel, Angle: Atan2(set, run)})
}

// RunTravel solves an offset from its run and travel: cos a = run / travel.
func RunTravel(run, travel Length) (Offset, error) {
	if err := firstProblem(length("run", run), length("travel", travel)); err != nil {
		return Offset{}, err
	}
	if travel <= run {
		return Offset{}, &Problem{TravelTooShort, "travel", travel.Inches()}
	}
	set := otherLeg(travel, run)
	return checked(Offset{Set: set, Run: run, Travel: travel, Angle: Atan2(set, run)})
}

// checked refuses an offset that came out longer than any pipe: a set of a
// mile at 1° runs 57 miles.
func checked(o Offset) (Offset, error) {
	return figured(o, lengthOrZero("run", o.Run), length("travel", o.Travel), length("set", o.Set), angle(o.Angle))
}

func hypot(a, b Length) Length { return Length(math.Hypot(float64(a), float64(b))) }

// otherLeg is the second leg of a right triangle; (h-l)(h+l) keeps the figures
// that h²-l² would lose when the two are close.
func otherLeg(hypotenuse, leg Length) Length {
	return Length(math.Sqrt(float64(hypotenuse-leg) * float64(hypotenuse+leg)))
}
