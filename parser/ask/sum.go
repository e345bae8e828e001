package ask

import "dogleg/geometry"

// Operator is one of + - × ÷.
type Operator rune

// The operators.
const (
	Plus   Operator = '+'
	Minus  Operator = '-'
	Times  Operator = '×'
	Divide Operator = '÷'
)

// Arithmetic is a line of tape arithmetic. Times and Divide bind before Plus and
// Minus, as on paper. Terms has one more entry than Operators.
type Arithmetic struct {
	Terms     []Term
	Operators []Operator
	InMetric  bool // the result is wanted in millimeters: "5/8 in mm"
}

// Term is a length, or a plain number to multiply or divide by.
type Term struct {
	Length geometry.Length
	Number float64
	Plain  bool // Number holds, not Length
	Text   string
}
