package hearing

import (
	"cmp"
	"math"
	"regexp"
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
	// Keeps says that Heard would change what is kept of the person, and was heard
	// surely: that takes a yes.
	Keeps bool
	// Probability is that of Heard, by the guesses and by how surely each is read.
	Probability float64
}

// The settings of a verdict. Chosen on recordings other than those that are
// reported on; see bot/voice/README.md.
const (
	// flatness is what makes a guess e times less likely on pocketsphinx's scale,
	// whose scores are far too sure of themselves.
	flatness = 300.0
	// sureFrom is the probability from which a reading is answered.
	sureFrom = 0.85
	// offerable is the probability from which a reading is offered.
	offerable = 0.02
	// mostGuesses are those of all decoders that are read.
	mostGuesses = 20
	// unlikely is what a way of writing figures is worth beside the plainer one.
	unlikely = 0.2
	// doubtful is the probability from which a reading that can be figured is
	// offered rather than a likelier one answered with a question.
	doubtful = 0.1
	// mostlyTalk is the probability from which nothing is taken to be asked.
	mostlyTalk = 0.7
	// passed is what a reading is worth that passes over a number.
	passed = 0.3
)

// mostReadings is how many readings are offered: more than that is quicker
// said again.
const mostReadings = 3

// reading is one meaning that guesses may have.
type reading struct {
	understanding
	text        string  // the likeliest wording
	best        float64 // how likely that is
	probability float64
	open        float64 // what of it comes of guesses of which no word is left out
}

// Choose makes a verdict of what each decoder guesses, likeliest first: how
// likely a guess is, times how surely it is read, summed over all guesses that
// are answered the same.
func (j Judge) Choose(decoders [][]Guess) Verdict {
	readings := j.collect(decoders)
	if len(readings) == 0 || readings[0].meaning == "" && readings[0].probability > mostlyTalk {
		return Verdict{}
	}
	readings = slices.DeleteFunc(readings, func(r reading) bool { return r.meaning == "" })
	if len(readings) == 0 {
		return Verdict{}
	}
	top := readings[0]
	v := Verdict{Heard: top.text, Probability: top.probability}
	if top.asksBack && slices.ContainsFunc(readings[1:], func(r reading) bool { return !r.asksBack && r.probability > doubtful }) {
		top.open = 0 // better one that can be figured than a question back
	}
	surely := top.open >= sureFrom && (top.whole || top.asksBack) && !figuresAlone(top.text) && !slices.ContainsFunc(readings[1:], top.rivaledBy)
	switch {
	case surely && top.keeps:
		v.Keeps, v.Readings = true, []string{top.text}
		return v
	case surely:
		v.Sure = true
		return v
	}
	readings = slices.DeleteFunc(readings[:min(len(readings), 2*mostReadings)], func(r reading) bool {
		return r.meaning != top.meaning && r.probability < offerable && !top.rivaledBy(r)
	})
	slices.SortStableFunc(readings, func(a, b reading) int { return cmp.Compare(j.rank(b), j.rank(a)) })
	for _, r := range readings {
		if len(v.Readings) < mostReadings && !slices.Contains(v.Readings, r.text) {
			v.Readings = append(v.Readings, r.text)
		}
	}
	v.Heard = v.Readings[0]
	return v
}

// rank puts those first that can be figured.
func (j Judge) rank(r reading) int {
	if !r.asksBack && j.Conversation.Figures(r.text) {
		return 1
	}
	return 0
}

// likely is a guess with its probability.
type likely struct {
	text        string
	probability float64
}

// likelihoods are the probabilities of what was said by all decoders together,
// the likeliest first.
func likelihoods(decoders [][]Guess) (all []likely) {
	for _, guesses := range decoders {
		sum := 0.0
		for _, g := range guesses {
			sum += math.Exp(-g.Behind / flatness)
		}
		for _, g := range guesses {
			p := math.Exp(-g.Behind/flatness) / sum / float64(len(decoders))
			at := slices.IndexFunc(all, func(l likely) bool { return l.text == g.Text })
			if at < 0 {
				all = append(all, likely{g.Text, p})
			} else {
				all[at].probability += p
			}
		}
	}
	slices.SortStableFunc(all, func(a, b likely) int { return cmp.Compare(b.probability, a.probability) })
	return all
}

// collect reads the guesses and takes those together that mean the same, the
// likeliest first. One of no meaning stands for all that ask for nothing.
func (j Judge) collect(decoders [][]Guess) (all []reading) {
	guesses := likelihoods(decoders)
	total := 0.0
	for _, of := range decoders {
		if len(of) == 0 { // it heard nothing
			p := 1 / float64(len(decoders))
			all, total = add(all, reading{probability: p}), total+p
		}
	}
	for _, g := range guesses[:min(mostGuesses, len(guesses))] {
		plain, taken := withoutTalk(g.text)
		var ways []string
		if 3*taken > len(strings.Fields(g.text)) {
			all = add(all, reading{probability: g.probability})
			total += g.probability
		} else {
			ways = writings(plain)
		}
		for i, text := range ways {
			r := reading{understanding: j.understand(text), text: text}
			r.whole = r.whole && !orphaned(plain)
			p := g.probability * r.understanding.probability
			if i > 0 {
				p *= unlikely
			}
			if !r.whole && r.meaning != "" {
				p *= passed
			}
			if r.meaning == "" && i > 0 {
				continue // what asks for nothing does so however it's written
			}
			if i == 0 && r.idle > 0 {
				all = add(all, reading{probability: g.probability * r.idle})
				total += g.probability * r.idle
			}
			r.probability, r.best = p, p
			if taken == 0 {
				r.open = p
			}
			all = add(all, r)
			total += p
		}
	}
	for i := range all {
		all[i].probability /= total
		all[i].open /= total
	}
	slices.SortStableFunc(all, func(a, b reading) int { return cmp.Compare(b.probability, a.probability) })
	return all
}

func add(all []reading, r reading) []reading {
	for i := range all {
		if all[i].meaning == r.meaning {
			p, open := all[i].probability+r.probability, all[i].open+r.open
			if whole := r.open > 0; whole && all[i].open == 0 || whole == (all[i].open > 0) && r.best > all[i].best {
				all[i] = r
			}
			all[i].probability, all[i].open = p, open
			return all
		}
	}
	return append(all, r)
}

// rivaledBy says whether a reading differs from another by a teen and a ty only,
// which sound alike: then the other counts however far it lies behind.
func (r reading) rivaledBy(other reading) bool {
	return r.text != other.text && teens.ReplaceAllString(r.text, "${1}0") == teens.ReplaceAllString(other.text, "${1}0")
}

// teens are 13 to 19; the ty that sounds like one has its last figure.
var teens = regexp.MustCompile(`\b1([3-9])\b`)

// withoutTalk takes the everyday words out of a guess.
func withoutTalk(text string) (plain string, taken int) {
	words := strings.Fields(text)
	kept := slices.DeleteFunc(slices.Clone(words), func(w string) bool { return strings.HasPrefix(w, "~") })
	return strings.Join(kept, " "), len(words) - len(kept)
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
