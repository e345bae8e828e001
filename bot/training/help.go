package training

import (
	"strings"

	"dogleg/bot/figure"
	"dogleg/bot/practice"
	"dogleg/bot/sketch"
	"dogleg/bot/wording"
)

// What helps inside a problem: the next step by its name, a sketch without the answer,
// all steps, and the rules behind them. None has the answer in it, and in an exam
// there is none.

// asked is the problem that waits, with its answer, for who is stuck in it; ok is
// false where none waits, or where something else was talked about since.
func (r *Room) asked() (p practice.Problem, answer *figure.Answer, ok bool) {
	posed := r.posed()
	if posed == nil {
		return practice.Problem{}, nil, false
	}
	answer, err := figure.Solve(posed.Ask(), r.Talk.Figuring())
	return *posed, answer, err == nil
}

// waits says whether a word like explain is about the problem that waits.
func (r *Room) waits() bool { return r.posed() != nil && !r.State.Beside }

// Hint names the next step of the problem that waits; ok is false where none waits.
func (r *Room) Hint() (reply Reply, ok bool) {
	p, answer, ok := r.asked()
	if !ok || r.inExam() {
		return r.noHints(), ok
	}
	hints := wording.Hints(answer, r.options().For(p.Ask()))
	r.State.Beside = false
	if r.State.Hinted >= len(hints) {
		reply = r.tell(true, "no more hints")
		reply.Buttons = r.helps()
		return reply, true
	}
	reply = Reply{Text: hints[r.State.Hinted].Name, Answered: true, Buttons: r.helps()}
	r.State.Hinted++
	r.State.Told = true
	return reply, true
}

// Explain names all steps of the problem that waits; ok is false where a word like
// explain is about something else.
func (r *Room) Explain() (reply Reply, ok bool) {
	p, answer, ok := r.asked()
	if !ok || !r.waits() || r.inExam() {
		return r.noHints(), ok && r.waits()
	}
	var lines []string
	for _, h := range wording.Hints(answer, r.options().For(p.Ask())) {
		lines = append(lines, h.Name)
	}
	r.State.Told = true
	lines = append(lines, r.say("more rules"))
	return Reply{Text: strings.Join(lines, "\n"), Answered: true, Buttons: r.helps()}, true
}

// More gives the rules behind the steps of the problem that waits, where these were
// named; ok is false where they weren't.
func (r *Room) More() (reply Reply, ok bool) {
	p, answer, ok := r.asked()
	if !ok || !r.waits() || !r.State.Told || r.inExam() {
		return Reply{}, false
	}
	var lines []string
	for _, h := range wording.Hints(answer, r.options().For(p.Ask())) {
		if lines = append(lines, h.Name+":"); h.Why != "" {
			lines = append(lines, h.Why)
		}
	}
	return Reply{Text: strings.Join(lines, "\n"), Answered: true, Buttons: r.helps()}, true
}

// Draw sketches the problem that waits, without its answer; ok is false where a word
// like draw is about something else.
func (r *Room) Draw() (reply Reply, ok bool) {
	p, answer, ok := r.asked()
	if !ok || !r.waits() || r.inExam() {
		return r.noHints(), ok && r.waits()
	}
	o := r.options()
	if _, err := unsolved(p, answer, o); err != nil {
		return r.tell(false, "no sketch"), true
	}
	return Reply{
		Text: Problem(p, o), Answered: true, Buttons: r.helps(),
		Files: []Picture{{AProblem, "problem.png", o, Recipe{Problem: &p}}},
	}, true
}

// noHints says that there are none in an exam.
func (r *Room) noHints() Reply {
	reply := r.tell(false, "no hints")
	reply.Buttons = r.outs()
	return reply
}

// inExam says whether the problem that waits is a question of an exam.
func (r *Room) inExam() bool { return r.Group == nil && r.State.Exam != nil }

// unsolved is the sketch of a problem.
func unsolved(p practice.Problem, answer *figure.Answer, o wording.Options) (*sketch.Drawing, error) {
	posed, _, _ := strings.Cut(Problem(p, o), "\n")
	return sketch.Unsolved(answer, posed, o)
}
