package bot

import (
	"errors"

	"dogleg/bot/figure"
	"dogleg/bot/practice"
	"dogleg/bot/sketch"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
)

// What stands beside a text are pictures of what it says already: for a screen that
// can show them, and not worth a file otherwise.

func (t *turn) triangleOf(factor float64) []File {
	angle, title, ok := wording.Whence(factor, t.options(t.talk.Language))
	if !ok {
		return nil
	}
	return t.triangle(angle, title)
}

func (t *turn) triangleOfBend(angle geometry.Angle) []File {
	return t.triangle(angle, wording.BendName(angle))
}

func (t *turn) triangle(angle geometry.Angle, title string) []File {
	o := t.options(t.talk.Language)
	if _, err := sketch.Triangle(angle, title, o); err != nil {
		return nil
	}
	return t.toBePainted(recipe{Of: aTriangle, Options: o, Angle: angle, Title: title}, "triangle.png", true)
}

func (t *turn) pictureOf(question string) []File {
	word, ok := wording.Word(question)
	if !ok {
		return nil
	}
	o := t.options(t.talk.Language)
	if _, err := sketch.Word(word, o); err != nil {
		return nil
	}
	return t.toBePainted(recipe{Of: aWord, Options: o, Title: word}, "word.png", true)
}

// results are those of an exam, with their chart.
func (t *turn) results(p part, e *practice.Exam) part {
	p.aside = t.toBePainted(recipe{Of: anExam, Options: t.options(t.talk.Language), Exam: e}, "exam.png", true)
	return p
}

func (t *turn) scoreChart() []File {
	score := practice.Training{Cards: t.talk.Practice.Cards, Number: t.talk.Practice.Number, Last: t.talk.Practice.Last, Focus: t.talk.Practice.Focus}
	o := t.options(t.talk.Language)
	if _, err := sketch.ScoreChart(score, o); err != nil {
		return nil
	}
	return t.toBePainted(recipe{Of: aScore, Options: o, Score: &score}, "score.png", true)
}

// whatToMeasure is the picture of the very fitting whose takeoff nobody knows, with
// what to measure on it.
func (t *turn) whatToMeasure(err error) []File {
	i, ok := errors.AsType[*figure.Impossible](err)
	if !ok || i.Cause != figure.NoTakeoff || i.Fitting == (catalog.Fitting{}) {
		return nil
	}
	o := t.options(t.talk.Language)
	if _, err := sketch.Measure(i.System, i.Fitting, i.Size, o); err != nil {
		return nil
	}
	r := recipe{Of: toMeasure, Options: o, System: i.System.ID, Fitting: i.Fitting.Key(), Size: i.Size}
	return t.toBePainted(r, "measure.png", true)
}
