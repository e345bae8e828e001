package read

import (
	"cmp"
	"math"
	"slices"

	"dogleg/parser/ask"
	"dogleg/parser/measure"
)

// Meant is what one line of a message was meant to say: an ask, a verb, or that
// nothing is asked.
type Meant struct {
	Ask     *ask.Ask
	Verb    ask.Verb
	Nothing string // withdrawn, talk, elsewhere
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
	s := &search{m: m, model: NewModelOf(1), width: wideWidth, keep: 1 << 10}
	s.allow = func(x *measure.Measure, y label) bool { return mayMean(meant, x, y) }
	s.allows = func(p *step, e *ending) bool {
		return ends(meant, p, e)
	}
	s.merit = func(p *step) float64 { return m.merit(meant, p) }
	for _, p := range s.paths() {
		if l.Near == nil && saidBy(p) == len(meant) {
			l.Near = m.statements(p)
		}
		if saidBy(p) == len(meant) && agree(m.statements(p)) {
			l.gold = append(l.gold, p)
		}
		if len(l.gold) == 8 {
			break
		}
	}
	return l
}

// saidBy counts what a path says: talk counts only where there is nothing else.
func saidBy(p *step) int { return max(p.asks, min(1, p.stretches)) }

// Covered says whether a path through the message says what is meant.
func (l *Lesson) Covered() bool { return len(l.gold) > 0 }

func close(a, b float64) bool { return math.Abs(a-b) <= 0.021+1e-5*math.Abs(a) }

// mayMean says whether a label has a value that is meant.
func mayMean(meant []Meant, x *measure.Measure, l label) bool {
	if l.part == none {
		return true
	}
	for _, w := range meant {
		a := w.Ask
		if a == nil {
			continue
		}
		switch parts[l.part].sort {
		case aLength:
			if l.part >= apartSet {
				if len(a.All(parts[l.part].role)) > 0 {
					return true
				}
				continue
			}
			for _, y := range a.Measures {
				if !close(y.Length.Inches(), l.value) {
					continue
				}
				if l.method > 0 && y.Method != "" && y.Method != ask.Centers || l.method == 0 && y.Role == parts[l.part].role {
					return true
				}
			}
		case anAngle:
			if math.Abs(a.Angle.Degrees()-l.value) < 0.7 || slices.ContainsFunc(a.Ends[:], func(e ask.End) bool { return math.Abs(e.Fitting.Angle.Degrees()-l.value) < 0.7 }) {
				return true
			}
		case aGrade:
			if math.Abs(a.Grade.InchesPerFoot()-l.value) < 0.004 {
				return true
			}
		case aCount:
			if a.Lines == int(l.value) {
				return true
			}
		case aSize:
			if a.Pipe.Size == l.size || a.Ends[0].Size == l.size || a.Ends[1].Size == l.size {
				return true
			}
		case aSchedule:
			if a.Pipe.Schedule != "" {
				return true
			}
		case aTerm:
			if a.Sum != nil {
				return true
			}
		}
	}
	return false
}

// ends says whether a stretch may end so, by what is meant there.
func ends(meant []Meant, p *step, e *ending) bool {
	if e.saying == talk {
		return len(meant) > 1 || meant[0].Nothing == "" || meant[0].Nothing == sayings[talk].name
	}
	if p.asks >= len(meant) {
		return false
	}
	w := meant[p.asks]
	switch {
	case w.Verb != "":
		return e.saying == command && sameVerb(e.verb, w.Verb)
	case w.Nothing != "":
		return sayings[e.saying].name == w.Nothing
	case e.saying >= command:
		return false
	}
	a := w.Ask
	if a.FollowUp {
		if a.Kind == ask.Unstated && e.change && e.saying != unstated {
			return false // only a change
		}
		return (e.change || p.asks > 0) && (a.Kind == ask.Unstated || e.saying == unstated || sayings[e.saying].kind == a.Kind) && flagged(e, a)
	}
	if e.change && p.asks == 0 {
		return false
	}
	return (sayings[e.saying].kind == a.Kind || e.saying == unstated && p.asks > 0) && flagged(e, a)
}

// flagged says whether a stretch's flag is as meant.
func flagged(e *ending, a *ask.Ask) bool {
	switch {
	case e.saying == around:
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
	switch {
	case p.ending != nil:
		if p.ending.saying == talk {
			return -0.02
		}
		return 0.01
	case p.measure != nil && p.label.part != none:
		k := min(p.asks, len(meant)-1)
		bonus := 0.6
		if mayMean(meant[k:k+1], p.measure, p.label) {
			bonus = 1
		}
		if p.label.part >= apartSet {
			first := p.before.pending[p.label.part-apartSet]
			bonus = 0.3
			if first != 0 {
				bonus = -1
				for _, w := range meant {
					if w.Ask != nil && slices.ContainsFunc(w.Ask.All(parts[p.label.part].role), func(x ask.Measure) bool {
						return close(x.Length.Inches(), math.Abs(first-p.label.value))
					}) {
						bonus = 1
					}
				}
			}
		}
		if p.label.part == size && meant[k].Ask != nil && p.before.sizes > 0 && meant[k].Ask.Ends[0].Size == meant[k].Ask.Ends[1].Size {
			bonus = 0
		}
		return bonus * float64(p.measure.To-p.measure.From)
	case p.fact > 0:
		k := min(p.asks, len(meant)-1)
		if a := meant[k].Ask; a != nil {
			it := &m.items[p.fact-1]
			if v := it.means("material"); v != "" && v != string(a.Pipe.Material) {
				return -0.3
			}
			if it.has("elbow") && (a.Angle != 90 || p.angles > 0) {
				return -0.3
			}
		}
		return 0.3
	}
	return 0
}

// Teaching is a model while it learns.
type Teaching struct {
	model *Model
	grads []float32 // squared, added up
	sum   []float64 // of weights times the time they stood, for the average
	stamp []int32
	time  int32
	Rate  float64
	Decay float64
	known []uint8 // in how many lessons a feature is on a right path; nil: all may be learned
	Least uint8   // of these, for a feature to be learned
}

// Count notes which features lessons show on their right paths.
func (t *Teaching) Count(lessons []*Lesson) {
	t.known = make([]uint8, len(t.grads))
	var buffer []feature
	for _, l := range lessons {
		seen := map[uint32]bool{}
		for _, p := range l.gold[:1] {
			for q := p; q != nil; q = q.before {
				buffer = l.m.features(buffer[:0], q)
				for _, f := range buffer {
					seen[f>>(32-modelBits)] = true
				}
			}
		}
		for f := range seen {
			if t.known[f] < 255 {
				t.known[f]++
			}
		}
	}
}

// NewTeaching begins with a model that knows nothing.
func NewTeaching() *Teaching {
	n := 1 << modelBits
	return &Teaching{model: NewModel(), grads: make([]float32, n), sum: make([]float64, n), stamp: make([]int32, n), Rate: 0.12, Decay: 2e-4}
}

// gradient is what one lesson asks of the weights.
type gradient struct {
	at    []uint32
	value []float32
}

// lesson finds what a lesson asks: more of what its right paths show, less of what
// the others do.
func (t *Teaching) lesson(l *Lesson, width int) (g gradient, loss float64) {
	s := &search{m: l.m, model: t.model, width: width, keep: mostLabels}
	all := s.paths()
	right := make([]bool, 0, len(all)+len(l.gold))
	for _, p := range all {
		right = append(right, l.agree(l.m.statements(p)))
	}
	for _, p := range l.gold {
		t.model.rescore(l.m, p)
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
	var buffer []feature
	for i, p := range all {
		e := math.Exp(p.score - top)
		w := -e / sum
		if right[i] {
			w += e / sumRight
		}
		if math.Abs(w) < 1e-3 {
			continue
		}
		w *= l.Weight
		for q := p; q != nil; q = q.before {
			buffer = l.m.features(buffer[:0], q)
			for _, f := range buffer {
				g.at = append(g.at, f>>(32-modelBits))
				g.value = append(g.value, float32(w))
			}
		}
	}
	return g, -math.Log(sumRight / sum)
}

// rescore gives a path the score that a model gives it.
func (m *Model) rescore(x *message, p *step) float64 {
	if p == nil {
		return 0
	}
	p.score = m.rescore(x, p.before) + m.dot(x.features(nil, p))
	return p.score
}

// apply moves the weights by some gradients.
func (t *Teaching) apply(all []gradient) {
	t.time++
	total := map[uint32]float32{}
	var order []uint32
	for _, g := range all {
		for i, at := range g.at {
			if t.known != nil && t.known[at] < t.Least {
				continue
			}
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
}

// Epoch goes through the lessons once, some at a time, in the order given.
func (t *Teaching) Epoch(lessons []*Lesson, width, batch, workers int) (loss float64) {
	for i := 0; i < len(lessons); i += batch {
		part := lessons[i:min(i+batch, len(lessons))]
		g := make([]gradient, len(part))
		losses := make([]float64, len(part))
		done := make(chan bool)
		for w := range workers {
			go func() {
				for k := w; k < len(part); k += workers {
					g[k], losses[k] = t.lesson(part[k], width)
				}
				done <- true
			}()
		}
		for range workers {
			<-done
		}
		t.apply(g)
		for _, x := range losses {
			loss += x
		}
	}
	return loss / float64(len(lessons))
}

// Average is the model whose weights are the average over the time of teaching.
func (t *Teaching) Average() *Model {
	m := NewModel()
	for i, w := range t.model.w {
		if w == 0 && t.sum[i] == 0 {
			continue
		}
		m.w[i] = float32((t.sum[i] + float64(w)*float64(t.time-t.stamp[i])) / float64(max(1, t.time)))
	}
	return m
}

// TakenBack says whether a message is withdrawn in its own last words: nothing that
// could be figured follows them.
func TakenBack(text string) bool {
	m, ok := prepare(text, Said{})
	if !ok {
		return false
	}
	for i := len(m.items) - 1; i >= 0; i-- {
		switch {
		case m.items[i].has("withdrawn"):
			return true
		case m.items[i].number, m.items[i].has("material"):
			return false
		}
	}
	return false
}

// Reading is one way to read a message, with its probability.
type Reading struct {
	Statements  []ask.Statement
	Probability float64
	path        *step
	m           *message
}

// Read lists the ways to read a message, the likeliest first.
func (m *Model) Read(text string, said Said) []Reading {
	x, ok := prepare(text, said)
	if !ok || len(x.tokens) == 0 {
		return nil
	}
	s := &search{m: x, model: m, width: width, keep: mostLabels}
	all := s.paths()
	var out []Reading
	for i, p := range probabilities(all) {
		out = append(out, Reading{Statements: x.statements(all[i]), Probability: p, path: all[i], m: x})
	}
	slices.SortStableFunc(out, func(a, b Reading) int { return cmp.Compare(b.Probability, a.Probability) })
	return out
}
