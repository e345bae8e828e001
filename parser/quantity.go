package parser

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"dogleg/geometry"
)

// unit is what a quantity is said to be measured in.
type unit string

const (
	noUnit  unit = ""
	inch    unit = "inch"
	foot    unit = "foot"
	metric  unit = "metric" // mm, cm or m
	degree  unit = "degree"
	percent unit = "percent"
)

// quantity is a number as it was written, with its unit.
type quantity struct {
	value  float64 // inches when unit is none, inch, foot or metric
	number float64 // the bare number, before any unit
	unit   unit
	named  string // the unit's own name: mm, cm, m
	weak   bool   // the unit is the word "in", which may be a preposition
	plural bool   // 45s
	whole  bool   // no fraction or decimals were written
	parts  int    // denominator, where the number was a lone fraction with numerator 1
	text   string // as written
	begin  int    // offset in the plain text
	end    int
	bad    string // why it is no number: "5/0"

	unitFirst bool // inch and a half
	article   bool // an inch

	// broken is how else the same words can be cut up: "7 1/2" may be 7-1/2, or
	// 7 and 1/2. It is nil where they can't.
	broken [][]*quantity
}

func (q *quantity) length() geometry.Length { return geometry.Length(q.value) }

// isLength says whether the quantity can be a length at all.
func (q *quantity) isLength() bool {
	return q.unit != degree && q.unit != percent && q.unit != grade && !q.plural && q.bad == ""
}

// quantityOf works out a measure of the grammar.
func quantityOf(m *measure, text string) *quantity {
	q := &quantity{begin: m.Pos.Offset, plural: m.Plural != ""}
	q.text = strings.TrimRight(text[q.begin:m.EndPos.Offset], " \t\r") // a position is where the next token begins
	q.end = q.begin + len(q.text)
	switch {
	case m.AndPart != nil:
		f := fractionOf(m.AndPart)
		q.value, q.number, q.unit, q.bad, q.unitFirst = 1+f.value, 1+f.value, inch, f.bad, true
		if words().units[m.UnitAnd] == "foot" || m.UnitAnd == "'" {
			q.value, q.unit = q.value*12, foot
		}
		return q
	case m.Unit != "":
		q.value, q.number, q.unit, q.article = 1, 1, inch, true
		if words().units[m.Unit] == "foot" {
			q.value, q.unit = 12, foot
		}
		return q
	case m.Inches != nil:
		return feetAndInches(q, m, text)
	}
	n := numberOf(m.Number, text)
	q.value, q.number, q.whole, q.parts, q.bad = n.value, n.value, n.whole, n.parts, n.bad
	q.plural = q.plural || n.plural
	q.setUnit(m)
	if m.After != "" {
		return inchesAndAfter(q, m, text)
	}
	if n.loose {
		q.broken = append(q.broken, brokenAtFraction(q, m))
	}
	return q
}

// setUnit scales the number by the unit that follows it.
func (q *quantity) setUnit(m *measure) {
	switch {
	case m.Foot != "":
		q.unit, q.value = foot, q.number*12
	case m.Inch != "":
		q.unit, q.weak = inch, m.Inch == "in"
	case m.Metric != "":
		q.unit, q.named = metric, words().units[m.Metric]
		scale := map[string]geometry.Length{
			"mm": geometry.Millimeter, "cm": geometry.Centimeter, "m": geometry.Meter,
		}[q.named]
		q.value = q.number * scale.Inches()
	case m.Degree != "":
		q.unit = degree
	case m.Percent != "":
		q.unit = percent
	}
}

// feetAndInches works out 5 ft 2-1/4, 5'-2", 1ft6.5in. Without an inch mark the
// second number may be one of its own: 27 ft 2 pvc.
func feetAndInches(q *quantity, m *measure, text string) *quantity {
	feet, inches := numberOf(m.Number, text), numberOf(m.Inches, text)
	first := &quantity{begin: q.begin, value: feet.value * 12, number: feet.value, unit: foot, bad: feet.bad, whole: feet.whole}
	first.end = m.Inches.Pos.Offset
	first.text = strings.TrimRight(text[first.begin:first.end], " -")
	second := &quantity{
		begin: first.end, end: q.end, value: inches.value, number: inches.value, plural: q.plural || inches.plural,
		whole: inches.whole, parts: inches.parts, bad: inches.bad, text: text[first.end:q.end],
	}
	if m.Mark != "" {
		second.unit, second.weak = inch, m.Mark == "in"
	}
	first.bad, q.bad = firstOf(first.bad, second.bad), firstOf(first.bad, second.bad)
	apart := []*quantity{first, second}
	if q.plural || second.plural || inches.value >= 12 {
		return &quantity{begin: q.begin, end: q.end, text: q.text, bad: q.bad, plural: true, broken: [][]*quantity{apart}, number: math.NaN()}
	}
	q.value, q.number, q.unit = first.value+second.value, first.value+second.value, foot
	adjacent := m.Dash != "" || text[first.end-1] != ' '
	if !adjacent && (m.Mark == "" || second.value < 1 || second.whole && strings.HasPrefix(m.Mark, "inch") && m.Mark != "inches") {
		q.broken = append(q.broken, apart)
	}
	if !feet.whole && !adjacent {
		q.plural, q.number = true, math.NaN() // 0.75 ft 2 abs is 9 in of 2 in pipe
	}
	if inches.loose {
		whole, fraction := brokenNumber(second, m.Inches)
		whole.value, whole.number, whole.unit = first.value+whole.value, first.value+whole.value, foot
		whole.begin, whole.text = q.begin, text[q.begin:whole.end]
		q.broken = append(q.broken, []*quantity{whole, fraction})
	}
	return q
}

// inchesAndAfter works out 12"5/8, where the fraction follows the inch mark.
func inchesAndAfter(q *quantity, m *measure, text string) *quantity {
	at := strings.LastIndex(q.text, m.After)
	f := slashed(m.After)
	second := &quantity{
		begin: q.begin + at, end: q.end, value: f.value, number: f.value, parts: f.parts,
		plural: q.plural, text: q.text[at:], bad: f.bad,
	}
	first := *q
	first.end, first.text, first.plural = q.begin+at, strings.TrimSpace(q.text[:at]), false
	q.value, q.number, q.whole, q.parts, q.bad = q.value+f.value, q.value+f.value, false, 0, firstOf(q.bad, f.bad)
	if text[q.begin+at-1] == ' ' {
		q.broken = append(q.broken, []*quantity{&first, second})
	}
	return q
}

// brokenAtFraction cuts 7 1/2 into 7 and 1/2; the unit stays with the second.
func brokenAtFraction(q *quantity, m *measure) []*quantity {
	whole, fraction := brokenNumber(q, m.Number)
	fraction.unit, fraction.named, fraction.weak, fraction.plural = q.unit, q.named, q.weak, q.plural
	if q.unit == foot {
		fraction.value *= 12
	}
	return []*quantity{whole, fraction}
}

func brokenNumber(q *quantity, n *number) (whole, second *quantity) {
	f := fractionOf(n.Fraction)
	at := n.Fraction.Pos.Offset
	whole = &quantity{begin: q.begin, end: at, whole: true, text: strings.Trim(q.text[:at-q.begin], " -&")}
	whole.value, _ = wholeOf(n)
	whole.number = whole.value
	second = &quantity{begin: at, end: q.end, value: f.value, number: f.value, parts: f.parts, text: q.text[at-q.begin:], bad: f.bad}
	return whole, second
}

// counted is the value of a number or fraction of the grammar.
type counted struct {
	value  float64
	whole  bool
	plural bool
	loose  bool // joined by nothing but a space
	parts  int
	bad    string
}

func numberOf(n *number, text string) counted {
	switch {
	case n.Decimal != "":
		return counted{value: parsed(n.Decimal)}
	case n.Lone != nil:
		return loneFraction(n.Lone)
	case n.Fraction == nil:
		value, plural := wholeOf(n)
		return counted{value: value, plural: plural, whole: true}
	}
	whole, _ := wholeOf(n)
	f := fractionOf(n.Fraction)
	spaced := text[n.Fraction.Pos.Offset-1] == ' '
	if f.value >= 1 || !onTape(n.Fraction) {
		f.bad = strings.TrimSpace(text[n.Pos.Offset:n.EndPos.Offset])
	}
	return counted{
		value: whole + f.value, plural: f.plural, bad: f.bad,
		loose: spaced && (n.Join == "" || n.Join == "-"),
	}
}

func wholeOf(n *number) (value float64, plural bool) {
	if n.Whole != "" {
		return parsed(n.Whole), false
	}
	return n.Words.value()
}

// value adds up number words: forty five, one hundred twenty.
func (c *cardinal) value() (value float64, plural bool) {
	said := append(slices.Clone(c.Words), c.Tens...)
	for _, w := range said {
		switch v := float64(words().numbers[w]); {
		case v == 100 && value > 0:
			value *= 100
		default:
			value += v
		}
	}
	means, _ := words().longest(said[len(said)-1:]).means(senseNumber)
	return value, strings.HasSuffix(means, "plural")
}

// loneFraction works out a fraction with no whole number before it; "twenty
// five eighths" is 20-5/8, since nobody reads a tape as twenty-five eighths.
func loneFraction(f *fraction) counted {
	c := fractionOf(f)
	if c.value < 1 || f.Words == nil || len(f.Words.Tens) != 2 {
		return c
	}
	ten, digit := words().numbers[f.Words.Tens[0]], words().numbers[f.Words.Tens[1]]
	return counted{value: float64(ten) + float64(digit)/float64(words().parts[f.Parts])}
}

func fractionOf(f *fraction) counted {
	if f.Slashed != "" {
		return slashed(f.Slashed)
	}
	numerator := 1.0
	switch {
	case f.Words != nil:
		numerator, _ = f.Words.value()
	case f.Count != "" && isDigit(f.Count[0]):
		numerator = parsed(f.Count)
	}
	parts := words().parts[f.Parts]
	means, _ := words().longest([]string{f.Parts}).means(senseFraction)
	c := counted{value: numerator / float64(parts), plural: strings.HasSuffix(means, "plural")}
	if numerator == 1 {
		c.parts = parts
	}
	return c
}

func isDigit(b byte) bool { return '0' <= b && b <= '9' }

// onTape says whether a fraction beside whole inches is one that tapes have.
func onTape(f *fraction) bool {
	_, under, ok := strings.Cut(f.Slashed, "/")
	return !ok || slices.Contains([]string{"2", "3", "4", "8", "16", "32", "64", "10", "100"}, under)
}

// slashed works out 5/8. A denominator of nothing is bad, but a numerator that
// is not the smaller is left for arithmetic: 24/2.
func slashed(text string) counted {
	over, under, _ := strings.Cut(text, "/")
	numerator, denominator := parsed(over), parsed(under)
	if denominator == 0 {
		return counted{bad: text}
	}
	c := counted{value: numerator / denominator}
	if numerator == 1 {
		c.parts = int(math.Min(denominator, 1e6))
	}
	return c
}

// parsed is the value of digits; more digits than a float64 holds are read as
// far as they go, and refused later as too long.
func parsed(digits string) float64 {
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return math.MaxFloat64
	}
	return v
}

func firstOf(a, b string) string {
	if a != "" {
		return a
	}
	return b
}
