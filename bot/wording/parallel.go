package wording

import (
	"dogleg/bot/figure"
)

// lines says where each of parallel lines begins its bend.
func (o Options) lines(a *figure.Answer) []string {
	lines := []string{o.say("every line")}
	if a.Unstaggered > 0 {
		lines = append(lines, o.say("unstaggered", "length", o.bare(a.Unstaggered, exactly)))
	}
	for _, l := range a.Lines {
		if l.Number > 1 && l.Start != 0 {
			lines = append(lines, o.startOf(l))
		}
	}
	return lines
}

func (o Options) startOf(l figure.Line) string {
	number := decimals(float64(l.Number), 0)
	if l.Start < 0 {
		return o.say("starts later", "number", number, "length", o.bare(-l.Start, exactly))
	}
	return o.say("starts sooner", "number", number, "length", o.bare(l.Start, exactly))
}
