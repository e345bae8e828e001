package wording

import (
	"math"

	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"
)

// finding words one thing that may be out, and by how much either way.
func (o Options) finding(f figure.Finding) string {
	by := geometry.Length(math.Abs(f.By.Inches()))
	switch {
	case f.What == parser.AngleOf && f.Turn < 0:
		return o.say("turns less", "angle", decimals(-f.Turn.Degrees(), 1)+"°")
	case f.What == parser.AngleOf:
		return o.say("turns more", "angle", decimals(f.Turn.Degrees(), 1)+"°")
	case f.What == parser.TakeoffOf:
		return o.say("finding each", "what", o.name(f.What), "length", o.bare(by, exactly))
	}
	return o.say("finding", "what", o.name(f.What), "length", o.bare(by, exactly))
}

// findings says what may explain what a dry fit showed: any one of them.
func (o Options) findings(a *figure.Answer) []string {
	var lines []string
	for _, f := range a.Findings {
		lines = append(lines, o.finding(f))
	}
	if len(lines) == 0 {
		return nil
	}
	return append([]string{o.say("findings")}, lines...)
}
