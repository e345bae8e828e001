package main

import (
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strings"
)

// counts are the sequences of one, two and three words in the sentences, by
// their words with a space between.
type counts [3]map[string]int

const (
	begin = "<s>"
	end   = "</s>"
	// What was sampled once or twice tells more of the dice than of the trade: so
	// often have two or three words to stand together for the model to keep them.
	enoughForTwo   = 3
	enoughForThree = 6
)

func newCounts() counts {
	return counts{{}, {}, {}}
}

func (c counts) add(sentence []string) {
	words := slices.Concat([]string{begin}, sentence, []string{end})
	for i := range words {
		for n := 1; n <= 3 && i+n <= len(words); n++ {
			c[n-1][strings.Join(words[i:i+n], " ")]++
		}
	}
}

// words are those of the sentences, without the marks of begin and end.
func (c counts) words() []string {
	all := slices.Sorted(maps.Keys(c[0]))
	return slices.DeleteFunc(all, func(w string) bool { return w == begin || w == end })
}

// write writes the model in ARPA's form, the probabilities smoothed after
// Witten and Bell, "The zero-frequency problem", IEEE Transactions on
// Information Theory 37 (1991): what followed a history in many ways is likely
// to be followed in yet another.
func (c counts) write(w io.Writer) {
	maps.DeleteFunc(c[1], func(_ string, n int) bool { return n < enoughForTwo })
	maps.DeleteFunc(c[2], func(gram string, n int) bool {
		first, _ := splitLast(gram)
		_, last, _ := strings.Cut(gram, " ")
		return n < enoughForThree || c[1][first] == 0 || c[1][last] == 0
	})
	p := c.unigrams()
	levels := []map[string]float64{p, nil, nil}
	backoff := []map[string]float64{nil, nil}
	for n := 1; n < 3; n++ {
		levels[n], backoff[n-1] = c.higher(n, levels[n-1])
	}
	fmt.Fprintln(w, "\\data\\")
	for n, level := range levels {
		fmt.Fprintf(w, "ngram %d=%d\n", n+1, len(level))
	}
	for n, level := range levels {
		fmt.Fprintf(w, "\n\\%d-grams:\n", n+1)
		for _, gram := range slices.Sorted(maps.Keys(level)) {
			fmt.Fprintf(w, "%.3f %s", math.Log10(level[gram]), gram)
			if b, ok := weight(backoff, n, gram); ok {
				fmt.Fprintf(w, " %.3f", math.Log10(b))
			}
			fmt.Fprintln(w)
		}
	}
	fmt.Fprintln(w, "\n\\end\\")
}

func weight(backoff []map[string]float64, n int, gram string) (float64, bool) {
	if n >= len(backoff) {
		return 0, false
	}
	b, ok := backoff[n][gram]
	return b, ok
}

// unigrams are the chances of each word by itself. The mark of the begin is
// never said and gets next to none.
func (c counts) unigrams() map[string]float64 {
	total := -c[0][begin]
	for _, n := range c[0] {
		total += n
	}
	p := map[string]float64{}
	for word, n := range c[0] {
		p[word] = float64(n) / float64(total)
	}
	p[begin] = 1e-99
	return p
}

// higher are the chances of n+1 words, and the weights with which their first n
// fall back on the chances of fewer.
func (c counts) higher(n int, lower map[string]float64) (p, backoff map[string]float64) {
	histories, kinds := map[string]int{}, map[string]int{}
	grams := slices.Sorted(maps.Keys(c[n]))
	for _, gram := range grams {
		history, _ := splitLast(gram)
		histories[history] += c[n][gram]
		kinds[history]++
	}
	p, backoff = map[string]float64{}, map[string]float64{}
	kept, below := map[string]float64{}, map[string]float64{}
	for _, gram := range grams {
		history, _ := splitLast(gram)
		_, shorter, _ := strings.Cut(gram, " ")
		total, t := float64(histories[history]), float64(kinds[history])
		p[gram] = (float64(c[n][gram]) + t*lower[shorter]) / (total + t)
		kept[history] += p[gram]
		below[history] += lower[shorter]
	}
	for history := range histories {
		backoff[history] = max(1-kept[history], 1e-6) / max(1-below[history], 1e-6)
	}
	return p, backoff
}

func splitLast(gram string) (history, last string) {
	at := strings.LastIndexByte(gram, ' ')
	return gram[:at], gram[at+1:]
}
