package parser

import (
	"slices"
	"strings"

	"dogleg/geometry"
)

// arithmetic reads a line of tape arithmetic: lengths with + - × ÷ between, or
// one length to be said another way. Anything else in it makes it no sum.
func arithmetic(text string, in []element) *Ask {
	if len(in) > mostElements {
		return nil
	}
	s := &sumReader{}
	in = distributed(swapped(divided(in)))
	s.addsUp = addsList(in)
	for i, e := range in {
		if !s.take(i, e, in) {
			return nil
		}
	}
	if len(s.sum.Terms) == 0 || len(s.sum.Operators) != len(s.sum.Terms)-1 {
		return nil
	}
	if len(s.sum.Terms) == 1 && !s.converts && !s.single.reads() {
		return nil
	}
	s.plainNumbers()
	return &Ask{Kind: Sum, Sum: &s.sum, Language: s.language}
}

// sumReader builds up a line of arithmetic.
type sumReader struct {
	sum      Arithmetic
	open     bool // an operator waits for its second term
	converts bool
	language Language // empty where no word is of any
	single   soleLength
	halve    bool
	addsUp   bool // a list: a comma and an "and" are a plus
}

// soleLength is a message of one length and nothing else.
type soleLength struct{ q *quantity }

func (s soleLength) reads() bool { return s.q != nil && s.q.bad == "" }

// take reads one element; false means that this is no sum.
func (s *sumReader) take(i int, e element, in []element) bool {
	if e.term != nil && s.language != Spanish && !e.term.is(senseUnit) {
		s.language = e.term.language
	}
	switch {
	case e.quantity != nil:
		return s.quantity(e.quantity)
	case e.mark == "+":
		return s.operator(Plus)
	case e.mark == "-":
		return s.operator(Minus)
	case e.mark == "/" || e.mark == "÷":
		return s.operator(Divide)
	case e.text == "x" && e.term.is(senseBy):
		return s.operator(Times)
	case s.addsUp && e.mark == ",", s.addsUp && e.term.is(senseAnd) && s.open:
		return s.open || s.operator(Plus) // 14-1/2, 22-3/8, and 5-1/4
	case s.addsUp && e.term.is(senseWith):
		return s.operator(Plus)
	case s.addsUp && e.mark == ":" && len(s.sum.Terms) == 0:
		return true
	case e.mark == "=" || e.mark == "?" || e.mark == "." || e.mark == ",":
		return i+1 == len(in) || e.mark == "="
	case e.term.is(senseOperator):
		name, _ := e.term.means(senseOperator)
		return s.operator(map[string]Operator{"plus": Plus, "minus": Minus, "times": Times, "divide": Divide}[name])
	case e.term.is(senseAnd):
		return s.operator(Plus)
	case e.term.is(senseLink) && e.text == "of" || e.text == "de":
		return s.partOf()
	case e.term.is(senseHalfOf):
		s.halve = true
		return len(s.sum.Terms) == 0
	case e.term.is(senseInto):
		to, _ := e.term.means(senseInto)
		s.converts, s.sum.InMetric = true, to == "mm"
		return true
	case e.term.is(senseUnit):
		return s.targetUnit(e)
	case e.text == "each", e.term.is(senseAsk), e.term.is(senseFiller), e.term.is(senseLink), e.term.is(senseSum), e.term.is(senseArticle), e.term.is(senseTo):
		return true
	}
	return false
}

// targetUnit reads "mm" and "inches" that stand after the length: 5/8 in mm.
func (s *sumReader) targetUnit(e element) bool {
	if len(s.sum.Terms) == 0 {
		return false
	}
	u, _ := e.term.means(senseUnit)
	s.converts, s.sum.InMetric = true, u == "mm" || u == "cm" || u == "m"
	return true
}

// partOf reads "a third of": the fraction before it multiplies what follows.
func (s *sumReader) partOf() bool {
	if len(s.sum.Terms) != 1 || s.open || s.sum.Terms[0].Length >= 1 {
		return len(s.sum.Terms) == 0
	}
	s.sum.Terms[0].Number, s.sum.Terms[0].Plain = s.sum.Terms[0].Length.Inches(), true
	return s.operator(Times)
}

// addsList says whether a statement begins by telling to add up what follows.
func addsList(in []element) bool {
	return len(in) > 0 && slices.Contains([]string{"add", "add up", "total", "total of", "sum", "sum of", "sum up", "suma", "sumar"}, in[0].text)
}

// divided turns "split 94-1/2 into 6 equal pieces" into 94-1/2 ÷ 6.
func divided(in []element) []element {
	if len(in) > 3 && isPlainLength(in[0].quantity) && in[1].text == "into" && anyOf(in[3:], isShare) {
		in = append([]element{{text: "divide"}}, in...) // 101-1/4 into 5 equal parts
	}
	for i, e := range in {
		if i+3 >= len(in) || !isPlainLength(in[i+1].quantity) || !isSplit(e) || in[i+2].text != "into" && in[i+2].text != "in" && in[i+2].text != "en" {
			continue
		}
		parts := in[i+3].quantity
		if parts == nil || !parts.whole || parts.unit != noUnit || parts.number < 2 {
			return in
		}
		out := append(slices.Clone(in[:i]), in[i+1], element{mark: "÷", text: "÷"}, in[i+3])
		return append(out, slices.DeleteFunc(slices.Clone(in[i+4:]), func(e element) bool { return isShare(&e) })...)
	}
	return in
}

func isSplit(e element) bool {
	return slices.Contains([]string{"split", "divide", "divided", "cut", "divide up", "dividir", "divido", "parte", "partir"}, e.text)
}

// isShare says whether a word names what something is divided into.
func isShare(e *element) bool {
	return slices.Contains([]string{
		"equal", "even", "same", "evenly", "equally", "pieces", "parts", "spaces", "lengths", "sections", "cuts",
		"how long", "each", "each one", ",", "partes", "iguales", "pedazos", "tramos", "piezas",
	}, e.text)
}

// swapped turns "subtract 2 from 31" and "take 2 off of 31" round: 31 - 2.
func swapped(in []element) []element {
	for i := range in {
		e := &in[i]
		if i+3 >= len(in) || in[i+1].quantity == nil || !e.term.is(senseSubtract) && e.text != "take" {
			continue
		}
		from := i + 2
		if t := in[from].text; t != "from" && t != "off" && t != "out" && t != "off of" {
			return in
		}
		if in[from+1].text == "of" {
			from++
		}
		if from+1 >= len(in) || in[from+1].quantity == nil {
			return in
		}
		out := append(slices.Clone(in[:i]), in[from+1], element{mark: "-", text: "-"}, in[i+1])
		return append(out, in[from+2:]...)
	}
	return in
}

// distributed opens one bracket: (9 + 4) x 2 is 9 x 2 + 4 x 2.
func distributed(in []element) []element {
	end := -1
	for i := range in {
		e := &in[i]
		if e.mark == ")" {
			end = i
		}
	}
	if len(in) < 5 || in[0].mark != "(" || end < 0 {
		return in
	}
	factor := in[end+1:]
	if len(factor) == 0 {
		return in[1:end]
	}
	var out []element
	for _, e := range in[1:end] {
		if e.quantity == nil && e.mark != "+" && e.mark != "-" {
			return in
		}
		out = append(out, e)
		if e.quantity != nil {
			out = append(out, factor...)
		}
	}
	return out
}

func (s *sumReader) operator(o Operator) bool {
	if s.open || len(s.sum.Terms) == 0 {
		return false
	}
	s.open = true
	s.sum.Operators = append(s.sum.Operators, o)
	return true
}

// quantity adds a term. A mixed number written "12 - 5/8" is a subtraction
// here, and an improper fraction is a division: 24/2.
func (s *sumReader) quantity(q *quantity) bool {
	if !q.isLength() && q.bad == "" {
		return false
	}
	if strings.Contains(q.text, " - ") && len(q.broken) > 0 {
		return s.quantity(q.broken[0][0]) && s.operator(Minus) && s.quantity(q.broken[0][1])
	}
	if over, under, ok := strings.Cut(q.text, "/"); ok && q.unit == noUnit && q.value >= 1 && isDigits(over) && isDigits(under) {
		return s.term(Term{Length: geometry.Length(parsed(over)), Text: over}, q) && s.operator(Divide) &&
			s.term(Term{Length: geometry.Length(parsed(under)), Text: under}, q)
	}
	if q.bad != "" {
		return false
	}
	t := Term{Length: q.length(), Text: strings.TrimSpace(q.text)}
	if q.unit == noUnit {
		t.Number = q.number
	}
	if s.halve {
		s.halve = false
		return s.term(t, q) && s.operator(Divide) && s.term(Term{Number: 2, Length: 2, Text: "2"}, q)
	}
	return s.term(t, q)
}

func (s *sumReader) term(t Term, q *quantity) bool {
	if s.addsUp && !s.open && len(s.sum.Terms) > 0 {
		s.operator(Plus) // add up 12-3/8 9-1/4
	}
	if !s.open && len(s.sum.Terms) > 0 {
		return false
	}
	s.open = false
	if t.Number == 0 && q.unit == noUnit {
		t.Number = t.Length.Inches()
	}
	s.single = soleLength{q}
	s.sum.Terms = append(s.sum.Terms, t)
	return true
}

func isDigits(s string) bool {
	for i := range len(s) {
		if !isDigit(s[i]) {
			return false
		}
	}
	return s != ""
}

// plainNumbers settles which terms only count: what a length is multiplied or
// divided by, if it has no unit.
func (s *sumReader) plainNumbers() {
	terms := s.sum.Terms
	unitless := func(t Term) bool { return t.Number != 0 || t.Length == 0 }
	for i, o := range s.sum.Operators {
		switch {
		case o != Times && o != Divide:
		case !terms[i].Plain && unitless(terms[i+1]):
			terms[i+1].Plain, terms[i+1].Number = true, terms[i+1].Length.Inches()
		case terms[i].Plain:
		case o == Times && unitless(terms[i]):
			terms[i].Plain = true
		}
	}
}
