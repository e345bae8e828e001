package parser

import (
	"slices"

	learned "dogleg/parser/read"
)

// decide takes the likeliest reading of a message, or asks which of the likeliest is
// meant.
func decide(text string, said Said) []Statement {
	if m := unreadable(text); m != nil {
		return []Statement{{Text: m.Text, Misunderstanding: m}}
	}
	readings, either := likeliest(text, said)
	switch {
	case len(readings) == 0:
		return []Statement{refused(text, NothingRead)}
	case either > sureEither:
		return offered(text, said, besides(readings, either))
	}
	best := readings[0]
	switch {
	case best.TakenBack && !asksNothing(best.Statements):
		return []Statement{refused(text, NotFiguring)}
	case best.Probability < sure(best.Statements) && !alone(said, readings), passesOverFigures(best):
		return offered(text, said, readings)
	case asksNothing(best.Statements) && !slices.ContainsFunc(best.Statements, isCommand):
		return []Statement{notFigured(text)}
	}
	return checked(best)
}

// The probabilities from which a reading is taken, chosen on the tune part so that
// about one message in fifty is figured from a wrong reading.
const (
	sureAsk     = 0.85 // of what is figured
	sureChange  = 0.7  // of a change
	sureSum     = 0.75 // of a sum in words of its own
	sureCommand = 0.4  // of a command: it figures nothing
	sureLoss    = 0.85 // of a command that takes something away, or marks it done
	sureNothing = 0.5  // that nothing is asked
	sureAlone   = 0.5  // of what nothing else that is likely asks besides
	sureEither  = 0.3  // that two readings are as good
	faint       = 0.03 // below this a reading is not offered
	faintVerb   = 0.1  // nor a command
)

// sure is the probability from which a reading is taken.
func sure(s []Statement) float64 {
	a := one(s)
	switch {
	case a != nil && a.FollowUp:
		return sureChange
	case a != nil && a.Sum != nil:
		return sureSum
	case slices.ContainsFunc(s, takesAway):
		return sureLoss
	case slices.ContainsFunc(s, isCommand):
		return sureCommand
	case asksNothing(s):
		return sureNothing
	}
	return sureAsk
}

// likeliest are the learned reader's readings, and how probable it is that two of
// them are as good. Which unit a bare number has is for the conversation to settle or
// to ask: readings that differ in nothing else are one.
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
	return learned.Gather(readings, sameButUnits), either
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

// toldToDo puts an ask in the place of a command to mark the standing pipe.
func toldToDo(s []Statement) {
	for i := range s {
		if c := s[i].Command; c != nil && c.Verb == "mark" {
			s[i].Command, s[i].Ask = nil, &Ask{Kind: Mark, FollowUp: true, Language: c.Language}
		}
	}
}

// mostOffered is how many readings are offered.
const mostOffered = 3

// besides are readings with their probabilities where two of them are as good: those of
// which it is to be asked have all of it.
func besides(in []learned.Reading, either float64) []learned.Reading {
	out := slices.Clone(in)
	for i := range out {
		out[i].Probability /= max(1-either, faint)
	}
	return out
}

// alone says whether the likeliest reading is the only likely one that asks something. A
// sum of lengths beside words that nobody knows is none that is taken so.
func alone(said Said, readings []learned.Reading) bool {
	best := readings[0]
	if a := one(best.Statements); a != nil && a.Sum != nil {
		return false
	}
	return best.Probability >= sureAlone && !asksNothing(best.Statements) && len(offersOf(said, readings)) == 1
}

// offered asks which of the likeliest readings is meant.
func offered(text string, said Said, readings []learned.Reading) []Statement {
	offers := offersOf(said, readings)
	if m := mayTell(readings, mostOffered-len(offers)); m != nil {
		m.Text, m.Readings = text, offers
		if len(offers) > 0 {
			m.Read = offers[0][0]
		}
		return []Statement{{Text: text, Misunderstanding: m}}
	}
	if len(offers) == 0 {
		for _, r := range readings {
			if r.Probability <= sureEither {
				break
			}
			if s := checked(r); len(s) == 1 && s[0].Misunderstanding != nil && s[0].Misunderstanding.Trouble != NotFiguring {
				return s // what is wrong with it
			}
		}
		return []Statement{notFigured(text)}
	}
	return []Statement{{Text: text, Misunderstanding: &Misunderstanding{Trouble: TwoReadings, Text: text, Read: offers[0][0], Readings: offers}}}
}

// offersOf are the likeliest readings that ask something, each whole.
func offersOf(said Said, readings []learned.Reading) (offers [][]Ask) {
	for _, r := range readings {
		if r.Probability <= faint || len(offers) == mostOffered {
			break
		}
		asks := inLanguage(wholeAsks(said, checked(r)), offers)
		if len(asks) > 0 && !again(said, asks) && !slices.ContainsFunc(offers, func(o []Ask) bool { return alike(o, asks) }) {
			offers = append(offers, asks)
		}
	}
	return offers
}

// offeredVerbs are the commands that are offered: they figure nothing, and whoever taps
// one by mistake has lost nothing.
var offeredVerbs = []Verb{Explain, Draw, AllCautions, Undo, Jobs, Takeoffs, Practice, Exam, Help, "add", "list", "done", "drop", "metric", "inches", "share"}

// mayTell says which commands a message may tell, so many at most; nil where it is none.
func mayTell(readings []learned.Reading, most int) *Misunderstanding {
	m := &Misunderstanding{Trouble: TwoReadings}
	for _, r := range readings {
		if r.Probability <= faintVerb || len(m.Commands) == most {
			break
		}
		if len(r.Statements) != 1 || r.Statements[0].Command == nil {
			continue
		}
		c := r.Statements[0].Command
		if numbered := c.Verb == "done" || c.Verb == "drop"; slices.Contains(offeredVerbs, c.Verb) && !(numbered && c.Number == 0) {
			m.Commands = append(m.Commands, c.Verb)
			m.Number = max(m.Number, c.Number)
		}
	}
	if len(m.Commands) == 0 {
		return nil
	}
	return m
}

// inLanguage is an offer in the language of the first one: a message has one.
func inLanguage(asks []Ask, offers [][]Ask) []Ask {
	for i := range asks {
		if len(offers) > 0 {
			asks[i].Language = offers[0][0].Language
		}
	}
	return asks
}

// again says whether an offer is what was asked last, and nothing new.
func again(said Said, asks []Ask) bool {
	return len(asks) == 1 && said.Last != nil && asks[0].SaysAs(said.Last)
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

func isCommand(s Statement) bool { return s.Command != nil }

// takesAway says whether a command changes what is kept in a way that is missed.
func takesAway(s Statement) bool {
	return s.Command != nil && slices.Contains([]Verb{Forget, ForgetMe, "done", "drop", Stop, Cancel}, s.Command.Verb)
}

// counted are the commands that a number may go with.
var counted = []Verb{Explain, Jobs, Forget, Draw, AllCautions, Rule, "done", "drop", "first", "second", "repeat"}

// passesOverFigures says whether a reading is a command that no figure goes with, of a
// message that has one: add a quarter.
func passesOverFigures(r learned.Reading) bool {
	return len(r.Passed) > 0 && len(r.Statements) == 1 && r.Statements[0].Command != nil && !slices.Contains(counted, r.Statements[0].Command.Verb)
}

// asksNothing says whether statements hold no ask.
func asksNothing(s []Statement) bool {
	return !slices.ContainsFunc(s, func(s Statement) bool { return s.Ask != nil })
}
