package parser

import (
	"math"
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
	if slices.ContainsFunc(rules, isCommand) || slices.ContainsFunc(rules, cannotBe) || onlyNumber(rules) && said.Last == nil ||
		!strings.ContainsFunc(text, unicode.IsLetter) && !onlyNumber(rules) || onlyWants(rules) {
		return rules
	}
	all := learned.Learned().Read(text, said)
	for _, r := range all {
		toldToDo(r.Statements)
	}
	readings := gathered(all)
	if len(readings) == 0 {
		return rules
	}
	return decide(text, said, rules, readings)
}

// cannotBe says whether the rules found a number that is none.
func cannotBe(s Statement) bool {
	return s.Misunderstanding != nil && slices.Contains([]Trouble{BadNumber, NoSuchAngle, TooLong}, s.Misunderstanding.Trouble)
}

// onlyWants says whether a message asks how a takeoff is measured.
func onlyWants(s []Statement) bool {
	return len(s) == 1 && s[0].Ask != nil && s[0].Ask.Want == TakeoffOf && len(s[0].Ask.Measures) == 0 && s[0].Ask.Angle == 0 && s[0].Ask.Pipe == (catalog.Pipe{})
}

// onlyNumber says whether a message is one measure and nothing else.
func onlyNumber(s []Statement) bool {
	return len(s) == 1 && s[0].Ask != nil && s[0].Ask.Sum != nil && len(s[0].Ask.Sum.Terms) == 1
}

// refusesWords says whether the rules refuse a message for its words.
func refusesWords(s []Statement) bool {
	return len(s) == 1 && s[0].Misunderstanding != nil && slices.Contains([]Trouble{UnknownWord, NotFiguring, NothingRead}, s[0].Misunderstanding.Trouble)
}

// onlyLengths says whether all that is read is lengths: no bend, no pipe, no fitting.
func onlyLengths(s []Statement) bool {
	return !slices.ContainsFunc(s, func(s Statement) bool {
		a := s.Ask
		return a == nil || a.Angle != 0 || a.Pipe != (catalog.Pipe{}) || a.Ends != [2]End{} || a.Grade != 0
	})
}

// cutsUp says whether the likeliest reading cuts what the rules read as one ask into
// several, is not sure of it, and passes over numbers that the rules use.
func cutsUp(rules []Statement, best learned.Reading) bool {
	if len(rules) != 1 || rules[0].Ask == nil || len(best.Statements) < 2 || best.Probability > sureWithout {
		return false
	}
	used := 0
	for _, s := range best.Statements {
		if s.Ask != nil {
			used = max(used, len(s.Ask.Measures))
		}
	}
	return len(rules[0].Ask.Measures) > max(used, 1)
}

// changesNothing says whether a message is read as a change, and of nothing.
func changesNothing(s []Statement) bool {
	return len(s) == 1 && s[0].Ask != nil && s[0].Ask.FollowUp && len(s[0].Ask.Measures) == 0 && onlyLengths(s) && !s[0].Ask.ComeBack && !s[0].Ask.Store && s[0].Ask.Lines == 0
}

// onlyChange says whether the rules read a message as one change.
func onlyChange(s []Statement) bool { return len(s) == 1 && s[0].Ask != nil && s[0].Ask.FollowUp }

// fuller says whether the rules agree with a reading that uses all the numbers of
// the likeliest one, and one that this passes over.
func fuller(said Said, rules []Statement, readings []learned.Reading) bool {
	best := readings[0].Statements
	if len(rules) != 1 || len(best) != 1 || rules[0].Ask == nil || best[0].Ask == nil {
		return false
	}
	a, b := rules[0].Ask, best[0].Ask
	uses := func(m Measure) bool {
		return slices.ContainsFunc(a.Measures, func(n Measure) bool { return n.Role == m.Role && math.Abs((n.Length-m.Length).Inches()) < 1e-6 })
	}
	more := len(a.Measures) > len(b.Measures) && !slices.ContainsFunc(b.Measures, func(m Measure) bool { return !uses(m) })
	if more && a.Kind == b.Kind && readings[0].Probability < sureWithout {
		return true
	}
	if !more && !(a.Kind == Offset && len(a.Measures) > len(b.Measures) && a.Angle != 0) {
		return false
	}
	return slices.ContainsFunc(readings[1:], func(r learned.Reading) bool {
		return r.Probability > sureFuller && agree(said, rules, r.Statements)
	})
}

// onlySum says whether a message is a sum and nothing else, by the rules.
func onlySum(s []Statement) bool { return len(s) == 1 && s[0].Ask != nil && s[0].Ask.Sum != nil }

// setsTakeoff says whether both readers take a message to tell a takeoff and
// nothing else: the rules know best what is to be kept of it.
func setsTakeoff(rules, best []Statement) bool {
	if len(rules) != 1 || len(best) != 1 || rules[0].Ask == nil || best[0].Ask == nil {
		return false
	}
	tells := func(a *Ask) bool {
		return len(a.All(TakeoffOf))+len(a.All(Face)) > 0 && (a.Kind == Takeoff || a.Kind == Unstated) &&
			!slices.ContainsFunc(a.Measures, func(m Measure) bool { return m.Role != TakeoffOf && m.Role != Face && m.Role != Depth })
	}
	return tells(rules[0].Ask) && tells(best[0].Ask)
}

// The probabilities from which a reading is taken: one that the rules read too, and
// one that they don't.
const (
	sureAlone   = 0.85
	sureBoth    = 0.45
	sureOfWords = 0.9  // in words that the rules don't know, or that make a sum to them
	sureChange  = 0.25 // of a change that the rules read too
	sureWithout = 0.6  // of a reading that passes over a number which the rules use
	sureFuller  = 0.1  // where the rules agree, and use a number that the likeliest reading passes over
	dim         = 0.45 // below this a message that the rules refuse is refused
	faint       = 0.08 // below this a reading is not offered
)

func decide(text string, said Said, rules []Statement, readings []learned.Reading) []Statement {
	best := readings[0]
	switch {
	case learned.TakenBack(text) && slices.ContainsFunc(best.Statements, isAsk):
		return []Statement{refused(text, &Misunderstanding{Trouble: NotFiguring, Text: text})}
	case onlySum(rules) && (best.Probability < sureOfWords || onlySum(best.Statements)):
		return rules
	case slices.ContainsFunc(best.Statements, isCommand) && !doable(best.Statements):
		return rules
	case noSuchSize(rules, best.Statements):
		return rules
	case asksNothing(best.Statements):
		if best.Probability > sureAlone || !slices.ContainsFunc(rules, isAsk) {
			return refusals(rules, best.Statements)
		}
	case said.Last == nil && refusesWords(rules) && onlyLengths(best.Statements):
		return rules
	case changesNothing(best.Statements) && onlyChange(rules):
		return rules
	case cutsUp(rules, best):
		return rules
	case setsTakeoff(rules, best.Statements), fuller(said, rules, readings), best.Probability > sureBoth && agree(said, rules, best.Statements),
		onlyChange(rules) && best.Probability > sureChange && agree(said, rules, best.Statements):
		return rules
	case best.Probability > sureAlone:
		return named(rules, best.Statements)
	}
	if onlyNumber(rules) && !(best.Probability > sureBoth && onlyChange(best.Statements)) || said.Last == nil && rules[0].Ask != nil && rules[0].Ask.FollowUp || !slices.ContainsFunc(rules, isAsk) && best.Probability < dim {
		return rules
	}
	var offered []Ask
	offer := func(s []Statement) {
		if len(s) != 1 || s[0].Ask == nil || len(offered) == 3 {
			return
		}
		a := whole(said, *s[0].Ask)
		if a.Kind != Unstated && !slices.ContainsFunc(offered, func(o Ask) bool { return o.SaysAs(&a) }) {
			offered = append(offered, a)
		}
	}
	for _, r := range readings {
		if r.Probability > faint {
			offer(r.Statements)
		}
	}
	offer(rules)
	if len(rules) == 1 && rules[0].Ask != nil && len(rules[0].Ask.Measures) > 1 && len(offered) > 0 && !slices.ContainsFunc(offered, func(o Ask) bool {
		r := whole(said, *rules[0].Ask)
		return !same(&o, &r)
	}) {
		return rules // all that is offered is what the rules read
	}
	if len(offered) == 0 {
		if slices.ContainsFunc(rules, isAsk) {
			return []Statement{refused(text, &Misunderstanding{Trouble: NotFiguring, Text: text})}
		}
		return rules
	}
	return []Statement{refused(text, &Misunderstanding{Trouble: TwoReadings, Text: text, Read: offered[0], Readings: offered})}
}

func isCommand(s Statement) bool { return s.Command != nil }
func isAsk(s Statement) bool     { return s.Ask != nil }

// asksNothing says whether statements hold no ask.
func asksNothing(s []Statement) bool { return !slices.ContainsFunc(s, isAsk) }

// refusals are what is said of a message that asks nothing: what the rules found
// wrong with it, if they did.
func refusals(rules, best []Statement) []Statement {
	if !slices.ContainsFunc(rules, isAsk) {
		return rules
	}
	return best
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
	for i := range s {
		if c := s[i].Command; c != nil && !slices.Contains([]Verb{Explain, Undo, Thanks, Draw, Help, Jobs, AllCautions, Takeoffs}, c.Verb) {
			return false
		}
	}
	return true
}

// noSuchSize says whether the rules refuse the very size that was read.
func noSuchSize(rules, best []Statement) bool {
	if len(rules) != 1 || rules[0].Misunderstanding == nil || rules[0].Misunderstanding.Trouble != NoSuchSize {
		return false
	}
	return slices.ContainsFunc(best, func(s Statement) bool {
		return s.Ask != nil && s.Ask.Pipe.Size == rules[0].Misunderstanding.Read.Pipe.Size
	})
}

// whole is an ask with what it changes.
func whole(said Said, a Ask) Ask {
	if a.FollowUp && said.Last != nil {
		a = said.Last.With(a)
		a.FollowUp = false
	}
	return a
}

// agree says whether two readers take a message to say the same.
func agree(said Said, a, b []Statement) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].Ask == nil || b[i].Ask == nil {
			return false
		}
		x, y := whole(said, *a[i].Ask), whole(said, *b[i].Ask)
		if !same(a[i].Ask, b[i].Ask) && !same(&x, &y) {
			return false
		}
	}
	return true
}

// same says whether two asks come to the same figures.
func same(x, y *Ask) bool {
	if x.Sum != nil || y.Sum != nil {
		return x.Sum != nil && y.Sum != nil && math.Abs(x.Sum.Total()-y.Sum.Total()) < 1e-6
	}
	key := func(a *Ask) []Measure {
		var out []Measure
		for _, m := range a.Measures {
			if m.Method == Centers {
				m.Method = ""
			}
			out = append(out, Measure{Role: m.Role, Length: m.Length, Method: m.Method})
		}
		slices.SortFunc(out, func(a, b Measure) int {
			switch {
			case a.Role != b.Role:
				return compareText(string(a.Role), string(b.Role))
			case a.Length < b.Length:
				return -1
			case a.Length > b.Length:
				return 1
			}
			return 0
		})
		return slices.Compact(out)
	}
	near := func(a, b Measure) bool {
		d := a.Length - b.Length
		return a.Role == b.Role && a.Method == b.Method && d < 1e-6 && d > -1e-6
	}
	return x.Kind == y.Kind && x.Store == y.Store && x.ComeBack == y.ComeBack && slices.EqualFunc(key(x), key(y), near) && (x.Angle == y.Angle || sameFittings(x, y)) &&
		x.Pipe.Size == y.Pipe.Size && x.Pipe.Material == y.Pipe.Material && x.Grade-y.Grade < 1e-9 && y.Grade-x.Grade < 1e-9 && x.Lines == y.Lines
}

// sameFittings says whether two asks name the same fittings at their ends, so that
// the angle says nothing more.
func sameFittings(x, y *Ask) bool {
	return x.Ends[0].Fitting != (catalog.Fitting{}) && x.Ends[0].Fitting == y.Ends[0].Fitting && x.Ends[1].Fitting == y.Ends[1].Fitting
}

func compareText(a, b string) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// gathered puts readings that say the same together, with all their probability.
func gathered(in []learned.Reading) []learned.Reading {
	var out []learned.Reading
next:
	for _, r := range in {
		for i := range out {
			if sameStatements(out[i].Statements, r.Statements) {
				out[i].Probability += r.Probability
				continue next
			}
		}
		out = append(out, r)
	}
	slices.SortStableFunc(out, func(a, b learned.Reading) int {
		switch {
		case a.Probability > b.Probability:
			return -1
		case a.Probability < b.Probability:
			return 1
		}
		return 0
	})
	return out
}

func sameStatements(a, b []Statement) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		x, y := a[i], b[i]
		switch {
		case x.Ask != nil && y.Ask != nil:
			if x.Ask.FollowUp != y.Ask.FollowUp || !same(x.Ask, y.Ask) {
				return false
			}
		case x.Command != nil && y.Command != nil:
			if x.Command.Verb != y.Command.Verb {
				return false
			}
		case x.Ask == nil && y.Ask == nil && x.Command == nil && y.Command == nil:
		default:
			return false
		}
	}
	return true
}

// named gives the asks of one reading the names of jobs that another found.
func named(rules, best []Statement) []Statement {
	for i := range best {
		if len(rules) == len(best) && rules[i].Ask != nil && best[i].Ask != nil && best[i].Ask.Name == "" {
			best[i].Ask.Name = rules[i].Ask.Name
		}
	}
	return best
}
