package main

import (
	"maps"
	"slices"
	"strings"
)

// chain makes sentences out of pieces of others: each word, or the kind of figure
// in its place, is one that follows the two before it, the one before it, or none,
// as often as it did in the messages. So it says what nobody in particular said,
// and a figure of any kind may stand where one of its kind has stood.
type chain [3]map[string]*followers

// followers are the words behind some others, with what is left of their counts
// once each gave its discount to words that were never seen there.
type followers struct {
	words []string
	upTo  []float64 // sums of the counts up to each word
	all   float64
}

// newChain counts sentences, each a number of times with other words of the same
// meaning in it, which together count as one.
func newChain(sentences [][]string, times float64) *chain {
	c := newCounts()
	for _, words := range sentences {
		c.add(words)
	}
	for n := range c {
		for gram := range c[n] {
			c[n][gram] /= times
		}
	}
	levels := counts{continuations(c[1]), continuations(c[2]), c[2]}
	for gram, n := range c[1] {
		if strings.HasPrefix(gram, begin+" ") {
			levels[1][gram] = n
		}
	}
	made := new(chain)
	for n := range made {
		made[n] = map[string]*followers{}
		for _, gram := range slices.Sorted(maps.Keys(levels[n])) {
			history, word := "", gram
			if n > 0 {
				history, word = splitLast(gram)
			}
			f := made[n][history]
			if f == nil {
				f = new(followers)
				made[n][history] = f
			}
			kept := levels[n][gram]
			if n > 0 {
				kept = max(0, kept-discount)
			}
			last := 0.0
			if len(f.upTo) > 0 {
				last = f.upTo[len(f.upTo)-1]
			}
			f.words, f.upTo, f.all = append(f.words, word), append(f.upTo, last+kept), f.all+levels[n][gram]
		}
	}
	return made
}

// sentence makes one.
func (c *chain) sentence(s *sampler) []string {
	said := []string{begin}
	for len(said) < 60 {
		word := c.next(s, said[max(0, len(said)-2):])
		if word == end {
			break
		}
		said = append(said, word)
	}
	return said[1:]
}

// next picks what follows.
func (c *chain) next(s *sampler, history []string) string {
	for ; ; history = history[1:] {
		f := c[len(history)][strings.Join(history, " ")]
		if f == nil {
			continue
		}
		i, _ := slices.BinarySearch(f.upTo, s.Float64()*f.all)
		if i < len(f.words) {
			return f.words[i]
		}
		if len(history) == 0 {
			return end
		}
	}
}
