package read

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser/ask"
	"dogleg/parser/measure"
)

// stretch is what a path says of one stretch of a message.
type stretch struct {
	ending
	steps []*step // that took a number or a word, in order
}

// stretches lists those of a whole path.
func stretches(p *step) []stretch {
	var out []stretch
	var steps []*step
	for ; p != nil; p = p.before {
		switch {
		case p.ending != nil:
			if len(out) > 0 {
				slices.Reverse(steps)
				out[len(out)-1].steps = steps
			}
			out, steps = append(out, stretch{ending: *p.ending}), nil
		case p.measure != nil && p.label.part != none, p.fact > 0:
			steps = append(steps, p)
		}
	}
	if len(out) > 0 {
		slices.Reverse(steps)
		out[len(out)-1].steps = steps
	}
	slices.Reverse(out)
	return out
}

// statements are what a path says.
func (m *message) statements(p *step) []ask.Statement {
	var out []ask.Statement
	all := stretches(p)
	if last := &all[len(all)-1]; last.saying == withdrawn {
		last.from, all = 0, all[len(all)-1:] // nothing stands of what was asked before
	}
	for _, st := range all {
		if st.saying == talk && p.asks > 0 {
			continue // told along the way
		}
		if st.saying == talk && len(out) > 0 {
			continue
		}
		s := ask.Statement{Text: m.span(st.from, st.to)}
		switch st.saying {
		case command:
			s.Command = m.command(&st)
		case either:
			s.Misunderstanding = &ask.Misunderstanding{Trouble: ask.TwoReadings, Text: s.Text}
		case withdrawn, talk, elsewhere:
			s.Misunderstanding = &ask.Misunderstanding{Trouble: ask.NotFiguring, Text: s.Text, Subject: sayings[st.saying].name}
		default:
			s.Ask = m.ask(&st)
		}
		out = append(out, s)
	}
	return m.shared(out)
}

// command is what a stretch tells to do.
func (m *message) command(st *stretch) *ask.Command {
	c := &ask.Command{Verb: st.verb, Language: ask.English}
	for i := m.itemAt[st.from]; i < len(m.items) && m.items[i].from < st.to; i++ {
		it := &m.items[i]
		if it.term != nil {
			c.Language = ask.Language(it.term.Language)
		}
		if verb, object, _ := strings.Cut(it.means("verb"), " "); ask.Verb(verb) == c.Verb && object != "" {
			c.Object = object
		}
	}
	c.Number = m.firstWhole(m.items[m.itemAt[st.from] : m.itemAt[st.to-1]+1])
	return c
}

// builder puts an ask together.
type builder struct {
	m       *message
	a       *ask.Ask
	angles  []geometry.Angle
	named   []catalog.Fitting // the fittings in order, bends among them
	oneEnd  bool              // one end is spoken of
	swapped bool              // roll and rise are
	plain   bool              // a plain bend is spoken of, beside one that is none
	odd     bool              // one of them is no plain bend
	street  bool
	sweep   catalog.Sweep
	plural  bool // a bend is told in the plural: 45s
	sizes   []catalog.Size
	apart   map[part][]*step
	tape    []tapeReading
	rest    []*step // of the stretch, behind the one that is taken over
}

// tapeReading is a reading of a riser's tape, and how many fittings were named before
// it.
type tapeReading struct {
	at     geometry.Length
	before int
}

// ask is what a stretch asks.
func (m *message) ask(st *stretch) *ask.Ask {
	b := builder{m: m, a: &ask.Ask{Kind: sayings[st.saying].kind, FollowUp: st.change}, apart: map[part][]*step{}}
	switch {
	case st.saying == around, st.saying == line:
		b.a.ComeBack = st.flag
	case st.flag:
		b.a.Store = st.saying == takeoffOf || st.saying == unstated && m.said.Last != nil && !comesBack(m.said.Last.Kind)
		b.a.ComeBack = !b.a.Store
	}
	b.words(st)
	b.namedIn(st)
	b.correct(st)
	for i, s := range st.steps {
		b.rest = st.steps[i+1:]
		switch {
		case s.measure != nil:
			b.number(s)
		case s.atOneEnd:
			b.oneEnd = true
			b.fact(&m.items[s.fact-1])
		case s.inline:
			f := catalog.Fitting{Shape: catalog.Shape(m.items[s.fact-1].means("fitting"))}
			b.a.Inline = append(b.a.Inline, ask.Inline{Fitting: f})
		default:
			b.fact(&m.items[s.fact-1])
		}
	}
	b.differences()
	b.swap()
	_, rolls := b.a.Length(ask.Roll)
	_, rises := b.a.Length(ask.Rise)
	b.a.Rolling = b.a.Rolling || rolls && !rises && !b.a.FollowUp && b.a.Kind != ask.Parallel // the rise is wanted
	if b.a.Want == ask.Bare {
		b.a.Want = b.m.namedAlone(st, b.a)
	}
	if n := len(b.a.Inline); n > 0 {
		b.a.Inline[n-1].Laying, _ = b.a.Length(ask.Laying)
		b.a.Inline[n-1].Place, _ = b.a.Length(ask.Place)
	}
	b.fittings()
	b.a.GiveEnds()
	b.method(st)
	if b.a.Kind == ask.Mark && m.touching(st) {
		b.a.Measures = append(b.a.Measures, ask.Measure{Role: ask.GapNow, Text: "touching"})
	}
	if st.saying == sum {
		b.a.Sum = m.arithmetic(st)
	}
	return b.a
}

// method is how the tape was laid, of a change that tells nothing else of it.
func (b *builder) method(st *stretch) {
	if len(b.a.Measures) > 0 || !b.a.FollowUp {
		return
	}
	for _, w := range b.m.methods() {
		if b.m.tokens[st.from].Begin <= b.m.tokens[w.from].Begin && w.to <= st.to {
			b.a.Method = w.method
		}
	}
}

// correct makes a change of an ask that takes back what was asked last.
func (b *builder) correct(st *stretch) {
	if !b.m.corrects(st, b.a) {
		return
	}
	b.a.FollowUp = true
	if b.a.Kind != b.m.said.Last.Kind {
		b.a.Kind = ask.Unstated
	}
}

// corrects says whether a stretch takes back what was asked last and asks the same kind
// of thing, or one without the marks: sorry, 14 set 45s. It changes that then, however
// much it says again.
func (m *message) corrects(st *stretch, a *ask.Ask) bool {
	if st.from > 0 || m.said.Last == nil || a.FollowUp || m.said.Last.Kind != a.Kind && !(m.said.Last.Kind == ask.Mark && a.Kind == ask.Offset) {
		return false
	}
	numbers := 0
	for i := 0; i < len(m.items) && m.items[i].from < st.to; i++ {
		switch it := &m.items[i]; {
		case it.number:
			numbers++
		case it.has("correction") && (numbers == 0 || it.means("correction") == "last"):
			return true
		}
	}
	return false
}

// touching says whether the standing ends are said to touch.
func (m *message) touching(st *stretch) bool {
	for i := m.itemAt[st.from]; i < len(m.items) && m.items[i].from < st.to; i++ {
		if m.items[i].has("touching") {
			return true
		}
	}
	return false
}

// number takes over one labelled number.
func (b *builder) number(s *step) {
	l := s.label
	switch l.part {
	case angle:
		b.angle(s.measure, l.value)
	case size:
		b.sizes = append(b.sizes, l.size)
		if len(b.sizes) == 1 {
			b.a.Pipe.Size = l.size
		} else if l.size != b.sizes[0] || b.a.Kind == ask.Saddle {
			b.a.Ends[0].Size, b.a.Ends[1].Size = b.sizes[0], l.size
		}
	case schedule:
		b.a.Pipe.Schedule = strconv.FormatFloat(l.value, 'f', -1, 64)
		if b.m.before(s.measure.From).text == "sdr" {
			b.a.Pipe.Schedule = "SDR " + b.a.Pipe.Schedule
		}
	case lines:
		b.a.Lines = int(l.value)
	case pieces:
		b.a.Pieces = int(l.value)
	case station:
		b.tape = append(b.tape, tapeReading{geometry.Length(l.value), len(b.named)})
	case grade:
		b.a.Grade = geometry.Slope(l.value) * geometry.InchPerFoot
	case apartSet, apartRoll, apartRise, apartFall:
		b.apart[l.part] = append(b.apart[l.part], s)
	case term, off:
	default:
		x := ask.Measure{Role: parts[l.part].role, Length: geometry.Length(l.value), Text: strings.TrimSpace(s.measure.Text)}
		if l.scale == inCentimeters {
			x.Text += " " + string(measure.CM) // as what was told beside it or before
		}
		if l.by != told {
			x = reckoned(b.m, x, l)
		}
		if l.method > 0 {
			x.Method = b.m.ways[l.method-1].method
		}
		b.a.Measures = append(b.a.Measures, x)
	}
}

// angle takes over the angle of a bend. An arc on a pipe may be of any angle that is
// told in degrees.
func (b *builder) angle(x *measure.Measure, value float64) {
	a := geometry.Angle(value)
	if b.a.Kind == ask.Wrap && x.Unit == measure.Degrees {
		a = geometry.Angle(x.Number)
	}
	if x.Number > 90 { // told by the angle that is left between the pipes
		told := catalog.AngleName(geometry.Angle(x.Number))
		b.a.Taken = append(b.a.Taken, ask.Taken{Text: told, Read: catalog.AngleName(a) + "°", Not: told + "°"})
	}
	b.plural = b.plural || x.Plural
	b.bend(a)
}

// bend takes over one bend.
func (b *builder) bend(a geometry.Angle) {
	b.angles = append(b.angles, a)
	f := catalog.BendOf(a)
	f.Street, f.Sweep = b.street, b.sweep
	if a != geometry.QuarterBend {
		f.Sweep = catalog.Regular
	}
	b.odd = b.odd || f.Street || f.Sweep != catalog.Regular
	b.street, b.sweep = false, catalog.Regular
	b.named = append(b.named, f)
}

// differences makes a set of two readings to two lines, and likewise a roll or a
// rise.
func (b *builder) differences() {
	for _, p := range []part{apartSet, apartRoll, apartRise, apartFall} {
		s := b.apart[p]
		if len(s) != 2 {
			continue
		}
		d := math.Abs(s[0].label.value - s[1].label.value)
		more, less := s[0], s[1]
		if more.label.value < less.label.value {
			more, less = less, more
		}
		b.a.Measures = append(b.a.Measures, ask.Measure{
			Role: parts[p].role, Length: geometry.Length(d), Apart: true,
			Readings: [2]geometry.Length{geometry.Length(more.label.value), geometry.Length(less.label.value)},
			Text:     shortly(more.measure) + " − " + shortly(less.measure),
		})
	}
}

// shortly is a measure as it was written; with the sign of its unit where that was told
// in words: 38 cm.
func shortly(x *measure.Measure) string {
	text := strings.TrimSpace(x.Text)
	if x.Metric() && !strings.ContainsAny(text, "0123456789") {
		return strconv.FormatFloat(x.Number, 'f', -1, 64) + " " + string(x.Unit)
	}
	return text
}

// swap turns the roll and the rise of what is changed round.
func (b *builder) swap() {
	last := b.m.said.Last
	if !b.swapped || !b.a.FollowUp || last == nil || len(b.a.Measures) > 0 {
		return
	}
	rolls, rises := last.All(ask.Roll), last.All(ask.Rise)
	if len(rolls) != 1 || len(rises) != 1 {
		return
	}
	roll, rise := rises[0], rolls[0]
	roll.Role, rise.Role = ask.Roll, ask.Rise
	b.a.Measures = []ask.Measure{roll, rise}
}

// fact takes over what a word says of the pipe or a fitting.
func (b *builder) fact(it *item) {
	p := &b.a.Pipe
	for _, x := range it.term.Meanings {
		switch x.Sense {
		case "material":
			p.Material = catalog.Material(x.Value)
		case "joint":
			p.Joint = catalog.Joint(x.Value)
		case "use":
			p.Use = catalog.Use(x.Value)
		case "schedule":
			p.Schedule = x.Value
		case "fitting":
			f := catalog.Fitting{Shape: catalog.Shape(x.Value)}
			if f.Shape == catalog.Wye {
				f.Angle = geometry.EighthBend
			}
			b.named, b.odd = append(b.named, f), true
		case "sweep":
			b.swept(it, x.Value)
		case "elbow":
			b.bend(geometry.QuarterBend)
		case "regular":
			b.plain = true
		case "swap":
			b.swapped = true
		case "plain-end":
			if b.a.Kind == ask.Riser {
				b.named = append(b.named, catalog.Fitting{Shape: catalog.Cap})
			}
		case "street":
			b.behindOrBefore(it, func(f *catalog.Fitting) { f.Street = true }, func() { b.street = true })
		}
	}
	if p.Material == catalog.Copper && p.Joint == catalog.ButtWeld {
		p.Joint = catalog.Solder
	}
}

// swept takes over how far a bend sweeps: the bend in front of the word or the next one. A
// long sweep beside a fitting that is no bend is a 90 itself, where no bend follows.
func (b *builder) swept(it *item, value string) {
	way, _, _ := strings.Cut(value, " ")
	n := len(b.named)
	switch {
	case n > 0 && b.named[n-1].Shape == catalog.Bend && !it.has("elbow"):
		b.behindOrBefore(it, func(f *catalog.Fitting) { f.Sweep = catalog.Sweep(way) }, func() { b.sweep = catalog.Sweep(way) })
	default:
		b.sweep = catalog.Sweep(way)
		if !it.has("elbow") && !b.bendFollows() {
			b.bend(geometry.QuarterBend)
		}
	}
}

// bendFollows says whether a bend is named behind the word that is taken over.
func (b *builder) bendFollows() bool {
	return slices.ContainsFunc(b.rest, func(s *step) bool {
		return s.measure != nil && s.label.part == angle || s.measure == nil && b.m.items[s.fact-1].has("elbow")
	})
}

// angleNext says whether the angle of a bend stands right behind an item.
func (b *builder) angleNext(it *item) bool {
	return len(b.rest) > 0 && b.rest[0].measure != nil && b.rest[0].measure.From == it.to && b.rest[0].label.part == angle
}

// behindOrBefore gives what a word says of a bend to the bend in front of it, where
// none follows.
func (b *builder) behindOrBefore(it *item, toLast func(*catalog.Fitting), toNext func()) {
	if n := len(b.named); n > 0 && !b.angleNext(it) {
		toLast(&b.named[n-1])
		b.odd = true
		return
	}
	toNext()
}

// fittings gives the angles and the fittings to the ends: one kind is at both, two
// are one at each.
func (b *builder) fittings() {
	switch {
	case b.a.Kind == ask.Corner:
		b.turn()
		return
	case len(b.tape) > 0:
		b.stations()
		return
	}
	b.a.Angle = b.offsetAngle()
	differ := len(b.named) > 1 && b.named[0] != b.named[1]
	b.bothEnds(differ)
	switch {
	case b.a.Kind == ask.Piece && differ:
		b.a.Angle = 0
	case b.a.Kind == ask.Trim && len(b.angles) == 2:
		b.cutDown()
	case b.a.FollowUp && len(b.named) == 1 && b.oneEnd && b.m.said.Last != nil:
		b.anotherEnd(*b.m.said.Last)
	case len(b.named) == 1 && b.named[0].Street && (b.oneEnd || b.plain):
		b.a.Ends[0].Fitting = catalog.BendOf(b.named[0].Angle)
	}
}

// anotherEnd puts the one fitting that was named at one end of what was asked last: in
// the place of one of its sort, else at the second.
func (b *builder) anotherEnd(last ask.Ask) {
	ends, at := [2]catalog.Fitting{}, 1
	for i, e := range last.Ends {
		if ends[i] = e.Fitting; ends[i] == (catalog.Fitting{}) {
			ends[i] = catalog.BendOf(last.Angle)
		}
	}
	bend := func(f catalog.Fitting) bool { return f.Shape == catalog.Bend }
	if bend(ends[0]) != bend(ends[1]) && bend(ends[0]) == bend(b.named[0]) {
		at = 0
	}
	ends[at] = b.named[0]
	b.a.Ends[0].Fitting, b.a.Ends[1].Fitting = ends[0], ends[1]
	b.a.Angle = 0
}

// offsetAngle is the angle that was said first; of an offset that ends in a 90 it is
// the other bend's.
func (b *builder) offsetAngle() geometry.Angle {
	if len(b.angles) == 0 {
		return 0
	}
	if b.a.Kind == ask.Offset && len(b.angles) == 2 && b.angles[0] == geometry.QuarterBend {
		return b.angles[1]
	}
	return b.angles[0]
}

// bothEnds gives the ends the fittings that were named, where they are no plain bends
// alike.
func (b *builder) bothEnds(differ bool) {
	switch {
	case len(b.named) == 0 || !b.odd && !differ:
	case len(b.named) == 1:
		b.a.Ends[0].Fitting, b.a.Ends[1].Fitting = b.named[0], b.named[0]
	default:
		b.a.Ends[0].Fitting, b.a.Ends[1].Fitting = b.named[0], b.named[1]
	}
}

// turn tells the angle of a corner's whole turn from those of its bends: two 45s, a
// 90 of two 45s, a 60 and a 30, a 90 of which a 60 is one bend.
func (b *builder) turn() {
	if len(b.angles) == 0 {
		return
	}
	lo, hi := slices.Min(b.angles), slices.Max(b.angles)
	bends := [2]geometry.Angle{lo, lo}
	switch n := len(b.angles); {
	case n == 1 && hi == geometry.QuarterBend && !b.plural:
		b.a.Angle = hi
		return
	case n == 1:
		b.a.Angle = 2 * lo
	case n == 2 && hi == 2*lo:
		b.a.Angle = hi
	case n == 2 && hi == geometry.QuarterBend && lo < hi:
		b.a.Angle = hi
		if !b.plural {
			bends[1] = hi - lo
		}
	case n == 2:
		b.a.Angle = lo + hi
		bends = [2]geometry.Angle{b.angles[0], b.angles[1]}
	default:
		b.a.Angle = hi
		rest := slices.Clone(b.angles)
		rest = slices.Delete(rest, slices.Index(rest, hi), slices.Index(rest, hi)+1)
		bends = [2]geometry.Angle{rest[0], rest[1]}
	}
	for i, a := range bends {
		b.a.Ends[i].Fitting = catalog.BendOf(a)
		if k := slices.IndexFunc(b.named, func(f catalog.Fitting) bool { return f.Shape == catalog.Bend && f.Angle == a }); k >= 0 {
			b.a.Ends[i].Fitting = b.named[k]
		}
	}
}

// stations gives each reading of a riser's tape its fitting: as many in the same
// order, one for all, or the one that was named last. A first reading of nothing with
// no fitting before it is the pipe's end; so is a plain end that is named before the
// first reading and has none.
func (b *builder) stations() {
	tape := b.tape
	fromEnd := len(b.named) > 0 && b.named[0].Shape == catalog.Cap
	switch {
	case tape[0].at == 0 && tape[0].before == 0 && len(b.named) < len(tape):
		b.a.Stations = append(b.a.Stations, ask.Station{})
		tape = tape[1:]
		if fromEnd {
			b.dropFirst(tape)
		}
	case fromEnd && tape[0].at > 0 && (tape[0].before > 1 || len(b.named) == len(tape)+1):
		b.a.Stations = append(b.a.Stations, ask.Station{})
		b.dropFirst(tape)
	}
	for i, r := range tape {
		s := ask.Station{Reading: r.at}
		switch {
		case len(b.named) == 0:
		case len(b.named) == len(tape):
			s.Fitting = b.named[i]
		default:
			s.Fitting = b.named[max(0, r.before-1)]
		}
		if s.Fitting.Shape == catalog.Cap {
			s.Fitting = catalog.Fitting{} // a plain end is figured alike
		}
		b.a.Stations = append(b.a.Stations, s)
	}
}

// dropFirst leaves out the fitting that was named first.
func (b *builder) dropFirst(tape []tapeReading) {
	b.named = b.named[1:]
	for i := range tape {
		tape[i].before = max(0, tape[i].before-1)
	}
}

// cutDown tells the elbow that is cut, a 90 if one was said, from the angle that it is
// cut to.
func (b *builder) cutDown() {
	target := b.angles[1]
	if target == geometry.QuarterBend {
		target = b.angles[0]
	}
	b.a.Angle = target
	cut := catalog.BendOf(geometry.QuarterBend)
	if i := slices.IndexFunc(b.named, func(f catalog.Fitting) bool { return f.Angle != target }); i >= 0 {
		cut = b.named[i]
	}
	b.a.Ends[0].Fitting, b.a.Ends[1].Fitting = cut, cut
}

// words takes over what words say that needs no number: what is wanted, by the
// book, back to the old line, the language.
func (b *builder) words(st *stretch) {
	a := b.a
	english, spanish := 0, 0
	for i := b.m.itemAt[st.from]; i < len(b.m.items) && b.m.items[i].from < st.to; i++ {
		it := &b.m.items[i]
		if it.term == nil {
			continue
		}
		switch {
		case it.term.Language == "es":
			spanish++
		case !it.has("material") && !it.has("unit"):
			english++
		}
		for _, x := range it.term.Meanings {
			switch x.Sense {
			case "want":
				a.Want = ask.Role(it.means("want")) // the learned reader's own word for it, where it has one
			case "one-end", "other-end", "end":
				b.oneEnd = true
			case "handbook":
				a.Handbook = true
			case "crew":
				a.Crew = true
			case "sensitivity":
				a.Sensitivity = true
			case "hint":
				a.Rolling = a.Rolling || x.Value == "rolling"
			}
		}
	}
	switch {
	case spanish > english:
		a.Language = ask.Spanish
	case english > 0:
		a.Language = ask.English
	}
	a.Repairs = append(a.Repairs, b.m.repairs...)
}

// figured are the roles that an ask may want by their name alone.
var figured = []ask.Role{ask.Set, ask.Travel, ask.Run, ask.Cut, ask.EndGap, ask.Stagger, ask.Drop, ask.Grade, ask.Upper, ask.Lower}

// namedAlone is the one figure that a stretch names and gives no number for: what's the
// run.
func (m *message) namedAlone(st *stretch, a *ask.Ask) ask.Role {
	var found []ask.Role
	for i := m.itemAt[st.from]; i < len(m.items) && m.items[i].from < st.to; i++ {
		r := m.items[i].role()
		if (slices.Contains(figured, r) || r == ask.TakeoffOf && a.Kind == ask.Check) && len(a.All(r)) == 0 && !slices.Contains(found, r) && !(r == ask.Grade && a.Grade != 0) {
			found = append(found, r)
		}
	}
	if len(found) != 1 {
		return ask.Bare
	}
	return found[0]
}

// arithmetic is the sum of a stretch: its terms, those that are taken off behind the
// first of the others, and what the words between them multiply.
func (m *message) arithmetic(st *stretch) *ask.Arithmetic {
	a := &ask.Arithmetic{}
	var last *measure.Measure
	var before []ask.Term // those taken off that are told before anything is there
	for _, s := range st.steps {
		if s.measure == nil || s.label.part != term && s.label.part != off {
			continue
		}
		t := ask.Term{Length: geometry.Length(s.label.value), Text: strings.TrimSpace(s.measure.Text)}
		op := ask.Plus
		switch {
		case last != nil && m.multiplies(last, s.measure) != 0:
			op = m.multiplies(last, s.measure)
			if s.measure.Unit == measure.NoUnit {
				t = ask.Term{Number: s.measure.Number, Plain: true, Text: t.Text}
			}
		case s.label.part == off && len(a.Terms) == 0:
			before = append(before, t)
			continue
		case s.label.part == off:
			op = ask.Minus
		}
		if len(a.Terms) > 0 {
			a.Operators = append(a.Operators, op)
		}
		a.Terms = append(a.Terms, t)
		last = s.measure
	}
	for _, t := range before {
		if len(a.Terms) > 0 {
			a.Operators = append(a.Operators, ask.Minus)
		}
		a.Terms = append(a.Terms, t)
	}
	a.Terms, a.Operators = m.halved(st, last, a.Terms, a.Operators)
	for i := m.itemAt[st.from]; i < len(m.items) && m.items[i].from < st.to; i++ {
		a.InMetric = a.InMetric || m.items[i].means("into") == "mm"
	}
	return a
}

// halved divides one length that is to be cut in half, or by the number that was told
// last.
func (m *message) halved(st *stretch, last *measure.Measure, terms []ask.Term, ops []ask.Operator) ([]ask.Term, []ask.Operator) {
	divides := false
	for i := m.itemAt[st.from]; i < len(m.items) && m.items[i].from < st.to; i++ {
		it := &m.items[i]
		if it.has("half-of") && len(terms) == 1 {
			return append(terms, ask.Term{Number: 2, Plain: true, Text: "2"}), append(ops, ask.Divide)
		}
		divides = divides || it.means("operator") == "divide"
	}
	if n := len(terms); divides && n == 2 && ops[0] == ask.Plus && last.Number == math.Trunc(last.Number) {
		terms[1] = ask.Term{Number: last.Number, Plain: true, Text: terms[1].Text}
		ops[0] = ask.Divide
	}
	return terms, ops
}

// multiplies is × or ÷ where one stands between two terms, and 0 where none does. A
// count in front of a length multiplies it: 2 of 14-3/8, 3 @ 6.
func (m *message) multiplies(x, y *measure.Measure) ask.Operator {
	for i := x.To; i < y.From; i++ {
		it := &m.items[m.itemAt[i]]
		if it.from != i {
			continue
		}
		switch it.means("operator") {
		case "times":
			return ask.Times
		case "divide":
			return ask.Divide
		case "of":
			if x.Whole && x.Unit == measure.NoUnit && x.Number <= mostPieces {
				return ask.Times
			}
		}
	}
	return 0
}

// mostPieces is the largest number that counts pieces in a sum.
const mostPieces = 40

// shared gives each ask what the message says once for several: the pipe, the bend,
// what is between two fittings. What an ask lacks comes from the one before it, and
// for the first ones from the next that has it. A change of what the same message
// asks is made here.
func (m *message) shared(in []ask.Statement) []ask.Statement {
	var last *ask.Ask
	for _, s := range in {
		a := s.Ask
		switch {
		case a == nil || a.Kind == ask.Sum:
			continue
		case a.FollowUp && last != nil:
			*a = changed(*last, *a)
		case a.FollowUp && a.Kind == ask.Takeoff && !a.Store && m.said.Last != nil:
			*a = changed(*m.said.Last, *a)
		case a.FollowUp:
			if m.said.Last == nil {
				continue
			}
			whole := m.said.Last.With(*a)
			last = &whole
			continue
		case last != nil:
			inherit(a, last)
		}
		last = a
	}
	last = nil
	for _, s := range slices.Backward(in) {
		if s.Ask == nil || s.Ask.Kind == ask.Sum || s.Ask.FollowUp {
			continue
		}
		if last != nil {
			inherit(s.Ask, last)
		}
		last = s.Ask
	}
	return in
}

// changed is an ask that says only how it differs from one before it. Of another
// kind it keeps only what that kind can hold.
func changed(last, change ask.Ask) ask.Ask {
	out := last.With(change)
	out.FollowUp = false
	if change.Kind == ask.Unstated || change.Kind == last.Kind {
		return out
	}
	out.Kind, out.Store = change.Kind, change.Store
	may := sayings[ofKind(change.Kind)].may
	out.Measures = slices.DeleteFunc(slices.Clone(out.Measures), func(x ask.Measure) bool { return !may.has(byRole[x.Role]) })
	if change.Kind != ask.Parallel {
		out.Lines = 0
	}
	if change.Kind != ask.Fall {
		out.Grade = 0
	}
	return out
}

// inherit gives an ask what it lacks of another's pipe and bend.
func inherit(a, from *ask.Ask) {
	if a.Kind == ask.Multiplier || (a.Kind == ask.Fall) != (from.Kind == ask.Fall) {
		return
	}
	if a.Kind == ask.Fall && a.Grade == 0 && len(a.Measures) < 2 {
		a.Grade = from.Grade
	}
	inheritPipe(&a.Pipe, from.Pipe)
	if a.Angle == 0 && a.Ends[0].Fitting == (catalog.Fitting{}) && sharesBend(a.Kind, from.Kind) {
		a.Angle, a.Ends = from.Angle, from.Ends
	}
}

// inheritPipe gives a pipe what it lacks of another.
func inheritPipe(p *catalog.Pipe, from catalog.Pipe) {
	p.Size = cmp.Or(p.Size, from.Size)
	if p.Material == "" {
		p.Material = from.Material
		p.Joint, p.Use, p.Schedule = cmp.Or(p.Joint, from.Joint), cmp.Or(p.Use, from.Use), cmp.Or(p.Schedule, from.Schedule)
	}
}

// sharesBend says whether an ask of a kind has the bend of another beside it.
func sharesBend(k, from ask.Kind) bool {
	switch {
	case k == ask.Fall || k == ask.Trim || k == ask.Riser:
		return false
	case k == from:
		return true
	case ofKind(k) >= corner || ofKind(from) >= corner:
		return false // a whole turn is no bend
	}
	return k != ask.Piece && from != ask.Piece && k != ask.Fit
}
