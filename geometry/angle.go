package geometry

import (
	"math"
	"strconv"
)

// Angle is an angle in degrees. It holds degrees, not radians, so that every
// bend the trade sells (90, 72, 60, 45, 22½, 11¼, 5⅝) is exact and comparable;
// sine, cosine and tangent convert inside.
//
// For a fitting it is the angle the fitting turns the line through: a 45 turns
// it 45°. It is never the angle left between the two pipes.
type Angle float64

// Degree is the unit of Angle.
const Degree Angle = 1

// The bends of the trade, by the part of a circle that they turn.
const (
	QuarterBend      = 90 * Degree
	FifthBend        = 72 * Degree
	SixthBend        = 60 * Degree
	EighthBend       = 45 * Degree
	TwelfthBend      = 30 * Degree
	SixteenthBend    = 22.5 * Degree
	ThirtySecondBend = 11.25 * Degree
	SixtyFourthBend  = 5.625 * Degree
)

// Bends lists the bends of the trade, the sharpest first.
func Bends() []Angle {
	return []Angle{
		QuarterBend, FifthBend, SixthBend, EighthBend,
		TwelfthBend, SixteenthBend, ThirtySecondBend, SixtyFourthBend,
	}
}

// Degrees returns a in degrees.
func (a Angle) Degrees() float64 { return float64(a) }

// Radians returns a in radians.
func (a Angle) Radians() float64 { return float64(a) * math.Pi / 180 }

// Sin is the sine of a. Sin, Cos and Tan are exact where the trade expects them
// to be: the sine of 30° is ½, the cosine of 90° is 0 and at 45° sine and cosine
// are one number, which floating point alone misses by enough to move a
// sixteenth at a half-way case.
func (a Angle) Sin() float64 {
	switch a.Degrees() {
	case 30:
		return 0.5
	case 45:
		return math.Sqrt2 / 2
	case 90:
		return 1
	}
	return math.Sin(a.Radians())
}

// Cos is the cosine of a; see [Angle.Sin].
func (a Angle) Cos() float64 {
	switch a.Degrees() {
	case 45:
		return math.Sqrt2 / 2
	case 60:
		return 0.5
	case 90:
		return 0
	}
	return math.Cos(a.Radians())
}

// Tan is the tangent of a; see [Angle.Sin]. The tangent of 90° is +Inf.
func (a Angle) Tan() float64 {
	switch a.Degrees() {
	case 45:
		return 1
	case 90:
		return math.Inf(1)
	}
	return math.Tan(a.Radians())
}

// Half is half of a; its tangent is what staggers parallel lines and sizes
// the takeoff of a bend.
func (a Angle) Half() Angle { return a / 2 }

// Atan2 is the angle whose tangent is opposite over adjacent. It is exactly 45°
// for two equal legs and exactly 90° over none.
func Atan2(opposite, adjacent Length) Angle {
	return Angle(math.Atan2(float64(opposite), float64(adjacent)) * 180 / math.Pi)
}

// String is for debugging.
func (a Angle) String() string {
	return strconv.FormatFloat(float64(a), 'g', -1, 64) + "°"
}
