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

// The expected figures of this file were computed at full precision apart
// from this program, and by laying the pieces out in space.
func TestOffset(t *testing.T) {
	tests := []struct {
		name    string
		ask     parser.Ask
		lengths map[parser.Role]float64
		end     [3]float64
	}{
		{
			"simple", takeoffs(ask(parser.Offset, 45, m(parser.Set, 9.375)), 1.0625, 1.0625),
			map[parser.Role]float64{parser.Travel: 13.258252147247767, parser.Run: 9.375, parser.Cut: 11.133252147247767, parser.EndGap: 11.5},
			[3]float64{11.5, 9.375, 0},
		},
		{
			"unlike ends", takeoffs(ask(parser.Offset, 22.5, m(parser.Set, 5.6875)), 0.8125, 1.25),
			map[parser.Role]float64{parser.Travel: 14.862153725468783, parser.Run: 13.730839635996979, parser.Cut: 12.799653725468783, parser.EndGap: 15.793339635996979},
			[3]float64{15.79334, 5.6875, 0},
		},
		{
			"rolling", takeoffs(ask(parser.Offset, 60, m(parser.Roll, 7.25), m(parser.Rise, 10.5)), 0.9375, 0.9375),
			map[parser.Role]float64{parser.Set: 12.759800155174846, parser.Travel: 14.733748108792053, parser.Run: 7.366874054396028, parser.Cut: 12.858748108792053, parser.EndGap: 9.241874054396028},
			[3]float64{9.241874, 7.25, 10.5},
		},
		{
			"rolling, flatter", takeoffs(ask(parser.Offset, 45, m(parser.Roll, 14.0625), m(parser.Rise, 6.8125)), 1.5, 1.5),
			map[parser.Role]float64{parser.Set: 15.625749982000864, parser.Travel: 22.09814754679677, parser.Cut: 19.09814754679677, parser.EndGap: 18.625749982000865},
			[3]float64{18.62575, 14.0625, 6.8125},
		},
		{
			"welded, a gap at each of four joints",
			takeoffs(ask(parser.Offset, 45, m(parser.Set, 19.3125), m(parser.JointGap, 0.125)), 3.75, 3.75),
			map[parser.Role]float64{parser.Travel: 27.3119994233304, parser.Cut: 19.5619994233304, parser.EndGap: 27.0625},
			[3]float64{27.0625, 19.3125, 0},
		},
		{
			"from the cut", takeoffs(ask(parser.Offset, 22.5, m(parser.Cut, 11.1875)), 0.9375, 0.9375),
			map[parser.Role]float64{parser.Travel: 13.0625, parser.Set: 4.998802335268985, parser.Run: 12.068176393428683},
			[3]float64{13.943176, 4.998802, 0},
		},
		{
			"from run and angle", takeoffs(ask(parser.Offset, 60, m(parser.Run, 13.1875)), 1, 1),
			map[parser.Role]float64{parser.Set: 22.84142002481456, parser.Travel: 26.375},
			[3]float64{15.1875, 22.84142, 0},
		},
		{
			"from the end gap", takeoffs(ask(parser.Offset, 45, m(parser.EndGap, 11.5)), 1.0625, 1.0625),
			map[parser.Role]float64{parser.Set: 9.375, parser.Cut: 11.133252147247767},
			[3]float64{11.5, 9.375, 0},
		},
		{
			"metric", takeoffs(ask(parser.Offset, 45, m(parser.Set, 238/25.4)), 27/25.4, 27/25.4),
			map[parser.Role]float64{parser.Travel: 336.58282784479667 / 25.4, parser.Cut: 11.12530818286601},
			[3]float64{(238 + 54) / 25.4, 238 / 25.4, 0},
		},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			a := solve(t, test.ask, figure.Settings{})
			for role, want := range test.lengths {
				wantLength(t, a, role, want)
			}
			wantEnd(t, a, test.end[0], test.end[1], test.end[2])
		})
	}
}

func TestRollAngleIsFromPlumb(t *testing.T) {
	a := solve(t, takeoffs(ask(parser.Offset, 60, m(parser.Roll, 7.25), m(parser.Rise, 10.5)), 0.9375, 0.9375), figure.Settings{})
	wantAngle(t, "roll angle", a.RollAngle, 34.62415507994895)
	if !a.Rolling {
		t.Error("the offset does not say that it rolls")
	}
}

func TestMainFigure(t *testing.T) {
	simple := takeoffs(ask(parser.Offset, 45, m(parser.Set, 9.375)), 1.0625, 1.0625)
	wanted := simple
	wanted.Want = parser.Travel
	tests := []struct {
		ask  parser.Ask
		want parser.Role
	}{
		{simple, parser.Cut},
		{wanted, parser.Travel},
		{takeoffs(ask(parser.Offset, 45, m(parser.Cut, 14)), 1.125, 1.125), parser.Set},
	}
	for _, test := range tests {
		a := solve(t, test.ask, figure.Settings{})
		if a.Main != test.want || a.Lengths[0].Role != test.want {
			t.Errorf("main figure is %s, first length %s, want %s", a.Main, a.Lengths[0].Role, test.want)
		}
	}
}

// Computed apart from this program; the angles are asin and atan of the tape.
func TestTrueAngle(t *testing.T) {
	tests := []struct {
		ask                parser.Ask
		angle, run, travel float64
	}{
		{ask(parser.Offset, 0, m(parser.Set, 7.625), m(parser.Travel, 19.25)), 23.33483903411006, 17.67545968284842, 19.25},
		{ask(parser.Offset, 0, m(parser.Set, 7.625), m(parser.Run, 10.875)), 35.03619581009283, 10.875, 13.281801459139494},
	}
	for _, test := range tests {
		a := solve(t, test.ask, figure.Settings{})
		wantAngle(t, "angle", a.Angle, test.angle)
		wantLength(t, a, parser.Run, test.run)
		wantLength(t, a, parser.Travel, test.travel)
		if a.Main != parser.AngleOf {
			t.Errorf("main figure is %s, want the angle", a.Main)
		}
	}
}

func TestTrueAngleNamesTheBendsAroundIt(t *testing.T) {
	a := solve(t, ask(parser.Offset, 0, m(parser.Set, 7.625), m(parser.Travel, 19.25)), figure.Settings{})
	var bends []geometry.Angle
	for _, c := range a.Bends {
		bends = append(bends, c.Angle)
	}
	if !slices.Equal(bends, []geometry.Angle{30, 22.5}) {
		t.Errorf("bends around 23.3° are %v, want 30 and 22-1/2", bends)
	}
}

// Two lengths stay as they were given. A bend that is sold and changes neither by
// more than an eighth is named beside them, not put in.
func TestTwoLengthsStayAsGiven(t *testing.T) {
	a := solve(t, takeoffs(ask(parser.Offset, 0, m(parser.Set, 12.5), m(parser.Run, 12.4375)), 1.5, 1.5), figure.Settings{})
	wantAngle(t, "angle", a.Angle, math.Atan2(12.5, 12.4375)*180/math.Pi)
	wantLength(t, a, parser.Run, 12.4375)
	wantLength(t, a, parser.Cut, math.Hypot(12.5, 12.4375)-3)
	if len(a.Bends) != 1 || a.Bends[0].Angle != 45 || math.Abs(a.Bends[0].Travel.Inches()-12.5*math.Sqrt2) > eps {
		t.Errorf("bends beside it: %+v, want the 45", a.Bends)
	}
	if !a.Provisional {
		t.Error("a 45 sprung to the true angle makes a sure cut")
	}

	// 25-1/2 and 51-1/16 turn 29.96°, and no ABS bend comes near; the travel is
	// the one that was given, and the cut 51-1/16 less two of 2-9/32.
	abs := takeoffs(pipe(ask(parser.Offset, 0, m(parser.Set, 25.5), m(parser.Travel, 51.0625)), catalog.Pipe{Material: catalog.ABS, Size: "4"}), 2.28125, 2.28125)
	b := solve(t, abs, figure.Settings{})
	wantAngle(t, "angle", b.Angle, math.Asin(25.5/51.0625)*180/math.Pi)
	wantLength(t, b, parser.Travel, 51.0625)
	wantLength(t, b, parser.Cut, 46.5)
	for _, c := range b.Bends {
		if !slices.Contains(b.System.Bends(), c.Angle) {
			t.Errorf("a %v is named, which ABS hasn't", c.Angle)
		}
	}

	// At 45° to the hair there is nothing to name beside it, and the cut is sure.
	c := solve(t, takeoffs(ask(parser.Offset, 0, m(parser.Set, 12.5), m(parser.Run, 12.5)), 1.5, 1.5), figure.Settings{})
	if c.Angle != 45 || c.Provisional || len(c.Bends) != 0 {
		t.Errorf("angle %v, provisional %v, bends %v", c.Angle, c.Provisional, c.Bends)
	}
}

// A given run stays: 12 with a set of 5 is a travel of 13 at 22.62°.
func TestAGivenRunStays(t *testing.T) {
	a := solve(t, pipe(ask(parser.Fit, 0, m(parser.Run, 12), m(parser.Set, 5)), drain2), figure.Settings{})
	wantLength(t, a, parser.Travel, 13)
	wantLength(t, a, parser.Run, 12)
	wantAngle(t, "angle", a.Angle, math.Atan2(5, 12)*180/math.Pi)
	if len(a.Bends) != 1 || a.Bends[0].Angle != 22.5 {
		t.Errorf("bends %+v, want the 22-1/2 alone", a.Bends)
	}
}

func TestNoBendForATrueAngle(t *testing.T) {
	between := ask(parser.Offset, 0, m(parser.Set, 12.5), m(parser.Run, 18))
	i := impossible(t, pipe(between, threaded2), figure.Settings{})
	if i.Cause != figure.NoFit || !slices.Contains(i.Bends, 45) {
		t.Errorf("threaded: %v with bends %v, want no fit and a 45", i.Cause, i.Bends)
	}
	if i.Partly == nil {
		t.Fatal("threaded: nothing of what was figured")
	}
	wantLength(t, i.Partly, parser.Travel, math.Hypot(12.5, 18))

	a := solve(t, pipe(between, welded3), figure.Settings{})
	if !a.Provisional {
		t.Error("elbows trimmed to an odd angle make a cut that is only about so")
	}
	if a.Ends[0].Takeoff.Note != figure.TrimmedElbow {
		t.Errorf("takeoff is noted %q, want %q", a.Ends[0].Takeoff.Note, figure.TrimmedElbow)
	}
}

// Only an offset can do with bends that differ: a fit, a mark and an obstacle want
// a line that runs parallel.
func TestUnlikeBendsAreRefused(t *testing.T) {
	a := takeoffs(ask(parser.Mark, 45, m(parser.Set, 12.5), m(parser.GapNow, 3)), 1.5, 1.5)
	a.Ends[0].Fitting, a.Ends[1].Fitting = catalog.BendOf(45), catalog.BendOf(22.5)
	if i := impossible(t, a, figure.Settings{}); i.Cause != figure.AnglesDiffer {
		t.Errorf("cause is %q, want %q", i.Cause, figure.AnglesDiffer)
	}
}

func TestMissing(t *testing.T) {
	tests := []struct {
		name string
		ask  parser.Ask
		want parser.Role
	}{
		{"the angle before all", ask(parser.Offset, 0, m(parser.Set, 12.5)), parser.AngleOf},
		{"then the pipe", ask(parser.Offset, 45), parser.PipeOf},
		{"then the set", pipe(ask(parser.Offset, 45), drain2), parser.Set},
		{"material of a size", pipe(ask(parser.Offset, 45, m(parser.Set, 12.5)), catalog.Pipe{Size: "2"}), parser.PipeOf},
		{"size of a material", pipe(ask(parser.Offset, 45, m(parser.Set, 12.5)), catalog.Pipe{Material: catalog.PVC}), parser.SizeOf},
		{"depth of a face", pipeFace(), parser.Depth},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := missing(t, test.ask).Wanted; got != test.want {
				t.Errorf("asks for %s, want %s", got, test.want)
			}
		})
	}
}

func pipeFace() parser.Ask {
	a := pipe(ask(parser.Offset, 45, m(parser.Set, 12.5)), catalog.Pipe{Material: catalog.PEX, Size: "3/4"})
	a.Ends[0].Face, a.Ends[1].Face = 1.5, 1.5
	return a
}

func TestMissingPipeGivesWhatNeedsNone(t *testing.T) {
	got := missing(t, ask(parser.Offset, 45, m(parser.Set, 9.375)))
	if got.Wanted != parser.PipeOf || got.Partly == nil {
		t.Fatalf("asks for %s with %v", got.Wanted, got.Partly)
	}
	wantLength(t, got.Partly, parser.Travel, 13.258252147247767)
	wantLength(t, got.Partly, parser.Run, 9.375)
}

func TestTravelAloneNeedsNoPipe(t *testing.T) {
	a := ask(parser.Offset, 45, m(parser.Set, 9.375))
	a.Want = parser.Travel
	got := solve(t, a, figure.Settings{})
	wantLength(t, got, parser.Travel, 13.258252147247767)
	if _, ok := got.Length(parser.Cut); ok {
		t.Error("a cut without a takeoff")
	}
}

func TestNoTakeoffOfPEX(t *testing.T) {
	i := impossible(t, pipe(ask(parser.Offset, 45, m(parser.Set, 9.375)), catalog.Pipe{Material: catalog.PEX, Size: "3/4"}), figure.Settings{})
	if i.Cause != figure.NoTakeoff {
		t.Errorf("cause is %q, want no takeoff known", i.Cause)
	}
	wantLength(t, i.Partly, parser.Travel, 13.258252147247767)
}

func TestWhatIsNotMade(t *testing.T) {
	flat := impossible(t, pipe(ask(parser.Offset, 22.5, m(parser.Set, 9.375)), threaded2), figure.Settings{})
	if flat.Cause != figure.NoSuchFitting || !slices.Contains(flat.Near, "45") {
		t.Errorf("22-1/2 threaded: %q, near %v; want no such fitting, near 45", flat.Cause, flat.Near)
	}
	said := takeoffs(pipe(ask(parser.Offset, 22.5, m(parser.Set, 9.375)), threaded2), 0.75, 0.75)
	wantLength(t, solve(t, said, figure.Settings{}), parser.Cut, 9.375/math.Sin(math.Pi/8)-1.5)

	odd := drain2
	odd.Size = "1-3/8"
	size := impossible(t, pipe(ask(parser.Offset, 45, m(parser.Set, 9.375)), odd), figure.Settings{})
	if size.Cause != figure.NoSuchSize || !slices.Equal(size.Near, []string{"1-1/4", "1-1/2"}) {
		t.Errorf("1-3/8 pvc: %q, near %v; want no such size, near 1-1/4 and 1-1/2", size.Cause, size.Near)
	}
}

// PVC without a word of its use is taken as drainage, and says so.
func TestAssumption(t *testing.T) {
	a := solve(t, pipe(ask(parser.Offset, 45, m(parser.Set, 12.5)), catalog.Pipe{Material: catalog.PVC, Size: "2"}), figure.Settings{})
	if a.System.ID != "pvc-dwv" || len(a.Assumed) != 1 {
		t.Fatalf("took %s with assumptions %v", a.System.ID, a.Assumed)
	}
	if a.Assumed[0].Took != string(catalog.DWV) || len(a.Assumed[0].Instead) == 0 {
		t.Errorf("assumed %+v", a.Assumed[0])
	}
	cut, _ := a.Length(parser.Cut)
	for _, other := range a.Assumed[0].Instead {
		if off := other.Cut - cut; other.Cut != 0 && (off > 1.0/16 || off < -1.0/16) && !a.Provisional {
			t.Errorf("%s would make the cut %v instead of %v, yet it is not provisional", other.Name, other.Cut, cut)
		}
	}
}

// With the takeoff said nothing hangs on what the pipe is for, and with the
// user's own it is the pipe they measured.
func TestNothingAssumed(t *testing.T) {
	message := pipe(ask(parser.Offset, 45, m(parser.Set, 12.5)), catalog.Pipe{Material: catalog.PVC, Size: "2"})
	said := solve(t, takeoffs(message, 1.25, 1.25), figure.Settings{})
	if len(said.Assumed) != 0 || said.Provisional {
		t.Errorf("said: assumed %+v, provisional %v", said.Assumed, said.Provisional)
	}
	other := figure.Settings{Takeoffs: []figure.OwnTakeoff{{System: "pvc-40", Fitting: "45", Size: "2", Length: 0.75}}}
	own := solve(t, message, other)
	if own.System.ID != "pvc-40" || len(own.Assumed) != 0 || own.Provisional {
		t.Errorf("own: took %s, assumed %+v, provisional %v", own.System.ID, own.Assumed, own.Provisional)
	}
}

func TestProvisional(t *testing.T) {
	remembered := solve(t, pipe(ask(parser.Offset, 45, m(parser.Set, 12.5)), drain2), figure.Settings{})
	if sure := remembered.Ends[0].Takeoff.Evidence.Sure(); remembered.Provisional == sure {
		t.Errorf("provisional is %v with a takeoff that is sure: %v", remembered.Provisional, sure)
	}
	if want := remembered.Ends[0].Takeoff.Band + remembered.Ends[1].Takeoff.Band; remembered.Band != want {
		t.Errorf("band is %v, want that of both ends, %v", remembered.Band, want)
	}
	measured := solve(t, pipe(ask(parser.Offset, 45, m(parser.Set, 12.5)), drain2), own(map[string]float64{"45": 1.1875}))
	if measured.Provisional || measured.Band != 0 {
		t.Errorf("provisional %v, band %v with the user's own takeoff", measured.Provisional, measured.Band)
	}
}

func TestWhoseTakeoff(t *testing.T) {
	message := pipe(ask(parser.Offset, 45, m(parser.Set, 12.5)), drain2)
	settings := figure.Settings{Takeoffs: []figure.OwnTakeoff{
		{System: "pvc-dwv", Fitting: "45", Size: "2", Length: 1.25, Line: "grey"},
		{System: "pvc-dwv", Fitting: "45", Size: "2", Length: 1.125},
		{System: "pvc-dwv", Fitting: "45", Size: "3", Length: 2},
		{System: "abs-dwv", Fitting: "45", Size: "2", Length: 2},
	}}
	grey := message
	grey.Line = "grey"
	tests := []struct {
		name     string
		ask      parser.Ask
		want     geometry.Length
		evidence catalog.Evidence
	}{
		{"the newest own", message, 1.125, catalog.Own},
		{"of the line that was named", grey, 1.25, catalog.Own},
		{"said wins", takeoffs(message, 1.5, 1.5), 1.5, catalog.Said},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := solve(t, test.ask, settings).Ends[0].Takeoff
			if got.Length != test.want || got.Evidence != test.evidence {
				t.Errorf("takeoff is %v, %s; want %v, %s", got.Length, got.Evidence, test.want, test.evidence)
			}
		})
	}
}

func TestFaceLessDepthIsTheTakeoff(t *testing.T) {
	a := ask(parser.Offset, 45, m(parser.Set, 12.5))
	for end := range a.Ends {
		a.Ends[end].Face, a.Ends[end].Depth = 2.125, 1.125
	}
	got := solve(t, a, figure.Settings{})
	wantLength(t, got, parser.Cut, 12.5*math.Sqrt2-2)
}

// Hub and spigot, by hand: the piece's spigot seats in the first bend's hub,
// the second bend's spigot in the piece's own hub.
func TestHubAndSpigot(t *testing.T) {
	p := catalog.Pipe{Material: catalog.CastIron, Joint: catalog.Hub, Size: "4"}
	a := solve(t, pipe(ask(parser.Offset, 45, m(parser.Set, 20.5)), p), figure.Settings{})
	hub, spigot := a.Ends[0].Takeoff.Length, a.Ends[1].Takeoff.Length
	if hub >= spigot {
		t.Errorf("hub end takes %v, spigot end %v; the spigot end is the longer", hub, spigot)
	}
	wantLength(t, a, parser.Cut, 20.5*math.Sqrt2-hub.Inches()-spigot.Inches())
	depth, _ := a.System.Insertion("4")
	wantLength(t, a, parser.PipeLength, 20.5*math.Sqrt2-hub.Inches()-spigot.Inches()+depth.Length.Inches())
}

// Pipe diameters of ASME B36.10M: 2 in 2.375, 1-1/2 in 1.900.
func TestWaysOfLayingTheTape(t *testing.T) {
	tests := []struct {
		method  parser.Method
		reading float64
		want    float64
	}{
		{parser.OutsideToOutside, 11.75, 9.6125},
		{parser.InsideToInside, 7.5, 9.6375},
		{parser.Centers, 9.6125, 9.6125},
	}
	t.Run("outside of one to inside of the other", func(t *testing.T) { // of pipes that differ nobody said which is which
		a := takeoffs(pipe(ask(parser.Offset, 45, by(parser.Set, 9.5, parser.OutsideToInside)), drain2), 1, 1)
		wantLength(t, solve(t, a, figure.Settings{}), parser.Set, 9.5)
		a.Ends[1].Size = "1-1/2"
		if i := missing(t, a); i.Wanted != parser.Set {
			t.Errorf("%s is asked for", i.Wanted)
		}
	})
	for _, test := range tests {
		t.Run(string(test.method), func(t *testing.T) {
			a := takeoffs(pipe(ask(parser.Offset, 45, by(parser.Set, test.reading, test.method)), drain2), 1, 1)
			a.Ends[1].Size = "1-1/2"
			wantLength(t, solve(t, a, figure.Settings{}), parser.Set, test.want)
		})
	}
}

func TestCrosscheck(t *testing.T) {
	agree := takeoffs(pipe(ask(parser.Offset, 45, m(parser.Set, 12.5), by(parser.Set, 14.9375, parser.OutsideToOutside)), drain2), 1, 1)
	if got := solve(t, agree, figure.Settings{}).Unequal; len(got) != 0 {
		t.Errorf("12-1/2 and 12-9/16 disagree: %v", got)
	}
	differ := takeoffs(pipe(ask(parser.Offset, 45, m(parser.Set, 12.5), by(parser.Set, 15.125, parser.OutsideToOutside)), drain2), 1, 1)
	a := solve(t, differ, figure.Settings{})
	if len(a.Unequal) != 1 || math.Abs(a.Unequal[0].Apart.Inches()-0.25) > eps {
		t.Fatalf("disagreement is %+v, want 1/4 apart", a.Unequal)
	}
	wantLength(t, a, parser.Set, 12.5)

	run := takeoffs(ask(parser.Offset, 45, m(parser.Set, 12.5), m(parser.Run, 14)), 1, 1)
	if i := impossible(t, run, figure.Settings{}); i.Cause != figure.Overgiven || i.Subject != string(parser.Run) {
		t.Errorf("a run of 14 beside a set of 12-1/2 by 45s can't be: %+v", i)
	}
}
