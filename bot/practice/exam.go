package practice

import (
	"slices"
	"time"

	"dogleg/geometry"
)

// An exam has three minutes for each of its questions: common practice for figuring
// with a pencil.
const (
	ExamLength = 12
	ExamTime   = 36 * time.Minute
)

// Exam is an exam, begun or ended.
type Exam struct {
	Began     time.Time
	Ended     time.Time // zero while it goes on
	Problems  []Problem
	Questions []Question // handed in so far
}

// Question is one question of an exam as it was handed in.
type Question struct {
	Problem Problem
	Replied bool // not skipped
	Reply   geometry.Length
	Mark    Mark
}

// Sit begins an exam and poses its first question: every kind once, and those
// that are due again, in an order drawn by lot.
func (t *Training) Sit(chance Source, now time.Time) (*Exam, error) {
	e := &Exam{Began: now}
	for _, k := range t.examKinds(chance) {
		p, err := t.make(k, 0, chance)
		if err != nil {
			return nil, err
		}
		e.Problems = append(e.Problems, p)
	}
	t.Exam = e
	t.pose(e.Problems[0])
	return e, nil
}

func (t *Training) examKinds(chance Source) []Kind {
	kinds := Kinds()
	weakest := Kinds()
	slices.SortStableFunc(weakest, func(a, b Kind) int {
		switch {
		case t.Cards[a].before(t.Cards[b], t.Number):
			return -1
		case t.Cards[b].before(t.Cards[a], t.Number):
			return 1
		}
		return 0
	})
	kinds = append(kinds, weakest[:ExamLength-len(kinds)]...)
	for i := len(kinds) - 1; i > 0; i-- {
		j := chance.IntN(i + 1)
		kinds[i], kinds[j] = kinds[j], kinds[i]
	}
	return kinds
}

// handIn puts a question down and poses the next; after the last, or when the
// time is up, the exam has ended. What comes too late does not count.
func (t *Training) handIn(q Question, now time.Time) {
	e := t.Exam
	late := e.over(now)
	if !late {
		t.Count(q.Problem.Kind, q.Mark.Right)
		e.Questions = append(e.Questions, q)
	}
	if late || len(e.Questions) == len(e.Problems) {
		e.Ended = now
		t.Stop()
		return
	}
	t.pose(e.Problems[len(e.Questions)])
}

func (e *Exam) over(now time.Time) bool { return now.Sub(e.Began) > ExamTime }

// Expired ends an exam whose time is up, and returns it; nil where none is.
func (t *Training) Expired(now time.Time) *Exam {
	e := t.Exam
	if e == nil || !e.over(now) {
		return nil
	}
	e.Ended = now
	t.Stop()
	return e
}

// Leave ends an exam where it stands, and returns it; nil where none is.
func (t *Training) Leave(now time.Time) *Exam {
	e := t.Exam
	t.Stop()
	if e != nil {
		e.Ended = now
	}
	return e
}

// Late says whether the time ran out.
func (e *Exam) Late() bool { return !e.Ended.IsZero() && e.short() && e.over(e.Ended) }

// Left says whether it was ended before its last question.
func (e *Exam) Left() bool { return !e.Ended.IsZero() && e.short() && !e.over(e.Ended) }

func (e *Exam) short() bool { return len(e.Questions) < len(e.Problems) }

// Took is how long an exam took, at most [ExamTime].
func (e *Exam) Took() time.Duration { return min(e.Ended.Sub(e.Began), ExamTime) }

// Right is how many questions were right.
func (e *Exam) Right() int {
	n := 0
	for _, q := range e.Questions {
		if q.Mark.Right {
			n++
		}
	}
	return n
}
