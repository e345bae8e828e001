package parser

import (
	"slices"
	"strings"

	"dogleg/geometry"
)

// command reads a statement that does something with what was already
// answered: explain, jobs, call it laundry. A verb counts only where the rest
// of the statement asks for nothing.
func command(text string, in []element) *Command {
	at := -1
	for i, e := range in {
		switch {
		case e.term.is("verb"):
			if at < 0 {
				at = i
			}
		case e.quantity != nil && at < 0, e.term.is("material") && at < 0:
			return nil
		}
	}
	if at < 0 {
		return nil
	}
	value, _ := in[at].term.means("verb")
	fields := strings.Fields(value)
	c := &Command{Verb: Verb(fields[0]), Language: in[at].term.language}
	rest := in[at+1:]
	switch c.Verb {
	case NameJob:
		if len(rest) == 0 {
			return nil
		}
		c.Object = strings.TrimSpace(text[rest[0].begin-in[0].begin:])
	case Setting:
		c.Object, c.Value = fields[1], fields[2]
	case Forget:
		if at > 1 {
			return nil
		}
		if len(rest) > 0 {
			c.Object = strings.TrimSpace(text[rest[0].begin-in[0].begin:])
		}
		c.Number = firstWhole(rest)
	case Practice:
		c.Object, c.Angle = topic(rest)
	case Glossary:
		if !wordsOnly(rest) {
			return nil
		}
		c.Object = strings.TrimSpace(text[in[at].end-in[0].begin:])
	case Explain, Jobs, ForgetMe, Export, Draw, Undo, AllCautions, Help, Greet, Takeoffs, Thanks, Cancel, Exam, Skip, Stop, Score:
		if factor := multiplierIn(rest); factor != 0 && c.Verb == Explain {
			c.Factor = factor
			return c
		}
		if !quiet(in[:at]) || !quietButNumber(rest) {
			return nil
		}
		c.Number = firstWhole(rest)
	}
	return c
}

// topic is what is to be practiced: the kind or the figure that is named, and
// the bend.
func topic(in []element) (object string, angle geometry.Angle) {
	for _, e := range in {
		for _, what := range []string{"hint", "role", "want"} {
			value, ok := e.term.means(what)
			value, _, _ = strings.Cut(value, " ")
			if ok && object == "" {
				object = value
			}
		}
		if q := e.quantity; q != nil && angle == 0 {
			angle = geometry.Angle(q.number)
		}
	}
	return object, angle
}

// mostWords is how many words a term of the glossary may have, with what is
// said around it: "center to center mean?"
const mostWords = 4

func wordsOnly(in []element) bool {
	return len(in) <= mostWords && !slices.ContainsFunc(in, func(e element) bool { return e.quantity != nil })
}

// multiplierIn is the one number of a question why: it has decimals, as books
// print a multiplier. It is 0 if there is none.
func multiplierIn(in []element) float64 {
	factor := 0.0
	for _, e := range in {
		switch q := e.quantity; {
		case q == nil && !e.term.is("material"):
		case q == nil || factor != 0 || q.unit != noUnit || q.bad != "" || !strings.Contains(q.text, "."):
			return 0
		default:
			factor = q.number
		}
	}
	return factor
}

// quiet says whether elements ask for nothing.
func quiet(in []element) bool {
	for _, e := range in {
		if e.quantity != nil || e.term.is("material") || e.term.is("method") || e.term.is("bend") ||
			e.term.is("hint") && !e.term.is("verb") || e.term.is("role") && !e.term.is("verb") {
			return false
		}
	}
	return true
}

func quietButNumber(in []element) bool {
	numbers := 0
	for _, e := range in {
		if e.quantity != nil {
			numbers++
			continue
		}
		if !quiet([]element{e}) {
			return false
		}
	}
	return numbers == 0 || numbers == 1 && firstWhole(in) > 0
}

func firstWhole(in []element) int {
	for _, e := range in {
		if q := e.quantity; q != nil && q.whole && q.unit == noUnit && !q.plural && q.number < 1e6 {
			return int(q.number)
		}
	}
	return 0
}
