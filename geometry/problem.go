package geometry

import (
	"fmt"
	"math"
)

// Reason says why figures cannot be worked with.
type Reason int

// The reasons. Each says what a person would have to change.
const (
	NotANumber       Reason = iota + 1 // a value is NaN or infinite
	NotPositive                        // a value that must be more than zero is not
	TooLong                            // a value is over [Longest]
	AngleRange                         // the angle is not more than 0° and at most 90°
	TravelTooShort                     // travel is not longer than the set or the run
	NoRoom                             // the ends are too close for these fittings
	NothingToResolve                   // at 90° the run is 0 and says nothing of the set
	TooSteep                           // a grade of more than one in one
	TooTight                           // a bend's radius is not more than half the pipe's outside diameter
)

// String is for debugging and logs; people read wording.
func (r Reason) String() string {
	switch r {
	case NotANumber:
		return "is not a number"
	case NotPositive:
		return "must be more than zero"
	case TooLong:
		return "is longer than a mile"
	case AngleRange:
		return "must be more than 0 and at most 90 degrees"
	case TravelTooShort:
		return "must be longer than the set and the run"
	case NoRoom:
		return "leaves no room for these fittings"
	case NothingToResolve:
		return "says nothing of the set at 90 degrees"
	case TooSteep:
		return "is steeper than one in one"
	case TooTight:
		return "must be more than half the outside diameter"
	}
	return "is wrong"
}

// Problem is the error of this package: which of the values is wrong, and why.
type Problem struct {
	Reason Reason
	What   string  // the word of the trade for the value: "set", "travel", "angle"
	Value  float64 // in inches or degrees, or a grade as a ratio
}

// Error is for debugging and logs; people read wording.
func (p *Problem) Error() string {
	return fmt.Sprintf("geometry: %s %v %s", p.What, p.Value, p.Reason)
}

// firstProblem is the first that is one, as an error that is nil if none is.
func firstProblem(problems ...*Problem) error {
	for _, p := range problems {
		if p != nil {
			return p
		}
	}
	return nil
}

// figured hands out a result, or nothing of it where there is a problem.
func figured[T any](result T, problems ...*Problem) (T, error) {
	if err := firstProblem(problems...); err != nil {
		var nothing T
		return nothing, err
	}
	return result, nil
}

// length finds what is wrong with a length that must be more than zero.
func length(what string, l Length) *Problem {
	if p := lengthOrZero(what, l); p != nil {
		return p
	}
	if l == 0 {
		return &Problem{NotPositive, what, 0}
	}
	return nil
}

// lengthOrZero finds what is wrong with a length that may be nothing.
func lengthOrZero(what string, l Length) *Problem {
	if p := signed(what, l); p != nil {
		return p
	}
	if l < 0 {
		return &Problem{NotPositive, what, l.Inches()}
	}
	return nil
}

// signed finds what is wrong with a length that may be less than nothing.
func signed(what string, l Length) *Problem {
	switch v := l.Inches(); {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return &Problem{NotANumber, what, v}
	case math.Abs(v) > float64(Longest):
		return &Problem{TooLong, what, v}
	}
	return nil
}

// angle finds what is wrong with the angle that a fitting turns.
func angle(a Angle) *Problem {
	switch v := a.Degrees(); {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return &Problem{NotANumber, "angle", v}
	case v <= 0 || v > 90:
		return &Problem{AngleRange, "angle", v}
	}
	return nil
}

// grade finds what is wrong with a grade; a level line has none.
func grade(s Slope) *Problem {
	switch v := float64(s); {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return &Problem{NotANumber, "grade", v}
	case v <= 0:
		return &Problem{NotPositive, "grade", v}
	case v > 1:
		return &Problem{TooSteep, "grade", v}
	}
	return nil
}
