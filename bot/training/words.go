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
	"dogleg/geometry"
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

// Marked says how a reply was marked. A miss hears what it looks like; the last one,
// or a skip, sees how the answer is figured.
func Marked(out practice.Outcome, o wording.Options) string {
	o = o.For(out.Problem.Ask())
	key := wording.Tape(out.Mark.Key, o)
	switch {
	case out.Mark.Right && out.Mark.Near && o.Metric:
		return sentences.Say("right nearly in millimeters", o, "key", key)
	case out.Mark.Right && out.Mark.Near:
		return sentences.Say("right nearly", o, "key", key)
	case out.Mark.Right:
		return sentences.Say("right", o, "key", key)
	case out.Again:
		return sentences.Say("not yet", o) + " " + looksLike(out.Problem, out.Mark, o) + "\n" + sentences.Say("once more", o)
	}
	lines := []string{sentences.Say("it is", o, "key", key)}
	if out.Mark.Slip != practice.NoSlip {
		lines = append([]string{looksLike(out.Problem, out.Mark, o)}, lines...)
	}
	return strings.Join(append(lines, worked(out.Problem, o)...), "\n")
}

// looksLike says what a wrong figure looks like; where it looks as much like
// something else, that too.
func looksLike(p practice.Problem, m practice.Mark, o wording.Options) string {
	text := slip(p, m.Slip, m.Bend, o)
	if m.Or == practice.NoSlip {
		return text
	}
	return text + " " + sentences.Say("or else", o, "what", slip(p, m.Or, m.Bend, o))
}

// slip says what a slip is, with the figures of the problem: bend is whose
// multiplier it has, of [practice.OtherBend].
func slip(p practice.Problem, s practice.Slip, bend geometry.Angle, o wording.Options) string {
	o = o.For(p.Ask())
	key := "slip " + string(s)
	switch {
	case s == practice.NoMultiplier && p.Kind == practice.Trimming:
		key += " of a trim"
	case s == practice.NoMultiplier && p.Kind == practice.Stagger:
		key += " of a stagger"
	case s == practice.NoMultiplier && (p.Kind == practice.EndGap || p.Kind == practice.Marking):
		key += " of the run"
	case s == practice.TapeStart && o.Metric:
		key += " in millimeters"
	}
	whole := wording.Tape(p.Figure(), o)
	return sentences.Say(key, o,
		"bends", wording.BendName(p.Angle()), "multiplier", rounded(p.Multiplier(), 3), "two", rounded(p.Multiplier(), 2),
		"other", wording.BendName(bend), "key", whole, "double", grade(2*p.Grade, o), "half", grade(p.Grade/2, o))
}

// rounded is a multiplier as a table prints it.
func rounded(f float64, places int) string { return strconv.FormatFloat(f, 'f', places, 64) }

// grade is how a grade is said: 1/8 per foot, 1 in 40.
func grade(g geometry.Slope, o wording.Options) string {
	if g == 0 {
		return ""
	}
	if o.Metric {
		return sentences.Say("one in", o, "number", strconv.Itoa(int(math.Round(12/g.InchesPerFoot()))))
	}
	return wording.Tape(geometry.Length(g.InchesPerFoot()), o)
}

// ExamResults says how an exam went: the score, a chart by kind, and what each
// wrong answer looks like.
func ExamResults(e *practice.Exam, o wording.Options) string {
	lines := []string{ExamHeading(e, o)}
	for _, t := range e.Tallies() {
		lines = append(lines, bar(t, o))
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
	o = o.For(q.Problem.Ask())
	key := wording.Tape(q.Mark.Key, o)
	n := strconv.Itoa(number)
	if !q.Replied {
		return sentences.Say("skipped question", o, "number", n, "kind", kindName(q.Problem.Kind, o), "key", key)
	}
	text := sentences.Say("missed question", o,
		"number", n, "kind", kindName(q.Problem.Kind, o), "reply", wording.Tape(q.Reply, o), "key", key)
	if q.Mark.Slip != practice.NoSlip {
		return text + " " + looksLike(q.Problem, q.Mark, o)
	}
	return strings.Join(append([]string{text}, worked(q.Problem, o)...), "\n")
}

// worked are the sums that lead to the answer of a problem. A fall is worked in feet,
// as the grade is said.
func worked(p practice.Problem, o wording.Options) []string {
	if p.Kind == practice.Fall && !p.Metric {
		return []string{sentences.Say("fall worked", o,
			"feet", rounded(p.Long.Inches()/12, 0), "grade", grade(p.Grade, o), "key", wording.Tape(p.Figure(), o))}
	}
	answer, err := figure.Solve(p.Ask(), figure.Settings{Metric: p.Metric})
	if err != nil {
		return nil // it was sound when it was posed
	}
	return wording.Solution(answer, o.For(p.Ask()))
}

func kindName(k practice.Kind, o wording.Options) string { return sentences.Say("kind "+string(k), o) }

// longestBar is the length of the longest bar of a score: of fewer answers it has a
// box for each.
const longestBar = 10

// enough is how many answers say something of how a kind is mastered: of fewer, one
// lucky figure makes too much.
const enough = 5

// Score is the score by kind as a chart, and what there are too few answers of to
// say.
func Score(t practice.Training, o wording.Options) string {
	tallies := t.Tallies()
	if len(tallies) == 0 {
		return sentences.Say("no score", o)
	}
	var lines, few []string
	for _, t := range tallies {
		if t.Asked < enough {
			few = append(few, tallyLine(t, o))
			continue
		}
		lines = append(lines, bar(t, o))
	}
	if len(lines) > 0 {
		lines = append([]string{sentences.Say("score", o)}, lines...)
	}
	if len(few) > 0 {
		lines = append(lines, sentences.Say("too few", o, "kinds", strings.Join(few, "\n")))
	}
	return strings.Join(lines, "\n")
}

// bar is one line of a chart: "■■□ 2 of 3, cut". The name comes last, so that
// the bars line up in any lettering.
func bar(t practice.Tally, o wording.Options) string {
	long := min(t.Asked, longestBar)
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
