package parser

import (
	"maps"
	"slices"
	"sync"

	lexicon "dogleg/parser/words"
)

// worthRepairing says whether a misspelling of the term would change what is
// asked: small words of the language are not worth it.
func (t *term) worthRepairing() bool {
	return slices.ContainsFunc([]sense{
		senseRole, senseMaterial, senseJoint, senseBend, senseFitting, senseHint, senseVerb, senseMethod, senseWant, senseUse, senseStreet,
	}, t.is)
}

// nearest lists the words of the vocabulary that a misspelt word may be, none for a
// word that is one itself.
func nearest(word string) []string { return slipsOfWords().Nearest(word) }

// slipsOfWords looks among the words that the rules know.
var slipsOfWords = sync.OnceValue(func() *lexicon.Slips {
	return lexicon.NewSlips(maps.Keys(words().phrases), func(a, b string) bool {
		x, y := words().longest([]string{a}), words().longest([]string{b})
		return x != nil && y != nil && slices.Equal(x.meanings, y.meanings)
	})
})
