package wording

import (
	"math"
	"strings"

	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"
)

// throws says how far a sloppy measurement throws it, where that was asked.
func (o Options) throws(a *figure.Answer) []string {
	if !a.Ask.Sensitivity {
		return nil
	}
	return o.everyThrow(a)
}

func (o Options) everyThrow(a *figure.Answer) []string {
	var lines []string
	for _, t := range a.Throws {
		var moves []string
		for _, m := range []figure.Length{
			{Role: parser.Cut, Length: t.Cut}, {Role: parser.Set, Length: t.Set}, {Role: parser.Run, Length: t.Run},
		} {
			if m.Length != 0 && string(m.Role) != t.What {
				moves = append(moves, o.say("moves", "what", o.name(m.Role), "length", o.bare(geometry.Length(math.Abs(m.Length.Inches())), exactly)))
			}
		}
		lines = append(lines, capital(o.say("throw", "what", o.term(t.What), "off", o.term(t.Off), "moves", strings.Join(moves, ", "))))
	}
	return lines
}
