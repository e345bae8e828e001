package geometry_test

import (
	"testing"

	"dogleg/geometry"
	"dogleg/geometry/walk"
)

// Set 8-3/4 in a room of 21-1/4, a takeoff for each bend. The values were
// computed independently at full precision.
func TestBendsThatFitARoom(t *testing.T) {
	const set, room = 8.75, 21.25
	for _, c := range []struct {
		angle                       geometry.Angle
		takeoff, endGap, cut, spare geometry.Length
	}{
		{72, 1.6875, 6.218047342, 5.825294462, 15.031952658},
		{60, 1.5, 8.051814855, 7.103629711, 13.198185145},
		{45, 1.1875, 11.125, 9.999368671, 10.125},
		{30, 1, 17.155444566, 15.5, 4.094555434},
		{22.5, 0.875, 22.874368671, 21.114851885, -1.624368671},
		{11.25, 0.8125, 45.614220556, 43.226020335, -24.364220556},
	} {
		o := must[geometry.Offset](t)(geometry.SetAngle(set, c.angle))
		gap := figure(t)(geometry.EndGap(o.Run, alike(c.takeoff)))
		near(t, "end gap", gap, c.endGap, exact)
		near(t, "cut", figure(t)(geometry.Cut(o.Travel, alike(c.takeoff))), c.cut, exact)
		spare, err := geometry.Spare(room, gap)
		if c.spare >= 0 {
			near(t, "spare", figure(t)(spare, err), c.spare, exact)
			continue
		}
		wantProblem(t, err, geometry.NoRoom)
		near(t, "lacking", geometry.Length(err.(*geometry.Problem).Value), c.spare, exact)
	}
	o := must[geometry.Offset](t)(geometry.SetRun(set, room))
	near(t, "true angle, were 21-1/4 the run", o.Angle, 22.380135051959574, exact)
}

// The values were computed independently at full precision.
func TestTrimElbows(t *testing.T) {
	e := must[geometry.Trimmed](t)(geometry.TrimElbows(8.75, 21.25, 4.5, 0))
	near(t, "angle", e.Offset.Angle, 24.38172491103047, exact)
	near(t, "takeoff", e.Takeoff, 0.9721832554807509, exact)
	near(t, "travel", e.Offset.Travel, 21.195989819139964, exact)
	near(t, "run", e.Offset.Run, 19.305633489038502, exact)
	near(t, "cut", e.Cut, 19.251623308178463, exact)
}

// Whatever room there is, the elbows, the gaps and the piece must fill it.
func TestTrimmedElbowsFillTheRoom(t *testing.T) {
	for _, c := range []struct{ set, room, radius, gap geometry.Length }{
		{8.75, 21.25, 4.5, 0}, {8.75, 21.25, 4.5, 0.125}, {40, 22, 9, 0.125}, {30, 18.5, 6, 0}, {5.5, 62, 12, 0.09375},
	} {
		e := must[geometry.Trimmed](t)(geometry.TrimElbows(c.set, c.room, c.radius, c.gap))
		end := walk.Offset(walk.Pieces{
			Takeoffs: [2]geometry.Length{e.Takeoff, e.Takeoff},
			Gaps:     [2]geometry.Length{c.gap, c.gap},
			Cut:      e.Cut,
			Angle:    e.Offset.Angle,
		}).End()
		near(t, "room", end.X, c.room, exact)
		near(t, "set", end.Y, c.set, exact)
	}
}

func TestTrimElbowsRefusesWhatCannotBeBuilt(t *testing.T) {
	for name, c := range map[string]struct{ set, room, radius, gap geometry.Length }{
		"elbows would overlap":     {8.75, 8, 6, 0},
		"angle would be over 90":   {40, 10, 6, 0},
		"gaps leave no room":       {8.75, 0.2, 1, 0.125},
		"gaps leave nothing of it": {8, 9.4, 4.5, 2},
	} {
		_, err := geometry.TrimElbows(c.set, c.room, c.radius, c.gap)
		t.Run(name, func(t *testing.T) { wantProblem(t, err, geometry.NoRoom) })
	}
}
