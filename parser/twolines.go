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
	if s.hint("around") || s.hint("fall") || s.hint("check") || s.hint("fit") || s.hint("parallel") || s.has(senseStub) || s.names(GapNow) || s.names(Overlap) || s.names(StickOut) {
		return false
	}
	if s.hasRole(Set) || s.hasRole(Roll) || s.hasRole(Run) || s.hasRole(Depth) || s.says("ends") {
		return false
	}
	walls, centers := 0, 0
	for _, e := range s.elements {
		switch side := meant(e.term, senseSide); {
		case meant(e.term, senseHint) == "mark" && !e.term.is(senseRole), side != "" && side != "center":
			return false
		case side == "center":
			centers++
		case isPlace(e) && e.text != "off it":
			walls++
		}
	}
	if walls < 2 && (s.pieces() || s.hasRole(Travel)) {
		return false
	}
	return max(walls, centers) > 1 || walls+centers > 0 && (s.tellsApart() || s.hint("rolling") && s.has(senseFromWall))
}

// isPlace says whether a word tells what a tape was read from, or to.
func isPlace(e element) bool {
	role := meant(e.term, senseRole)
	return e.term.is(senseFromWall) || e.text == "off it" || strings.HasPrefix(role, string(Reading)) || meant(e.term, senseSide) == "center"
}

// tellsApart says whether words tell one line from another: one and the other,
// the old and the new, upper and lower.
func (s *scene) tellsApart() bool {
	return s.has(senseOtherEnd) || slices.ContainsFunc([][2]string{
		{"old", "new"}, {"upper", "lower"}, {"top", "bottom"}, {"first", "second"}, {"this", "that"}, {"this", "that one"}, {"existing", "new"},
	}, func(pair [2]string) bool { return s.says(pair[0]) && s.says(pair[1]) })
}

// halfRead is the cost of two lines of which not just two readings were taken.
func (r *reading) halfRead() float64 {
	readings := 0
	for k := range r.labels {
		l := &r.labels[k]
		if l.role == Reading {
			readings++
		}
	}
	wall, height := r.bothWays()
	if readings == 0 || readings == 2 || !r.scene.twoLines || readings == 4 && len(wall) == 2 && len(height) == 2 {
		return 0
	}
	return 3
}

// bothWays lists the readings from a wall and those from a floor or a ceiling, as
// places among the labels: two of each make a roll and a rise.
func (r *reading) bothWays() (wall, height []int) {
	place := -1
	for k := range r.labels {
		l := &r.labels[k]
		if l.role != Reading {
			continue
		}
		if l.term >= 0 || k == 0 || !r.scene.joined(r.at[k-1], r.at[k]) {
			place = l.term // else that of the one before: heights 52 and 31
		}
		switch {
		case place < 0:
		case r.scene.elements[place].term.is(senseFromWall):
			wall = append(wall, k)
		case strings.HasPrefix(meant(r.scene.elements[place].term, senseRole), string(Reading)):
			height = append(height, k)
		}
	}
	return wall, height
}

// apart makes the set of the readings to two lines, or their roll and their rise.
func (b *builder) apart() {
	if !b.scene.twoLines {
		return
	}
	var readings []int
	for k := range b.labels {
		l := &b.labels[k]
		if l.role == Reading {
			readings = append(readings, k)
		}
	}
	var made []Measure
	switch wall, height := b.bothWays(); {
	case len(readings) == 2:
		made = []Measure{b.difference(Set, readings[0], readings[1])}
	case len(readings) == 4 && len(wall) == 2 && len(height) == 2:
		made = []Measure{b.difference(Roll, wall[0], wall[1]), b.difference(Rise, height[0], height[1])}
	}
	if len(made) == 0 || slices.ContainsFunc(made, func(m Measure) bool { return m.Length == 0 }) {
		return
	}
	b.ask.Measures = slices.DeleteFunc(b.ask.Measures, func(m Measure) bool { return m.Role == Reading })
	b.ask.Measures = append(made, b.ask.Measures...)
}

// difference is what lies between two readings, which are numbers of the labels.
func (b *builder) difference(role Role, first, second int) Measure {
	high, low := b.reading.number(first), b.reading.number(second)
	if high.length() < low.length() {
		high, low = low, high
	}
	return Measure{
		Role: role, Length: high.length() - low.length(), Apart: true,
		Text: strings.TrimSpace(high.text) + " - " + strings.TrimSpace(low.text),
	}
}
