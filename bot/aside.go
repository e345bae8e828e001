package bot

import (
	"bytes"
	"errors"
	"io"

	"dogleg/bot/practice"
	"dogleg/bot/sketch"
	"dogleg/bot/wording"
	"dogleg/geometry"
)

// aside is the picture of what a text says already: for a screen that can show
// it, and not worth a file otherwise.
func (t *turn) aside(name string, picture interface{ PNG(io.Writer) error }, err error) []File {
	var content bytes.Buffer
	if err == nil {
		err = picture.PNG(&content)
	}
	if err != nil {
		if !errors.Is(err, sketch.ErrNothingToDraw) {
			t.conversation.log().Error("a picture can't be drawn", "picture", name, "error", err)
		}
		return nil
	}
	return []File{{Name: name + ".png", Content: content.Bytes(), Picture: true}}
}

func (t *turn) triangleOf(factor float64) []File {
	o := t.options(t.talk.Language)
	angle, title, ok := wording.Whence(factor, o)
	if !ok {
		return nil
	}
	drawing, err := sketch.Triangle(angle, title, o)
	return t.aside("triangle", drawing, err)
}

func (t *turn) triangleOfBend(angle geometry.Angle) []File {
	o := t.options(t.talk.Language)
	drawing, err := sketch.Triangle(angle, wording.BendName(angle), o)
	return t.aside("triangle", drawing, err)
}

func (t *turn) pictureOf(question string) []File {
	word, ok := wording.Word(question)
	if !ok {
		return nil
	}
	drawing, err := sketch.Word(word, t.options(t.talk.Language))
	return t.aside("word", drawing, err)
}

// results are those of an exam, with their chart.
func (t *turn) results(p part, e *practice.Exam) part {
	p.aside = t.aside("exam", sketch.ExamChart(e, t.options(t.talk.Language)), nil)
	return p
}

func (t *turn) scoreChart() []File {
	chart, err := sketch.ScoreChart(t.talk.Practice.Training, t.options(t.talk.Language))
	return t.aside("score", chart, err)
}
