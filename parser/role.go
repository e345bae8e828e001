package parser

import (
	"slices"
	"strings"

	"dogleg/geometry"
)

// roleLabels lists the roles that words nearby would give the number.
func (s *scene) roleLabels(out []label, i int, q *quantity) []label {
	from := len(out)
	for j := range s.elements {
		e := &s.elements[j]
		if !e.term.is(senseRole) {
			continue
		}
		how := e.term.how
		cost := s.between(i, j)
		if cost > 3.5 {
			continue
		}
		r := s.roleHere(e.term.role, how, i, j)
		if r == Bare {
			continue
		}
		if j < i && s.namedBehind(i) {
			cost += 0.7 // travel on a 17-3/16 set
		}
		if (r == TakeoffOf || r == Face || r == Depth) && s.looksUp(i, q) {
			cost += 3.2
		}
		if (r == Set || r == Cut) && strings.Contains(how, "soft") && s.plainlyAngle(i) {
			cost++ // a 45 offset
		}
		if (r == Spacing || r == TakeoffOf) && s.plainlyAngle(i) {
			cost += 1.5
		}
		if r == Cut && s.looksUp(i, q) {
			cost++ // cut a 10 inch elbow, cut length 2 in pvc
		}
		if s.countsFittings(i) && r != LineCount {
			cost++ // two ells
			if r == DryFit {
				cost += 2 // dry fitted two 45s
			}
		}
		if r == Obstacle && j < i && e.text != "wide" {
			cost += 1.5 // a 10 in beam, not a beam 10 in
		}
		if r == LineCount {
			if j < i {
				cost++ // three lines, not lines three
			}
			if q.whole && q.unit == noUnit && q.number >= 2 && q.number <= 60 {
				out = append(out, label{role: r, term: j, cost: cost, count: true})
			}
			continue
		}
		if r == Grade && q.number > 2 {
			continue
		}
		out = append(out, label{role: r, term: j, cost: cost + implausible(r, q)})
	}
	if travels(out[from:]) {
		return out
	}
	return s.methodLabels(out, i)
}

// travels says whether a word names a number the travel, which is always measured
// from center to center: diagonal center to center is 20.
func travels(labels []label) bool {
	return slices.ContainsFunc(labels, func(l label) bool { return l.role == Travel && l.term >= 0 && l.cost < 1.6 })
}

// namedBehind says whether a word right behind number i says what it is, and is
// not the word for what follows.
func (s *scene) namedBehind(i int) bool {
	if i+1 >= len(s.elements) || i+2 < len(s.elements) && s.elements[i+2].quantity != nil {
		return false
	}
	next := &s.elements[i+1]
	if i+3 < len(s.elements) && s.elements[i+2].term.is(senseLink) && s.elements[i+3].quantity != nil {
		return false
	}
	switch role := meant(next.term, senseRole); {
	case next.term.is(senseMethod):
		return s.bank()
	case strings.Contains(role, "soft"):
		return strings.HasPrefix(role, string(Set))
	default:
		return role != ""
	}
}

// says is whether a word stands somewhere in the statement.
func (s *scene) says(word string) bool {
	return anyOf(s.elements, func(e *element) bool { return e.text == word })
}

// looksUp says whether the number after "takeoff" is the size of the pipe whose
// takeoff is looked up: takeoff 3/4 copper 90.
func (s *scene) looksUp(i int, q *quantity) bool {
	_, real := realSize(s.material, sizeOf(q), q)
	if !real || i+1 >= len(s.elements) {
		return false
	}
	next := &s.elements[i+1]
	if next.term.is(senseMaterial) || next.term.is(senseJoint) || next.term.is(sensePipe) || next.term.is(senseScheduled) {
		return true
	}
	if next.quantity == nil {
		return next.term.is(senseStreet) || next.term.is(senseSweep) || next.term.is(senseFitting)
	}
	_, cost := s.angleOf(i+1, next.quantity)
	return cost < 1 && (q.unit == inch || q.value >= 2)
}

// roleHere is what a word means in this statement: "run" is a length in a fall.
func (s *scene) roleHere(r Role, how string, i, j int) Role {
	falls := s.falls()
	switch {
	case r == "spread" && s.hint("rolling"):
		return Roll
	case r == "spread" && (s.hasRole(LineCount) || s.hint("parallel")):
		return Spacing
	case r == "spread":
		return Set
	case r == Set && isWanted(&s.elements[j]) && s.has(senseMethod) && s.hint("piece") && !s.names(DryFit):
		return CenterToCenter // end to center of the 90 should be 33-7/16
	case r == "wanted":
		switch {
		case s.hint("check"):
			return Set
		case s.hint("around"):
			return Clearance
		}
		return Bare
	case r == Cut && s.pieces() && how == "soft" && !s.hasRole(Set):
		return Bare // cut between two tees: it asks
	case r == Cut && s.trims(), r == Set && s.trims():
		return Bare
	case r == StickOut && s.count(Reading) > 1:
		return Bare
	case r == Set && s.multiplies(), r == Travel && s.multiplies(), r == Run && s.multiplies():
		return Bare
	case r == Set && s.wantsOther(j):
		return DryFit
	case r == TakeoffOf && s.hint("check") && s.elements[j].text == "take off":
		return Bare // how much do I take off
	case r == Cut && how == "soft piece" && !s.hint("check") && !s.asksSet:
		return Bare
	case r == Spacing && (s.hasRole(Set) || s.hasRole(Roll) || s.says("pipe ends") && s.names(Set)) && (s.says("ends") || s.says("pipe ends") || s.says("puntas") || s.has(senseStub)) && !s.bank():
		if s.hint("fit") {
			return Room
		}
		return GapNow
	case r == Room && falls && (!s.hint("fit") || s.hint("fall") && !s.names(Set) && !s.names(Roll)):
		return Drop // I only have 5 inches
	case r == Spacing && s.hint("fit"):
		return Room
	case r == Room && s.marks() && (!s.hint("fit") || s.says("stub")):
		return GapNow
	case r == Rise && falls && (s.elements[j].text == "of height" || s.elements[j].text == "lower" && !s.names(Set) && !s.names(Roll)):
		return Drop
	case r == JointGap && s.marks() && !s.has(senseJoint):
		return GapNow
	case r == GapNow && s.hint("fit"):
		return Room
	case r == GapNow && s.hint("around"):
		return Clearance
	case (r == StickOut || s.elements[j].term.is(senseFromWall)) && s.endsFromWall():
		return Reading
	case isPlace(s.elements[j]) && s.twoLines:
		return Reading
	case r == Reading && (!s.marks() && !s.hint("check") || strings.HasPrefix(s.elements[j].text, "tape") && s.has(senseMethod)):
		return Bare
	case r == DryFit && strings.Contains(how, "soft") && !s.hint("check"):
		return Bare
	case r == Reading && s.hint("check"):
		return DryFit
	case r == Clearance && s.hint("fit") && !s.hint("around"):
		return Room
	case r == Drop && s.marks() && !falls:
		return Bare
	case r == Spacing && (s.pieces() || s.onlyNineties() || !s.linesApart() && s.has(senseBoth) && s.has(senseBend) && !s.names(Set)) && !s.bank():
		return CenterToCenter
	case r == Spacing && falls:
		return Long
	case r == Roll && strings.Contains(how, "over") && falls:
		return Long
	case r == Run && falls && !s.hasRole(Set):
		return Long
	case r == "makeup":
		return TakeoffOf
	case r == Reach && s.marks() && !s.hint("around"):
		return StickOut
	case r == StickOut && (s.hint("around") || s.has(senseObstacle)):
		return Reach
	case r == Clearance && s.marks() && !s.hint("around"):
		return GapNow
	case r == Spacing && s.marks() && !s.hint("parallel"):
		return GapNow
	case r == Drop && !falls && s.elements[j].text == "dropping":
		return Bare // dropping a 3 inch stack through the wall
	case r == Drop && !falls && (s.names(Roll) || s.hint("rolling")):
		return Rise
	case r == Long && s.has(senseObstacle):
		return Obstacle
	case r == Long && !falls && s.pieces():
		return CenterToCenter
	case r == Long && !falls && (s.has(senseScrap) || s.asksSet):
		return Cut
	case r == Long && !falls && !s.asked(j):
		return Bare
	}
	return r
}

// wantsOther says whether the word at j names the set that a dry fit came to,
// since another word says which was wanted: the set's 8-7/8 dry, need 9-1/8.
func (s *scene) wantsOther(j int) bool {
	if !s.hint("check") || isWanted(&s.elements[j]) || j+1 < len(s.elements) && isWanted(&s.elements[j+1]) || s.wantedRightBefore(j) || j > 1 && s.elements[j-1].quantity != nil && s.wantedRightBefore(j-1) {
		return false
	}
	return anyOf(s.elements, isWanted)
}

// wantedRightBefore says whether a word for what is wanted stands before element j
// with nothing but an article between: wanted a set of 12.
func (s *scene) wantedRightBefore(j int) bool {
	for j--; j >= 0 && s.elements[j].term.is(senseArticle); j-- {
	}
	return j >= 0 && isWanted(&s.elements[j])
}

// isWanted says whether a word goes before the length that a dry fit should have
// come to.
func isWanted(e *element) bool {
	role := meant(e.term, senseRole)
	return strings.HasPrefix(role, "wanted") || strings.HasPrefix(role, string(Set)) && meant(e.term, senseHint) == "check"
}

// endsFromWall says whether a tape was read from one wall to both standing ends.
func (s *scene) endsFromWall() bool {
	walls := 0
	for i := range s.elements {
		e := &s.elements[i]
		if e.term.is(senseFromWall) {
			walls++
		}
	}
	return walls > 1 && s.names(StickOut)
}

// wantsSet says whether the set is what is asked for.
func (s *scene) wantsSet() bool {
	for j := range s.elements {
		e := &s.elements[j]
		if meant(e.term, senseWant) == string(Set) || e.term.names(Set) && s.asked(j) {
			return true
		}
	}
	return false
}

// implausible is the added cost of a length that its role rarely has.
func implausible(r Role, q *quantity) float64 {
	switch r {
	case TakeoffOf, Face, Depth, JointGap:
		if q.value > 24 {
			return 4
		}
	case DryFit:
		if q.value < 1 {
			return 2
		}
	case Drop:
		if q.unit == foot || q.named == "m" {
			return 1.5
		}
	case Grade:
		if q.unit == foot || q.value > 1 {
			return 2
		}
	}
	return 0
}

// methodLabels lets the way a tape was laid claim a number that no role does:
// "13-7/8 out to out" is a set, "24 face to face" a piece.
func (s *scene) methodLabels(out []label, i int) []label {
	if s.countsFittings(i) {
		return out
	}
	for j := range s.elements {
		e := &s.elements[j]
		if !e.term.is(senseMethod) {
			continue
		}
		if cost := s.methodCost(i, j); cost < 1.5 {
			l := label{role: s.methodRole(e.term), term: j, cost: cost + 0.8, bare: true}
			if j < i && s.looksUp(i, s.elements[i].quantity) {
				l.cost += 2.6 // center to end of a 10 inch weld 90
			}
			if l.role == Spacing && j == i+1 {
				l.cost = 0.1 // on ten inch centers
			}
			out = append(out, l)
		}
	}
	return out
}

// countsFittings says whether a number is how many fittings there are: the two
// ells.
func (s *scene) countsFittings(i int) bool {
	q := s.elements[i].quantity
	if q == nil || !q.whole || q.unit != noUnit || q.number > 4 || i+1 >= len(s.elements) {
		return false
	}
	next := &s.elements[i+1]
	return next.term.is(senseBend) || next.term.is(senseFitting) || q.number == 2 && next.quantity != nil && next.quantity.plural
}

// methodRole says what a measure is that only its method names.
func (s *scene) methodRole(t *term) Role {
	value, _ := t.means(senseMethod)
	switch Method(value) {
	case EndToEnd:
		if s.hint("fit") {
			return Room
		}
		if s.marks() {
			return GapNow
		}
		if s.asksSet {
			return Cut // what there is of pipe
		}
		return CenterToCenter
	case FaceToFace, CenterToFace, EndToCenter, "shoulder-to-shoulder":
		return CenterToCenter
	case BackToBack:
		if s.onlyNineties() {
			return CenterToCenter
		}
	case Centers:
		if s.hint("check") && anyOf(s.elements, isWanted) {
			return DryFit // 30-1/16 center to center, supposed to be 29-1/2
		}
		if s.unlikeBends() || s.unlikeTakeoffs() || s.pieces() || s.has(senseFitting) || s.onlyNineties() {
			return CenterToCenter
		}
	case OutsideToOutside, InsideToInside, OutsideToInside, CenterToOutside, CenterToInside:
	}
	if s.bank() {
		return Spacing
	}
	return Set
}

// unlikeTakeoffs says whether there is a takeoff for each end and no bend: no
// offset is made of these.
func (s *scene) unlikeTakeoffs() bool {
	return s.names(TakeoffOf) && s.has(senseOtherEnd) && !anyOf(s.elements, func(e *element) bool {
		return e.quantity != nil && (e.quantity.plural || e.quantity.unit == degree)
	})
}

// unlikeBends says whether two bends that differ are named together: 90 to 45.
func (s *scene) unlikeBends() bool {
	last, at := geometry.Angle(0), 0
	for i := range s.elements {
		e := &s.elements[i]
		if e.quantity == nil {
			continue
		}
		if a, cost := s.angleOf(i, e.quantity); cost < 1.5 {
			if last != 0 && a != last && s.joined(at, i) {
				return true
			}
			last, at = a, i
		}
	}
	return false
}
