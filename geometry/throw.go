package geometry

// Throw is how far a slip moves the figures of an offset. All are sizes, good
// for a slip either way; a zero one is not moved.
type Throw struct {
	Cut Length // the piece, or the travel that it follows from
	Set Length // where the far line comes to lie, square across
	Run Length // where it comes to lie along the line
}

// SetOff is the throw of a set mismeasured by this much: travel = set / sin a
// and run = set · cot a, so the slip grows just as the set would. At 5⅝° one
// sixteenth becomes ten.
func (o Offset) SetOff(by Length) (Throw, error) {
	slip, err := SetAngle(by, o.Angle)
	return Throw{Cut: slip.Travel, Set: slip.Set, Run: slip.Run}, err
}

// CutOff is the throw of a piece cut wrong by this much: the far line moves
// along the diagonal with it.
func (o Offset) CutOff(by Length) (Throw, error) {
	slip, err := TravelAngle(by, o.Angle)
	return Throw{Cut: slip.Travel, Set: slip.Set, Run: slip.Run}, err
}

// TakeoffOff is the throw of a takeoff wrong by this much at each end: the
// piece is wrong by twice that.
func (o Offset) TakeoffOff(by Length) (Throw, error) { return o.CutOff(2 * by) }

// AngleOff is the throw of fittings, or sprung joints, that turn this much too
// far or too little: the diagonal swings over an arc of travel · radians, whose
// part across is cos a and along is sin a. It is the slope at a, good for the
// few degrees that a joint can be out; the piece is not changed.
func (o Offset) AngleOff(by Angle) (Throw, error) {
	if err := firstProblem(length("travel", o.Travel), angle(o.Angle), angle(by)); err != nil {
		return Throw{}, err
	}
	arc := o.Travel * Length(by.Radians())
	return Throw{Set: arc * Length(o.Angle.Cos()), Run: arc * Length(o.Angle.Sin())}, nil
}

// RollOff is how far a roll mismeasured by this much moves the true set:
// by · roll / set, the part of it that points along the set. What it does to
// the cut is [Offset.SetOff] of that.
func (r Rolling) RollOff(by Length) (Length, error) {
	set, err := r.TrueSet()
	if err != nil {
		return 0, err
	}
	return figured(by*(r.Roll/set), length("roll", by))
}

// RiseOff is how far a rise mismeasured by this much moves the true set; see
// [Rolling.RollOff].
func (r Rolling) RiseOff(by Length) (Length, error) {
	return Rolling{Roll: r.Rise, Rise: r.Roll}.RollOff(by)
}
