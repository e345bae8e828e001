package bot

import (
	"bytes"
	"errors"
	"io"
	"sync"

	"dogleg/bot/practice"
	"dogleg/bot/sketch"
	"dogleg/bot/wording"
	"dogleg/geometry"
)

// Aside is a picture of what a text says already: for a screen that can show it,
// drawn when it is called, and not worth a file otherwise. It is false where there
// is nothing to be drawn.
type Aside func() (File, bool)

// picture is one that can be drawn.
type picture struct {
	name string  // of its file
	of   subject // the zero one is never drawn twice
	draw func() (painting, error)
}

type painting interface{ PNG(io.Writer) error }

// subject is what a picture shows, in whose words and on whose tape.
type subject struct {
	what    string
	options wording.Options
}

func (t *turn) aside(p picture) []Aside {
	return []Aside{func() (File, bool) { return t.conversation.drawn(p) }}
}

// drawn is a picture as a file. A fault in drawing it costs the picture only.
func (c *Conversation) drawn(p picture) (f File, ok bool) {
	defer func() {
		if fault := recover(); fault != nil {
			c.report(fault)
			f, ok = File{}, false
		}
	}()
	content, err := wall.hang(p)
	if err != nil {
		if !errors.Is(err, sketch.ErrNothingToDraw) {
			c.log().Error("a picture can't be drawn", "picture", p.name, "error", err)
		}
		return File{}, false
	}
	return File{Name: p.name + ".png", Content: content, Picture: true}, true
}

// gallery keeps what was drawn: of words and bends there are some dozens, asked for
// again and again, and to draw one takes as long as a hundred answers.
type gallery struct {
	mu       sync.Mutex
	pictures map[subject][]byte
}

// wall is the gallery of this process: what is on its pictures is nobody's.
var wall gallery

// mostHung is how many pictures are kept, a few megabytes of them.
const mostHung = 200

// hang is a picture that hangs there already, or is drawn now.
func (g *gallery) hang(p picture) ([]byte, error) {
	g.mu.Lock()
	content := g.pictures[p.of]
	g.mu.Unlock()
	if content != nil {
		return content, nil
	}
	var b bytes.Buffer
	drawing, err := p.draw()
	if err == nil {
		err = drawing.PNG(&b)
	}
	if err != nil {
		return nil, err
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	if p.of != (subject{}) && len(g.pictures) < mostHung {
		if g.pictures == nil {
			g.pictures = map[subject][]byte{}
		}
		g.pictures[p.of] = b.Bytes()
	}
	return b.Bytes(), nil
}

func (t *turn) triangleOf(factor float64) []Aside {
	angle, title, ok := wording.Whence(factor, t.options(t.talk.Language))
	if !ok {
		return nil
	}
	return t.triangle(angle, title)
}

func (t *turn) triangleOfBend(angle geometry.Angle) []Aside {
	return t.triangle(angle, wording.BendName(angle))
}

func (t *turn) triangle(angle geometry.Angle, title string) []Aside {
	o := t.options(t.talk.Language)
	return t.aside(picture{"triangle", subject{"triangle " + title, o}, func() (painting, error) {
		return sketch.Triangle(angle, title, o)
	}})
}

func (t *turn) pictureOf(question string) []Aside {
	word, ok := wording.Word(question)
	if !ok {
		return nil
	}
	o := t.options(t.talk.Language)
	return t.aside(picture{"word", subject{"word " + word, o}, func() (painting, error) {
		return sketch.Word(word, o)
	}})
}

// results are those of an exam, with their chart.
func (t *turn) results(p part, e *practice.Exam) part {
	p.aside = t.aside(picture{name: "exam", draw: func() (painting, error) {
		return sketch.ExamChart(e, t.options(t.talk.Language)), nil
	}})
	return p
}

func (t *turn) scoreChart() []Aside {
	return t.aside(picture{name: "score", draw: func() (painting, error) {
		return sketch.ScoreChart(t.talk.Practice.Training, t.options(t.talk.Language))
	}})
}
