package training

import (
	"math"
	"strconv"
	"strings"
	"time"

	"dogleg/bot/figure"
	"dogleg/bot/practice"
	"dogleg/bot/wording"
	"dogleg/catalog"
)

// Problem poses a problem, in the words that dogleg itself would be asked in.
func Problem(p practice.Problem, o wording.Options) string {
	s, _ := catalog.SystemByID(p.System)
	o = o.For(p.Ask())
	read := wording.ReadBack(p.Ask(), s, p.Size, o)
	if p.Takeoffs[0] != 0 && p.Takeoffs[0] == p.Takeoffs[1] {
		takeoff := wording.TakeoffRead(p.Takeoffs[0], o)
		read = strings.Replace(read, takeoff, sentences.Say("each end", o, "what", takeoff), 1)
	}
	return wording.Capital(read) + "\n" + sentences.Say("problem "+string(p.Kind), o)
}

// ExamQuestion poses the question of an exam that is due.
func ExamQuestion(e *practice.Exam, o wording.Options) string {
	at := len(e.Questions)
	heading := sentences.Say("question", o, "number", strconv.Itoa(at+1), "of", strconv.Itoa(len(e.Problems)))
	return heading + "\n" + Problem(e.Problems[at], o)
}

// ExamBegins says what an exam is.
func ExamBegins(e *practice.Exam, o wording.Options) string {
	return sentences.Say("exam begins", o, "number", strconv.Itoa(len(e.Problems)), "minutes", minutes(practice.ExamTime))
}

// Marked says how a reply was marked. A first miss hears what it looks like; a
// second one, or a skip, sees how the answer is figured.
func Marked(out practice.Outcome, answer *figure.Answer, o wording.Options) string {
	o = o.For(out.Problem.Ask())
	key := wording.Tape(out.Mark.Key, o)
	switch {
	case out.Mark.Right:
		return sentences.Say("right", o, "key", key)
	case out.Again:
		return sentences.Say("not yet", o) + " " + slip(out.Mark.Slip, o) + "\n" + sentences.Say("once more", o)
	}
	lines := []string{sentences.Say("it is", o, "key", key)}
	return strings.Join(append(lines, wording.Solution(answer, o)...), "\n")
}

// slip says what a wrong figure looks like.
func slip(s practice.Slip, o wording.Options) string { return sentences.Say("slip "+string(s), o) }

// ExamResults says how an exam went: the score, a chart by kind, and what each
// wrong answer looks like.
func ExamResults(e *practice.Exam, o wording.Options) string {
	lines := []string{ExamHeading(e, o)}
	for _, t := range e.Tallies() {
		lines = append(lines, bar(t, t.Asked, o))
	}
	for i, q := range e.Questions {
		if !q.Mark.Right {
			lines = append(lines, missed(i+1, q, o))
		}
	}
	return strings.Join(append(lines, sentences.Say("goes over", o)), "\n")
}

// ExamHeading says in one line how an exam went.
func ExamHeading(e *practice.Exam, o wording.Options) string {
	of := len(e.Problems)
	if e.Left() {
		of = len(e.Questions)
	}
	heading := sentences.Say("exam ends", o, "right", strconv.Itoa(e.Right()), "number", strconv.Itoa(of), "time", took(e.Took(), o))
	switch {
	case e.Late():
		return sentences.Say("time is up", o) + " " + heading
	case e.Left():
		return sentences.Say("exam left", o, "number", strconv.Itoa(len(e.Questions)+1), "of", strconv.Itoa(len(e.Problems))) + " " + heading
	}
	return heading
}

// missed says what was wrong with one question of an exam.
func missed(number int, q practice.Question, o wording.Options) string {
	key := wording.Tape(q.Mark.Key, o)
	n := strconv.Itoa(number)
	if !q.Replied {
		return sentences.Say("skipped question", o, "number", n, "kind", kindName(q.Problem.Kind, o), "key", key)
	}
	text := sentences.Say("missed question", o,
		"number", n, "kind", kindName(q.Problem.Kind, o), "reply", wording.Tape(q.Reply, o), "key", key)
	if q.Mark.Slip == practice.NoSlip {
		return text
	}
	return text + " " + slip(q.Mark.Slip, o)
}

func kindName(k practice.Kind, o wording.Options) string { return sentences.Say("kind "+string(k), o) }

// longestBar is the length of a bar of the score.
const longestBar = 10

// Score is the score by kind as a chart.
func Score(t practice.Training, o wording.Options) string {
	tallies := t.Tallies()
	if len(tallies) == 0 {
		return sentences.Say("no score", o)
	}
	lines := []string{sentences.Say("score", o)}
	for _, t := range tallies {
		lines = append(lines, bar(t, longestBar, o))
	}
	return strings.Join(lines, "\n")
}

// bar is one line of a chart: "■■□ 2 of 3, cut". The name comes last, so that
// the bars line up in any lettering.
func bar(t practice.Tally, long int, o wording.Options) string {
	full := int(math.Round(float64(t.Right) / float64(t.Asked) * float64(long)))
	return strings.Repeat("■", full) + strings.Repeat("□", long-full) + " " + tallyLine(t, o)
}

// tallyLine says how many of a kind were right: "2 of 3, cut".
func tallyLine(t practice.Tally, o wording.Options) string {
	return sentences.Say("so many", o, "right", strconv.Itoa(t.Right), "asked", strconv.Itoa(t.Asked), "kind", kindName(t.Kind, o))
}

func minutes(d time.Duration) string { return strconv.Itoa(int(math.Round(d.Minutes()))) }

func took(d time.Duration, o wording.Options) string {
	if d < time.Minute {
		return sentences.Say("under a minute", o)
	}
	return sentences.Say("so many minutes", o, "minutes", minutes(d))
}

// NoSuchBend says which bends can be practiced.
func NoSuchBend(o wording.Options) string {
	var names []string
	for _, a := range practice.Angles() {
		names = append(names, wording.BendName(a))
	}
	return sentences.Say("no such bend", o, "bends", wording.And(names, o))
}

// Hint names what is worked out of a problem, in its order, without a figure.
func Hint(a *figure.Answer, o wording.Options) string { return wording.Hint(a, o) }
