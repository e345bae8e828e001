package wording

import (
	"dogleg/bot/figure"
	"dogleg/catalog"
)

// kept says that a takeoff is kept as the user's own, or as the crew's.
func (o Options) kept(s figure.Stored) string {
	pipe := o.pipe(catalog.Pipe{}, s.System, s.Takeoff.Size)
	key := "kept"
	if s.Crew {
		key = "kept crew"
	}
	length := o.withUnit(s.Takeoff.Length, exactly)
	if o.Metric {
		length = o.ofFitting(s.Takeoff.Length)
	}
	text, _ := o.said(key, "fitting", o.fitting(s.Takeoff.Fitting), "pipe", pipe, "length", length)
	if s.Line != "" {
		text += " (" + s.Line + ")"
	}
	return text
}

func (o Options) keptToo(own []figure.Stored) []string {
	var lines []string
	for i, s := range own {
		if i > 0 {
			lines = append(lines, o.kept(s))
		}
	}
	return lines
}
