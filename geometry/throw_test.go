package geometry_test

import (
	"testing"

	"dogleg/geometry"
)

// A sixteenth in the set or the cut, and a degree at a travel of 20. The values
// were computed independently and are rounded to six decimals.
func TestThrow(t *testing.T) {
	for _, c := range []struct {
		angle                                 geometry.Angle
		setMovesCut, setMovesRun, cutMovesSet geometry.Length
		degreeMovesSet, degreeMovesRun        geometry.Length
	}{
		{angle: 72, setMovesCut: 0.065716, setMovesRun: 0.020307, cutMovesSet: 0.059441, degreeMovesSet: 0.107867, degreeMovesRun: 0.331981},
		{angle: 60, setMovesCut: 0.072169, setMovesRun: 0.036084, cutMovesSet: 0.054127, degreeMovesSet: 0.174533, degreeMovesRun: 0.302300},
		{angle: 45, setMovesCut: 0.088388, setMovesRun: 0.062500, cutMovesSet: 0.044194, degreeMovesSet: 0.246827, degreeMovesRun: 0.246827},
		{angle: 30, setMovesCut: 0.125000, setMovesRun: 0.108253, cutMovesSet: 0.031250, degreeMovesSet: 0.302300, degreeMovesRun: 0.174533},
		{angle: 22.5, setMovesCut: 0.163320, setMovesRun: 0.150888, cutMovesSet: 0.023918, degreeMovesSet: 0.322495, degreeMovesRun: 0.133582},
		{angle: 11.25, setMovesCut: 0.320364, setMovesRun: 0.314209, cutMovesSet: 0.012193, degreeMovesSet: 0.342359, degreeMovesRun: 0.068099},
		{angle: 5.625, setMovesCut: 0.637644, setMovesRun: 0.634573, cutMovesSet: 0.006126, degreeMovesSet: 0.347385, degreeMovesRun: 0.034214},
	} {
		const sixDecimals = 5.1e-7
		o := must[geometry.Offset](t)(geometry.TravelAngle(20, c.angle))
		set := must[geometry.Throw](t)(o.SetOff(inch / 16))
		near(t, "set moves cut", set.Cut, c.setMovesCut, sixDecimals)
		near(t, "set moves run", set.Run, c.setMovesRun, sixDecimals)
		cut := must[geometry.Throw](t)(o.CutOff(inch / 16))
		near(t, "cut moves set", cut.Set, c.cutMovesSet, sixDecimals)
		takeoff := must[geometry.Throw](t)(o.TakeoffOff(inch / 32))
		near(t, "takeoff moves set", takeoff.Set, c.cutMovesSet, sixDecimals)
		near(t, "takeoff moves cut", takeoff.Cut, inch/16, exact)
		degree := must[geometry.Throw](t)(o.AngleOff(1))
		near(t, "degree moves set", degree.Set, c.degreeMovesSet, sixDecimals)
		near(t, "degree moves run", degree.Run, c.degreeMovesRun, sixDecimals)
		near(t, "degree moves cut", degree.Cut, 0, 0)
	}
}

// Roll 14-1/16, rise 6-13/16, 45s. The values were computed independently at
// full precision.
func TestThrowOfRollAndRise(t *testing.T) {
	r := geometry.Rolling{Roll: 14.0625, Rise: 6.8125}
	near(t, "set by roll", figure(t)(r.RollOff(1)), 0.8999568031101512, exact)
	near(t, "set by rise", figure(t)(r.RiseOff(1)), 0.43597907350669546, exact)
	o := must[geometry.Offset](t)(r.Offset(45))
	off := must[geometry.Throw](t)(o.SetOff(figure(t)(r.RollOff(inch / 16))))
	near(t, "cut by 1/16 of roll", off.Cut, 0.07954569478176933, exact)
}
