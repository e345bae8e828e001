package geometry

import "fmt"

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
)

// Problem is the error of this package: which of the values is wrong, and why.
type Problem struct {
	Reason Reason
	What   string // the word of the trade for the value: "set", "travel", "angle"
	Value  float64
}

// Error is for debugging and logs; people read wording.
func (p *Problem) Error() string {
	reason := map[Reason]string{
		NotANumber:       "is not a number",
		NotPositive:      "must be more than zero",
		TooLong:          "is longer than a mile",
		AngleRange:       "must be more than 0 and at most 90 degrees",
		TravelTooShort:   "must be longer than the set and the run",
		NoRoom:           "leaves no room for these fittings",
		NothingToResolve: "says nothing of the set at 90 degrees",
	}[p.Reason]
	return fmt.Sprintf("geometry: %s %v %s", p.What, p.Value, reason)
}
