package wording

import (
	"math"
	"slices"
	"strings"

	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"
)

// whence is where a multiplier comes from: the angle, and the two sides of the
// triangle that it leads between.
type whence struct {
	angle    geometry.Angle
	from, to parser.Role
	exact    float64
}

// pairs are the sides that a multiplier may lead between, the commonest first.
var pairs = [][2]parser.Role{
	{parser.Set, parser.Travel},
	{parser.Set, parser.Run},
	{parser.Travel, parser.Set},
	{parser.Travel, parser.Run},
	{parser.Run, parser.Travel},
	{parser.Run, parser.Set},
}

// WhyMultiplier explains where a multiplier comes from, with the triangle; ok
// is false if it is none of any bend's.
func WhyMultiplier(factor float64, o Options) (text string, ok bool) {
	w, ok := whenceIs(factor)
	if !ok {
		return o.say("no such multiplier"), false
	}
	side := sides(w.angle)
	lines := []string{o.whence(w, factor)}
	lines = append(lines, o.triangle(side)...)
	lines = append(lines, o.runOfOne(w.angle, side[parser.Run]),
		o.say("why travel", "run", decimals(side[parser.Run], 4), "travel", decimals(side[parser.Travel], 4)),
		o.say("why ratio", "from", o.name(w.from), "to", o.name(w.to),
			"a", decimals(side[w.to], 4), "b", decimals(side[w.from], 4), "factor", decimals(w.exact, 4)),
		o.say("why any size"))
	return strings.Join(lines, "\n"), true
}

func (o Options) whence(w whence, factor float64) string {
	return o.say("why multiplier", "factor", printed(factor), "from", o.name(w.from), "to", o.name(w.to), "bends", bendName(w.angle))
}

// Whence is the angle that a multiplier belongs to, and what stands over a
// picture of its triangle; false if it is none of any bend's.
func Whence(factor float64, o Options) (angle geometry.Angle, title string, ok bool) {
	w, ok := whenceIs(factor)
	if !ok {
		return 0, "", false
	}
	return w.angle, strings.TrimSuffix(o.whence(w, factor), "."), true
}

// whenceIs finds the bend that has a multiplier, as it is printed with two to
// six decimals.
func whenceIs(factor float64) (whence, bool) {
	bends := append([]geometry.Angle{geometry.EighthBend, 30}, geometry.Bends()...)
	for _, pair := range pairs {
		for _, a := range bends {
			if a == geometry.QuarterBend {
				continue
			}
			side := sides(a)
			w := whence{a, pair[0], pair[1], side[pair[1]] / side[pair[0]]}
			if prints(w.exact, factor) {
				return w, true
			}
		}
	}
	return whence{}, false
}

// prints says whether an exact number is printed so: rounded, or cut off, as
// some books do.
func prints(exact, as float64) bool {
	for decimals := 2; decimals <= 6; decimals++ {
		scale := math.Pow(10, float64(decimals))
		for _, p := range []float64{math.Round(exact*scale) / scale, math.Floor(exact*scale) / scale} {
			if math.Abs(p-as) < 1e-9 {
				return true
			}
		}
	}
	return false
}

// printed is a multiplier as it was said, with as many decimals as it needs.
func printed(factor float64) string { return decimals(factor, 6) }

// sides are those of the triangle whose set is 1.
func sides(a geometry.Angle) map[parser.Role]float64 {
	return map[parser.Role]float64{parser.Set: 1, parser.Run: 1 / a.Tan(), parser.Travel: 1 / a.Sin()}
}

// triangle draws the triangle in letters: the set stands, the run lies, the
// travel leans.
func (o Options) triangle(side map[parser.Role]float64) []string {
	travel := o.name(parser.Travel) + " " + decimals(side[parser.Travel], 4)
	margin := strings.Repeat(" ", len([]rune(travel)))
	return []string{
		margin + "      /|",
		margin + "    /  |",
		travel + "  /    | " + o.name(parser.Set) + " 1",
		margin + "/______|",
		margin + " " + o.name(parser.Run) + " " + decimals(side[parser.Run], 4),
	}
}

// runOfOne says why the run is what it is where the set is 1.
func (o Options) runOfOne(a geometry.Angle, run float64) string {
	if a == geometry.EighthBend {
		return o.say("why run of 45")
	}
	return o.say("why run", "angle", bendName(a), "tangent", decimals(a.Tan(), 4), "run", decimals(run, 4))
}

// Solution are the sums that lead to the main figure of an answer, and no others,
// each a line.
func Solution(a *figure.Answer, o Options) []string {
	o = o.For(a.Ask)
	var lines []string
	for _, s := range wayTo(a) {
		sum, _ := o.arithmeticOf(s)
		lines = append(lines, o.sumLine(a, s, sum))
	}
	return lines
}

// wayTo are the steps of arithmetic that lead to the main figure of an answer, and
// no others.
func wayTo(a *figure.Answer) []figure.Step {
	needed := map[parser.Role]bool{a.Main: true}
	if a.Main == parser.MarkAt {
		needed[parser.TrimOff] = true // it is what comes off
	}
	said := a.Ask.Ends[0].Takeoff != 0 && a.Ask.Ends[1].Takeoff != 0
	var steps []figure.Step
	for _, s := range slices.Backward(a.Steps) {
		if !needed[s.Result.Role] || !isArithmetic(s.Name) {
			continue
		}
		for _, q := range s.Terms {
			needed[q.Role] = needed[q.Role] || q.Role != parser.TakeoffOf || !said // what was said is not worked out
		}
		steps = append(steps, s)
	}
	slices.Reverse(steps)
	return steps
}

func isArithmetic(n figure.StepName) bool {
	switch n {
	case figure.StepConvert, figure.StepRoot, figure.StepTangent, figure.StepMultiply, figure.StepDivide, figure.StepAdd:
		return true
	case figure.StepMeasure, figure.StepCheck, figure.StepChoose, figure.StepMark, figure.StepDryFit, figure.StepJoin:
	}
	return false
}
