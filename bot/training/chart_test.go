package training

import (
	"bytes"
	"testing"

	"dogleg/bot/practice"
	"dogleg/bot/sketch"
	"dogleg/bot/wording"
)

// A chart has a bar for each kind asked, and as much of it is black as was
// right.
func TestCharts(t *testing.T) {
	var tr practice.Training
	tr.Count(practice.Cut, true)
	tr.Count(practice.Cut, false)
	tr.Count(practice.Fall, false)
	c := scoreChart(tr, wording.Options{})
	want := []sketch.ChartBar{{Label: "1 of 2, cut", Right: 1, Asked: 2}, {Label: "0 of 1, fall", Right: 0, Asked: 1}}
	if len(c.Bars) != 2 || c.Bars[0] != want[0] || c.Bars[1] != want[1] {
		t.Errorf("bars %v, want %v", c.Bars, want)
	}
	var b bytes.Buffer
	if err := c.PNG(&b); err != nil || b.Len() > 100_000 {
		t.Errorf("%d bytes, %v", b.Len(), err)
	}
}
