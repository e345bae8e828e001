package read

import (
	"math"
	"slices"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser/ask"
	"dogleg/parser/measure"
)

// Meant is what one line of a message was meant to say: an ask, a verb, or that
// nothing is asked.
type Meant struct {
	Ask     *ask.Ask
	Verb    ask.Verb
	Nothing string // withdrawn, talk, elsewhere, two readings
}

// Lesson is a message with what it means, made ready for teaching.
type Lesson struct {
	Text   string
	Weight float64
	m      *message
	gold   []*step
	agree  func([]ask.Statement) bool
	Near   []ask.Statement // of a path that comes near what is meant, where none agrees
}

// NewLesson looks for the paths through a message that say what is meant; agree
// tells whether statements do. A lesson that has none teaches nothing.
func NewLesson(text string, said Said, meant []Meant, agree func([]ask.Statement) bool) *Lesson {
	l := &Lesson{Text: text, Weight: 1, agree: agree}
	m, ok := prepare(text, said)
	if !ok {
		return l
	}
	l.m = m
	s := &search{m: m, model: blank(), width: wideWidth, keep: 1 << 10}
	s.allow = func(_ *measure.Measure, y label) bool { return mayMean(meant, y) }
	s.allows = func(p *step, e *ending) bool {
		return ends(meant, p, e)
	}
	s.merit = func(p *step) float64 { return m.merit(meant, p) }
	for _, p := range s.paths() {
		if l.Near == nil && saidBy(p) == len(meant) {
			l.Near = m.statements(p)
		}
		if saidBy(p) == len(meant) && agree(m.statements(p)) {
			l.gold = append(l.gold, p.alone())
		}
		if len(l.gold) == 8 {
			break
		}
	}
	return l
}

// alone is a copy of a path, which keeps nothing else of the search in memory.
func (p *step) alone() *step {
	if p == nil {
		return nil
	}
	q := *p
	q.before = p.before.alone()
	return &q
}

// saidBy counts what a path says: talk counts only where there is nothing else.
func saidBy(p *step) int { return max(p.asks, min(1, p.stretches)) }

// Covered says whether a path through the message says what is meant.
func (l *Lesson) Covered() bool { return len(l.gold) > 0 }

// mayMean says whether a label has a value that is meant.
func mayMean(meant []Meant, l label) bool {
	return l.part == none || slices.ContainsFunc(meant, func(w Meant) bool { return w.Ask != nil && inAsk(w.Ask, l) })
}

// inAsk says whether an ask holds what a label says.
func inAsk(a *ask.Ask, l label) bool {
	switch parts[l.part].sort {
	case aLength:
		return lengthIn(a, l)
	case anAngle:
		return turns(a, geometry.Angle(l.value))
	case aGrade:
		return math.Abs(a.Grade.InchesPerFoot()-l.value) < 0.004
	case aCount:
		if l.part == pieces {
			return a.Pieces == int(l.value)
		}
		return a.Lines == int(l.value)
	case aSize:
		return slices.ContainsFunc([]catalog.Size{a.Pipe.Size, a.Ends[0].Size, a.Ends[1].Size}, func(s catalog.Size) bool { return ask.SameSize(s, l.size) })
	case aSchedule:
		return a.Pipe.Schedule != ""
	case aTerm:
		return a.Sum != nil && (l.scale == asSaid || (l.scale == inMillimeters) == strings.HasSuffix(a.Sum.Terms[0].Text, "mm"))
	case noValue:
	}
	return false
}

// lengthIn says whether an ask holds the length that a label says.
func lengthIn(a *ask.Ask, l label) bool {
	if l.part.apart() {
		return len(a.All(parts[l.part].role)) > 0
	}
	if l.part == station {
		return slices.ContainsFunc(a.Stations, func(x ask.Station) bool { return ask.Near(x.Reading.Inches(), l.value) })
	}
	return slices.ContainsFunc(a.Measures, func(x ask.Measure) bool {
		laid := x.Method != "" && x.Method != ask.Centers
		if laid && (l.part == roll || l.part == rise) && len(a.All(ask.Roll))+len(a.All(ask.Rise)) == 0 {
			return false // what was laid so is the one measure of the line, or its lines' spacing
		}
		// How lines side by side were laid to, other words say too: clear between.
		return ask.Near(x.Length.Inches(), l.value) && (l.method > 0 && laid || l.method == 0 && (!laid || l.part == spacing) && x.Role == parts[l.part].role)
	})
}

// turns says whether an ask has a bend of an angle.
func turns(a *ask.Ask, angle geometry.Angle) bool {
	near := func(g geometry.Angle) bool { return math.Abs(g.Degrees()-angle.Degrees()) < 0.7 }
	return near(a.Angle) || slices.ContainsFunc(a.Ends[:], func(e ask.End) bool { return near(e.Fitting.Angle) }) ||
		slices.ContainsFunc(a.Stations, func(x ask.Station) bool { return near(x.Fitting.Angle) })
}

// ends says whether a stretch may end so, by what is meant there.
func ends(meant []Meant, p *step, e *ending) bool {
	if e.saying == talk {
		return len(meant) > 1 || meant[0].Nothing == "" || meant[0].Nothing == sayings[talk].name
	}
	if p.asks >= len(meant) {
		return false
	}
	switch w := meant[p.asks]; {
	case w.Verb != "":
		return e.saying == command && sameVerb(e.verb, w.Verb)
	case w.Nothing != "":
		return sayings[e.saying].name == w.Nothing
	case !e.saying.asks():
		return false
	default:
		return endsAs(w.Ask, p, e)
	}
}

// endsAs says whether a stretch that ends so may ask what is meant.
func endsAs(a *ask.Ask, p *step, e *ending) bool {
	first := p.asks == 0
	sameKind := sayings[e.saying].kind == a.Kind
	switch {
	case !flagged(e, a), first && e.change != a.FollowUp:
		return false
	case !a.FollowUp:
		return sameKind || e.saying == unstated && !first
	case a.Kind == ask.Unstated:
		return !e.change || e.saying == unstated // only a change
	}
	return sameKind || e.saying == unstated
}

// flagged says whether a stretch's flag is as meant.
func flagged(e *ending, a *ask.Ask) bool {
	switch {
	case e.saying == around, e.saying == line:
		return e.flag == a.ComeBack
	case e.saying == unstated:
		return e.flag == (a.ComeBack || a.Store)
	}
	return e.flag == a.Store
}

// sameVerb says whether two verbs do the same: a word that is asked about is
// explained.
func sameVerb(got, want ask.Verb) bool {
	return got == want || want == ask.Explain && got == ask.Glossary
}

// merit ranks paths by how much of what is meant they have found.
func (m *message) merit(meant []Meant, p *step) float64 {
	here := meant[min(p.asks, len(meant)-1)]
	switch {
	case p.ending != nil && p.ending.saying == talk:
		return -0.02
	case p.ending != nil:
		return 0.01
	case p.measure != nil && p.label.part != none:
		return m.numberMerit(meant, here, p) * float64(p.measure.To-p.measure.From)
	case p.fact > 0:
		return m.factMerit(here.Ask, p)
	}
	return 0
}

// numberMerit is what one token of a number that was taken for something is worth.
func (m *message) numberMerit(meant []Meant, here Meant, p *step) float64 {
	l := p.label
	switch {
	case l.part.apart():
		first := p.before.pending[l.part-apartSet]
		difference := func(x ask.Measure) bool { return ask.Near(x.Length.Inches(), math.Abs(first-l.value)) }
		switch {
		case first == 0:
			return 0.3
		case slices.ContainsFunc(meant, func(w Meant) bool {
			return w.Ask != nil && slices.ContainsFunc(w.Ask.All(parts[l.part].role), difference)
		}):
			return 1
		}
		return -1
	case l.part == size && here.Ask != nil && here.Ask.Kind != ask.Saddle && p.before.sizes > 0 && here.Ask.Ends[0].Size == here.Ask.Ends[1].Size:
		return 0
	case parts[l.part].sort == aTerm:
		return m.termMerit(p)
	case mayMean([]Meant{here}, l):
		return 1
	}
	return 0.6
}

// termMerit prefers a number to a word that sounds like one, and a sign that the words
// before a term say.
func (m *message) termMerit(p *step) float64 {
	if x := p.measure; x.To-x.From == 1 && m.tokens[x.From].Type == measure.Soft {
		return 0 // the word more often than the number that sounds like it
	}
	minus := false
	for it, d := m.before(p.measure.From), 0; it != nil && !it.number && d < 4; it, d = m.before(it.from), d+1 {
		minus = minus || it.means("operator") == "minus" || it.text == "-"
	}
	if minus == (p.label.part == off) {
		return 1
	}
	return 0.95
}

// factMerit is what a word that was taken is worth.
func (m *message) factMerit(a *ask.Ask, p *step) float64 {
	it := &m.items[p.fact-1]
	material := it.means("material")
	if a != nil && (material != "" && material != string(a.Pipe.Material) || it.has("elbow") && !turns(a, geometry.QuarterBend)) {
		return -0.3
	}
	if a != nil && it.has("fitting") && !names(a, catalog.Shape(it.means("fitting")), p.inline) {
		return -0.3
	}
	return 0.3
}

// names says whether an ask names a fitting of a shape, at an end or in the travel.
func names(a *ask.Ask, s catalog.Shape, inline bool) bool {
	if inline {
		return slices.ContainsFunc(a.Inline, func(in ask.Inline) bool { return in.Fitting.Shape == s })
	}
	return a.Ends[0].Fitting.Shape == s || a.Ends[1].Fitting.Shape == s ||
		slices.ContainsFunc(a.Stations, func(x ask.Station) bool { return x.Fitting.Shape == s })
}

// Teaching is a model while it learns.
type Teaching struct {
	model    *Model
	grads    []float32 // squared, added up
	sum      []float64 // of weights times the time they stood, for the average
	stamp    []int32
	time     int32
	since    int32 // when the average begins, once it has
	Rate     float64
	Decay    float64
	*descent // of the network
}

// NewTeaching begins with a model that knows nothing.
func NewTeaching() *Teaching {
	n := 1 << modelBits
	t := &Teaching{model: NewModel(), grads: make([]float32, n), sum: make([]float64, n), stamp: make([]int32, n), Rate: 0.08, Decay: 2e-4, descent: newDescent()}
	t.model.net = newNetwork()
	return t
}

// gradient is what one lesson asks of the weights.
type gradient struct {
	at    []uint32
	value []float32
	slope *slope // of the network
}

// lesson finds what a lesson asks: more of what its right paths show, less of what
// the others do. The mask says which features it passes over.
func (t *Teaching) lesson(l *Lesson, mask uint32) (g gradient, loss float64) {
	model := &Model{w: t.model.w, net: t.model.net, mask: mask}
	s := &search{m: l.m, model: model, width: teachWidth, keep: mostLabels}
	all := s.paths()
	right := make([]bool, 0, len(all)+len(l.gold))
	for _, p := range all {
		right = append(right, l.agree(l.m.statements(p)))
	}
	for _, p := range l.gold {
		model.rescore(l.m, s.context, p)
		if !slices.ContainsFunc(all, func(q *step) bool { return math.Abs(q.score-p.score) < 1e-9 }) {
			all, right = append(all, p), append(right, true)
		}
	}
	top := math.Inf(-1)
	for _, p := range all {
		top = max(top, p.score)
	}
	sum, sumRight := 0.0, 0.0
	for i, p := range all {
		e := math.Exp(p.score - top)
		sum += e
		if right[i] {
			sumRight += e
		}
	}
	if sumRight == 0 {
		return gradient{}, 0
	}
	g.slope = s.context.newSlope()
	for i, p := range all {
		e := math.Exp(p.score - top)
		w := -e / sum
		if right[i] {
			w += e / sumRight
		}
		if math.Abs(w) < 1e-3 {
			continue
		}
		g.ask(model, s, p, float32(w*l.Weight))
	}
	s.context.back(g.slope)
	return g, -math.Log(sumRight / sum)
}

// ask asks for more of what a path shows, by a factor.
func (g *gradient) ask(model *Model, s *search, p *step, more float32) {
	for ; p != nil; p = p.before {
		s.buffer, s.views = s.m.features(s.buffer[:0], p), viewsOf(s.m, s.views[:0], p)
		for _, f := range s.buffer {
			if !model.passes(f) {
				g.at = append(g.at, f>>(32-modelBits))
				g.value = append(g.value, more)
			}
		}
		s.context.want(g.slope, s.views, more)
	}
}

// rescore gives a path the score that a model gives it.
func (m *Model) rescore(x *message, c *context, p *step) float64 {
	if p == nil {
		return 0
	}
	p.score = m.rescore(x, c, p.before) + m.dot(x.features(nil, p)) + c.score(viewsOf(x, nil, p))
	return p.score
}

// apply moves the weights by some gradients.
func (t *Teaching) apply(all []gradient) {
	t.time++
	total := map[uint32]float32{}
	var order []uint32
	for _, g := range all {
		for i, at := range g.at {
			if _, ok := total[at]; !ok {
				order = append(order, at)
			}
			total[at] += g.value[i]
		}
	}
	for _, at := range order {
		v := total[at]
		if v == 0 {
			continue
		}
		w := t.model.w[at]
		t.sum[at] += float64(w) * float64(t.time-t.stamp[at])
		t.stamp[at] = t.time
		v -= float32(t.Decay) * w * float32(len(all))
		t.grads[at] += v * v
		t.model.w[at] = w + float32(t.Rate)*v/float32(math.Sqrt(float64(t.grads[at])+1e-2))
	}
	t.move(t.model.net, all)
}

// Epoch goes through the lessons once, some at a time, in the order given.
func (t *Teaching) Epoch(lessons []*Lesson, batch, workers int) (loss float64) {
	for i := 0; i < len(lessons); i += batch {
		part := lessons[i:min(i+batch, len(lessons))]
		g := make([]gradient, len(part))
		losses := make([]float64, len(part))
		done := make(chan bool)
		for w := range workers {
			go func() {
				for k := w; k < len(part); k += workers {
					g[k], losses[k] = t.lesson(part[k], uint32(t.time)*64+uint32(k)+1)
				}
				done <- true
			}()
		}
		for range workers {
			<-done
		}
		t.apply(g)
		if t.since > 0 && t.time%everyFew == 0 {
			t.count(t.model.net)
		}
		for _, x := range losses {
			loss += x
		}
	}
	return loss / float64(len(lessons))
}

// BeginAverage begins the time over which the average is taken: what was learned first
// was learned beside a network that knew nothing.
func (t *Teaching) BeginAverage() {
	t.since = t.time
	clear(t.sum)
	for i := range t.stamp {
		t.stamp[i] = t.time
	}
}

// Settle goes on from a model with lessons that must hold: it moves the weights only
// for those whose right readings have less than a probability, and stops when there are
// none. It returns how many there were in the last round.
func (t *Teaching) Settle(m *Model, lessons []*Lesson, least float64, most int) (left int) {
	t.model = m
	for range most {
		left = 0
		for _, l := range lessons {
			if g, loss := t.lesson(l, 0); loss > -math.Log(least) {
				left++
				t.apply([]gradient{g})
			}
		}
		if left == 0 {
			break
		}
	}
	return left
}

// Average is the model whose weights are the average since BeginAverage.
func (t *Teaching) Average() *Model {
	m := NewModel()
	for i, w := range t.model.w {
		if w == 0 && t.sum[i] == 0 {
			continue
		}
		m.w[i] = float32((t.sum[i] + float64(w)*float64(t.time-t.stamp[i])) / float64(max(1, t.time-t.since)))
	}
	m.net = t.average()
	return m
}
