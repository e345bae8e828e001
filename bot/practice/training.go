package practice

import (
	"slices"
	"time"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
)

// Training is what is kept of one apprentice: the score, and the problem that
// waits for a reply. It is kept as JSON; the zero value is one who has not
// begun.
type Training struct {
	Cards  map[Kind]Card `json:",omitempty"`
	Number int           `json:",omitempty"` // problems marked so far
	Last   Kind          `json:",omitempty"` // of the last one
	Focus  Focus
	Posed  *Problem `json:",omitempty"`
	Missed int      `json:",omitempty"` // wrong replies to it, fewer than mostTriesAt
	Exam   *Exam    `json:",omitempty"`
	Metric bool     `json:",omitempty"` // problems are told in millimeters
}

// make makes a problem in the apprentice's unit. On a metric tape it is of metric
// pipe, unless a bend is wanted that none has.
func (t *Training) make(k Kind, angle geometry.Angle, chance Source) (p Problem, err error) {
	if !t.Metric {
		return Make(k, angle, chance)
	}
	for range mostTries {
		p, err = made(k, angle, chance, Problem.inMillimeters)
		if s, _ := catalog.SystemByID(p.System); err != nil || s.Metric || angle != 0 {
			break
		}
	}
	return p, err
}

// mostTriesAt is how many replies there may be to one problem.
const mostTriesAt = 3

// Outcome is what comes of a reply.
type Outcome struct {
	Problem Problem
	Mark    Mark
	Again   bool  // it still waits, for another try
	Exam    *Exam // the exam that this reply belongs to, if any
}

// Drill poses a problem of what is in focus, of the kind that is due, and
// drops any exam. The error is [ErrNoSuchBend].
func (t *Training) Drill(f Focus, chance Source) (Problem, error) {
	p, err := t.Pick(f, chance)
	if err != nil {
		return Problem{}, err
	}
	t.Exam = nil
	t.Focus = f
	t.pose(p)
	return p, nil
}

// Pick makes a problem as Drill does, but poses it to nobody.
func (t *Training) Pick(f Focus, chance Source) (Problem, error) {
	return t.make(t.due(f), f.Angle, chance)
}

// Next poses the next problem of a drill.
func (t *Training) Next(chance Source) (Problem, error) { return t.Drill(t.Focus, chance) }

func (t *Training) pose(p Problem) { t.Posed, t.Missed = &p, 0 }

// Stop drops the problem that waits, and the exam.
func (t *Training) Stop() { t.Posed, t.Missed, t.Exam = nil, 0, nil }

// due is the kind that is due: never the same twice in a row, unless it is the
// only one in focus.
func (t *Training) due(f Focus) Kind {
	kinds := f.kinds()
	if len(kinds) > 1 {
		kinds = slices.DeleteFunc(kinds, func(k Kind) bool { return k == t.Last })
	}
	best := kinds[0]
	for _, k := range kinds[1:] {
		if t.Cards[k].before(t.Cards[best], t.Number) {
			best = k
		}
	}
	return best
}

// Reply marks a reply to the problem that waits; ok is false if none does. In
// a drill a wrong reply leaves it waiting, but the last of some. The score counts the
// first try.
func (t *Training) Reply(reply Said, book figure.HandbookSet, now time.Time) (o Outcome, ok bool) {
	if t.Posed == nil {
		return Outcome{}, false
	}
	o = Outcome{Problem: *t.Posed, Mark: t.Posed.Mark(reply, book), Exam: t.Exam}
	switch {
	case t.Exam != nil:
		t.handIn(Question{Problem: o.Problem, Replied: true, Reply: reply.Length, Mark: o.Mark}, now)
		return o, true
	case t.Missed == 0:
		t.Count(o.Problem.Kind, o.Mark.Right)
	}
	if t.Missed++; o.Mark.Right || t.Missed == mostTriesAt {
		t.Posed, t.Missed = nil, 0
		return o, true
	}
	o.Again = true
	return o, true
}

// Skip gives up the problem that waits; it counts as missed. ok is false if
// none does.
func (t *Training) Skip(book figure.HandbookSet, now time.Time) (o Outcome, ok bool) {
	if t.Posed == nil {
		return Outcome{}, false
	}
	o = Outcome{Problem: *t.Posed, Mark: Mark{Key: t.Posed.ByTheBook(book)}, Exam: t.Exam}
	if t.Exam != nil {
		t.handIn(Question{Problem: o.Problem, Mark: o.Mark}, now)
		return o, true
	}
	if t.Missed == 0 {
		t.Count(o.Problem.Kind, false)
	}
	t.Posed, t.Missed = nil, 0
	return o, true
}

// Count counts a first try at a problem of a kind, right or wrong.
func (t *Training) Count(k Kind, right bool) {
	if t.Cards == nil {
		t.Cards = map[Kind]Card{}
	}
	t.Cards[k] = t.Cards[k].marked(right, t.Number)
	t.Number++
	t.Last = k
}
