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
type counts [3]map[string]float64

const (
	begin = "<s>"
	end   = "</s>"
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

// model is the probabilities of one, two and three words, each with those before
// it, and the weights with which one or two words fall back on fewer.
type model struct {
	levels  [3]map[string]float64
	backoff [2]map[string]float64
}

// discount is what each sequence leaves of its count to those that were never
// seen, and worth how much a sequence has to add to the model to be kept in it:
// both chosen on writers who were held back.
const (
	discount = 0.6
	worth    = 0.12
)

// trust is how many times a message counts: more than once, since half of the
// sentences are made of pieces of others.
const trust = 3

// model smooths the counts after Kneser and Ney, "Improved backing-off for
// m-gram language modeling", ICASSP 1995, in its interpolated form. A message is
// sampled many times with other figures, and each of its words is no better known
// for it: so counts are divided by how often a message was sampled.
func (c counts) model(messages int) *model {
	often := float64(sentences) / float64(messages) / trust
	for n := range c {
		for gram := range c[n] {
			c[n][gram] /= often
		}
	}
	kinds := counts{continuations(c[1]), continuations(c[2]), c[2]}
	for gram, n := range c[1] { // nothing stands before a begin
		if strings.HasPrefix(gram, begin+" ") {
			kinds[1][gram] = n
		}
	}
	m := &model{}
	m.levels[0] = c.unigrams(kinds[0])
	for n := 1; n < 3; n++ {
		m.levels[n], m.backoff[n-1] = higher(kinds[n], m.levels[n-1])
	}
	m.prune(c)
	return m
}

// continuations counts for each sequence how many words stand before it: a
// sequence that was sampled from one message only counts once, and no more often
// than it came.
func continuations(longer map[string]float64) map[string]float64 {
	kinds := map[string]float64{}
	for _, gram := range slices.Sorted(maps.Keys(longer)) {
		_, rest, _ := strings.Cut(gram, " ")
		kinds[rest] += min(1, longer[gram])
	}
	return kinds
}

// unigrams are the chances of each word by itself: half by how often it comes and
// half by how many it follows. The mark of the begin is never said.
func (c counts) unigrams(kinds map[string]float64) map[string]float64 {
	total, all := 0.0, 0.0
	for _, word := range slices.Sorted(maps.Keys(c[0])) {
		if word != begin {
			total, all = total+c[0][word], all+kinds[word]
		}
	}
	p := map[string]float64{}
	for word, n := range c[0] {
		p[word] = 0.5*n/total + 0.5*kinds[word]/all
	}
	p[begin] = 1e-99
	return p
}

// higher are the chances of some words, and the weights with which all but the
// last of them fall back on fewer.
func higher(counts, lower map[string]float64) (p, backoff map[string]float64) {
	histories, left := map[string]float64{}, map[string]float64{}
	grams := slices.Sorted(maps.Keys(counts))
	for _, gram := range grams {
		history, _ := splitLast(gram)
		histories[history] += counts[gram]
		left[history] += min(counts[gram], discount)
	}
	p, backoff = map[string]float64{}, map[string]float64{}
	for _, gram := range grams {
		history, _ := splitLast(gram)
		_, shorter, _ := strings.Cut(gram, " ")
		p[gram] = (max(0, counts[gram]-discount) + left[history]*lower[shorter]) / histories[history]
	}
	for history := range histories {
		backoff[history] = left[history] / histories[history]
	}
	return p, backoff
}

// prune takes out what the model says nearly as well without: a sequence whose
// count, times the logarithm of how much likelier it is than without, is small
// (Seymore and Rosenfeld, "Scalable backoff language models", ICSLP 1996). Then it
// weighs the rest anew.
func (m *model) prune(c counts) {
	for n := 2; n > 0; n-- {
		needed := map[string]bool{}
		if n == 1 {
			for gram := range m.levels[2] {
				history, _ := splitLast(gram)
				_, shorter, _ := strings.Cut(gram, " ")
				needed[history], needed[shorter] = true, true
			}
		}
		maps.DeleteFunc(m.levels[n], func(gram string, p float64) bool {
			history, _ := splitLast(gram)
			_, shorter, _ := strings.Cut(gram, " ")
			without := m.backoff[n-1][history] * m.levels[n-1][shorter]
			return !needed[gram] && c[n][gram]*math.Abs(math.Log(p/without)) < worth
		})
	}
	for n := 1; n < 3; n++ {
		kept, below := map[string]float64{}, map[string]float64{}
		for _, gram := range slices.Sorted(maps.Keys(m.levels[n])) {
			history, _ := splitLast(gram)
			_, shorter, _ := strings.Cut(gram, " ")
			kept[history] += m.levels[n][gram]
			below[history] += m.probability(strings.Fields(shorter)[:n-1], lastOf(shorter))
		}
		maps.DeleteFunc(m.backoff[n-1], func(history string, _ float64) bool { return kept[history] == 0 })
		for history := range kept {
			m.backoff[n-1][history] = max(1-kept[history], 1e-6) / max(1-below[history], 1e-6)
		}
	}
}

func lastOf(gram string) string {
	return gram[strings.LastIndexByte(gram, ' ')+1:]
}

// write writes the model in ARPA's form.
func (m *model) write(w io.Writer) {
	fmt.Fprintln(w, "\\data\\")
	for n, level := range m.levels {
		fmt.Fprintf(w, "ngram %d=%d\n", n+1, len(level))
	}
	for n, level := range m.levels {
		fmt.Fprintf(w, "\n\\%d-grams:\n", n+1)
		for _, gram := range slices.Sorted(maps.Keys(level)) {
			fmt.Fprintf(w, "%.3f %s", math.Log10(level[gram]), gram)
			if n < 2 {
				if b, ok := m.backoff[n][gram]; ok {
					fmt.Fprintf(w, " %.3f", math.Log10(b))
				}
			}
			fmt.Fprintln(w)
		}
	}
	fmt.Fprintln(w, "\n\\end\\")
}

func splitLast(gram string) (history, last string) {
	at := strings.LastIndexByte(gram, ' ')
	return gram[:at], gram[at+1:]
}
