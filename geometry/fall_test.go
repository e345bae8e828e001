package geometry_test

import (
	"testing"

	"dogleg/geometry"
	"dogleg/geometry/walk"

	"gonum.org/v1/gonum/spatial/r3"
)

// The values were computed independently at full precision.
func TestGradedLine(t *testing.T) {
	g := must[geometry.Graded](t)(geometry.SlopeLength(geometry.InchPerFoot/8, 27*foot+4*inch))
	near(t, "fall of 27 ft 4 at 1/8", g.Fall, 3.416666666666667, exact)
	reads(t, "fall of 27 ft 4 at 1/8", g.Fall, "3-7/16", "light")

	g = must[geometry.Graded](t)(geometry.FallLength(4.75, 31*foot+6*inch))
	near(t, "grade of 4-3/4 in 31 ft 6", g.Slope.InchesPerFoot(), 0.15079365079365079, exact)
	near(t, "the same in percent", g.Slope.Percent(), 1.2566137566137565, exact)
	near(t, "the same as 1 : n", g.Slope.Ratio(), 79.578947368, exact)

	g = must[geometry.Graded](t)(geometry.SlopeFall(geometry.InchPerFoot/4, 6.375))
	near(t, "length of 6-3/8 at 1/4", g.Length.Feet(), 25.5, exact)

	g = must[geometry.Graded](t)(geometry.SlopeLength(2*geometry.Percent, 6.35*geometry.Meter))
	near(t, "fall of 6.35 m at 2 %", g.Fall.Millimeters(), 127, exact)
}

// The values were computed independently at full precision: straights of 96
// and 60 in with a flat offset between, set 16-1/2, 45s, at 1/4 in per foot.
func TestOffsetInADrainFallsOverItsTravel(t *testing.T) {
	o := must[geometry.Offset](t)(geometry.SetAngle(16.5, 45))
	developed := figure(t)(geometry.DevelopedLength(96+60, o))
	near(t, "developed length", developed, 179.33452377915606, exact)
	g := must[geometry.Graded](t)(geometry.SlopeLength(geometry.InchPerFoot/4, developed))
	near(t, "fall", g.Fall, 3.7361359120657514, exact)
	reads(t, "fall", g.Fall, "3-3/4", "")
	byRun := must[geometry.Graded](t)(geometry.SlopeLength(geometry.InchPerFoot/4, 96+60+o.Run))
	near(t, "fall by the run, which is the mistake", byRun.Fall, 3.59375, exact)
}

// Equivalents of the grades: computed independently. The first two are printed
// as 2.08 % and 1.04 %, 1.19° and 0.60°.
func TestGradeEquivalents(t *testing.T) {
	for _, c := range []struct {
		slope                         geometry.Slope
		perFoot, percent, degrees, in float64
	}{
		{geometry.InchPerFoot / 4, 0.25, 2.083333333333, 1.193489, 48},
		{geometry.InchPerFoot / 8, 0.125, 1.041666666667, 0.596809, 96},
		{geometry.InchPerFoot / 16, 0.0625, 0.520833333333, 0.298413, 192},
		{geometry.OneIn(24), 0.5, 4.166666666667, 2.385944, 24},
		{2 * geometry.Percent, 0.24, 2, 1.145763, 50},
		{10 * geometry.MillimeterPerMeter, 0.12, 1, 0.572939, 100},
	} {
		near(t, "in/ft", c.slope.InchesPerFoot(), c.perFoot, exact)
		near(t, "percent", c.slope.Percent(), c.percent, exact)
		near(t, "degrees", c.slope.Angle().Degrees(), c.degrees, 5e-7)
		near(t, "1 : n", c.slope.Ratio(), c.in, exact)
	}
}

// A textbook sewer at -1 % from station 10+00, invert 326.32 ft, to 13+20: the
// inverts were computed independently.
func TestInvertsAlongASewer(t *testing.T) {
	const upper = 326.32 * foot
	for _, c := range []struct{ along, invert geometry.Length }{
		{50 * foot, 325.82 * foot}, {100 * foot, 325.32 * foot}, {320 * foot, 323.12 * foot},
	} {
		g := must[geometry.Graded](t)(geometry.SlopeLength(1*geometry.Percent, c.along))
		near(t, "lower invert", figure(t)(g.LowerInvert(upper)), c.invert, exact)
		near(t, "and back up", figure(t)(g.UpperInvert(c.invert)), upper, exact)
		near(t, "fall between", figure(t)(geometry.FallBetween(upper, c.invert)), g.Fall, exact)
	}
}

func TestInvertsMayLieBelowTheDatum(t *testing.T) {
	g := must[geometry.Graded](t)(geometry.SlopeLength(geometry.InchPerFoot/4, 14*foot))
	near(t, "lower invert", figure(t)(g.LowerInvert(1)), -2.5, exact)
	_, err := geometry.FallBetween(-4, -3)
	wantProblem(t, err, geometry.NotPositive)
}

func TestGradesThatAreNone(t *testing.T) {
	_, err := geometry.SlopeLength(0, foot)
	wantProblem(t, err, geometry.NotPositive)
	_, err = geometry.FallLength(13, foot)
	wantProblem(t, err, geometry.TooSteep)
	_, err = geometry.SlopeLength(geometry.OneIn(0), foot)
	wantProblem(t, err, geometry.NotANumber)
}

// A line that falls is walked through two bends: between the bend centers it
// must come down by the drop that was given, and go on at the grade it had.
func TestDropInAGradedLineIsWalked(t *testing.T) {
	for _, a := range geometry.Bends() {
		for _, s := range []geometry.Slope{geometry.InchPerFoot / 8, geometry.InchPerFoot / 2, 1} {
			o := must[geometry.Offset](t)(geometry.DropAngle(9.25, a, s))
			w := walk.From(walk.Point{})
			w.Turn(s.Angle(), walk.Aside) // down
			w.Forward(10)
			w.Turn(a, walk.Aside)
			w.Forward(o.Travel)
			w.Turn(-a, walk.Aside)
			w.Forward(10)
			p := w.Path()
			near(t, "drop between centers", p[1].Z-p[2].Z, 9.25, exact)
			near(t, "grade after", (p[2].Z-p[3].Z)/(p[3].X-p[2].X), geometry.Length(s), exact)
			near(t, "set, square across", squareAcross(p[0], p[1], p[2]), o.Set, exact)
		}
	}
}

// Forgetting that the drop contains the fall over the run spoils the set by
// the grade times the run: at 5⅝° and 1/4 in per foot by a sixth.
func TestDropIsNotTheSet(t *testing.T) {
	o := must[geometry.Offset](t)(geometry.DropAngle(9.25, geometry.SixtyFourthBend, geometry.InchPerFoot/4))
	if short := 9.25 - o.Set; short < 1 {
		t.Errorf("set %v is only %v short of the drop", o.Set, short)
	}
}

// Two lines at one grade, one plumb under the other, are laid in space and
// measured square across.
func TestPlumbSetIsMeasuredInSpace(t *testing.T) {
	for _, s := range []geometry.Slope{geometry.InchPerFoot / 4, 20 * geometry.Percent} {
		got := figure(t)(geometry.PlumbSet(14.5, s))
		ahead := walk.Ahead.Turned(s.Angle(), walk.Aside)
		between := r3.Vec{Z: 14.5}
		want := r3.Norm(r3.Cross(between, r3.Vec(ahead)))
		near(t, "set", got, geometry.Length(want), exact)
	}
}

// squareAcross is how far a point lies off the line through two others.
func squareAcross(from, through, off walk.Point) geometry.Length {
	vec := func(a, b walk.Point) r3.Vec {
		return r3.Vec{X: float64(b.X - a.X), Y: float64(b.Y - a.Y), Z: float64(b.Z - a.Z)}
	}
	return geometry.Length(r3.Norm(r3.Cross(r3.Unit(vec(from, through)), vec(from, off))))
}
