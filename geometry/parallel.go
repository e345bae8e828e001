package geometry

import "math"

// Bank is a bank of parallel lines that all make the same offset: travel, run
// and cut are the same for every line, only where the bends start differs.
type Bank struct {
	Spacing Length // between neighboring centerlines
	// Roll is the angle between the direction of the spacing and the direction
	// of the set, 0° to 90°. It is 0 where the whole offset lies in the plane of
	// the bank, and the roll angle from level where a level bank rolls.
	Roll  Angle
	Angle Angle // that the fittings turn
}

// Stagger is how much sooner along the line the next line's bend starts, going
// to the side that the pipes step toward (later, going to the other), for the
// lines to keep their spacing on the diagonal:
//
//	stagger = spacing · cos roll · tan (angle / 2)
//
// To keep their distance before and after the turn the bend centers must lie
// on the line that halves the turn; and only the part of the spacing that lies
// in the plane of the offset is changed by turning. At a roll of 90° there is
// no stagger. Woodson, Plumber's and Pipe Fitter's Calculations Manual, 2005,
// "Spreading offsets equally", prints spread × .4142 for 45s; the rolling form
// is geometry, and no printed source for it was found.
func (b Bank) Stagger() (Length, error) {
	if err := b.problem(); err != nil {
		return 0, err
	}
	return b.inPlane() * Length(b.Angle.Half().Tan()), nil
}

// Unstaggered is how close the centerlines come on the diagonal if all lines
// bend at the same place: the part of the spacing in the plane of the offset
// shrinks by the cosine of the angle, the part square to it stays.
func (b Bank) Unstaggered() (Length, error) {
	if err := b.problem(); err != nil {
		return 0, err
	}
	return hypot(b.inPlane()*Length(b.Angle.Cos()), b.Spacing*Length(b.Roll.Sin())), nil
}

// inPlane is the part of the spacing that lies in the plane of the offset.
func (b Bank) inPlane() Length { return b.Spacing * Length(b.Roll.Cos()) }

func (b Bank) problem() error {
	if err := firstProblem(length("spacing", b.Spacing), angle(b.Angle)); err != nil {
		return err
	}
	switch v := b.Roll.Degrees(); {
	case math.IsNaN(v):
		return &Problem{NotANumber, "roll angle", v}
	case v < 0 || v > 90:
		return &Problem{AngleRange, "roll angle", v}
	}
	return nil
}
