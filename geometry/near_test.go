package geometry_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"dogleg/geometry"
)

// exact is the tolerance of a comparison with a value that was computed
// independently at full precision, in inches or degrees.
const exact = 1e-9

// near reports a figure that is not what it should be.
func near[F ~float64](t *testing.T, what string, got, want, tolerance F) {
	t.Helper()
	if !(math.Abs(float64(got-want)) <= float64(tolerance)) {
		t.Errorf("%s = %.15g, want %.15g ± %.1g", what, float64(got), float64(want), float64(tolerance))
	}
}

// must fails the test on an error, and hands out the figure.
func must[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// figure is must for lengths, by far the commonest.
func figure(t testing.TB) func(geometry.Length, error) geometry.Length {
	return must[geometry.Length](t)
}

// printed reads a printed figure with half a unit of its last digit, the
// tolerance of a print that is correctly rounded.
func printed(t testing.TB, s string) (value, halfUnit float64) {
	t.Helper()
	value, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	_, decimals, _ := strings.Cut(s, ".")
	return value, 0.5 * math.Pow(10, -float64(len(decimals)))
}

// reads reports a length that does not read as wanted on a tape; lean is heavy,
// light or nothing.
func reads(t *testing.T, what string, l geometry.Length, mark, lean string) {
	t.Helper()
	tape := l.Tape(geometry.Sixteenths)
	got := map[geometry.Lean]string{geometry.Heavy: "heavy", geometry.Light: "light"}[tape.Lean]
	if tape.String() != mark || got != lean {
		t.Errorf("%s of %v reads %s %s, want %s %s", what, l, tape, got, mark, lean)
	}
}

// alike is a piece with the same takeoff at both ends and no gaps.
func alike(takeoff geometry.Length) geometry.Ends {
	return geometry.Ends{Takeoffs: [2]geometry.Length{takeoff, takeoff}}
}
