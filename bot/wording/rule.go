package wording

import (
	"slices"
	"strconv"
	"strings"

	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"
)

// Rule says why a step of an explanation is done, by its number from 1: the
// step itself, and the rule behind it. ok is false if there is no such step;
// the text then says which there are.
func Rule(a *figure.Answer, number int, o Options) (text string, ok bool) {
	if len(a.Steps) == 0 {
		return o.say("no steps"), false
	}
	if number < 1 || number > len(a.Steps) {
		return o.say("no such step", "number", strconv.Itoa(len(a.Steps))), false
	}
	o = o.For(a.Ask)
	s := a.Steps[number-1]
	return strconv.Itoa(number) + ". " + o.step(a, s) + "\n" + o.behind(a, s), true
}

// Figured are the numbers of the steps of an explanation that are arithmetic:
// their rules are the ones that are asked for.
func Figured(a *figure.Answer) []int {
	var numbers []int
	for i, s := range a.Steps {
		if isArithmetic(s.Name) {
			numbers = append(numbers, i+1)
		}
	}
	return numbers
}

// behind is the rule behind a step, with the functions of this job's angle.
func (o Options) behind(a *figure.Answer, s figure.Step) string {
	angle := turned(a)
	pairs := []string{
		"sine", decimals(angle.Sin(), 4), "cosine", decimals(angle.Cos(), 4), "factor", decimals(s.Factor, 4),
	}
	pairs = append(pairs, "angle", degrees(offLine(a)))
	if angle < geometry.QuarterBend {
		pairs = append(pairs, "tangent", decimals(angle.Tan(), 4))
	}
	for _, key := range behindKeys(a, s) {
		if text, ok := o.said(key, pairs...); ok {
			return text
		}
	}
	return ""
}

// turned is the angle that the steps of an answer are figured with: that of the
// bend chosen in them, or else the answer's.
func turned(a *figure.Answer) geometry.Angle {
	for _, s := range a.Steps {
		if s.Name == figure.StepChoose {
			return s.Result.Angle
		}
	}
	return a.Angle
}

// behindKeys are the rows that may hold the rule behind a step, the nearest to
// it first.
func behindKeys(a *figure.Answer, s figure.Step) []string {
	square := turned(a) == geometry.QuarterBend
	step, rule := "behind step "+string(s.Name), "behind "+s.Rule
	switch {
	case !isArithmetic(s.Name) && s.Name != figure.StepMeasure:
		return []string{step + " " + s.Rule, step}
	case s.Name == figure.StepRoot && !a.Rolling:
		return []string{"behind " + figure.RuleSquares}
	case square && (s.Rule == figure.RuleSetToTravel || s.Rule == figure.RuleSetToRun):
		return []string{"behind square turn"}
	case s.Rule == figure.RuleDryFit && s.Name == figure.StepAdd && withGap(s) != "":
		return []string{"behind dry fit with gap"}
	case s.Rule == figure.RuleDryFit && s.Name == figure.StepAdd:
		return []string{"behind dry fit takeoffs"}
	case s.Rule == figure.RuleCut && slices.ContainsFunc(s.Terms, func(q figure.Quantity) bool { return q.Role == parser.TrimOff }):
		return []string{"behind " + figure.RuleCut + " by trim"}
	}
	return []string{rule + withGap(s), rule}
}

// BendName is what a bend is called, to stand over its picture: "22-1/2".
func BendName(a geometry.Angle) string { return bendName(a) }

// Bend says what a bend is that is called by its number, and what its
// multipliers are.
func Bend(a geometry.Angle, o Options) string {
	part := "1/" + strconv.Itoa(int(360/a.Degrees()))
	lines := []string{o.say("meaning of bend", "name", bendName(a), "part", part)}
	if a == geometry.QuarterBend {
		return strings.Join(append(lines, o.say("behind square turn")), "\n")
	}
	side := sides(a)
	return strings.Join(append(lines, o.say("multipliers of bend",
		"travel", decimals(side[parser.Travel], 3), "run", decimals(side[parser.Run], 3))), "\n")
}
