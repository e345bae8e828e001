package parser

import (
	"math"
	"slices"
	"strings"

	"dogleg/catalog"
)

// parts cuts a message into the stretches that say one thing each: at line
// ends, semicolons and "then". Lines that only make sense together are one.
func parts(text string) []*part {
	all := elements(text)
	var out []*part
	from := 0
	flush := func(to int) {
		if p, ok := newPart(text, all[from:to]); ok {
			out = append(out, p)
		}
	}
	for i, e := range all {
		if e.mark == "\n" || e.mark == ";" || e.term.is(senseThen) {
			flush(i)
			from = i + 1
		}
	}
	flush(len(all))
	return out
}

// newPart takes the name in front of a statement off it: "laundry: 12 set".
func newPart(text string, in []element) (*part, bool) {
	for len(in) > 0 && (in[0].mark != "" && !strings.Contains("(-", in[0].mark) || in[0].term.is(senseAnd) && !in[0].term.is(senseHint)) {
		in = in[1:]
	}
	if len(in) == 0 {
		return nil, false
	}
	in = withoutListNumber(in)
	p := &part{elements: in, base: in[0].begin, text: strings.TrimSpace(text[in[0].begin:in[len(in)-1].end])}
	if at := nameEnd(in); at > 0 {
		p.name = strings.TrimSpace(text[in[0].begin:in[at].begin])
		p.elements = in[at+1:]
	}
	if at := callIt(in); at > 0 {
		p.name = strings.TrimSpace(text[in[at+1].begin:in[len(in)-1].end])
		p.elements = in[:at]
	}
	return p, true
}

// withoutListNumber drops the "1)" or "2." in front of an item of a list.
func withoutListNumber(in []element) []element {
	if len(in) > 3 && in[0].quantity != nil && in[0].quantity.whole && !in[0].quantity.plural && in[0].quantity.unit == noUnit && in[0].quantity.number < 40 &&
		(in[1].mark == ")" || in[1].mark == ".") {
		return in[2:]
	}
	return in
}

// callIt is the place of "call it" after an ask that is to be named, or 0. Behind a
// rough figure it may bring the one that holds.
func callIt(in []element) int {
	number := -1
	for i := range in {
		if number >= 0 && isNaming(&in[i]) && i+1 < len(in) && (!isPlainLength(in[i+1].quantity) || !isPlainLength(in[number].quantity) || !isCloser(in, number, i+1)) {
			return i
		}
		if in[i].quantity != nil {
			number = i
		}
	}
	return 0
}

// nameEnd is the place of the colon after a job's name, or 0.
func nameEnd(in []element) int {
	for i := range in {
		e := &in[i]
		switch {
		case e.mark == ":" || e.mark == "-" && i+1 < len(in) && in[i+1].begin > e.end && e.begin > in[max(i-1, 0)].end:
			if i > 0 && i+1 < len(in) && i <= 6 {
				return i
			}
			return 0
		case e.quantity != nil && i == 0:
			return 0
		case e.term != nil && !e.term.is(senseFiller) && !e.term.is(senseLink) && !e.term.is(senseArticle) && !e.term.is(senseObstacle):
			return 0
		}
	}
	return 0
}

// together joins the parts of a message of which no one is whole: 12 set, 45s
// and 2 pvc on three lines.
func together(text string, in []*part) []*part {
	if len(in) < 2 {
		return in
	}
	whole := 0
	for _, p := range in {
		if p.isWhole() {
			whole++
		}
	}
	if whole > 0 || len(in) > 6 || isHeaded(in) {
		return in
	}
	joined := &part{text: text, name: in[0].name}
	for i, p := range in {
		if i > 0 {
			joined.elements = append(joined.elements, element{mark: "\n", text: "\n", begin: p.elements[0].begin, end: p.elements[0].begin})
		}
		joined.elements = append(joined.elements, p.elements...)
	}
	return []*part{joined}
}

// isHeaded says whether the first part is a pipe and the others are bare
// lengths below it.
func isHeaded(in []*part) bool {
	head := in[0].statement()
	if head.Ask == nil || !isHeading(head.Ask) {
		return false
	}
	for _, p := range in[1:] {
		if s := p.statement(); s.Ask == nil || s.Ask.Kind != Sum {
			return false
		}
	}
	return true
}

// isWhole says whether a part can be answered, or acted on, by itself.
func (p *part) isWhole() bool {
	s := p.statement()
	switch {
	case s.Command != nil:
		return true
	case s.Misunderstanding != nil:
		return false
	case s.Ask.Kind == Offset:
		return len(s.Ask.Measures) > 1 || len(s.Ask.Measures) == 1 && s.Ask.Angle != 0
	case s.Ask.Kind == Sum:
		return len(s.Ask.Sum.Terms) > 1 || s.Ask.Sum.InMetric
	}
	return s.Ask.Kind != Unstated || s.Ask.FollowUp && len(s.Ask.Measures) > 0
}

// inherited gives the asks below a heading what it says: "2 abs 45s" on a line
// of its own is the pipe and the angle of the lines below it. Nothing else is
// carried over from one ask to the next: a foreman would ask.
func inherited(in []Statement) []Statement {
	if len(in) < 2 || in[0].Ask == nil || !isHeading(in[0].Ask) {
		return in
	}
	head := in[0].Ask
	for _, s := range in[1:] {
		if s.Ask == nil || s.Ask.Kind == Unstated {
			return in
		}
	}
	for _, s := range in[1:] {
		inherit(s.Ask, head)
	}
	return in[1:]
}

func isHeading(a *Ask) bool {
	return (a.Kind == Unstated || a.Kind == Offset) && len(a.Measures) == 0 && a.Pipe != (catalog.Pipe{})
}

func inherit(a, head *Ask) {
	if a.Kind == Sum && len(a.Sum.Terms) == 1 && !a.Sum.InMetric {
		t := a.Sum.Terms[0]
		*a = Ask{
			Kind: Offset, Language: head.Language, Name: a.Name,
			Measures: []Measure{{Role: Set, Length: t.Length, Text: t.Text, Bare: true}},
		}
	}
	if a.Kind == Sum || a.Kind == Multiplier {
		return
	}
	if a.Pipe == (catalog.Pipe{}) {
		a.Pipe = head.Pipe
	}
	if a.Angle == 0 && a.Kind != Fall {
		a.Angle, a.Ends = head.Angle, head.Ends
	}
}

// corrected puts the number that a speaker means in the place of the one taken
// back: "12, no wait, 14 set".
func corrected(in []element) []element {
	for i := range in {
		e := &in[i]
		if !e.term.is(senseCorrection) {
			continue
		}
		at := i + 1
		if at < len(in) && in[at].mark == "," {
			at++ // 11, no wait, 11 and a half
		}
		if at >= len(in) || in[at].quantity == nil {
			continue
		}
		if taken := takenBack(in[:i], in[at].quantity); taken >= 0 && (at == i+1 || replaces(in, taken, at)) {
			out := slices.Clone(in[:i])
			out[taken] = in[at]
			return corrected(append(out, in[at+1:]...))
		}
	}
	return in
}

// takenBack is the place of the number that another is said instead of: the last, or
// the last in millimeters and the like where the other is. It is -1 where there is none.
func takenBack(said []element, instead *quantity) int {
	at := -1
	for j, e := range said {
		if e.quantity != nil && (at < 0 || instead.unit != metric || e.quantity.unit == metric || said[at].quantity.unit != metric) {
			at = j
		}
	}
	return at
}

// replaces says whether a number behind a comma stands where the one that is taken
// back stood: of the same sort, and with the same word behind it or none.
func replaces(in []element, taken, at int) bool {
	old, now := in[taken].quantity, in[at].quantity
	return old.plural == now.plural && old.unit == now.unit && wordBehind(in, taken) == wordBehind(in, at)
}

// wordBehind is the word right behind an element, or "".
func wordBehind(in []element, i int) string {
	if i+1 == len(in) || in[i+1].mark != "" || in[i+1].term.is(senseCorrection) {
		return ""
	}
	return in[i+1].text
}

// closer puts the number that a speaker settles on in the place of a rough one just
// before: little over a foot and a half, say 18-7/8.
func closer(in []element) []element {
	rough := -1
	for i := range in {
		switch q := in[i].quantity; {
		case q == nil:
		case rough >= 0 && isCloser(in, rough, i):
			out := append(slices.Clone(in[:rough]), in[i])
			return closer(append(out, in[i+1:]...))
		case isPlainLength(q) && q.value > 0:
			rough = i
		default:
			rough = -1
		}
	}
	return in
}

// isCloser says whether a number is what somebody settles on who has said a rough one
// before: near it, and neither has a word of its own between.
func isCloser(in []element, rough, i int) bool {
	between, q := in[rough+1:i], in[i].quantity
	if len(between) < 2 || len(between) > 5 || !isPlainLength(q) || math.Abs(q.value/in[rough].quantity.value-1) > 0.15 {
		return false
	}
	if i+1 < len(in) && in[i+1].term.is(senseMaterial) || anyOf(between, hasWordOfItsOwn) {
		return false
	}
	last := &between[len(between)-1]
	return (isNaming(last) || last.text == "say" || last.text == "digamos") && anyOf(between, func(e *element) bool { return e.mark != "" })
}

// hasWordOfItsOwn says whether a word says what the number beside it is.
func hasWordOfItsOwn(e *element) bool {
	t := e.term
	return t.is(senseRole) || t.is(senseMethod) || t.is(senseOneEnd) || t.is(senseOtherEnd) || t.is(senseFromWall) || t.is(senseHint)
}

// isNaming says whether a word goes before the name of a job: call it.
func isNaming(e *element) bool { return Verb(meant(e.term, senseVerb)) == NameJob }

// standsAlone says whether a part is a whole ask in which every length is
// named by a word.
func (p *part) standsAlone() bool {
	s := p.statement()
	if s.Ask == nil || !p.isWhole() || s.Ask.Kind == Sum {
		return false
	}
	return !slices.ContainsFunc(s.Ask.Measures, func(m Measure) bool { return m.Bare })
}

// expanded makes several parts of one that lists what differs: "2 abs 45s:
// 9-3/8, 11-1/4, 7", "sets of 8 and 13", "in 2 pvc and 3 pvc".
func expanded(in []*part) []*part {
	var out []*part
	for _, p := range in {
		if len(p.elements) > mostElements {
			out = append(out, p)
			continue
		}
		if first, second, ok := p.atThen(); ok {
			out = append(out, first, second)
			continue
		}
		if list := p.list(); len(list) > 1 {
			out = append(out, list...)
			continue
		}
		if first, second, ok := p.twoAsks(); ok && len(in) < 5 {
			out = append(out, first, second)
			continue
		}
		out = append(out, p)
	}
	return out
}

// list takes apart the list in a part, if there is one: the stretches that
// differ stand side by side, and everything else belongs to each.
func (p *part) list() []*part {
	from, to, step := p.listed()
	if to-from < 2 {
		return nil
	}
	var out []*part
	for i := from; i < to; {
		end := i + step
		one := &part{text: p.text, name: p.name}
		one.elements = append(one.elements, p.elements[:from]...)
		one.elements = append(one.elements, p.elements[i:end]...)
		one.elements = append(one.elements, p.elements[to:]...)
		if s := one.statement(); s.Ask == nil || s.Ask.Kind == Unstated || s.Ask.Kind == Sum {
			return nil
		}
		out = append(out, one)
		for i = end; i < to && !p.starts(i, step); i++ {
		}
	}
	return out
}

// listed finds the list: its first and last element, and how many elements one
// entry has.
func (p *part) listed() (from, to, step int) {
	for i := range p.elements {
		e := &p.elements[i]
		switch {
		case e.quantity == nil || !e.quantity.isLength() && !e.quantity.plural:
		case p.heads(i):
			return i, p.endOfList(i, 1), 1
		case p.repeats(i+1, 1) && p.isAngle(i):
			return i, p.endOfList(i, 1), 1
		case i+1 < len(p.elements) && p.elements[i+1].term.is(senseMaterial) && p.repeats(i+2, 2):
			return i, p.endOfList(i, 2), 2
		}
	}
	return 0, 0, 0
}

// isAngle says whether the number at i is plainly an angle that may be one of a
// list: with 45s and with 22s, a multiplier for a 45 and a 60.
func (p *part) isAngle(i int) bool {
	q := p.elements[i].quantity
	if q.plural {
		return true
	}
	asks := anyOf(p.elements, func(e *element) bool { return meant(e.term, senseHint) == "multiplier" })
	return asks && q.unit == noUnit
}

// heads says whether a list of sets begins at i: after "sets of", or after the
// colon of a heading.
func (p *part) heads(i int) bool {
	before := i - 1
	for before >= 0 && (p.elements[before].term.is(senseLink) || p.elements[before].term.is(senseArticle)) {
		before--
	}
	if before < 0 || !p.elements[i].quantity.isLength() {
		return false
	}
	return p.elements[before].text == "sets" || p.elements[before].mark == ":" && before > 1 && !isPlainLength(p.elements[before-1].quantity)
}

// repeats says whether "and" and another entry of the same form follow.
func (p *part) repeats(i, step int) bool {
	if i >= len(p.elements) || !p.elements[i].term.is(senseAnd) && !p.elements[i].term.is(senseOr) {
		return false
	}
	i++
	for i < len(p.elements) && (p.elements[i].term.is(senseWith) || p.elements[i].term.is(senseArticle)) {
		i++
	}
	return p.starts(i, step)
}

// starts says whether an entry of a list starts at i.
func (p *part) starts(i, step int) bool {
	if i+step > len(p.elements) || p.elements[i].quantity == nil {
		return false
	}
	return step == 1 || p.elements[i+1].term.is(senseMaterial)
}

// endOfList is where a list ends that starts at i.
func (p *part) endOfList(i, step int) int {
	plural := p.elements[i].quantity.plural
	end := i + step
	for j := end; j < len(p.elements); j++ {
		e := p.elements[j]
		switch {
		case e.term.is(senseAnd), e.term.is(senseOr), e.mark == ",", e.term.is(senseWith), e.term.is(senseArticle):
		case p.starts(j, step) && e.quantity.plural == plural && (step == 2 || j+1 >= len(p.elements) || !p.elements[j+1].term.is(senseMaterial)):
			end = j + step
			j = end - 1
		default:
			return end
		}
	}
	return end
}

// atThen cuts a part at "then", where what follows is whole, or something to do.
func (p *part) atThen() (first, second *part, ok bool) {
	for i := range p.elements {
		e := &p.elements[i]
		if !e.term.is(senseNext) || i == 0 || i+1 >= len(p.elements) {
			continue
		}
		next := p.elements[i+1].begin
		first = &part{text: strings.TrimSpace(p.text[:e.begin-p.base]), base: p.base, name: p.name, elements: p.elements[:i]}
		second = &part{text: p.text[next-p.base:], base: next, elements: p.elements[i+1:]}
		if first.isWhole() && second.isWhole() {
			return first, second, true
		}
	}
	return nil, nil, false
}

// twoAsks cuts a part in two at an "and" or a "second one", where it makes no
// sense as one ask but both halves are whole.
func (p *part) twoAsks() (first, second *part, ok bool) {
	if len(p.elements) > 40 || len(p.elements) < 8 || p.statement().Misunderstanding == nil {
		return nil, nil, false
	}
	for i := range p.elements {
		e := &p.elements[i]
		if i < 3 || !e.term.is(senseAnd) && !e.term.is(senseNext) && e.mark != "," && e.mark != "." {
			continue
		}
		first = &part{text: p.text, name: p.name, elements: p.elements[:i]}
		second = &part{text: p.text, elements: p.elements[i+1:]}
		if len(second.elements) > 2 && first.standsAlone() && second.standsAlone() {
			return first, second, true
		}
	}
	return nil, nil, false
}
