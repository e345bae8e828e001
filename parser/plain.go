package parser

import "github.com/alecthomas/participle/v2/lexer"

// Nine measures of ten are digits with at most a unit: 12, 45s, 1-1/2, 3/4", 238
// mm. To read these by the grammar takes longer than all else that is done for a
// message, so they are read here; at the first token that could make more of them
// it is left to the grammar. What is read is the same: a test holds the two
// against each other, and the grammar is the one that is right.

// plainMeasure takes a measure in digits; nil where only the grammar can tell. The
// tokens that it took are not given back.
func plainMeasure(rest *stretch) *measure {
	m := &measure{Pos: rest.peek().Pos}
	m.Number = plainNumber(rest)
	if m.Number == nil || !m.takeUnit(rest) {
		return nil
	}
	if rest.peek().Type == pluralToken {
		m.Plural = rest.next().Value
	}
	m.EndPos = rest.peek().Pos
	return m
}

// plainNumber takes 12, 12.625, 5/8 or 12-5/8.
func plainNumber(rest *stretch) *number {
	n := &number{Pos: rest.peek().Pos}
	switch first := rest.peek().Type; {
	case first == decimalToken:
		n.Decimal = rest.next().Value
	case first == fractionToken:
		n.Lone = plainFraction(rest)
	case first == wholeToken:
		n.Whole = rest.next().Value
		if rest.peek().Type == dashToken {
			n.Join = rest.next().Value
			if rest.peek().Type != fractionToken {
				return nil
			}
		}
		if rest.peek().Type == fractionToken {
			n.Fraction = plainFraction(rest)
		}
	default:
		return nil
	}
	n.EndPos = rest.peek().Pos
	return n
}

func plainFraction(rest *stretch) *fraction {
	t := rest.next()
	return &fraction{Slashed: t.Value, Pos: t.Pos, EndPos: rest.peek().Pos}
}

// takeUnit takes the unit behind a number, if there is one. It is false where
// what follows may belong to the measure too: feet have inches, and a fraction may
// stand behind an inch mark.
func (m *measure) takeUnit(rest *stretch) bool {
	switch rest.peek().Type {
	case wholeToken:
		return m.Number.Whole == "" || m.Number.Fraction != nil // 12 5 eighths
	case wordToken, anyToken, decimalToken, pluralToken, lexer.EOF:
		return true
	case metricToken:
		m.Metric = rest.next().Value
	case degreeToken:
		m.Degree = rest.next().Value
	case percentToken:
		m.Percent = rest.next().Value
	case inchToken:
		m.Inch = rest.next().Value
		next := rest.peek().Type
		return next != andToken && next != fractionToken
	default:
		return false
	}
	return true
}
