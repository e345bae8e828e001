package figure_test

import (
	"math"
	"slices"
	"testing"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// A 3 in long-radius elbow turns on 4-1/2 (ASME B16.9), more than the 3.25
// that the line keeps off a corner: by 60s that costs
// (4.5 - 3.25)(1/cos 30° - 1) = 0.193376, which is added to the clearance.
func TestARoundElbowCutsTheCorner(t *testing.T) {
	a := solve(t, takeoffs(pipe(ask(parser.Around, 60, m(parser.Reach, 7), m(parser.Clearance, 1.5)), welded3), 2.5, 2.5), figure.Settings{})
	keep := 3.25 + 1.25*(2/math.Sqrt(3)-1)
	wantLength(t, a, parser.Set, 7+keep)
	wantLength(t, a, parser.Start, (keep+3.5)/(math.Sqrt(3)/2))
	if slices.Contains(a.Cautions, figure.SweepCorner) {
		t.Errorf("cautions %v: what the round corner takes is in the figures", a.Cautions)
	}
}

// A reach taken from the outside of the pipe lacks half of 2.375.
func TestReachFromTheOutside(t *testing.T) {
	outside := by(parser.Reach, 5.25-2.375/2, parser.OutsideToOutside)
	a := solve(t, takeoffs(pipe(ask(parser.Around, 45, outside, m(parser.Clearance, 1)), threaded2), 0.75, 0.75), figure.Settings{})
	wantLength(t, a, parser.Set, 7.4375)
}

func TestAroundTooLate(t *testing.T) {
	i := impossible(t, takeoffs(pipe(ask(parser.Around, 22.5, m(parser.Start, 9), m(parser.Reach, 5.25), m(parser.Clearance, 1)), drain2), 1, 1), figure.Settings{})
	if i.Cause != figure.NoFit || !slices.Contains(i.Bends, 45) {
		t.Errorf("%v, bends that turn soon enough %v; want a 45 among them", i.Cause, i.Bends)
	}
}

// A thread that makes up 1/8 further brings the pipe 1/8 nearer the center; a
// deeper socket leaves the stop where it is.
func TestADepthThatWasSaid(t *testing.T) {
	tests := []struct {
		pipe  catalog.Pipe
		moves geometry.Length
	}{{threaded2, 0.125}, {drain2, 0}}
	for _, test := range tests {
		message := pipe(ask(parser.Offset, 45, m(parser.Set, 12.5)), test.pipe)
		table := solve(t, message, figure.Settings{}).Ends[0].Takeoff
		deeper := (table.Insertion + 0.125).Inches()
		said := solve(t, depths(message, deeper, deeper), figure.Settings{}).Ends[0].Takeoff
		if off := table.Length - said.Length - test.moves; math.Abs(off.Inches()) > eps {
			t.Errorf("%s: takeoff %v becomes %v", test.pipe.Material, table.Length, said.Length)
		}
	}
}

// From the end of a pipe to a center only the fitting at that center takes
// off; from end to end nothing does.
func TestPieceFromItsEnd(t *testing.T) {
	for method, want := range map[parser.Method]float64{parser.EndToCenter: 22.6875, parser.EndToEnd: 23.8125} {
		a := solve(t, takeoffs(ask(parser.Piece, 0, by(parser.CenterToCenter, 23.8125, method)), 1.125, 1.125), figure.Settings{})
		wantLength(t, a, parser.Cut, want)
	}
}

func TestPieceOfAnUndecidedPipe(t *testing.T) {
	message := pipe(ask(parser.Piece, 90, m(parser.CenterToCenter, 30)), catalog.Pipe{Material: catalog.Steel, Size: "2"})
	a := solve(t, message, figure.Settings{})
	if len(a.Assumed) != 1 || a.Assumed[0].What != parser.JointOf || a.Assumed[0].Took != string(catalog.Thread) {
		t.Errorf("assumed %+v, want threaded", a.Assumed)
	}
}

// Two inverts are a fall. US Army Engineer School, EN0389: lower invert =
// upper invert - slope × length.
func TestGradeBetweenInverts(t *testing.T) {
	a := solve(t, ask(parser.Fall, 0, m(parser.Upper, 96), m(parser.Lower, 86), m(parser.Long, 480)), figure.Settings{})
	if math.Abs(a.Grade.InchesPerFoot()-0.25) > eps || a.Main != parser.Grade {
		t.Errorf("grade %v, main figure %s", a.Grade, a.Main)
	}
}

func TestFallThatDisagrees(t *testing.T) {
	message := ask(parser.Fall, 0, m(parser.Long, 480), m(parser.Drop, 12))
	message.Grade = geometry.InchPerFoot / 4
	a := solve(t, message, figure.Settings{})
	if len(a.Unequal) != 1 || math.Abs(a.Unequal[0].Apart.Inches()-2) > eps {
		t.Errorf("disagreement %+v, want 12 and 10", a.Unequal)
	}
}

func TestMissingOfFall(t *testing.T) {
	if got := missing(t, ask(parser.Fall, 0, m(parser.Long, 480))).Wanted; got != parser.Grade {
		t.Errorf("of a length, asks for %s", got)
	}
	if got := missing(t, ask(parser.Fall, 0, m(parser.Drop, 6))).Wanted; got != parser.Long {
		t.Errorf("of a fall, asks for %s", got)
	}
}

// One bend that was asked for: it collides, or is too long; then the others
// that would do are named.
func TestFitOfOneBend(t *testing.T) {
	settings := own(map[string]float64{"90": 2, "60": 1.5, "45": 1.1875, "22-1/2": 0.875})
	short := pipe(ask(parser.Fit, 22.5, m(parser.Set, 8.75), m(parser.Room, 21.25)), drain2)
	if i := impossible(t, short, settings); i.Cause != figure.NoFit || !slices.Contains(i.Bends, 45) {
		t.Errorf("%v, bends %v; want no fit and a 45", i.Cause, i.Bends)
	}
	near := pipe(ask(parser.Fit, 45, m(parser.Set, 2), m(parser.Room, 21.25)), drain2)
	if i := impossible(t, near, settings); i.Cause != figure.Collide || i.Smallest == 0 {
		t.Errorf("%v, smallest set %v; want a collision", i.Cause, i.Smallest)
	}
}

// A takeoff that was said holds for one bend, and where nobody said for which
// that is asked. Said of a 30, it leaves a 60 its own: the set of 8-3/4 comes
// with 30s to a run of 15.155, and 17.53 between the ends.
func TestFitWithTakeoffsSaid(t *testing.T) {
	message := takeoffs(ask(parser.Fit, 0, m(parser.Set, 8.75), m(parser.Room, 21.25)), 1.1875, 1.1875)
	if i := missing(t, message); i.Wanted != parser.AngleOf || i.Of != parser.TakeoffOf {
		t.Errorf("%s of %q is asked for", i.Wanted, i.Of)
	}
	message.Angle = 30
	a := solve(t, message, figure.Settings{})
	wantLength(t, a, parser.EndGap, 8.75*math.Sqrt(3)+2.375)
}

// A takeoff of the 45 is no other bend's: set 14 in a room of 34 with 45s of
// 1-1/8 is 19.799 - 2.25 = 17.549; that 90s fit too with what the table has of
// them is not for the 45's takeoff to say.
func TestFitKeepsATakeoffToItsBend(t *testing.T) {
	short := takeoffs(pipe(ask(parser.Fit, 22.5, m(parser.Set, 14), m(parser.Room, 34)), drain2), 1.125, 1.125)
	i := impossible(t, short, figure.Settings{})
	if slices.Contains(i.Bends, 22.5) || !slices.Contains(i.Bends, 45) {
		t.Errorf("bends %v", i.Bends)
	}
	long := takeoffs(pipe(ask(parser.Fit, 45, m(parser.Set, 14), m(parser.Room, 34)), drain2), 1.125, 1.125)
	wantLength(t, solve(t, long, figure.Settings{}), parser.Cut, 14*math.Sqrt2-2.25)
}

// A set of 10 that rolls 6 to the side rises 8; one shorter than its rise is
// no true set, but the roll.
func TestTheOtherPartOfATrueSet(t *testing.T) {
	a := solve(t, takeoffs(ask(parser.Offset, 45, m(parser.Set, 10), m(parser.Roll, 6)), 1, 1), figure.Settings{})
	wantLength(t, a, parser.Rise, 8)
	b := solve(t, takeoffs(ask(parser.Offset, 45, m(parser.Set, 6), m(parser.Rise, 8)), 1, 1), figure.Settings{})
	wantLength(t, b, parser.Set, 10)
}

func TestNonsenseIsRefused(t *testing.T) {
	steep := ask(parser.Fall, 0, m(parser.Long, 120))
	steep.Grade = 2
	many := ask(parser.Parallel, 45, m(parser.Set, 10), m(parser.Spacing, 6))
	many.Lines = 100000
	for name, message := range map[string]parser.Ask{
		"not a number": ask(parser.Offset, 45, m(parser.Set, math.NaN())),
		"over a mile":  ask(parser.Offset, 45, m(parser.Set, 1e6)),
		"negative":     ask(parser.Offset, 45, m(parser.Set, -3)),
		"an angle":     ask(parser.Offset, 120, m(parser.Set, 10)),
		"a grade":      steep,
		"lines":        many,
	} {
		if i := impossible(t, message, figure.Settings{}); i.Cause != figure.BadGeometry || i.Problem == nil {
			t.Errorf("%s: %v", name, i)
		}
	}
}
