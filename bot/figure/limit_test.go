package figure_test

import (
	"math"
	"slices"
	"testing"

	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"
)

// Center to face 2-1/8, the pipe 1-1/8 in: takeoff 1. Computed apart from this
// program: sets at which the hubs touch, and the wrong limit, where nothing
// would be left of the pipe.
func TestHubsTouching(t *testing.T) {
	tests := []struct {
		angle           geometry.Angle
		touching, wrong float64
	}{
		{60, 3.680607966083864, 1.732050808},
		{45, 3.005203820042827, 1.414213562},
		{30, 2.125, 1},
		{22.5, 1.6264045875516315, 0.765366865},
	}
	at := func(a geometry.Angle, set float64) parser.Ask {
		return depths(takeoffs(ask(parser.Offset, a, m(parser.Set, set)), 1, 1), 1.125, 1.125)
	}
	for _, test := range tests {
		clears := solve(t, at(test.angle, test.touching+1e-6), figure.Settings{})
		if math.Abs(clears.Limit.Touching.Inches()-test.touching) > eps || math.Abs(clears.Limit.Cut.Inches()-2.25) > eps {
			t.Errorf("%v: limit is %+v, want set %v and cut 2.25", test.angle, clears.Limit, test.touching)
		}
		for _, set := range []float64{test.touching - 1e-6, test.wrong + 0.1, test.wrong - 0.1} {
			i := impossible(t, at(test.angle, set), figure.Settings{})
			if i.Cause != figure.Collide || math.Abs(i.Smallest.Inches()-test.touching) > eps {
				t.Errorf("%v at set %v: %v, smallest %v; want a collision, %v", test.angle, set, i.Cause, i.Smallest, test.touching)
			}
		}
	}
}

// At a set of 2-1/2 by 45s the travel is 3.5355; with 1-1/8 in each hub it
// leaves (3.5355 - 2.25) / 2 for each takeoff.
func TestLargestTakeoffThatClears(t *testing.T) {
	i := impossible(t, depths(takeoffs(ask(parser.Offset, 45, m(parser.Set, 2.5)), 1, 1), 1.125, 1.125), figure.Settings{})
	if want := (2.5*math.Sqrt2 - 2.25) / 2; math.Abs(i.Takeoff.Inches()-want) > eps {
		t.Errorf("largest takeoff is %v, want %v", i.Takeoff, want)
	}
}

// A flatter bend makes the travel longer, so it clears where a sharper one
// does not.
func TestBendsThatClear(t *testing.T) {
	settings := own(map[string]float64{"90": 2, "60": 1.5, "45": 1.25, "22-1/2": 0.8125})
	i := impossible(t, pipe(ask(parser.Offset, 45, m(parser.Set, 2)), drain2), settings)
	if i.Cause != figure.Collide || !slices.Contains(i.Bends, 22.5) || slices.Contains(i.Bends, 60) {
		t.Errorf("%v; clearing bends are %v, want 22-1/2 and not 60", i.Cause, i.Bends)
	}
}

// Nothing goes into a butt weld: the limit is elbow on elbow.
func TestButtWeldMayBeShort(t *testing.T) {
	short := takeoffs(pipe(ask(parser.Offset, 45, m(parser.Set, 3.25)), welded3), 2, 2)
	a := solve(t, short, figure.Settings{})
	wantLength(t, a, parser.Cut, 3.25*math.Sqrt2-4-2*a.Gap.Length.Inches())
	if !slices.Contains(a.Cautions, figure.ShortPup) {
		t.Errorf("no caution about a short pup in %v", a.Cautions)
	}
	none := takeoffs(pipe(ask(parser.Offset, 45, m(parser.Set, 2.75)), welded3), 2, 2)
	if i := impossible(t, none, figure.Settings{}); i.Cause != figure.Collide {
		t.Errorf("cause is %v", i.Cause)
	}
}
