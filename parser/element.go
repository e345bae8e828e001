package parser

import (
	"strings"
)

// element is one piece of a message as the reader sees it: a number, a term of
// the vocabulary, a mark, or a word that means nothing here.
type element struct {
	quantity *quantity
	term     *term
	mark     string // , ; : ? newline - / + and so on
	word     string // an unknown word
	text     string // as written
	begin    int
	end      int
	line     string // the user's own name for a maker's line: "the grey ones"
	repaired *Repair
}

// anyOf says whether one of some elements is of a sort.
func anyOf(in []element, sort func(*element) bool) bool {
	for i := range in {
		if sort(&in[i]) {
			return true
		}
	}
	return false
}

// elements cuts a message into elements. It never fails.
func elements(text string) []element {
	rest := stretchOf(text)
	flat := make([]element, 0, len(rest.tokens))
	for !rest.peek().isEnd() {
		flat = append(flat, elementAt(rest, text))
	}
	spoil(flat)
	return sides(pronouns(addresses(phrases(flat))))
}

// elementAt takes the measure, the mark or the word that stands next: a token with
// which no measure begins is one by itself.
func elementAt(rest *stretch, text string) element {
	if q := rest.quantity(text); q != nil {
		word := strings.ToLower(q.text) // for phrases: "one end"
		return element{quantity: q, begin: q.begin, end: q.end, text: q.text, word: word}
	}
	t := rest.next()
	e := element{begin: t.begin, end: min(t.begin+len(t.value), len(text)), text: t.value}
	if t.kind == dashToken || t.kind == anyToken {
		e.mark = t.value
	} else {
		e.word = t.value
	}
	return e
}

// addresses takes the street of an address for no fitting: Juniper Street.
func addresses(in []element) []element {
	for i := 1; i < len(in); i++ {
		if !in[i].term.is(senseStreet) || in[i-1].word == "" {
			continue
		}
		if i+1 < len(in) && (in[i+1].quantity != nil || in[i+1].term.is(senseBend) || in[i+1].term.is(senseFitting)) {
			continue
		}
		in[i].term, in[i].word = nil, strings.ToLower(in[i].text)
	}
	return in
}

// pronouns takes "one" for no number where it stands for something said before:
// the other one, the new one, each one.
func pronouns(in []element) []element {
	for i := 1; i < len(in); i++ {
		if heardOtherwise(in, i) {
			in[i].quantity, in[i].word = nil, strings.ToLower(in[i].text)
		}
		if in[i].text == "one in" && in[i].quantity != nil && (in[i-1].text == "the" || in[i-1].text == "that") && i+1 < len(in) && in[i+1].quantity == nil {
			in[i].quantity, in[i].term = nil, pronoun // the one in the attic
			continue
		}
		if in[i].quantity == nil || !strings.EqualFold(in[i].text, "one") || !standsFor(in, i) {
			continue
		}
		in[i].quantity, in[i].term = nil, pronoun
	}
	return in
}

// pronoun is what such a "one" is a term of.
var pronoun = termOf("one", English, meaning{what: senseFiller})

// heardOtherwise says whether "ate" or "won" at i means just that, and no number
// that sounds alike: somebody did it, or it is asked who did.
func heardOtherwise(in []element, i int) bool {
	if in[i].quantity == nil {
		return false
	}
	text := strings.ToLower(in[i].text)
	return (text == "ate" || text == "won") && (in[i-1].term.is(senseFiller) || in[i-1].term.is(senseAsk) || in[i-1].word != "")
}

// standsFor says whether the "one" at i comes behind a word that tells one of
// several from the others, and before nothing that it could count.
func standsFor(in []element, i int) bool {
	if i+2 < len(in) && in[i+1].term.is(senseAnd) && (in[i+2].term.is(senseOtherEnd) || in[i+2].text == "the" && in[i+1].quantity == nil && i+3 < len(in) && in[i+3].text == "other") {
		return true // the start of one and the other
	}
	if i+1 < len(in) && (in[i+1].term.is(senseMaterial) || in[i+1].term.is(senseBend) || in[i+1].term.is(senseUnit)) {
		return false
	}
	before := &in[i-1]
	switch before.text {
	case "other", "each", "every", "which", "top", "bottom", "upper", "lower", "new", "old", "existing",
		"quick", "easy", "hard", "last", "next", "same", "right", "wrong", "only", "little", "good":
		return true
	case "the", "that", "this":
		return i+1 == len(in) || in[i+1].quantity == nil
	}
	return i > 1 && in[i-2].text == "the" && before.quantity == nil && before.mark == "" && !before.term.is(senseRole)
}

// spoil marks the numbers that are none: 9.3.8, and a length below nothing.
func spoil(flat []element) {
	for i := 1; i < len(flat); i++ {
		q, before := flat[i].quantity, &flat[i-1]
		if q == nil {
			continue
		}
		runOn := before.quantity != nil && before.end == q.begin && before.quantity.unit == noUnit && strings.HasPrefix(q.text, ".")
		negative := before.mark == "-" && before.end == q.begin && (i == 1 || flat[i-2].quantity == nil && flat[i-2].end < before.begin)
		if runOn || negative {
			q.bad = before.text + q.text
		}
	}
}

// phrases joins words that make a phrase of the vocabulary, the longest first.
// A dash or slash between the words of a phrase is part of it: no-hub, c/c. What
// was joined stands where its words stood, in the same memory.
func phrases(flat []element) []element {
	out := flat[:0]
	repairs := 0
	for i := 0; i < len(flat); {
		if flat[i].word == "" {
			out = append(out, flat[i])
			i++
			continue
		}
		t, length := phraseAt(flat[i:])
		if flat[i].quantity != nil && (t == nil || len(t.words) < 2) {
			flat[i].word = ""
			out = append(out, flat[i])
			i++
			continue
		}
		if t == nil && repairs < mostRepairs {
			repairs++
			out = append(out, repaired(flat[i]))
			i++
			continue
		}
		if t == nil {
			out = append(out, flat[i])
			i++
			continue
		}
		last := i + length - 1
		out = append(out, element{
			term: t, text: t.text, begin: flat[i].begin, end: flat[last].end,
		})
		i = last + 1
	}
	return out
}

// mostRepairs is how many unknown words of a message are looked at for typing
// errors: a message with more of them is not about pipe.
const mostRepairs = 40

// phraseAt is the longest phrase that a run begins with, nil if it begins with
// none, and how many elements it takes.
func phraseAt(run []element) (*term, int) {
	terms := words().phrases[withoutPossessive(run[0].word)]
	switch {
	case len(terms) == 0:
		return nil, 0
	case len(terms[0].words) == 1: // the longest stands first
		return terms[0], 1
	}
	for _, t := range terms {
		if length := 1 + phraseLength(run[1:], t.words[1:]); length > 0 {
			return t, length
		}
	}
	return nil, 0
}

// phraseLength is how many elements a phrase takes that a run begins with, with the
// dashes, slashes and dots between its words; -1 if the run begins with another.
func phraseLength(run []element, phrase []string) int {
	if len(phrase) == 0 {
		return 0
	}
	found := 0
	for i := range run {
		switch e := &run[i]; {
		case e.word != "":
			if withoutPossessive(e.word) != phrase[found] {
				return -1
			}
			if found++; found == len(phrase) {
				return i + 1
			}
		case e.mark == "-" || e.mark == "/" || e.mark == ".":
		default:
			return -1
		}
	}
	return -1
}

// withoutPossessive is a word as the vocabulary spells it: without its 's, where
// only the bare word is known.
func withoutPossessive(word string) string {
	if word == "&" {
		return "and"
	}
	if base, ok := strings.CutSuffix(word, "'s"); ok && words().phrases[word] == nil {
		word = base
	}
	if rest, ok := strings.CutPrefix(word, "centre"); ok {
		return "center" + rest // one spelling in the vocabulary serves both
	}
	return word
}

// repaired gives an unknown word the meaning of the one trade word near it, if
// there is just one.
func repaired(e element) element {
	near := nearest(e.word)
	if len(near) != 1 {
		return e
	}
	t := words().longest(near)
	if t == nil || !t.worthRepairing() {
		return e
	}
	return element{
		term: t, text: near[0], begin: e.begin, end: e.end,
		repaired: &Repair{Wrote: e.word, Read: near[0]},
	}
}
