package parser

import (
	"slices"
	"strings"
	"sync"
)

// worthRepairing says whether a misspelling of the term would change what is
// asked: small words of the language are not worth it.
func (t *term) worthRepairing() bool {
	return slices.ContainsFunc([]sense{
		senseRole, senseMaterial, senseJoint, senseBend, senseFitting, senseHint, senseVerb, senseMethod, senseWant, senseUse, senseStreet,
	}, t.is)
}

// nearest lists the words of the vocabulary that a misspelt word may be: one
// slip of the thumb away, or two for words of eight letters and more. Words
// of three letters may have two swapped, no more: too much is near them.
func nearest(word string) []string {
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
		for _, w := range repairable()[length] {
			if !mayBe(word, w) {
				continue
			}
			switch d := slips(word, w); {
			case d > allowed || d > best:
			case d < best:
				near, best = []string{w}, d
			default:
				near = append(near, w)
			}
		}
	}
	slices.Sort(near)
	return sameMeaning(near)
}

// repairable are the words of the vocabulary that another may be a slip of, by
// their lengths in bytes. They are gathered when a word first has to be repaired.
var repairable = sync.OnceValue(func() map[int][]string {
	all := map[int][]string{}
	for w := range words().phrases {
		if len(w) >= 3 {
			all[len(w)] = append(all[len(w)], w)
		}
	}
	return all
})

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

// sameMeaning keeps one of several near words when all mean the same: sets
// and set.
func sameMeaning(near []string) []string {
	if len(near) < 2 {
		return near
	}
	first := words().longest(near[:1])
	for i := range near[1:] {
		t := words().longest(near[i+1 : i+2])
		if first == nil || t == nil || !slices.Equal(first.meanings, t.meanings) {
			return near
		}
	}
	return near[:1]
}

// slips counts the slips of the thumb between two words: a letter missed,
// added, changed, or two swapped (optimal string alignment).
func slips(a, b string) int {
	var rows [3][32]int
	x, y := differing([]rune(a), []rune(b))
	if len(y) >= len(rows[0]) {
		return len(y)
	}
	for j := range y {
		rows[0][j+1] = j + 1
	}
	for i := range x {
		before, row, next := &rows[(i+2)%3], &rows[i%3], &rows[(i+1)%3]
		next[0] = i + 1
		for j := range y {
			change := 1
			if x[i] == y[j] {
				change = 0
			}
			next[j+1] = min(row[j+1]+1, next[j]+1, row[j]+change)
			if i > 0 && j > 0 && x[i] == y[j-1] && x[i-1] == y[j] {
				next[j+1] = min(next[j+1], before[j-1]+1)
			}
		}
	}
	return rows[len(x)%3][len(y)]
}

// differing is what is left of two words without the letters that both begin and
// end with: no slip is counted there.
func differing(a, b []rune) (x, y []rune) {
	for len(a) > 0 && len(b) > 0 && a[0] == b[0] {
		a, b = a[1:], b[1:]
	}
	for len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	return a, b
}
