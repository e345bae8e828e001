package geometry_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"dogleg/geometry"

	"pgregory.net/rapid"
)

// Lengths and angles as they come on a job: 5° to 80°, where no way of solving
// is at the mercy of a last bit.
var (
	anyLength = rapid.Map(rapid.Float64Range(1.0/16, 3000), func(v float64) geometry.Length { return geometry.Length(v) })
	anyAngle  = rapid.Map(rapid.Float64Range(5, 80), func(v float64) geometry.Angle { return geometry.Angle(v) })
	divisions = rapid.SampledFrom([]geometry.Division{geometry.Eighths, geometry.Sixteenths, geometry.ThirtySeconds})
	anyTape   = rapid.OneOf(
		rapid.Map(rapid.IntRange(-64*400, 64*400), func(n int) geometry.Length { return geometry.Length(n) / 64 }),
		rapid.Map(rapid.Float64Range(-2000, 2000), func(v float64) geometry.Length { return geometry.Length(v) }),
	)
)

func TestAnyTwoGiveTheOthers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o, err := geometry.SetAngle(anyLength.Draw(t, "set"), anyAngle.Draw(t, "angle"))
		if err != nil {
			t.Fatal(err)
		}
		for name, solve := range map[string]func() (geometry.Offset, error){
			"run, angle":    func() (geometry.Offset, error) { return geometry.RunAngle(o.Run, o.Angle) },
			"travel, angle": func() (geometry.Offset, error) { return geometry.TravelAngle(o.Travel, o.Angle) },
			"set, run":      func() (geometry.Offset, error) { return geometry.SetRun(o.Set, o.Run) },
			"set, travel":   func() (geometry.Offset, error) { return geometry.SetTravel(o.Set, o.Travel) },
			"run, travel":   func() (geometry.Offset, error) { return geometry.RunTravel(o.Run, o.Travel) },
		} {
			got, err := solve()
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			for side, pair := range map[string][2]float64{
				"set":    {float64(got.Set), float64(o.Set)},
				"run":    {float64(got.Run), float64(o.Run)},
				"travel": {float64(got.Travel), float64(o.Travel)},
				"angle":  {float64(got.Angle), float64(o.Angle)},
			} {
				if math.Abs(pair[0]-pair[1]) > 1e-11*pair[1] {
					t.Fatalf("%s of %s = %v, want %v", side, name, pair[0], pair[1])
				}
			}
		}
	})
}

func TestTapeIsWithinHalfADivision(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, d := anyTape.Draw(t, "length"), divisions.Draw(t, "division")
		half := 0.5/float64(d) + 1e-9
		if off := math.Abs(float64(l.Tape(d).Length() - l)); off > half {
			t.Fatalf("%v reads %v, %v off", l, l.Tape(d), off)
		}
		if over := float64(l.TapeUp(d).Length() - l); over < -1e-8 || over >= 2*half {
			t.Fatalf("%v rounded up reads %v, %v over", l, l.TapeUp(d), over)
		}
	})
}

func TestTapeReadsItsOwnMarks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, d := anyTape.Draw(t, "length"), divisions.Draw(t, "division")
		tape := l.Tape(d)
		again := tape.Length().Tape(d)
		if again.Length() != tape.Length() || again.Lean != geometry.OnMark {
			t.Fatalf("%v reads %v, and that reads %v", l, tape, again)
		}
		if got := written(t, tape.String()); got != tape.Length() {
			t.Fatalf("%q says %v, want %v", tape, got, tape.Length())
		}
		if got := written(t, tape.FeetInches()); got != tape.Length() {
			t.Fatalf("%q says %v, want %v", tape.FeetInches(), got, tape.Length())
		}
	})
}

func TestTapeIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, d := anyTape.Draw(t, "a"), anyTape.Draw(t, "b"), divisions.Draw(t, "division")
		if a > b {
			a, b = b, a
		}
		if a.Tape(d).Length() > b.Tape(d).Length() {
			t.Fatalf("%v reads %v, more than %v for %v", a, a.Tape(d), b.Tape(d), b)
		}
		if a.TapeUp(d).Length() > b.TapeUp(d).Length() {
			t.Fatalf("%v rounds up to %v, more than %v for %v", a, a.TapeUp(d), b.TapeUp(d), b)
		}
	})
}

func TestMetricIsWithinHalfADecimal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, decimals := anyTape.Draw(t, "length"), rapid.IntRange(0, 3).Draw(t, "decimals")
		text, found := strings.CutSuffix(l.Metric(decimals), " mm")
		got, err := strconv.ParseFloat(text, 64)
		if !found || err != nil {
			t.Fatalf("%v reads %q", l, l.Metric(decimals))
		}
		if off := math.Abs(got - l.Millimeters()); off > 0.5*math.Pow(10, -float64(decimals))+1e-8 {
			t.Fatalf("%v mm reads %s, %v off", l.Millimeters(), text, off)
		}
	})
}

// written reads a mark back from how it is written: 14-3/4, 1' 6-1/2", -5/8.
func written(t *rapid.T, s string) geometry.Length {
	sum := 0.0
	rest, negative := strings.CutPrefix(strings.TrimSuffix(s, `"`), "-")
	if feet, inches, found := strings.Cut(rest, "' "); found {
		sum, rest = 12*number(t, feet), inches
	}
	if whole, fraction, found := strings.Cut(rest, "-"); found {
		sum, rest = sum+number(t, whole), fraction
	}
	over, under, found := strings.Cut(rest, "/")
	if !found {
		under = "1"
	}
	sum += number(t, over) / number(t, under)
	if negative {
		sum = -sum
	}
	return geometry.Length(sum)
}

func number(t *rapid.T, s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
