package hearing

import (
	"cmp"
	"slices"
	"strings"
)

// Guess is what may have been said, in words, and how far it lies behind its
// decoder's best guess, on the decoder's own scale. An everyday word, one that
// no request has, begins with a ~.
type Guess struct {
	Text   string
	Behind float64
}

// Verdict is what is made of a note.
type Verdict struct {
	// Heard is the likeliest request, in tape figures; empty where nothing of
	// the note was one.
	Heard string
	// Sure says that Heard may be answered, with what was heard said first.
	// Where it is false, ask.
	Sure bool
	// Readings are what may have been meant, Heard first, where it is to be
	// asked: each can be sent as a message.
	Readings []string
}

// How far another meaning has to lie behind to be left out of account, on
// pocketsphinx's scale. Chosen on recordings other than those that are
// reported on; see DEVELOPERS.md.
const (
	clear     = 300
	clearTeen = 700 // where it differs by a teen and a ty
	// worthOffering is how far behind a reading may lie that is offered.
	worthOffering = 1200
)

// mostReadings is how many readings are offered: more than that is quicker
// said again.
const mostReadings = 3

// reading is one meaning that guesses may have.
type reading struct {
	meaning string
	text    string  // the likeliest wording
	behind  float64 // the sum of how far it lies behind in each decoder that guesses it
	votes   int     // those decoders
}

// distance is how far the reading lies behind, on the average.
func (r reading) distance() float64 { return r.behind / float64(r.votes) }

// Choose makes a verdict of what each decoder guesses, likeliest first.
func Choose(decoders [][]Guess) Verdict {
	readings := collect(decoders)
	if len(readings) == 0 || mostlyTalk(decoders) {
		return Verdict{}
	}
	v := Verdict{Heard: Written(readings[0].text)}
	if v.Sure = agreed(decoders, readings[0]) && !rivaled(readings) && !throwsAway(readings[0].text) && !figuresAlone(v.Heard); v.Sure {
		return v
	}
	for _, r := range readings[:min(mostReadings, len(readings))] {
		if len(v.Readings) == 0 || r.distance() < worthOffering {
			v.Readings = append(v.Readings, Written(r.text))
		}
	}
	return v
}

// collect takes the guesses that are requests together by what they mean, the
// likeliest first: what more decoders guess, and what lies less behind.
func collect(decoders [][]Guess) []reading {
	var all []reading
	for _, guesses := range decoders {
		seen := map[string]bool{}
		for _, g := range guesses {
			m, ok := meaning(g.Text)
			if !ok || seen[m] {
				continue
			}
			seen[m] = true
			all = add(all, reading{m, g.Text, g.Behind, 1})
		}
	}
	slices.SortStableFunc(all, func(a, b reading) int {
		return cmp.Or(cmp.Compare(b.votes, a.votes), cmp.Compare(a.distance(), b.distance()))
	})
	return all
}

func add(all []reading, r reading) []reading {
	for i := range all {
		if all[i].meaning == r.meaning {
			all[i].votes++
			all[i].behind += r.behind
			return all
		}
	}
	return append(all, r)
}

// mostlyTalk says that the best guesses are everyday talk with a word or two
// of the trade in it.
func mostlyTalk(decoders [][]Guess) bool {
	talk, words := 0, 0
	for _, guesses := range decoders {
		if len(guesses) > 0 {
			talk += strings.Count(guesses[0].Text, "~")
			words += len(strings.Fields(guesses[0].Text))
		}
	}
	return 3*talk > words
}

// agreed says that the best guess of every decoder means this.
func agreed(decoders [][]Guess, r reading) bool {
	for _, guesses := range decoders {
		if len(guesses) == 0 {
			return false
		}
		if m, ok := meaning(guesses[0].Text); !ok || m != r.meaning {
			return false
		}
	}
	return true
}

// rivaled says whether another meaning lies near the first.
func rivaled(readings []reading) bool {
	for _, r := range readings[1:] {
		if far := r.distance(); far < clear || far < clearTeen && teenApart(r.text, readings[0].text) {
			return true
		}
	}
	return false
}

// teenApart says whether two wordings are the same but for teens and tys.
func teenApart(a, b string) bool {
	return a != b && unteen(a) == unteen(b)
}

// unteen makes one word of a teen and the ty that sounds like it.
func unteen(text string) string {
	words := strings.Fields(text)
	for i, w := range words {
		if ty, ok := tys[w]; ok {
			words[i] = ty
		}
	}
	return strings.Join(words, " ")
}

var tys = map[string]string{
	"thirteen": "thirty", "fourteen": "forty", "fifteen": "fifty", "sixteen": "sixty",
	"seventeen": "seventy", "eighteen": "eighty", "nineteen": "ninety",
}

// figuresAlone says whether two figures stand there with no word at all, or
// three in a row: a number read out digit by digit, of a phone or a door, looks
// like measurements otherwise.
func figuresAlone(written string) bool {
	row, longest := 0, 0
	words := strings.Fields(written)
	for _, w := range words {
		if strings.Trim(w, "0123456789/-.") == "" || figures[w] > 0 {
			row++
		} else {
			row = 0
		}
		longest = max(longest, row)
	}
	return longest > 2 || longest == 2 && len(words) == 2
}
