package read

import (
	"math"
	"strings"

	"dogleg/geometry"
	"dogleg/parser/ask"
)

// reckoning is how a number comes to the value that it is taken for.
type reckoning uint8

const (
	told reckoning = iota // it says the value
	anew                  // it is one of the two readings that the value is the difference of
	more                  // the value is more by so much than it was
	less                  // less
)

const reckoningCount = int(less) + 1

// reckonedWith adds to a label of a length those of the same number that are reckoned with
// what was asked last: a set whose one reading is told anew, the nearer one; and what is
// more or less by so much, where a word says so.
func reckonedWith(m *message, out []label, l label) []label {
	if m.said.Last == nil || l.part.apart() || parts[l.part].sort != aLength {
		return out
	}
	all := m.said.Last.All(parts[l.part].role)
	if len(all) == 0 || !sameTape(all[0], l) {
		return out
	}
	by := func(r reckoning, value float64) {
		if value > 0 {
			d := l
			d.by, d.said, d.value = r, l.value, value
			out = append(out, d)
		}
	}
	old := all[0]
	if old.Apart && old.Readings[0] > 0 {
		by(anew, math.Abs(l.value-kept(old, l.value)))
	}
	if m.hints.more {
		by(more, old.Length.Inches()+l.value)
	}
	if m.hints.less {
		by(less, old.Length.Inches()-l.value)
	}
	return out
}

// kept is the one of a difference's readings that stays where the other is told anew: the
// one that is farther from it.
func kept(old ask.Measure, anew float64) float64 {
	larger, smaller := old.Readings[0].Inches(), old.Readings[1].Inches()
	if math.Abs(anew-larger) < math.Abs(anew-smaller) {
		return smaller
	}
	return larger
}

// sameTape says whether a number that says no unit is taken to be in that of a measure.
func sameTape(old ask.Measure, l label) bool {
	return l.scale == asSaid || metricTape(old) == (l.scale != inInches && l.scale != inFeet)
}

// metricTape says whether a measure was told, or taken, in a metric unit.
func metricTape(x ask.Measure) bool {
	if u := x.Unit(); u != ask.OpenUnit {
		return u.Metric()
	}
	_, taken := x.Number()
	return taken.Metric()
}

// reckoned is a measure of what was asked last, changed as a label says.
func reckoned(m *message, x ask.Measure, l label) ask.Measure {
	old := m.said.Last.All(x.Role)[0]
	x.Text = likeOld(old, x.Length)
	if l.by == anew {
		a, b := kept(old, l.said), l.said
		x.Apart, x.Readings = true, [2]geometry.Length{geometry.Length(max(a, b)), geometry.Length(min(a, b))}
		x.Text = likeOld(old, x.Readings[0]) + " − " + likeOld(old, x.Readings[1])
	}
	return x
}

// likeOld is a length as a measure was told: in millimeters, or on an inch tape.
func likeOld(old ask.Measure, l geometry.Length) string {
	if !metricTape(old) {
		return l.Tape(geometry.ThirtySeconds).String()
	}
	text := string(millimeters(l.Millimeters()))
	if old.Unit() == ask.OpenUnit {
		return strings.TrimSuffix(text, " mm")
	}
	return text
}
