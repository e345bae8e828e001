package geometry

// Rolling is a set that is neither level nor plumb, by its two parts: how far
// it goes sideways and how far up or down. Either may be 0, not both; up and
// down are figured alike.
type Rolling struct{ Roll, Rise Length }

// TrueSet is the set, square across: the root of roll² + rise², since roll and
// rise are square to each other and both square to the line. It takes the
// place of the set in everything else. Study pages for apprentices print 14.42
// for 8 and 12; the rule itself is Pythagoras'.
//
// Roll and rise added up are not the set: that is the commonest mistake.
func (r Rolling) TrueSet() (Length, error) {
	if err := firstProblem(lengthOrZero("roll", r.Roll), lengthOrZero("rise", r.Rise)); err != nil {
		return 0, err
	}
	set := hypot(r.Roll, r.Rise)
	return figured(set, length("set", set))
}

// Offset solves the offset that these two make with an angle.
func (r Rolling) Offset(a Angle) (Offset, error) {
	set, err := r.TrueSet()
	if err != nil {
		return Offset{}, err
	}
	return SetAngle(set, a)
}

// FromLevel is how far the fitting is turned up from level, 0° to 90°: the
// angle whose tangent is rise over roll.
func (r Rolling) FromLevel() (Angle, error) {
	if _, err := r.TrueSet(); err != nil {
		return 0, err
	}
	return Atan2(r.Rise, r.Roll), nil
}

// FromPlumb is how far the fitting is turned from plumb, 0° to 90°: the angle
// whose tangent is roll over rise. It and [Rolling.FromLevel] make 90°.
func (r Rolling) FromPlumb() (Angle, error) {
	return Rolling{Roll: r.Rise, Rise: r.Roll}.FromLevel()
}

// RiseIn12 is the rise to 12 in of roll, as it is laid on a square or a level.
// A plumb offset, with no roll, has none.
func (r Rolling) RiseIn12() (Length, error) {
	if err := firstProblem(length("roll", r.Roll), lengthOrZero("rise", r.Rise)); err != nil {
		return 0, err
	}
	in12 := r.Rise / r.Roll * 12
	return figured(in12, lengthOrZero("rise", in12))
}
