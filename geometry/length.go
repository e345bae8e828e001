package geometry

import "strconv"

// Length is a length in inches. Sixteenths, thirty-seconds and sixty-fourths
// of an inch are exact in it; a millimeter (1/25.4 in) is not, and is right to
// fifteen figures.
//
// Write lengths with their unit: 12 * geometry.Inch, 300 * geometry.Millimeter.
type Length float64

// The units a tape is marked in.
const (
	Inch       Length = 1
	Foot              = 12 * Inch
	Millimeter        = Inch / 25.4 // exact by definition: 1 in = 25.4 mm (international inch, 1959)
	Centimeter        = 10 * Millimeter
	Meter             = 1000 * Millimeter
)

// Longest is the longest length that dogleg works with: a mile. Anything
// beyond it is a slip of the thumb, not a pipe.
const Longest = 5280 * Foot

// Inches returns l in inches.
func (l Length) Inches() float64 { return float64(l) }

// Feet returns l in feet.
func (l Length) Feet() float64 { return float64(l / Foot) }

// Millimeters returns l in millimeters.
func (l Length) Millimeters() float64 { return float64(l) * 25.4 }

// String is for debugging. What people read is made by [Length.Tape] and the
// package that words answers.
func (l Length) String() string {
	return strconv.FormatFloat(float64(l), 'g', -1, 64) + " in"
}
