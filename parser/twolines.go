package parser

import (
	"slices"
	"strings"
)

// Two lines that a tape was read to from one place, a wall or a floor, lie as far
// apart as the readings differ: "one pipe is 14-1/4 off the wall, the other 6-1/2".
// That difference is the set.

// tellsTwoLines says whether the places of two lines are told, and nothing else that
// is measured from a wall: no obstacle, no standing end.
func (s *scene) tellsTwoLines() bool {
	if s.hint("around") || s.hint("fall") || s.hint("check") || s.hint("fit") || s.hint("parallel") || s.has("stub") || s.names(GapNow) || s.names(Overlap) || s.names(StickOut) {
		return false
	}
	if s.hasRole(Set) || s.hasRole(Roll) || s.hasRole(Run) || s.hasRole(Travel) || s.hasRole(Depth) || s.pieces() || s.says("ends") {
		return false
	}
	walls, centers := 0, 0
	for _, e := range s.elements {
		switch side := meant(e, "side"); {
		case meant(e, "hint") == "mark" && !e.term.is("role"), side != "" && side != "center":
			return false
		case side == "center":
			centers++
		case isPlace(e) && e.text != "off it":
			walls++
		}
	}
	return max(walls, centers) > 1 || walls+centers > 0 && s.tellsApart()
}

// isPlace says whether a word tells what a tape was read from, or to.
func isPlace(e element) bool {
	role := meant(e, "role")
	return e.term.is("from-wall") || e.text == "off it" || strings.HasPrefix(role, string(Reading)) || meant(e, "side") == "center"
}

// tellsApart says whether words tell one line from another: one and the other,
// the old and the new, upper and lower.
func (s *scene) tellsApart() bool {
	return s.has("other-end") || slices.ContainsFunc([][2]string{
		{"old", "new"}, {"upper", "lower"}, {"top", "bottom"}, {"first", "second"}, {"this", "that"}, {"this", "that one"}, {"existing", "new"},
	}, func(pair [2]string) bool { return s.says(pair[0]) && s.says(pair[1]) })
}

// halfRead is the cost of two lines of which not just two readings were taken.
func (r *reading) halfRead() float64 {
	readings := 0
	for _, l := range r.labels {
		if l.role == Reading {
			readings++
		}
	}
	if readings == 0 || readings == 2 || !r.scene.twoLines {
		return 0
	}
	return 3
}

// apart makes the set of the readings to two lines.
func (b *builder) apart() {
	readings := b.ask.All(Reading)
	if len(readings) != 2 || !b.scene.twoLines {
		return
	}
	high, low := readings[0], readings[1]
	if high.Length < low.Length {
		high, low = low, high
	}
	if high.Length == low.Length {
		return
	}
	set := Measure{Role: Set, Length: high.Length - low.Length, Text: high.Text + " - " + low.Text}
	b.ask.Measures = slices.DeleteFunc(b.ask.Measures, func(m Measure) bool { return m.Role == Reading })
	b.ask.Measures = append([]Measure{set}, b.ask.Measures...)
}
