package parser

// bareLabels gives a number that no word claims the role that its place
// suggests: the first length is the set.
func (s *scene) bareLabels(i int, q *quantity) []label {
	var out []label
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
	case s.hint("lookup") || s.hint("multiplier") || s.trims():
	case joined && !s.hasRole(Set):
		add(Roll, 1)
		add(Rise, 1)
	case s.hint("piece") && !s.hasRole(Set):
		cost := 1.4
		if _, c := s.angleOf(i, q); c < 1 {
			cost++
		}
		add(CenterToCenter, cost)
	}
	if s.names(TakeoffOf) && q.value <= 12 && !s.looksUp(i, q) {
		add(TakeoffOf, 1.4)
	}
	if i > 0 && s.elements[i-1].term.is("and") && !s.hasRole(Set) && !falls {
		add(Rise, 2.2)
	}
	if i+1 < len(s.elements) && s.elements[i+1].term.is("and") && !s.hasRole(Set) && !falls {
		add(Roll, 2.2)
	}
	if !s.hasRole(Set) && !s.hasRole(Roll) && !s.hint("shopping") && (!falls || s.has("bend")) && !s.hint("lookup") && !s.hint("multiplier") && !s.trims() {
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
