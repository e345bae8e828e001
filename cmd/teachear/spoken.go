package main

import (
	"slices"
	"strings"
)

// spoken puts into a message what people say and don't type: how they begin and
// end, what they say while they think, what they say twice, and 's for is.
func (s *sampler) spoken(words []string) []string {
	words = s.contracted(words)
	if s.chance(0.35) {
		words = append(strings.Fields(s.one(openers)), words...)
	}
	if s.chance(0.25) && !slices.Contains(words, "cut") && !slices.Contains(words, "what") && !slices.Contains(words, "what's") {
		words = append(words, strings.Fields(s.one(closers))...)
	}
	if s.chance(0.12) {
		words = slices.Insert(words, s.IntN(len(words)+1), s.one(thinking))
	}
	if s.chance(0.03) && len(words) > 0 {
		at := s.IntN(len(words))
		words = slices.Insert(words, at, words[at:min(len(words), at+1+s.IntN(2))]...)
	}
	return words
}

// The ways to begin, to end and to think aloud.
var (
	openers = []string{
		"okay", "okay so", "okay so i got", "okay so i've got", "so", "so i got", "so i've got a", "so what do i cut for",
		"alright", "alright so", "alright i got", "alright i need", "hey", "hey uh", "hey so", "hi", "um", "uh", "uh so", "uh i need",
		"yeah", "yeah so", "well", "well i got", "now", "now i got", "look", "listen", "right", "right so", "let's see", "let me see",
		"i got", "i got a", "i've got", "i've got a", "i have", "i need", "i need a", "got", "got a", "need", "need a", "we got", "we've got",
		"it's", "this is", "this one's", "next one's", "next one", "another one", "what's", "what's the cut on", "what's the cut for", "gimme the cut on",
		"give me", "gimme", "what about", "how about", "what if it's", "oh", "oh it's", "sorry", "hold on", "wait", "no", "and", "then",
		"quick one", "one more", "good morning", "yo", "hey bud", "hmm", "there's a", "here's one", "my", "the",
	}
	closers = []string{
		"what do i cut", "what do i cut", "what's the cut", "what's my cut", "how long do i cut it", "how long's the piece", "how long is the pipe",
		"where do i cut", "where do i mark it", "what's the travel", "what's my travel", "please", "thanks", "what do you get", "what would i cut",
		"and uh how long's the run", "how much", "what's that come to", "gimme the cut", "i think", "you know", "is that right",
	}
	thinking = []string{"uh", "uh", "uh", "um", "um", "like", "well", "okay"}
)

// contracted says is as 's, and puts it now and then where a figure stands behind
// what it measures: the set's twelve.
func (s *sampler) contracted(words []string) (said []string) {
	for i, w := range words {
		switch {
		case w == "is" && len(said) > 0 && s.chance(0.5) && s.sounds[said[len(said)-1]+"'s"] != nil:
			said[len(said)-1] += "'s"
			continue
		case slices.Contains(nouns, w) && i+1 < len(words) && (numbers[words[i+1]] || strings.HasPrefix(words[i+1], "zz")) && s.chance(0.15):
			w += "'s"
		}
		said = append(said, w)
	}
	return said
}

// nouns are what figures are of.
var nouns = strings.Fields("set offset roll rise run travel drop fall gap run line pipe length spacing reach takeoff center room drain cut grade")

var numbers = func() map[string]bool {
	all := map[string]bool{}
	for w := range strings.FieldsSeq("one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen " +
		"seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety half") {
		all[w] = true
	}
	return all
}()
