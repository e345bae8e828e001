package figure_test

import (
	"errors"
	"math"
	"testing"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"

	"gonum.org/v1/gonum/spatial/r3"
)

// outsides are those of PVC DWV, as ASTM D2665 prints them.
var outsides = map[catalog.Size]float64{"1-1/2": 1.9, "2": 2.375, "3": 3.5, "4": 4.5}

// rackOf is an ask for lines of these sizes, covered so thick, with clear space
// between.
func rackOf(clear float64, degrees float64, measures []parser.Measure, sizes []catalog.Size, covers []float64) parser.Ask {
	a := ask(parser.Parallel, geometry.Angle(degrees), append(measures, parser.Measure{
		Role: parser.Spacing, Length: geometry.Length(clear), Method: parser.InsideToInside,
	})...)
	a.Pipe = catalog.Pipe{Material: catalog.PVC, Use: catalog.DWV}
	for i, size := range sizes {
		a.Rack = append(a.Rack, parser.RackLine{Size: size, Insulation: geometry.Length(covers[i]), Takeoff: 2})
	}
	return a
}

// clearOf is how far two parallel lines stay from each other, square across, less
// half of each and what covers it.
func clearOf(p, q, along r3.Vec, first, second float64) float64 {
	between := r3.Sub(q, p)
	off := r3.Norm(r3.Sub(between, r3.Scale(r3.Dot(between, along)/r3.Dot(along, along), along)))
	return off - first - second
}

// TestRacksInSpace lays each line of a rack out from where its bend is said to
// begin, by vectors: before the turn, on the slant and behind it any two neighbors
// have the clear space between what covers them that was asked for. The bank lies
// side by side or one above the other, and steps to any side.
func TestRacksInSpace(t *testing.T) {
	r := chance(41)
	names := []catalog.Size{"1-1/2", "2", "3", "4"}
	for n := range laidOut {
		degrees := trade[1+r.IntN(5)]
		toward, measures := step(r, 15, 40)
		clear := onMarks(r, 1, 5)
		var sizes []catalog.Size
		var covers []float64
		for range 2 + r.IntN(4) {
			sizes = append(sizes, names[r.IntN(len(names))])
			covers = append(covers, float64(r.IntN(3))/2)
		}
		message := rackOf(clear, degrees, measures, sizes, covers)
		across := r3.Vec{Y: 1}
		if n%2 == 1 && toward.Z != 0 {
			message.Lie, across = parser.OneAbove, r3.Vec{Z: 1}
		}
		if n%3 == 0 {
			message.LineOne, across = parser.Toward, r3.Scale(-1, across)
		}
		a := solve(t, message, figure.Settings{})
		travel, run := figured(t, a, parser.Travel), figured(t, a, parser.Run)
		slant := r3.Add(r3.Scale(run, ahead), toward)
		for i, l := range a.Lines[1:] {
			before := a.Lines[i]
			p := r3.Add(r3.Scale(-before.Start.Inches(), ahead), r3.Scale(before.Spacing.Inches(), across))
			q := r3.Add(r3.Scale(-l.Start.Inches(), ahead), r3.Scale(l.Spacing.Inches(), across))
			first, second := outsides[sizes[i]]/2+covers[i], outsides[sizes[i+1]]/2+covers[i+1]
			for _, along := range []r3.Vec{ahead, slant} {
				if got := clearOf(p, q, along, first, second); math.Abs(got-clear) > 1e-9 {
					t.Fatalf("%v, %v of %v: lines %d and %d are clear by %v, want %v", degrees, sizes, covers, i+1, i+2, got, clear)
				}
			}
			if math.Abs(l.Clear.Inches()-clear) > 1e-9 || math.Abs(l.Cut.Inches()-(travel-4)) > 1e-9 {
				t.Fatalf("line %d: clear %v, cut %v of %v", l.Number, l.Clear, l.Cut, travel)
			}
		}
	}
}

// By hand, for 45s: 4 in and 2 in bare, 2 clear: 2.25 + 2 + 1.1875 = 5.4375 center to
// center, × tan 22.5° (0.41421) = 2.2523. Then 2 in to 1-1/2 in with 1 in around it:
// 1.1875 + 2 + 1 + 0.95 = 5.1375, × 0.41421 = 2.1280, in all 4.3803.
func TestRackByHand(t *testing.T) {
	message := rackOf(2, 45, []parser.Measure{m(parser.Set, 12)}, []catalog.Size{"4", "2", "1-1/2"}, []float64{0, 0, 1})
	a := solve(t, message, figure.Settings{})
	if a.Rack == nil || !a.Rack.Clear || !a.Rack.Uneven || a.Main != parser.Travel {
		t.Errorf("%+v, %s first", a.Rack, a.Main)
	}
	want := [][2]float64{{0, 0}, {5.4375, 2.252286}, {10.575, 4.380308}}
	for i, l := range a.Lines {
		if math.Abs(l.Spacing.Inches()-want[i][0]) > 1e-6 || math.Abs(l.Start.Inches()-want[i][1]) > 1e-6 {
			t.Errorf("line %d: %v over, %v sooner, want %v", l.Number, l.Spacing, l.Start, want[i])
		}
	}
	message.LineOne = parser.Toward
	if a = solve(t, message, figure.Settings{}); math.Abs(a.Lines[2].Start.Inches()+4.380308) > 1e-6 {
		t.Errorf("from the other side line 3 begins %v sooner", a.Lines[2].Start)
	}
}

// Lines whose centers are equally far apart have one stagger; two that would touch
// are refused, and so is a rack of one line, or of other many than were said.
func TestRackOfCenters(t *testing.T) {
	message := rackOf(0, 45, []parser.Measure{m(parser.Set, 12)}, []catalog.Size{"4", "2", "2"}, []float64{0, 0, 0})
	spacing := &message.Measures[len(message.Measures)-1]
	spacing.Method, spacing.Length = parser.Centers, 8
	a := solve(t, message, figure.Settings{})
	if got := figured(t, a, parser.Stagger); a.Main != parser.Stagger || math.Abs(got-8*math.Tan(math.Pi/8)) > 1e-9 || math.Abs(a.Lines[1].Clear.Inches()-(8-3.4375)) > 1e-9 {
		t.Errorf("stagger %v, clear %v", got, a.Lines[1].Clear)
	}
	spacing.Length = 3
	if _, err := figure.Solve(message, figure.Settings{}); !isImpossible(err) {
		t.Errorf("a 4 and a 2 in 3 in apart: %v", err)
	}
	spacing.Length, message.Lines = 8, 4
	var missing *figure.Missing
	if _, err := figure.Solve(message, figure.Settings{}); !errors.As(err, &missing) || missing.Wanted != parser.LineCount {
		t.Errorf("three of four lines: %v", err)
	}
}

func isImpossible(err error) bool {
	var impossible *figure.Impossible
	return errors.As(err, &impossible)
}
