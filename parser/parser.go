package parser

import (
	"strings"

	"dogleg/parser/measure"
	learned "dogleg/parser/read"
)

// Said is what was said before a message.
type Said = learned.Said

// Parse reads a message that follows on nothing.
func Parse(text string) []Statement { return Read(text, Said{}) }

// Read reads a message that follows on what was said before: one statement for each
// thing said in it, in order, and at least one, whatever the text. The likeliest
// reading is taken where it is likely enough; else it is asked back, with the likeliest
// readings. Commands in words of the vocabulary are read to the letter, a line each.
func Read(text string, said Said) []Statement {
	if m := tooLong(text); m != nil { // its lines are not looked at either
		return []Statement{{Text: m.Text, Misunderstanding: m}}
	}
	var out []Statement
	for _, r := range runs(text, said) {
		statements := r.exact
		if statements == nil {
			statements = decide(r.text, said)
		}
		out = append(out, statements...)
		if a := one(statements); a != nil && isWork(a) {
			w := whole(said, *a)
			said.Last, said.Wanted = &w, ""
		}
	}
	return out
}

// exactly reads what is no matter of likelihood: a command in words of the vocabulary, a
// sum in figures. One figure alone is a sum, too, which is asked about, but where it
// answers a question.
func exactly(text string, answers bool) []Statement {
	text = strings.TrimSpace(text)
	if c := learned.Command(text); c != nil {
		s := []Statement{{Text: text, Command: c}}
		toldToDo(s)
		return s
	}
	a := learned.Figures(text)
	if a == nil || measure.Unreadable(text) != "" || answers && len(a.Sum.Terms) == 1 {
		return nil
	}
	return []Statement{{Text: text, Ask: a}}
}

// Answer reads a bare answer to a question that was asked: "45" to which angle, "2 pvc"
// to which pipe. It says false where the text is no answer to it.
func Answer(text string, wanted Role) (Ask, bool) { return learned.Answer(text, wanted) }

// OnlyAnswers says whether a text is a figure and nothing else, but for the name of what
// was asked: takeoff 15 mm.
func OnlyAnswers(text string, wanted Role) bool { return learned.OnlyAnswers(text, wanted) }

// CommandIn is the command that a message tells in words of the vocabulary and no others
// that ask; nil where it tells none.
func CommandIn(text string) *Command { return learned.Command(text) }

// Likeliest is what a message asks by its likeliest reading, however sure: of examples
// that are known to be right. It is empty where the message asks nothing.
func Likeliest(text string) Ask {
	readings, _ := likeliest(text, Said{})
	for _, r := range readings {
		for _, s := range r.Statements {
			if s.Ask != nil {
				return *s.Ask
			}
		}
	}
	return Ask{}
}

// Reason is what one stretch of a message is taken for, and how much speaks for it.
type Reason = learned.Reason

// Why lists what speaks for the likeliest reading of a message, and what for the
// likeliest that says something else.
func Why(text string) [][]Reason { return learned.Learned().Why(text, Said{}, Same) }

// isWork says whether an ask is what a later one of the same message may change.
func isWork(a *Ask) bool { return a.Kind != Sum && a.Kind != Multiplier && a.Kind != Takeoff }

// run is a stretch of a message: what is read to the letter, or all up to the next that
// is.
type run struct {
	text  string
	exact []Statement
}

// runs parts the lines of a message, and what semicolons part, that are commands and
// figures from those that aren't.
func runs(text string, said Said) []run {
	if pipe, ok := learned.PipeAlone(text); ok && said.Last != nil {
		return []run{{text, []Statement{{Text: text, Ask: &pipe}}}}
	}
	if s := exactly(text, said.Wanted != ""); s != nil {
		return []run{{text, s}}
	}
	var out []run
	rest := ""
	flush := func() {
		if strings.TrimSpace(rest) != "" {
			out = append(out, run{text: rest})
		}
		rest = ""
	}
	for text != "" {
		end := strings.IndexAny(text, "\n;") + 1
		if end == 0 {
			end = len(text)
		}
		piece := text[:end]
		text = text[end:]
		if s := exactly(strings.Trim(piece, "\n;"), true); s != nil && !isGreeting(s[0]) {
			flush()
			out = append(out, run{piece, s})
			continue
		}
		rest += piece
	}
	flush()
	if len(out) == 0 {
		return []run{{}} // an empty one
	}
	return out
}

// isGreeting says whether a statement only goes with what is asked beside it.
func isGreeting(s Statement) bool {
	return s.Command != nil && (s.Command.Verb == Greet || s.Command.Verb == Thanks)
}

// one is the ask of a message that says one thing; nil where it is none.
func one(s []Statement) *Ask {
	if len(s) != 1 {
		return nil
	}
	return s[0].Ask
}
