package wording

import (
	"math"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// This file words what single kinds of ask have besides their lengths.

// lines says where each of parallel lines begins its bend.
func (o Options) lines(a *figure.Answer) []string {
	lines := []string{o.say("every line")}
	if a.Unstaggered > 0 {
		lines = append(lines, o.say("unstaggered", "length", o.bare(a.Unstaggered, exactly)))
	}
	for _, l := range a.Lines {
		if l.Number > 1 && l.Start != 0 {
			lines = append(lines, o.startOf(l))
		}
	}
	return lines
}

func (o Options) startOf(l figure.Line) string {
	number := decimals(float64(l.Number), 0)
	if l.Start < 0 {
		return o.say("starts later", "number", number, "length", o.bare(-l.Start, exactly))
	}
	return o.say("starts sooner", "number", number, "length", o.bare(l.Start, exactly))
}

// fall gives the grade of a line in every way it is said.
func (o Options) fall(a *figure.Answer) []string {
	var lines []string
	if a.Grade > 0 && a.Main != parser.Grade {
		lines = append(lines, o.say("grade", "grade", o.everyGrade(a.Grade)))
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
	perFoot := decimals(s.InchesPerFoot(), 3)
	if t := geometry.Length(s.InchesPerFoot()).Tape(32); math.Abs(t.Length().Inches()-s.InchesPerFoot()) < 1e-9 {
		perFoot = t.String()
	}
	return o.say("every grade",
		"inches", o.say("per foot", "inches", perFoot),
		"percent", decimals(s.Percent(), 2),
		"ratio", decimals(1/float64(s), 1))
}

// ordinates lists the marks round an elbow that is cut off at an angle, from
// the throat half-way round to the back; the other half is the same.
func (o Options) ordinates(a *figure.Answer) []string {
	if len(a.Ordinates) == 0 {
		return nil
	}
	lines := []string{o.say("ordinates")}
	for _, d := range a.Ordinates {
		if d.Eighth <= 4 {
			lines = append(lines, o.ordinate(d))
		}
	}
	return lines
}

func (o Options) ordinate(d figure.Ordinate) string {
	back := o.bare(d.Back, exactly)
	switch d.Eighth {
	case 0:
		return o.say("throat", "back", back)
	case 4:
		return o.say("back", "arc", o.bare(d.Arc, exactly), "back", back)
	}
	return o.say("ordinate", "eighth", decimals(float64(d.Eighth), 0), "arc", o.bare(d.Arc, exactly), "back", back)
}

// sum is the first line of tape arithmetic: the result on the tape, or in
// millimeters where that was wanted.
func (o Options) sum(s figure.SumResult) string {
	switch {
	case s.Plain:
		return decimals(s.Number, 4)
	case s.Metric || o.Metric:
		return s.Length.Metric(1)
	}
	return o.withUnit(s.Length, exactly)
}

// sumOtherwise is the same result in the other unit.
func (o Options) sumOtherwise(s figure.SumResult) []string {
	switch {
	case s.Plain:
		return nil
	case s.Metric || o.Metric:
		inches := o
		inches.Metric = false
		return []string{inches.withUnit(s.Length, exactly)}
	}
	return []string{s.Length.Metric(1)}
}

// factor words one multiplier: "Set to travel: × 1.414".
func (o Options) factor(f figure.Factor) string {
	text := f.Printed
	if text == "" {
		text = decimals(f.Exact, 3)
	}
	if math.IsInf(f.Exact, 0) || math.IsNaN(f.Exact) {
		text = o.say("none")
	}
	return capital(o.say("factor", "from", o.name(f.From), "to", o.name(f.To), "factor", text))
}

// factors are all but the first, which stands on the first line.
func (o Options) factors(factors []figure.Factor) []string {
	var lines []string
	for i, f := range factors {
		if i > 0 {
			lines = append(lines, o.factor(f))
		}
	}
	return lines
}

// kept says that a takeoff is kept as the user's own.
func (o Options) kept(s figure.Stored) string {
	pipe := o.pipe(catalog.Pipe{}, s.System, s.Takeoff.Size)
	text := o.say("kept", "fitting", o.fitting(s.Takeoff.Fitting), "pipe", pipe, "length", o.withUnit(s.Takeoff.Length, exactly))
	if s.Line != "" {
		text += " (" + s.Line + ")"
	}
	return text
}

func (o Options) keptToo(own []figure.Stored) []string {
	var lines []string
	for i, s := range own {
		if i > 0 {
			lines = append(lines, o.kept(s))
		}
	}
	return lines
}

// finding words one thing that may be out, and by how much either way.
func (o Options) finding(f figure.Finding) string {
	by := geometry.Length(math.Abs(f.By.Inches()))
	switch {
	case f.What == parser.AngleOf && f.Turn < 0:
		return o.say("turns less", "angle", decimals(-f.Turn.Degrees(), 1)+"°")
	case f.What == parser.AngleOf:
		return o.say("turns more", "angle", decimals(f.Turn.Degrees(), 1)+"°")
	case f.What == parser.TakeoffOf:
		return o.say("finding each", "what", o.name(f.What), "length", o.bare(by, exactly))
	}
	return o.say("finding", "what", o.name(f.What), "length", o.bare(by, exactly))
}

// findings says what may explain what a dry fit showed: any one of them.
func (o Options) findings(a *figure.Answer) []string {
	var lines []string
	for _, f := range a.Findings {
		lines = append(lines, o.finding(f))
	}
	if len(lines) == 0 {
		return nil
	}
	return append([]string{o.say("findings")}, lines...)
}
