package wording

import (
	"math"

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

// minimums says whether a drain has the usual least grade for its size, code
// by code, since the codes differ.
func (o Options) minimums(of []figure.Minimum) []string {
	var lines []string
	for _, m := range of {
		key := "below minimum"
		if m.Meets {
			key = "meets minimum"
		}
		line, _ := o.said(key, "grade", o.grade(m.Grade), "behind", m.Behind)
		lines = append(lines, line)
	}
	return lines
}

// everyGrade writes a grade in inches per foot, in percent and as one in n.
func (o Options) everyGrade(s geometry.Slope) string {
	if s <= 0 {
		return "0%"
	}
	if o.Metric {
		return o.say("grade metric", "percent", decimals(s.Percent(), 2), "ratio", decimals(1/float64(s), 1))
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
