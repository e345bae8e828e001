package parser

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"dogleg/catalog"
	"dogleg/geometry"
	learned "dogleg/parser/read"
)

// Said is what was said before a message.
type Said = learned.Said

// Read reads a message that follows on what was said before: one statement for
// each thing said in it, in order. What is not read surely enough is asked back,
// with the likeliest readings.
//
// What it asks is read by the learned reader: the likeliest reading is taken where it is
// likely enough, and asked about where it isn't. The rules read what people are promised
// to the letter: commands, figures without words, sums, numbers that can't be.
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
	case rulesKnow(rules, readings):
		return rules
	case shared(rules, readings):
		return rules
	case best.Probability < sure(best.Statements):
		return offered(text, said, rules, readings)
	case slices.ContainsFunc(best.Statements, isCommand) && doable(best.Statements):
		return best.Statements
	case asksNothing(best.Statements) && asksNothing(rules):
		return rules // which say what is wrong with it
	case asksNothing(best.Statements):
		return notFigured(text)
	}
	return named(rules, best.Statements)
}

// The probabilities from which a reading is taken, chosen on the tune part so that
// about one message in fifty is figured from a wrong reading.
const (
	sureAsk     = 0.85 // of one ask
	sureSeveral = 0.7  // of several asks
	sureChange  = 0.55 // of a change
	sureShared  = 0.25 // of what the rules read, too
	sureCommand = 0.4  // of a command: it figures nothing
	sureNothing = 0.4  // that nothing is asked
	sureOfWords = 0.9  // of words that make a sum to the rules
	sureEither  = 0.3  // that two readings are as good
	faint       = 0.03 // below this a reading is not offered
)

// sure is the probability from which a reading is taken.
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
	case onlySum(rules) && !withinMile(geometry.Length(rules[0].Ask.Sum.Total())):
		return true
	case onlyNumber(rules):
		return said.Wanted == "" // what it is for is asked
	}
	return !strings.ContainsFunc(text, unicode.IsLetter)
}

// shared says whether the rules' reading is one of the learned reader's likely ones.
func shared(rules []Statement, readings []learned.Reading) bool {
	return slices.ContainsFunc(readings, func(r learned.Reading) bool { return r.Probability > sureShared && Same(rules, r.Statements) })
}

// rulesKnow says whether a message is of those that the rules read, whatever the
// likeliest reading is: a sum, one figure that is wanted of the last ask, a takeoff that
// is told.
func rulesKnow(rules []Statement, readings []learned.Reading) bool {
	best := readings[0]
	switch a := one(rules); {
	case onlySum(rules):
		return best.Probability < sureOfWords || onlySum(best.Statements)
	case a != nil && a.FollowUp && a.Want != Bare && len(a.Measures) == 0 && a.Kind == Unstated:
		return best.Probability < sureOfWords || changesNothing(best.Statements)
	case tellsTakeoff(a):
		return slices.ContainsFunc(readings, func(r learned.Reading) bool {
			return r.Probability > faint && slices.ContainsFunc(r.Statements, func(s Statement) bool { return tellsTakeoff(s.Ask) })
		})
	}
	return noSuchSize(rules, best.Statements)
}

// mostOffered is how many readings are offered.
const mostOffered = 3

// offered asks which of the likeliest readings is meant. It is the rules' own where
// there is no other.
func offered(text string, said Said, rules []Statement, readings []learned.Reading) []Statement {
	var offers [][]Ask
	offer := func(s []Statement) {
		if asks := wholeAsks(said, s); len(asks) > 0 && len(offers) < mostOffered && !again(said, asks) && !slices.ContainsFunc(offers, func(o []Ask) bool { return alike(o, asks) }) {
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

// named gives the asks of one reading the names that another found: of jobs, and of
// lines of fittings.
func named(rules, best []Statement) []Statement {
	if len(rules) != len(best) {
		return best
	}
	for i := range best {
		if rules[i].Ask != nil && best[i].Ask != nil {
			best[i].Ask.Name = cmp.Or(best[i].Ask.Name, rules[i].Ask.Name)
			best[i].Ask.Line = cmp.Or(best[i].Ask.Line, rules[i].Ask.Line)
		}
	}
	return best
}

// tellsTakeoff says whether an ask tells a takeoff and nothing else: the rules know best
// what is to be kept of it.
func tellsTakeoff(a *Ask) bool {
	return a != nil && len(a.All(TakeoffOf))+len(a.All(Face)) > 0 && (a.Kind == Takeoff || a.Kind == Unstated) &&
		!slices.ContainsFunc(a.Measures, func(m Measure) bool { return m.Role != TakeoffOf && m.Role != Face && m.Role != Depth })
}

// changesNothing says whether a message is read as a change, and of nothing.
func changesNothing(s []Statement) bool {
	return onlyChange(s) && len(s[0].Ask.Measures) == 0 && s[0].Ask.Pipe == (catalog.Pipe{}) && s[0].Ask.Angle == 0
}
