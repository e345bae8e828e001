package measure

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"

	"dogleg/parser/words"
)

// Token is the smallest piece of a message: a word, a run of digits, a mark. What
// the grammar is after has a type of its own.
type Token struct {
	Type  lexer.TokenType
	Text  string // in lower case
	Begin int    // offset in the message
	End   int
	Glued bool // nothing stands between it and the token before
}

// The types of tokens. Soft are words that a phone writes for a number it hears.
const (
	Word lexer.TokenType = iota + 1
	Mark
	Whole   // 12
	Decimal // 12.5, .5
	Slashed // 5/8
	Ordinal // 8th, 16ths, 58ths
	Digit   // five
	Teen    // fifteen
	Ten     // fifty
	Hundred // hundred, thousand
	Plurals // forties
	Soft    // for, to, ate
	Part    // eighths, half
	Stroked // 67/8, for 6-7/8
	Inch
	Foot
	Metric
	Degree
	Percent
	Dash
	And
	Point
	Comma
	Colon
	Article
	Plural // s
	PerFoot
	PerMeter
	Lean
	Shy
	Bend
	Nominal // DN
	Zero    // oh
	Ahead   // al, in front of a slope
	Stop
	NewLine
)

var typeNames = map[string]lexer.TokenType{
	"EOF": lexer.EOF, "Word": Word, "Mark": Mark, "Whole": Whole, "Decimal": Decimal, "Slashed": Slashed, "Ordinal": Ordinal,
	"Digit": Digit, "Teen": Teen, "Ten": Ten, "Hundred": Hundred, "Plurals": Plurals, "Soft": Soft, "Part": Part, "Stroked": Stroked,
	"Inch": Inch, "Foot": Foot, "Metric": Metric, "Degree": Degree, "Percent": Percent, "Dash": Dash, "And": And,
	"Point": Point, "Comma": Comma, "Colon": Colon, "Article": Article, "Plural": Plural,
	"PerFoot": PerFoot, "PerMeter": PerMeter, "Lean": Lean, "Shy": Shy, "Bend": Bend, "Nominal": Nominal, "Zero": Zero, "Ahead": Ahead, "Stop": Stop, "NewLine": NewLine,
}

// Number says whether a token is a number or a part of one, whatever else stands
// about it.
func (t *Token) Number() bool {
	switch t.Type {
	case Whole, Decimal, Slashed, Stroked, Digit, Teen, Ten, Hundred, Plurals, Ordinal:
		return true
	}
	return false
}

// Tokens cuts a message up. Characters that phones type in place of plain ones
// are brought to these.
func Tokens(text string) []Token {
	c := cutter{text: text}
	var out []Token
	for {
		t, ok := c.next()
		if !ok {
			return joined(out)
		}
		out = append(out, t)
	}
}

// cutter is on its way through a message.
type cutter struct {
	text string
	at   int
	last int // where the last token ended
}

// next cuts off one token.
func (c *cutter) next() (Token, bool) {
	for c.at < len(c.text) {
		r, size := utf8.DecodeRuneInString(c.text[c.at:])
		if r != '\n' && (unicode.IsSpace(r) || unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == utf8.RuneError) {
			c.at += size
			continue
		}
		break
	}
	if c.at >= len(c.text) {
		return Token{}, false
	}
	kind, value, length := first(c.text[c.at:])
	if kind == Decimal && value[0] == '0' && c.text[c.at] == '.' && c.at > 0 && c.text[c.at-1] == '.' {
		kind, value, length = Stop, ".", 1 // dots, and a number behind them
	}
	t := Token{Type: kind, Text: value, Begin: c.at, End: c.at + length, Glued: c.at == c.last && c.at > 0}
	c.at += length
	c.last = c.at
	return t, true
}

// first is the token that a text begins with, and its length in bytes.
func first(text string) (lexer.TokenType, string, int) {
	r, size := utf8.DecodeRuneInString(text)
	switch {
	case '0' <= r && r <= '9':
		return figure(text)
	case r == '.' && digits(text[1:]) > 0 && !followsDot(text[1:]) && !isSlashed(text[1:]):
		n := 1 + digits(text[1:])
		return Decimal, "0" + text[:n], n
	case vulgar[r] != "":
		return Slashed, vulgar[r], size
	}
	if k, ok := marks[r]; ok {
		if usual, ok := usually[k]; ok {
			return k, usual, size
		}
		return k, text[:size], size
	}
	if unicode.IsLetter(r) {
		return word(text)
	}
	return Mark, text[:size], size
}

// followsDot says whether more dots follow the digits: an address, a version.
func followsDot(text string) bool {
	n := digits(text)
	return n < len(text)-1 && text[n] == '.' && digits(text[n+1:]) > 0
}

// usually is how the marks are written of which a phone has several.
var usually = map[lexer.TokenType]string{Foot: "'", Inch: `"`, Degree: "°", Dash: "-"}

var marks = map[rune]lexer.TokenType{
	'\'': Foot, '‘': Foot, '’': Foot, '′': Foot, '`': Foot, '´': Foot,
	'"': Inch, '“': Inch, '”': Inch, '″': Inch, '„': Inch,
	'°': Degree, 'º': Degree, '˚': Degree, '%': Percent,
	'-': Dash, '‐': Dash, '‑': Dash, '–': Dash, '−': Dash,
	'&': And, '+': Mark, ',': Comma, '.': Stop, ':': Colon, '\n': NewLine,
}

// vulgar holds the fractions that are one character.
var vulgar = map[rune]string{
	'½': "1/2", '⅓': "1/3", '⅔': "2/3", '¼': "1/4", '¾': "3/4", '⅕': "1/5", '⅙': "1/6",
	'⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8",
}

func digits(text string) int {
	n := 0
	for n < len(text) && '0' <= text[n] && text[n] <= '9' {
		n++
	}
	return n
}

// figure is a number in digits: 12, 12.5, 5/8, 8ths.
func figure(text string) (lexer.TokenType, string, int) {
	n := digits(text)
	rest := text[n:]
	if rest != "" && rest[0] == '.' {
		if d := digits(rest[1:]); d > 0 && !followsDot(rest[1:]) && !isSlashed(rest[1:]) {
			return Decimal, text[:n+1+d], n + 1 + d
		}
	}
	for _, slash := range []string{"/", "⁄", "∕"} {
		if after, ok := strings.CutPrefix(rest, slash); ok {
			d := digits(after)
			over, under := whole(text[:n]), whole(after[:d])
			end := n + len(slash) + d
			switch {
			case d == 0 || !isPart(under):
			case over < under:
				return Slashed, text[:n] + "/" + after[:d], end + ending(text[end:])
			case n > 1 && isTape(after[:d]) && inDigits(text[:n]+after[:d]) > 1:
				return Stroked, text[:n] + "/" + after[:d], end
			}
		}
	}
	if e := ending(rest); e > 0 {
		return Ordinal, text[:n], n + e
	}
	return Whole, text[:n], n
}

// isSlashed says whether a text begins with a fraction, as behind the dot of 5.1/2.
func isSlashed(text string) bool {
	t, _, _ := figure(text)
	return t == Slashed
}

// ending is the length of the letters that make an ordinal: ths, th, nd.
func ending(text string) int {
	for _, e := range []string{"ths", "th", "nds", "nd", "rds", "rd", "st"} {
		if len(text) >= len(e) && strings.EqualFold(text[:len(e)], e) {
			if r, _ := utf8.DecodeRuneInString(text[len(e):]); !unicode.IsLetter(r) {
				return len(e)
			}
		}
	}
	return 0
}

// isPart says whether a fraction with this denominator is one that people write.
func isPart(n int) bool {
	switch n {
	case 2, 3, 4, 5, 6, 8, 10, 12, 16, 32, 64, 100:
		return true
	}
	return false
}

func whole(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		return 1 << 30
	}
	return n
}

// word is a run of letters, with an apostrophe in it or without: doesn't. An s or
// a unit that is glued to a number is a word of its own.
func word(text string) (lexer.TokenType, string, int) {
	n := letters(text)
	if rest := text[n:]; len(rest) > 1 {
		r, size := utf8.DecodeRuneInString(rest)
		if marks[r] == Foot {
			if more := letters(rest[size:]); more > 0 {
				said := strings.ToLower(text[:n] + "'" + rest[size:size+more])
				return Word, said, n + size + more
			}
		}
	}
	said := strings.ToLower(text[:n])
	if rest, ok := strings.CutPrefix(said, "centre"); ok {
		said = "center" + rest // one spelling in the vocabulary serves both
	}
	return TypeOf(said), said, n
}

func letters(text string) int {
	for i, r := range text {
		if !unicode.IsLetter(r) && !unicode.Is(unicode.Mn, r) {
			return i
		}
	}
	return len(text)
}

// TypeOf is the type that the vocabulary gives a word.
func TypeOf(word string) lexer.TokenType {
	t := words.Find(word)
	if t == nil {
		return Word
	}
	for _, m := range t.Meanings {
		switch m.Sense {
		case "number":
			return numberType(word)
		case "soft-number":
			return Soft
		case "fraction":
			return Part
		case "unit":
			return unitTypes[strings.Fields(m.Value)[0]]
		case "and":
			return And
		case "article":
			return Article
		case "plural":
			return Plural
		case "point":
			return Point
		case "bend":
			return Bend
		case "nominal":
			return Nominal
		case "zero":
			return Zero
		case "slope-ahead":
			return Ahead
		}
	}
	return Word
}

var unitTypes = map[string]lexer.TokenType{
	"inch": Inch, "foot": Foot, "mm": Metric, "cm": Metric, "m": Metric, "degree": Degree, "percent": Percent,
}

// numberType says where a number word may stand: forty five, but not forty ten.
func numberType(word string) lexer.TokenType {
	n, plural, _ := words.Number(word)
	switch {
	case plural && n > 1:
		return Plurals
	case n < 10:
		return Digit
	case n < 20:
		return Teen
	case n < 100 && n%10 == 0:
		return Ten
	case n < 100:
		return Teen // veintidós: no digit can follow it
	}
	return Hundred
}

// phraseTypes are the phrases that are one token to the grammar.
var phraseTypes = map[string]lexer.TokenType{
	"per-foot": PerFoot, "per-meter": PerMeter, "lean": Lean, "short-of": Shy, "percent": Percent,
}

// joined makes one token of each phrase that the grammar knows: to the foot, shy of. A
// word that phones write as several is put in their place: six teenths, for d fives.
func joined(in []Token) []Token {
	out := in[:0]
	for i := 0; i < len(in); {
		if kind, text, n := phraseAt(in[i:]); n > 0 {
			t := in[i]
			t.Type, t.Text, t.End = kind, text, in[i+n-1].End
			out = append(out, t)
			i += n
			continue
		}
		out = append(out, in[i])
		i++
	}
	return out
}

func phraseAt(in []Token) (lexer.TokenType, string, int) {
	for _, t := range words.Beginning(in[0].Text) {
		for _, m := range t.Meanings {
			kind, ok := phraseTypes[m.Sense]
			switch {
			case !ok && m.Sense != "said", !begins(in, t.Words):
			case ok:
				return kind, t.Text, len(t.Words)
			default:
				return TypeOf(m.Value), m.Value, len(t.Words)
			}
		}
	}
	return 0, "", 0
}

func begins(in []Token, phrase []string) bool {
	if len(in) < len(phrase) {
		return false
	}
	for i, w := range phrase {
		if in[i].Text != w {
			return false
		}
	}
	return true
}

// lessThanNothing says whether a message of one line begins with a number below zero.
func lessThanNothing(all []Token) bool {
	return len(all) > 1 && all[0].Type == Dash && all[1].Glued && all[1].Type == Whole &&
		!slices.ContainsFunc(all, func(t Token) bool { return t.Type == NewLine })
}

// longestFigure is how many digits a number may have.
const longestFigure = 12

// Unreadable is the first figure of a text that is no number: 5/0, 1e308, a page of
// digits. It is empty where there is none.
func Unreadable(text string) string {
	all := Tokens(text)
	if lessThanNothing(all) {
		return text[all[1].Begin:all[1].End]
	}
	for i := range all {
		t := &all[i]
		if t.Type != Whole && t.Type != Decimal {
			continue
		}
		end := i
		switch {
		case t.End-t.Begin > longestFigure:
		case i+2 < len(all) && all[i+1].Glued && all[i+2].Glued && all[i+2].Type == Whole &&
			(all[i+1].Text == "e" || all[i+1].Text == "/" && whole(all[i+2].Text) == 0):
			end = i + 2
		default:
			continue
		}
		if next := end + 1; next < len(all) && (all[next].Type == Inch || all[next].Type == Foot || all[next].Type == Metric || all[next].Type == Degree) {
			end = next
		}
		return text[t.Begin:all[end].End]
	}
	return ""
}
