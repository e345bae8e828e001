package figure_test

import (
	"math"
	"slices"
	"testing"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// worked is what a step's terms make by plain arithmetic; false for a step
// that has none.
func worked(s figure.Step) (float64, bool) {
	sum, squares := 0.0, 0.0
	for _, q := range s.Terms {
		sign, times := 1.0, 1.0
		if q.Minus {
			sign = -1
		}
		if q.Times > 1 {
			times = float64(q.Times)
		}
		l := q.Length.Inches()
		sum += sign * times * l
		squares += sign * l * l
	}
	switch s.Name {
	case figure.StepConvert, figure.StepAdd:
		return sum, true
	case figure.StepRoot:
		return math.Sqrt(squares), true
	case figure.StepMultiply:
		return sum * s.Factor, true
	case figure.StepDivide:
		return sum / s.Factor, true
	case figure.StepTangent:
		return math.Atan2(s.Terms[0].Length.Inches(), s.Terms[1].Length.Inches()) * 180 / math.Pi, true
	case figure.StepMeasure, figure.StepCheck, figure.StepChoose, figure.StepMark, figure.StepDryFit, figure.StepJoin:
	}
	return 0, false
}

// everyKind has an ask of each kind that has steps, in the ways they differ.
func everyKind() map[string]parser.Ask {
	alike := func(a parser.Ask) parser.Ask { return takeoffs(a, 1.0625, 1.0625) }
	graded := func(a parser.Ask) parser.Ask { a.Grade = geometry.InchPerFoot / 4; return a }
	wanted := func(a parser.Ask, r parser.Role) parser.Ask { a.Want = r; return a }
	bank := alike(ask(parser.Parallel, 45, m(parser.Set, 15.25), m(parser.Spacing, 6.5)))
	bank.Lines = 3
	rolling := alike(ask(parser.Offset, 60, m(parser.Roll, 7.25), m(parser.Rise, 10.5)))
	return map[string]parser.Ask{
		"offset":              alike(ask(parser.Offset, 45, m(parser.Set, 9.375))),
		"unlike ends":         takeoffs(ask(parser.Offset, 22.5, m(parser.Set, 5.6875)), 0.8125, 1.25),
		"rolling":             rolling,
		"roll angle":          wanted(rolling, parser.RollAngle),
		"with a gap":          alike(ask(parser.Offset, 45, m(parser.Set, 19.3125), m(parser.JointGap, 0.125))),
		"over the outsides":   alike(pipe(ask(parser.Offset, 45, by(parser.Set, 11.75, parser.OutsideToOutside)), drain2)),
		"from the cut":        alike(ask(parser.Offset, 22.5, m(parser.Cut, 11.1875))),
		"from the end gap":    alike(ask(parser.Offset, 45, m(parser.EndGap, 11.5))),
		"from the run":        alike(ask(parser.Offset, 60, m(parser.Run, 13.1875))),
		"travel wanted":       wanted(alike(ask(parser.Offset, 45, m(parser.Set, 9.375))), parser.Travel),
		"end gap wanted":      wanted(alike(ask(parser.Offset, 45, m(parser.Set, 9.375))), parser.EndGap),
		"set and run":         ask(parser.Offset, 0, m(parser.Set, 7.625), m(parser.Run, 10.875)),
		"set and travel":      ask(parser.Offset, 0, m(parser.Set, 7.625), m(parser.Travel, 19.25)),
		"run and travel":      ask(parser.Offset, 0, m(parser.Run, 7.625), m(parser.Travel, 19.25)),
		"hub and spigot":      pipe(ask(parser.Offset, 45, m(parser.Set, 20.5)), catalog.Pipe{Material: catalog.CastIron, Joint: catalog.Hub, Size: "4"}),
		"fit":                 pipe(ask(parser.Fit, 0, m(parser.Set, 8.75), m(parser.Room, 21.25)), drain2),
		"fit of a run":        ask(parser.Fit, 0, m(parser.Set, 8.75), m(parser.Run, 21.25)),
		"piece":               takeoffs(ask(parser.Piece, 0, m(parser.CenterToCenter, 23.8125)), 1.375, 1.125),
		"piece between faces": depths(ask(parser.Piece, 0, by(parser.CenterToCenter, 54, parser.FaceToFace)), 0.75, 0.75),
		"piece backward":      alike(ask(parser.Piece, 0, m(parser.Cut, 21.3125))),
		"mark":                alike(ask(parser.Mark, 45, m(parser.Set, 6.75), m(parser.Reading, 31.5), m(parser.Reading, 36.75))),
		"mark, overlap":       alike(ask(parser.Mark, 45, m(parser.Set, 6.75), m(parser.Overlap, 2))),
		"parallel":            bank,
		"around":              alike(pipe(ask(parser.Around, 45, m(parser.Reach, 5.25), m(parser.Clearance, 1)), threaded2)),
		"fall":                graded(ask(parser.Fall, 0, m(parser.Long, 328))),
		"fall with an offset": graded(ask(parser.Fall, 45, m(parser.Long, 96), m(parser.Long, 60), m(parser.Set, 16.5))),
		"grade of a fall":     ask(parser.Fall, 0, m(parser.Long, 328), m(parser.Drop, 6.375)),
		"angle of a fit":      wanted(pipe(ask(parser.Fit, 0, m(parser.Set, 8.75), m(parser.Run, 21.25)), drain2), parser.AngleOf),
		"angle in a room":     wanted(pipe(ask(parser.Fit, 0, m(parser.Set, 8.75), m(parser.Room, 21.25)), drain2), parser.AngleOf),
		"length of a fall":    graded(ask(parser.Fall, 0, m(parser.Drop, 6.375))),
		"invert":              graded(ask(parser.Fall, 0, m(parser.Long, 328), m(parser.Upper, 96))),
		"trim":                pipe(ask(parser.Trim, 18), welded3),
		"sum":                 {Kind: parser.Sum, Sum: &parser.Arithmetic{Terms: []parser.Term{{Length: 16.9375}, {Length: 3}}, Operators: []parser.Operator{'-'}}},
		"check":               ask(parser.Check, 45, m(parser.Cut, 10.1875), m(parser.DryFit, 8.625), m(parser.Set, 8.25)),
		"check without cut":   ask(parser.Check, 45, m(parser.DryFit, 8.625), m(parser.Set, 8.25)),
		"takeoff by dry fit":  pipe(ask(parser.Takeoff, 45, m(parser.Cut, 10.1875), m(parser.DryFit, 8.625)), drain2),
	}
}

// Whoever works the steps with a pencil comes to the answer.
func TestStepsMakeTheAnswer(t *testing.T) {
	for name, message := range everyKind() {
		for _, set := range []figure.HandbookSet{figure.ExactFigures, figure.TwoDecimals} {
			t.Run(name+" "+string(set), func(t *testing.T) {
				a := solve(t, message, figure.Settings{Handbook: set})
				last := figure.Step{}
				for _, s := range a.Steps {
					result := s.Result.Length.Inches()
					if s.Result.Angle != 0 {
						result = s.Result.Angle.Degrees()
					}
					if got, ok := worked(s); ok && math.Abs(got-result) > eps {
						t.Errorf("%s (%s): terms make %v, the step says %v", s.Name, s.Rule, got, result)
					}
					if s.Result != (figure.Quantity{}) {
						last = s
					}
				}
				checkLast(t, a, last)
			})
		}
	}
}

func checkLast(t *testing.T, a *figure.Answer, last figure.Step) {
	t.Helper()
	if a.Main == parser.Cut && last.Result.Role == parser.PipeLength {
		return // the same with the part in the hub: as it is sawn
	}
	if last.Result.Role != a.Main {
		t.Fatalf("last step makes %s, the main figure is %s", last.Result.Role, a.Main)
	}
	switch a.Main {
	case parser.AngleOf:
		wantAngle(t, "last step", last.Result.Angle, a.Angle.Degrees())
	case parser.RollAngle:
		wantAngle(t, "last step", last.Result.Angle, a.RollAngle.Degrees())
	case parser.Grade: // inches on each foot
		if got := last.Result.Length.Inches(); math.Abs(got-12*float64(a.Grade)) > eps {
			t.Errorf("last step makes %v, the grade is %v", got, a.Grade)
		}
	default:
		wantLength(t, a, a.Main, last.Result.Length.Inches())
	}
}

// What a step works with was measured, or made by an earlier step.
func TestStepsBuildOnEachOther(t *testing.T) {
	for name, message := range everyKind() {
		a := solve(t, message, figure.Settings{})
		made := []geometry.Length{}
		for _, s := range a.Steps {
			for _, q := range s.Terms {
				if !slices.Contains(made, q.Length) && computed(q.Role) {
					t.Errorf("%s: %s works with %s %v, which nothing made before", name, s.Rule, q.Role, q.Length)
				}
			}
			made = append(made, s.Result.Length)
		}
	}
}

// computed says whether a role is one that only steps can bring.
func computed(r parser.Role) bool {
	switch r {
	case parser.Travel, parser.Run, parser.EndGap, parser.TrimOff:
		return true
	}
	return false
}

// On site: mark what stands, mark the piece, put it together dry, join.
func TestStepsEndOnSite(t *testing.T) {
	a := solve(t, takeoffs(ask(parser.Offset, 45, m(parser.Set, 9.375)), 1.0625, 1.0625), figure.Settings{})
	var names []figure.StepName
	for _, s := range a.Steps[len(a.Steps)-4:] {
		names = append(names, s.Name)
	}
	want := []figure.StepName{figure.StepMark, figure.StepMark, figure.StepDryFit, figure.StepJoin}
	if !slices.Equal(names, want) {
		t.Errorf("steps end with %v, want %v", names, want)
	}
}
