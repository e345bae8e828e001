package geometry_test

import (
	"testing"

	"dogleg/geometry"
)

// Center to face 2-1/8, insertion 1-1/8, so takeoff 1, at both ends. The values
// were computed independently at full precision.
func TestSmallestSets(t *testing.T) {
	for _, c := range []struct {
		angle              geometry.Angle
		touching, zeroPipe geometry.Length
	}{
		{60, 3.680607966083864, 1.732050808},
		{45, 3.005203820042827, 1.414213562},
		{30, 2.125, 1},
		{22.5, 1.6264045875516315, 0.765366865},
	} {
		set := figure(t)(geometry.TouchingSet([2]geometry.Length{2.125, 2.125}, c.angle))
		near(t, "hubs touching", set, c.touching, exact)
		o := must[geometry.Offset](t)(geometry.SetAngle(set, c.angle))
		near(t, "cut there", figure(t)(geometry.Cut(o.Travel, alike(1))), 2.25, exact)
		near(t, "largest takeoff there", figure(t)(geometry.LargestTakeoff(o.Travel, [2]geometry.Length{1.125, 1.125})), 1, exact)
		near(t, "zero pipe", figure(t)(geometry.ZeroPipeSet(alike(1), c.angle)), c.zeroPipe, exact)
	}
}

// 2-1/2 to the spigot's end and 1-1/8 in the other hub lie in one line: at 30°,
// whose sine is a half, they make a set of half their sum.
func TestStreetSet(t *testing.T) {
	near(t, "set", figure(t)(geometry.StreetSet(2.5, 1.125, 30)), 1.8125, 0)
}

func TestLargestTakeoffNeedsRoomForTheInsertions(t *testing.T) {
	_, err := geometry.LargestTakeoff(2, [2]geometry.Length{1.125, 1.125})
	wantProblem(t, err, geometry.NoRoom)
}
