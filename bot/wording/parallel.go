package wording

import (
	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"
)

// noStagger is less than a tape shows of a stagger.
const noStagger = geometry.Inch / 32

// lines says where each of parallel lines begins its bend, which of them the
// first is, and how the bank was taken to lie.
func (o Options) lines(a *figure.Answer) []string {
	if a.Rack != nil {
		return append(o.rack(a), o.rackTakeoffs(a)...)
	}
	stagger, _ := a.Length(parser.Stagger)
	var lines []string
	if len(a.Lines) > 0 {
		lines = append(lines, o.say("every line"))
	}
	if stagger < noStagger {
		return append(lines, o.lie(a)...)
	}
	lines = append(append(lines, o.lie(a)...), o.lineOne(a, "line one"))
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

// lie says how the bank was taken to lie where no word said it, and what the
// stagger would be if it lay the other way.
func (o Options) lie(a *figure.Answer) []string {
	b := a.Bank
	if !b.Differ {
		return nil
	}
	other := o.say("no stagger")
	if b.Other >= noStagger {
		other = o.role(parser.Stagger, o.bare(b.Other, exactly))
	}
	switch {
	case b.Along:
		return []string{o.say("bank along the step", "other", other)}
	case b.Taken:
		return []string{o.say("bank side by side", "other", other)}
	}
	return nil
}

// lieBriefly is [Options.lie] on one line of a phone.
func (o Options) lieBriefly(a *figure.Answer) string {
	b := a.Bank
	if !b.Differ {
		return ""
	}
	other := o.say("none")
	if b.Other >= noStagger {
		other = o.bare(b.Other, exactly)
	}
	switch {
	case b.Along:
		return o.say("bank along the step briefly", "other", other)
	case b.Taken:
		return o.say("bank side by side briefly", "other", other)
	}
	return ""
}

// lineOne says which line is the first.
func (o Options) lineOne(a *figure.Answer, away string) string {
	if a.Ask.LineOne == parser.Toward {
		return o.say("line one toward")
	}
	text, _ := o.said(away)
	return text
}

func (o Options) startOf(l figure.Line) string {
	number := decimals(float64(l.Number), 0)
	if l.Start < 0 {
		return o.say("starts later", "number", number, "length", o.bare(-l.Start, exactly))
	}
	return o.say("starts sooner", "number", number, "length", o.bare(l.Start, exactly))
}
