package training

import (
	"strconv"
	"strings"

	"dogleg/bot/practice"
	"dogleg/parser"
)

// Exam begins an exam.
func (r *Room) Exam(s parser.Statement) Reply {
	r.Talk.Speak(s.Command.Language)
	if r.Group != nil {
		return r.tell(false, "exam alone")
	}
	if reply, running := r.keepsExam(s, "exam drops exam"); running {
		return reply
	}
	r.State.Metric = r.options().Metric
	e, err := r.State.Sit(r.chance(), r.When)
	if err != nil {
		return Reply{Err: err}
	}
	o := r.options()
	return Reply{Text: ExamBegins(e, o) + "\n\n" + ExamQuestion(e, o), Answered: true, Posed: true, Buttons: r.outs()}
}

// keepsExam asks before an exam that goes on is dropped for something else; said
// once more, that goes ahead. An exam whose time is up has its results told
// instead.
func (r *Room) keepsExam(s parser.Statement, ask string) (Reply, bool) {
	if e := r.State.Expired(r.When); e != nil {
		return r.results(e), true
	}
	e := r.State.Exam
	if e == nil || r.State.Leaving {
		r.State.Leaving = false
		return Reply{}, false
	}
	r.State.Leaving = true
	reply := r.tell(false, ask, "number", strconv.Itoa(len(e.Questions)+1), "of", strconv.Itoa(len(e.Problems)))
	says := strings.TrimSpace(s.Text)
	reply.Buttons = [][]Button{{{Label: says, Says: says}}}
	return reply, true
}

// results are those of an exam, with their chart.
func (r *Room) results(e *practice.Exam) Reply {
	return Reply{Text: ExamResults(e, r.options()), Answered: true, Aside: r.examChart(e)}
}
