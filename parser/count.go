package parser

import (
	"slices"
	"strings"

	"dogleg/geometry"
)

// tellsHowFarOff says whether the words from i on are long, too short, off and so
// on: what stands before is a difference.
func (s *scene) tellsHowFarOff(i int) bool {
	if i < len(s.elements) && s.elements[i].text == "too" {
		i++
	}
	return i < len(s.elements) && slices.Contains([]string{"long", "short", "off", "over", "under", "wide", "big"}, s.elements[i].text)
}

// countLabel takes the number for how many there are of what follows.
func (s *scene) countLabel(i int, q *quantity) (label, bool) {
	if l, ok := s.counts(i, q); ok || !isSmallWord(q) || !s.sizeFollows(i) {
		return l, ok
	}
	return label{role: Bare, term: -1, count: true, cost: 3.4}, true // two 4 cast 60s
}

// sizeFollows says whether a size and its material stand right behind number i.
func (s *scene) sizeFollows(i int) bool {
	return i+2 < len(s.elements) && s.elements[i+1].quantity != nil && s.elements[i+2].term.is(senseMaterial)
}

// isSmallWord says whether a number is one of the words one to four by itself, which
// counts something more often than not.
func isSmallWord(q *quantity) bool {
	return q.whole && q.unit == noUnit && !q.plural && q.number >= 1 && q.number <= 4 && !isDigit(q.text[0])
}

// counts is how many there are of what follows, where that is plain.
func (s *scene) counts(i int, q *quantity) (label, bool) {
	if s.hint("check") && isAmount(q) && s.tellsHowFarOff(i+1) {
		return label{role: Bare, term: -1, count: true, cost: 0.01}, true // "it's an eighth long": the figures say it better
	}
	if l, ok := s.asideLabel(i, q); ok {
		return l, ok
	}
	if i >= 2 && q.whole && s.elements[i-1].text == "x" && s.elements[i-2].quantity != nil && s.plainlyAngle(i-2) {
		return label{role: Bare, term: -1, count: true, cost: 0.2}, true // 45 x2
	}
	if i >= 1 && q.whole && q.unit == noUnit && q.number <= 4 && s.elements[i-1].mark == "(" && i+2 < len(s.elements) && s.elements[i+1].mark == ")" && s.elements[i+2].quantity != nil && s.plainlyAngle(i+2) {
		return label{role: Bare, term: -1, count: true, cost: 0.1}, true // (2) 45°
	}
	if s.hint("around") && s.material != "" && i+1 < len(s.elements) && s.elements[i+1].term.is(sensePipe) && i+2 < len(s.elements) && !s.elements[i+2].term.is(senseMaterial) {
		return label{role: Bare, term: -1, count: true, cost: 0.5}, true // jump a 6 in pipe
	}
	if i == s.bankAt() {
		return label{role: LineCount, term: -1, count: true, cost: 0.1}, true
	}
	if q.whole && q.unit == noUnit && !isDigit(s.elements[i].text[0]) && q.number <= 10 && i+1 < len(s.elements) &&
		(strings.HasSuffix(s.elements[i+1].word, "s") || s.elements[i+1].term.is(senseStub)) {
		return label{role: Bare, term: -1, count: true, cost: 0.8}, true // the two stubs
	}
	if q.whole && q.unit == noUnit && !q.plural && q.number >= 2 && i+2 < len(s.elements) {
		next := &s.elements[i+1]
		if meant(next.term, senseHint) == "parallel" && next.text != "bank" {
			return label{role: LineCount, term: -1, count: true, cost: 0.1}, true // 2 parallel 45s
		}
		if !isDigit(s.elements[i].text[0]) && next.quantity != nil && (next.quantity.unit == inch || !next.quantity.whole) && s.elements[i+2].term.is(senseMaterial) {
			return label{role: Bare, term: -1, count: true, cost: 0.5}, true // the two 3 inch pvc pipes
		}
	}
	if !q.whole || q.unit != noUnit || q.plural || q.number < 1 || q.number > 60 || i+1 >= len(s.elements) {
		return label{}, false
	}
	next := &s.elements[i+1]
	if a, cost := s.angleOf(i, q); cost < 1 && a >= geometry.ThirtySecondBend && !s.hint("shopping") {
		return label{}, false
	}
	l := label{role: Bare, term: -1, count: true, cost: 3}
	if meant(next.term, senseHint) == "shopping" {
		l.cost = 0
		return l, true
	}
	if s.elements[i].text == "one" {
		l.cost = 1
		return l, true
	}
	switch {
	case next.term.is(senseBend) || next.term.is(senseFitting) || next.term.is(senseStreet) || next.term.is(senseSweep):
		l.cost = 0.3
	case next.text == "x" && i+2 < len(s.elements) && s.elements[i+2].quantity != nil:
		if a, cost := s.angleOf(i+2, s.elements[i+2].quantity); cost > 1 || a == 0 {
			return label{}, false
		}
		l.cost = 0.6
	case next.term.is(sensePipe) && s.bank():
		l.role, l.cost = LineCount, 0.05
	case next.quantity == nil && !isDigit(s.elements[i].text[0]) && (next.term.is(sensePipe) || meant(next.term, senseHint) == "mark" || next.text == "ends" || next.text == "puntas"):
		l.cost = 0.5 // the two standing ends
	case next.quantity == nil:
		return label{}, false
	case q.number == 2 && next.quantity.unit == noUnit && s.plainlyAngle(i+1):
		l.cost = 0.8 // two 45 3 pvc
	case next.quantity.plural || s.besideBend(i+1):
		switch {
		case s.hint("need") && !s.namesAny():
			l.cost = 0 // need 6 45s in 3 inch: a shopping line
		case q.number == 2:
			l.cost = 0.5
		}
	default:
		return label{}, false
	}
	if s.hint("shopping") && l.role == Bare {
		l.cost = 0
	}
	if l.cost > 2 {
		return label{}, false // a number is never dropped that could be a length
	}
	return l, true
}
