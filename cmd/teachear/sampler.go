package main

import (
	"encoding/csv"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"dogleg/bot/voice/aloud"
	"dogleg/parser/asks"
)

// sampler makes sentences such as people say them.
type sampler struct {
	*rand.Rand
	sounds    dictionary
	messages  []message
	pieces    *chain
	synonyms  map[string][]string // phrases of one meaning, by each of them
	longest   int                 // words of the longest phrase that has a synonym
	phrases   []string            // all phrases of the vocabulary
	talk      []string            // everyday words, the commonest first
	materials []string
}

// message is one of the corpus, its figures as they are typed.
type message struct {
	text   string
	stated map[string]bool // the figures that measure something; nil: all of them
}

// newSampler learns from all that is for teaching, but for some writers.
func newSampler(sounds dictionary, without []string) (*sampler, error) {
	s := &sampler{Rand: rand.New(rand.NewPCG(12, 45)), sounds: sounds, synonyms: map[string][]string{}}
	sounds.possessives(nouns)
	if err := s.readVocabulary("parser/words/vocabulary/*.csv"); err != nil {
		return nil, err
	}
	if err := s.readCorpus("testdata/asks/*.txt"); err != nil {
		return nil, err
	}
	if err := s.readPeople("testdata/asks/people", without); err != nil {
		return nil, err
	}
	s.takeApart()
	return s, s.readTalk("cmd/teachear/everyday.txt")
}

// takeApart takes the messages apart, each some times with other words in it.
func (s *sampler) takeApart() {
	const times = 8
	var all [][]string
	for _, m := range s.messages {
		for range times {
			if words := s.template(m); s.sounds.knows(spelled(s.filled(words))) {
				all = append(all, words)
			}
		}
	}
	s.pieces = newChain(all, times)
}

// unsaid are phrases of the vocabulary that nobody says: what a phone or the
// ear itself makes of other words, and letters that stand for a word in writing.
var unsaid = regexp.MustCompile(`^(rice|sat|said|sett|too|ate|won|inchs|foots|fourty|halfs|[^aeiouy ]{1,3}|x|w|st|oc|oo|cu|ci|lr|sr|eigths?|[ciof] [ciof]|e c|ins|mil|mils|sw|im|gal|el|els|etc|per|al|de)$`)

// readVocabulary reads the parser's English words.
func (s *sampler) readVocabulary(pattern string) error {
	files, err := filepath.Glob(pattern)
	if err != nil {
		return err
	}
	byMeaning := map[string][]string{}
	for _, name := range files {
		if filepath.Base(name) == "heard.csv" {
			continue // what phones write for a number is not what is said
		}
		f, err := os.Open(name)
		if err != nil {
			return err
		}
		rows, err := csv.NewReader(f).ReadAll()
		f.Close()
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		for _, row := range rows[1:] {
			phrase := joined(row[0])
			if row[2] != "en" || unsaid.MatchString(phrase) || !s.sounds.knows(strings.Fields(phrase)) {
				continue
			}
			s.phrases = append(s.phrases, phrase)
			byMeaning[row[1]] = append(byMeaning[row[1]], phrase)
		}
	}
	for _, meaning := range slices.Sorted(maps.Keys(byMeaning)) {
		s.addSynonyms(meaning, byMeaning[meaning])
	}
	return nil
}

// lettered are names said letter by letter, which are one word to the ear.
var lettered = regexp.MustCompile(`\b(?:c p v c|c pvc|p v c|a b s|p e x|s d r|d w v|n p t)\b`)

func joined(phrase string) string {
	return lettered.ReplaceAllStringFunc(phrase, func(letters string) string {
		return strings.ReplaceAll(letters, " ", "")
	})
}

// fixed are the meanings whose words can't stand in for each other.
var fixed = regexp.MustCompile(`^(number|fraction|filler|link|unit|article|and|plural|at|to|for|with|by)\b`)

func (s *sampler) addSynonyms(meaning string, phrases []string) {
	if strings.HasPrefix(meaning, "material") || strings.Contains(meaning, "material cast-iron") || strings.HasPrefix(meaning, "joint") {
		s.materials = append(s.materials, phrases...)
	}
	if fixed.MatchString(meaning) || len(phrases) < 2 {
		return
	}
	for _, p := range phrases {
		s.synonyms[p] = phrases
		s.longest = max(s.longest, len(strings.Fields(p)))
	}
}

// readCorpus reads the messages that are English and a request. What must not
// be taken for one teaches nothing.
func (s *sampler) readCorpus(pattern string) error {
	messages, err := asks.Read(pattern)
	if err != nil {
		return err
	}
	for _, m := range messages {
		if m.File == "spanish.txt" || m.File == "heard.txt" || len(m.Want) == 0 || m.Want[0].Mark == "!" {
			continue
		}
		for line := range strings.Lines(m.Text) {
			text := asSpoken(line)
			if said := s.aloud(text, aloud.Plainly); s.sounds.knows(said) {
				s.messages = append(s.messages, message{text: text})
			}
		}
	}
	return nil
}

func (s *sampler) aloud(text string, choose aloud.Chooser) []string {
	return strings.Fields(joined(aloud.Say(text, choose)))
}

func (s *sampler) readTalk(path string) error {
	content, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	trade := s.tradeSounds()
	for word := range strings.Lines(string(content)) {
		word = strings.TrimSpace(word)
		if strings.HasPrefix(word, "#") || s.sounds[word] == nil || s.soundsLike(word, trade) {
			continue
		}
		s.talk = append(s.talk, everyday+word)
	}
	return nil
}

// tradeSounds are how all words of the trade sound: an everyday word that
// sounds the same can't be told from it, and is left out.
func (s *sampler) tradeSounds() map[string]bool {
	trade := map[string]bool{}
	add := func(words []string) {
		for _, w := range words {
			for _, sound := range s.sounds[w] {
				trade[sound] = true
			}
		}
	}
	for _, p := range s.phrases {
		add(strings.Fields(p))
	}
	for _, m := range s.messages {
		add(s.aloud(m.text, aloud.Plainly))
	}
	return trade
}

func (s *sampler) soundsLike(word string, trade map[string]bool) bool {
	return slices.ContainsFunc(s.sounds[word], func(sound string) bool { return trade[sound] })
}
