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
	for i := range in {
		e := &in[i]
		switch {
		case e.term.is(senseVerb):
			if at < 0 {
				at = i
			}
		case e.quantity != nil && at < 0, e.term.is(senseMaterial) && at < 0:
			return nil
		}
	}
	if at < 0 {
		return nil
	}
	if in[at].repaired != nil && !quietAround(in, at) {
		return nil // que hora es is no hola
	}
	value, _ := in[at].term.means(senseVerb)
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
		if numbers(rest) > 1 {
			return nil // the plans are metric: the shift is 425 mm
		}
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
		if c.Angle = bendAlone(rest); c.Angle == 0 && !wordsOnly(rest) {
			return nil
		}
		c.Object = strings.TrimSpace(text[in[at].end-in[0].begin:])
	case Rule:
		numbers, ok := wholes(rest)
		if !ok || len(numbers) > 2 {
			return nil
		}
		numbers = append(numbers, 0, 0)
		c.Step, c.Number = numbers[0], numbers[1]
	case Explain, Jobs, ForgetMe, Export, Draw, Undo, AllCautions, Help, Greet, Takeoffs, Thanks, Cancel, Exam, Skip, Stop, Score:
		if factor := multiplierIn(rest); factor != 0 && c.Verb == Explain {
			c.Factor = factor
			return c
		}
		c.Number = firstWhole(rest)
		numbered := len(fields) > 1 // a word that tells only with a number: job 3
		if !quiet(in[:at]) || !quietButNumber(rest) || numbered && c.Number == 0 {
			return nil
		}
	}
	return c
}

// quietAround says whether nothing stands around the word at a place but words
// that mean nothing.
func quietAround(in []element, at int) bool {
	for i := range in {
		e := &in[i]
		if i != at && e.mark == "" && !e.term.is(senseFiller) && !e.term.is(senseArticle) {
			return false
		}
	}
	return true
}

// topic is what is to be practiced: the kind or the figure that is named, and
// the bend.
func topic(in []element) (object string, angle geometry.Angle) {
	for i := range in {
		e := &in[i]
		for _, what := range []sense{senseHint, senseRole, senseWant} {
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
	return len(in) <= mostWords && !anyOf(in, func(e *element) bool { return e.quantity != nil })
}

// bendAlone is the angle of the one bend that elements are about: "45?", "1/8
// bend", "22½". It is 0 if they are about anything else, or turn by no angle
// that a bend has.
func bendAlone(in []element) geometry.Angle {
	var named *quantity
	called := false // a bend in as many words
	for i := range in {
		e := &in[i]
		switch {
		case e.term.is(senseBend):
			called = true
		case e.mark == "?" || e.mark == ".":
		case e.quantity == nil || named != nil:
			return 0
		default:
			named = e.quantity
		}
	}
	if named == nil || named.bad != "" || named.unit != degree && named.unit != noUnit {
		return 0
	}
	return bendCalled(named, called)
}

// bendCalled is the bend that goes by a number: 22 is 22½, and 1/8 the eighth
// part of a turn, where a bend is spoken of.
func bendCalled(q *quantity, called bool) geometry.Angle {
	angle := usualAngle(q)
	switch {
	case called && q.parts > 2 && q.value < 1:
		angle = geometry.Angle(360 / float64(q.parts))
	case !called && q.unit != degree && q.number < 11:
		return 0
	}
	if !slices.Contains(geometry.Bends(), angle) {
		return 0
	}
	return angle
}

// multiplierIn is the one number of a question why: it has decimals, as books
// print a multiplier. It is 0 if there is none.
func multiplierIn(in []element) float64 {
	factor := 0.0
	for i := range in {
		e := &in[i]
		switch q := e.quantity; {
		case q == nil && !e.term.is(senseMaterial):
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
	for i := range in {
		e := &in[i]
		if e.quantity != nil || e.term.is(senseMaterial) || e.term.is(senseMethod) || e.term.is(senseBend) ||
			e.term.is(senseHint) && !e.term.is(senseVerb) || e.term.is(senseRole) && !e.term.is(senseVerb) {
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

// wholes are the numbers that elements count by; ok is false where they hold
// anything else that asks for something.
func wholes(in []element) (numbers []int, ok bool) {
	for _, e := range in {
		n := firstWhole([]element{e})
		switch {
		case n > 0:
			numbers = append(numbers, n)
		case e.quantity != nil || !quiet([]element{e}):
			return nil, false
		}
	}
	return numbers, true
}

func firstWhole(in []element) int {
	for i := range in {
		e := &in[i]
		if q := e.quantity; q != nil && q.whole && q.unit == noUnit && !q.plural && q.number < 1e6 {
			return int(q.number)
		}
	}
	return 0
}
