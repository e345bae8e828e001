package parser

import (
	"regexp"
	"strings"
	"unicode"

	"github.com/alecthomas/participle/v2/lexer"
)

// tokens are the smallest pieces of a message. The last rule takes any one
// character, so that no message can fail to be cut into tokens. Word is only
// what letters look like: [classify] gives the number words and the units a
// type of their own, from the vocabulary.
var tokens = lexer.MustSimple([]lexer.SimpleRule{
	{Name: "Space", Pattern: `[ \t\r]+`},
	// 1e308 is one number, mostly none that can be measured, and not 1 y 308.
	{Name: "Decimal", Pattern: `\d+(?:\.\d+)?[eE]\d+|\d+\.\d+|\.\d+`},
	{Name: "Fraction", Pattern: `\d+/\d+`},
	{Name: "Whole", Pattern: `\d+`},
	{Name: "Word", Pattern: `\pL+(?:'\pL+)?`},
	{Name: "Foot", Pattern: `'`},
	{Name: "Inch", Pattern: `"`},
	{Name: "Degree", Pattern: `°`},
	{Name: "Percent", Pattern: `%`},
	{Name: "Dash", Pattern: `-`},
	{Name: "And", Pattern: `&`},
	// Words of these types are found by classify; the patterns never match.
	{Name: "Metric", Pattern: `$^`},
	{Name: "Digit", Pattern: `$^`},
	{Name: "Teen", Pattern: `$^`},
	{Name: "Ten", Pattern: `$^`},
	{Name: "Hundred", Pattern: `$^`},
	{Name: "FractionWord", Pattern: `$^`},
	{Name: "Article", Pattern: `$^`},
	{Name: "Plural", Pattern: `$^`},
	{Name: "Any", Pattern: `(?s).`},
})

// symbol is the token type of a name in the table above.
var symbol = tokens.Symbols()

// classify lower-cases a word and gives it the token type that the vocabulary
// names for it.
func classify(t lexer.Token) (lexer.Token, error) {
	t.Value = strings.ToLower(t.Value)
	if name, ok := wordTypes()[t.Value]; ok {
		t.Type = symbol[name]
	}
	return t, nil
}

// plain brings what phones type to the characters that the tokens are made of:
// curly quotes, long dashes, hard spaces, fractions that are one character.
// Positions in a reading are positions in the plain text.
func plain(text string) string {
	var b strings.Builder
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
	s := possessive.ReplaceAllString(b.String(), "${1}s")
	s = decimalComma.ReplaceAllString(s, "$1.$2$3")
	s = fractionOrdinal.ReplaceAllString(s, "$1")
	s = ordinal.ReplaceAllString(s, "nth")
	s = slashList.ReplaceAllString(s, "$1 $2 $3")
	s = shortAnd.ReplaceAllString(s, "$1 and $2")
	return strings.TrimSpace(spelling.Replace(s))
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

// fractionOrdinal is a fraction written as it is said: 5/16ths.
var fractionOrdinal = regexp.MustCompile(`(?i)(\d/\d+)(?:nds?|ths?)\b`)

// slashList is a list written with slashes: 9-3/4/45/2 abs.
var slashList = regexp.MustCompile(`(\d/\d+)/(\d+)/(\d)`)

// shortAnd is the and of a mixed number in few letters: 7 n 5/8, inch n a half.
var shortAnd = regexp.MustCompile(`(?i)(\d|\binch|\bfoot) '?n'? ((?:a |an )?(?:half|quarter|eighth|sixteenth)\b|\d+/\d+)`)

// decimalComma is the comma of a metric decimal: 12,5 cm.
var decimalComma = regexp.MustCompile(`(?i)\b(\d+),(\d+)( ?(?:mm|cm|m)\b)`)
