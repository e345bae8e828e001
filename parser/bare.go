package parser

import (
	"slices"
)

// bareLabels gives a number that no word claims the role that its place
// suggests: the first length is the set.
func (s *scene) bareLabels(out []label, i int, q *quantity) []label {
	if s.wordsOtherwise(i) || s.countsFittings(i) {
		return out
	}
	add := func(r Role, cost float64) { out = append(out, label{role: r, term: -1, cost: cost, bare: true}) }
	joined := i+1 < len(s.elements) && s.elements[i+1].term.is(senseBy) || i > 0 && s.elements[i-1].term.is(senseBy)
	falls := s.falls()
	switch {
	case falls && s.inFeet(i):
		add(Drop, 0.2)
	case falls:
		if q.unit == foot || q.named == "m" {
			add(Long, 0.3)
		} else {
			add(Long, 2.4)
		}
		if i > 0 && s.elements[i-1].term.is(senseAt) && q.value <= 1 {
			add(Grade, 0.3)
		}
	case s.hint("lookup") || s.multiplies() || s.trims():
	case joined && !s.hasRole(Set):
		add(Roll, 1)
		add(Rise, 1)
	case s.pieces() && !s.hasRole(Set):
		cost := 1.4
		if _, c := s.angleOf(i, q); c < 1 {
			cost++
		}
		if s.otherAngle(i) && !s.onlyNineties() && !s.hint("between") {
			cost += 0.3 // a nipple and 45s: an offset's, as well as not
		}
		add(CenterToCenter, cost)
	}
	if s.twoLines && !s.plainlyAngle(i) {
		add(Reading, 1)
	}
	if s.names(TakeoffOf) && q.value <= 12 && !s.looksUp(i, q) {
		add(TakeoffOf, 1.4)
	}
	if s.hint("fit") && i > 0 && s.elements[i-1].text == "in" && !s.hasOver() {
		add(Room, 0.8) // a 12 inch offset in 16 inches
	}
	if s.hint("fit") && s.hasOver() && i > 0 && endsWithIn(s.elements[i-1]) {
		add(Run, 0.5) // over 6 in 2 ft
	}
	if s.hint("around") && i > 0 && s.elements[i-1].term.is(senseBy) {
		add(Clearance, 0.3) // past center by 1
	}
	if i > 0 && s.elements[i-1].term.is(senseAnd) && !s.hasRole(Set) && !falls && !s.trims() {
		add(Rise, 2.2)
	}
	if i+1 < len(s.elements) && s.elements[i+1].term.is(senseAnd) && !s.hasRole(Set) && !falls && !s.trims() {
		add(Roll, 2.2)
	}
	if !s.hasRole(Set) && !s.hasRole(Roll) && !s.asksSet && !s.hint("shopping") && !s.hint("around") && (!falls || s.has(senseBend)) && !s.hint("lookup") && !s.multiplies() && !s.trims() {
		cost := 2.0
		if i+1 < len(s.elements) && (s.elements[i+1].term.is(senseFitting) || s.elements[i+1].term.is(senseBend)) {
			cost++ // two tees
		}
		if (s.has(senseFitting) || s.onlyNineties()) && s.has(senseMethod) {
			cost++ // center to center of two tees
		}
		add(Set, cost)
	}
	if s.opensWithSame() && !s.hasRole(Set) {
		add(Set, 0.5)
	}
	return out
}

// inFeet says whether number i is no feet and such a number follows it with
// nothing but "in" or "over" between: 5-1/4 inches in 21 feet.
func (s *scene) inFeet(i int) bool {
	q := s.elements[i].quantity
	next := i + 1
	if next < len(s.elements) && slices.Contains([]string{"in", "over", "en", "across"}, s.elements[next].text) {
		next++
	} else if !q.weak {
		return false
	}
	return q.unit != foot && next < len(s.elements) && s.elements[next].quantity != nil && s.elements[next].quantity.unit == foot
}

// endsWithIn says whether an element is the word "in", or a number before it: 6
// in 2 ft.
func endsWithIn(e element) bool { return e.text == "in" || e.quantity != nil && e.quantity.weak }

func (s *scene) hasOver() bool { return anyOf(s.elements, isOver) }

// wordsOtherwise says whether the word right behind a number names a role that
// has no place in this statement: such a number is nothing that a bare one is.
func (s *scene) wordsOtherwise(i int) bool {
	if i+1 >= len(s.elements) {
		return false
	}
	next := s.elements[i+1].term
	return next.names(Long) && s.roleHere(Long, next.how, i, i+1) == Bare
}
