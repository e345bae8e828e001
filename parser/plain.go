package parser

import "github.com/alecthomas/participle/v2/lexer"

// Nine measures of ten are digits or one word, with at most a unit: 12, 45s, 1-1/2,
// 3/4", 238 mm, two inch. To read these by the grammar takes longer than all else
// that is done for a message, so they are read here; at the first token that could
// make more of them it is left to the grammar. What is read is the same: a test
// holds the two against each other, and the grammar is the one that is right.

// take takes a measure in digits; it is false where only the grammar can tell. The
// tokens that it took are not given back, and its number stands in the stretch until
// the next measure.
func (m *measure) take(rest *stretch) bool {
	rest.number = number{}
	m.Pos, m.Number = rest.place(), &rest.number
	if !m.Number.take(rest) || !m.takeUnit(rest) {
		return false
	}
	if rest.peek().kind == pluralToken {
		m.Plural = rest.next().value
	}
	m.EndPos = rest.place()
	return true
}

// take takes 12, 12.625, 5/8, 12-5/8, 12 and 5/8, or a number of one word; it is
// false where what stands next is none of these.
func (n *number) take(rest *stretch) bool {
	n.Pos = rest.place()
	switch rest.peek().kind {
	case decimalToken:
		n.Decimal = rest.next().value
	case fractionToken:
		n.Lone = plainFraction(rest)
	case wholeToken:
		n.Whole = rest.next().value
		n.Join, n.Fraction = plainPart(rest)
	case digitToken, teenToken, tenToken:
		if rest.goesOnInWords() {
			return false
		}
		n.Words = &cardinal{Tens: []string{rest.next().value}}
	case lexer.EOF:
		return false
	default:
		return false
	}
	n.EndPos = rest.place()
	return true
}

// plainPart takes the fraction of a mixed number, with what joins it; nil where none
// in digits follows.
func plainPart(rest *stretch) (join string, part *fraction) {
	first := rest.peek().kind
	if (first == dashToken || first == andToken) && rest.typeAt(1) == fractionToken {
		join = rest.next().value
	}
	if rest.peek().kind != fractionToken {
		return "", nil
	}
	return join, plainFraction(rest)
}

func plainFraction(rest *stretch) *fraction {
	t := rest.next()
	return &fraction{Slashed: t.value, Pos: t.place(), EndPos: rest.place()}
}

// goesOnInWords says whether the number word that stands next may be the first of
// several: forty five, two hundred.
func (s *stretch) goesOnInWords() bool {
	second := s.typeAt(1)
	if s.typeAt(0) == tenToken && (second == dashToken || second == andToken) {
		second = s.typeAt(2)
	}
	return second == digitToken || second == hundredToken
}

// mayJoin says whether what stands next may be the fraction of a mixed number: 12 5
// eighths, two and a half.
func (s *stretch) mayJoin() bool {
	switch s.typeAt(0) {
	case dashToken, andToken, fractionToken, fractionWordToken, digitToken, teenToken, tenToken, hundredToken:
		return true
	case wholeToken, articleToken:
		next := s.typeAt(1)
		return next == fractionWordToken || next == dashToken
	case lexer.EOF:
	}
	return false
}

// takeUnit takes the unit behind a number, if there is one. It is false where
// what follows may belong to the measure too: feet have inches, and a fraction may
// stand behind an inch mark.
func (m *measure) takeUnit(rest *stretch) bool {
	if m.Number.alone() && rest.mayJoin() {
		return false
	}
	switch rest.peek().kind {
	case metricToken:
		m.Metric = rest.next().value
	case degreeToken:
		m.Degree = rest.next().value
	case percentToken:
		m.Percent = rest.next().value
	case footToken:
		m.Foot = rest.next().value
		return m.takeInches(rest)
	case inchToken:
		m.Inch = rest.next().value
		next := rest.peek().kind
		return next != fractionToken && (next != andToken || rest.typeAt(1) == wordToken)
	case dashToken:
		return rest.typeAt(1) != inchToken // 12-inch
	case lexer.EOF:
	}
	return true
}

// takeInches takes the inches in digits behind a number of feet, if there are any. It
// is false where there may be others, or where what looks like inches is in feet too.
func (m *measure) takeInches(rest *stretch) bool {
	at := 0
	if rest.peek().kind == dashToken {
		at = 1
	}
	switch rest.typeAt(at) {
	case wordToken, anyToken, lexer.EOF:
		return at == 0
	case wholeToken, decimalToken, fractionToken:
	default:
		return false
	}
	if at == 1 {
		m.Dash = rest.next().value
	}
	m.Inches = new(number)
	m.Inches.take(rest)
	if m.Inches.alone() && rest.mayJoin() || rest.peek().kind == footToken {
		return false
	}
	if rest.peek().kind == inchToken {
		m.Mark = rest.next().value
	}
	return true
}

// alone says whether a number is a whole one, so that a fraction may follow it.
func (n *number) alone() bool { return (n.Whole != "" || n.Words != nil) && n.Fraction == nil }
