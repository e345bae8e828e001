package parser

import (
	"math"
	"slices"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
)

// What a number may stand for, and what it costs to take it so. The costs are
// our own judgment of how people write; only their order matters. Nothing is
// decided by one of them alone: the reading whose labels cost least together
// wins, and a close second is asked about.

// label is what one number is taken for.
type label struct {
	role  Role
	term  int // the element whose word claims the number; -1 if none does
	cost  float64
	angle geometry.Angle
	size  catalog.Size
	bare  bool // no word claims it
	count bool // how many, of something else
	odd   bool // there is no such pipe, or no such angle: kept for the refusal
	sched string
}

// unclaimed is the cost of a number that stands for nothing: more than any
// reading in which it stands for something.
const unclaimed = 10

// labels lists what the number at element i may be taken for.
func (s *scene) labels(i int) []label {
	q := s.elements[i].quantity
	out := []label{{role: Bare, term: -1, cost: unclaimed}}
	if q.unit == grade {
		return append(out, label{role: Grade, term: s.claimant(i, Grade)})
	}
	if sched, ok := s.schedule(i); ok {
		return append(out, sched)
	}
	out = append(out, s.angleLabels(i, q)...)
	out = append(out, s.countLabels(i, q)...)
	if q.isLength() {
		out = append(out, s.roleLabels(i, q)...)
		out = append(out, s.sizeLabels(i, q)...)
		out = append(out, s.bareLabels(i, q)...)
	}
	return out
}

// schedule reads the number after "schedule": 40, 80.
func (s *scene) schedule(i int) (label, bool) {
	if i == 0 || !s.elements[i-1].term.is("scheduled") {
		return label{}, false
	}
	return label{role: PipeOf, term: i - 1, sched: strings.TrimSpace(s.elements[i].text)}, true
}

// between is the cost of what stands between a number and a word that claims
// it: nothing much for small words, more for a comma, most for another number.
func (s *scene) between(i, j int) float64 {
	from, to, cost := i+1, j, 0.05
	if j < i {
		from, to, cost = j+1, i, 0
	}
	for _, e := range s.elements[from:to] {
		cost += e.weight()
	}
	if j > i && j+1 < len(s.elements) && s.elements[j+1].term.is("link") && j+2 < len(s.elements) && s.elements[j+2].quantity != nil {
		cost += 1.6 // "set is 9": the word looks ahead
	}
	if s.asked(j) {
		cost += 1.2 // "what set, 45s": the word asks
	}
	return cost
}

// weight is what an element costs that stands between a number and its word.
func (e element) weight() float64 {
	switch {
	case e.quantity != nil && (e.quantity.plural || e.quantity.unit == degree):
		return 1.2
	case e.quantity != nil:
		return 2.2
	case e.mark == "\n":
		return 1.1
	case e.mark == ",":
		return 0.9
	case e.mark == ":" || e.mark == "=":
		return 0
	case e.mark != "", e.word != "":
		return 0.35
	case e.term.is("link"), e.term.is("at"), e.term.is("article"):
		return 0.02
	case e.term.is("for"):
		return 1
	case e.term.is("filler"), e.term.is("both"), e.term.is("with"), e.term.is("to"), e.term.is("ask"):
		return 0.2
	case e.term.is("and"), e.term.is("by"):
		return 0.5
	case e.term.is("role"):
		return 1.3
	}
	return 0.8
}

// roleLabels lists the roles that words nearby would give the number.
func (s *scene) roleLabels(i int, q *quantity) []label {
	var out []label
	for j, e := range s.elements {
		value, ok := e.term.means("role")
		if !ok {
			continue
		}
		role, how, _ := strings.Cut(value, " ")
		cost := s.between(i, j)
		if cost > 3.5 {
			continue
		}
		r := s.roleHere(Role(role), how, i, j)
		if r == Bare {
			continue
		}
		if r == TakeoffOf && s.looksUp(i, q) {
			cost += 2.6
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
	return append(out, s.methodLabels(i)...)
}

// says is whether a word stands somewhere in the statement.
func (s *scene) says(word string) bool {
	return slices.ContainsFunc(s.elements, func(e element) bool { return e.text == word })
}

// looksUp says whether the number after "takeoff" is the size of the pipe whose
// takeoff is looked up: takeoff 3/4 copper 90.
func (s *scene) looksUp(i int, q *quantity) bool {
	_, real := realSize(s.material, sizeOf(q), q)
	if !real || i+1 >= len(s.elements) {
		return false
	}
	next := s.elements[i+1]
	if next.term.is("material") || next.term.is("joint") || next.term.is("pipe") || next.term.is("scheduled") {
		return true
	}
	if next.quantity == nil {
		return next.term.is("street") || next.term.is("sweep") || next.term.is("fitting")
	}
	_, cost := s.angleOf(i+1, next.quantity)
	return cost < 1 && (q.unit == inch || q.value >= 2)
}

// roleHere is what a word means in this statement: "run" is a length in a fall.
func (s *scene) roleHere(r Role, how string, i, j int) Role {
	falls := s.falls()
	switch {
	case r == "spread" && (s.hasRole(LineCount) || s.hint("parallel")):
		return Spacing
	case r == "spread":
		return Set
	case r == "wanted":
		if s.hint("check") {
			return Set
		}
		return Bare
	case r == Cut && s.hint("piece") && how == "soft" && !s.hasRole(Set):
		return Bare // cut between two tees: it asks
	case r == Cut && s.trims(), r == Set && s.trims():
		return Bare
	case r == StickOut && s.count(Reading) > 1:
		return Bare
	case r == Set && s.hint("multiplier"), r == Travel && s.hint("multiplier"), r == Run && s.hint("multiplier"):
		return Bare
	case r == Cut && how == "soft piece" && !s.hint("check"):
		return Bare
	case r == Reading && !s.hint("mark"):
		return Bare
	case r == Spacing && s.hasRole(Set) && s.says("ends") && !s.bank():
		return GapNow
	case r == Spacing && s.hint("fit"):
		return Room
	case r == Room && s.hint("mark") && !s.hint("fit"):
		return GapNow
	case r == JointGap && s.hint("mark") && !s.has("joint"):
		return GapNow
	case r == GapNow && s.hint("fit"):
		return Room
	case r == DryFit && strings.Contains(how, "soft") && !s.hint("check") && (!s.hasRole(Set) || j < 2):
		return Bare
	case r == Roll && strings.Contains(how, "over") && falls:
		return Long
	case r == Run && falls && !s.hasRole(Set):
		return Long
	case r == "makeup":
		return TakeoffOf
	case r == Reach && s.hint("mark") && !s.hint("around"):
		return StickOut
	case r == StickOut && (s.hint("around") || s.has("obstacle")):
		return Reach
	case r == Clearance && s.hint("mark") && !s.hint("around"):
		return GapNow
	case r == Spacing && s.hint("mark") && !s.hint("parallel"):
		return GapNow
	case r == Drop && !falls && s.names(Roll):
		return Rise
	case r == Long && s.has("obstacle"):
		return Obstacle
	case r == Long && !falls && s.hint("piece"):
		return CenterToCenter
	case r == Long && !falls && !s.asked(j):
		return Bare
	}
	return r
}

// implausible is the added cost of a length that its role rarely has.
func implausible(r Role, q *quantity) float64 {
	switch r {
	case TakeoffOf, Face, Depth, JointGap:
		if q.value > 24 {
			return 1.5
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
func (s *scene) methodLabels(i int) []label {
	var out []label
	for j, e := range s.elements {
		if !e.term.is("method") {
			continue
		}
		if cost := s.methodCost(i, j); cost < 1.5 {
			out = append(out, label{role: s.methodRole(e.term), term: j, cost: cost + 0.8, bare: true})
		}
	}
	return out
}

// methodRole says what a measure is that only its method names.
func (s *scene) methodRole(t *term) Role {
	value, _ := t.means("method")
	switch Method(value) {
	case EndToEnd:
		if s.hint("fit") {
			return Room
		}
		return CenterToCenter
	case FaceToFace, EndToCenter, "shoulder-to-shoulder":
		return CenterToCenter
	case BackToBack:
		if s.onlyNineties() {
			return CenterToCenter
		}
	case Centers:
		if s.unlikeBends() || s.hint("piece") || s.has("fitting") || s.onlyNineties() {
			return CenterToCenter
		}
	case OutsideToOutside, InsideToInside, OutsideToInside:
	}
	if s.bank() {
		return Spacing
	}
	return Set
}

// unlikeBends says whether two bends that differ are named together: 90 to 45.
func (s *scene) unlikeBends() bool {
	last, at := geometry.Angle(0), 0
	for i, e := range s.elements {
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

// angleLabels takes the number for the angle that a fitting turns.
func (s *scene) angleLabels(i int, q *quantity) []label {
	angle, cost := s.angleOf(i, q)
	if infinite(cost) {
		return nil
	}
	l := label{role: AngleOf, term: -1, cost: cost, angle: angle}
	l.odd = angle <= 0 || angle > 90
	return []label{l}
}

func infinite(v float64) bool { return math.IsInf(v, 0) }

// angleOf is the angle that a number would be, and what it costs to take it so.
func (s *scene) angleOf(i int, q *quantity) (geometry.Angle, float64) {
	bend := s.besideBend(i)
	if q.parts > 2 && q.value < 1 && bend && (q.unit == noUnit) {
		return geometry.Angle(360 / float64(q.parts)), 0
	}
	angle := usualAngle(q)
	standard := slices.Contains(geometry.Bends(), angle) || angle == 67.5
	switch {
	case q.unit == degree:
		return angle, 0
	case q.unit == foot || q.unit == metric || q.bad != "":
		return 0, math.Inf(1)
	case q.plural && q.number >= 5:
		return angle, 0
	case i > 1 && s.elements[i-1].term.is("to") && s.elements[i-2].quantity != nil && s.elements[i-2].quantity.number == 90 && q.number > 5 && q.number < 90:
		return angle, 0.3 // a 90 to 47
	case bend && q.number >= 5 && (q.unit == noUnit || q.weak):
		if standard {
			return angle, 0.1
		}
		return angle, 0.6
	case s.hint("multiplier") || s.trims():
		if q.number >= 5 && q.number <= 90 && q.unit == noUnit {
			return angle, 0.4
		}
	case q.unit == inch && !q.weak:
		return 0, math.Inf(1)
	}
	if !standard || q.number < 11 || angle == geometry.ThirtySecondBend && q.whole {
		return 0, math.Inf(1)
	}
	cost := map[geometry.Angle]float64{45: 0.6, 22.5: 0.6, 60: 0.8, 90: 0.9}[angle]
	if cost == 0 {
		cost = 1.4
	}
	if q.weak {
		cost += 0.4
	}
	if i > 0 && s.elements[i-1].term.is("with") {
		cost -= 0.3
	}
	if s.otherAngle(i) {
		cost += 2 // 30 30s: the first is a length
	}
	return angle, cost
}

// otherAngle says whether some other number is plainly the angle.
func (s *scene) otherAngle(i int) bool {
	for j, e := range s.elements {
		if j != i && e.quantity != nil && (e.quantity.plural && e.quantity.number >= 5 || e.quantity.unit == degree) {
			return true
		}
	}
	return false
}

// usualAngle reads the short names of bends: a 22 turns 22½, an 11 11¼.
func usualAngle(q *quantity) geometry.Angle {
	switch q.number {
	case 22:
		return geometry.SixteenthBend
	case 11:
		return geometry.ThirtySecondBend
	case 67:
		return 67.5
	case 5, 5.5:
		return geometry.SixtyFourthBend
	}
	return geometry.Angle(q.number)
}

// besideBend says whether a word for a bend stands right beside the number.
func (s *scene) besideBend(i int) bool {
	after := i + 1
	for after < len(s.elements) && (s.elements[after].term.is("street") || s.elements[after].term.is("sweep") || s.elements[after].mark == "-" || s.elements[after].term.is("material")) {
		after++
	}
	if after < len(s.elements) && (s.elements[after].term.is("bend") || s.elements[after].term.is("angle")) {
		return true
	}
	before := i - 1
	for before >= 0 && (s.elements[before].term.is("link") || s.elements[before].mark == ":" || s.elements[before].mark == "=") {
		before--
	}
	if before < 0 {
		return false
	}
	t := s.elements[before].term
	return t.is("bend") || t.is("angle") || t.is("street") || t.is("sweep")
}

// countLabels takes the number for how many there are of what follows.
func (s *scene) countLabels(i int, q *quantity) []label {
	if s.hint("check") && isAmount(q) && i+1 < len(s.elements) && slices.Contains([]string{"long", "short", "off", "over", "under"}, s.elements[i+1].text) {
		return []label{{role: Bare, term: -1, count: true, cost: 0.01}} // "it's an eighth long": the figures say it better
	}
	if !q.whole || q.unit != noUnit || q.plural || q.number < 1 || q.number > 60 || i+1 >= len(s.elements) {
		return nil
	}
	next := s.elements[i+1]
	if a, cost := s.angleOf(i, q); cost < 1 && a >= geometry.ThirtySecondBend && !s.hint("shopping") {
		return nil
	}
	l := label{role: Bare, term: -1, count: true, cost: 3}
	if meant(next, "hint") == "shopping" {
		l.cost = 0
		return []label{l}
	}
	if s.elements[i].text == "one" {
		l.cost = 1
		return []label{l}
	}
	switch {
	case next.term.is("bend") || next.term.is("fitting") || next.term.is("street") || next.term.is("sweep"):
		l.cost = 0.3
	case next.text == "x" && i+2 < len(s.elements) && s.elements[i+2].quantity != nil:
		if a, cost := s.angleOf(i+2, s.elements[i+2].quantity); cost > 1 || a == 0 {
			return nil
		}
		l.cost = 0.6
	case next.term.is("pipe") && s.bank():
		l.role, l.cost = LineCount, 0.3
	case next.quantity == nil && !isDigit(s.elements[i].text[0]) && (next.term.is("pipe") || meant(next, "hint") == "mark" || next.text == "ends"):
		l.cost = 0.5 // the two standing ends
	case next.quantity == nil:
		return nil
	case next.quantity.plural || s.besideBend(i+1):
		if q.number == 2 {
			l.cost = 0.5
		}
	default:
		return nil
	}
	if s.hint("shopping") && l.role == Bare {
		l.cost = 0
	}
	if l.cost > 2 && !s.hasRole(Set) {
		return nil // a number is never dropped that could be the set
	}
	return []label{l}
}

// sizeLabels takes the number for the size of the pipe.
func (s *scene) sizeLabels(i int, q *quantity) []label {
	size := sizeOf(q)
	if size == "" || q.unit == foot {
		return nil
	}
	var out []label
	for j, e := range s.elements {
		m, ok := e.term.means("material")
		if !ok {
			if e.term.is("joint") || e.term.is("use") {
				ok = s.material == ""
			}
			m = string(s.material)
		}
		cost := s.sizeCost(i, j)
		if !ok || cost > 3 {
			continue
		}
		l := label{role: SizeOf, term: j, size: size, cost: cost}
		if l.size, ok = realSize(catalog.Material(m), size, q); !ok {
			l.odd, l.cost, l.size = true, cost+4, size
		}
		out = append(out, l)
	}
	return append(out, s.sizeWithout(i, q, size)...)
}

// sizeCost is what stands between a size and its material; the size comes
// before it more often than after.
func (s *scene) sizeCost(i, j int) float64 {
	if j < i {
		return s.between(i, j) + 0.5
	}
	cost := 0.0
	for k := i + 1; k < j; k++ {
		if s.isSchedule(k) || s.elements[k].term.is("material") {
			continue
		}
		cost += s.elements[k].weight()
	}
	return cost
}

func (s *scene) isSchedule(k int) bool {
	if s.elements[k].term.is("scheduled") {
		return true
	}
	return k > 0 && s.elements[k].quantity != nil && s.elements[k-1].term.is("scheduled")
}

// sizeWithout takes the number for a size where no material stands near it.
func (s *scene) sizeWithout(i int, q *quantity, size catalog.Size) []label {
	if _, ok := realSize(s.material, size, q); !ok {
		return nil
	}
	cost := 3.0
	switch {
	case q.unit == inch && s.names(TakeoffOf):
		cost = 0.8
	case q.unit == inch:
		cost = 1.6
	}
	for j, e := range s.elements {
		if e.term.is("pipe") || e.term.is("size") {
			cost = min(cost, s.between(i, j)+0.1)
		}
	}
	real, _ := realSize(s.material, size, q)
	return []label{{role: SizeOf, term: -1, size: real, cost: cost}}
}

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
	if s.hint("same") && !s.hasRole(Set) {
		add(Set, 0.5)
	}
	return out
}

// sizeOf is the name of the pipe size that a number would be.
func sizeOf(q *quantity) catalog.Size {
	if q.value <= 0 || q.value > 400 {
		return ""
	}
	if q.unit == metric {
		return catalog.Size(q.length().Metric(0))
	}
	t := q.length().Tape(geometry.ThirtySeconds)
	if math.Abs((t.Length()-q.length()).Inches()) > 1e-9 || t.Negative {
		return ""
	}
	return catalog.Size(t.String())
}

// realSize says whether there is such a pipe in the material; in any of them if
// none was said. A bare 22 beside copper may be a metric one.
func realSize(m catalog.Material, size catalog.Size, q *quantity) (catalog.Size, bool) {
	said, materials := m, []catalog.Material{m}
	if m == "" {
		materials = allMaterials
	}
	for _, m := range materials {
		sizes := catalog.SizesOf(m)
		if slices.Contains(sizes, size) {
			return size, true
		}
		if named := size + " mm"; said != "" && q.unit == noUnit && q.whole && slices.Contains(sizes, named) {
			return named, true
		}
	}
	return "", false
}

var allMaterials = []catalog.Material{
	catalog.PVC, catalog.ABS, catalog.CPVC, catalog.Copper, catalog.Steel, catalog.CastIron, catalog.PEX,
}
