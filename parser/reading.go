package parser

import (
	"slices"
	"strings"

	"dogleg/geometry"
)

// reading is one way to read a statement: a label for each of its numbers.
type reading struct {
	scene  *scene
	labels []label // one a number, in order
	at     []int   // the element of each number
	cost   float64
}

// mostNumbers is how many numbers one statement may hold: more than anyone
// gives for one thing, and few enough to try every reading.
const mostNumbers = 10

// read finds the best reading of a statement and the second best that differs.
func read(text string, in []element) (best, second *reading) {
	if !readable(in) {
		return nil, nil
	}
	for _, s := range scenes(text, in) {
		newSearch(s).run(&best, &second)
	}
	return best, second
}

// newSearch lists the labels of every number in a scene, the cheapest first.
func newSearch(s *scene) *search {
	n := numbers(s.elements)
	r := &search{scene: s, at: make([]int, 0, n), options: make([][]label, 0, n), chosen: make([]label, 0, n)}
	all := make([]label, 0, n*usualLabels)
	for i := range s.elements {
		if s.elements[i].quantity == nil {
			continue
		}
		from := len(all)
		all = s.labels(all, i)
		options := all[from:]
		slices.SortStableFunc(options, func(a, b label) int { return compare(a.cost, b.cost) })
		r.at, r.options = append(r.at, i), append(r.options, options)
	}
	r.least = leastFrom(r.options)
	return r
}

// leastFrom is what the numbers from each one on cost at least: their cheapest
// labels. Behind the last it is nothing.
func leastFrom(options [][]label) []float64 {
	least := make([]float64, len(options)+1)
	for n, o := range slices.Backward(options) {
		least[n] = least[n+1] + o[0].cost
	}
	return least
}

// usualLabels is how many labels a number may have, as a rule.
const usualLabels = 5

// readable says whether a statement is short enough to be one thing asked.
func readable(in []element) bool {
	return numbers(in) <= mostNumbers && len(in) <= mostElements
}

// numbers is how many numbers there are.
func numbers(in []element) int {
	n := 0
	for i := range in {
		if in[i].quantity != nil {
			n++
		}
	}
	return n
}

// mostElements is how many words, numbers and marks one statement may hold.
const mostElements = 100

func compare(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// search tries the labels of one scene, cheapest first, and gives up a branch
// as soon as it can't but cost more than the second best reading so far.
type search struct {
	scene   *scene
	at      []int
	options [][]label
	least   []float64 // what the numbers from each one on cost at least
	chosen  []label
	found   reading // the one that is looked at
}

// rounding is more than what the order in which costs are added up makes of their
// sum.
const rounding = 1e-9

func (r *search) run(best, second **reading) {
	r.try(r.scene.cutting, best, second)
}

func (r *search) try(cost float64, best, second **reading) {
	n := len(r.chosen)
	if n == len(r.at) {
		r.found = reading{scene: r.scene, labels: r.chosen, at: r.at}
		r.found.cost = cost + r.found.whole()
		keep(&r.found, best, second)
		return
	}
	for i := range r.options[n] {
		l := &r.options[n][i]
		if *second != nil && cost+l.cost+r.least[n+1] >= (*second).cost+rounding {
			return // and so with the dearer ones behind it
		}
		if !r.allows(l) {
			continue
		}
		r.chosen = append(r.chosen, *l)
		r.try(cost+l.cost, best, second)
		r.chosen = r.chosen[:n]
	}
}

// keep files a reading as the best or second best; of two that say the same,
// the cheaper is kept.
func keep(found *reading, best, second **reading) {
	switch {
	case *best == nil:
		*best = found.filed(nil)
	case (*best).same(found):
		if found.cost < (*best).cost {
			*best = found.filed(*best)
		}
	case found.cost < (*best).cost:
		if *second == nil || !(*second).same(*best) {
			*best, *second = *second, *best
		}
		*best = found.filed(*best)
	case *second == nil || found.cost < (*second).cost:
		*second = found.filed(*second)
	}
}

// filed is a reading with labels of its own, since the search goes on with those
// that it found. It takes the place of one that is given up, where there is one.
func (r *reading) filed(instead *reading) *reading {
	if instead == nil {
		instead = new(reading)
	}
	labels := append(instead.labels[:0], r.labels...)
	*instead = *r
	instead.labels = labels
	return instead
}

// allows says whether a label can stand beside those already chosen: a word
// claims one number, a pipe has one size, a line one set that no word claims.
func (r *search) allows(l *label) bool {
	for k := range r.chosen {
		c := &r.chosen[k]
		switch {
		case l.term >= 0 && c.term == l.term && c.role == l.role && !r.pair(k, l):
			return false
		case l.term >= 0 && c.term == l.term && c.role != l.role && l.role != SizeOf && c.role != SizeOf:
			return false
		case l.role == SizeOf && c.role == SizeOf && !r.twoSizes(k, l, c):
			return false
		case steps(l.role) && steps(c.role) && (l.bare && l.role == Set && l.term < 0 || c.bare && c.role == Set && c.term < 0):
			return false
		case l.bare && c.bare && l.role == c.role && l.role != Bare && l.role != Reading && !r.twoWays(l, c):
			return false
		case l.role == Rise && l.bare && (c.role != Roll || !c.bare):
			return false
		case l.role == Bare && l.count && c.role == LineCount:
			return false
		}
	}
	if l.role == Rise && l.bare {
		return len(r.chosen) > 0
	}
	return true
}

// twoWays says whether one thing was measured in two ways: 10 center to center,
// but 11-1/2 outside to outside.
func (r *search) twoWays(l, c *label) bool {
	if l.term < 0 || c.term < 0 || l.term == c.term {
		return false
	}
	first, second := meant(r.scene.elements[c.term].term, senseMethod), meant(r.scene.elements[l.term].term, senseMethod)
	return first != "" && second != "" && first != second
}

// steps says whether a role is the step of an offset, or a part of it: beside
// one of them no bare number is the set.
func steps(r Role) bool { return r == Set || r == Roll || r == Rise }

// twoSizes says whether a second size is that of the other end: 2 and 1-1/2
// pvc, 2 pvc to 1-1/2 pvc.
func (r *search) twoSizes(k int, l, c *label) bool {
	if k != len(r.chosen)-1 || l.term < 0 || c.term < 0 {
		return false
	}
	s := r.scene
	if l.term == c.term {
		return s.joined(r.at[k], r.at[k+1])
	}
	return meant(s.elements[l.term].term, senseMaterial) == meant(s.elements[c.term].term, senseMaterial) && c.term < r.at[k+1] && s.joined(c.term, r.at[k+1])
}

// pair says whether a word that may claim two numbers claims both: "takeoffs
// 13/16 and 1-1/4", "readings 40 and 61".
func (r *search) pair(k int, l *label) bool {
	switch l.role {
	case TakeoffOf, Reading, Face, Depth, SizeOf:
		return r.joined(k)
	}
	return false
}

// joined says whether the number being labelled follows number k with nothing
// but "and", "to" or "by" between.
func (r *search) joined(k int) bool {
	if k != len(r.chosen)-1 {
		return false
	}
	return r.scene.joined(r.at[k], r.at[k+1])
}

// joined says whether two elements have nothing but joining words between.
func (s *scene) joined(i, j int) bool {
	found := false
	for _, e := range s.elements[i+1 : j] {
		switch {
		case e.term.is(senseAnd), e.term.is(senseTo), e.term.is(senseBy), e.mark == "/", e.mark == "+":
			found = true
		case e.term.is(senseFiller), e.term.is(senseOneEnd), e.term.is(senseOtherEnd), e.term.is(senseArticle), e.mark == ",",
			e.term.is(senseAt), e.term.is(senseLink), e.term.is(senseStreet), e.term.is(senseSweep), e.term.is(senseBend), e.term.is(senseWith):
			found = found || e.term.is(senseOneEnd)
		default:
			return false
		}
	}
	return found
}

// whole is the cost of a reading as a whole: words that claim no number, parts
// that do not go together.
func (r *reading) whole() float64 {
	cost := r.lonelyWords() + r.cutOff() + r.stolen() + r.halfRead()
	var roll, rise, set, size, angles int
	for k := range r.labels {
		l := &r.labels[k]
		if r.repeats(k) {
			cost += 2.5
		}
		switch l.role {
		case Roll:
			roll++
		case Rise:
			rise++
		case Set:
			set++
		case SizeOf:
			size++
		case AngleOf:
			angles++
			cost += r.otherAngle(k)
		}
	}
	if angles == 0 && r.countsBends() && !r.scene.hint("shopping") {
		cost += 1.5
	}
	cost += r.lonelyMethod()
	if angles == 0 && r.scene.has(senseBend) && r.scene.bendsBeside() {
		cost++ // bends of no angle, with a number beside them
	}
	if roll != rise {
		cost += 0.9
	}
	if set > 0 && roll > 0 || set > 1 && r.scene.hint("check") {
		cost += 1.5
	}
	if size == 0 && r.scene.material != "" && !r.scene.trims() {
		cost++
	}
	return cost
}

// lonelyMethod is the cost of a way of measuring that only pieces have, where no
// piece was measured.
func (r *reading) lonelyMethod() float64 {
	if !r.scene.has(senseMethod) {
		return 0
	}
	for i := range r.scene.elements {
		e := &r.scene.elements[i]
		m := Method(meant(e.term, senseMethod))
		if (m == EndToCenter || m == FaceToFace) && !r.gives(CenterToCenter) {
			return 1
		}
	}
	return 0
}

// bendsBeside says whether a number stands right before a word for bends.
func (s *scene) bendsBeside() bool {
	for i := range s.elements {
		e := &s.elements[i]
		if e.quantity != nil && e.quantity.unit == noUnit && i+1 < len(s.elements) && s.elements[i+1].term.is(senseBend) {
			return true
		}
	}
	return false
}

// stolen is the cost of a word that claims a number from afar, although it
// stands right behind another: "8-1/2 past center by 1".
func (r *reading) stolen() float64 {
	cost := 0.0
	for k, l := range r.labels {
		if l.term < 1 || r.at[k] == l.term-1 || !isMeasure(l) || r.scene.looksAhead(l.term) {
			continue
		}
		if q := r.scene.elements[l.term-1].quantity; q != nil && q.isLength() && !r.scene.plainlyAngle(l.term-1) {
			cost += 0.6
		}
	}
	return cost
}

// cutOff is the cost of a number cut off another for no good reason: only a
// size or a grade is so often written behind a length.
func (r *reading) cutOff() float64 {
	if r.scene.broken == 0 {
		return 0
	}
	for k, at := range r.at {
		if at != r.scene.second {
			continue
		}
		switch r.labels[k].role {
		case SizeOf, Grade, PipeOf, AngleOf:
		default:
			return 2.5
		}
	}
	return 0
}

// repeats says whether a label gives a role a second value that no one gives
// twice: two sets are a check on each other, two lengths of one fall are not.
func (r *reading) repeats(k int) bool {
	switch r.labels[k].role {
	case Bare, Set, DryFit, CenterToCenter, TakeoffOf, Face, Depth, Reading, AngleOf, SizeOf, PipeOf, Roll, Rise:
		return false
	}
	return slices.ContainsFunc(r.labels[:k], func(l label) bool { return l.role == r.labels[k].role })
}

// countsBends says whether a number was taken for how many bends there are.
func (r *reading) countsBends() bool {
	return slices.ContainsFunc(r.labels, func(l label) bool { return l.count && l.role == Bare })
}

// otherAngle is the cost of a second, different angle: two fittings that differ
// are named together, or one is not an angle at all.
func (r *reading) otherAngle(k int) float64 {
	for j := range k {
		if r.labels[j].role != AngleOf || r.labels[j].angle == r.labels[k].angle {
			continue
		}
		if r.scene.joined(r.at[j], r.at[k]) || r.choice(j, k) || r.cutDown(j, k) || r.scene.hint("trim") || r.scene.hint("fit") || r.scene.hint("same") {
			return 0.2
		}
		return 3
	}
	return 0
}

// cutDown says whether one of two angles is that of the 90 which is to be cut down
// to the other.
func (r *reading) cutDown(j, k int) bool {
	return r.scene.trims() && (r.labels[j].angle == geometry.QuarterBend || r.labels[k].angle == geometry.QuarterBend)
}

// choice says whether two angles are the bends to choose from: 45 or 60?
func (r *reading) choice(j, k int) bool {
	between := r.scene.elements[r.at[j]+1 : r.at[k]]
	return len(between) == 1 && between[0].term.is(senseOr) && (r.gives(Run) || r.gives(Room) || r.scene.hint("fit"))
}

// lonelyWords is the cost of words that name a role and claim no number: they
// may be what is asked for.
func (r *reading) lonelyWords() float64 {
	cost := 0.0
	for j := range r.scene.elements {
		value, ok := r.scene.elements[j].term.means(senseRole)
		if !ok || r.claimed(j) {
			continue
		}
		switch {
		case strings.Contains(value, "soft"), r.gives(Role(value)):
		case Role(value) == Drop && r.scene.falls():
			cost += 0.2
		case value == string(LineCount), value == string(Set) && r.scene.hint("check"):
			cost += 0.3
		case r.scene.asks:
			cost += 0.3
		case r.scene.lastWords(j):
			cost += 0.9 // travel/run, at the end: they are asked for
		default:
			cost += 1.7
		}
	}
	return cost
}

// claimed says whether the word at j claims some number.
func (r *reading) claimed(j int) bool {
	for k := range r.labels {
		if r.labels[k].term == j {
			return true
		}
	}
	return false
}

// lastWords says whether no number stands behind an element.
func (s *scene) lastWords(j int) bool {
	return !slices.ContainsFunc(s.elements[j+1:], func(e element) bool { return e.quantity != nil })
}

// gives says whether some number was taken for a role.
func (r *reading) gives(role Role) bool {
	for k := range r.labels {
		if r.labels[k].role == role {
			return true
		}
	}
	return false
}

// same says whether two readings say the same of the same numbers.
func (r *reading) same(other *reading) bool {
	if len(r.labels) != len(other.labels) {
		return false
	}
	for k := range r.labels {
		l := &r.labels[k]
		o := other.labels[k]
		if l.role != o.role || l.count != o.count || l.angle != o.angle || r.number(k).value != other.number(k).value {
			return false
		}
	}
	return true
}

// number is the quantity that label k is of.
func (r *reading) number(k int) *quantity { return r.scene.elements[r.at[k]].quantity }

// sound says whether every number stands for something real.
func (r *reading) sound() bool {
	for k := range r.labels {
		l := &r.labels[k]
		if l.role == Bare && !l.count || l.odd || r.number(k).bad != "" {
			return false
		}
	}
	return true
}
