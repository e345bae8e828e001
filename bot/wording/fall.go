package wording

import (
	"math"
	"regexp"
	"strconv"

	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"
)

// fall gives the grade of a line in every way it is said.
func (o Options) fall(a *figure.Answer) []string {
	var lines []string
	if a.Grade > 0 && a.Main != parser.Grade {
		lines = append(lines, o.say("grade", "grade", o.everyGrade(a.Grade)))
	}
	return append(lines, o.minimums(a.Minimums)...)
}

// graded says what the grade of a line makes of an offset in it.
func (o Options) graded(a *figure.Answer) []string {
	if a.Grade <= 0 {
		return nil
	}
	var lines []string
	if a.FallOverRun > 0 {
		lines = append(lines, o.say("fall over run", "fall", o.bare(a.FallOverRun, exactly)))
	}
	return append(lines, o.minimums(a.Minimums)...)
}

// minimums says whether a drain has the least grade for its size, by the code
// that was named.
func (o Options) minimums(of []figure.Minimum) []string {
	var lines []string
	for _, m := range of {
		key := "below minimum"
		switch {
		case m.Meets && m.Recalled:
			key = "meets minimum recalled"
		case m.Meets:
			key = "meets minimum"
		case m.Recalled:
			key = "below minimum recalled"
		}
		line, _ := o.said(key, "grade", o.grade(m.Grade), "behind", o.term(m.Behind))
		lines = append(lines, line)
	}
	return lines
}

// elevation writes a level as it was said of a line: in meters to a millimeter, or
// in feet to a hundredth where the levels were told in decimal feet. It is false
// where it is written as any other length.
func (o Options) elevation(ask parser.Ask, l geometry.Length) (string, bool) {
	if o.Metric {
		return strconv.FormatFloat(l.Millimeters()/1000, 'f', 3, 64) + " m", true
	}
	for _, m := range ask.Measures {
		if (m.Role == parser.Upper || m.Role == parser.Lower) && decimalFeet.MatchString(m.Text) {
			return strconv.FormatFloat(l.Feet(), 'f', 2, 64) + " " + o.say("ft"), true
		}
	}
	return "", false
}

// decimalFeet is a length told in feet and parts of ten, as a level reads.
var decimalFeet = regexp.MustCompile(`(?i)^\s*\d+\.\d+\s*(?:ft|feet|foot|'|pies?)\s*$`)

// statedOf writes a measure as it was given: a level as such, a long line in meters
// where it was told so.
func (o Options) statedOf(m parser.Measure) string {
	switch {
	case m.Role == parser.Upper || m.Role == parser.Lower:
		o.Metric = o.Metric || m.Unit().Metric()
		if text, ok := o.elevation(parser.Ask{Measures: []parser.Measure{m}}, m.Length); ok {
			return text
		}
	case m.Role == parser.Long && m.Unit() == parser.Meters:
		return decimals(m.Length.Millimeters()/1000, 3) + " m"
	}
	return o.stated(m.Length, m.Text)
}

// everyGrade writes a grade in inches per foot, in percent and as one in n.
func (o Options) everyGrade(s geometry.Slope) string {
	if s <= 0 {
		return "0%"
	}
	if o.Metric {
		return o.say("grade as ratio", "percent", decimals(s.Percent(), 2), "ratio", decimals(1/float64(s), 1))
	}
	perFoot := decimals(s.InchesPerFoot(), 3)
	if t := geometry.Length(s.InchesPerFoot()).Tape(32); math.Abs(t.Length().Inches()-s.InchesPerFoot()) < 1e-9 {
		perFoot = t.String()
	}
	return o.say("every grade",
		"inches", o.say("per foot", "inches", perFoot),
		"percent", decimals(s.Percent(), 2),
		"ratio", decimals(1/float64(s), 1))
}
