package geometry_test

import (
	"testing"

	"dogleg/geometry"
)

// Set 6-3/4, 45s, takeoff 7/8. The values were computed independently at full
// precision.
func TestTrimOfTheStandingPipe(t *testing.T) {
	o := must[geometry.Offset](t)(geometry.SetAngle(6.75, 45))
	gap := figure(t)(geometry.EndGap(o.Run, alike(0.875)))
	near(t, "end gap", gap, 8.5, exact)
	cut := figure(t)(geometry.Cut(o.Travel, alike(0.875)))
	near(t, "cut", cut, 7.795941546018392, exact)
	reads(t, "cut", cut, "7-13/16", "light")

	trim := figure(t)(geometry.Trim(gap, 5.25))
	near(t, "trim of ends 5-1/4 apart", trim, 3.25, exact)
	near(t, "mark on a pipe that ends at 31-1/2", figure(t)(geometry.MarkAt(31.5, trim)), 28.25, exact)
	near(t, "trim of ends that overlap by 2-1/8", figure(t)(geometry.Trim(gap, -2.125)), 10.625, exact)
	near(t, "trim of ends 9 apart", figure(t)(geometry.Trim(gap, 9)), -0.5, exact)
	_, err := geometry.MarkAt(3, trim)
	wantProblem(t, err, geometry.NoRoom)
}

// Cut 10-3/16, 45s, set 8-5/8 when dry and 8-1/4 wanted. The values were
// computed independently at full precision.
func TestDryFit(t *testing.T) {
	dry := geometry.DryFit{Cut: 10.1875, Set: 8.625, Angle: 45}
	takeoff := figure(t)(dry.Takeoff())
	near(t, "takeoff", takeoff, 1.0050459877339728, exact)
	reads(t, "takeoff", takeoff, "1", "")
	trim := figure(t)(dry.Trim(8.25))
	near(t, "trim", trim, 0.5303300858899107, exact)
	reads(t, "new cut", dry.Cut-trim, "9-11/16", "light")
	near(t, "new cut", dry.Cut-trim, 9.657169914110089, exact)
	travel := figure(t)(geometry.Centers(dry.Cut-trim, alike(takeoff)))
	near(t, "set with it", must[geometry.Offset](t)(geometry.TravelAngle(travel, 45)).Set, 8.25, exact)

	near(t, "trim of a piece too short", figure(t)(dry.Trim(9)), -0.5303300858899107, exact)
	dry.Gap = 0.125
	near(t, "takeoff beside a gap", figure(t)(dry.Takeoff()), 1.0050459877339728-0.125, exact)
}

func TestDryFitThatCannotBe(t *testing.T) {
	_, err := geometry.DryFit{Cut: 13, Set: 8.625, Angle: 45}.Takeoff()
	wantProblem(t, err, geometry.NoRoom)
	_, err = geometry.DryFit{Cut: 2, Set: 8.625, Angle: 45}.Trim(4)
	wantProblem(t, err, geometry.NoRoom)
}
