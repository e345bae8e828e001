package wording

import (
	"strings"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/parser"
)

// bestBend is the first line of a fit: the cut with the bend that suits best.
// It is empty where another figure was asked for, or none fits.
func (o Options) bestBend(a *figure.Answer) string {
	if len(a.Bends) == 0 || !a.Bends[0].Fits || a.Bends[0].Cut <= 0 || a.Main != parser.Cut {
		return ""
	}
	best := a.Bends[0]
	m := manner{about: chancy(a, best)}
	if m.about {
		m.left = best.Band
	}
	cut := o.withUnit(best.Cut, m)
	return o.say("cut with", "length", cut, "fittings", o.fittings(choiceFitting(best)))
}

// bends lists every bend with what it makes, the best first.
func (o Options) bends(a *figure.Answer) []string {
	var lines []string
	for _, c := range a.Bends {
		lines = append(lines, o.bend(a, c))
	}
	return lines
}

func (o Options) bend(a *figure.Answer, c figure.Choice) string {
	if c.Why == figure.WithinTape {
		return o.say("bend near", "fittings", o.fittings(catalog.BendOf(c.Angle)), "run", o.bare(c.Run, exactly), "travel", o.bare(c.Travel, exactly))
	}
	if !c.Fits {
		return o.say("bend no", "bend", bendName(c.Angle), "why", o.whyNot(c))
	}
	m := manner{about: chancy(a, c)}
	parts := []string{o.role(parser.Run, o.bare(c.Run, exactly))}
	if c.Cut > 0 {
		long := m
		if m.about {
			long.left = c.Band
		}
		parts = append(parts, o.role(parser.Cut, o.bare(c.Cut, long)))
	}
	if c.EndGap != 0 && c.Why != figure.MeasureFirst {
		short := m
		if m.about {
			short.left = -c.Band
		}
		parts = append(parts, o.role(parser.EndGap, o.bare(c.EndGap, short)))
	}
	if c.Spare > 0 && c.Why != figure.MeasureFirst {
		parts = append(parts, o.say("to spare", "length", o.bare(c.Spare, m)))
	}
	if c.Why != "" {
		parts = append(parts, o.term(c.Why))
	}
	return bendName(c.Angle) + ": " + strings.Join(parts, ", ")
}

// whyNot says why a bend is out: what is in the way, or how much room is
// lacking, rounded up.
func (o Options) whyNot(c figure.Choice) string {
	if c.Spare < 0 {
		return o.say("short by", "length", o.bare(-c.Spare, manner{up: true}))
	}
	if c.Why != "" {
		return o.term(c.Why)
	}
	return o.say("does not fit")
}

// chancy tells whether what a bend makes is only about so.
func chancy(a *figure.Answer, c figure.Choice) bool {
	return c.Unsure || a.Provisional || unsure(&figure.Answer{Ends: c.Ends})
}

func choiceFitting(c figure.Choice) catalog.Fitting {
	if c.Ends[0].Fitting.Shape != "" {
		return c.Ends[0].Fitting
	}
	return catalog.BendOf(c.Angle)
}
