package bot

import (
	"cmp"
	"math/rand/v2"
	"strconv"
	"strings"

	"dogleg/bot/figure"
	"dogleg/bot/practice"
	"dogleg/bot/wording"
	"dogleg/geometry"
	"dogleg/parser"
)

// training is an apprentice's training with what its problems are drawn by.
// Numbers drawn are counted, not kept: the same seed and count draw the same
// problem, so that a restart in between makes no difference.
type training struct {
	practice.Training
	Seed  uint64 `json:",omitempty"`
	Drawn uint64 `json:",omitempty"`
	Tried int    `json:",omitempty"` // the last problem of the group that was tried

	Leaving bool `json:",omitempty"` // was asked whether the exam is to be dropped
}

// chance is where the next problem is drawn from. The first draw seeds it: by
// the conversation's own seed where that is set, or by the time of the message.
func (t *turn) chance() practice.Source {
	tr := &t.talk.Practice
	if tr.Seed == 0 {
		tr.Seed = t.seed()
	}
	tr.Drawn++
	return rand.New(rand.NewPCG(tr.Seed, tr.Drawn))
}

func (t *turn) seed() uint64 {
	return cmp.Or(t.conversation.Seed, uint64(t.message.When.UnixNano()))
}

// practice poses a problem.
func (t *turn) practice(s parser.Statement) part {
	t.speak(s)
	t.waiting = nil // a bare figure is for the problem now
	if g := t.group(); g != nil {
		return t.poseToGroup(s, g)
	}
	if p, running := t.keepsExam(s, wording.PracticeDropsExam); running {
		return p
	}
	t.talk.Practice.Metric = t.metric()
	p, err := t.talk.Practice.Drill(focus(s.Command), t.chance())
	if err != nil {
		return said(s, false, wording.NoSuchBend(t.options(t.talk.Language)))
	}
	return said(s, true, wording.Problem(p, t.options(t.talk.Language)))
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

// exam begins an exam.
func (t *turn) exam(s parser.Statement) part {
	t.speak(s)
	if t.message.Group != nil {
		return t.tell(s, false, wording.ExamAlone)
	}
	if p, running := t.keepsExam(s, wording.ExamDropsExam); running {
		return p
	}
	t.waiting = nil
	t.talk.Practice.Metric = t.metric()
	e, err := t.talk.Practice.Sit(t.chance(), t.message.When)
	if err != nil {
		return t.refuse(s, err)
	}
	o := t.options(t.talk.Language)
	return said(s, true, wording.ExamBegins(e, o)+"\n\n"+wording.ExamQuestion(e, o))
}

// keepsExam asks before an exam that goes on is dropped for something else; said
// once more, that goes ahead. An exam whose time is up has its results told
// instead.
func (t *turn) keepsExam(s parser.Statement, ask wording.Phrase) (part, bool) {
	tr := &t.talk.Practice
	if e := tr.Expired(t.message.When); e != nil {
		return t.results(said(s, true, wording.ExamResults(e, t.options(t.talk.Language))), e), true
	}
	e := tr.Exam
	if e == nil || tr.Leaving {
		tr.Leaving = false
		return part{}, false
	}
	tr.Leaving = true
	p := t.tell(s, false, ask, "number", strconv.Itoa(len(e.Questions)+1), "of", strconv.Itoa(len(e.Problems)))
	p.buttons = each([]string{strings.TrimSpace(s.Text)})
	return p, true
}

// mark takes the statements of a message for the answer to the problem that waits;
// ok is false if they are none.
func (t *turn) mark(statements []parser.Statement) (p part, ok bool) {
	if g := t.group(); g != nil {
		return t.markInGroup(statements, g)
	}
	if t.talk.Practice.Posed == nil {
		return part{}, false
	}
	s, reply, ok := bareFigure(statements, *t.talk.Practice.Posed)
	if !ok {
		return part{}, false
	}
	t.talk.Practice.Leaving = false
	out, ok := t.talk.Practice.Reply(reply, t.figuring().Handbook, t.message.When)
	return t.marked(s, out), ok
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
	a.Measures = nil
	return changesNothing(a) && a.Ends == [2]parser.End{}
}

// skip gives up the problem that waits.
func (t *turn) skip(s parser.Statement) part {
	if g := t.group(); g != nil {
		return t.closeInGroup(s, g)
	}
	t.talk.Practice.Leaving = false
	out, ok := t.talk.Practice.Skip(t.figuring().Handbook, t.message.When)
	if !ok {
		return t.tell(s, false, wording.NoProblem)
	}
	return t.marked(s, out)
}

// marked says how a reply was marked, and poses what comes next. In an exam
// nothing is told until its end.
func (t *turn) marked(s parser.Statement, out practice.Outcome) part {
	o := t.options(t.talk.Language)
	switch e := out.Exam; {
	case e != nil && !e.Ended.IsZero():
		return t.results(said(s, true, wording.ExamResults(e, o)), e)
	case e != nil:
		return said(s, true, wording.ExamQuestion(e, o))
	}
	answer, err := figure.Solve(out.Problem.Ask(), t.figuring())
	if err != nil {
		return t.refuse(s, errFault) // it was sound when it was posed
	}
	text := wording.Marked(out, answer, o)
	if out.Again {
		return said(s, true, text)
	}
	next, err := t.talk.Practice.Next(t.chance())
	if err != nil {
		return said(s, true, text)
	}
	return said(s, true, text+"\n\n"+wording.Problem(next, o))
}

// stop ends the practice, or the exam.
func (t *turn) stop(s parser.Statement) part {
	if g := t.group(); g != nil {
		return t.closeInGroup(s, g)
	}
	if t.talk.Practice.Posed == nil {
		return t.tell(s, false, wording.NoProblem)
	}
	t.talk.Practice.Leaving = false
	e := t.talk.Practice.Leave(t.message.When)
	if e == nil || len(e.Questions) == 0 {
		return t.tell(s, true, wording.PracticeStopped)
	}
	return t.results(said(s, true, wording.ExamResults(e, t.options(t.talk.Language))), e)
}

// score shows the score by kind.
func (t *turn) score(s parser.Statement) part {
	t.speak(s)
	p := said(s, true, wording.Score(t.talk.Practice.Training, t.options(t.talk.Language)))
	p.aside = t.scoreChart()
	return p
}

// glossary says what a word means, or lists the words.
func (t *turn) glossary(s parser.Statement) part {
	t.speak(s)
	o := t.options(t.talk.Language)
	if s.Command.Angle != 0 {
		p := said(s, true, wording.Bend(s.Command.Angle, o))
		p.aside = t.triangleOfBend(s.Command.Angle)
		return p
	}
	if s.Command.Object == "" {
		return said(s, true, wording.Glossary(o))
	}
	if text, ok := wording.Meaning(s.Command.Object, o); ok {
		p := said(s, true, text)
		p.aside = t.pictureOf(s.Command.Object)
		return p
	}
	return said(s, false, wording.NotInGlossary(o))
}

// why explains where a multiplier comes from.
func (t *turn) why(s parser.Statement) part {
	t.speak(s)
	text, ok := wording.WhyMultiplier(s.Command.Factor, t.options(t.talk.Language))
	p := said(s, ok, text)
	p.aside = t.triangleOf(s.Command.Factor)
	return p
}

// speak goes on in the language of a command.
func (t *turn) speak(s parser.Statement) {
	if s.Command.Language != "" {
		t.talk.Language = s.Command.Language
	}
}
