package geometry_test

import (
	"testing"

	"dogleg/geometry"
)

// The values were computed independently at full precision.
func TestRollingOffset(t *testing.T) {
	for _, c := range []struct {
		name                 string
		rolling              geometry.Rolling
		angle                geometry.Angle
		takeoff              geometry.Length
		set                  geometry.Length
		fromLevel, fromPlumb geometry.Angle
		riseIn12             geometry.Length
		travel, run          geometry.Length
		cut, endGap          geometry.Length
		cutReads, cutLean    string
		gapReads             string
	}{
		{
			"roll 7-1/4, rise 10-1/2, 60s, takeoff 15/16",
			geometry.Rolling{Roll: 7.25, Rise: 10.5},
			60, 0.9375,
			12.759800155174846, 55.37584492005105, 34.62415507994895, 17.379310344827587,
			14.733748108792053, 7.366874054396028, 12.858748108792053, 9.241874054396028,
			"12-7/8", "light", "9-1/4",
		},
		{
			"roll 14-1/16, rise 6-13/16, 45s, takeoff 1-1/2",
			geometry.Rolling{Roll: 14.0625, Rise: 6.8125},
			45, 1.5,
			15.625749982000864, 25.847610220596255, 64.152389779403745, 5.8133333333333333,
			22.09814754679677, 15.625749982000864, 19.09814754679677, 18.625749982000865,
			"19-1/8", "light", "18-5/8",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			near(t, "true set", figure(t)(c.rolling.TrueSet()), c.set, exact)
			near(t, "from level", must[geometry.Angle](t)(c.rolling.FromLevel()), c.fromLevel, exact)
			near(t, "from plumb", must[geometry.Angle](t)(c.rolling.FromPlumb()), c.fromPlumb, exact)
			near(t, "rise in 12", figure(t)(c.rolling.RiseIn12()), c.riseIn12, exact)
			o := must[geometry.Offset](t)(c.rolling.Offset(c.angle))
			near(t, "travel", o.Travel, c.travel, exact)
			near(t, "run", o.Run, c.run, exact)
			cut := figure(t)(geometry.Cut(o.Travel, alike(c.takeoff)))
			near(t, "cut", cut, c.cut, exact)
			reads(t, "cut", cut, c.cutReads, c.cutLean)
			gap := figure(t)(geometry.EndGap(o.Run, alike(c.takeoff)))
			near(t, "end gap", gap, c.endGap, exact)
			reads(t, "end gap", gap, c.gapReads, "")
		})
	}
}

func TestRollingOfOnePartOnly(t *testing.T) {
	plumb := geometry.Rolling{Rise: 7.25}
	near(t, "true set", figure(t)(plumb.TrueSet()), 7.25, 0)
	near(t, "from level", must[geometry.Angle](t)(plumb.FromLevel()), 90, 0)
	near(t, "from plumb", must[geometry.Angle](t)(plumb.FromPlumb()), 0, 0)
	_, err := plumb.RiseIn12()
	wantProblem(t, err, geometry.NotPositive)
	level := geometry.Rolling{Roll: 7.25}
	near(t, "from level", must[geometry.Angle](t)(level.FromLevel()), 0, 0)
	near(t, "rise in 12", figure(t)(level.RiseIn12()), 0, 0)
	_, err = geometry.Rolling{}.TrueSet()
	wantProblem(t, err, geometry.NotPositive)
}
