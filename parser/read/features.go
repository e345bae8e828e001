package read

import (
	"iter"
	"math"
	"slices"

	"dogleg/parser/ask"
	"dogleg/parser/measure"
)

// Features are numbered by hashing: what is seen, with what it is a sign of. Two
// that fall on one number share a weight, which costs little.

type feature = uint32

// mix makes one number of two.
func mix(a, b uint32) uint32 {
	h := a*0x9E3779B1 ^ (b+0x7F4A7C15)*0x85EBCA77
	h ^= h >> 15
	h *= 0x2C1B3C6D
	h ^= h >> 13
	return h
}

func hashOf(s string) uint32 {
	h := uint32(2166136261)
	for i := range len(s) {
		h = (h ^ uint32(s[i])) * 16777619
	}
	return h
}

// The families of what is seen. Each is mixed into its features, so that the word
// before is another than the word behind.
const (
	fBias = iota + 1
	fForm
	fBin
	fValue
	fNear
	fNearSense
	fPair
	fClaim
	fPlace
	fContext
	fValueNear
	fHint
	fFlag
	fLabel
	fBigram
	fRepeat
	fWith
	fScale
	fFact
	fSaying
	fWord
	fFirst
	fLast
	fRole
	fHave
	fBoundary
	fCommand
	fSuits
	fSpelled
	fTook // and the six behind it
)

// signs is what an item of the vocabulary stands for in features: its own text and
// its senses.
func (m *message) signs(it *item) []uint32 {
	if it == nil {
		return []uint32{7}
	}
	if it.signs != nil {
		return it.signs
	}
	text := it.text
	if it.number && it.to == it.from+1 {
		text = "#" + m.shape(it.from)
	}
	it.signs = append(it.signs, hashOf(text))
	if it.term != nil {
		for _, s := range it.term.Meanings {
			it.signs = append(it.signs, mix(11, hashOf(s.Sense)), mix(13, hashOf(s.Sense+" "+s.Value)))
		}
	} else if !it.number && m.tokens[it.from].Type == measure.Word {
		it.signs = append(it.signs, 17)
	}
	return it.signs
}

// shape is a number as features see it where it stands beside another.
func (m *message) shape(i int) string {
	for _, x := range m.measures[i] {
		if x.To == i+1 {
			return valueClass(&x)
		}
	}
	return "number"
}

// valueClass tells the numbers that the trade has names of from others.
func valueClass(x *measure.Measure) string {
	switch x.Number {
	case 45, 90, 22.5, 22, 60, 30, 11.25, 11, 72, 5.625, 88, 87.5, 135, 15, 67.5:
		return "bend"
	}
	switch {
	case x.Form == measure.Fraction:
		return "part"
	case x.Number != math.Trunc(x.Number):
		return "mixed"
	case x.Number <= 4:
		return "small"
	case x.Number <= 12:
		return "dozen"
	case x.Number <= 48:
		return "tape"
	case x.Number <= 200:
		return "hundred"
	}
	return "large"
}

// bin is the magnitude of a number in half octaves.
func bin(v float64) uint32 {
	if v <= 0 {
		return 0
	}
	return uint32(40 + math.Round(2*math.Log2(v)))
}

// claims are the senses with which a word may say what a number near it is.
var claims = []string{"role", "hint", "method", "bend", "material", "joint", "want", "fitting", "size", "verb", "use", "sum", "operator", "sweep", "street", "scheduled", "angle", "elsewhere", "mine"}

func claiming(it *item) bool {
	return slices.ContainsFunc(claims, it.has)
}

// seen is what is seen of a measure, whatever it is taken for. The second list is
// what matters to the unit of a bare number.
func (m *message) seen(x *measure.Measure) (all, unit []uint32) {
	class := hashOf(valueClass(x))
	number := math.Float32bits(float32(x.Number))
	form := formOf(x)
	magnitude := mix(fBin, bin(x.Number))
	all = append(all, fBias, mix(fForm, form), magnitude, mix(magnitude, form), mix(fValue, number), mix(mix(fValue, class), form))
	left, right := m.before(x.From), m.after(x.To)
	all = m.neighbors(all, left, 0, []uint32{class}, func(it *item) *item { return m.before(it.from) })
	behind := []uint32{class + 1}
	if x.Form == measure.Plain {
		behind = append(behind, number)
	}
	all = m.neighbors(all, right, 8, behind, func(it *item) *item { return m.after(it.to) })
	l, r := m.signs(left), m.signs(right)
	all = append(all, mix(mix(fPair, l[0]), r[0]))
	if len(l) > 2 && len(r) > 2 {
		all = append(all, mix(mix(fPair, l[2]), r[2]))
	}
	if left != nil {
		all = append(all, mix(mix(fPair+100, l[0]), m.signs(m.before(left.from))[0]))
	}
	if right != nil {
		all = append(all, mix(mix(fPair+200, r[0]), m.signs(m.after(right.to))[0]))
	}
	all = m.claimants(all, x)
	all = m.placed(all, x)
	all = m.remembered(all, x)
	all = m.glued(all, x)
	all = m.corrected(all, x, class)
	unit = append(unit, mix(fBin, 1), magnitude, mix(fForm, form), mix(mix(fHint, m.units()), bin(x.Number)), mix(fHint, m.units()), mix(mix(fHint, 3), m.lastUnits()), mix(fValue, number), mix(mix(fHint, m.lastUnits()), bin(x.Number)))
	if m.hints.metric {
		all = append(all, mix(fHint, 1))
	}
	return all, unit
}

// formOf is how a measure is written.
func formOf(x *measure.Measure) uint32 {
	form := mix(hashOf(string(x.Form)), hashOf(string(x.Unit)))
	if x.Plural {
		form = mix(form, 3)
	}
	if x.Weak {
		form = mix(form, 5)
	}
	return form
}

// glued is whether a measure is written together with what stands beside it.
func (m *message) glued(all []uint32, x *measure.Measure) []uint32 {
	if x.From > 0 && m.tokens[x.From].Glued {
		all = append(all, mix(fFlag, 1))
	}
	if x.To < len(m.tokens) && m.tokens[x.To].Glued {
		all = append(all, mix(fFlag, 2))
	}
	return all
}

// corrected is whether words of a correction stand between a measure and the next one,
// or the one before: 14, no 14-1/4.
func (m *message) corrected(all []uint32, x *measure.Measure, class uint32) []uint32 {
	for k, side := range [2]iter.Seq[*item]{
		itemsFrom(m.before(x.From), func(it *item) *item { return m.before(it.from) }),
		itemsFrom(m.after(x.To), func(it *item) *item { return m.after(it.to) }),
	} {
		found := false
		for it := range side {
			if it.number {
				if found {
					all = append(all, mix(fFlag, 4+uint32(k)), mix(mix(fFlag, 6+uint32(k)), class))
				}
				break
			}
			found = found || it.has("correction")
		}
	}
	return all
}

// itemsFrom are the items on one side of a number, from the one next to it on.
func itemsFrom(it *item, next func(*item) *item) iter.Seq[*item] {
	return func(yield func(*item) bool) {
		for d := 0; it != nil && d < 10 && yield(it); it, d = next(it), d+1 {
		}
	}
}

// neighbors are the three items on one side of a number, from the one next to it on;
// that one is seen together with what the number itself is. Side tells the sides
// apart.
func (m *message) neighbors(all []uint32, it *item, side uint32, values []uint32, next func(*item) *item) []uint32 {
	for d := range uint32(3) {
		for _, s := range m.signs(it) {
			all = append(all, mix(mix(fNear, d+side), s))
			if d > 0 {
				continue
			}
			for _, v := range values {
				all = append(all, mix(mix(fValueNear, v), s))
			}
		}
		if it == nil {
			break
		}
		it = next(it)
	}
	return all
}

// units is which units a message says.
func (m *message) units() uint32 {
	u := uint32(0)
	if m.hints.metric {
		u |= 1
	}
	if m.hints.inches {
		u |= 2
	}
	return u
}

// lastUnits is which units the last ask was in, and the person's own.
func (m *message) lastUnits() uint32 {
	u := uint32(4)
	if m.said.Metric {
		u |= 1
	}
	if m.said.Last != nil {
		u |= 2
		if metricAsk(m.said.Last) {
			u |= 8
		}
	}
	return u
}

// metricAsk says whether an ask was told in millimeters: its pipe's size or a length
// that is whole millimeters and no sixteenths.
func metricAsk(a *ask.Ask) bool {
	if ask.MetricSize(a.Pipe.Size) {
		return true
	}
	for _, x := range a.Measures {
		mm, sixteenths := x.Length.Millimeters(), x.Length.Inches()*16
		if math.Abs(mm-math.Round(mm)) < 1e-3 && math.Abs(sixteenths-math.Round(sixteenths)) > 1e-2 {
			return true
		}
	}
	return false
}

// claimants are the nearest words on each side that may say what a number is.
func (m *message) claimants(all []uint32, x *measure.Measure) []uint32 {
	all = m.claimantsFrom(all, m.before(x.From), 0, func(it *item) *item { return m.before(it.from) })
	return m.claimantsFrom(all, m.after(x.To), 8, func(it *item) *item { return m.after(it.to) })
}

// claimantsFrom are those on one side, from the item that stands next to the number
// on; side tells the sides apart.
func (m *message) claimantsFrom(all []uint32, it *item, side uint32, next func(*item) *item) []uint32 {
	found := uint32(0)
	for it, numbers := range wordsFrom(it, next) {
		if !claiming(it) {
			continue
		}
		for _, s := range m.signs(it)[1:] {
			all = append(all, mix(mix(mix(fClaim, found+side), numbers), s), mix(mix(fClaim, found+side+4), s))
		}
		if found++; found == 2 {
			break
		}
	}
	return all
}

// wordsFrom are the nearest items on one side of a number that are no numbers, each with
// how many of these stand between, 2 at most. A new line ends them.
func wordsFrom(it *item, next func(*item) *item) iter.Seq2[*item, uint32] {
	return func(yield func(*item, uint32) bool) {
		numbers := uint32(0)
		for d := 0; it != nil && d < 8; it, d = next(it), d+1 {
			switch {
			case it.text == "\n" || it.text == ";":
				return
			case it.number:
				numbers = min(numbers+1, 2)
			case !yield(it, numbers):
				return
			}
		}
	}
}

// placed says where in the message a number stands.
func (m *message) placed(all []uint32, x *measure.Measure) []uint32 {
	before, after := 0, 0
	lineStart := true
	for i := range m.tokens {
		t := &m.tokens[i]
		if i < x.From && t.Number() && (i == 0 || !m.tokens[i-1].Number()) {
			before++
		}
		if i >= x.To && t.Number() && (i == x.To || !m.tokens[i-1].Number()) {
			after++
		}
		if i < x.From {
			lineStart = t.Type == measure.NewLine
		}
	}
	all = append(all, mix(mix(fPlace, uint32(min(before, 4))), 1), mix(mix(fPlace, uint32(min(after, 4))), 2))
	if before == 0 && after == 0 {
		all = append(all, mix(fPlace, 99))
	}
	if lineStart {
		all = append(all, mix(fPlace, 100), mix(mix(fPlace, 101), m.signs(m.after(x.To))[0]))
	}
	return all
}

// remembered is what a number has to do with what was said before.
func (m *message) remembered(all []uint32, x *measure.Measure) []uint32 {
	if m.said.Wanted != "" {
		all = append(all, mix(mix(fContext, 1), hashOf(string(m.said.Wanted))))
	}
	a := m.said.Last
	if a == nil {
		return append(all, mix(fContext, 2))
	}
	all = append(all, mix(mix(fContext, 3), hashOf(string(a.Kind))))
	best, ratio := ask.Role(""), 9.0
	for _, y := range a.Measures {
		for _, v := range []float64{x.Inches(), x.Number / 25.4} {
			if v <= 0 || y.Length.Inches() <= 0 {
				continue
			}
			r := math.Abs(math.Log2(v / y.Length.Inches()))
			if r < ratio {
				best, ratio = y.Role, r
			}
			if r < 1e-6 {
				all = append(all, mix(mix(fContext, 4), hashOf(string(y.Role))))
			}
		}
	}
	if best != "" {
		near := uint32(min(3, math.Trunc(ratio*2)))
		all = append(all, mix(mix(mix(fContext, 5), hashOf(string(best))), near))
	}
	if len(a.Measures) > 0 {
		all = append(all, mix(mix(fContext, 6), hashOf(string(a.Measures[0].Role))))
	}
	if math.Abs(a.Angle.Degrees()-named(x.Number)) < 1e-6 {
		all = append(all, mix(fContext, 7))
	}
	return all
}

// numberFeatures are those of taking a measure for a label, given what is seen.
func numberFeatures(out []feature, seen, unit []uint32, l label) []feature {
	p := uint32(l.part) + 128*uint32(l.by)
	if l.method > 0 {
		p += 64
	}
	y := mix(fLabel, p)
	for _, s := range seen {
		out = append(out, mix(s, y))
	}
	if l.scale != asSaid || parts[l.part].sort == aSize {
		for _, s := range unit {
			out = append(out, mix(mix(s, fScale), uint32(l.scale)), mix(mix(s, y), uint32(l.scale)+1))
		}
	}
	return out
}

// suits is how well a label suits what the words around its number say and what was
// said before, whatever the part is: what holds of one part is learned for all.
func (m *message) suits(out []feature, claims [4]claim, l label) []feature {
	if l.part == none {
		return out
	}
	role := parts[l.part].role
	f := func(k, v uint32) { out = append(out, mix(mix(fSuits, k), v)) }
	said := uint32(0)
	for i, c := range claims {
		if c.role == "" {
			continue
		}
		v := c.numbers * 2
		if c.role == role {
			v++
			said = 1
		}
		f(uint32(i), v)
	}
	if m.told[role] {
		said += 2
	}
	f(10, said)
	f(11+uint32(l.part), said)
	if m.said.Last == nil {
		return out
	}
	alone := uint32(min(m.numbers, 3))
	switch parts[l.part].sort {
	case aLength:
		old := m.said.Last.All(role)
		if len(old) == 0 {
			f(100, alone)
			return out
		}
		near := nearness(l.value, old[0].Length.Inches())
		f(101, near)
		f(102, near*4+alone)
	case aSize:
		f(103, known(m.said.Last.Pipe.Size == "", m.said.Last.Pipe.Size == l.size)*4+alone)
	case anAngle:
		a := m.said.Last.Angle.Degrees()
		f(104, known(a == 0, math.Abs(a-l.value) < 0.3)*4+alone)
	case noValue, aGrade, aCount, aSchedule, aTerm:
	}
	return out
}

// known is what a value has to do with the last ask's: 0 another, 1 the same, 2 there
// was none.
func known(none, same bool) uint32 {
	switch {
	case none:
		return 2
	case same:
		return 1
	}
	return 0
}

// nearness is how near two lengths are by their ratio, from 0, the same, to 4.
func nearness(a, b float64) uint32 {
	r := math.Abs(math.Log2(a / b))
	for i, most := range [...]float64{1e-3, 0.2, 0.7, 1.6} {
		if r < most {
			return uint32(i)
		}
	}
	return 4
}

// claim is a word that may say what a number near it is.
type claim struct {
	role    ask.Role
	numbers uint32 // between it and the number, 2 at most
}

// claimed are the two nearest words before a number that name a part, and the two
// behind it.
func (m *message) claimed(x *measure.Measure) [4]claim {
	var out [4]claim
	from := func(side []claim, it *item, next func(*item) *item) {
		for it, numbers := range wordsFrom(it, next) {
			role := it.role()
			if role == "" {
				continue
			}
			side[0] = claim{role, numbers}
			if side = side[1:]; len(side) == 0 {
				break
			}
		}
	}
	from(out[:2], m.before(x.From), func(it *item) *item { return m.before(it.from) })
	from(out[2:], m.after(x.To), func(it *item) *item { return m.after(it.to) })
	return out
}

// count notes how many numbers a message holds, and which parts its words name.
func (m *message) count() {
	for i := range m.tokens {
		if m.tokens[i].Number() && (i == 0 || !m.tokens[i-1].Number()) {
			m.numbers++
		}
	}
	m.told = map[ask.Role]bool{}
	for i := range m.items {
		if role := m.items[i].role(); role != "" {
			m.told[role] = true
		}
	}
}
