package wording

import (
	_ "embed"
	"sync"
)

// sentencesCSV has all the sentences of the conversation, English and Spanish side by
// side, so that a language is a column and not code. Words in braces are filled in;
// {=key} is the sentence of that key. A row whose key ends in "metric" is said on a
// metric tape. The Spanish is our own rendering.
//
// Keys that begin with "role", "name", "method", "material", "term", "rule",
// "ask" and the like are put together with a value of the parser or of the
// answer; tests hold those against the values that there are.
//
//go:embed sentences.csv
var sentencesCSV string

// sentences are the rows of sentences.csv by their keys. They are read when something
// is said first.
var sentences = sync.OnceValue(func() map[string]sentence {
	all := map[string]sentence{}
	for key, s := range ReadSentences(sentencesCSV) {
		all[key] = sentence{s[0], s[1]}
	}
	return all
})
