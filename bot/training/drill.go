package training

import (
	"dogleg/bot/figure"
	"dogleg/bot/practice"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Practice poses a problem.
func (r *Room) Practice(s parser.Statement) Reply {
	r.Talk.Speak(s.Command.Language)
	if r.Group != nil {
		return r.poseToGroup(focus(s.Command))
	}
	if reply, running := r.keepsExam(s, "practice drops exam"); running {
		return reply
	}
	r.State.Metric = r.options().Metric
	p, err := r.State.Drill(focus(s.Command), r.chance())
	if err != nil {
		return Reply{Text: NoSuchBend(r.options())}
	}
	return Reply{Text: Problem(p, r.options()), Answered: true, Posed: true}
}

// kindsByWord are the kinds of problem by the roles and kinds of ask that name
// them.
var kindsByWord = map[string]practice.Kind{
	"rolling": practice.Rolling, string(parser.Roll): practice.Rolling, string(parser.Rise): practice.Rolling,
	string(parser.Travel): practice.Travel,
	string(parser.Cut):    practice.Cut,
	string(parser.EndGap): practice.EndGap, string(parser.Run): practice.EndGap,
	string(parser.Piece): practice.Piece, string(parser.CenterToCenter): practice.Piece,
	string(parser.Parallel): practice.Stagger, string(parser.Stagger): practice.Stagger, string(parser.Spacing): practice.Stagger,
	string(parser.Fall): practice.Fall, string(parser.Grade): practice.Fall,
}

// focus is what somebody wants to practice.
func focus(c *parser.Command) practice.Focus {
	f := practice.Focus{Kind: kindsByWord[c.Object], Angle: c.Angle}
	if f.Kind != "" && !f.Kind.Turns() {
		f.Angle = 0
	}
	return f
}

// Mark takes the statements of a message for the answer to the problem that waits;
// ok is false if they are none. It returns the statement that was one.
func (r *Room) Mark(statements []parser.Statement) (s parser.Statement, reply Reply, ok bool) {
	posed := r.posed()
	if posed == nil {
		return parser.Statement{}, Reply{}, false
	}
	s, length, ok := bareFigure(statements, *posed)
	switch {
	case !ok:
		return parser.Statement{}, Reply{}, false
	case r.Group != nil:
		return s, r.markInGroup(length), true
	}
	r.State.Leaving = false
	out, ok := r.State.Reply(length, r.Talk.Figuring().Handbook, r.When)
	return s, r.marked(out), ok
}

// bareFigure is the one figure that a message consists of, perhaps with the
// name of what was wanted: "13-1/2", "cut 13-1/2".
func bareFigure(statements []parser.Statement, posed practice.Problem) (parser.Statement, geometry.Length, bool) {
	ask := statements[0].Ask
	if len(statements) != 1 || ask == nil {
		return parser.Statement{}, 0, false
	}
	switch {
	case ask.Kind == parser.Sum && ask.Sum != nil && len(ask.Sum.Terms) == 1 && len(ask.Sum.Operators) == 0:
		return statements[0], replied(parser.Measure{Length: ask.Sum.Terms[0].Length, Text: ask.Sum.Terms[0].Text}, posed), true
	case ask.Kind == parser.Unstated && len(ask.Measures) == 1 && ask.Measures[0].Role == posed.Wanted() && bareOf(*ask):
		return statements[0], replied(ask.Measures[0], posed), true
	}
	return parser.Statement{}, 0, false
}

// replied is a reply in the unit of the problem, unless it says its own.
func replied(m parser.Measure, posed practice.Problem) geometry.Length {
	if posed.Metric && m.Unit() == parser.OpenUnit {
		return m.In(parser.Millimeters).Length
	}
	return m.Length
}

// bareOf says whether an ask holds nothing beside its measures.
func bareOf(a parser.Ask) bool {
	return a.Angle == 0 && a.Pipe == (catalog.Pipe{}) && a.Grade == 0 && a.Lines == 0 && a.Sum == nil && !a.ComeBack &&
		a.Ends == [2]parser.End{}
}

// Skip gives up the problem that waits.
func (r *Room) Skip(parser.Statement) Reply {
	if r.Group != nil {
		return r.closeInGroup()
	}
	r.State.Leaving = false
	out, ok := r.State.Skip(r.Talk.Figuring().Handbook, r.When)
	if !ok {
		return r.tell(false, "no problem")
	}
	return r.marked(out)
}

// marked says how a reply was marked, and poses what comes next. In an exam
// nothing is told until its end.
func (r *Room) marked(out practice.Outcome) Reply {
	o := r.options()
	switch e := out.Exam; {
	case e != nil && !e.Ended.IsZero():
		return r.results(e)
	case e != nil:
		return Reply{Text: ExamQuestion(e, o), Answered: true}
	}
	answer, err := figure.Solve(out.Problem.Ask(), r.Talk.Figuring())
	if err != nil {
		return Reply{Err: err} // it was sound when it was posed
	}
	text := Marked(out, answer, o)
	if out.Again {
		return Reply{Text: text, Answered: true}
	}
	next, err := r.State.Next(r.chance())
	if err != nil {
		return Reply{Text: text, Answered: true}
	}
	return Reply{Text: text + "\n\n" + Problem(next, o), Answered: true}
}

// Stop ends the practice, or the exam.
func (r *Room) Stop(parser.Statement) Reply {
	if r.Group != nil {
		return r.closeInGroup()
	}
	if r.State.Posed == nil {
		return r.tell(false, "no problem")
	}
	r.State.Leaving = false
	e := r.State.Leave(r.When)
	if e == nil || len(e.Questions) == 0 {
		return r.tell(true, "practice stopped")
	}
	return r.results(e)
}

// Score shows the score by kind.
func (r *Room) Score(s parser.Statement) Reply {
	r.Talk.Speak(s.Command.Language)
	return Reply{Text: Score(r.State.Training, r.options()), Answered: true, Aside: r.scoreChart()}
}

// Hint names what is to be worked out of the problem that waits, without its
// figures; ok is false where none waits. There are none in an exam.
func (r *Room) Hint() (reply Reply, ok bool) {
	posed := r.posed()
	switch {
	case posed == nil:
		return Reply{}, false
	case r.State.Exam != nil:
		return r.tell(false, "no hints"), true
	}
	answer, err := figure.Solve(posed.Ask(), r.Talk.Figuring())
	if err != nil {
		return Reply{}, false
	}
	return Reply{Text: Hint(answer, r.options()), Answered: true}, true
}
