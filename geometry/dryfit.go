package geometry

// DryFit is what a trial put together without cement, lead or dope showed: the
// piece as it was cut, the angle of the fittings, and the set that came of it,
// center to center. Tapered plastic sockets stop short when dry, so measure
// between centers, never between ends (common practice).
type DryFit struct {
	Cut   Length
	Set   Length // as it came out
	Angle Angle
	Gap   Length // left at each end of the piece
}

// Takeoff is what each fitting really takes, both alike:
// (set / sin a - cut) / 2 - gap. The travel that the set shows is the piece and
// two takeoffs with their gaps, so what is not piece is theirs. A set too small
// for the piece, or too large by far for any fitting, is for the caller to
// doubt; one that leaves less than nothing is [NoRoom].
func (d DryFit) Takeoff() (Length, error) {
	o, err := d.offset()
	if err != nil {
		return 0, err
	}
	takeoff := (o.Travel-d.Cut)/2 - d.Gap
	if takeoff < 0 {
		return 0, &Problem{NoRoom, "takeoff", takeoff.Inches()}
	}
	return takeoff, nil
}

// Trim is how much to take off the piece to bring the set to what is wanted:
// (set - wanted) / sin a, all of it off the travel. It may come out negative
// without an error: the piece is too short by that much and is to be cut anew.
// A trim that leaves nothing of the piece is [NoRoom].
func (d DryFit) Trim(wanted Length) (Length, error) {
	o, err := d.offset()
	if err != nil {
		return 0, err
	}
	want, err := SetAngle(wanted, d.Angle)
	if err != nil {
		return 0, err
	}
	trim := o.Travel - want.Travel
	if trim >= d.Cut {
		return 0, &Problem{NoRoom, "cut", (d.Cut - trim).Inches()}
	}
	return trim, nil
}

func (d DryFit) offset() (Offset, error) {
	if err := firstProblem(length("cut", d.Cut), lengthOrZero("gap", d.Gap)); err != nil {
		return Offset{}, err
	}
	return SetAngle(d.Set, d.Angle)
}
