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

// Unless a source is named, the expected figures of this file were computed at
// full precision apart from this program.

// Set 8-3/4 and 21-1/4 between the standing ends.
func TestFit(t *testing.T) {
	settings := own(map[string]float64{"72": 1.6875, "60": 1.5, "45": 1.1875, "30": 1, "22-1/2": 0.875, "11-1/4": 0.8125})
	want := map[geometry.Angle]struct{ endGap, cut, spare float64 }{
		72:    {6.218047342, 5.825294462, 15.031952658},
		60:    {8.051814855, 7.103629711, 13.198185145},
		45:    {11.125, 9.999368671, 10.125},
		30:    {17.155444566, 15.5, 4.094555434},
		22.5:  {22.874368671, 21.114851885, -1.624368671},
		11.25: {45.614220556, 43.226020335, -24.364220556},
	}
	a := solve(t, pipe(ask(parser.Fit, 0, m(parser.Set, 8.75), m(parser.Room, 21.25)), drain2), settings)
	for _, c := range a.Bends {
		w, ok := want[c.Angle]
		if !ok {
			continue // a bend whose takeoff this test does not give
		}
		if near := func(got geometry.Length, want float64) bool { return math.Abs(got.Inches()-want) < 1e-8 }; !near(c.EndGap, w.endGap) || !near(c.Cut, w.cut) || !near(c.Spare, w.spare) {
			t.Errorf("%v: end gap %v, cut %v, spare %v; want %v", c.Angle, c.EndGap, c.Cut, c.Spare, w)
		}
		if c.Fits != (w.spare >= 0) {
			t.Errorf("%v: fits %v with %v to spare", c.Angle, c.Fits, c.Spare)
		}
	}
	fitting := 0
	for _, c := range a.Bends {
		if c.Fits {
			fitting++
		}
	}
	if best := a.Bends[0]; !best.Fits || fitting > 1 && best.Angle > a.Bends[1].Angle {
		t.Errorf("the best bend is %+v, want the gentlest that fits", best)
	}
	if cut, _ := a.Length(parser.Cut); cut != a.Bends[0].Cut {
		t.Errorf("cut is %v, that of the best bend %v", cut, a.Bends[0].Cut)
	}
}

// Were the 21-1/4 a run, one angle would fill it; a 22-1/2 runs
// 8.75 × 2.41421 = 21.1244 of it.
func TestFitARun(t *testing.T) {
	a := solve(t, ask(parser.Fit, 0, m(parser.Set, 8.75), m(parser.Run, 21.25)), figure.Settings{})
	wantAngle(t, "true angle", a.Angle, 22.380135051959574)
	if a.Main != parser.AngleOf || a.Bends[0].Angle != 22.5 {
		t.Errorf("main figure %s, best bend %v; want the angle and 22-1/2", a.Main, a.Bends[0].Angle)
	}
}

// Elbows of 4-1/2 in radius, trimmed, without gaps: 24.38172491103047°, a piece
// of 19.251623308178463. The radius is that of a 3 in long-radius 90 of ASME
// B16.9; the test stops where the catalog has another.
func TestFitTrimmedElbows(t *testing.T) {
	message := pipe(ask(parser.Fit, 0, m(parser.Set, 8.75), m(parser.Room, 21.25)), welded3)
	message.Measures = append(message.Measures, m(parser.JointGap, 0))
	a := solve(t, message, figure.Settings{})
	if quarter, _ := a.System.Takeoff(catalog.BendOf(90), "3"); quarter.Length != 4.5 {
		t.Fatalf("3 in 90 takes %v", quarter.Length)
	}
	wantAngle(t, "true angle", a.Angle, 24.38172491103047)
	if a.Bends[0].Angle != 45 {
		t.Errorf("best is %+v; stock 45s fit, and go before elbows that are cut by hand", a.Bends[0])
	}
	at := slices.IndexFunc(a.Bends, func(c figure.Choice) bool { return c.Why == figure.TrimmedElbow })
	if at < 0 {
		t.Fatal("no elbows that fill the room")
	}
	trimmed := a.Bends[at]
	for _, got := range []struct {
		what string
		is   geometry.Length
		want float64
	}{
		{"cut", trimmed.Cut, 19.251623308178463},
		{"end gap", trimmed.EndGap, 21.25},
		{"takeoff", trimmed.Ends[0].Takeoff.Length, 0.9721832554807509},
	} {
		if math.Abs(got.is.Inches()-got.want) > eps {
			t.Errorf("%s is %v, want %v", got.what, got.is, got.want)
		}
	}
	if !trimmed.Unsure {
		t.Error("a cut between elbows that are cut by hand is sure")
	}
}

func TestNothingFits(t *testing.T) {
	settings := own(map[string]float64{"90": 2, "72": 1.6875, "60": 1.5, "45": 1.1875, "22-1/2": 0.875})
	i := impossible(t, pipe(ask(parser.Fit, 0, m(parser.Set, 8.75), m(parser.Room, 3)), drain2), settings)
	if i.Cause != figure.NoFit || len(i.Partly.Bends) == 0 {
		t.Errorf("%v with %v, want no fit and what each bend lacks", i.Cause, i.Partly.Bends)
	}
}

// The last is Modern Plumbing, 2015, p. 327: 2 in PVC DWV, 4 ft 6 in face to
// face, 3/4 in at each end, is 4 ft 7-1/2.
func TestPiece(t *testing.T) {
	tests := []struct {
		name string
		ask  parser.Ask
		cut  float64
	}{
		{"takeoffs", takeoffs(ask(parser.Piece, 0, m(parser.CenterToCenter, 23.8125)), 1.375, 1.125), 21.3125},
		{"weld", takeoffs(ask(parser.Piece, 0, m(parser.CenterToCenter, 41.4375), m(parser.JointGap, 0.125)), 9, 3.75), 28.4375},
		{"face to face", depths(ask(parser.Piece, 0, by(parser.CenterToCenter, 54, parser.FaceToFace)), 0.75, 0.75), 55.5},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			a := solve(t, test.ask, figure.Settings{})
			wantLength(t, a, parser.Cut, test.cut)
			if a.Main != parser.Cut || len(a.Path) == 0 {
				t.Errorf("main figure %s, path %v", a.Main, a.Path)
			}
		})
	}
}

func TestPieceBackward(t *testing.T) {
	a := solve(t, takeoffs(ask(parser.Piece, 0, m(parser.Cut, 21.3125)), 1.375, 1.125), figure.Settings{})
	wantLength(t, a, parser.CenterToCenter, 23.8125)
}

func TestPieceCollides(t *testing.T) {
	i := impossible(t, depths(takeoffs(ask(parser.Piece, 0, m(parser.CenterToCenter, 4)), 1, 1), 1.125, 1.125), figure.Settings{})
	if i.Cause != figure.Collide || math.Abs(i.Smallest.Inches()-4.25) > eps {
		t.Errorf("%v, smallest %v; want a collision below 4-1/4", i.Cause, i.Smallest)
	}
}

func TestPieceAsksForTheFittings(t *testing.T) {
	if got := missing(t, pipe(ask(parser.Piece, 0, m(parser.CenterToCenter, 24)), drain2)).Wanted; got != parser.FittingOf {
		t.Errorf("asks for %s", got)
	}
}

// Set 6-3/4 by 45s, takeoff 7/8: end gap 8-1/2.
func TestMark(t *testing.T) {
	offset := func(measures ...parser.Measure) parser.Ask {
		return takeoffs(ask(parser.Mark, 45, append(measures, m(parser.Set, 6.75))...), 0.875, 0.875)
	}
	tests := []struct {
		name       string
		ask        parser.Ask
		trim, mark float64
	}{
		{"gap", offset(m(parser.GapNow, 5.25)), 3.25, 3.25},
		{"gap and a reading at the end", offset(m(parser.GapNow, 5.25), m(parser.Reading, 31.5)), 3.25, 28.25},
		{"stick-out", offset(m(parser.GapNow, 5.25), m(parser.StickOut, 31.5)), 3.25, 28.25},
		{"two readings", offset(m(parser.Reading, 31.5), m(parser.Reading, 36.75)), 3.25, 28.25},
		{"overlap", offset(m(parser.Overlap, 2.125)), 10.625, 10.625},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			a := solve(t, test.ask, figure.Settings{})
			wantLength(t, a, parser.EndGap, 8.5)
			wantLength(t, a, parser.Cut, 7.795941546018392)
			wantLength(t, a, parser.TrimOff, test.trim)
			wantLength(t, a, parser.MarkAt, test.mark)
		})
	}
}

func TestMarkOnALineIsCautioned(t *testing.T) {
	a := solve(t, takeoffs(ask(parser.Mark, 45, m(parser.Set, 6.75), m(parser.GapNow, 5.25)), 0.875, 0.875), figure.Settings{})
	if !slices.Contains(a.Cautions, figure.LiveLine) {
		t.Errorf("cautions %v don't have that of a standing line", a.Cautions)
	}
}

func TestParallel(t *testing.T) {
	bank := ask(parser.Parallel, 45, m(parser.Set, 15.25), m(parser.Spacing, 6.5))
	bank.Lines = 4
	a := solve(t, bank, figure.Settings{})
	wantLength(t, a, parser.Stagger, 2.692388155425118)
	wantLength(t, a, parser.Travel, 21.566756826189703)
	for i, want := range []float64{0, 2.692388155, 5.384776310, 8.077164466} {
		if got := a.Lines[i].Start.Inches(); math.Abs(got-want) > 1e-8 {
			t.Errorf("line %d starts %v sooner, want %v", i+1, got, want)
		}
	}
	if got := a.Unstaggered.Inches(); math.Abs(got-4.596194077712560) > eps {
		t.Errorf("without stagger the diagonals close up to %v", got)
	}
}

// A bank 6-1/2 in apart that rolls 30° up from level: a roll of 8·√3 and a
// rise of 8.
func TestRollingBank(t *testing.T) {
	bank := ask(parser.Parallel, 45, m(parser.Roll, 8*math.Sqrt(3)), m(parser.Rise, 8), m(parser.Spacing, 6.5))
	bank.Lines = 3
	a := solve(t, takeoffs(bank, 1, 1), figure.Settings{})
	wantLength(t, a, parser.Stagger, 2.331676539446478)
	if !a.Lines[2].HasCut {
		t.Error("no cut for a line with takeoffs")
	}
}

// Reach 5-1/4, clear 1, 2 in steel (2.375 outside), 45s; reach 3-1/2, clear
// 3/4, 1-1/2 in (1.900), 22-1/2s. The nearest point was found by brute force.
func TestAround(t *testing.T) {
	tests := []struct {
		angle                          geometry.Angle
		reach, clear                   float64
		size                           catalog.Size
		set, start, travel, run, endUp float64
	}{
		{45, 5.25, 1, "2", 7.4375, 8.343592167691146, 10.518213370149896, 7.4375, 8.375},
		{22.5, 3.5, 0.75, "1-1/2", 5.2, 12.892061548885511, 13.588254834714316, 12.553910524340095, 12.9375},
	}
	for _, test := range tests {
		p := threaded2
		p.Size = test.size
		a := solve(t, takeoffs(pipe(ask(parser.Around, test.angle, m(parser.Reach, test.reach), m(parser.Clearance, test.clear)), p), 0.75, 0.75), figure.Settings{})
		wantLength(t, a, parser.Set, test.set)
		wantLength(t, a, parser.Start, test.start)
		wantLength(t, a, parser.Travel, test.travel)
		wantLength(t, a, parser.Run, test.run)
		for _, l := range a.Lengths {
			if l.Up != (l.Role == parser.Set || l.Role == parser.Start || l.Role == parser.MarkAt) {
				t.Errorf("%s reads rounded up: %v", l.Role, l.Up)
			}
		}
		if a.Lengths[0].Role != parser.Start || a.Lengths[0].Length.TapeUp(16).Length().Inches() != test.endUp {
			t.Errorf("first is %+v, want the start, %v rounded up", a.Lengths[0], test.endUp)
		}
	}
}

func TestAroundWithTooSmallASet(t *testing.T) {
	a := takeoffs(pipe(ask(parser.Around, 45, m(parser.Set, 7.25), m(parser.Reach, 5.25), m(parser.Clearance, 1)), threaded2), 0.75, 0.75)
	if i := impossible(t, a, figure.Settings{}); math.Abs(i.Smallest.Inches()-7.4375) > eps {
		t.Errorf("smallest set is %v, want 7-7/16", i.Smallest)
	}
}

// How far back the line may turn leaves 45s, which need 8.34, and rules out
// 22-1/2s, which need 18.39.
func TestAroundFindsTheBend(t *testing.T) {
	a := solve(t, pipe(ask(parser.Around, 0, m(parser.Start, 9), m(parser.Reach, 5.25), m(parser.Clearance, 1)), drain2), figure.Settings{})
	if a.Angle != 45 {
		t.Errorf("took %v, want 45°", a.Angle)
	}
}

func TestAroundAndBack(t *testing.T) {
	a := takeoffs(pipe(ask(parser.Around, 45, m(parser.Reach, 5.25), m(parser.Clearance, 1), m(parser.Obstacle, 20)), threaded2), 0.75, 0.75)
	a.ComeBack = true
	wantLength(t, solve(t, a, figure.Settings{}), parser.CenterToCenter, 20+2*(8.343592167691146-7.4375))
}

// "Math for Trades", vol. 3 (BCcampus): total fall is length times grade.
func TestFall(t *testing.T) {
	graded := func(grade geometry.Slope, measures ...parser.Measure) parser.Ask {
		a := ask(parser.Fall, 0, measures...)
		a.Grade = grade
		return a
	}
	quarter, eighth := geometry.InchPerFoot/4, geometry.InchPerFoot/8
	tests := []struct {
		name string
		ask  parser.Ask
		main parser.Role
		want float64
	}{
		{"fall", graded(eighth, m(parser.Long, 27*12+4)), parser.Drop, 3.416666666666667},
		{"length", graded(quarter, m(parser.Drop, 6.375)), parser.Long, 25.5 * 12},
		{"metric", graded(2*geometry.Percent, m(parser.Long, 6350/25.4)), parser.Drop, 127 / 25.4},
		{"upper invert", graded(quarter, m(parser.Long, 480), m(parser.Upper, 96)), parser.Lower, 86},
		{"lower invert", graded(quarter, m(parser.Long, 480), m(parser.Lower, 86)), parser.Upper, 96},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			a := solve(t, test.ask, figure.Settings{})
			wantLength(t, a, test.main, test.want)
			if a.Main != test.main {
				t.Errorf("main figure is %s", a.Main)
			}
		})
	}
}

// A fall of 4-3/4 over 31 ft 6 in of 3 in pipe: 0.1508 in per foot, over 1/8
// and under 1/4.
func TestGradeAgainstTheMinimum(t *testing.T) {
	p := drain2
	p.Size = "3"
	a := solve(t, pipe(ask(parser.Fall, 0, m(parser.Drop, 4.75), m(parser.Long, 31.5*12)), p), figure.Settings{Code: figure.IPC})
	byUPC := solve(t, pipe(ask(parser.Fall, 0, m(parser.Drop, 4.75), m(parser.Long, 31.5*12)), p), figure.Settings{Code: figure.UPC})
	if got := a.Grade.InchesPerFoot(); math.Abs(got-0.15079365079365079) > eps {
		t.Errorf("grade is %v in/ft", got)
	}
	meets := map[string]bool{}
	for _, min := range append(a.Minimums, byUPC.Minimums...) {
		meets[min.Behind] = min.Meets
	}
	if !meets["IPC Table 704.1"] || meets["UPC 708"] {
		t.Errorf("minimums %+v; want that of the IPC (1/8) met, that of the UPC (1/4) not", a.Minimums)
	}
	if !slices.Contains(byUPC.Cautions, figure.BelowMinimum) || slices.Contains(a.Cautions, figure.BelowMinimum) {
		t.Errorf("cautions %v, by the UPC %v", a.Cautions, byUPC.Cautions)
	}
	if none := solve(t, pipe(ask(parser.Fall, 0, m(parser.Drop, 4.75), m(parser.Long, 31.5*12)), p), figure.Settings{}); len(none.Minimums) > 0 {
		t.Errorf("nobody named a code, and %+v is cited", none.Minimums)
	}
}

// A drain of 110 mm at 1 in 60 has the least of AS/NZS 3500.2, 1.65 %, and a
// branch at 1 in 60 less than the 18 mm/m of EN 12056-2; both as recalled.
func TestGradeByTheCodeNamed(t *testing.T) {
	a := ask(parser.Fall, 0, m(parser.Long, 6000/25.4))
	a.Grade = geometry.OneIn(60)
	a.Pipe = catalog.Pipe{Size: "110 mm"}
	for code, want := range map[figure.Code]bool{figure.ASNZS: true, figure.BSEN: false, figure.IPC: true, figure.UPC: false} {
		got := solve(t, a, figure.Settings{Code: code}).Minimums
		if len(got) != 1 || got[0].Meets != want || got[0].Recalled != (code != figure.IPC) {
			t.Errorf("%s: %+v, want it met: %t", code, got, want)
		}
	}
}

func TestCodeNamed(t *testing.T) {
	for text, want := range map[string]figure.Code{
		"IPC": figure.IPC, "ipc 2021": figure.IPC, "UPC": figure.UPC, "BS EN 12056": figure.BSEN, "bs en 12056-2": figure.BSEN,
		"EN 12056": figure.BSEN, "AS/NZS 3500": figure.ASNZS, "as nzs 3500.2": figure.ASNZS, "AS 3500": figure.ASNZS, "none": figure.NoCode,
	} {
		if got, ok := figure.CodeNamed(text); !ok || got != want {
			t.Errorf("%q is %q, %t", text, got, ok)
		}
	}
	for _, text := range []string{"", "3500 mm", "12056 in", "the usual"} {
		if got, ok := figure.CodeNamed(text); ok {
			t.Errorf("%q is taken for %q", text, got)
		}
	}
}

// 2 % is 0.24 in per foot, yet the codes print it as the same as 1/4.
func TestTwoPercentPasses(t *testing.T) {
	for _, percent := range []struct {
		grade geometry.Slope
		want  bool
	}{{2, true}, {1.99, false}} {
		a := pipe(ask(parser.Fall, 0, m(parser.Long, 120)), drain2)
		a.Grade = percent.grade * geometry.Percent
		minimums := solve(t, a, figure.Settings{Code: figure.UPC}).Minimums
		if len(minimums) != 1 {
			t.Errorf("minimums %+v", minimums)
		}
		for _, min := range minimums {
			if min.Meets != percent.want {
				t.Errorf("%v %%: %+v", percent.grade, min)
			}
		}
	}
}

// Straights of 96 and 60 with a flat offset of 16-1/2 by 45s: 179.3345 in of
// pipe fall, not the 172-1/2 along the line.
func TestFlatOffsetInADrain(t *testing.T) {
	a := ask(parser.Fall, 45, m(parser.Long, 96), m(parser.Long, 60), m(parser.Set, 16.5))
	a.Grade = geometry.InchPerFoot / 4
	got := solve(t, a, figure.Settings{})
	wantLength(t, got, parser.Long, 179.33452377915606)
	wantLength(t, got, parser.Drop, 3.7361359120657514)
}

// A 3 in elbow (radius 4-1/2, 3.500 outside) at 18°, by hand: takeoff
// 4.5 tan 9°, arcs (4.5 - 1.75) and (4.5 + 1.75) times 18 π/180.
func TestTrim(t *testing.T) {
	a := solve(t, pipe(ask(parser.Trim, 18), welded3), figure.Settings{})
	wantLength(t, a, parser.TakeoffOf, 4.5*math.Tan(math.Pi/20))
	throat, back := a.Ordinates[0].Back.Inches(), a.Ordinates[4].Back.Inches()
	if math.Abs(throat-2.75*math.Pi/10) > eps || math.Abs(back-6.25*math.Pi/10) > eps {
		t.Errorf("throat %v, back %v", throat, back)
	}
}

// Cut 10-3/16, 45s, the dry fit shows 8-5/8 where 8-1/4 was wanted.
func TestCheck(t *testing.T) {
	a := solve(t, ask(parser.Check, 45, m(parser.Cut, 10.1875), m(parser.DryFit, 8.625), m(parser.Set, 8.25)), figure.Settings{})
	wantLength(t, a, parser.TrimOff, 0.5303300858899107)
	wantLength(t, a, parser.Cut, 9.657169914110089)
	wantLength(t, a, parser.TakeoffOf, 1.0050459877339728)
	if len(a.Findings) != 3 || math.Abs(a.Findings[1].By.Inches()-0.5303300858899107/2) > eps {
		t.Errorf("findings are %+v", a.Findings)
	}
	if end := a.Path.End(); math.Abs(end.Y.Inches()-8.25) > eps {
		t.Errorf("the new piece lands at a set of %v", end.Y)
	}
}

func TestCheckWithoutTheCut(t *testing.T) {
	a := solve(t, ask(parser.Check, 45, m(parser.DryFit, 8.25), m(parser.Set, 8.625)), figure.Settings{})
	wantLength(t, a, parser.TrimOff, -0.5303300858899107)
	if a.Main != parser.TrimOff {
		t.Errorf("main figure is %s", a.Main)
	}
}

func TestTakeoffToKeep(t *testing.T) {
	keep := func(kind parser.Kind, change func(*parser.Ask), measures ...parser.Measure) parser.Ask {
		a := pipe(ask(kind, 45, measures...), drain2)
		a.Store, a.Line = true, "the grey ones"
		change(&a)
		return a
	}
	tests := []struct {
		name string
		ask  parser.Ask
		how  string
		want float64
	}{
		{"said", keep(parser.Takeoff, func(a *parser.Ask) { a.Ends[0].Takeoff = 1.1875 }), figure.CenterToStop, 1.1875},
		{"face less depth", keep(parser.Takeoff, func(a *parser.Ask) { a.Ends[0].Face, a.Ends[0].Depth = 1.875, 0.75 }), figure.FaceLessDepth, 1.125},
		{"centers less cut", keep(parser.Takeoff, func(*parser.Ask) {}, m(parser.Cut, 9), m(parser.CenterToCenter, 11.375)), figure.ByDryFit, 1.1875},
		{"dry fit", keep(parser.Takeoff, func(*parser.Ask) {}, m(parser.Cut, 10.1875), m(parser.DryFit, 8.625)), figure.ByDryFit, 1.0050459877339728},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			a := solve(t, test.ask, figure.Settings{})
			if len(a.Own) != 1 {
				t.Fatalf("kept %+v", a.Own)
			}
			kept := a.Own[0]
			if kept.How != test.how || kept.Line != "the grey ones" || math.Abs(kept.Takeoff.Length.Inches()-test.want) > eps || kept.Takeoff.Evidence != catalog.Own {
				t.Errorf("kept %+v", kept)
			}
		})
	}
}

// A 2 in 45 is 2.375 outside: half of that by tan 22-1/2 is 0.492, and three
// times it, an inch and two depths of 3/4 are 5.451.
func TestTakeoffOutOfRange(t *testing.T) {
	for _, inches := range []geometry.Length{0.25, 5.5, 12.5} {
		a := pipe(ask(parser.Takeoff, 45), drain2)
		a.Store = true
		a.Ends[0].Takeoff = inches
		if i := impossible(t, a, figure.Settings{}); i.Cause != figure.BadTakeoff {
			t.Errorf("%v: %v", inches, i.Cause)
		}
	}
}

func TestTakeoffLookedUp(t *testing.T) {
	a := solve(t, pipe(ask(parser.Takeoff, 45), drain2), own(map[string]float64{"45": 1.1875}))
	wantLength(t, a, parser.TakeoffOf, 1.1875)
	if a.Ends[0].Takeoff.Evidence != catalog.Own || len(a.Own) != 0 {
		t.Errorf("found %+v, kept %v", a.Ends[0], a.Own)
	}
}

func TestMultiplier(t *testing.T) {
	// As printed to three decimals on exam study cards, and in the Chicago
	// plumbing code's reference tables rounded to three.
	want := map[[2]parser.Role]string{
		{parser.Set, parser.Travel}: "2.613", {parser.Set, parser.Run}: "2.414",
		{parser.Travel, parser.Set}: "0.383", {parser.Travel, parser.Run}: "0.924",
		{parser.Run, parser.Travel}: "1.082", {parser.Run, parser.Set}: "0.414",
		{parser.Spacing, parser.Stagger}: "0.199", {parser.Radius, parser.TakeoffOf}: "0.199",
	}
	a := solve(t, ask(parser.Multiplier, 22.5), figure.Settings{})
	if len(a.Factors) != len(want) {
		t.Errorf("%d factors, want %d", len(a.Factors), len(want))
	}
	for _, f := range a.Factors {
		if f.Printed != want[[2]parser.Role{f.From, f.To}] {
			t.Errorf("%s to %s is printed %s", f.From, f.To, f.Printed)
		}
	}
	for _, f := range solve(t, ask(parser.Multiplier, 90), figure.Settings{}).Factors {
		if math.IsInf(f.Exact, 0) || f.From == parser.Run {
			t.Errorf("a 90 has %s to %s: %v", f.From, f.To, f.Exact)
		}
	}
}

func TestSum(t *testing.T) {
	in := func(inches float64) parser.Term { return parser.Term{Length: geometry.Length(inches)} }
	n := func(number float64) parser.Term { return parser.Term{Number: number, Plain: true} }
	line := func(terms []parser.Term, ops ...parser.Operator) parser.Ask {
		return parser.Ask{Kind: parser.Sum, Sum: &parser.Arithmetic{Terms: terms, Operators: ops}}
	}
	tests := []struct {
		name string
		ask  parser.Ask
		want float64
	}{
		{"16-15/16 - 3 - 2-7/8", line([]parser.Term{in(16.9375), in(3), in(2.875)}, '-', '-'), 11.0625},
		{"5 ft 2-1/4 + 18 mm", line([]parser.Term{in(62.25), in(18 / 25.4)}, '+'), 62.95866141732284},
		{"425 mm", line([]parser.Term{in(425 / 25.4)}), 16.73228346456693},
		{"20 - 3 × 1-1/2", line([]parser.Term{in(20), n(3), in(1.5)}, '-', '×'), 15.5},
		{"21 ÷ 4 + 1/2", line([]parser.Term{in(21), n(4), in(0.5)}, '÷', '+'), 5.75},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			a := solve(t, test.ask, figure.Settings{})
			wantLength(t, a, parser.Total, test.want)
			if a.Sum.Plain || a.Sum.Length.Inches() != a.Lengths[0].Length.Inches() {
				t.Errorf("result is %+v", a.Sum)
			}
		})
	}
	if a := solve(t, line([]parser.Term{in(120), in(14.5)}, '÷'), figure.Settings{}); !a.Sum.Plain || math.Abs(a.Sum.Number-120/14.5) > eps {
		t.Errorf("120 ÷ 14-1/2 is %+v, want a plain number", a.Sum)
	}
	for _, bad := range []parser.Ask{
		line([]parser.Term{in(12.5), n(0)}, '÷'),
		line([]parser.Term{in(12.5), in(0)}, '÷'),
		line([]parser.Term{in(12.5), in(3)}, '×'),
		line([]parser.Term{n(12), in(3)}, '÷'),
	} {
		if i := impossible(t, bad, figure.Settings{}); i.Cause != figure.BadGeometry || i.Problem == nil {
			t.Errorf("%+v: %v", bad.Sum, i)
		}
	}
}
