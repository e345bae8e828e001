// Package measure reads how people write lengths, angles, slopes and sizes: the
// part of the language that is strict. 12-5/8, five eighths, 5' 6-1/2", "an inch
// and a half", 12,5 cm, 1 in 40, DN100, "a 16th shy of 9", eighth bend.
//
// It says what a stretch of a message may be and never which of two it is: "7 1/2"
// is a measure, and 7 and 1/2 are two. Its productions are written for participle.
package measure

import (
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/alecthomas/participle/v2/lexer"
)

// Form is the way in which a measure is written.
type Form string

// The forms, named after their productions.
const (
	Plain      Form = "plain"
	Fraction   Form = "part"
	Mixed      Form = "mixed"
	One        Form = "one"
	Feet       Form = "feet"
	Leaning    Form = "leaning"
	ShyOf      Form = "shy"
	Slope      Form = "slope"
	Ratio      Form = "ratio"
	Percentage Form = "percentage"
	BendOf     Form = "bend"
	DN         Form = "nominal"
	CommaPoint Form = "comma"
	Thousand   Form = "thousand"
	Pointed    Form = "pointed"
	Hundreds   Form = "hundreds"
	Heard      Form = "heard"
	Softly     Form = "soft"  // a word that sounds like the number: for, to, ate
	Apart      Form = "apart" // without the digit that follows
	Colons     Form = "colon"
	Run        Form = "run"    // its parts are run together: 814, 8 14
	Pair       Form = "pair"   // one of two numbers that a comma parts
	Broken     Form = "broken" // with a stop or a comma in it: twenty six. And a half
)

// Unit is what a measure is said to be in.
type Unit string

// The units. None is a bare number.
const (
	NoUnit     Unit = ""
	InchUnit   Unit = "inch"
	FootUnit   Unit = "foot"
	MM         Unit = "mm"
	CM         Unit = "cm"
	M          Unit = "m"
	Degrees    Unit = "degree"
	PercentOf  Unit = "percent"
	PerFootOf  Unit = "per-foot" // inches in a foot
	TurnPart   Unit = "turn"     // a bend by its part of a turn; Number is degrees
	NominalDia Unit = "dn"
)

// Measure is one way to read a stretch of tokens.
type Measure struct {
	From, To int     // the tokens it takes, To not among them
	Number   float64 // in its unit
	Unit     Unit
	Form     Form
	Weak     bool   // the unit is the word "in", which may be a preposition
	Plural   bool   // 45s
	Whole    bool   // no fraction, no decimals
	Text     string // as written
}

// Metric says whether the unit is one of millimeters.
func (m *Measure) Metric() bool { return m.Unit == MM || m.Unit == CM || m.Unit == M }

// Length says whether the measure can be a length.
func (m *Measure) Length() bool {
	switch m.Unit {
	case NoUnit, InchUnit, FootUnit, MM, CM, M:
		return true
	}
	return false
}

// Inches is the length in inches; a bare number is one of inches.
func (m *Measure) Inches() float64 {
	switch m.Unit {
	case FootUnit:
		return m.Number * 12
	case MM:
		return m.Number / 25.4
	case CM:
		return m.Number / 2.54
	case M:
		return m.Number * 1000 / 25.4
	}
	return m.Number
}

// roots are the productions that a measure may begin with.
var roots = sync.OnceValue(func() []root {
	return []root{
		rooted(Plain, (*plain).value),
		rooted(Fraction, (*part).value, Slashed, Part, Ordinal, Word),
		rooted(Mixed, (*mixed).value, Slashed, Part, Ordinal, Word),
		rooted(One, (*one).value, Inch, Foot, PerFoot),
		rooted(Softly, (*sounding).value, Soft),
		rooted(Feet, (*feet).value, Foot),
		rooted(Leaning, (*leaning).value, Lean),
		rooted(Leaning, (*leaningBefore).value, Lean),
		rooted(ShyOf, (*shy).value, Shy),
		rooted(ShyOf, (*beyond).value, Word),
		rooted(Feet, (*meters).value, Metric, PerMeter),
		rooted(Mixed, (*articleAndPart).value, Part),
		rooted(Heard, (*tensAndArticle).value, Article),
		rooted(Colons, (*colonFraction).value, Colon),
		rooted(Slope, (*slope).value, PerFoot, PerMeter),
		rooted(Ratio, (*ratio).value, Colon, Inch, Soft, Word),
		rooted(Ratio, (*roundRatio).value, Inch, Soft, Word),
		rooted(Percentage, (*percentage).value, Percent, Ahead),
		rooted(BendOf, (*bend).value, Bend),
		rooted(DN, (*nominal).value, Nominal),
		rooted(CommaPoint, (*comma).value, Comma),
		rooted(Pointed, (*pointed).value, Point),
		rooted(Hundreds, (*hundreds).value, Ten, Teen),
		rooted(Hundreds, (*hundredAndTens).value, Ten),
		rooted(Apart, (*tens).value, Digit),
		rooted(Hundreds, (*round).value, Hundred),
		rooted(Hundreds, (*figures).value, Digit, Zero),
		rooted(Heard, (*heard).value, Whole),
		rooted(Heard, (*strokeBlank).value, Whole),
		rooted(Heard, (*strokeLost).value, And),
		rooted(Heard, (*softEighth).value, And),
		rooted(Heard, (*tensApart).value, And),
		rooted(Broken, (*interrupted).value, Stop, Comma),
		rooted(Run, (*runIn).value),
		rooted(Run, (*runBehind).value, Whole),
	}
})

// longest is how many tokens a measure has at most: a number of hundreds in words with
// a fraction has a dozen. Without it a row of marks is looked through to its end from
// each of them.
const longest = 24

// At lists the ways to read a measure that begins with token i, the longest first.
func At(text string, tokens []Token, i int) []Measure {
	if !mayBegin(&tokens[i]) {
		return nil
	}
	near := nearby(tokens[i:])
	var out []Measure
	for _, r := range roots() {
		if len(r.needs) > 0 && !slices.ContainsFunc(near, func(t lexer.TokenType) bool { return slices.Contains(r.needs, t) }) {
			continue
		}
		rest, err := lexer.Upgrade(&stream{tokens: tokens[i:min(len(tokens), i+longest)]})
		if err != nil {
			continue
		}
		said, ok := r.parse(rest)
		n := int(rest.RawCursor())
		if !ok || n == 0 || !r.glued(said, tokens[i:], n) {
			continue
		}
		m := Measure{From: i, To: i + n, Number: said.number, Unit: said.unit, Form: r.form, Weak: said.weak, Plural: said.plural, Whole: said.whole}
		m.Text = text[tokens[i].Begin:tokens[i+n-1].End]
		out = append(out, m)
		out = append(out, shorter(m, said, text, tokens)...)
	}
	if tokens[i].Type == Whole && i+2 < len(tokens) && tokens[i+1].Type == Comma && tokens[i+2].Type == Whole && tokens[i+1].Glued && tokens[i+2].Glued {
		out = append(out, Measure{From: i, To: i + 1, Number: parsed(tokens[i].Text), Form: Pair, Whole: true, Text: tokens[i].Text})
	}
	return distinct(out)
}

// glued says whether a measure of n tokens is written together where its production asks
// for that: a decimal comma; a stop in front of a fraction, 5.1/2; a fraction whose
// stroke is lost, with what follows it, since 12 by itself is no half, and 14 and a comma no quarter.
func (r root) glued(said reading, tokens []Token, n int) bool {
	switch {
	case r.form == CommaPoint:
		return tokens[1].Glued && tokens[2].Glued
	case r.form == Broken && !slices.ContainsFunc(tokens[:n], func(t Token) bool { return t.Type == And }):
		return tokens[1].Glued && tokens[2].Glued
	case r.form == Run && said.number < 1:
		return n < len(tokens) && tokens[n].Glued && tokens[n].Type == Word
	}
	return true
}

// shorter lists the readings of a measure that leave its last words to what
// follows: the unit "in" that may be a preposition, the inch that another measure begins
// with, the number of a bare ordinal.
func shorter(m Measure, said reading, text string, tokens []Token) []Measure {
	var out []Measure
	if said.weak && m.To-m.From > 1 && m.Unit == InchUnit && tokens[m.To-1].Text == "in" {
		bare := m
		bare.To, bare.Unit, bare.Weak = m.To-1, NoUnit, false
		bare.Text = strings.TrimSpace(text[tokens[m.From].Begin:tokens[bare.To-1].End])
		out = append(out, bare)
	}
	if n := m.To; m.Form == Mixed && m.Unit == InchUnit && tokens[n-1].Type == Inch && n < len(tokens) && tokens[n].Type == And {
		bare := m // four and a half, inch and a quarter
		bare.To, bare.Unit = n-1, NoUnit
		bare.Text = strings.TrimSpace(text[tokens[m.From].Begin:tokens[n-2].End])
		out = append(out, bare)
	}
	if m.Form == Mixed && m.Plural && m.To-m.From > 2 && tokens[m.To-2].Type == Foot {
		one := m
		one.Plural = false // 3/4's, as phones write three quarters
		out = append(out, one)
	}
	if m.Form == CommaPoint && said.thousand > 0 {
		big := m
		big.Form, big.Number, big.Whole = Thousand, said.thousand, true
		out = append(out, big)
	}
	return out
}

// distinct drops readings that come to the same.
func distinct(in []Measure) []Measure {
	var out []Measure
	for _, m := range in {
		if !slices.ContainsFunc(out, func(o Measure) bool {
			return o.To == m.To && o.Number == m.Number && o.Unit == m.Unit && o.Plural == m.Plural
		}) {
			out = append(out, m)
		}
	}
	slices.SortStableFunc(out, func(a, b Measure) int { return b.To - a.To })
	return out
}

// mayBegin says whether a measure can begin with a token.
func mayBegin(t *Token) bool {
	switch t.Type {
	case Soft, Part, Article, Inch, Foot, Nominal, PerFoot, PerMeter, Lean, Point, Ahead:
		return true
	}
	return t.Number()
}

// nearby lists the types of the tokens up to one that ends every measure, the
// first of them left out.
func nearby(tokens []Token) []lexer.TokenType {
	var out []lexer.TokenType
	for i := range tokens {
		t := &tokens[i]
		if i == 0 {
			switch t.Type {
			case Whole, Digit, Teen, Ten:
				continue // what needs two of them looks for the second
			}
		}
		if i > 12 || t.Type == NewLine || t.Type == Mark || t.Type == Word && !between(t.Text) {
			break
		}
		if out = append(out, t.Type); t.Type == Stop {
			break
		}
	}
	return out
}

func parsed(figures string) float64 {
	v, err := strconv.ParseFloat(figures, 64)
	if err != nil {
		return 0
	}
	return v
}
