package wording

import (
	"strings"

	"dogleg/bot/figure"
	"dogleg/parser"
)

// handbook gives the exact figures beside those by rounded multipliers, where
// the user is marked by these and the tape shows a difference; the steps always
// give both.
func (o Options) handbook(a *figure.Answer) []string {
	if a.Handbook == nil || !a.Handbook.Differs || len(a.Exact) == 0 {
		return nil
	}
	return []string{o.byTheBook(a)}
}

// byTheBook gives the other figures beside those that were said: the
// handbook's, or the exact ones where the user is marked by the handbook.
func (o Options) byTheBook(a *figure.Answer) string {
	if len(a.Exact) > 0 {
		return o.inFull(a)
	}
	h := a.Handbook
	parts := []string{
		o.role(parser.Travel, o.bare(h.Travel, exactly)),
		o.role(parser.Run, o.bare(h.Run, exactly)),
	}
	if h.Cut > 0 {
		parts = append(parts, o.role(parser.Cut, o.bare(h.Cut, mannerOf(a, figure.Length{Role: parser.Cut, Length: h.Cut}))))
	}
	return o.say("handbook", "name", o.term(h.Name), "figures", strings.Join(parts, ", "))
}

func (o Options) inFull(a *figure.Answer) string {
	var parts []string
	for _, l := range a.Exact {
		if l.Role == parser.Travel || l.Role == parser.Run || l.Role == parser.Cut {
			parts = append(parts, o.role(l.Role, o.bare(l.Length, mannerOf(a, l))))
		}
	}
	return o.say("by the book", "name", o.term(a.Handbook.Name), "figures", strings.Join(parts, ", "))
}
