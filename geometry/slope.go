package geometry

import (
	"math"
	"strconv"
)

// Slope is the grade of a line: how far it falls for each unit of length, as
// a pure ratio. A quarter inch per foot is 1/48, which is 2.0833 %: codes print
// it as 2 % and the trade says 1 in 50, but they are not one number, and a drain
// at 2 % compared with 1/48 fails where it is legal.
type Slope float64

// The ways a grade is said.
const (
	InchPerFoot        Slope = 1.0 / 12
	Percent            Slope = 0.01
	MillimeterPerMeter Slope = 0.001
)

// OneIn is the slope that falls one in n: OneIn(48) is a quarter inch per foot.
func OneIn(n float64) Slope { return Slope(1 / n) }

// InchesPerFoot returns s in inches per foot.
func (s Slope) InchesPerFoot() float64 { return float64(s) * 12 }

// Percent returns s in percent.
func (s Slope) Percent() float64 { return float64(s) * 100 }

// Ratio returns the n of 1 : n, 48 for a quarter inch per foot. That of a
// level line is infinite.
func (s Slope) Ratio() float64 { return 1 / float64(s) }

// Angle is how far the line lies off level: the angle whose tangent is s.
func (s Slope) Angle() Angle { return Angle(math.Atan(float64(s)) * 180 / math.Pi) }

// String is for debugging.
func (s Slope) String() string {
	return strconv.FormatFloat(s.InchesPerFoot(), 'g', -1, 64) + " in/ft"
}
