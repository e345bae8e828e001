package geometry

import "strconv"

// Slope is the grade of a line: how far it falls for each unit of length, as
// a pure ratio. A quarter inch per foot is 1/48.
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

// String is for debugging.
func (s Slope) String() string {
	return strconv.FormatFloat(s.InchesPerFoot(), 'g', -1, 64) + " in/ft"
}
