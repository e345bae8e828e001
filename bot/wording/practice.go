package wording

import (
	"math"
	"strconv"
	"strings"
	"time"

	"dogleg/bot/figure"
	"dogleg/bot/practice"
	"dogleg/catalog"
	"dogleg/parser"
)

// Problem poses a problem, in the words that dogleg itself would be asked in.
func Problem(p practice.Problem, o Options) string {
	s, _ := catalog.SystemByID(p.System)
	o = o.For(p.Ask())
	read := o.read(p.Ask(), s, p.Size)
	if p.Takeoffs[0] != 0 && p.Takeoffs[0] == p.Takeoffs[1] {
		takeoff := o.role(parser.TakeoffOf, o.stated(p.Takeoffs[0], ""))
		read = strings.Replace(read, takeoff, o.say("each end", "what", takeoff), 1)
	}
	return capital(read) + "\n" + o.say("problem "+string(p.Kind))
}

// ExamQuestion poses the question of an exam that is due.
func ExamQuestion(e *practice.Exam, o Options) string {
	at := len(e.Questions)
	heading := o.say("question", "number", strconv.Itoa(at+1), "of", strconv.Itoa(len(e.Problems)))
	return heading + "\n" + Problem(e.Problems[at], o)
}

// ExamBegins says what an exam is.
func ExamBegins(e *practice.Exam, o Options) string {
	return o.say("exam begins", "number", strconv.Itoa(len(e.Problems)), "minutes", minutes(practice.ExamTime))
}

// Marked says how a reply was marked. A first miss hears what it looks like; a
// second one, or a skip, sees how the answer is figured.
func Marked(out practice.Outcome, answer *figure.Answer, o Options) string {
	o = o.For(out.Problem.Ask())
	key := o.bare(out.Mark.Key, exactly)
	switch {
	case out.Mark.Right:
		return o.say("right", "key", key)
	case out.Again:
		return o.say("not yet") + " " + o.slip(out.Mark.Slip) + "\n" + o.say("once more")
	}
	lines := []string{o.say("it is", "key", key)}
	return strings.Join(append(lines, o.solution(answer)...), "\n")
}

// slip says what a wrong figure looks like.
func (o Options) slip(s practice.Slip) string { return o.say("slip " + string(s)) }

// ExamResults says how an exam went: the score, a chart by kind, and what each
// wrong answer looks like.
func ExamResults(e *practice.Exam, o Options) string {
	lines := []string{ExamHeading(e, o)}
	for _, t := range e.Tallies() {
		lines = append(lines, o.bar(t, t.Asked))
	}
	for i, q := range e.Questions {
		if !q.Mark.Right {
			lines = append(lines, o.missed(i+1, q))
		}
	}
	return strings.Join(append(lines, o.say("goes over")), "\n")
}

// ExamHeading says in one line how an exam went.
func ExamHeading(e *practice.Exam, o Options) string {
	of := len(e.Problems)
	if e.Left() {
		of = len(e.Questions)
	}
	heading := o.say("exam ends", "right", strconv.Itoa(e.Right()), "number", strconv.Itoa(of), "time", o.took(e.Took()))
	switch {
	case e.Late():
		return o.say("time is up") + " " + heading
	case e.Left():
		return o.say("exam left", "number", strconv.Itoa(len(e.Questions)+1), "of", strconv.Itoa(len(e.Problems))) + " " + heading
	}
	return heading
}

// missed says what was wrong with one question of an exam.
func (o Options) missed(number int, q practice.Question) string {
	key := o.bare(q.Mark.Key, exactly)
	n := strconv.Itoa(number)
	if !q.Replied {
		return o.say("skipped question", "number", n, "kind", o.say("kind "+string(q.Problem.Kind)), "key", key)
	}
	text := o.say("missed question",
		"number", n, "kind", o.say("kind "+string(q.Problem.Kind)), "reply", o.bare(q.Reply, exactly), "key", key)
	if q.Mark.Slip == practice.NoSlip {
		return text
	}
	return text + " " + o.slip(q.Mark.Slip)
}

// longestBar is the length of a bar of the score.
const longestBar = 10

// Score is the score by kind as a chart.
func Score(t practice.Training, o Options) string {
	tallies := t.Tallies()
	if len(tallies) == 0 {
		return o.say("no score")
	}
	lines := []string{ScoreHeading(o)}
	for _, t := range tallies {
		lines = append(lines, o.bar(t, longestBar))
	}
	return strings.Join(lines, "\n")
}

// ScoreHeading stands over the score.
func ScoreHeading(o Options) string { return o.say("score") }

// bar is one line of a chart: "■■□ 2 of 3, cut". The name comes last, so that
// the bars line up in any lettering.
func (o Options) bar(t practice.Tally, long int) string {
	full := int(math.Round(float64(t.Right) / float64(t.Asked) * float64(long)))
	return strings.Repeat("■", full) + strings.Repeat("□", long-full) + " " + Tally(t, o)
}

// Tally says how many of a kind were right: "2 of 3, cut".
func Tally(t practice.Tally, o Options) string {
	return o.say("so many", "right", strconv.Itoa(t.Right), "asked", strconv.Itoa(t.Asked), "kind", o.say("kind "+string(t.Kind)))
}

func minutes(d time.Duration) string { return strconv.Itoa(int(math.Round(d.Minutes()))) }

func (o Options) took(d time.Duration) string {
	if d < time.Minute {
		return o.say("under a minute")
	}
	return o.say("so many minutes", "minutes", minutes(d))
}

// NoSuchBend says which bends can be practiced.
func NoSuchBend(o Options) string {
	var names []string
	for _, a := range practice.Angles() {
		names = append(names, bendName(a))
	}
	return o.say("no such bend", "bends", o.and(names))
}
