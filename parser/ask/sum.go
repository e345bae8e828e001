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

// Total is what the line comes to, in inches where its terms are lengths: × and ÷
// go before + and −. Dividing by nothing makes an infinity, or no number.
func (a *Arithmetic) Total() float64 {
	value := func(t Term) float64 {
		if t.Plain {
			return t.Number
		}
		return t.Length.Inches()
	}
	if len(a.Terms) == 0 {
		return 0
	}
	sum, product := 0.0, value(a.Terms[0])
	for i, op := range a.Operators {
		v := value(a.Terms[i+1])
		switch op {
		case Times:
			product *= v
		case Divide:
			product /= v
		case Plus:
			sum, product = sum+product, v
		case Minus:
			sum, product = sum+product, -v
		}
	}
	return sum + product
}
