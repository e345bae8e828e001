package geometry

// These are the limits of what can be built. All are clearances: on the tape a
// set rounds up, a takeoff must not.

// TouchingSet is the set at which the two hubs of an offset just touch:
// (face + face) · sin a, since the travel is then the two center-to-face
// lengths end to end. It is the least set that can be built with these
// fittings; the piece there is as long as the two insertions.
func TouchingSet(faces [2]Length, a Angle) (Length, error) {
	if err := firstProblem(length("center to face", faces[0]), length("center to face", faces[1]), angle(a)); err != nil {
		return 0, err
	}
	return (faces[0] + faces[1]) * Length(a.Sin()), nil
}

// ZeroPipeSet is the set at which nothing is left of the piece between two
// fittings: (takeoffs + gaps) · sin a. It is the limit only where no pipe goes
// in, as in butt weld. Hubs have collided before that: see [TouchingSet].
func ZeroPipeSet(e Ends, a Angle) (Length, error) {
	if err := firstProblem(e.problem(), angle(a)); err != nil {
		return 0, err
	}
	set := e.taken() * Length(a.Sin())
	return figured(set, length("takeoff", set))
}

// StreetSet is the set that a street fitting makes, its spigot end straight in
// the other fitting's hub, with no piece between:
// (center to spigot end + takeoff of the other) · sin a. It makes this set and
// no other.
func StreetSet(centerToSpigot, takeoff Length, a Angle) (Length, error) {
	if err := firstProblem(length("center to spigot end", centerToSpigot), lengthOrZero("takeoff", takeoff), angle(a)); err != nil {
		return 0, err
	}
	return (centerToSpigot + takeoff) * Length(a.Sin()), nil
}

// LargestTakeoff is the largest takeoff, of two alike, at which the hubs still
// clear each other on this travel: half of what the insertions leave, since
// travel = 2 · takeoff + both insertions where the hubs touch.
func LargestTakeoff(travel Length, insertions [2]Length) (Length, error) {
	if err := firstProblem(length("travel", travel), lengthOrZero("insertion", insertions[0]), lengthOrZero("insertion", insertions[1])); err != nil {
		return 0, err
	}
	largest := (travel - insertions[0] - insertions[1]) / 2
	if largest < 0 {
		return 0, &Problem{NoRoom, "travel", travel.Inches()}
	}
	return largest, nil
}
