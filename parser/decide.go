package parser

import (
	"slices"
	"strings"
	"unicode"

	"dogleg/catalog"
	learned "dogleg/parser/read"
)

// Said is what was said before a message.
type Said = learned.Said

// Read reads a message that follows on what was said before: one statement for
// each thing said in it, in order. What is not read surely enough is asked back,
// with the likeliest readings.
//
// Two readers look at each message, one that follows rules and one that has
// learned from people's messages. Where they agree the message is understood;
// where they don't, the second is believed as far as its own probability goes.
func Read(text string, said Said) []Statement { return Decide(text, said, Parse(text)) }

// Decide is Read of a message that [Parse] has read by its rules.
func Decide(text string, said Said, rules []Statement) []Statement {
	if onlyForRules(text, said, rules) {
		return rules
	}
	readings, either := likeliest(text, said)
	if len(readings) == 0 {
		return rules
	}
	if either > sureEither {
		return offered(text, said, rules, readings)
	}
	best := readings[0]
	switch {
	case best.TakenBack && !asksNothing(best.Statements):
		return notFigured(text)
	case rulesKnow(rules, best):
		return rules
	case asksNothing(best.Statements) && asksNothing(rules):
		return rules // which say what is wrong with it
	case best.Probability > sharedBy(rules) && agree(said, rules, best.Statements):
		return rules
	case best.Probability > sure(best.Statements) && !doable(best.Statements):
		return notFigured(text)
	case best.Probability > sure(best.Statements):
		return named(rules, best.Statements)
	case rulesRemain(said, rules, best):
		return rules
	}
	return offered(text, said, rules, readings)
}

// The probabilities from which a reading is taken, chosen on the tune part so that
// about one message in fifty is figured from a wrong reading.
const (
	sureAsk     = 0.85 // of one ask
	sureSeveral = 0.8  // of several asks
	sureChange  = 0.6  // of a change
	sureWithout = 0.95 // of several asks that pass over numbers which the rules use in one
	sureCommand = 0.4  // of a command: it figures nothing
	sureNothing = 0.5  // that nothing is asked
	sureBoth    = 0.25 // of what the rules agree with
	sureSame    = 0.2  // of a change that the rules agree with
	sureOfWords = 0.9  // of words that make a sum to the rules
	sureEither  = 0.3  // that two readings are as good
	dim         = 0.45 // below this a message that the rules refuse is refused
	faint       = 0.08 // below this a reading is not offered
)

// sharedBy is the probability from which a reading is taken that the rules share.
func sharedBy(rules []Statement) float64 {
	if onlyChange(rules) {
		return sureSame
	}
	return sureBoth
}

// sure is the probability from which a reading is taken that the rules don't share.
func sure(s []Statement) float64 {
	switch {
	case len(s) > 1:
		return sureSeveral
	case onlyChange(s):
		return sureChange
	case slices.ContainsFunc(s, isCommand):
		return sureCommand
	case asksNothing(s):
		return sureNothing
	}
	return sureAsk
}

// likeliest are the learned reader's readings, and how probable it is that two of
// them are as good.
func likeliest(text string, said Said) (readings []learned.Reading, either float64) {
	for _, r := range learned.Learned().Read(text, said) {
		if r.Either {
			either += r.Probability
			continue
		}
		toldToDo(r.Statements)
		r.Statements = onceEach(r.Statements)
		readings = append(readings, r)
	}
	return learned.Gather(readings, Same), either
}

// onceEach leaves out an ask that says what the one before it says: for another of its
// figures, which one answer gives too.
func onceEach(in []Statement) []Statement {
	out := in[:0:0]
	for _, s := range in {
		if n := len(out); n > 0 && s.Ask != nil && out[n-1].Ask != nil && !s.Ask.FollowUp && same(s.Ask, out[n-1].Ask) {
			if out[n-1].Ask.Want == Bare {
				out[n-1].Ask.Want = s.Ask.Want
			}
			continue
		}
		out = append(out, s)
	}
	return out
}

// onlyForRules says whether a message is nothing for the learned reader: a command,
// a number that is none, figures without a word.
func onlyForRules(text string, said Said, rules []Statement) bool {
	switch {
	case slices.ContainsFunc(rules, isCommand), slices.ContainsFunc(rules, cannotBe), asksHowToMeasure(rules):
		return true
	case onlyNumber(rules):
		return said.Last == nil
	}
	return !strings.ContainsFunc(text, unicode.IsLetter)
}

// rulesKnow says whether a message is of those that the rules read, whatever the
// likeliest reading is.
func rulesKnow(rules []Statement, best learned.Reading) bool {
	switch {
	case onlySum(rules):
		return best.Probability < sureOfWords || onlySum(best.Statements)
	case setTakeoff(rules, best.Statements), cutsUp(rules, best), changesNothing(best.Statements) && onlyChange(rules):
		return true
	}
	return noSuchSize(rules, best.Statements)
}

// rulesRemain says whether a message of which no reading is sure is left to the
// rules, instead of being asked about.
func rulesRemain(said Said, rules []Statement, best learned.Reading) bool {
	switch {
	case onlyNumber(rules):
		return true
	case said.Last == nil && rules[0].Ask != nil && rules[0].Ask.FollowUp:
		return true
	}
	return asksNothing(rules) && best.Probability < dim
}

// mostOffered is how many readings are offered.
const mostOffered = 3

// offered asks which of the likeliest readings is meant. It is the rules' own where
// there is no other.
func offered(text string, said Said, rules []Statement, readings []learned.Reading) []Statement {
	var offers [][]Ask
	offer := func(s []Statement) {
		if asks := wholeAsks(said, s); len(asks) > 0 && len(offers) < mostOffered && !slices.ContainsFunc(offers, func(o []Ask) bool { return alike(o, asks) }) {
			offers = append(offers, asks)
		}
	}
	for _, r := range readings {
		if r.Probability > faint {
			offer(r.Statements)
		}
	}
	offer(rules)
	switch a := one(rules); {
	case len(offers) == 0 && asksNothing(rules):
		return rules
	case len(offers) == 0:
		return notFigured(text)
	case a != nil && len(a.Measures) > 1:
		w := whole(said, *a)
		if !slices.ContainsFunc(offers, func(o []Ask) bool { return len(o) != 1 || !same(&o[0], &w) }) {
			return rules
		}
	}
	return []Statement{refused(text, &Misunderstanding{Trouble: TwoReadings, Text: text, Read: offers[0][0], Readings: offers})}
}

// mostTogether is how many asks one offer holds.
const mostTogether = 4

// wholeAsks are the asks of a reading, each whole, so that they can be offered; none
// where it says anything else, or too much for a button.
func wholeAsks(said Said, s []Statement) (asks []Ask) {
	if len(s) > mostTogether {
		return nil
	}
	for _, x := range s {
		if x.Ask == nil {
			return nil
		}
		w := whole(said, *x.Ask)
		if w.Kind == Unstated {
			return nil
		}
		said.Last = &w
		asks = append(asks, w)
	}
	return asks
}

// alike says whether two offers read the same.
func alike(a, b []Ask) bool {
	return slices.EqualFunc(a, b, func(x, y Ask) bool { return x.SaysAs(&y) })
}

// one is the ask of a message that says one thing; nil where it is none.
func one(s []Statement) *Ask {
	if len(s) != 1 {
		return nil
	}
	return s[0].Ask
}

func isCommand(s Statement) bool { return s.Command != nil }
func isAsk(s Statement) bool     { return s.Ask != nil }

// asksNothing says whether statements hold no ask.
func asksNothing(s []Statement) bool { return !slices.ContainsFunc(s, isAsk) }

// notFigured says that there is nothing to figure in a message.
func notFigured(text string) []Statement {
	return []Statement{refused(text, &Misunderstanding{Trouble: NotFiguring, Text: text})}
}

// cannotBe says whether the rules found a number that is none.
func cannotBe(s Statement) bool { return hasTrouble(s, BadNumber, NoSuchAngle, TooLong) }

func hasTrouble(s Statement, all ...Trouble) bool {
	return s.Misunderstanding != nil && slices.Contains(all, s.Misunderstanding.Trouble)
}

// asksHowToMeasure says whether a message asks how a takeoff is measured.
func asksHowToMeasure(s []Statement) bool {
	a := one(s)
	return a != nil && a.Want == TakeoffOf && len(a.Measures) == 0 && a.Angle == 0 && a.Pipe == (catalog.Pipe{})
}

// onlySum says whether a message is a sum and nothing else.
func onlySum(s []Statement) bool {
	a := one(s)
	return a != nil && a.Sum != nil
}

// onlyNumber says whether a message is one measure and nothing else.
func onlyNumber(s []Statement) bool { return onlySum(s) && len(s[0].Ask.Sum.Terms) == 1 }

// onlyChange says whether a message is read as one change.
func onlyChange(s []Statement) bool {
	a := one(s)
	return a != nil && a.FollowUp
}

// onlyLengths says whether all that is read is lengths: no bend, no pipe, no fitting.
func onlyLengths(s []Statement) bool {
	return !slices.ContainsFunc(s, func(s Statement) bool {
		a := s.Ask
		return a == nil || a.Angle != 0 || a.Pipe != (catalog.Pipe{}) || a.Ends != [2]End{} || a.Grade != 0
	})
}

// noSuchSize says whether the rules refuse the very size that was read.
func noSuchSize(rules, best []Statement) bool {
	if len(rules) != 1 || !hasTrouble(rules[0], NoSuchSize) {
		return false
	}
	size := rules[0].Misunderstanding.Read.Pipe.Size
	return slices.ContainsFunc(best, func(s Statement) bool { return s.Ask != nil && s.Ask.Pipe.Size == size })
}

// toldToDo puts an ask in the place of a command to mark the standing pipe.
func toldToDo(s []Statement) {
	for i := range s {
		if c := s[i].Command; c != nil && c.Verb == "mark" {
			s[i].Command, s[i].Ask = nil, &Ask{Kind: Mark, FollowUp: true, Language: c.Language}
		}
	}
}

// doable says whether the conversation can do what is told by words that only the
// learned reader takes for a command.
func doable(s []Statement) bool {
	return !slices.ContainsFunc(s, func(s Statement) bool {
		return s.Command != nil && !slices.Contains([]Verb{Explain, Undo, Thanks, Draw, Help, Jobs, AllCautions, Takeoffs}, s.Command.Verb)
	})
}

// named gives the asks of one reading the names of jobs that another found.
func named(rules, best []Statement) []Statement {
	if len(rules) != len(best) {
		return best
	}
	for i := range best {
		if rules[i].Ask != nil && best[i].Ask != nil && best[i].Ask.Name == "" {
			best[i].Ask.Name = rules[i].Ask.Name
		}
	}
	return best
}

// setTakeoff says whether both readers take a message to tell a takeoff and nothing
// else: the rules know best what is to be kept of it.
func setTakeoff(rules, best []Statement) bool {
	tells := func(a *Ask) bool {
		return a != nil && len(a.All(TakeoffOf))+len(a.All(Face)) > 0 && (a.Kind == Takeoff || a.Kind == Unstated) &&
			!slices.ContainsFunc(a.Measures, func(m Measure) bool { return m.Role != TakeoffOf && m.Role != Face && m.Role != Depth })
	}
	return tells(one(rules)) && tells(one(best))
}

// cutsUp says whether the likeliest reading cuts what the rules read as one ask into
// several, is not sure of it, and passes over numbers that the rules use.
func cutsUp(rules []Statement, best learned.Reading) bool {
	a := one(rules)
	if a == nil || len(best.Statements) < 2 || best.Probability > sureWithout {
		return false
	}
	used := 1
	for _, s := range best.Statements {
		if s.Ask != nil {
			used = max(used, len(s.Ask.Measures))
		}
	}
	return len(a.Measures) > used
}

// changesNothing says whether a message is read as a change, and of nothing.
func changesNothing(s []Statement) bool {
	return onlyChange(s) && len(s[0].Ask.Measures) == 0 && onlyLengths(s) && !s[0].Ask.ComeBack && !s[0].Ask.Store && s[0].Ask.Lines == 0
}
