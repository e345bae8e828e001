package geometry_test

import (
	"math"
	"testing"

	"dogleg/geometry"

	"gonum.org/v1/gonum/spatial/r3"
)

// A corner of two 45s whose legs are 12 has a travel of 16.9706 that passes 8.4853
// from the corner (computed apart); one of a 60 and a 30 closes as three points in
// a plane do.
func TestCorner(t *testing.T) {
	c := figure2(t)(geometry.CornerLeg(12, 0, [2]geometry.Angle{45, 45}))
	near(t, "travel", c.Travel, 16.970562748477143, exact)
	near(t, "square", c.Square, 8.485281374238571, exact)
	near(t, "other leg", c.Legs[1], 12, exact)
	c = figure2(t)(geometry.CornerLeg(12, 1, [2]geometry.Angle{60, 30}))
	first, second := r3.Vec{X: -c.Legs[0].Inches()}, r3.Vec{Y: 12}
	across := r3.Sub(second, first)
	near(t, "travel", c.Travel, geometry.Length(r3.Norm(across)), exact)
	if turn := math.Acos(r3.Dot(r3.Unit(across), r3.Vec{X: 1})) * 180 / math.Pi; math.Abs(turn-60) > 1e-9 {
		t.Errorf("the first bend turns %v", turn)
	}
	if _, err := geometry.CornerLeg(12, 0, [2]geometry.Angle{90, 90}); err == nil {
		t.Error("two 90s have no corner")
	}
}

func figure2(t *testing.T) func(geometry.Corner, error) geometry.Corner {
	return func(c geometry.Corner, err error) geometry.Corner {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
}

// A 2 in pipe square on a 4 in: 2.25 - √(2.25² - 1.1875²) deep, by a right triangle
// worked by hand: 2.25 - 1.9111. One of its own size reaches to the centerline.
func TestSaddle(t *testing.T) {
	s := geometry.Saddle{Branch: 2.375, Header: 4.5, Angle: 90}
	longest, heel, err := s.Longest()
	if err != nil || heel {
		t.Fatalf("%v, at the heel: %v", err, heel)
	}
	shortest := figure(t)(s.Shortest())
	near(t, "shortest", shortest, 2.25, exact)
	near(t, "longest", longest, 1.9111, 5e-5)
	equal := geometry.Saddle{Branch: 4.5, Header: 4.5, Angle: 90}
	near(t, "equal sizes", figure(t)(equal.At(90)), 2.25, exact)
	if _, err := (geometry.Saddle{Branch: 4.5, Header: 2.375, Angle: 90}).Shortest(); err == nil {
		t.Error("a pipe sits on a smaller one")
	}
}
