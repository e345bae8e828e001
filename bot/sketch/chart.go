package sketch

import (
	"io"
	"strings"

	"dogleg/bot/practice"
	"dogleg/bot/wording"
)

// Chart is how an apprentice did, by kind of problem: a bar for each, black as
// far as the problems were right. Like a [Drawing] it is data first.
type Chart struct {
	Title string
	Bars  []ChartBar
}

// ChartBar is one bar of a chart, Right of Asked of it black.
type ChartBar struct {
	Label        string
	Right, Asked int
}

// ExamChart is the chart of an exam.
func ExamChart(e *practice.Exam, o wording.Options) *Chart {
	return chartOf(wording.ExamHeading(e, o), e.Tallies(), o)
}

// ScoreChart is the chart of all that was practiced; the error is
// [ErrNothingToDraw] where that is nothing.
func ScoreChart(t practice.Training, o wording.Options) (*Chart, error) {
	tallies := t.Tallies()
	if len(tallies) == 0 {
		return nil, ErrNothingToDraw
	}
	return chartOf(strings.TrimSuffix(wording.ScoreHeading(o), ":"), tallies, o), nil
}

func chartOf(title string, tallies []practice.Tally, o wording.Options) *Chart {
	c := &Chart{Title: strings.TrimSuffix(title, ".")}
	for _, t := range tallies {
		c.Bars = append(c.Bars, ChartBar{wording.Tally(t, o), t.Right, t.Asked})
	}
	return c
}

// PNG writes the chart as a PNG image, 1080 points across.
func (c *Chart) PNG(w io.Writer) error {
	r := newRuler()
	p := page{wide: pageWide, high: margin}
	p.paragraph(r, c.Title, largeSize, black)
	for _, b := range c.Bars {
		p.high += between
		p.paragraph(r, b.Label, figureSize, black)
		p.chartBar(b)
	}
	p.high += margin
	return p.png(w)
}

// chartBar adds a bar below what is there: a frame, and black inside it as far
// as the problems were right.
func (p *page) chartBar(b ChartBar) {
	p.high += barEdge * 2
	frame := box{margin, p.high, p.wide - margin, p.high + barHigh}
	inside := frame.grown(-barEdge)
	s := strip{}
	s.rectangle(frame, black)
	s.rectangle(inside, white)
	inside.right = inside.left + inside.wide()*float64(b.Right)/float64(b.Asked)
	if b.Right > 0 {
		s.rectangle(inside, black)
	}
	p.items = append(p.items, s.items...)
	p.high += barHigh
}
