package parser

import "strings"

// bareLabels gives a number that no word claims the role that its place
// suggests: the first length is the set.
func (s *scene) bareLabels(i int, q *quantity) []label {
	var out []label
	if s.wordsOtherwise(i) {
		return nil
	}
	add := func(r Role, cost float64) { out = append(out, label{role: r, term: -1, cost: cost, bare: true}) }
	joined := i+1 < len(s.elements) && s.elements[i+1].term.is("by") || i > 0 && s.elements[i-1].term.is("by")
	falls := s.falls()
	switch {
	case falls:
		if q.unit == foot || q.named == "m" {
			add(Long, 0.3)
		} else {
			add(Long, 2.4)
		}
		if i > 0 && s.elements[i-1].term.is("at") && q.value <= 1 {
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
		add(CenterToCenter, cost)
	}
	if s.names(TakeoffOf) && q.value <= 12 && !s.looksUp(i, q) {
		add(TakeoffOf, 1.4)
	}
	if s.hint("around") && i > 0 && s.elements[i-1].term.is("by") {
		add(Clearance, 0.3) // past center by 1
	}
	if i > 0 && s.elements[i-1].term.is("and") && !s.hasRole(Set) && !falls {
		add(Rise, 2.2)
	}
	if i+1 < len(s.elements) && s.elements[i+1].term.is("and") && !s.hasRole(Set) && !falls {
		add(Roll, 2.2)
	}
	if !s.hasRole(Set) && !s.hasRole(Roll) && !s.hint("shopping") && !s.hint("around") && (!falls || s.has("bend")) && !s.hint("lookup") && !s.multiplies() && !s.trims() {
		cost := 2.0
		if i+1 < len(s.elements) && (s.elements[i+1].term.is("fitting") || s.elements[i+1].term.is("bend")) {
			cost++ // two tees
		}
		add(Set, cost)
	}
	if s.opensWithSame() && !s.hasRole(Set) {
		add(Set, 0.5)
	}
	return out
}

// wordsOtherwise says whether the word right behind a number names a role that
// has no place in this statement: such a number is nothing that a bare one is.
func (s *scene) wordsOtherwise(i int) bool {
	if i+1 >= len(s.elements) {
		return false
	}
	value, ok := s.elements[i+1].term.means("role")
	role, how, _ := strings.Cut(value, " ")
	return ok && Role(role) == Long && s.roleHere(Role(role), how, i, i+1) == Bare
}
