package bot

import (
	"errors"
	"fmt"
	"strconv"

	"dogleg/bot/figure"
	"dogleg/bot/sketch"
	"dogleg/bot/training"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// draw draws the last answer, or that of a job by its number.
func (t *turn) draw(s parser.Statement) part {
	if s.Command.Number == 0 {
		if p, ok := t.inProblem(s, (*training.Room).Draw); ok {
			return p
		}
	}
	ask, number := t.talk.Shown, t.talk.Job
	if n := s.Command.Number; n != 0 {
		j, ok := t.job(n)
		if !ok {
			return t.tell(s, false, wording.NoSuchJob, "number", strconv.Itoa(n))
		}
		if ask, number = askedBy(j), j.Number; ask == nil {
			return t.tell(s, false, wording.NoDrawing)
		}
	}
	if ask == nil {
		return t.tell(s, false, wording.NothingToDraw)
	}
	answer, err := figure.Solve(*ask, t.figuring())
	if err != nil {
		return t.refuse(s, err)
	}
	p := said(s, true, wording.First(answer, t.options(ask.Language)))
	if p.files = t.picture(answer, number); len(p.files) == 0 {
		return t.tell(s, false, wording.NoDrawing)
	}
	p.about = number
	return p
}

// picture is of an answer; there is none of some kinds. What is wrapped around a
// pipe comes as a sheet to print too.
func (t *turn) picture(a *figure.Answer, job uint64) []File {
	o, ask, settings := t.options(a.Ask.Language), a.Ask, t.figuring()
	for i := range settings.Takeoffs {
		settings.Takeoffs[i].By = "" // no name is on a picture
	}
	if _, err := sketch.Draw(a, o); err != nil {
		if !errors.Is(err, sketch.ErrNothingToDraw) {
			t.conversation.log().Error("an answer can't be drawn", "kind", string(a.Kind), "error", err)
		}
		return nil
	}
	r := recipe{Of: anAnswer, Options: o, Ask: &ask, Settings: &settings, When: t.message.When}
	files := t.toBePainted(r, fmt.Sprintf("job-%d.png", job), true)
	if _, err := sketch.TemplateOf(a, o); err == nil {
		r.Of = aTemplate
		files = append(files, t.toBePainted(r, fmt.Sprintf("wrap-%d.pdf", job), false)...)
	}
	return files
}
