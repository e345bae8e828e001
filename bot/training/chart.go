package training

import (
	"strings"

	"dogleg/bot/practice"
	"dogleg/bot/sketch"
	"dogleg/bot/wording"
)

// examChart is the chart of an exam.
func examChart(e *practice.Exam, o wording.Options) *sketch.Chart {
	return chartOf(ExamHeading(e, o), e.Tallies(), o)
}

// scoreChart is the chart of all that was practiced.
func scoreChart(t practice.Training, o wording.Options) *sketch.Chart {
	return chartOf(strings.TrimSuffix(sentences.Say("score", o), ":"), t.Tallies(), o)
}

func chartOf(title string, tallies []practice.Tally, o wording.Options) *sketch.Chart {
	c := &sketch.Chart{Title: strings.TrimSuffix(title, ".")}
	for _, t := range tallies {
		c.Bars = append(c.Bars, sketch.ChartBar{Label: tallyLine(t, o), Right: t.Right, Asked: t.Asked})
	}
	return c
}
