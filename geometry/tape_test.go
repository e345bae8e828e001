package geometry_test

import (
	"fmt"
	"math"
	"testing"

	"dogleg/geometry"
)

func TestTapeReads(t *testing.T) {
	for _, c := range []struct {
		length   geometry.Length
		division geometry.Division
		reads    string
		lean     geometry.Lean
	}{
		{14.75, geometry.Sixteenths, "14-3/4", geometry.OnMark},
		{0.625, geometry.Sixteenths, "5/8", geometry.OnMark},
		{9, geometry.Sixteenths, "9", geometry.OnMark},
		{0, geometry.Sixteenths, "0", geometry.OnMark},
		{-2.0625, geometry.Sixteenths, "-2-1/16", geometry.OnMark},
		{14.75 + 1.0/64, geometry.Sixteenths, "14-3/4", geometry.OnMark}, // a hair is not yet heavy
		{14.75 + 1.1/64, geometry.Sixteenths, "14-3/4", geometry.Heavy},
		{14.75 - 1.1/64, geometry.Sixteenths, "14-3/4", geometry.Light},
		{-14.75 - 1.1/64, geometry.Sixteenths, "-14-3/4", geometry.Heavy},
		{1.1 / 64, geometry.Sixteenths, "0", geometry.Heavy},
		{-1.1 / 64, geometry.Sixteenths, "0", geometry.Light},
		{14.75 - 1.0/64, geometry.Sixteenths, "14-3/4", geometry.OnMark},
		{14.75 + 1.0/64 + 1e-12, geometry.Sixteenths, "14-3/4", geometry.OnMark}, // nor for a last bit
		{14.75 - 1.0/64 - 1e-12, geometry.Sixteenths, "14-3/4", geometry.OnMark},
		{8.53125 - 1e-12, geometry.Sixteenths, "8-9/16", geometry.Light}, // half-way but for a last bit
		{8.53125 - 1e-6, geometry.Sixteenths, "8-1/2", geometry.Heavy},
		{14 + 49.0/64, geometry.ThirtySeconds, "14-25/32", geometry.OnMark},
		{14.8125, geometry.Eighths, "14-7/8", geometry.Light}, // half-way goes up
		{14.8, geometry.Eighths, "14-3/4", geometry.Heavy},
		{14.8125, geometry.ThirtySeconds, "14-13/16", geometry.OnMark},
		{14.78125, geometry.ThirtySeconds, "14-25/32", geometry.OnMark},
		{14.78125, 0, "14-13/16", geometry.Light},            // no division is sixteenths
		{11.999, geometry.Sixteenths, "12", geometry.OnMark}, // carries over
	} {
		got := c.length.Tape(c.division)
		if got.String() != c.reads || got.Lean != c.lean {
			t.Errorf("%v in 1/%d reads %q %d, want %q %d", c.length, c.division, got, got.Lean, c.reads, c.lean)
		}
	}
}

// What is no length on a tape reads as zero.
func TestTapeReadsNothing(t *testing.T) {
	for _, l := range []geometry.Length{
		geometry.Length(math.NaN()), geometry.Length(math.Inf(1)), geometry.Length(math.Inf(-1)), geometry.Longest + 1,
	} {
		if got := l.Tape(geometry.Sixteenths).FeetInches(); got != `0"` {
			t.Errorf("%v reads %s", l, got)
		}
		if got := l.TapeUp(geometry.Sixteenths).String(); got != "0" {
			t.Errorf("%v rounded up reads %s", l, got)
		}
	}
}

// Every 64th of an inch on either side of nothing, by counting in whole 64ths:
// half-way goes away from zero.
func TestTapeCountsEvery64th(t *testing.T) {
	for _, d := range []geometry.Division{geometry.Eighths, geometry.Sixteenths, geometry.ThirtySeconds} {
		part := 64 / int(d)
		for n := -640; n <= 640; n++ {
			size, sign := n, 1
			if n < 0 {
				size, sign = -n, -1
			}
			want := sign * ((size + part/2) / part * part)
			got := (geometry.Length(n) / 64).Tape(d).Length() * 64
			if int(got) != want {
				t.Errorf("%d/64 in 1/%d reads %v/64, want %d/64", n, d, got, want)
			}
		}
	}
}

// Set 5-1/64, 30°, takeoff 3/4 and its like fall exactly between two marks;
// the values were computed independently, in whole 64ths.
func TestHalfWayGoesUp(t *testing.T) {
	for _, c := range []struct {
		set, cut geometry.Length
		reads    string
		toEven   string // what rounding half to even would read
	}{
		{5 + 1.0/64, 8.53125, "8-9/16", "8-1/2"},
		{7 + 3.0/64, 12.59375, "12-5/8", "12-5/8"},
		{9 + 5.0/64, 16.65625, "16-11/16", "16-5/8"},
	} {
		o := must[geometry.Offset](t)(geometry.SetAngle(c.set, 30))
		cut := figure(t)(geometry.Cut(o.Travel, alike(0.75)))
		if cut != c.cut {
			t.Errorf("cut of set %v = %v, want exactly %v", c.set, cut, c.cut)
		}
		if got := cut.Tape(geometry.Sixteenths).String(); got != c.reads {
			t.Errorf("%v reads %s, want %s (half to even: %s)", cut, got, c.reads, c.toEven)
		}
	}
	// 13.258252… by 1.41: 9.375 × 1.41 - 2-1/8, exactly 11-3/32
	if got := geometry.Length(11.09375).Tape(geometry.Sixteenths).String(); got != "11-1/8" {
		t.Errorf("11-3/32 reads %s, want 11-1/8", got)
	}
}

// A cut is rounded once. Rounding travel and takeoff first reads differently
// where the takeoff is no whole sixteenth; the values were computed
// independently at full precision.
func TestRoundOnce(t *testing.T) {
	for _, c := range []struct {
		set   geometry.Length
		angle geometry.Angle
		cut   geometry.Length
		right string
		early string
	}{
		{3.4375, 45, 3.048859120657514, "3-1/16", "3"},
		{3.5625, 45, 3.225635815954152, "3-1/4", "3-3/16"},
		{2, 22.5, 3.4137518595055063, "3-7/16", "3-3/8"},
	} {
		const takeoff = 29.0 / 32
		o := must[geometry.Offset](t)(geometry.SetAngle(c.set, c.angle))
		cut := figure(t)(geometry.Cut(o.Travel, alike(takeoff)))
		near(t, "cut", cut, c.cut, exact)
		if got := cut.Tape(geometry.Sixteenths).String(); got != c.right {
			t.Errorf("%v reads %s, want %s", cut, got, c.right)
		}
		rounded := func(l geometry.Length) geometry.Length { return l.Tape(geometry.Sixteenths).Length() }
		early := rounded(o.Travel) - 2*rounded(takeoff)
		if got := early.Tape(geometry.Sixteenths).String(); got != c.early {
			t.Errorf("rounded early: %s, want %s", got, c.early)
		}
	}
}

func TestClearancesRoundUp(t *testing.T) {
	for _, c := range []struct {
		length geometry.Length
		up     string
	}{
		{8.343592167691146, "8-3/8"},
		{7.4375, "7-7/16"},
		{5.2, "5-1/4"},
		{3, "3"},
		{3 + 1e-12, "3"},
		{3.0001, "3-1/16"},
		{-3.0001, "-3"},
	} {
		if got := c.length.TapeUp(geometry.Sixteenths).String(); got != c.up {
			t.Errorf("%v rounded up reads %s, want %s", c.length, got, c.up)
		}
	}
}

func TestFeetAndInches(t *testing.T) {
	for _, c := range []struct {
		length geometry.Length
		want   string
	}{
		{18.5, `1' 6-1/2"`},
		{48, `4' 0"`},
		{12, `1' 0"`},
		{9.125, `9-1/8"`},
		{11.99, `1' 0"`},
		{-18.5, `-1' 6-1/2"`},
		{0.5, `1/2"`},
		{12.5, `1' 1/2"`},
		// decimal feet read in feet and inches, as printed on a page for surveyors
		{8.62 * foot, `8' 7-7/16"`},
		{5.92 * foot, `5' 11-1/16"`},
		{12.39 * foot, `12' 4-11/16"`},
		{63.88, `5' 3-7/8"`},
		{18.649 * foot, `18' 7-13/16"`},
		{12.7658 * foot, `12' 9-3/16"`},
	} {
		if got := c.length.Tape(geometry.Sixteenths).FeetInches(); got != c.want {
			t.Errorf("%v reads %s, want %s", c.length, got, c.want)
		}
	}
}

// The first four values were computed independently.
func TestSums(t *testing.T) {
	for _, c := range []struct {
		sum, want  geometry.Length
		mark, lean string
	}{
		{16.9375 - 3 - 2.875, 11.0625, "11-1/16", ""},
		{5*foot + 2.25*inch + 18*geometry.Millimeter, 62.95866141732284, "62-15/16", "heavy"},
		{425 * geometry.Millimeter, 16.73228346456693, "16-3/4", "light"},
		{5.5625 + 3.875 - 7.2369 + 9.9167, 12.1173, "12-1/8", ""}, // an exam page prints 12-1/16, a slip
	} {
		near(t, "sum", c.sum, c.want, exact)
		reads(t, "sum", c.sum, c.mark, c.lean)
	}
}

func TestMetric(t *testing.T) {
	for _, c := range []struct {
		length   geometry.Length
		decimals int
		want     string
	}{
		{425 * geometry.Millimeter, 0, "425 mm"},
		{282.58282784479667 * geometry.Millimeter, 1, "282.6 mm"},
		{0.5 * geometry.Millimeter, 0, "1 mm"},
		{-0.5 * geometry.Millimeter, 0, "-1 mm"},
		{-0.4 * geometry.Millimeter, 0, "0 mm"},
		{10.25 * geometry.Millimeter, 1, "10.3 mm"},
		{(1.5 - 1e-12) * geometry.Millimeter, 0, "2 mm"}, // half-way but for a last bit
		{(1.5 - 1e-6) * geometry.Millimeter, 0, "1 mm"},
		{2 * geometry.Centimeter, 0, "20 mm"},
	} {
		if got := c.length.Metric(c.decimals); got != c.want {
			t.Errorf("%v reads %s, want %s", c.length, got, c.want)
		}
	}
}

func TestStringsForDebugging(t *testing.T) {
	got := fmt.Sprint(14.75*inch, " ", geometry.SixteenthBend, " ", geometry.InchPerFoot/4)
	if want := "14.75 in 22.5° 0.25 in/ft"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
