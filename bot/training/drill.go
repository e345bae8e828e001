package training

import (
	_ "embed"
	"encoding/csv"
	"slices"
	"strings"
	"sync"

	"dogleg/bot/practice"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Practice poses a problem.
func (r *Room) Practice(s parser.Statement) Reply {
	r.Talk.Speak(s.Command.Language)
	if unknown(s) {
		return r.whatThereIs()
	}
	if r.Group != nil {
		return r.poseToGroup(focus(s))
	}
	if reply, running := r.keepsExam(s, "practice drops exam"); running {
		return reply
	}
	r.State.Metric = r.options().Metric
	p, err := r.State.Drill(focus(s), r.chance())
	if err != nil {
		return r.noSuchBend()
	}
	r.State.fresh()
	return Reply{Text: Problem(p, r.options()), Answered: true, Posed: true, Buttons: r.helps()}
}

// helps are buttons for who is stuck in a problem.
func (r *Room) helps() [][]Button {
	var row []Button
	for _, key := range []string{"word hint", "word draw", "word skip"} {
		word := r.say(key)
		row = append(row, Button{Label: word, Says: word})
	}
	return [][]Button{row}
}

// outs are buttons for who is stuck in an exam.
func (r *Room) outs() [][]Button {
	var row []Button
	for _, key := range []string{"word skip", "word stop"} {
		word := r.say(key)
		row = append(row, Button{Label: word, Says: word})
	}
	return [][]Button{row}
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
	string(parser.Mark): practice.Marking,
	string(parser.Trim): practice.Trimming, string(parser.Check): practice.Trimming, string(parser.DryFit): practice.Trimming,
	string(parser.Takeoff): practice.Cut,
}

// focus is what somebody wants to practice. The words of kinds.csv go before what the
// reader made of them: "two angles" is no bend of 2°.
func focus(s parser.Statement) practice.Focus {
	f := practice.Focus{Kind: kindsByWord[s.Command.Object], Angle: s.Command.Angle}
	if k, ok := kindNamed(s.Text); ok {
		f.Kind = k
	}
	if f.Angle == 22 { // as the trade calls them
		f.Angle = geometry.SixteenthBend
	}
	if f.Kind != "" && !f.Kind.Turns() {
		f.Angle = 0
	}
	return f
}

// idleWords may stand around practice and say nothing of what.
var idleWords = map[string]bool{
	"practice": true, "practise": true, "practicar": true, "practica": true, "práctica": true, "please": true, "some": true, "more": true,
	"now": true, "again": true, "problem": true, "problems": true, "a": true, "the": true, "me": true, "with": true, "for": true, "on": true,
	"in": true, "un": true, "una": true, "problema": true, "problemas": true, "por": true, "favor": true, "más": true, "en": true, "de": true,
}

// unknown says whether somebody wants to practice something that there is not: it is
// told what there is, and nothing else is posed in its place.
func unknown(s parser.Statement) bool {
	words := strings.Fields(strings.ToLower(strings.Trim(s.Text, " .?!")))
	if f := focus(s); len(words) < 2 || !strings.HasPrefix(words[0], "pr") || !idleWords[words[0]] || f.Kind != "" || s.Command.Angle != 0 {
		return false
	}
	return slices.ContainsFunc(words, func(w string) bool { return !idleWords[w] })
}

// whatThereIs names the kinds of problem, with a button for each.
func (r *Room) whatThereIs() Reply {
	o := r.options()
	var names []string
	for _, k := range practice.Kinds() {
		names = append(names, kindName(k, o))
	}
	reply := r.tell(false, "practice of what", "kinds", strings.Join(names, ", "))
	reply.Buttons = r.toPractice(names)
	return reply
}

// noSuchBend says which bends can be practiced, with a button for each.
func (r *Room) noSuchBend() Reply {
	var names []string
	for _, a := range practice.Angles() {
		names = append(names, wording.BendName(a))
	}
	return Reply{Text: NoSuchBend(r.options()), Buttons: r.toPractice(names)}
}

// toPractice are buttons that practice what is named on them, some side by side.
func (r *Room) toPractice(names []string) [][]Button {
	var rows [][]Button
	for some := range slices.Chunk(names, 3) {
		var row []Button
		for _, name := range some {
			row = append(row, Button{Label: name, Says: r.say("word practice") + " " + name})
		}
		rows = append(rows, row)
	}
	return rows
}

// kindsCSV has a row for each word that names a kind of problem and isn't a role or a
// kind of ask.
//
//go:embed kinds.csv
var kindsCSV string

var kindWords = sync.OnceValue(func() [][2]string {
	rows, err := csv.NewReader(strings.NewReader(kindsCSV)).ReadAll()
	if err != nil {
		panic("training: kinds.csv: " + err.Error()) // embedded, and read by every test
	}
	var words [][2]string
	for _, row := range rows[1:] {
		words = append(words, [2]string{row[0], row[1]})
	}
	return words
})

// kindNamed is the kind of problem that a text names.
func kindNamed(text string) (practice.Kind, bool) {
	within := " " + strings.Join(strings.Fields(strings.ToLower(text)), " ") + " "
	for _, w := range kindWords() {
		if strings.Contains(within, " "+w[0]+" ") {
			return practice.Kind(w[1]), true
		}
	}
	return "", false
}

// Mark takes the statements of a message for the answer to the problem that waits;
// ok is false if they are none. It returns the statement that was one.
func (r *Room) Mark(text string) (s parser.Statement, reply Reply, ok bool) {
	posed := r.posed()
	if posed == nil {
		return parser.Statement{}, Reply{}, false
	}
	s, length, ok := bareFigure(text, *posed)
	switch {
	case !ok:
		return parser.Statement{}, Reply{}, false
	case r.Group != nil:
		return s, r.markInGroup(length), true
	}
	r.State.Leaving = false
	r.State.Beside = false
	out, ok := r.State.Reply(length, r.Talk.Figuring().Handbook, r.When)
	return s, r.marked(out), ok
}

// bareFigure is the one figure that a message consists of, perhaps with the
// name of what was wanted: "13-1/2", "cut 13-1/2".
func bareFigure(text string, posed practice.Problem) (parser.Statement, practice.Said, bool) {
	a, ok := parser.Answer(text, posed.Wanted())
	if !ok || len(a.Measures) != 1 || !bareOf(a) {
		return parser.Statement{}, practice.Said{}, false
	}
	return parser.Statement{Text: text, Ask: &a}, replied(a.Measures[0], posed), true
}

// replied is a reply in the unit of the problem, unless it says its own.
func replied(m parser.Measure, posed practice.Problem) practice.Said {
	said := practice.Said{Length: m.Length, Decimal: strings.ContainsAny(m.Text, ".,")}
	if posed.Metric && m.Unit() == parser.OpenUnit {
		said.Length = m.In(parser.Millimeters).Length
	}
	return said
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
		return Reply{Text: ExamQuestion(e, o), Answered: true, Buttons: r.outs()}
	}
	text := Marked(out, o)
	if out.Again {
		return Reply{Text: text, Answered: true, Buttons: r.helps()}
	}
	r.State.fresh()
	next, err := r.State.Next(r.chance())
	if err != nil {
		return Reply{Text: text, Answered: true}
	}
	return Reply{Text: text + "\n\n" + Problem(next, o), Answered: true, Buttons: r.helps()}
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
