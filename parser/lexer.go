package parser

import (
	"io"
	"math"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"
)

// The types of tokens, the smallest pieces of a message. The last takes any one
// character, so that no message can fail to be cut into tokens. The number
// words and units have types of their own, which the vocabulary names.
const (
	spaceToken lexer.TokenType = iota + 1
	decimalToken
	fractionToken
	wholeToken
	wordToken
	footToken
	inchToken
	degreeToken
	percentToken
	dashToken
	andToken
	metricToken
	digitToken
	teenToken
	tenToken
	hundredToken
	fractionWordToken
	articleToken
	pluralToken
	anyToken
)

// marks are the tokens of one character.
var marks = map[rune]lexer.TokenType{
	'\'': footToken, '"': inchToken, '°': degreeToken, '%': percentToken, '-': dashToken, '&': andToken,
}

// tokens cuts messages into tokens. It is written out because the lexer that
// participle makes of regular expressions takes longer than all the rest.
type tokens struct{}

// Symbols are the names that the grammar has for the types of tokens.
func (tokens) Symbols() map[string]lexer.TokenType {
	return map[string]lexer.TokenType{
		"EOF": lexer.EOF, "Space": spaceToken,
		"Decimal": decimalToken, "Fraction": fractionToken, "Whole": wholeToken, "Word": wordToken,
		"Foot": footToken, "Inch": inchToken, "Degree": degreeToken, "Percent": percentToken, "Dash": dashToken, "And": andToken,
		"Metric": metricToken, "Digit": digitToken, "Teen": teenToken, "Ten": tenToken, "Hundred": hundredToken,
		"FractionWord": fractionWordToken, "Article": articleToken, "Plural": pluralToken, "Any": anyToken,
	}
}

// Lex cuts up what a reader holds.
func (tokens) Lex(_ string, r io.Reader) (lexer.Lexer, error) {
	text, err := io.ReadAll(r)
	return &cutter{text: string(text)}, err
}

// cutter is on its way through a message.
type cutter struct {
	text string
	at   int
}

// Next cuts off the next token for the grammar.
func (c *cutter) Next() (lexer.Token, error) {
	t := c.next()
	return t.forGrammar(), nil
}

// next cuts off the next token. Blanks part tokens and are none: where one ends is
// seen in the text.
func (c *cutter) next() token {
	c.at += run(c.text[c.at:], isBlank)
	rest := c.text[c.at:]
	t := token{kind: lexer.EOF, begin: c.at}
	if rest == "" {
		return t
	}
	var length int
	t.kind, length = tokenAt(rest)
	t.value = rest[:length]
	c.at += length
	if t.kind == wordToken {
		t.classify()
	}
	return t
}

// token is the smallest piece of a message, and where it begins. The grammar's have
// more to them, for messages in lines and columns.
type token struct {
	kind  lexer.TokenType
	begin int
	value string // in lower case where it is a word
}

// isEnd says whether a token is the end of a message.
func (t *token) isEnd() bool { return t.kind == lexer.EOF }

func (t *token) place() lexer.Position { return lexer.Position{Offset: t.begin} }

func (t *token) forGrammar() lexer.Token {
	return lexer.Token{Type: t.kind, Value: t.value, Pos: t.place()}
}

// tokenAt is the type and the length of the token that a text begins with.
func tokenAt(text string) (lexer.TokenType, int) {
	first, size := utf8.DecodeRuneInString(text)
	switch {
	case isBlank(text[0]):
		return spaceToken, run(text, isBlank)
	case isDigit(text[0]):
		return figureAt(text)
	case first == '.' && run(text[1:], isDigit) > 0:
		return decimalToken, 1 + run(text[1:], isDigit)
	case unicode.IsLetter(first):
		return wordToken, wordAt(text)
	}
	if mark, ok := marks[first]; ok {
		return mark, size
	}
	return anyToken, size
}

// figureAt is a number in digits: 12.625, 5/8 or 12. One as calculators write it,
// 1e308, is mostly none that can be measured, and not 1 y 308.
func figureAt(text string) (lexer.TokenType, int) {
	whole := run(text, isDigit)
	number := whole + behind(text[whole:], ".")
	if exponent := behind(text[number:], "eE"); exponent > 0 {
		return decimalToken, number + exponent
	}
	if number > whole {
		return decimalToken, number
	}
	if under := behind(text[whole:], "/"); under > 0 {
		return fractionToken, whole + under
	}
	return wholeToken, whole
}

// behind is the length of the digits behind one of some marks, with the mark; 0
// where there are none.
func behind(text, marks string) int {
	if text == "" || !strings.Contains(marks, text[:1]) {
		return 0
	}
	if digits := run(text[1:], isDigit); digits > 0 {
		return 1 + digits
	}
	return 0
}

// wordAt is the length of a word, with an apostrophe in it or without: doesn't.
func wordAt(text string) int {
	word := letters(text)
	if rest := text[word:]; strings.HasPrefix(rest, "'") {
		if more := letters(rest[1:]); more > 0 {
			return word + 1 + more
		}
	}
	return word
}

// letters is how many bytes of letters a text begins with.
func letters(text string) int {
	for i, r := range text {
		if !unicode.IsLetter(r) {
			return i
		}
	}
	return len(text)
}

// run is how many bytes of one sort a text begins with.
func run(text string, sort func(byte) bool) int {
	n := 0
	for n < len(text) && sort(text[n]) {
		n++
	}
	return n
}

func isBlank(b byte) bool { return b == ' ' || b == '\t' || b == '\r' }

// classify lower-cases a word and gives it the token type that the vocabulary
// names for it.
func (t *token) classify() {
	t.value = strings.ToLower(t.value)
	if special, ok := words().types[t.value]; ok {
		t.kind = special
	}
}

// plain brings what phones type to the characters that the tokens are made of:
// curly quotes, long dashes, hard spaces, fractions that are one character.
// Positions in a reading are positions in the plain text.
func plain(text string) string {
	if !isPlain(text) {
		text = inPlainCharacters(text)
	}
	text = rewritten(text)
	if strings.Contains(text, "''") || strings.Contains(text, "..") {
		text = spelling.Replace(text)
	}
	return strings.TrimSpace(text)
}

// isPlain says whether a text has none but characters that the tokens are made of,
// as most messages do.
func isPlain(text string) bool {
	for i := range len(text) {
		if b := text[i]; b >= utf8.RuneSelf || b < ' ' && b != '\n' || b == 0x7f || b == '`' || b == '*' {
			return false
		}
	}
	return true
}

// inPlainCharacters puts those characters in the place of all others.
func inPlainCharacters(text string) string {
	var b strings.Builder
	b.Grow(len(text))
	var before rune
	for _, r := range strings.ToValidUTF8(text, " ") {
		switch {
		case unicode.Is(unicode.Cf, r): // marks of direction and width: nothing said
			continue
		case vulgar[r] != "":
			if unicode.IsDigit(before) {
				b.WriteByte('-') // 12⅝ is one number
			}
			b.WriteString(vulgar[r])
		case glyphs[r] != "":
			b.WriteString(glyphs[r])
		case unicode.IsControl(r) && r != '\n':
			b.WriteByte(' ')
		case unicode.IsSpace(r) && r != '\n':
			b.WriteByte(' ')
		default:
			b.WriteRune(r)
		}
		before = r
	}
	return b.String()
}

// rewritten brings what is written in several ways to one: plurals with an
// apostrophe, metric decimals, ordinals, lists with slashes. Most messages have
// nothing of the kind, which is cheap to see.
func rewritten(s string) string {
	if mayHavePlural(s) {
		s = possessive.ReplaceAllString(s, "${1}s")
	}
	if mayHaveDecimalComma(s) {
		s = decimalComma.ReplaceAllString(s, "$1.$2$3")
	}
	if mayHaveOrdinal(s) {
		s = bendOrdinal.ReplaceAllString(s, "${1}1/$2 bend")
		s = wordFraction.ReplaceAllStringFunc(s, inWords)
		s = spacedFraction.ReplaceAllStringFunc(s, withStroke)
		s = bendParts.ReplaceAllString(s, "${1}1/$2 bends")
		s = fractionOrdinal.ReplaceAllString(s, "$1")
		s = ordinal.ReplaceAllString(s, "nth")
	}
	if mayHaveSlashList(s) {
		s = slashList.ReplaceAllString(s, "$1 $2 $3")
	}
	low := strings.ToLower(s)
	if strings.Contains(low, " n ") || strings.Contains(low, " n' ") || strings.Contains(low, " 'n") || strings.Contains(low, " an ") {
		s = shortAnd.ReplaceAllString(s, "$1 and $2")
		low = strings.ToLower(s)
	}
	if strings.Contains(low, "per cent") || strings.Contains(low, "por ciento") {
		s = perCent.ReplaceAllString(s, "percent")
	}
	if strings.Contains(low, "second bend") {
		s = thirtySecondBend.ReplaceAllString(s, "1/32 bend")
	}
	if strings.Contains(low, " ates") {
		s = heardEighths.ReplaceAllString(s, "$1 eighths")
	}
	if (strings.Contains(low, "and a half") || strings.Contains(low, "y media")) && strings.ContainsAny(s, "0123456789") {
		s = halfBehind.ReplaceAllString(s, "$1-1/2 $2")
	}
	if strings.Contains(low, "for and ") || strings.Contains(low, "to and ") || strings.Contains(low, "too and ") {
		s = heardNumber.ReplaceAllStringFunc(s, func(m string) string {
			if strings.EqualFold(m[:3], "for") {
				return "four" + m[3:]
			}
			return "two" + m[strings.Index(m, " "):]
		})
	}
	return s
}

// mayHavePlural says whether an apostrophe and an s stand right behind a digit.
func mayHavePlural(s string) bool {
	for i := 1; i+1 < len(s); i++ {
		if s[i] == '\'' && isDigit(s[i-1]) && s[i+1]|' ' == 's' {
			return true
		}
	}
	return false
}

// mayHaveSlashList says whether nothing but digits stands between two slashes.
func mayHaveSlashList(s string) bool {
	for i := range len(s) {
		if s[i] == '/' && behind(s[i:], "/") > 0 && strings.HasPrefix(s[i+behind(s[i:], "/"):], "/") {
			return true
		}
	}
	return false
}

// mayHaveDecimalComma says whether a comma stands right between two digits.
func mayHaveDecimalComma(s string) bool {
	for i := 1; i+1 < len(s); i++ {
		if s[i] == ',' && isDigit(s[i-1]) && isDigit(s[i+1]) {
			return true
		}
	}
	return false
}

// mayHaveOrdinal says whether the ending of an ordinal stands right behind a
// digit: 2nd, 5/16ths.
func mayHaveOrdinal(s string) bool {
	for i := 1; i+1 < len(s); i++ {
		if !isDigit(s[i-1]) {
			continue
		}
		switch s[i] | ' ' { // in lower case
		case 'n', 'r', 't':
			return true
		case 's':
			if s[i+1]|' ' == 't' {
				return true
			}
		}
	}
	return false
}

// vulgar holds the fractions that are one character.
var vulgar = map[rune]string{
	'½': "1/2", '⅓': "1/3", '⅔': "2/3", '¼': "1/4", '¾': "3/4", '⅕': "1/5", '⅙': "1/6",
	'⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8",
}

// glyphs holds the look-alikes of the characters that the tokens are made of.
var glyphs = map[rune]string{
	'‘': "'", '’': "'", '′': "'", '`': "'", '´': "'",
	'“': `"`, '”': `"`, '″': `"`, '„': `"`,
	'‐': "-", '‑': "-", '–': "-", '−': "-", '—': " - ",
	'×': " x ", '✕': " x ", '*': " x ", '÷': " ÷ ", '⁄': "/", '∕': "/",
	'º': "°", '˚': "°",
}

var spelling = strings.NewReplacer("''", `"`, "...", " , ", "..", " , ")

// possessive is the plural that phones write with an apostrophe: 45's.
var possessive = regexp.MustCompile(`(?i)(\d)'s\b`)

// ordinal is a place in a row, no measurement: the 2nd bend.
var ordinal = regexp.MustCompile(`(?i)\b\d+(?:st|nd|rd|th)\b`)

// bendOrdinal is a bend that goes by its part of a turn: a 5th bend, 8th bends. The
// 5th bend is one of several.
var bendOrdinal = regexp.MustCompile(`(?i)(^|[^e\d/] |[,.;:\n])(5|6|8|16|32|64)(?:th|nd) bend`)

// bendParts are such bends by their parts alone: 5ths, 1/8ths. Those of a length,
// 5/8ths and 3 1/8ths, are none, nor are those that a tape is read in.
var bendParts = regexp.MustCompile(`(?i)(^|[,.;:\n] ?|\b(?:with|w|on|using|two|2|of|pair|have|got|only) )(?:1/)?(5|6|8|16|32|64)(?:ths|nds)\b`)

// wordFraction is a fraction half in words: 12 and three 8ths.
var wordFraction = regexp.MustCompile(`(?i)\b(?:one|three|five|seven|nine|eleven|thirteen|fifteen) (?:8|16|32|64)(?:ths?|nds?)\b`)

// inWords is such a fraction as it is said.
func inWords(m string) string {
	parts := map[byte]string{'8': "eighths", '1': "sixteenths", '3': "thirty-seconds", '6': "sixty-fourths"}
	numerator, under, _ := strings.Cut(m, " ")
	return numerator + " " + parts[under[0]]
}

// spacedFraction is a fraction without its stroke: 12 and 7 8ths.
var spacedFraction = regexp.MustCompile(`(?i)\b(\d\d?) (8|16|32|64)(?:ths?|nds?)\b`)

// withStroke is such a fraction with its stroke, where it is one that a tape has: a
// set of 12 8ths has eighth bends.
func withStroke(m string) string {
	numerator, under, _ := strings.Cut(m, " ")
	under = strings.TrimRight(strings.ToLower(under), "thnds")
	if over, parts := parsed(numerator), parsed(under); over >= parts || math.Mod(over, 2) == 0 {
		return m
	}
	return numerator + "/" + under
}

// thirtySecondBend is the one whose name looks like a number: thirty second bends.
var thirtySecondBend = regexp.MustCompile(`(?i)\bthirty[ -]second bend`)

// fractionOrdinal is a fraction written as it is said: 5/16ths.
var fractionOrdinal = regexp.MustCompile(`(?i)(\d/\d+)(?:nds?|ths?)\b`)

// slashList is a list written with slashes: 9-3/4/45/2 abs.
var slashList = regexp.MustCompile(`(\d/\d+)/(\d+)/(\d)`)

// shortAnd is the and of a mixed number in few letters: 7 n 5/8, inch n a half.
var shortAnd = regexp.MustCompile(`(?i)(\d|\binch|\bfoot) (?:'?n'?|an) ((?:a |an )?(?:half|quarter|eighth|sixteenth)\b|\d+/\d+)`)

// heardNumber is a number that a phone heard as another word: for and a half.
var heardNumber = regexp.MustCompile(`(?i)\b(?:for|too?) and (?:a |an |one |three |five |seven |nine |eleven |thirteen |fifteen )?(?:half|quarter|eighth|sixteenth)s?\b`)

// perCent is percent in two words.
var perCent = regexp.MustCompile(`(?i)\bper cent\b|\bpor ciento\b`)

// heardEighths are eighths that a phone heard as another word: three ates.
var heardEighths = regexp.MustCompile(`(?i)\b(three|five|seven|[357]) ates\b`)

// halfBehind is the half of a mixed number behind its unit: 2 inches and a half.
var halfBehind = regexp.MustCompile(`(?i)\b(\d+) (inch|inches|pulg|pulgadas?) (?:and a half|y media)\b`)

// decimalComma is the comma of a metric decimal: 12,5 cm.
var decimalComma = regexp.MustCompile(`(?i)\b(\d+),(\d+)( ?(?:mm|cm|m)\b)`)
