package main

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"dogleg/bot/voice/aloud"
	"dogleg/parser/asks"
)

// measure prints the perplexity of a model that some writers had no part in on
// what they say.
func measure(sounds string, without []string) error {
	d, err := readDictionary(sounds, "cmd/teachear/pronounced.dict")
	if err != nil {
		return err
	}
	s, err := newSampler(d, without)
	if err != nil {
		return err
	}
	counts := newCounts()
	for range sentences {
		counts.add(s.sentence())
	}
	m := counts.model(len(s.messages))
	sum, all, unknown := 0.0, 0, 0
	for _, set := range without {
		messages, err := asks.Read(filepath.Join("testdata/asks/people", set+".txt"))
		if err != nil {
			return err
		}
		own, n := 0.0, 0
		for _, message := range messages {
			for line := range strings.Lines(message.Text) {
				said := s.aloud(asSpoken(line), aloud.Plainly)
				bits, words, missing := m.surprise(said)
				own, n, unknown = own+bits, n+words, unknown+missing
			}
		}
		fmt.Printf("%-24s perplexity %.1f over %d words\n", set, math.Exp(own/float64(n)), n)
		sum, all = sum+own, all+n
	}
	fmt.Printf("together: perplexity %.1f over %d words, %.1f%% of the words not in the model\n",
		math.Exp(sum/float64(all)), all, 100*float64(unknown)/float64(all+unknown))
	return nil
}

// surprise is the sum of the logarithms of how unlikely each word of a sentence
// is, and its end; words that the model lacks are counted and left out.
func (m *model) surprise(said []string) (sum float64, words, unknown int) {
	history := []string{begin}
	for _, w := range append(slices.Clone(said), end) {
		if _, ok := m.levels[0][w]; !ok {
			if _, ok := m.levels[0][everyday+w]; !ok {
				unknown++
				history = nil
				continue
			}
			w = everyday + w
		}
		sum -= math.Log(m.probability(history, w))
		words++
		history = append(history, w)
		history = history[max(0, len(history)-2):]
	}
	return sum, words, unknown
}

// probability is that of a word behind at most two others.
func (m *model) probability(history []string, word string) float64 {
	if len(history) == 0 {
		return m.levels[0][word]
	}
	before := strings.Join(history, " ")
	if p, ok := m.levels[len(history)][before+" "+word]; ok {
		return p
	}
	weight := 1.0
	if b, ok := m.backoff[len(history)-1][before]; ok {
		weight = b
	}
	return weight * m.probability(history[1:], word)
}
