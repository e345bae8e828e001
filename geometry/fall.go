package geometry

// Graded is a line that falls: its grade, how far it comes down, and over what
// length. Length is measured level, as along a floor; at a quarter inch per
// foot ten feet along the pipe differ by 0.026 in, which the trade ignores and
// [Graded.Sloped] gives.
//
// The three are tied by fall = grade × length (Math for Trades, vol. 3, ch. 10
// to 13, BCcampus open textbook).
type Graded struct {
	Slope        Slope
	Fall, Length Length
}

// SlopeLength solves a graded line from its grade and length.
func SlopeLength(s Slope, long Length) (Graded, error) {
	if err := firstProblem(grade(s), length("length", long)); err != nil {
		return Graded{}, err
	}
	return Graded{Slope: s, Fall: long * Length(s), Length: long}, nil
}

// SlopeFall solves a graded line from its grade and fall: length = fall / grade.
func SlopeFall(s Slope, fall Length) (Graded, error) {
	if err := firstProblem(grade(s), length("fall", fall)); err != nil {
		return Graded{}, err
	}
	long := fall / Length(s)
	return figured(Graded{Slope: s, Fall: fall, Length: long}, length("length", long))
}

// FallLength solves a graded line from its fall and length: grade = fall / length.
func FallLength(fall, long Length) (Graded, error) {
	if err := firstProblem(length("fall", fall), length("length", long)); err != nil {
		return Graded{}, err
	}
	s := Slope(fall / long)
	return figured(Graded{Slope: s, Fall: fall, Length: long}, grade(s))
}

// Sloped is the length along the pipe: the long side over length and fall.
func (g Graded) Sloped() Length { return hypot(g.Length, g.Fall) }

// LowerInvert is the elevation of the invert at the low end: upper - fall.
// Elevations are measured from any datum and may be below it, less than zero
// (US Army Engineer School, EN0389: lower invert = upper invert - slope × length).
func (g Graded) LowerInvert(upper Length) (Length, error) {
	return figured(upper-g.Fall, elevation("upper invert", upper))
}

// UpperInvert is the elevation of the invert at the high end: lower + fall.
func (g Graded) UpperInvert(lower Length) (Length, error) {
	return figured(lower+g.Fall, elevation("lower invert", lower))
}

// FallBetween is the fall between two invert elevations, of which the upper
// must be the higher.
func FallBetween(upper, lower Length) (Length, error) {
	if err := firstProblem(elevation("upper invert", upper), elevation("lower invert", lower)); err != nil {
		return 0, err
	}
	fall := upper - lower
	return figured(fall, length("fall", fall))
}

// DevelopedLength is the length along the centerline of a line that has an
// offset in it: the straights and, for the offset, its travel, not its run. A
// drain that steps sideways falls over all of it, so the offset adds
// grade × (travel - run) of fall. That developed length is taken along the
// centerline of pipe and fittings is the plumbing codes' definition (from
// memory).
func DevelopedLength(straights Length, o Offset) (Length, error) {
	if err := firstProblem(lengthOrZero("length", straights), length("travel", o.Travel)); err != nil {
		return 0, err
	}
	developed := straights + o.Travel
	return figured(developed, length("length", developed))
}

// PlumbSet is the set, square to two graded lines one above the other, from
// the distance between their centerlines measured plumb at one place:
// plumb · cos of the grade's angle. An offset in a graded line keeps the
// grade, so the whole triangle is tilted with the line. At a quarter inch per
// foot a foot of set loses 0.0026 in.
func PlumbSet(plumb Length, s Slope) (Length, error) {
	if err := firstProblem(length("set", plumb), grade(s)); err != nil {
		return 0, err
	}
	return plumb * Length(s.Angle().Cos()), nil
}

// DropAngle solves an offset that steps down in a graded line, from the drop
// between the centers of its two fittings, as read on a level or from two
// elevations:
//
//	travel = drop / sin (a + grade's angle)
//
// The line already falls at the grade and the fitting turns it down by a more,
// so the diagonal falls at both together. The drop is not the set: it contains
// the fall over the run, which at small angles is a good part of it.
// The offset found keeps the grade: its set is square to the line and its run
// along it.
func DropAngle(drop Length, a Angle, s Slope) (Offset, error) {
	if err := firstProblem(length("drop", drop), angle(a), grade(s)); err != nil {
		return Offset{}, err
	}
	return TravelAngle(drop/Length((a+s.Angle()).Sin()), a)
}

// elevation finds what is wrong with a height above a datum: it may be less
// than zero, and the datum may be over a mile down.
func elevation(what string, l Length) *Problem {
	if p := signed(what, l); p != nil && p.Reason == NotANumber {
		return p
	}
	return nil
}
