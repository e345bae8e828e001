package figure

import (
	"math"

	"dogleg/geometry"
	"dogleg/parser"
)

// sum works a line of tape arithmetic: × and ÷ before + and -, as on paper.
//
// A length times or divided by a number is a length, a length divided by a
// length a plain number: how often it goes in. A length times a length is an
// area, which no tape shows, and is refused. A plain number that is added to
// a length counts as inches.
func (w *work) sum() error {
	sum := w.ask.Sum
	if sum == nil || len(sum.Terms) == 0 || len(sum.Operators) != len(sum.Terms)-1 {
		return &Missing{Wanted: parser.Total}
	}
	products, signs, err := products(sum)
	if err != nil {
		return err
	}
	total := value{plain: true}
	for i, p := range products {
		total.plain = total.plain && p.plain
		total.number += signs[i] * p.number
	}
	if math.Abs(total.number) > float64(geometry.Longest) {
		return &geometry.Problem{Reason: geometry.TooLong, What: "sum", Value: total.number}
	}
	w.sumAnswer(total, products, signs)
	return nil
}

func (w *work) sumAnswer(total value, products []value, signs []float64) {
	w.answer.Main = parser.Total
	w.answer.Sum = SumResult{Number: total.number, Plain: true, Metric: w.ask.Metric()}
	if total.plain {
		return
	}
	l := geometry.Length(total.number)
	w.answer.Sum = SumResult{Length: l, Metric: w.ask.Metric()}
	w.figured(parser.Total, l)
	var terms []Quantity
	for i, p := range products {
		terms = append(terms, Quantity{Role: parser.Bare, Length: geometry.Length(p.number), Minus: signs[i] < 0})
	}
	w.add(RuleArithmetic, length(parser.Total, l), terms...)
}

// value is a length in inches, or a plain number.
type value struct {
	number float64
	plain  bool
}

func valueOf(t parser.Term) value {
	if t.Plain {
		return value{t.Number, true}
	}
	return value{t.Length.Inches(), false}
}

// products works the × and ÷ of a line and returns what is left to add up,
// each with its sign.
func products(sum *parser.Arithmetic) ([]value, []float64, error) {
	done := []value{valueOf(sum.Terms[0])}
	signs := []float64{1}
	for i, op := range sum.Operators {
		next, last := valueOf(sum.Terms[i+1]), len(done)-1
		var err error
		switch op {
		case parser.Plus, parser.Minus:
			done = append(done, next)
			signs = append(signs, sign(op))
		case parser.Times:
			done[last], err = times(done[last], next)
		case parser.Divide:
			done[last], err = divided(done[last], next)
		default:
			err = badSum(string(op), geometry.NotANumber)
		}
		if err != nil {
			return nil, nil, err
		}
	}
	return done, signs, nil
}

func sign(op parser.Operator) float64 {
	if op == parser.Minus {
		return -1
	}
	return 1
}

func times(a, b value) (value, error) {
	if !a.plain && !b.plain {
		return value{}, badSum("length × length", geometry.NotANumber)
	}
	return value{a.number * b.number, a.plain && b.plain}, nil
}

func divided(a, b value) (value, error) {
	switch {
	case b.number == 0:
		return value{}, badSum("divisor", geometry.NotPositive)
	case a.plain && !b.plain:
		return value{}, badSum("number ÷ length", geometry.NotANumber)
	}
	return value{a.number / b.number, a.plain == b.plain}, nil
}

func badSum(subject string, why geometry.Reason) error {
	return &Impossible{Cause: BadGeometry, Subject: subject, Problem: &geometry.Problem{Reason: why, What: subject}}
}
