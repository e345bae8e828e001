package wording

import (
	"strings"

	"dogleg/bot/figure"
)

// assumed says what was taken that no word said, and what else it could be.
// What another reading would make is always "about": nobody has looked at the
// fitting for it.
func (o Options) assumed(a *figure.Answer) []string {
	var lines []string
	for _, s := range a.Assumed {
		parts := append([]string{o.say("taken as", "took", o.term(s.Took))}, o.alternatives(s.Instead)...)
		lines = append(lines, strings.Join(parts, "; ")+".")
	}
	return lines
}

// alternatives says what other readings would make, those that make the same
// together; those of which nobody knows come last.
func (o Options) alternatives(instead []figure.Alternative) []string {
	var cuts, parts []string
	names := map[string][]string{}
	for _, other := range instead {
		cut := ""
		if other.Cut > 0 {
			cut = o.bare(other.Cut, manner{about: true})
		}
		if names[cut] == nil && cut != "" {
			cuts = append(cuts, cut)
		}
		names[cut] = append(names[cut], o.term(other.Name))
	}
	for _, cut := range cuts {
		parts = append(parts, o.say("would be", "name", o.or(names[cut]), "length", cut))
	}
	if unknown := names[""]; len(unknown) > 0 {
		parts = append(parts, o.say("say so if", "names", o.or(unknown)))
	}
	return parts
}
