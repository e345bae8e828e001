package read

import (
	"cmp"
	"math"
	"slices"

	"dogleg/catalog"
	"dogleg/parser/ask"
	"dogleg/parser/measure"
)

// step is one step of a path through a message: a number taken for something, a
// word taken or left, the end of a stretch that says one thing.
type step struct {
	before *step
	score  float64

	// What was done in this step.
	measure  *measure.Measure
	label    label
	fact     int  // 1 + the item that was taken, or minus that, if it was left
	inline   bool // what was taken stands in the travel
	atOneEnd bool // or at one end of what was asked last
	ending   *ending

	// What the stretch holds so far.
	from      int // its first token
	holds     bits
	numbers   int8
	sizes     int8
	angles    int8
	takeoffs  int8
	sets      int8
	inlines   int8
	apart     int8
	pending   [apartKinds]float64 // the first reading of a set, a roll, a rise and a fall, until the second is read
	facts     int8
	took      uint16 // senses of the words that were taken, as bits by their place in facts
	lastFact  uint32 // what the last of these stands for
	lastTaken int    // the token behind the last number or word that was taken
	earlier   bits   // what the stretch before held
	afterTalk bool
	last      part
	lastTo    int
	lastScale scale
	bareScale scale // of the bare lengths in the stretch; asSaid: there are none
	laid      uint8 // ways of laying the tape that are used up

	stretches int    // that have ended
	asks      int    // of these, all but talk
	asked     saying // what the last of these said
	merit     float64
}

// ending says what a stretch was.
type ending struct {
	from, to int
	saying   saying
	change   bool     // changes what was asked last
	flag     bool     // of a takeoff: to be kept; of a way around and of two offsets: back to the old line
	verb     ask.Verb // of a command
}

// limits of the search.
const (
	width          = 64
	mostAlike      = 2  // of the paths that hold the same
	teachWidth     = 16 // while teaching, where all that hold the same are kept
	mostLabels     = 9
	wideWidth      = 1200 // where a path is looked for that says what is meant
	wideAsks       = 200  // of these, that have said as many things
	longestCommand = 24
	apartKinds     = int(apartFall - apartSet + 1)
	mostSets       = 2
)

// search finds paths through a message.
type search struct {
	m       *message
	model   *Model
	width   int
	alike   int                                // paths that hold the same and are kept; 0: all
	keep    int                                // labels of a measure that are tried
	allow   func(*measure.Measure, label) bool // nil: all
	allows  func(s *step, e *ending) bool      // nil: all
	merit   func(s *step) float64              // what ranks paths in place of the score, or nil
	seen    map[*measure.Measure][]labelled    // what each measure may be
	spans   map[int]*span
	cells   [][]*step
	heap    []step // where the next steps go
	buffer  []feature
	context *context // what the model's network makes of the message
	views   []view
}

type labelled struct {
	label label
	score float64
}

// span is a stretch of tokens, and how much its words speak for each thing that it
// may say.
type span struct {
	signs    []uint32
	saying   [sayingCount]spoken
	how      [4]spoken
	sayingAs [sayingCount][4]spoken
	verb     map[ask.Verb]float64
	viewed   [sayingCount][4]spoken // by the network
}

// spoken is a score that is worked out when it is first needed.
type spoken struct {
	known bool
	score float64
}

// paths are the best whole paths, the best first.
func (s *search) paths() []*step {
	n := len(s.m.tokens)
	s.context = s.model.look(s.m)
	s.cells = make([][]*step, n+1)
	s.seen = map[*measure.Measure][]labelled{}
	s.spans = map[int]*span{}
	s.cells[0] = []*step{{}}
	for at := range n {
		if len(s.cells[at]) == 0 {
			continue
		}
		s.prune(at)
		if at > 0 && s.m.mayEnd(at) {
			for _, p := range s.cells[at][:len(s.cells[at]):len(s.cells[at])] {
				if p.from < at {
					s.ends(p, at)
				}
			}
			s.prune(at)
		}
		for _, p := range s.cells[at] {
			s.advance(p, at)
		}
		s.cells[at] = nil
	}
	s.prune(n)
	last := s.cells[n]
	s.cells[n] = nil
	for _, p := range last {
		if p.from < n || p.stretches == 0 {
			s.ends(p, n)
		} else {
			s.cells[n] = append(s.cells[n], p)
		}
	}
	s.prune(n)
	return s.cells[n]
}

// prune keeps the best paths that have come to a token.
func (s *search) prune(at int) {
	c := s.cells[at]
	if s.merit != nil {
		slices.SortStableFunc(c, func(a, b *step) int { return cmp.Or(cmp.Compare(b.merit, a.merit), cmp.Compare(b.score, a.score)) })
		if at < len(s.m.tokens) {
			c = different(c)
		}
	} else if len(c) > 1 {
		slices.SortStableFunc(c, func(a, b *step) int { return cmp.Compare(b.score, a.score) })
		if s.alike > 0 && at < len(s.m.tokens) {
			c = fewAlike(c, s.alike)
		}
	}
	if len(c) > s.width {
		c = c[:s.width]
	}
	s.cells[at] = c
}

// different keeps a few of the paths that have found the same so far, and leaves room
// for those that have said more things and for those that have said fewer.
func different(in []*step) []*step {
	type found struct {
		from, asks, lastTo int
		holds              bits
		merit              int
		earlier            bits
		asked              saying
		last               part
		sizes, angles      int8
		sets, inlines      int8
		bareScale          scale
	}
	seen, asks := map[found]int{}, map[int]int{}
	out := in[:0]
	for _, p := range in {
		if asks[p.asks]++; asks[p.asks] > wideAsks {
			continue
		}
		k := found{p.from, p.asks, p.lastTo, p.holds, int(p.merit * 5), p.earlier, p.asked, p.last, p.sizes, p.angles, p.sets, p.inlines, p.bareScale}
		if seen[k]++; seen[k] <= 3 {
			out = append(out, p)
		}
	}
	return out
}

// after is a step that follows another, to be filled in.
func (s *search) after(p *step) *step {
	if len(s.heap) == cap(s.heap) {
		s.heap = make([]step, 0, 256)
	}
	s.heap = append(s.heap, *p)
	next := &s.heap[len(s.heap)-1]
	next.before, next.measure, next.fact, next.inline, next.atOneEnd, next.ending = p, nil, 0, false, false, nil
	return next
}

// add puts a path where it has come to.
func (s *search) add(p *step, at int) {
	if s.merit != nil {
		p.merit = p.before.merit + s.merit(p)
	}
	s.cells[at] = append(s.cells[at], p)
}

// advance takes the ways on from a token.
func (s *search) advance(p *step, at int) {
	t := &s.m.tokens[at]
	ms := s.m.measures[at]
	for k := range ms {
		for _, l := range s.labelled(&ms[k]) {
			s.take(p, &ms[k], l)
		}
	}
	it := &s.m.items[s.m.itemAt[at]]
	if (t.Number() || t.Type == measure.Nominal) && len(ms) > 0 {
		if it.from == at && it.to > at+1 && isFact(it) { // a 45 branch, and a 45
			s.fact(p, it, s.m.itemAt[at], taken)
		}
		return
	}
	if it.from == at && isFact(it) {
		s.fact(p, it, s.m.itemAt[at], taken)
		s.fact(p, it, s.m.itemAt[at], left)
		if mayStandInline(it) {
			s.fact(p, it, s.m.itemAt[at], inTravel)
		}
		if s.m.said.Last != nil && (it.has("fitting") || it.has("sweep") || it.has("elbow")) {
			s.fact(p, it, s.m.itemAt[at], atOneEnd)
		}
		return
	}
	s.cells[at+1] = append(s.cells[at+1], p) // the word says nothing by itself
}

// labelled are the likeliest labels of a measure.
func (s *search) labelled(x *measure.Measure) []labelled {
	if l, ok := s.seen[x]; ok {
		return l
	}
	seen, unit := s.m.seen(x)
	claims := s.m.claimed(x)
	var out []labelled
	for _, l := range s.m.labels(x) {
		if s.allow != nil && !s.allow(x, l) {
			continue
		}
		s.buffer = s.m.suits(numberFeatures(s.buffer[:0], seen, unit, l), claims, l)
		s.views = numberViews(s.m, s.views[:0], x, l)
		out = append(out, labelled{l, s.model.dot(s.buffer) + s.context.score(s.views)})
	}
	slices.SortStableFunc(out, func(a, b labelled) int { return cmp.Compare(b.score, a.score) })
	if len(out) > s.keep {
		n := slices.IndexFunc(out, func(l labelled) bool { return l.label.part == none })
		rest := out[:s.keep]
		if n >= s.keep {
			rest[s.keep-1] = out[n]
		}
		out = rest
	}
	s.seen[x] = out
	return out
}

// take takes a measure for a label.
func (s *search) take(p *step, x *measure.Measure, l labelled) {
	if !mayTake(p, l.label) {
		return
	}
	next := s.after(p)
	next.measure, next.label = x, l.label
	next.numbers++
	s.buffer = s.m.joins(s.buffer[:0], p, x, l.label)
	next.score = p.score + l.score + s.model.dot(s.buffer)
	if l.label.part != none {
		next.hold(x, l.label)
	}
	s.add(next, x.To)
}

// mayTake says whether a stretch can hold one more number of a part.
func mayTake(p *step, l label) bool {
	if l.method > 0 && p.laid>>l.method&1 != 0 || !l.sameUnit(p) {
		return false
	}
	switch l.part {
	case none, reading, term, off, station:
		return true
	case set:
		if p.holds.has(set) && p.sets < mostSets {
			return true
		}
	case size:
		return p.sizes < 2
	case angle:
		return p.angles < mostBends
	case takeoff, face, depth:
		return p.takeoffs < 4
	case apartSet, apartRoll, apartRise, apartFall:
		return p.apart < 4 && !p.holds.has(plainOf[l.part]) && (l.part != apartSet || p.apart < 2)
	}
	if a, ok := apartOf[l.part]; ok && p.holds.has(a) {
		return false
	}
	return !p.holds.has(l.part) || l.method != 0 || p.laid != 0
}

// sameUnit says whether a length without a unit is in that of the others without one
// that its stretch holds.
func (l label) sameUnit(p *step) bool {
	return l.scale == asSaid || p.bareScale == asSaid || l.scale == p.bareScale || !isLong(l.part) || ofALevel(l.part)
}

// isLong says whether a part is a length, by itself or in a sum.
func isLong(p part) bool { return parts[p].sort == aLength || parts[p].sort == aTerm }

// ofALevel says whether a part may be in another unit than those beside it: levels, and
// how far a line is.
func ofALevel(p part) bool { return p == upper || p == lower || p == length }

// hold notes what a stretch holds with one more number.
func (p *step) hold(x *measure.Measure, l label) {
	p.holds |= 1 << l.part
	p.last, p.lastTo, p.lastTaken = l.part, x.To, x.To
	if l.scale != asSaid && isLong(l.part) {
		p.lastScale = l.scale
		if !ofALevel(l.part) {
			p.bareScale = l.scale
		}
	}
	if l.method > 0 {
		p.laid |= 1 << l.method
	}
	switch l.part {
	case size:
		p.sizes++
	case angle:
		p.angles++
	case set:
		p.sets++
	case takeoff, face, depth:
		p.takeoffs++
	case apartSet, apartRoll, apartRise, apartFall:
		p.apart++
		if k := l.part - apartSet; p.pending[k] == 0 {
			p.pending[k] = l.value
		} else {
			p.pending[k] = 0
		}
	}
}

// A set is told once, or as two readings.
var (
	plainOf = map[part]part{apartSet: set, apartRoll: roll, apartRise: rise, apartFall: fall}
	apartOf = map[part]part{set: apartSet, roll: apartRoll, rise: apartRise, fall: apartFall}
)

// joins are the features of a number with what came before it in its stretch.
func (m *message) joins(out []feature, p *step, x *measure.Measure, l label) []feature {
	q := uint32(l.part) + 128*uint32(l.by)
	if l.method > 0 {
		q += 64
	}
	out = append(out, mix(mix(fTook, p.lastFact), q), mix(mix(mix(fTook, p.lastFact), uint32(p.last)), q))
	if p.lastFact != 0 && p.lastTaken > p.lastTo {
		out = append(out, mix(mix(mix(fTook+1, p.lastFact), q), min(uint32(x.From-p.lastTaken), 5)))
		if x.From > p.lastTaken {
			out = append(out, mix(mix(mix(fTook+2, p.lastFact), q), m.signs(m.before(x.From))[0]))
		}
	}
	if l.part == none {
		return append(out, mix(mix(fBigram, uint32(p.last)), q), mix(mix(fWith, 200), uint32(min(p.numbers, 5))))
	}
	if p.asks > 0 {
		was := uint32(0)
		if p.earlier.has(l.part) {
			was = 1
		}
		out = append(out, mix(mix(fRepeat+100, was), q), mix(fRepeat+200, was))
	}
	between := uint32(min(x.From-p.lastTo, 5))
	if p.last != none && x.From > p.lastTo {
		between = mix(between, m.signs(m.before(x.From))[0])
	}
	out = append(out,
		mix(mix(fBigram, uint32(p.last)), q), mix(mix(mix(fBigram, uint32(p.last)), q), between),
		mix(mix(mix(fBigram, uint32(p.last)), q), uint32(min(x.From-p.lastTo, 3))))
	if p.asks > 0 && p.holds == 0 {
		out = append(out, mix(mix(fRepeat, uint32(p.asked)), q))
	}
	for o := set; o < partCount; o++ {
		if p.holds.has(o) {
			out = append(out, mix(mix(fWith, uint32(o)), q))
		}
	}
	if l.scale != asSaid && parts[l.part].sort == aLength {
		out = append(out, mix(mix(fScale, 300+uint32(p.lastScale)), uint32(l.scale)))
	}
	if l.method > 0 {
		way := m.ways[l.method-1]
		d := way.from - x.To
		if d < 0 {
			d = -40 - max(0, x.From-way.to)
		}
		out = append(out, mix(mix(fWith, 250), uint32(max(-60, min(d, 12))+100)), mix(mix(fWith, 251), hashOf(string(way.method))), mix(mix(mix(fWith, 252), hashOf(string(way.method))), q))
	}
	return out
}

// facts are the senses of words that say something of the pipe or the fittings.
var facts = [factCount]string{"material", "joint", "use", "schedule", "fitting", "sweep", "street", "elbow", "regular", "swap", "plain-end"}

const factCount = 11

func isFact(it *item) bool {
	return slices.ContainsFunc(facts[:], it.has)
}

// use is what is done with what a word says of the pipe or a fitting.
type use uint8

const (
	taken use = iota
	left
	inTravel // it stands in the travel, not at an end
	atOneEnd // it takes the place of one fitting of what was asked last
)

const useCount = int(atOneEnd) + 1

// item is the item that a step takes or leaves, and what it does with it.
func (p *step) item() (index int, u use) {
	switch {
	case p.fact < 0:
		return -p.fact - 1, left
	case p.inline:
		return p.fact - 1, inTravel
	case p.atOneEnd:
		return p.fact - 1, atOneEnd
	}
	return p.fact - 1, taken
}

// mayStandInline says whether an item names what may stand in the travel.
func mayStandInline(it *item) bool {
	return slices.Contains([]catalog.Shape{catalog.Union, catalog.Coupling, catalog.Valve, catalog.Reducer, catalog.Flange, catalog.CleanoutTee},
		catalog.Shape(it.means("fitting")))
}

// fact takes what an item says of the pipe, or leaves it.
func (s *search) fact(p *step, it *item, index int, u use) {
	next := s.after(p)
	next.fact = index + 1
	if u != left {
		next.takeFact(it)
	}
	switch u {
	case taken:
		next.facts++
	case left:
		next.fact = -index - 1
	case inTravel:
		next.facts++
		next.inlines++
		next.inline = true
	case atOneEnd:
		next.facts++
		next.atOneEnd = true
	}
	s.buffer, s.views = s.m.factFeatures(s.buffer[:0], next), factViews(s.m, s.views[:0], next)
	next.score = p.score + s.model.dot(s.buffer) + s.context.score(s.views)
	s.add(next, it.to)
}

// takeFact notes what a word says that was taken.
func (p *step) takeFact(it *item) {
	p.lastTaken = it.to
	for i, f := range facts {
		if it.has(f) {
			p.took |= 1 << i
			p.lastFact = mix(uint32(i)+1, hashOf(it.means(f)))
			return
		}
	}
}

// factFeatures are those of an item that is taken or left.
func (m *message) factFeatures(f []feature, next *step) []feature {
	index, u := next.item()
	y, it := uint32(u)+1, &m.items[index]
	f = append(f, mix(fFact, y))
	was := next.before
	for _, v := range m.signs(it)[1:] {
		f = append(f, mix(mix(fFact, v), y), mix(mix(mix(fTook+3, v), was.lastFact), y), mix(mix(mix(fTook+4, v), uint32(was.last)), y), mix(mix(mix(fTook+5, v), uint32(was.took)), y))
		if was.lastTaken > was.from {
			f = append(f, mix(mix(mix(fTook+6, v), min(uint32(it.from-was.lastTaken), 5)), y))
		}
	}
	f = append(f, mix(mix(fFact, m.signs(it)[0]), y))
	for _, v := range m.signs(m.before(it.from)) {
		f = append(f, mix(mix(fFact+100, v), y))
	}
	for _, v := range m.signs(m.after(it.to)) {
		f = append(f, mix(mix(fFact+200, v), y))
	}
	if b := m.before(it.from); b != nil {
		f = append(f, mix(mix(fFact+300, m.signs(m.before(b.from))[0]), y))
	}
	return append(f, mix(mix(fFact+400, uint32(min(next.facts, 4))), y))
}

// mayEnd says whether a stretch may end where token i begins: behind a mark or the
// end of a line, before a word that joins two asks, before a number in a list.
func (m *message) mayEnd(i int) bool {
	t, before := &m.tokens[i], &m.tokens[i-1]
	if before.Type == measure.NewLine {
		return t.Type != measure.NewLine
	}
	if t.Type == measure.NewLine {
		return false
	}
	switch before.Text {
	case ",", ";", ".", "?", "!", ")", "/", "…":
		return m.items[m.itemAt[i]].from == i
	}
	it := &m.items[m.itemAt[i]]
	if it.from != i {
		return false
	}
	if t.Type == measure.Whole && i+1 < len(m.tokens) && m.tokens[i+1].Glued && (m.tokens[i+1].Text == ")" || m.tokens[i+1].Text == ".") {
		return true // the number of a list
	}
	if slices.ContainsFunc([]string{"and", "then", "next", "or", "ask", "verb", "correction", "withdrawn", "with", "hint", "want"}, it.has) {
		return true
	}
	if before.Type == measure.Part || before.Number() || m.items[m.itemAt[i-1]].has("verb") {
		return t.Number() || t.Type == measure.Soft || m.items[m.itemAt[i-1]].has("verb")
	}
	return t.Type == measure.And || t.Text == "+"
}

// mostEndings is how many ways of ending a stretch are kept of one path.
const mostEndings = 40

// ends adds the paths whose stretch ends at a token, in the ways that are likeliest.
func (s *search) ends(p *step, at int) {
	type end struct {
		ending
		score float64
	}
	var all []end
	sp := s.span(p.from, at)
	for _, e := range s.m.endings(p, at) {
		if s.allows != nil && !s.allows(p, &e) {
			continue
		}
		s.buffer = s.m.endFeatures(s.buffer[:0], p, &e)
		all = append(all, end{e, s.model.dot(s.buffer) + s.spoken(sp, &e)})
	}
	slices.SortStableFunc(all, func(a, b end) int { return cmp.Compare(b.score, a.score) })
	if s.merit == nil && len(all) > mostEndings {
		all = all[:mostEndings]
	}
	if p.stretches >= mostSegments {
		return
	}
	for i := range all {
		next := s.after(p)
		next.ending = &all[i].ending
		next.score = p.score + all[i].score
		next.end(&all[i].ending, at)
		s.add(next, at)
	}
}

// end begins a new stretch behind one that has ended.
func (p *step) end(e *ending, at int) {
	if e.saying != talk {
		p.earlier = p.holds
	}
	p.took, p.lastFact, p.lastTaken = 0, 0, at
	p.from, p.holds, p.numbers, p.sizes, p.angles, p.takeoffs, p.apart, p.facts = at, 0, 0, 0, 0, 0, 0, 0
	p.sets, p.inlines = 0, 0
	p.pending = [apartKinds]float64{}
	p.bareScale = asSaid
	p.last, p.lastTo, p.laid = none, at, 0
	p.stretches++
	p.afterTalk = e.saying == talk
	if e.saying != talk {
		p.asks++
		p.asked = e.saying
	}
}

// mayBeBare are what words alone may ask for, of what the same message asked before.
var mayBeBare = [sayingCount]bool{unstated: true, offset: true, fit: true, mark: true, takeoffOf: true}

// endings lists what the stretch may have said.
func (m *message) endings(p *step, at int) []ending {
	if p.pending != [apartKinds]float64{} {
		return nil
	}
	var out []ending
	bare := p.holds == 0 && p.facts == 0
	for y := range sayingCount {
		if y.asks() && p.fits(y) && !(bare && p.asks > 0 && !mayBeBare[y]) {
			out = append(out, m.asking(p, y)...)
		}
	}
	if p.holds == 0 {
		out = append(out, m.askingNothing(p, at)...)
	}
	for i := range out {
		out[i].from, out[i].to = p.from, at
	}
	return out
}

// fits says whether a saying may hold what the stretch holds. Two sets are two
// offsets in one line, unless the tape was laid in two ways.
func (p *step) fits(y saying) bool {
	switch {
	case p.holds&^sayings[y].may != 0:
		return false
	case p.angles > max(mostAngles[y], usualAngles):
		return false
	case p.inlines > 0 && !mayHoldInline[y]:
		return false
	case p.sets > 1 && p.laid == 0:
		return y == line
	}
	return true
}

// asking lists the ways in which a stretch asks for one kind of thing: anew, as a
// change of what was asked before, to be kept, back to the old line.
func (m *message) asking(p *step, y saying) []ending {
	var out []ending
	anew, change := ending{saying: y}, ending{saying: y, change: true}
	context := m.said.Last != nil || p.asks > 0 || m.said.Wanted != ""
	toldTakeoff := p.holds&(unlike|of(takeoff, face)) != 0
	add := func(e ending, flag bool) {
		e.flag = flag
		if !e.change || context || y == unstated {
			out = append(out, e)
		}
	}
	switch y {
	case unstated:
		add(change, false)
		if a := m.said.Last; a != nil && comesBack(a.Kind) || p.asked == around || p.asked == line || toldTakeoff {
			add(change, true)
		}
	case around, line:
		add(anew, false)
		add(change, false)
		add(anew, true)
		add(change, true)
	case sum:
		if p.holds.has(term) {
			add(anew, false)
		}
	case takeoffOf:
		add(anew, false)
		if toldTakeoff {
			add(anew, true)
		}
		add(change, false)
	default:
		add(anew, false)
		add(change, false)
	}
	return out
}

// comesBack says whether an ask of a kind may come back to the old line.
func comesBack(k ask.Kind) bool { return k == ask.Around || k == ask.Doglegs }

// askingNothing lists what a stretch may be that asks for no figure.
func (m *message) askingNothing(p *step, at int) []ending {
	var out []ending
	if at-p.from <= longestCommand {
		for _, v := range verbs {
			out = append(out, ending{saying: command, verb: v})
		}
	}
	if !p.afterTalk {
		out = append(out, ending{saying: talk})
	}
	switch {
	case at < len(m.tokens):
	case p.from == 0:
		out = append(out, ending{saying: withdrawn}, ending{saying: elsewhere}, ending{saying: either})
	case p.asks > 0:
		out = append(out, ending{saying: withdrawn}) // what the stretches before it ask
	}
	return out
}

// spanSigns is what the words of a stretch stand for, each once.
func (m *message) spanSigns(from, to int) []uint32 {
	var all []uint32
	first, last := m.itemAt[from], m.itemAt[to-1]
	for i := first; i <= last; i++ {
		it := &m.items[i]
		for _, v := range m.signs(it) {
			all = append(all, mix(fWord, v))
		}
		if i < last {
			all = append(all, mix(mix(fWord+100, m.signs(it)[0]), m.signs(&m.items[i+1])[0]))
		}
	}
	for _, v := range m.signs(&m.items[first]) {
		all = append(all, mix(fFirst, v))
	}
	if first < last {
		all = append(all, mix(mix(fFirst, m.signs(&m.items[first])[0]), m.signs(&m.items[first+1])[0]))
		for _, v := range m.signs(&m.items[last]) {
			all = append(all, mix(fLast, v))
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// span is a stretch of tokens, made once.
func (s *search) span(from, to int) *span {
	key := from*(len(s.m.tokens)+1) + to
	sp := s.spans[key]
	if sp == nil {
		sp = &span{signs: s.m.spanSigns(from, to)}
		s.spans[key] = sp
	}
	return sp
}

// spoken is how much the words of a stretch speak for what it is taken to say.
func (s *search) spoken(sp *span, e *ending) float64 {
	total := 0.0
	add := func(x *spoken, with uint32) {
		if !x.known {
			x.known, x.score = true, s.model.dotWith(sp.signs, with)
		}
		total += x.score
	}
	how := howOf(e)
	y, z := mix(fSaying, uint32(e.saying)), mix(mix(fSaying, 50), how)
	add(&sp.saying[e.saying], y)
	add(&sp.how[how], z)
	if flags[e.saying] {
		add(&sp.sayingAs[e.saying][how], mix(y, how))
	}
	if e.saying == command {
		v, ok := sp.verb[e.verb]
		if !ok {
			if sp.verb == nil {
				sp.verb = map[ask.Verb]float64{}
			}
			s.views = endViews(s.m, s.views[:0], e)
			v = s.model.dotWith(sp.signs, mix(fCommand, hashOf(string(e.verb)))) + s.context.score(s.views)
			sp.verb[e.verb] = v
		}
		return total + v
	}
	x := &sp.viewed[e.saying][how]
	if !x.known {
		s.views = endViews(s.m, s.views[:0], e)
		x.known, x.score = true, s.context.score(s.views)
	}
	return total + x.score
}

// flags are the sayings that may carry a flag.
var flags = [sayingCount]bool{unstated: true, takeoffOf: true, around: true, line: true}

// howOf numbers the ways in which one thing is said: anew, as a change, with a flag.
func howOf(e *ending) uint32 {
	how := uint32(0)
	if e.change {
		how = 1
	}
	if e.flag {
		how += 2
	}
	return how
}

// wordFeatures are those of the words of a stretch: what spoken adds up.
func (m *message) wordFeatures(out []feature, e *ending) []feature {
	how := howOf(e)
	y, z := mix(fSaying, uint32(e.saying)), mix(mix(fSaying, 50), how)
	words := m.spanSigns(e.from, e.to)
	for _, w := range words {
		out = append(out, mix(w, y), mix(w, z))
		if flags[e.saying] {
			out = append(out, mix(w, mix(y, how)))
		}
		if e.saying == command {
			out = append(out, mix(w, mix(fCommand, hashOf(string(e.verb)))))
		}
	}
	return out
}

// features are all those of a step.
func (m *message) features(out []feature, p *step) []feature {
	switch {
	case p.ending != nil:
		return m.endFeatures(m.wordFeatures(out, p.ending), p.before, p.ending)
	case p.measure != nil:
		seen, unit := m.seen(p.measure)
		return m.joins(m.suits(numberFeatures(out, seen, unit, p.label), m.claimed(p.measure), p.label), p.before, p.measure, p.label)
	case p.fact != 0:
		return m.factFeatures(out, p)
	}
	return out
}

// endFeatures are those of a stretch that says something, its words left out.
func (m *message) endFeatures(out []feature, p *step, e *ending) []feature {
	y := mix(fSaying, uint32(e.saying))
	how := howOf(e)
	z := mix(mix(fSaying, 50), how)
	yz := mix(y, how)
	both := func(f uint32) { out = append(out, mix(f, y), mix(f, z), mix(f, yz)) }
	both(fBias)
	held := 0
	for o := set; o < partCount; o++ {
		if p.holds.has(o) {
			both(mix(fRole, uint32(o)))
			held++
		}
	}
	both(mix(fHave, uint32(p.holds)^uint32(p.holds>>32)))
	both(mix(fHave+100, uint32(min(held, 5))))
	both(mix(fHave+200, uint32(min(int(p.numbers)-held, 4)+8)))
	both(mix(mix(fHave+300, uint32(min(p.facts, 3))), uint32(min(p.sizes, 2))))
	both(mix(mix(fHave+400, uint32(p.angles)), uint32(min(p.sizes, 1))))
	both(mix(mix(fHave+500, min(uint32(p.asks), 2)), uint32(p.asked)))
	both(mix(fHave+550, min(uint32(p.stretches-p.asks), 2)))
	both(mix(fHave+700, uint32(p.took)))
	both(mix(mix(fHave+720, uint32(p.took)), uint32(p.last)))
	if p.asks > 0 {
		both(mix(mix(fHave+750, uint32(p.asked)), uint32(p.earlier&p.holds)^uint32((p.earlier&p.holds)>>32)))
	}
	both(mix(fHave+600, uint32(min(e.to-e.from, 14)/2)))
	if m.said.Wanted != "" {
		both(mix(fContext+100, hashOf(string(m.said.Wanted))))
	}
	if a := m.said.Last; a != nil && p.asks == 0 {
		both(mix(fContext+200, hashOf(string(a.Kind))))
		known := uint32(0)
		for o := set; o < partCount; o++ {
			if p.holds.has(o) && len(a.All(parts[o].role)) > 0 {
				known++
			}
		}
		both(mix(mix(fContext+300, known), uint32(min(held, 4))))
		if p.angles > 0 && a.Angle != 0 {
			both(fContext + 400)
		}
	} else if p.asks == 0 {
		both(fContext + 500)
	}
	if e.to == len(m.tokens) {
		both(fBoundary)
	} else {
		b := fBoundary + 100
		for _, v := range m.signs(m.before(e.to)) {
			out = append(out, mix(uint32(b), v))
		}
		for _, v := range m.signs(m.after(e.to)) {
			out = append(out, mix(uint32(b+100), v))
		}
		out = append(out, mix(mix(uint32(b+200), m.signs(m.before(e.to))[0]), m.signs(m.after(e.to))[0]), mix(uint32(b+300), uint32(min(held, 4))), mix(mix(uint32(b+400), uint32(p.holds)), uint32(e.saying)))
		if it := m.after(e.to); it != nil {
			for _, v := range m.signs(m.after(it.to)) {
				out = append(out, mix(uint32(b+500), v))
			}
		}
	}
	if e.saying == command {
		v := mix(fCommand, hashOf(string(e.verb)))
		out = append(out, v, mix(v, uint32(min(e.to-e.from, 6))))
	}
	return out
}

// probabilities are those of some paths, by their scores.
func probabilities(paths []*step) []float64 {
	out := make([]float64, len(paths))
	if len(paths) == 0 {
		return out
	}
	top := math.Inf(-1)
	for _, p := range paths {
		top = max(top, p.score)
	}
	sum := 0.0
	for i, p := range paths {
		out[i] = math.Exp(p.score - top)
		sum += out[i]
	}
	for i := range out {
		out[i] /= sum
	}
	return out
}

// fewAlike keeps only some of the paths that hold the same so far, the best, so that
// there is room for others.
func fewAlike(in []*step, most int) []*step {
	type held struct {
		from, stretches, asks  int
		holds                  bits
		last                   part
		sizes, angles, numbers int8
		inlines, facts         int8
		asked                  saying
	}
	seen := map[held]int{}
	out := in[:0]
	for _, p := range in {
		k := held{p.from, p.stretches, p.asks, p.holds, p.last, p.sizes, p.angles, p.numbers, p.inlines, p.facts, p.asked}
		if seen[k]++; seen[k] <= most {
			out = append(out, p)
		}
	}
	return out
}
