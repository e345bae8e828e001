package figure_test

import (
	"slices"
	"testing"

	"dogleg/bot/figure"
	"dogleg/parser"
)

// siteOrder is the order of the work; a step may stand beside others of its
// own place.
var siteOrder = map[figure.StepName]int{
	figure.StepMeasure: 1, figure.StepCheck: 2, figure.StepChoose: 3,
	figure.StepConvert: 4, figure.StepRoot: 4, figure.StepTangent: 4,
	figure.StepMultiply: 4, figure.StepDivide: 4, figure.StepAdd: 4,
	figure.StepMark: 5, figure.StepDryFit: 6, figure.StepJoin: 7,
}

func TestStepsComeInSiteOrder(t *testing.T) {
	for name, message := range everyKind() {
		a := solve(t, message, figure.Settings{})
		if len(a.Steps) == 0 {
			t.Errorf("%s has no steps", name)
		}
		if !slices.IsSortedFunc(a.Steps, func(x, y figure.Step) int { return siteOrder[x.Name] - siteOrder[y.Name] }) {
			t.Errorf("%s: the steps come as %v", name, stepNames(a))
		}
		if got, want := slices.Contains(stepNames(a), figure.StepCheck), slices.Contains(stepNames(a), figure.StepMeasure); got != want {
			t.Errorf("%s: what was measured is checked: %v, want %v", name, got, want)
		}
	}
}

// No step is missing: whatever is built is chosen, figured, marked, put
// together dry and joined.
func TestStepsAreWhole(t *testing.T) {
	onSite := []figure.StepName{figure.StepMark, figure.StepDryFit, figure.StepJoin}
	for name, wanted := range map[string][]figure.StepName{
		"offset":              append([]figure.StepName{figure.StepMeasure, figure.StepChoose, figure.StepMultiply, figure.StepAdd}, onSite...),
		"rolling":             append([]figure.StepName{figure.StepMeasure, figure.StepChoose, figure.StepRoot, figure.StepMultiply, figure.StepAdd}, onSite...),
		"fit":                 append([]figure.StepName{figure.StepMeasure, figure.StepChoose, figure.StepMultiply, figure.StepAdd}, onSite...),
		"piece":               append([]figure.StepName{figure.StepMeasure, figure.StepAdd}, onSite...),
		"piece between faces": append([]figure.StepName{figure.StepMeasure, figure.StepAdd}, onSite...),
		"mark":                append([]figure.StepName{figure.StepMeasure, figure.StepChoose, figure.StepMultiply, figure.StepAdd}, onSite...),
		"parallel":            append([]figure.StepName{figure.StepMeasure, figure.StepChoose, figure.StepMultiply}, onSite...),
		"around":              append([]figure.StepName{figure.StepMeasure, figure.StepChoose, figure.StepMultiply, figure.StepAdd}, onSite...),
		"fall":                append([]figure.StepName{figure.StepMeasure, figure.StepMultiply}, onSite...),
		"trim":                append([]figure.StepName{figure.StepChoose, figure.StepMultiply}, onSite...),
		"check":               append([]figure.StepName{figure.StepMeasure, figure.StepMultiply, figure.StepAdd}, onSite...),
		"set and run":         {figure.StepMeasure, figure.StepRoot, figure.StepTangent},
		"sum":                 {figure.StepAdd},
		"takeoff by dry fit":  {figure.StepMeasure, figure.StepMultiply, figure.StepAdd, figure.StepDivide},
	} {
		names := stepNames(solve(t, everyKind()[name], figure.Settings{}))
		for _, step := range wanted {
			if !slices.Contains(names, step) {
				t.Errorf("%s: no step %q in %v", name, step, names)
			}
		}
	}
}

// Every length that was said is measured in a step, except of a fitting.
func TestEveryMeasureIsAStep(t *testing.T) {
	for name, message := range everyKind() {
		a := solve(t, message, figure.Settings{})
		for _, m := range message.Measures {
			said := slices.ContainsFunc(a.Steps, func(s figure.Step) bool {
				return s.Result.Role == m.Role && s.Result.Length == m.Length || slices.ContainsFunc(s.Terms, func(q figure.Quantity) bool {
					return q.Length == m.Length || q.Length == -m.Length
				})
			})
			if !said {
				t.Errorf("%s: %s %v is in no step", name, m.Role, m.Length)
			}
		}
	}
}

// The triangle whose set is 1 makes the multipliers: of 60, 1 ÷ √3 is the run
// and 2 ÷ √3 the travel.
func TestMultipliersAreExplained(t *testing.T) {
	for _, a := range []float64{5.625, 11.25, 22.5, 45, 60, 72, 90} {
		answer := solve(t, ask(parser.Multiplier, angleOf(a)), figure.Settings{})
		last := answer.Steps[len(answer.Steps)-1]
		if got, ok := worked(last); !ok || got < last.Result.Length.Inches()-eps || got > last.Result.Length.Inches()+eps {
			t.Errorf("%v: the squares make %v, the travel is %v", a, got, last.Result.Length)
		}
		if travel := answer.Factors[0].Exact; travel != last.Result.Length.Inches() {
			t.Errorf("%v: travel of 1 is %v, the multiplier %v", a, last.Result.Length, travel)
		}
	}
}

func stepNames(a *figure.Answer) []figure.StepName {
	var names []figure.StepName
	for _, s := range a.Steps {
		names = append(names, s.Name)
	}
	return names
}
