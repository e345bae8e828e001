package geometry

// A tape is laid in whatever way can be reached; these bring its reading to
// center to center. The two pipes may be unlike, so each diameter is its own:
// a centerline lies half a diameter in from the pipe's outside.
//
// Face to face is one of the ways in NAVEDTRA 14119, Hull Maintenance Technician,
// ch. 16; over, between and along the pipes are common practice, and the halves
// of diameters are geometry.

// OutsideToOutside is center to center from a reading over both pipes, far side
// to far side: half of each diameter comes off.
func OutsideToOutside(reading, first, second Length) (Length, error) {
	return centers(reading, first, second, -(first+second)/2)
}

// InsideToInside is center to center from the clear space between the pipes:
// half of each diameter is added.
func InsideToInside(reading, first, second Length) (Length, error) {
	return centers(reading, first, second, (first+second)/2)
}

// SameSide is center to center from a reading that starts on the far side of
// the first pipe, away from the second, and ends on the near side of the
// second: the same side of both. Half the first diameter comes off and half
// the second is added, so that with equal pipes nothing changes.
func SameSide(reading, first, second Length) (Length, error) {
	return centers(reading, first, second, (second-first)/2)
}

// CenterToOutside is center to center from a reading that goes from the center
// of one pipe to the far side of the other: half of that one's diameter comes
// off.
func CenterToOutside(reading, other Length) (Length, error) {
	return centers(reading, other, other, -other/2)
}

// CenterToInside is center to center from a reading that goes from the center
// of one pipe to the near side of the other: half of that one's diameter is
// added.
func CenterToInside(reading, other Length) (Length, error) {
	return centers(reading, other, other, other/2)
}

// FaceToFace is center to center from a reading between the facing faces of two
// fittings: the center-to-face length of each is added.
func FaceToFace(reading Length, faces [2]Length) (Length, error) {
	if err := firstProblem(lengthOrZero("face to face", reading), length("center to face", faces[0]), length("center to face", faces[1])); err != nil {
		return 0, err
	}
	c := reading + faces[0] + faces[1]
	return figured(c, length("center to center", c))
}

// CenterToFace is center to center from a reading that goes from the center of
// one fitting to the facing face of the other, whose center-to-face length is
// added.
func CenterToFace(reading, face Length) (Length, error) {
	if err := firstProblem(lengthOrZero("center to face", reading), length("center to face", face)); err != nil {
		return 0, err
	}
	c := reading + face
	return figured(c, length("center to center", c))
}

func centers(reading, first, second, change Length) (Length, error) {
	if err := firstProblem(length("reading", reading), length("outside diameter", first), length("outside diameter", second)); err != nil {
		return 0, err
	}
	c := reading + change
	return figured(c, length("center to center", c))
}
