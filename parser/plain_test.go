package parser

import (
	"strings"
	"testing"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// Whatever stands around digits, what is read without the grammar is what the
// grammar reads, to the last token.
func TestPlainMeasuresAreTheGrammars(t *testing.T) {
	pieces := []string{
		"12", "7", ".5", "1.25", "5/8", "3/4", "1/0", "-", " ", "\n", "&", "'", "\"", "°", "%", "+", ",",
		"and", "a", "an", "inch", "in", "ft", "feet", "mm", "cm", "m", "degrees", "percent", "s", "five", "eleven", "forty",
		"hundred", "half", "eighths", "set", "pvc",
	}
	rapid.Check(t, func(t *rapid.T) {
		first := rapid.SampledFrom([]string{"12", "5/8", "1.25", "7-1/2", "3 1/4", "5 and 7/8", "five", "eleven", "forty"}).Draw(t, "first")
		rest := rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 6).Draw(t, "rest")
		between := rapid.SampledFrom([]string{"", " "}).Draw(t, "between")
		text := first + between + strings.Join(rest, between)

		plain := stretchOf(text)
		got := new(measure)
		if !got.take(plain) {
			return
		}
		all := tokensOf(t, text)
		want, err := grammar().ParseFromLexer(all, participle.AllowTrailing(true))
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("%q: %s", text, diff)
		}
		if plain.at != int(all.RawCursor()) {
			t.Fatalf("%q: reads up to token %d, the grammar up to %d", text, plain.at, all.RawCursor())
		}
	})
}

func tokensOf(t *rapid.T, text string) *lexer.PeekingLexer {
	all, err := lexer.Upgrade(&cutter{text: text})
	if err != nil {
		t.Fatal(err)
	}
	return all
}
