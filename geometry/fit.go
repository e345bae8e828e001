package geometry

import "math"

// Spare is the straight pipe left over in a room when an offset is in it: room
// less end gap. Room is the clear distance along the line that there is for the
// whole offset. An offset that does not fit is [NoRoom], and Value is then what
// is lacking, as a negative number of inches.
func Spare(room, endGap Length) (Length, error) {
	if err := firstProblem(length("room", room), lengthOrZero("end gap", endGap)); err != nil {
		return 0, err
	}
	spare := room - endGap
	if spare < 0 {
		return 0, &Problem{NoRoom, "room", spare.Inches()}
	}
	return spare, nil
}

// Trimmed is an offset made of two elbows that are cut to suit its angle.
type Trimmed struct {
	Offset  Offset
	Takeoff Length // of each elbow
	Cut     Length // the piece between them
}

// TrimElbows finds the angle at which two elbows of this centerline radius,
// trimmed to suit, fill a room exactly, with a gap at each of the four joints.
//
// The takeoff of a trimmed elbow depends on the angle sought, but the equation
// closes. With u = tan (a/2) and L = room - 2 gap, run + 2 takeoffs = L reads
// set · cot a + 2 · radius · u = L, and as cot a = (1-u²) / 2u that is
//
//	(4 radius - set) · u² - 2 L · u + set = 0
//	u = set / (L + q),  q = √(L² - set · (4 radius - set))
//
// The smaller root is the one that can be built: the larger has the elbows
// overlap. Without gaps q is the piece itself. No root, an angle over 90° or
// nothing left of the piece are all [NoRoom].
func TrimElbows(set, room, radius, gap Length) (Trimmed, error) {
	if err := firstProblem(length("set", set), length("room", room), length("radius", radius), lengthOrZero("gap", gap)); err != nil {
		return Trimmed{}, err
	}
	along := room - 2*gap
	square := along*along - set*(4*radius-set)
	if along <= 0 || square < 0 {
		return Trimmed{}, &Problem{NoRoom, "room", room.Inches()}
	}
	q := Length(math.Sqrt(float64(square)))
	a := 2 * Atan2(set, along+q)
	if a > QuarterBend || q <= 2*gap {
		return Trimmed{}, &Problem{NoRoom, "room", room.Inches()}
	}
	o, err := SetAngle(set, a)
	if err != nil {
		return Trimmed{}, err
	}
	return Trimmed{Offset: o, Takeoff: radius * Length(a.Half().Tan()), Cut: q - 2*gap}, nil
}
