package words

import (
	"iter"
	"maps"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"
)

// worthRepairing says whether a misspelling of the term would change what is
// asked: small words of the language are not worth it.
func (t *Term) worthRepairing() bool {
	return slices.ContainsFunc([]string{
		"role", "material", "joint", "bend", "fitting", "hint", "verb", "method", "want", "use", "street", "number", "fraction", "unit",
	}, t.Is)
}

// Nearest lists the terms of the vocabulary of one word that a misspelt word may be
// a slip of, if there is just one or all mean the same; none for a word of everyday
// English.
func Nearest(word string) []string {
	near := slipsOfTerms().Nearest(word)
	if len(near) != 1 {
		return nil
	}
	if t := Find(near[0]); t == nil || !t.worthRepairing() {
		return nil
	}
	return near
}

// slipsOfTerms looks among the words that terms begin with.
var slipsOfTerms = sync.OnceValue(func() *Slips {
	return NewSlips(maps.Keys(open().phrases), func(a, b string) bool {
		x, y := Find(a), Find(b)
		return x != nil && y != nil && slices.Equal(x.Meanings, y.Meanings)
	})
})

// Inside says whether a word stands in some phrase of the vocabulary.
func Inside(word string) bool { return inside()[word] }

var inside = sync.OnceValue(func() map[string]bool {
	all := map[string]bool{}
	for _, terms := range open().phrases {
		for _, t := range terms {
			for _, w := range t.Words {
				all[w] = true
			}
		}
	}
	return all
})

// Slips finds the words of a vocabulary that a misspelt word may be. Several of which
// all mean the same count as one.
type Slips struct {
	words map[ending][]string
	same  func(a, b string) bool // whether two words mean the same
}

// NewSlips makes one of some words, each once.
func NewSlips(all iter.Seq[string], same func(a, b string) bool) *Slips {
	s := &Slips{words: map[ending][]string{}, same: same}
	for w := range all {
		if len(w) < 3 {
			continue
		}
		ends := []ending{{len(w), true, w[0]}, {len(w), false, w[len(w)-1]}}
		if len(w) == 3 {
			ends = append(ends, ending{len(w), true, 0})
		}
		for _, e := range ends {
			s.words[e] = append(s.words[e], w)
		}
	}
	return s
}

// Nearest lists the words that a misspelt word may be, none for a word of everyday
// English.
func (s *Slips) Nearest(word string) []string {
	if plainWords()[word] {
		return nil
	}
	return s.Like(word)
}

// Like lists the words that a word may be a slip of: one slip of the thumb away, or
// two for words of eight letters and more. Words of three letters may have two
// swapped, no more: too much is near them.
func (s *Slips) Like(word string) []string {
	allowed := 1
	switch n := len(word); {
	case n < 3 || n > 24:
		return nil
	case n >= 8:
		allowed = 2
	}
	var near []string
	best := allowed + 1
	for length := len(word) - allowed; length <= len(word)+allowed; length++ {
		for w := range s.alike(word, length) {
			if !mayBe(word, w) {
				continue
			}
			switch d := slips(word, w, min(allowed, best)); {
			case d > allowed || d > best:
			case d < best:
				near, best = []string{w}, d
			default:
				near = append(near, w)
			}
		}
	}
	slices.Sort(near)
	return s.oneMeaning(near)
}

// oneMeaning keeps one of several near words when all mean the same: sets and set.
func (s *Slips) oneMeaning(near []string) []string {
	if len(near) < 2 || slices.ContainsFunc(near[1:], func(w string) bool { return !s.same(near[0], w) }) {
		return near
	}
	return near[:1]
}

// plainWords are words of everyday English that look like a slip of one of the
// trade's and are none: a pump is no jump, and a shaft no shift. We chose them
// ourselves. Where one of them is as likely a slip it is left out: steer, clean.
var plainWords = sync.OnceValue(func() map[string]bool {
	all := map[string]bool{}
	for w := range strings.FieldsSeq(Plain) {
		all[w] = true
	}
	return all
})

// alike are the words of a length that another may be a slip of, at the least:
// those that begin with the same letter, then the others that end with the same.
// Three letters are too few to tell by.
func (s *Slips) alike(word string, length int) iter.Seq[string] {
	return func(yield func(string) bool) {
		first, last := word[0], word[len(word)-1]
		if min(len(word), length) == 3 {
			first, last = 0, 0
		}
		for _, w := range s.words[ending{length, true, first}] {
			if !yield(w) {
				return
			}
		}
		for _, w := range s.words[ending{length, false, last}] {
			if w[0] != first && !yield(w) {
				return
			}
		}
	}
}

// ending tells words by their length in bytes and by one end, the first or the
// last letter's byte. All of three letters stand under 0 besides.
type ending struct {
	length int
	first  bool
	letter byte
}

// mayBe says, at little cost, whether a word can be so few slips away that
// counting them is worth it: slips leave the first letters or the last as they
// were.
func mayBe(word, w string) bool {
	if len(word) == 3 {
		return len(w) == 3 && sameLetters(word, w)
	}
	half := min(len(word), len(w)) / 2
	return word[:half-1] == w[:half-1] || word[len(word)-half+1:] == w[len(w)-half+1:]
}

// sameLetters says whether two words of one length have the same letters.
func sameLetters(a, b string) bool {
	for i := range len(a) {
		if strings.Count(a, a[i:i+1]) != strings.Count(b, a[i:i+1]) {
			return false
		}
	}
	return true
}

// slips counts the slips of the thumb between two words: a letter missed,
// added, changed, or two swapped (optimal string alignment). It stops where there
// are more than most.
func slips(a, b string, most int) int {
	var rows [3][32]uint8
	a, b = differing(a, b)
	if most == 1 && a != "" && b != "" && (utf8.RuneCountInString(a) > 2 || utf8.RuneCountInString(b) > 2) {
		return 2 // one slip changes a letter between those that are alike, or swaps two
	}
	x, y := []rune(a), []rune(b)
	if len(y) >= len(rows[0]) || len(x)-len(y) > most || len(y)-len(x) > most {
		return most + 1
	}
	for j := range y {
		rows[0][j+1] = uint8(j + 1)
	}
	for i := range x {
		before, row, next := &rows[(i+2)%3], &rows[i%3], &rows[(i+1)%3]
		next[0] = row[0] + 1
		least := next[0]
		for j := range y {
			change := uint8(1)
			if x[i] == y[j] {
				change = 0
			}
			next[j+1] = min(row[j+1]+1, next[j]+1, row[j]+change)
			if i > 0 && j > 0 && x[i] == y[j-1] && x[i-1] == y[j] {
				next[j+1] = min(next[j+1], before[j-1]+1)
			}
			least = min(least, next[j+1])
		}
		if int(least) > most {
			return most + 1 // and no letter to come makes it less
		}
	}
	return int(rows[len(x)%3][len(y)])
}

// differing is what is left of two words without the letters that both begin and
// end with: no slip is counted there.
func differing(a, b string) (x, y string) {
	front, back := 0, 0
	for front < min(len(a), len(b)) && a[front] == b[front] {
		front++
	}
	for front < len(a) && front > 0 && !utf8.RuneStart(a[front]) {
		front-- // two letters that begin with the same byte
	}
	a, b = a[front:], b[front:]
	for back < min(len(a), len(b)) && a[len(a)-1-back] == b[len(b)-1-back] {
		back++
	}
	for back > 0 && !utf8.RuneStart(a[len(a)-back]) {
		back--
	}
	return a[:len(a)-back], b[:len(b)-back]
}
