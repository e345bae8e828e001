package parser

import (
	"testing"

	"github.com/alecthomas/participle/v2/lexer"
	"pgregory.net/rapid"
)

// rules are the tokens as regular expressions, the first that matches counts: what
// the lexer is to do, and does without them.
var rules = lexer.MustSimple([]lexer.SimpleRule{
	{Name: "Space", Pattern: `[ \t\r]+`},
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
	{Name: "Any", Pattern: `(?s).`},
})

func TestTokensAreThoseOfTheRules(t *testing.T) {
	names := lexer.SymbolsByRune(rules)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.SampledFrom([]rune("0129.,/'\"°%-&eEaéñ \t\n(×½日"))).Draw(t, "text")
		all, err := rules.LexString("", text)
		if err != nil {
			t.Fatal(err)
		}
		want, err := lexer.ConsumeAll(all)
		if err != nil {
			t.Fatal(err)
		}
		at := 0
		for _, w := range want[:len(want)-1] {
			got, length := tokenAt(text[at:])
			if got != (tokens{}).Symbols()[names[w.Type]] || length != len(w.Value) || at != w.Pos.Offset {
				t.Fatalf("%q at %d: token of %d bytes and type %d, want %s %q", text, at, length, got, names[w.Type], w.Value)
			}
			at += length
		}
		if at != len(text) {
			t.Fatalf("%q: cut up to %d", text, at)
		}
	})
}
