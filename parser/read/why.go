package read

import (
	"cmp"
	"slices"
	"strings"

	"dogleg/parser/ask"
)

// Reason is what one stretch of a message is taken for, and how much speaks for it: the
// sum of its features' weights, of which e to the power of the difference between two
// readings' totals is how much likelier one is than the other.
type Reason struct {
	Text, As string
	Weight   float64
}

// Why lists the reasons for the likeliest reading of a message and for the likeliest
// that says something else, by the likelihood; fewer where there are none.
func (m *Model) Why(text string, said Said, same func(a, b []ask.Statement) bool) [][]Reason {
	x, ok := prepare(text, said)
	if !ok {
		return nil
	}
	s := &search{m: x, model: m, width: width, alike: mostAlike, keep: mostLabels}
	all := s.paths()
	slices.SortStableFunc(all, func(a, b *step) int { return cmp.Compare(b.score, a.score) })
	if len(all) == 0 {
		return nil
	}
	first := x.statements(all[0])
	out := [][]Reason{x.reasons(all[0])}
	if i := slices.IndexFunc(all, func(p *step) bool { return !same(first, x.statements(p)) }); i > 0 {
		out = append(out, x.reasons(all[i]))
	}
	return out
}

// reasons are those of one path, in the order of the message.
func (m *message) reasons(p *step) (out []Reason) {
	for ; p.before != nil; p = p.before {
		r := Reason{Weight: p.score - p.before.score}
		switch {
		case p.ending != nil:
			r.Text, r.As = m.span(p.ending.from, p.ending.to), sayings[p.ending.saying].name
			if p.ending.saying == command {
				r.As += " " + string(p.ending.verb)
			}
			if p.ending.change && p.ending.saying != unstated {
				r.As += ", a change"
			}
		case p.measure != nil:
			r.Text, r.As = p.measure.Text, "nothing"
			if p.label.part != none {
				r.As = strings.ReplaceAll(string(parts[p.label.part].role), "_", " ")
			}
		default:
			r.Text, r.As = m.items[max(p.fact, -p.fact)-1].text, "of the pipe"
			if p.fact < 0 {
				r.As = "nothing"
			}
		}
		out = append(out, r)
	}
	slices.Reverse(out)
	return out
}
