package geometry

// Corner is a turn made of two bends with a piece between them: its centerlines
// and the corner where the two lines would meet make a triangle. The bends turn as
// much as its angles at their centers, so that the law of sines gives all of it
// from one side. Two 45s for a 90 have legs alike and a diagonal of 1.4142 legs.
type Corner struct {
	Turns  [2]Angle
	Legs   [2]Length // from the corner to each bend's center
	Travel Length    // between the two centers
	Square Length    // from the corner square to the travel: how near the piece passes
}

// Turn is what the two bends turn in all.
func (c Corner) Turn() Angle { return c.Turns[0] + c.Turns[1] }

// CornerLeg solves a corner from the leg of one of its bends:
// travel = leg · sin of the whole turn / sin of the other bend's.
func CornerLeg(leg Length, which int, turns [2]Angle) (Corner, error) {
	if err := firstProblem(length("leg", leg), angle(turns[0]), angle(turns[1]), corner(turns)); err != nil {
		return Corner{}, err
	}
	whole := turns[0] + turns[1]
	return CornerTravel(leg*Length(whole.Sin()/turns[1-which].Sin()), turns)
}

// CornerTravel solves a corner from the distance between its two centers:
// leg = travel · sin of the other bend's turn / sin of the whole.
func CornerTravel(travel Length, turns [2]Angle) (Corner, error) {
	if err := firstProblem(length("travel", travel), angle(turns[0]), angle(turns[1]), corner(turns)); err != nil {
		return Corner{}, err
	}
	c := Corner{Turns: turns, Travel: travel}
	for i := range c.Legs {
		c.Legs[i] = travel * Length(turns[1-i].Sin()/c.Turn().Sin())
	}
	c.Square = c.Legs[0] * Length(turns[0].Sin())
	return figured(c, length("leg", c.Legs[0]), length("leg", c.Legs[1]))
}

// corner finds what is wrong with two bends that turn a line right back: they have
// no corner.
func corner(turns [2]Angle) *Problem {
	if whole := turns[0] + turns[1]; whole >= 2*QuarterBend {
		return &Problem{AngleRange, "angle", whole.Degrees()}
	}
	return nil
}
