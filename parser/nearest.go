package parser

import "slices"

// worthRepairing says whether a misspelling of the term would change what is
// asked: small words of the language are not worth it.
func (t *term) worthRepairing() bool {
	for _, what := range []string{
		"role", "material", "joint", "bend", "fitting", "hint", "verb", "method", "want", "use", "street",
	} {
		if t.is(what) {
			return true
		}
	}
	return false
}

// nearest lists the words of the vocabulary that a misspelt word may be: one
// slip of the thumb away, or two for words of eight letters and more. Words
// of three letters may have two swapped, no more: too much is near them.
func nearest(word string) []string {
	allowed := 0
	switch n := len([]rune(word)); {
	case n >= 8 && n <= 24:
		allowed = 2
	case n >= 3 && n < 8:
		allowed = 1
	}
	var near []string
	best := allowed + 1
	for _, w := range words().words {
		if allowed == 0 || len(w) < 3 || len(w)-len(word) > allowed || len(word)-len(w) > allowed {
			continue
		}
		if len(word) == 3 && !sameLetters(word, w) {
			continue
		}
		switch d := slips(word, w, best); {
		case d > allowed || d > best:
		case d < best:
			near, best = []string{w}, d
		default:
			near = append(near, w)
		}
	}
	return sameMeaning(near)
}

func sameLetters(a, b string) bool {
	return slices.Equal(slices.Sorted(slices.Values([]byte(a))), slices.Sorted(slices.Values([]byte(b))))
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
// added, changed, or two swapped (optimal string alignment). It stops counting
// above limit.
func slips(a, b string, limit int) int {
	x, y := []rune(a), []rune(b)
	if len(x)-len(y) > limit || len(y)-len(x) > limit {
		return limit + 1
	}
	var before []int
	row := make([]int, len(y)+1)
	for j := range row {
		row[j] = j
	}
	for i := range x {
		next := make([]int, len(y)+1)
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
		before, row = row, next
	}
	return row[len(y)]
}
