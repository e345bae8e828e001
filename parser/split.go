package parser

import (
	"slices"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
)

const longestLength = geometry.Longest

// parts cuts a message into the stretches that say one thing each: at line
// ends, semicolons and "then". Lines that only make sense together are one.
func parts(text string) []part {
	all, err := elements(text)
	if err != nil {
		return []part{{text: text}}
	}
	var out []part
	from := 0
	flush := func(to int) {
		if p, ok := newPart(text, all[from:to]); ok {
			out = append(out, p)
		}
	}
	for i, e := range all {
		if e.mark == "\n" || e.mark == ";" || e.term.is("then") {
			flush(i)
			from = i + 1
		}
	}
	flush(len(all))
	return together(text, out)
}

// newPart takes the name in front of a statement off it: "laundry: 12 set".
func newPart(text string, in []element) (part, bool) {
	for len(in) > 0 && (in[0].mark != "" || in[0].term.is("and")) {
		in = in[1:]
	}
	if len(in) == 0 {
		return part{}, false
	}
	p := part{elements: in, text: strings.TrimSpace(text[in[0].begin:in[len(in)-1].end])}
	if at := nameEnd(in); at > 0 {
		p.name = strings.TrimSpace(text[in[0].begin:in[at].begin])
		p.elements = in[at+1:]
	}
	return p, true
}

// nameEnd is the place of the colon after a job's name, or 0.
func nameEnd(in []element) int {
	for i, e := range in {
		switch {
		case e.mark == ":":
			if i > 0 && i+1 < len(in) && i <= 6 {
				return i
			}
			return 0
		case e.quantity != nil && i == 0:
			return 0
		case e.term.is("role") || e.term.is("material") || e.term.is("hint") || e.term.is("verb") || e.term.is("bend") || e.term.is("angle") || e.term.is("ask") || e.term.is("want"):
			return 0
		}
	}
	return 0
}

// together joins the parts of a message of which no one is whole: 12 set, 45s
// and 2 pvc on three lines.
func together(text string, in []part) []part {
	if len(in) < 2 {
		return in
	}
	whole := 0
	for _, p := range in {
		if p.isWhole() {
			whole++
		}
	}
	if whole > 0 || len(in) > 6 {
		return in
	}
	joined := part{text: text, name: in[0].name}
	for i, p := range in {
		if i > 0 {
			joined.elements = append(joined.elements, element{mark: "\n", text: "\n", begin: p.elements[0].begin, end: p.elements[0].begin})
		}
		joined.elements = append(joined.elements, p.elements...)
	}
	return []part{joined}
}

// isWhole says whether a part can be answered, or acted on, by itself.
func (p part) isWhole() bool {
	s := p.statement()
	switch {
	case s.Command != nil:
		return true
	case s.Misunderstanding != nil:
		return false
	case s.Ask.Kind == Offset:
		return s.Ask.Angle != 0 || len(s.Ask.Measures) > 1
	case s.Ask.Kind == Sum:
		return len(s.Ask.Sum.Terms) > 1 || s.Ask.Sum.InMetric
	}
	return s.Ask.Kind != Unstated || s.Ask.FollowUp && len(s.Ask.Measures) > 0
}

// inherited gives the later asks of a message what they leave unsaid and an
// earlier one said: the pipe, and the angle. A line that names only a pipe is a
// heading for those below it.
func inherited(in []Statement) []Statement {
	if len(in) < 2 {
		return in
	}
	var pipe catalog.Pipe
	var angle geometry.Angle
	var ends [2]End
	out := make([]Statement, 0, len(in))
	for i, s := range in {
		a := s.Ask
		if a == nil || a.Kind == Sum || a.Kind == Multiplier || a.Kind == Takeoff {
			out = append(out, s)
			continue
		}
		if a.Kind == Unstated && len(a.Measures) == 0 && i+1 < len(in) && i == 0 {
			pipe, angle, ends = a.Pipe, a.Angle, a.Ends
			continue
		}
		if a.Kind != Unstated && !a.FollowUp {
			inherit(a, pipe, angle, ends)
			pipe, ends = a.Pipe, a.Ends
			if a.Angle != 0 {
				angle = a.Angle
			}
		}
		out = append(out, s)
	}
	return out
}

func inherit(a *Ask, pipe catalog.Pipe, angle geometry.Angle, ends [2]End) {
	if a.Pipe == (catalog.Pipe{}) {
		a.Pipe = pipe
	} else if a.Pipe.Material == "" && a.Pipe.Joint == "" {
		size := a.Pipe.Size
		a.Pipe = pipe
		a.Pipe.Size = size
	}
	if a.Angle == 0 && a.Kind == Offset && len(a.All(Run))+len(a.All(Travel)) == 0 {
		a.Angle = angle
		if a.Ends == [2]End{} {
			a.Ends = ends
		}
	}
}

// corrected puts the number that a speaker means in the place of the one taken
// back: "12, no wait, 14 set".
func corrected(in []element) []element {
	for i, e := range in {
		if !e.term.is("correction") || i+1 >= len(in) || in[i+1].quantity == nil {
			continue
		}
		for j := i - 1; j >= 0; j-- {
			if in[j].quantity == nil {
				continue
			}
			out := slices.Clone(in[:i])
			out[j] = in[i+1]
			return corrected(append(out, in[i+2:]...))
		}
	}
	return in
}
