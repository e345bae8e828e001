package parser

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	lexicon "dogleg/parser/words"
)

// TestSlipsAreThoseOfTheDefinition counts slips by the definition of optimal string
// alignment, which needs no table and knows nothing of what both words begin with.
// Of more than are asked for it is only told that there are more.
func TestSlipsAreThoseOfTheDefinition(t *testing.T) {
	word := rapid.StringOfN(rapid.SampledFrom([]rune("abcé")), 0, 7, -1)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		most := rapid.IntRange(1, 7).Draw(t, "most")
		if got, want := slips(a, b, most), min(apart([]rune(a), []rune(b)), most+1); min(got, most+1) != want {
			t.Errorf("%q and %q: %d slips, want %d", a, b, got, want)
		}
	})
}

func apart(a, b []rune) int {
	i, j := len(a), len(b)
	if i == 0 || j == 0 {
		return i + j
	}
	change := 1
	if a[i-1] == b[j-1] {
		change = 0
	}
	least := min(apart(a[:i-1], b)+1, apart(a, b[:j-1])+1, apart(a[:i-1], b[:j-1])+change)
	if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
		least = min(least, apart(a[:i-2], b[:j-2])+1)
	}
	return least
}

// TestPlainWordsLookLikeSlips: each word of the list stands there for a reason, and
// once.
func TestPlainWordsLookLikeSlips(t *testing.T) {
	all := strings.Fields(lexicon.Plain)
	if !slices.IsSorted(all) || len(slices.Compact(slices.Clone(all))) != len(all) {
		t.Error("not in order, or twice")
	}
	for _, w := range all {
		switch {
		case words().phrases[w] != nil:
			t.Errorf("%s is a word of the trade's", w)
		case len(looksLike(w)) == 0:
			t.Errorf("%s looks like no word of the trade's", w)
		}
	}
}

// Examples that were read otherwise: a pump as a jump over something, a shaft as a
// shift, which is a set.
func TestPlainWordsStayOutOfIt(t *testing.T) {
	for _, text := range []string{
		"12 set 45s 2 pvc by the pump", "12 set 45s 2 pvc in the shaft", "12 set 45s 2 pvc close to the tray",
		"12 set 45s 2 pvc, the ground is wet", "12 set 45s 2 pvc behind the head of the stairs",
	} {
		a := Parse(text)[0].Ask
		if a == nil || a.Kind != Offset || len(a.Measures) != 1 || len(a.Repairs) > 0 {
			t.Errorf("%q: %+v", text, a)
		}
	}
}
