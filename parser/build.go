package parser

import (
	"slices"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
)

// build turns a reading into an ask.
func (r *reading) build() *Ask {
	b := &builder{reading: r, ask: &Ask{}}
	b.words()
	for k, l := range r.labels {
		b.number(k, l)
	}
	b.methods()
	b.apart()
	b.rolling()
	b.fittings()
	b.kind()
	return b.ask
}

// builder holds an ask while it is put together.
type builder struct {
	*reading
	ask    *Ask
	angles []geometry.Angle
	places []int // the element of each angle
}

// words takes over what the words say without a number.
func (b *builder) words() {
	a, s := b.ask, b.scene
	english, spanish := 0, 0
	for i := range s.elements {
		e := &s.elements[i]
		if e.line != "" {
			a.Line = e.line
		}
		if e.repaired != nil {
			a.Repairs = append(a.Repairs, *e.repaired)
		}
		if e.term == nil {
			continue
		}
		if e.term.language == Spanish {
			spanish++
		} else if !e.term.is(senseMaterial) && !e.term.is(senseUnit) {
			english++
		}
		for _, m := range e.term.meanings {
			b.meaning(m)
		}
	}
	b.material()
	if s.has(senseTouching) {
		a.Measures = append(a.Measures, Measure{Role: GapNow, Text: "touching"})
	}
	if a.Pipe.Material == catalog.Copper && a.Pipe.Joint == catalog.ButtWeld {
		a.Pipe.Joint = catalog.Solder
	}
	a.Rolling = s.hint("rolling") || s.hasRole(Roll)
	switch {
	case spanish > english:
		a.Language = Spanish
	case english > 0:
		a.Language = English
	}
}

// isHub says whether an element is the word hub alone, by which a socket of any
// pipe goes. Where no material is said it means cast iron.
func isHub(e element) bool { return e.text == "hub" || e.text == "hubs" }

// material notes a second material that contradicts the first.
func (b *builder) material() {
	for _, e := range b.scene.elements {
		if isHub(e) {
			continue // hub to hub, in ABS
		}
		if m, ok := e.term.means(senseMaterial); ok && catalog.Material(m) != b.ask.Pipe.Material {
			b.scene.otherMaterial = m
		}
	}
}

func (b *builder) meaning(m meaning) {
	a := b.ask
	switch {
	case m.what == senseMaterial:
		if a.Pipe.Material == "" {
			a.Pipe.Material = catalog.Material(m.value)
		}
	case m.what == senseJoint:
		a.Pipe.Joint = catalog.Joint(m.value)
	case m.what == senseUse:
		a.Pipe.Use = catalog.Use(m.value)
	case m.what == senseSchedule:
		a.Pipe.Schedule = m.value
	case m.what == senseWant:
		a.Want = Role(m.value)
	case m.what == senseHandbook:
		a.Handbook = true
	case m.what == sensePair:
		if m.value == "lines" || b.scene.hint("parallel") {
			a.Lines = 2
		}
	case m.what == senseComeback:
		a.ComeBack = true
	case m.what == senseCrew:
		a.Crew = true
	case m.what == senseSensitivity:
		a.Sensitivity = true
	}
}

// number takes over one labelled number.
func (b *builder) number(k int, l label) {
	q := b.scene.elements[b.at[k]].quantity
	switch l.role {
	case Bare:
		return
	case AngleOf:
		b.angles, b.places = append(b.angles, l.angle), append(b.places, b.at[k])
	case SizeOf:
		if b.ask.Pipe.Size != "" {
			b.ask.Ends[0].Size, b.ask.Ends[1].Size = b.ask.Pipe.Size, l.size
			return
		}
		b.ask.Pipe.Size = l.size
	case PipeOf:
		b.ask.Pipe.Schedule = strings.TrimSpace(b.scene.elements[b.at[k]].text)
	case LineCount:
		b.ask.Lines = int(q.number)
	case Grade:
		b.ask.Grade = geometry.Slope(q.value) * geometry.InchPerFoot
	default:
		b.measure(Measure{Role: l.role, Length: q.length(), Text: strings.TrimSpace(q.text), Bare: l.bare})
	}
}

// measure adds a measure; there may be as many as there are numbers.
func (b *builder) measure(m Measure) {
	if b.ask.Measures == nil {
		b.ask.Measures = make([]Measure, 0, len(b.labels))
	}
	b.ask.Measures = append(b.ask.Measures, m)
}

// methods gives each way of laying the tape to the measure nearest to it: where two
// ways are told of one, "can't get on center, so inside to inside is 9", the nearer.
func (b *builder) methods() {
	var ways []way
	for j := range b.scene.elements {
		e := &b.scene.elements[j]
		if !e.term.is(senseMethod) || b.claimed(j) && !b.claimsMeasure(j) {
			continue
		}
		m := Method(meant(e.term, senseMethod))
		if len(b.ask.Measures) == 0 {
			b.ask.Method = m
		}
		ways = append(ways, b.waysOf(j, m)...)
	}
	slices.SortStableFunc(ways, func(x, y way) int { return compare(x.cost, y.cost) })
	used := map[int]bool{}
	for _, w := range ways {
		if !used[w.word] && b.ask.Measures[w.measure].Method == "" {
			b.ask.Measures[w.measure].Method, used[w.word] = w.method, true
		}
	}
}

// way is a way of laying the tape that a word tells, and a measure that may have
// been taken so.
type way struct {
	method        Method
	word, measure int
	cost          float64
}

// waysOf lists the measures that the word at j may tell the way of.
func (b *builder) waysOf(j int, m Method) (out []way) {
	measure := 0
	for k, l := range b.labels {
		if !isMeasure(l) {
			continue
		}
		c := b.scene.methodCost(b.at[k], j)
		if takesMethod(l.role) && (m != EndToEnd || l.role == CenterToCenter) && c < 4 {
			out = append(out, way{m, j, measure, c})
		}
		measure++
	}
	return out
}

// methodCost is what stands between a number and the way it was measured, which
// comes after it unless the words look ahead: "13-7/8 out to out", "out to out
// is 13-7/8".
func (s *scene) methodCost(i, j int) float64 {
	cost := s.between(i, j)
	if j < i && j > 0 && s.elements[j-1].quantity != nil && !s.plainlyAngle(j-1) && !s.elements[j+1].term.is(senseLink) {
		cost += 1.5
	}
	return cost
}

// plainlyAngle says whether the number at i is more likely an angle than not.
func (s *scene) plainlyAngle(i int) bool {
	_, cost := s.angleOf(i, s.elements[i].quantity)
	return cost < 1
}

// claimsMeasure says whether the number that a word claims is one that can be
// measured in several ways.
func (b *builder) claimsMeasure(j int) bool {
	for k := range b.labels {
		l := &b.labels[k]
		if l.term == j {
			return takesMethod(l.role)
		}
	}
	return false
}

func isMeasure(l label) bool {
	switch l.role {
	case Bare, AngleOf, SizeOf, PipeOf, LineCount, Grade:
		return false
	}
	return true
}

func takesMethod(r Role) bool {
	return slices.Contains([]Role{Set, Roll, Rise, CenterToCenter, Spacing, DryFit, Run, Travel, Long}, r)
}

// rolling settles roll and rise: an offset beside a rise is the roll, and it
// makes a set of a roll or a rise that stands alone: "over 9" says
// only how far the line steps.
func (b *builder) rolling() {
	rolls, rises := b.ask.All(Roll), b.ask.All(Rise)
	if len(rolls) == 0 && len(rises) > 0 && b.offsetWord() >= 0 {
		b.ask.Measures[b.offsetWord()].Role = Roll
		return
	}
	if len(rolls) > 0 && len(rises) > 0 || b.scene.hint("rolling") || b.scene.hint("fall") {
		return
	}
	for i, m := range b.ask.Measures {
		if (m.Role == Roll || m.Role == Rise) && len(b.ask.All(Set)) == 0 && !b.scene.saysRolling(m.Role) {
			b.ask.Measures[i].Role = Set
		}
	}
}

// offsetWord is the measure that a word for the offset claims, or -1: beside a
// rise it is the roll. A set is the trade's own word, and may be the true one.
func (b *builder) offsetWord() int {
	measure := 0
	for _, l := range b.labels {
		if !isMeasure(l) {
			continue
		}
		if l.role == Set && l.term >= 0 && strings.HasSuffix(meant(b.scene.elements[l.term].term, senseRole), "offset") {
			return measure
		}
		measure++
	}
	return -1
}

// saysRolling says whether the word for a roll or rise is the trade's own, not
// "over" or "up".
func (s *scene) saysRolling(r Role) bool { return s.hasRole(r) }

// fittings takes over the angles and the fittings at the two ends.
func (b *builder) fittings() {
	if len(b.angles) == 2 && b.choice(slices.Index(b.at, b.places[0]), slices.Index(b.at, b.places[1])) {
		return // which of them fits is asked
	}
	named := b.named()
	switch {
	case len(named) == 1 && named[0].Shape != catalog.Bend && len(b.angles) > 0:
		named = append([]catalog.Fitting{catalog.BendOf(b.angles[0])}, named...)
	case len(named) == 0:
		for _, a := range b.angles {
			named = append(named, catalog.BendOf(a))
		}
	}
	if len(b.angles) > 0 {
		b.ask.Angle = b.angles[0]
	}
	b.ends(named)
	b.takeoffs()
}

// named lists the fittings that words say more of than an angle: a street 45,
// a wye, a long sweep 90. Plain bends beside them are listed too.
func (b *builder) named() []catalog.Fitting {
	var out []catalog.Fitting
	special := false
	street, sweep := false, catalog.Regular
	angle := 0
	for i := range b.scene.elements {
		e := &b.scene.elements[i]
		switch value, isFitting := e.term.means(senseFitting); {
		case e.term.is(senseStreet):
			if meant(e.term, senseStreet) == "before" && !b.isAngleAt(i+1) {
				continue
			}
			street, special = true, true
			if n := len(out); n > 0 && b.isAngleAt(i-1) && !b.isAngleAt(i+1) {
				out[n-1].Street, street = true, false
			}
		case e.term.is(senseSweep):
			value, _ := e.term.means(senseSweep)
			way, _, _ := strings.Cut(value, " ")
			sweep, special = catalog.Sweep(way), true
		case isFitting:
			f := catalog.Fitting{Shape: catalog.Shape(value)}
			if f.Shape == catalog.Wye {
				f.Angle = geometry.EighthBend
			}
			out, special = append(out, f), true
		case e.term.is(senseRegular) && !b.isAngleAt(i+1) && len(b.angles) > 0:
			out = append(out, catalog.BendOf(b.angles[0]))
		case b.isAngleAt(i):
			f := catalog.BendOf(b.angles[angle])
			angle++
			f.Street, f.Sweep = street, sweep
			if f.Angle != geometry.QuarterBend {
				f.Sweep = catalog.Regular // only 90s are sold in more than one sweep
			}
			street, sweep = false, catalog.Regular
			out = append(out, f)
		}
	}
	if !special {
		return nil
	}
	return out
}

func (b *builder) isAngleAt(i int) bool { return slices.Contains(b.places, i) }

// ends gives the fittings to the ends: one kind is at both, two are one at
// each.
func (b *builder) ends(named []catalog.Fitting) {
	plain := func(f catalog.Fitting) bool { return f == catalog.BendOf(f.Angle) }
	switch {
	case len(named) == 0:
	case len(named) == 1 || named[0] == named[1]:
		if !plain(named[0]) {
			b.ask.Ends[0].Fitting, b.ask.Ends[1].Fitting = named[0], named[0]
		}
	default:
		b.ask.Ends[0].Fitting, b.ask.Ends[1].Fitting = named[0], named[1]
	}
}

// takeoffs gives what was said of the fittings to the ends: one figure is for
// both, two are one for each.
func (b *builder) takeoffs() {
	for _, r := range []Role{TakeoffOf, Face, Depth} {
		all := b.ask.All(r)
		if len(all) == 0 {
			continue
		}
		second := all[0]
		if len(all) > 1 {
			second = all[1]
		}
		for i, m := range []Measure{all[0], second} {
			switch r {
			case Face:
				b.ask.Ends[i].Face = m.Length
			case Depth:
				b.ask.Ends[i].Depth = m.Length
			default:
				b.ask.Ends[i].Takeoff = m.Length
			}
		}
	}
}
