package wording

import (
	"math"
	"strconv"
	"strings"

	"dogleg/geometry"
	"dogleg/parser"
)

// spellFeet is where a length in inches is also given in feet: from a yard up
// nobody pictures it in inches alone.
const spellFeet = 36 * geometry.Inch

// Tape writes a length as it is read on the user's tape, without a unit in
// inches: "14-3/4 heavy", "9", "62-15/16 heavy (5' 2-15/16\")", "425 mm".
func Tape(l geometry.Length, o Options) string { return o.written(l, "", exactly) }

// manner is how a figure is printed. The zero manner is the nearest mark, with
// heavy or light.
type manner struct {
	about bool            // rests on something unsure: no heavy, no light
	up    bool            // a clearance: rounded to the safe side
	left  geometry.Length // what a cut is left long by: added and rounded up; less than nothing: taken off and rounded down
}

// exactly is the manner of a figure that rests on nothing unsure.
var exactly manner

// withUnit writes a length for a line of its own: "14-3/4 in heavy", "356 mm".
func (o Options) withUnit(l geometry.Length, m manner) string {
	return o.written(l, " "+o.say("in"), m)
}

// bare writes a length within a line: "14-3/4 heavy".
func (o Options) bare(l geometry.Length, m manner) string { return o.written(l, "", m) }

func (o Options) written(l geometry.Length, unit string, m manner) string {
	text := o.mark(l, unit, !m.about)
	switch {
	case m.up:
		text = o.roundedUp(l, unit)
	case m.left > 0:
		text = o.roundedUp(l+m.left, unit)
	case m.left < 0:
		text = o.roundedDown(max(0, l+m.left), unit)
	}
	if m.about {
		return o.say("about", "length", text)
	}
	return text
}

// mark writes the nearest mark: number, unit, heavy or light, feet.
func (o Options) mark(l geometry.Length, unit string, lean bool) string {
	if o.Metric {
		return l.Metric(0)
	}
	t := l.Tape(o.division())
	words := t.String() + unit
	if lean && t.Lean != geometry.OnMark {
		words += " " + o.lean(t.Lean)
	}
	if math.Abs(t.Length().Inches()) >= spellFeet.Inches() {
		words += " (" + t.FeetInches() + ")"
	}
	return words
}

func (o Options) roundedUp(l geometry.Length, unit string) string {
	if o.Metric {
		return strconv.FormatFloat(math.Ceil(l.Millimeters()-1e-9), 'f', 0, 64) + " mm"
	}
	return o.mark(l.TapeUp(o.division()).Length(), unit, false)
}

// roundedDown writes the longest mark that is not over l: for what may not be
// exceeded.
func (o Options) roundedDown(l geometry.Length, unit string) string {
	if o.Metric {
		return strconv.FormatFloat(math.Floor(l.Millimeters()+1e-9), 'f', 0, 64) + " mm"
	}
	parts := geometry.Length(o.division())
	return o.mark(geometry.Length(math.Floor((l*parts).Inches()+1e-9))/parts, unit, false)
}

func (o Options) lean(l geometry.Lean) string {
	switch l {
	case geometry.Heavy:
		return o.say("heavy")
	case geometry.Light:
		return o.say("light")
	case geometry.OnMark:
	}
	return ""
}

func (o Options) division() geometry.Division {
	if o.Division == 0 {
		return geometry.Sixteenths
	}
	return o.Division
}

// stated writes a length that somebody gave, so that they know it again: in
// millimeters if they said millimeters, and never rounded to the tape. A
// decimal stays one.
func (o Options) stated(l geometry.Length, text string) string {
	switch u := (parser.Measure{Length: l, Text: text}).Unit(); {
	case u.Metric(), o.Metric && (text == "" || u == parser.OpenUnit):
		return decimals(l.Millimeters(), 1) + " mm"
	}
	t := l.Tape(64)
	if math.Abs((t.Length() - l).Inches()) > 1e-9 {
		return decimals(l.Inches(), 4)
	}
	if t.Length() >= spellFeet {
		return t.String() + " (" + t.FeetInches() + ")"
	}
	return t.String()
}

// decimals writes a number with at most n decimals and no idle zeros.
func decimals(x float64, n int) string {
	s := strconv.FormatFloat(x, 'f', n, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// band writes how far a figure may be out, either way, rounded up: "±1/8".
func (o Options) band(l geometry.Length) string { return "±" + o.roundedUp(l, "") }

// exact writes a length as the arithmetic has it, for the steps: four decimals
// of an inch, or hundredths of a millimeter.
func (o Options) exact(l geometry.Length) string {
	if o.Metric {
		return decimals(l.Millimeters(), 2)
	}
	return decimals(l.Inches(), 4)
}

// degrees writes an angle: the bends of the trade by name, others to the
// hundredth of a degree.
func degrees(a geometry.Angle) string {
	return bendName(a) + "°"
}
