package practice_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"dogleg/bot/figure"
	"dogleg/bot/practice"
	"dogleg/catalog"
	"dogleg/geometry"
)

func bends(a geometry.Angle) [2]catalog.Fitting {
	return [2]catalog.Fitting{catalog.BendOf(a), catalog.BendOf(a)}
}

var monday = time.Date(2026, time.November, 2, 7, 0, 0, 0, time.UTC)

func seeded(n uint64) *rand.Rand { return rand.New(rand.NewPCG(n, 0)) }

// reply answers the problem that waits, rightly or a foot too long.
func reply(t *testing.T, tr *practice.Training, right bool, when time.Time) practice.Outcome {
	t.Helper()
	l := tr.Posed.Figure()
	if !right {
		l += 12
	}
	o, ok := tr.Reply(practice.Said{Length: l}, figure.ExactFigures, when)
	if !ok || o.Mark.Right != right {
		t.Fatalf("reply %v to %+v is marked %+v", l, o.Problem, o.Mark)
	}
	return o
}

// A kind that was missed comes back after one other; a kind that was right
// waits longer each time.
func TestWeakKindsComeBackSooner(t *testing.T) {
	var tr practice.Training
	chance := seeded(3)
	asked := map[practice.Kind]int{}
	var order []practice.Kind
	for range 60 {
		p, err := tr.Drill(practice.Focus{}, chance)
		if err != nil {
			t.Fatal(err)
		}
		asked[p.Kind]++
		order = append(order, p.Kind)
		if o := reply(t, &tr, p.Kind != practice.Rolling, monday); o.Again {
			reply(t, &tr, true, monday)
		}
	}
	for _, k := range practice.Kinds() {
		if asked[k] == 0 {
			t.Errorf("%s was never asked", k)
		}
		if k != practice.Rolling && asked[k]*2 > asked[practice.Rolling] {
			t.Errorf("%s, always right, was asked %d times; rolling, always missed, %d times", k, asked[k], asked[practice.Rolling])
		}
	}
	for i := range order[1:] {
		if order[i] == order[i+1] {
			t.Errorf("problems %d and %d are both %s", i, i+1, order[i])
		}
	}
}

// S. Leitner, So lernt man lernen, 1972: one compartment on, or back to the
// first. The waits are ours: 1, 2, 4, 8, 16.
func TestCompartments(t *testing.T) {
	var tr practice.Training
	chance := seeded(4)
	for i, want := range []struct{ compartment, wait int }{{2, 2}, {3, 4}, {4, 8}, {5, 16}, {5, 16}, {5, 16}} {
		if _, err := tr.Drill(practice.Focus{Kind: practice.Cut}, chance); err != nil {
			t.Fatal(err)
		}
		reply(t, &tr, true, monday)
		c := tr.Cards[practice.Cut]
		if c.Compartment != want.compartment || c.Due != tr.Number+want.wait || c.Right != i+1 {
			t.Errorf("after %d right: %+v at %d", i+1, c, tr.Number)
		}
	}
	if _, err := tr.Drill(practice.Focus{Kind: practice.Cut}, chance); err != nil {
		t.Fatal(err)
	}
	reply(t, &tr, false, monday)
	if c := tr.Cards[practice.Cut]; c.Compartment != 1 || c.Due != tr.Number+1 || c.Asked != 7 || c.Right != 6 {
		t.Errorf("after a miss: %+v", c)
	}
}

// A third wrong reply ends a problem.
func TestThirdTry(t *testing.T) {
	var tr practice.Training
	if _, err := tr.Drill(practice.Focus{}, seeded(5)); err != nil {
		t.Fatal(err)
	}
	k := tr.Posed.Kind
	for n, again := range []bool{true, true, false} {
		if o := reply(t, &tr, false, monday); o.Again != again {
			t.Errorf("try %d: %+v", n+1, o)
		}
	}
	if c := tr.Cards[k]; tr.Posed != nil || c.Asked != 1 || c.Right != 0 {
		t.Errorf("after three tries: %+v, score %+v", tr.Posed, c)
	}
}

// A wrong reply leaves the problem waiting; the score counts the first.
func TestSecondTry(t *testing.T) {
	var tr practice.Training
	if _, err := tr.Drill(practice.Focus{}, seeded(5)); err != nil {
		t.Fatal(err)
	}
	k := tr.Posed.Kind
	if o := reply(t, &tr, false, monday); !o.Again || tr.Posed == nil {
		t.Fatalf("no second try: %+v", o)
	}
	if o := reply(t, &tr, true, monday); o.Again || tr.Posed != nil {
		t.Fatalf("still waits: %+v", o)
	}
	if c := tr.Cards[k]; c.Asked != 1 || c.Right != 0 {
		t.Errorf("score %+v, want 0 of 1", c)
	}
	if _, ok := tr.Reply(said(1), figure.ExactFigures, monday); ok {
		t.Error("a reply was marked though nothing waited")
	}
}

func TestFocus(t *testing.T) {
	var tr practice.Training
	for seed := range uint64(50) {
		p, err := tr.Drill(practice.Focus{Angle: geometry.SixteenthBend}, seeded(seed))
		if err != nil {
			t.Fatal(err)
		}
		if p.Angle() != geometry.SixteenthBend {
			t.Fatalf("asked about %v", p.Angle())
		}
		tr.Skip(figure.ExactFigures, monday)
	}
	if _, err := tr.Drill(practice.Focus{Angle: 13}, seeded(1)); !errors.Is(err, practice.ErrNoSuchBend) {
		t.Errorf("bends of 13: %v", err)
	}
}

// Every bend that is named can be practiced, in every kind that turns.
func TestEveryAngleCanBePracticed(t *testing.T) {
	for _, a := range practice.Angles() {
		for _, k := range practice.Kinds() {
			if !k.Turns() {
				continue
			}
			if p, err := practice.Make(k, a, seeded(7)); err != nil || p.Angle() != a {
				t.Errorf("%s with %v: %v, %v", k, a, p.Angle(), err)
			}
		}
	}
}

func TestExam(t *testing.T) {
	var tr practice.Training
	e, err := tr.Sit(seeded(6), monday)
	if err != nil {
		t.Fatal(err)
	}
	for i := range practice.ExamLength {
		reply(t, &tr, i%5 != 0, monday.Add(time.Duration(i+1)*time.Minute))
	}
	if tr.Exam != nil || tr.Posed != nil {
		t.Error("the exam goes on after its last question")
	}
	if e.Right() != 9 || e.Took() != 12*time.Minute || e.Late() {
		t.Errorf("%d right in %v, late %v; want 9 in 12 min", e.Right(), e.Took(), e.Late())
	}
	asked := map[practice.Kind]bool{}
	for _, q := range e.Questions {
		asked[q.Problem.Kind] = true
	}
	if len(asked) != len(practice.Kinds()) {
		t.Errorf("the exam asked %v, not every kind", asked)
	}
}

// What comes after the time is up does not count.
func TestExamTime(t *testing.T) {
	var tr practice.Training
	e, err := tr.Sit(seeded(6), monday)
	if err != nil {
		t.Fatal(err)
	}
	reply(t, &tr, true, monday.Add(practice.ExamTime))
	reply(t, &tr, true, monday.Add(practice.ExamTime+time.Minute))
	if !e.Late() || e.Right() != 1 || e.Took() != practice.ExamTime || tr.Number != 1 {
		t.Errorf("late %v, %d right, %v, %d scored", e.Late(), e.Right(), e.Took(), tr.Number)
	}
}

// Who leaves an exam has what was handed in so far, and is not called late.
func TestExamLeft(t *testing.T) {
	var tr practice.Training
	if _, err := tr.Sit(seeded(6), monday); err != nil {
		t.Fatal(err)
	}
	reply(t, &tr, true, monday.Add(time.Minute))
	reply(t, &tr, false, monday.Add(2*time.Minute))
	e := tr.Leave(monday.Add(3 * time.Minute))
	if e == nil || !e.Left() || e.Late() || e.Right() != 1 || len(e.Questions) != 2 || e.Took() != 3*time.Minute {
		t.Errorf("left: %+v", e)
	}
	if tr.Exam != nil || tr.Posed != nil || tr.Leave(monday) != nil {
		t.Error("the exam goes on")
	}
}

// A training goes on after a restart as if there had been none.
func TestTrainingIsKept(t *testing.T) {
	var tr practice.Training
	if _, err := tr.Sit(seeded(8), monday); err != nil {
		t.Fatal(err)
	}
	for i := range 9 {
		reply(t, &tr, i != 4, monday.Add(time.Minute))
		kept, err := json.Marshal(tr)
		if err != nil {
			t.Fatal(err)
		}
		tr = practice.Training{}
		if err := json.Unmarshal(kept, &tr); err != nil {
			t.Fatal(err)
		}
	}
	o := reply(t, &tr, true, monday.Add(2*time.Minute))
	if o.Exam.Right() != 9 {
		t.Errorf("%d right, want 9", o.Exam.Right())
	}
}

func ExampleProblem_Mark() {
	// The laundry stack of the Juniper Street job: 10-3/8 over, 45s, takeoffs
	// of 1-7/16.
	p := practice.Problem{
		Kind: practice.Cut, System: "pvc-dwv", Size: "2", Fittings: bends(geometry.EighthBend),
		Set: 10.375, Takeoffs: [2]geometry.Length{1.4375, 1.4375},
	}
	fmt.Println(p.Mark(practice.Said{Length: 11.8125}, figure.ExactFigures).Right)
	fmt.Println(p.Mark(practice.Said{Length: 13.25}, figure.ExactFigures).Slip)
	// Output:
	// true
	// one takeoff
}
