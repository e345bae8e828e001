package geometry_test

import (
	"testing"

	"dogleg/geometry"
)

// The first two values were computed independently at full precision; the
// others are counted by hand.
func TestMethodsOfMeasuring(t *testing.T) {
	for _, c := range []struct {
		name string
		got  func() (geometry.Length, error)
		want geometry.Length
	}{
		{
			"11-3/4 over 2-3/8 and 1.9 pipe",
			func() (geometry.Length, error) { return geometry.OutsideToOutside(11.75, 2.375, 1.9) }, 9.6125,
		},
		{
			"7-1/2 between the same pipes",
			func() (geometry.Length, error) { return geometry.InsideToInside(7.5, 2.375, 1.9) }, 9.6375,
		},
		{
			// centers at 1-3/16 and at 10 + 0.95 of the tape
			"10 from the far side of the first to the near side of the second",
			func() (geometry.Length, error) { return geometry.SameSide(10, 2.375, 1.9) }, 9.7625,
		},
		{
			"10 to the same side of equal pipes",
			func() (geometry.Length, error) { return geometry.SameSide(10, 2.375, 2.375) }, 10,
		},
		{
			// the far side of 2 in steel lies 1.1875 beyond its center
			"13-3/16 from a center to the far side of 2 in pipe",
			func() (geometry.Length, error) { return geometry.CenterToOutside(13.1875, 2.375) }, 12,
		},
		{
			"10-13/16 from a center to the near side of 2 in pipe",
			func() (geometry.Length, error) { return geometry.CenterToInside(10.8125, 2.375) }, 12,
		},
		{
			"30 between faces that lie 2-1/8 and 3 from their centers",
			func() (geometry.Length, error) { return geometry.FaceToFace(30, [2]geometry.Length{2.125, 3}) }, 35.125,
		},
		{
			"30 from a center to a face that lies 2-1/8 from its own",
			func() (geometry.Length, error) { return geometry.CenterToFace(30, 2.125) }, 32.125,
		},
	} {
		near(t, c.name, figure(t)(c.got()), c.want, exact)
	}
	_, err := geometry.OutsideToOutside(2, 2.375, 1.9)
	wantProblem(t, err, geometry.NotPositive)
}
