package parser

import (
	"strings"
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
	case Explain, Jobs, Draw, Undo, AllCautions, Help, Greet, Takeoffs, Thanks, Cancel:
		if !quiet(in[:at]) || !quietButNumber(rest) {
			return nil
		}
		c.Number = firstWhole(rest)
	}
	return c
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
