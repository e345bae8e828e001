package parser

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
)

// thirtySecond is what heavy and light are worth where no amount is said. That
// crews mean about a thirty-second by it is common practice.
const thirtySecond = 1.0 / 32

// adjusted settles what words do to the number beside them, before roles are
// given out: heavy and light, "a sixteenth shy of nine", 1/4 per foot, 1:50.
func adjusted(in []element) []element {
	in = slopes(gradesApart(ofAnInch(heardUnits(loneInches(lines(saidTwice(meters(in))))))))
	if !anyOf(in, adjusts) {
		return in
	}
	out := make([]element, 0, len(in))
	for i := 0; i < len(in); i++ {
		e := in[i]
		switch {
		case e.term.is(senseNot) && len(out) > 0 && i+1 < len(in) && isPlainLength(in[i+1].quantity):
			out = append(out, e) // "set 9-5/8 not 9-3/8"
			i++
		case e.term.is(senseNot) && behindNumber(in[:i]) && !anyOf(in, isCheck) && i+2 < len(in) && in[i+1].text == "the" && isPlainLength(in[i+2].quantity):
			i += 2 // its 2 inch, not the 1-1/2
		case e.quantity != nil && e.quantity.unitFirst && isWhole(last(out)):
			before := out[len(out)-1]
			out[len(out)-1] = merged(before, e, before.quantity.value+e.quantity.value-1) // nine inch and a half
		case e.term.is(senseOperator) && isPlainLength(last(out)) && i+1 < len(in) && isAmount(in[i+1].quantity) && !behindOperator(out):
			before, sign := out[len(out)-1], map[string]float64{"plus": 1, "minus": -1}[meant(e.term, senseOperator)]
			if sign == 0 {
				out = append(out, e)
				continue
			}
			out[len(out)-1] = merged(before, in[i+1], before.quantity.value+sign*in[i+1].quantity.value)
			out[len(out)-1].quantity.text = before.text + map[float64]string{1: " + ", -1: " - "}[sign] + in[i+1].text
			i++
		case isOver(&e) && i+1 < len(in) && isWordAmount(last(out)) && isPlainLength(in[i+1].quantity):
			amount := out[len(out)-1]
			out[len(out)-1] = merged(amount, in[i+1], in[i+1].quantity.value+amount.quantity.value)
			i++
		case e.term.is(senseLean) && last(out) == nil && i+1 < len(in) && isAmount(in[i+1].quantity):
			out = lean(append(out, in[i+1]), e) // a heavy quarter
			i++
		case e.term.is(senseShortOf) && i+1 < len(in) && isAmount(last(out)) && isPlainLength(in[i+1].quantity):
			amount := out[len(out)-1]
			out[len(out)-1] = merged(amount, in[i+1], in[i+1].quantity.value-amount.quantity.value)
			i++
		case e.term.is(senseLean) && len(out) > 0 && isPlainLength(last(out)):
			out = lean(out, e)
		default:
			out = append(out, e)
		}
	}
	return out
}

// isCheck says whether a word is of a dry fit.
func isCheck(e *element) bool { return meant(e.term, senseHint) == "check" }

// behindNumber says whether elements end with a number, or with one and a comma.
func behindNumber(in []element) bool {
	if len(in) > 0 && in[len(in)-1].mark == "," {
		in = in[:len(in)-1]
	}
	return last(in) != nil
}

// adjusts says whether an element may do something to a number beside it: most
// statements have none that does.
func adjusts(e *element) bool {
	if e.quantity != nil {
		return e.quantity.unitFirst
	}
	return isOver(e) || e.term.is(senseNot) || e.term.is(senseOperator) || e.term.is(senseLean) || e.term.is(senseShortOf)
}

// behindOperator says whether the last of the elements follows an operator, so
// that what comes next is the next step of a sum: 30 minus 8-3/4 minus 1/8.
func behindOperator(out []element) bool {
	if len(out) < 2 {
		return false
	}
	before := out[len(out)-2]
	return before.term.is(senseOperator) || before.mark == "-" || before.mark == "+"
}

// meters adds up "1 meter 20", which is 1.20 m.
func meters(in []element) []element {
	for i := 0; i+1 < len(in); i++ {
		m, rest := in[i].quantity, in[i+1].quantity
		if m == nil || m.named != "m" || !m.whole || !isWhole(rest) || rest.number < 10 || rest.number > 99 || slices.Contains(geometry.Bends(), usualAngle(rest)) {
			continue
		}
		if i+2 < len(in) && (in[i+2].term.is(senseRole) || in[i+2].term.is(senseMaterial) || in[i+2].term.is(senseJoint)) {
			continue // ends 1 meter, 12 set
		}
		q := *m
		q.number += rest.number / 100
		q.value = q.number * geometry.Meter.Inches()
		q.whole, q.end, q.text = false, rest.end, strconv.FormatFloat(q.number, 'f', 2, 64)+" m"
		out := append(slices.Clone(in[:i]), element{quantity: &q, text: q.text, begin: q.begin, end: q.end})
		in = append(out, in[i+2:]...)
	}
	return in
}

// lines finds the user's own name for a maker's line of fittings: "the grey
// ones". It says which takeoff of theirs is meant.
func lines(in []element) []element {
	for i := range in {
		e := &in[i]
		if e.quantity == nil || e.text != "ones" {
			continue
		}
		for from := i - 2; from >= max(0, i-4); from-- {
			if t := in[from].text; t != "the" && t != "my" && t != "these" {
				continue
			}
			line := element{begin: in[from].begin, end: e.end}
			for _, w := range in[from : i+1] {
				line.line = strings.TrimSpace(line.line + " " + w.text)
			}
			out := append(slices.Clone(in[:from]), line)
			return append(out, in[i+1:]...)
		}
	}
	return in
}

// saidTwice drops a length in brackets that says the one before it another way,
// as our own replies do: 204 (17' 0").
func saidTwice(in []element) []element {
	if !anyOf(in, func(e *element) bool { return e.mark == "(" }) {
		return in
	}
	out := make([]element, 0, len(in))
	for i := 0; i < len(in); i++ {
		out = append(out, in[i])
		if i+3 < len(in) && isPlainLength(in[i].quantity) && in[i+1].mark == "(" && isPlainLength(in[i+2].quantity) &&
			in[i+3].mark == ")" && math.Abs(in[i].quantity.value-in[i+2].quantity.value) < 1.0/16 {
			i += 3
		}
	}
	return out
}

// ofAnInch takes "an eighth of an inch" for what it is.
func ofAnInch(in []element) []element {
	if !anyOf(in, isOneInch) {
		return in
	}
	out := make([]element, 0, len(in))
	for i := 0; i < len(in); i++ {
		e := in[i]
		next := i + 1
		of := next < len(in) && (in[next].text == "of" || in[next].text == "de")
		if of {
			next++
		}
		if isAmount(e.quantity) && e.quantity.unit == noUnit && next < len(in) && isOneInch(&in[next]) && (of || in[next].quantity != nil) {
			q := *e.quantity
			q.unit, q.end = inch, in[next].end
			e.quantity, e.end = &q, q.end
			i = next
		}
		out = append(out, e)
	}
	return out
}

// isOneInch says whether an element is an inch, with no number: an inch, de
// pulgada.
func isOneInch(e *element) bool {
	if e.quantity != nil {
		return e.quantity.article && e.quantity.unit == inch
	}
	return meant(e.term, senseUnit) == "inch" && (e.text == "inch" || e.text == "pulgada")
}

// loneInches gives an inch before a material its number, which is one: inch
// copper. Phones that write down what they hear write "to inch" for two inches,
// and "for inch" for four: the latter is taken so where there is no such pipe of
// one inch.
func loneInches(in []element) []element {
	for i := 0; i+1 < len(in); i++ {
		material, before := meant(in[i+1].term, senseMaterial), element{}
		if in[i].text != "inch" || in[i].quantity != nil || material == "" {
			continue
		}
		if i > 0 {
			before = in[i-1]
		}
		from, number := i, 1.0
		switch sold := catalog.Sold(catalog.Material(material), "1"); {
		case before.term.is(senseTo):
			from, number = i-1, 2
		case before.term.is(senseFor) && !sold:
			from, number = i-1, 4
		case before.term.is(senseFor):
			continue
		}
		q := &quantity{value: number, number: number, unit: inch, whole: true, begin: in[from].begin, end: in[i].end, text: "inch"}
		out := append(slices.Clone(in[:from]), element{quantity: q, begin: q.begin, end: q.end, text: q.text})
		return loneInches(append(out, in[i+1:]...))
	}
	return in
}

// lean moves the number before "heavy" or "light" by a thirty-second, or by
// the fraction said between: "9 a sixteenth light".
func lean(out []element, e element) []element {
	sign := 1.0
	if way, _ := e.term.means(senseLean); way == "light" {
		sign = -1
	}
	n := len(out)
	if n > 1 && isAmount(out[n-1].quantity) && isPlainLength(out[n-2].quantity) && out[n-2].quantity.value >= 1 {
		return append(out[:n-2], merged(out[n-2], e, out[n-2].quantity.value+sign*out[n-1].quantity.value))
	}
	return append(out[:n-1], merged(out[n-1], e, out[n-1].quantity.value+sign*thirtySecond))
}

// heardUnits takes "to" and "for" before a unit for the numbers that sound alike,
// where no other sense can be made of the unit: thirty to feet, for inches apart.
func heardUnits(in []element) []element {
	for i := 1; i < len(in); i++ {
		number := heardNumberIn(in[i-1].text)
		named := unit(meant(in[i].term, senseUnit))
		if number == 0 || in[i].quantity != nil || named != foot && named != inch || in[i].term.is(senseInto) {
			continue
		}
		from := i - 1
		switch {
		case i > 1 && isTens(in[i-2].quantity):
			from, number = i-2, number+in[i-2].quantity.number
		case i+1 < len(in) && (strings.HasPrefix(meant(in[i+1].term, senseRole), string(Spacing)) || onCenters(in[i+1])):
		default:
			continue
		}
		q := &quantity{value: number, number: number, unit: named, whole: true, begin: in[from].begin, end: in[i].end}
		if named == foot {
			q.value *= 12
		}
		for _, e := range in[from : i+1] {
			q.text = strings.TrimSpace(q.text + " " + e.text)
		}
		out := append(slices.Clone(in[:from]), element{quantity: q, text: q.text, begin: q.begin, end: q.end})
		return heardUnits(append(out, in[i+1:]...))
	}
	return in
}

// heardNumberIn is the number that sounds like a small word, or 0.
func heardNumberIn(word string) float64 {
	switch word {
	case "to", "too":
		return 2
	case "for":
		return 4
	}
	return 0
}

// isTens says whether a number is one of the words twenty to ninety, which a
// digit may follow.
func isTens(q *quantity) bool {
	return q != nil && q.whole && q.unit == noUnit && !q.plural && q.number >= 20 && q.number < 100 && math.Mod(q.number, 10) == 0 && !isDigit(q.text[0])
}

// merged is a number that two elements make together.
func merged(from, to element, value float64) element {
	q := &quantity{value: value, number: value, begin: from.begin, end: to.end, text: from.text + " " + to.text}
	if value <= 0 {
		q.bad = q.text
	}
	return element{quantity: q, begin: from.begin, end: to.end, text: q.text}
}

// isWhole says whether a number can be the whole inches before "inch and a
// half".
func isWhole(q *quantity) bool { return isPlainLength(q) && q.whole && q.unit == noUnit }

// isWordAmount says whether a part of an inch was said in words: an eighth.
func isWordAmount(q *quantity) bool {
	return isAmount(q) && q.unit == noUnit && !isDigit(q.text[0])
}

func isOver(e *element) bool { return e.text == "over" && e.term.is(senseRole) }

// meant is the value of a meaning, or "".
func meant(t *term, what sense) string {
	v, _ := t.means(what)
	return v
}

func isAmount(q *quantity) bool { return isPlainLength(q) && q.value > 0 && q.value < 1 }

func isPlainLength(q *quantity) bool { return q != nil && q.isLength() }

func last(elements []element) *quantity {
	if len(elements) == 0 {
		return nil
	}
	return elements[len(elements)-1].quantity
}

// grade is the unit of a number that is a slope; its value is in inches per foot.
const grade unit = "grade"

// slopes finds the grades that are written with a second number or unit:
// 1/4"/ft, 1/4 per foot, 20 mm/m, 1:50, and "1 in 50" where a fall is spoken of.
func slopes(in []element) []element {
	falls := false
	for i := range in {
		e := &in[i]
		falls = falls || meant(e.term, senseHint) == "fall" || e.quantity != nil && (e.quantity.unit == foot || e.quantity.named == "m")
	}
	var out []element
	for i := 0; i < len(in); i++ {
		q := in[i].quantity
		perFoot, length := 0.0, 0
		if q != nil && q.bad == "" {
			perFoot, length = slopeAt(in[i:], falls)
		}
		switch {
		case length == 0 && out == nil:
			continue // most statements have none
		case length == 0:
			out = append(out, in[i])
			continue
		case out == nil:
			out = append(make([]element, 0, len(in)), in[:i]...)
		}
		end := in[i+length-1]
		g := &quantity{value: perFoot, number: perFoot, unit: grade, begin: q.begin, end: end.end}
		for _, e := range in[i : i+length] {
			g.text += e.text
		}
		out = append(out, element{quantity: g, begin: g.begin, end: g.end, text: g.text})
		i += length - 1
	}
	if out == nil {
		return in
	}
	return out
}

// gradesApart cuts a length in feet and inches where "per foot" follows, since the
// inches are then the grade: 25 foot quarter inch per foot.
func gradesApart(in []element) []element {
	for i := range in {
		e := &in[i]
		if e.quantity == nil || e.quantity.unit != foot || i+1 == len(in) || !in[i+1].term.is(sensePerFoot) {
			continue
		}
		for _, parts := range e.quantity.broken {
			if parts[0].unit == foot && parts[1].value <= 2 {
				out := slices.Clone(in[:i])
				for _, q := range parts {
					out = append(out, element{quantity: q, text: q.text, begin: q.begin, end: q.end})
				}
				return append(out, in[i+1:]...)
			}
		}
	}
	return in
}

// slopeAt reads a grade at the start of a run: inches per foot, and how many
// elements it takes; none if there is no grade there.
func slopeAt(run []element, falls bool) (perFoot float64, length int) {
	q := run[0].quantity
	if q.unit == percent {
		return q.number * 12 / 100, 1
	}
	if len(run) < 2 {
		return 0, 0
	}
	next, second := &run[1], (*quantity)(nil)
	if len(run) > 2 {
		second = run[2].quantity
	}
	switch {
	case (next.term.is(sensePerFoot) || next.quantity != nil && next.quantity.article && next.quantity.unit == foot) && q.isLength() && q.value <= 2:
		return q.value, 2
	case next.term.is(sensePerMeter) && q.isLength() && q.unit == metric:
		return geometryPerMeter(q), 2
	case next.mark == "/" && len(run) > 2 && isFootWord(run[2]) && q.isLength():
		return q.value, 3
	case next.mark == "/" && len(run) > 2 && run[2].term == nil && run[2].word == "m" && q.unit == metric:
		return geometryPerMeter(q), 3
	case next.mark == ":" && q.whole && q.unit == noUnit && q.number == 1 && second != nil && second.whole && second.number >= 8:
		return 12 / second.number, 3
	case next.mark == ":" && q.isLength() && q.value <= 2 && second != nil && second.whole && second.number == 12:
		return q.value, 3
	case falls && q.whole && q.weak && q.number == 1 && next.quantity != nil && next.quantity.whole && next.quantity.number >= 8:
		return 12 / next.quantity.number, 2
	}
	return 0, 0
}

func geometryPerMeter(q *quantity) float64 { return q.value / 1000 * 25.4 * 12 }

func isFootWord(e element) bool {
	u, _ := e.term.means(senseUnit)
	return u == "foot"
}
