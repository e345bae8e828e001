package geometry_test

import (
	"testing"

	"dogleg/geometry"
)

const (
	inch = geometry.Inch
	foot = geometry.Foot
)

// The values were computed independently at full precision, and the marks read
// off them by the rule: nearest sixteenth, half-way up, heavy or light from
// 1/64 on.
func TestOffsetFromSetAndAngle(t *testing.T) {
	for _, c := range []struct {
		name                     string
		set                      geometry.Length
		angle                    geometry.Angle
		ends                     geometry.Ends
		travel, run, cut, endGap geometry.Length
		cutReads, cutLean        string
		gapReads, gapLean        string
	}{
		{
			"set 9-3/8, 45s, takeoff 1-1/16", 9.375, 45, alike(1.0625),
			13.258252147247767, 9.375, 11.133252147247767, 11.5,
			"11-1/8", "", "11-1/2", "",
		},
		{
			"set 5-11/16, 22-1/2s, takeoffs 13/16 and 1-1/4", 5.6875, 22.5,
			geometry.Ends{Takeoffs: [2]geometry.Length{0.8125, 1.25}},
			14.862153725468783, 13.730839635996979, 12.799653725468783, 15.793339635996979,
			"12-13/16", "", "15-13/16", "light",
		},
		{
			"set 19-5/16, 45s, takeoff 3-3/4, 1/8 at each of four joints", 19.3125, 45,
			geometry.Ends{Takeoffs: [2]geometry.Length{3.75, 3.75}, Gaps: [2]geometry.Length{0.125, 0.125}},
			27.3119994233304, 19.3125, 19.5619994233304, 27.0625,
			"19-9/16", "", "27-1/16", "",
		},
		{
			"set 238 mm, 45s, takeoff 27 mm", 238 * geometry.Millimeter, 45, alike(27 * geometry.Millimeter),
			336.58282784479667 * geometry.Millimeter, 238 * geometry.Millimeter, 11.12530818286601,
			292 * geometry.Millimeter, "11-1/8", "", "11-1/2", "",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := must[geometry.Offset](t)(geometry.SetAngle(c.set, c.angle))
			near(t, "travel", o.Travel, c.travel, exact)
			near(t, "run", o.Run, c.run, exact)
			cut := figure(t)(geometry.Cut(o.Travel, c.ends))
			near(t, "cut", cut, c.cut, exact)
			reads(t, "cut", cut, c.cutReads, c.cutLean)
			gap := figure(t)(geometry.EndGap(o.Run, c.ends))
			near(t, "end gap", gap, c.endGap, exact)
			reads(t, "end gap", gap, c.gapReads, c.gapLean)
		})
	}
}

// The values were computed independently at full precision.
func TestOffsetFromOtherPairs(t *testing.T) {
	for _, c := range []struct {
		name  string
		solve func() (geometry.Offset, error)
		want  geometry.Offset
	}{
		{
			"set 7-5/8, travel 19-1/4",
			func() (geometry.Offset, error) { return geometry.SetTravel(7.625, 19.25) },
			geometry.Offset{Set: 7.625, Run: 17.67545968284842, Travel: 19.25, Angle: 23.33483903411006},
		},
		{
			"set 7-5/8, run 10-7/8",
			func() (geometry.Offset, error) { return geometry.SetRun(7.625, 10.875) },
			geometry.Offset{Set: 7.625, Run: 10.875, Travel: 13.281801459139494, Angle: 35.03619581009283},
		},
		{
			"run 13-3/16, 60s",
			func() (geometry.Offset, error) { return geometry.RunAngle(13.1875, 60) },
			geometry.Offset{Set: 22.84142002481456, Run: 13.1875, Travel: 26.375, Angle: 60},
		},
		{
			"travel 13-1/16, 22-1/2s",
			func() (geometry.Offset, error) { return geometry.TravelAngle(13.0625, 22.5) },
			geometry.Offset{Set: 4.998802335268985, Run: 12.068176393428683, Travel: 13.0625, Angle: 22.5},
		},
		{ // 5, 12, 13 is a right triangle in whole numbers
			"run 12, travel 13",
			func() (geometry.Offset, error) { return geometry.RunTravel(12, 13) },
			geometry.Offset{Set: 5, Run: 12, Travel: 13, Angle: 22.61986494804043},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := must[geometry.Offset](t)(c.solve())
			near(t, "set", got.Set, c.want.Set, exact)
			near(t, "run", got.Run, c.want.Run, exact)
			near(t, "travel", got.Travel, c.want.Travel, exact)
			near(t, "angle", got.Angle, c.want.Angle, exact)
		})
	}
}

// At 30°, 45°, 60° and 90° the figures are exact, not merely close.
func TestOffsetIsExactWhereTheTradeExpectsIt(t *testing.T) {
	for _, c := range []struct {
		set         geometry.Length
		angle       geometry.Angle
		travel, run geometry.Length
	}{
		{7.1875, 90, 7.1875, 0},
		{5.078125, 30, 10.15625, -1}, // run is irrational
		{9.375, 45, -1, 9.375},       // travel is irrational
	} {
		o := must[geometry.Offset](t)(geometry.SetAngle(c.set, c.angle))
		if c.travel >= 0 && o.Travel != c.travel {
			t.Errorf("travel of set %v at %v = %v, want exactly %v", c.set, c.angle, o.Travel, c.travel)
		}
		if c.run >= 0 && o.Run != c.run {
			t.Errorf("run of set %v at %v = %v, want exactly %v", c.set, c.angle, o.Run, c.run)
		}
	}
	if o := must[geometry.Offset](t)(geometry.RunAngle(13.1875, 60)); o.Travel != 26.375 {
		t.Errorf("travel of run 13.1875 at 60° = %v, want exactly 26.375", o.Travel)
	}
	for n := range 1000 {
		set := geometry.Length(n+1) / 64
		if o := must[geometry.Offset](t)(geometry.SetRun(set, 0)); o.Angle != 90 {
			t.Errorf("angle of set %v, run 0 = %v, want exactly 90°", set, o.Angle)
		}
		if o := must[geometry.Offset](t)(geometry.SetRun(set, set)); o.Angle != 45 {
			t.Errorf("angle of equal set and run %v = %v, want exactly 45°", set, o.Angle)
		}
	}
}

// The values were computed independently at full precision: 23-13/16 less
// 1-3/8 and 1-1/8; 41-7/16 less 9, 3-3/4 and two 1/8 gaps.
func TestPieceOnAStraightLine(t *testing.T) {
	cut := figure(t)(geometry.Cut(23.8125, geometry.Ends{Takeoffs: [2]geometry.Length{1.375, 1.125}}))
	near(t, "cut", cut, 21.3125, exact)
	reads(t, "cut", cut, "21-5/16", "")
	cut = figure(t)(geometry.Cut(41.4375, geometry.Ends{
		Takeoffs: [2]geometry.Length{9, 3.75}, Gaps: [2]geometry.Length{0.125, 0.125},
	}))
	near(t, "welded cut", cut, 28.4375, exact)
	reads(t, "welded cut", cut, "28-7/16", "")
}

// The values were computed independently at full precision.
func TestOffsetFromThePieceAtHand(t *testing.T) {
	travel := figure(t)(geometry.Centers(11.1875, alike(0.9375)))
	near(t, "travel", travel, 13.0625, exact)
	o := must[geometry.Offset](t)(geometry.TravelAngle(travel, 22.5))
	near(t, "set", o.Set, 4.998802335268985, exact)
	reads(t, "set", o.Set, "5", "")
}

func TestCutReportsWhatIsLacking(t *testing.T) {
	_, err := geometry.Cut(2, alike(1.25))
	wantProblem(t, err, geometry.NoRoom)
	near(t, "lacking", err.(*geometry.Problem).Value, -0.5, exact)
	_, err = geometry.RunOf(2, alike(1.25))
	wantProblem(t, err, geometry.NoRoom)
	_, err = geometry.Spare(21.25, 22.874368671)
	wantProblem(t, err, geometry.NoRoom)
	near(t, "lacking", err.(*geometry.Problem).Value, -1.624368671, exact)
}
