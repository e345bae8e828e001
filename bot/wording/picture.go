package wording

import (
	"math"
	"strings"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Heading is what stands over a picture of an answer: the reply's first line,
// the one number, and what was understood.
func Heading(a *figure.Answer, o Options) (first, understood string) {
	o = o.For(a.Ask)
	return o.first(a), capital(o.read(a.Ask, a.System, a.Size))
}

// Label words one length of an answer as the reply does, for a picture: "run
// 12-3/8", "ends 14-3/4 apart", "cut about 14-1/4".
func Label(a *figure.Answer, l figure.Length, o Options) string {
	o = o.For(a.Ask)
	return o.figure(a, l, o.bare)
}

// Given words one length as it was given, in the words that it is read back in:
// "sticks out 6".
func Given(r parser.Role, l geometry.Length, o Options) string {
	length := o.bare(l, exactly)
	if text, ok := o.said("said "+string(r), "length", length); ok {
		return text
	}
	return o.role(r, length)
}

// Turn words how far the fittings of a rolling offset are turned, as the reply
// does.
func Turn(a *figure.Answer, o Options) string { return strings.Join(o.For(a.Ask).roll(a), " ") }

// RoleName is what a figure is called: "end gap".
func RoleName(r parser.Role, o Options) string { return o.name(r) }

// Pieces words the length of each piece of an answer that has more than one.
func Pieces(a *figure.Answer, o Options) []string {
	o = o.For(a.Ask)
	all := make([]string, len(a.Pieces))
	for i, p := range a.Pieces {
		all[i] = o.piece(a, p)
	}
	return all
}

// FittingName is what a fitting is called: "45", "union".
func FittingName(f catalog.Fitting, o Options) string { return o.fitting(f) }

// Reading is the mark of the tape that [Label] names, and on which side of it a
// length lies that is said to be heavy or light.
func Reading(a *figure.Answer, l figure.Length, o Options) (mark geometry.Length, lean geometry.Lean) {
	o = o.For(a.Ask)
	m := mannerOf(a, l)
	d := geometry.Length(o.division())
	if o.Metric {
		d = geometry.Inch / geometry.Millimeter
	}
	up := func(l geometry.Length) geometry.Length { return geometry.Length(math.Ceil(float64(l*d)-1e-9)) / d }
	down := func(l geometry.Length) geometry.Length { return geometry.Length(math.Floor(float64(l*d)+1e-9)) / d }
	switch {
	case m.up:
		return up(l.Length), geometry.OnMark
	case m.left > 0:
		return up(l.Length + m.left), geometry.OnMark
	case m.left < 0:
		return down(max(0, l.Length+m.left)), geometry.OnMark
	case o.Metric:
		return geometry.Length(math.Floor(float64(l.Length*d)+0.5)) / d, geometry.OnMark
	}
	t := l.Length.Tape(o.division())
	if m.about {
		t.Lean = geometry.OnMark
	}
	return t.Length(), t.Lean
}

// ToMeasure is what stands over the picture of a fitting that is to be measured, and
// under that from where to where.
func ToMeasure(s catalog.System, f catalog.Fitting, o Options) (title, means string) {
	return o.say("measure it", "fitting", o.fitting(f)), capital(o.term(s.TakeoffMeans()))
}

// Within words how far out a figure may be, either way: "±1/8".
func Within(l geometry.Length, o Options) string { return o.band(l) }
