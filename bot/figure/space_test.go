package figure_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"

	"gonum.org/v1/gonum/spatial/r3"
)

// What dogleg answers is laid out in space here by vectors and turns of
// gonum's, with nothing of packages geometry and walk but the types that an ask
// is written in. x runs along the line, y is level across it, z is up.

// spaceSeed makes the asks of the checks in space the same in every run.
const spaceSeed = 20261130

func chance(of uint64) *rand.Rand { return rand.New(rand.NewPCG(spaceSeed, of)) }

// onMarks draws a length from one number of inches to another.
func onMarks(r *rand.Rand, from, to int) float64 {
	return float64(16*from+r.IntN(16*(to-from)+1)) / 16
}

var ahead = r3.Vec{X: 1}

// radians are those of an angle in degrees.
func radians(degrees float64) float64 { return degrees * math.Pi / 180 }

// turned is the heading after a bend toward a direction that is square to x.
func turned(degrees float64, toward r3.Vec) r3.Vec {
	return r3.NewRotation(radians(degrees), r3.Cross(ahead, r3.Unit(toward))).Rotate(ahead)
}

// apart is how far a point lies from a straight line.
func apart(point, from, heading r3.Vec) float64 {
	return r3.Norm(r3.Cross(r3.Sub(point, from), r3.Unit(heading)))
}

func figured(t *testing.T, a *figure.Answer, r parser.Role) float64 {
	t.Helper()
	l, ok := a.Length(r)
	if !ok {
		t.Fatalf("no %s is figured of %+v", r, a.Ask)
	}
	return l.Inches()
}

var trade = []float64{90, 72, 60, 45, 30, 22.5, 11.25, 5.625}

// TestBanksInSpace lays out 1,000 banks, of every way to lie and to step: with
// the stagger that is answered each two diagonals run as far apart as the lines
// do before and after, and without it as far as is said.
func TestBanksInSpace(t *testing.T) {
	r := chance(1)
	for range 1000 {
		angle, spacing, count := trade[r.IntN(len(trade))], onMarks(r, 2, 24), 2+r.IntN(5)
		roll, rise := onMarks(r, 1, 40), onMarks(r, 1, 40)
		ask := ask(parser.Parallel, geometry.Angle(angle), m(parser.Spacing, spacing))
		ask.Lines = count
		step := r3.Vec{Y: roll, Z: rise}
		switch r.IntN(4) {
		case 0:
			step.Y = 0
			ask.Measures = append(ask.Measures, m(parser.Rise, rise))
		case 1:
			step.Z = 0
			ask.Measures = append(ask.Measures, m(parser.Roll, roll))
		default:
			ask.Measures = append(ask.Measures, m(parser.Roll, roll), m(parser.Rise, rise))
		}
		beside := r3.Vec{Y: 1}
		switch r.IntN(3) {
		case 0:
			ask.Lie, beside = parser.OneAbove, r3.Vec{Z: 1}
		case 1:
			ask.Lie = parser.SideBySide
		}
		a := solve(t, ask, figure.Settings{})
		heading := turned(angle, step)
		for i := range a.Lines[1:] {
			first, next := a.Lines[i], a.Lines[i+1]
			at := func(l figure.Line, start float64) r3.Vec {
				return r3.Add(r3.Vec{X: -start}, r3.Scale(l.Spacing.Inches(), beside))
			}
			if got := apart(at(next, next.Start.Inches()), at(first, first.Start.Inches()), heading); math.Abs(got-spacing) > 1e-9 {
				t.Fatalf("%+v: lines %d and %d run %v apart on the diagonal, %v before", ask, i+1, i+2, got, spacing)
			}
			if got := apart(at(next, 0), at(first, 0), heading); math.Abs(got-a.Unstaggered.Inches()) > 1e-9 {
				t.Fatalf("%+v: bent at one place they close up to %v, it says %v", ask, got, a.Unstaggered)
			}
		}
	}
}

// TestARackThatRisesHasNoStagger: lines side by side that all go up keep their
// spacing, wherever they bend. Stacked lines that roll 10 and rise 7 stagger by
// the part of the spacing that lies along the step: 8 × 7/√149 × tan 22-1/2°.
func TestARackThatRisesHasNoStagger(t *testing.T) {
	rack := ask(parser.Parallel, 45, m(parser.Spacing, 8), m(parser.Rise, 12))
	a := solve(t, rack, figure.Settings{})
	wantLength(t, a, parser.Stagger, 0)
	if math.Abs(a.Unstaggered.Inches()-8) > eps || !a.Bank.Taken || !a.Bank.Differ {
		t.Errorf("bank %+v closes up to %v", a.Bank, a.Unstaggered)
	}
	stacked := ask(parser.Parallel, 45, m(parser.Spacing, 8), m(parser.Roll, 10), m(parser.Rise, 7))
	stacked.Lie = parser.OneAbove
	wantLength(t, solve(t, stacked, figure.Settings{}), parser.Stagger, 8*7/math.Sqrt(149)*math.Tan(math.Pi/8))
}
