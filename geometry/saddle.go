package geometry

import "math"

// Saddle is the end of a pipe that sits on another: a fishmouth. Both pipes are
// taken by their outside diameters, and their centerlines meet; what is beveled
// off the inside of the wall is the welder's (common practice).
type Saddle struct {
	Branch, Header Length // outside diameters
	Angle          Angle  // between the two centerlines
}

// Reach is how far the header's wall is from where the centerlines meet, along the
// branch, over a line of its wall so far around from the throat, where the two
// pipes close in on each other:
//
//	(√(R² - r² · sin² x) + r · cos x · cos a) / sin a
//
// A point of the branch's wall lies r · sin x beside the plane of the two
// centerlines; there the header stands √(R² - r² · sin² x) high, and the line
// comes down to that at a.
func (s Saddle) Reach(x Angle) (Length, error) {
	if err := s.problem(); err != nil {
		return 0, err
	}
	if err := firstProblem(wayAround(x)); err != nil {
		return 0, err
	}
	sin, cos := math.Sincos(x.Radians())
	r, big := float64(s.Branch)/2, float64(s.Header)/2
	beside := r * sin
	high := math.Sqrt(max(0, (big-beside)*(big+beside)))
	return Length((high + r*cos*s.Angle.Cos()) / s.Angle.Sin()), nil
}

// Shortest is the farthest that any line of the branch's wall stays from where the
// centerlines meet: the branch is shortest there. It is at the throat.
func (s Saddle) Shortest() (Length, error) { return s.Reach(0) }

// Longest is the least that any line of the branch's wall stays from where the
// centerlines meet: the branch is longest there. Where the pipes lean little that
// is √(R² - r²), on the sides; where they lean more than its side can follow, at
// the heel, (R - r · cos a) / sin a.
func (s Saddle) Longest() (longest Length, heel bool, err error) {
	if err := s.problem(); err != nil {
		return 0, false, err
	}
	side := otherLeg(s.Header/2, s.Branch/2)
	// The least of Reach lies where r · cos x = -√(R² - r²) · cot a; past the heel
	// there is none.
	if side*Length(s.Angle.Cos()/s.Angle.Sin()) <= s.Branch/2 {
		return side, false, nil
	}
	longest, err = s.Reach(2 * QuarterBend)
	return longest, true, err
}

// At is how far past the square line through its shortest point the branch reaches
// over a line of its wall so far around from the throat.
func (s Saddle) At(x Angle) (Length, error) {
	shortest, err := s.Shortest()
	if err != nil {
		return 0, err
	}
	reach, err := s.Reach(x)
	if err != nil {
		return 0, err
	}
	return max(0, shortest-reach), nil
}

// Ordinates are the marks on the branch's end, from the square line through its
// shortest point.
func (s Saddle) Ordinates() ([]Ordinate, error) {
	marks := make([]Ordinate, 8)
	for i := range marks {
		along, err := s.At(45 * Angle(i))
		if err != nil {
			return nil, err
		}
		marks[i] = Ordinate{Eighth: i, Around: s.Branch * Length(math.Pi*float64(i)/8), Along: along}
	}
	return marks, nil
}

func (s Saddle) problem() error {
	if err := firstProblem(length("outside diameter", s.Branch), length("outside diameter", s.Header), angle(s.Angle)); err != nil {
		return err
	}
	if s.Branch > s.Header {
		return &Problem{NoRoom, "outside diameter", s.Branch.Inches()}
	}
	return nil
}

// wayAround finds what is wrong with a way around a pipe; it may be any number of
// degrees.
func wayAround(x Angle) *Problem {
	if v := x.Degrees(); math.IsNaN(v) || math.IsInf(v, 0) {
		return &Problem{NotANumber, "angle", v}
	}
	return nil
}

// WrapArc is a turn laid off along a pipe's wall: so many degrees of the way
// around, π · outside diameter · angle / 360.
func WrapArc(outside Length, a Angle) (Length, error) {
	if err := firstProblem(length("outside diameter", outside), angle(a)); err != nil {
		return 0, err
	}
	return outside / 2 * Length(a.Radians()), nil
}

// Girth is all the way around a pipe: π · outside diameter.
func Girth(outside Length) (Length, error) {
	if err := firstProblem(length("outside diameter", outside)); err != nil {
		return 0, err
	}
	return outside * math.Pi, nil
}
