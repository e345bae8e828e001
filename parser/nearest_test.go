package parser

import (
	"slices"
	"strings"
	"testing"

	lexicon "dogleg/parser/words"
)

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
		case len(slipsOfWords().Like(w)) == 0:
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
