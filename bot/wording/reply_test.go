package wording_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// The figures in these tests were computed at full precision apart from
// dogleg, and checked by laying the pieces out in space; what they read on the
// tape was rounded by hand.

func inches(r parser.Role, l geometry.Length) figure.Length { return figure.Length{Role: r, Length: l} }

func given(r parser.Role, l geometry.Length) parser.Measure {
	return parser.Measure{Role: r, Length: l}
}

func ends(a geometry.Angle, takeoff geometry.Length, e catalog.Evidence) [2]figure.End {
	end := figure.End{Fitting: catalog.BendOf(a), Takeoff: catalog.Takeoff{Fitting: catalog.BendOf(a), Length: takeoff, Evidence: e}}
	return [2]figure.End{end, end}
}

func same(t *testing.T, got string, want ...string) {
	t.Helper()
	if diff := cmp.Diff(want, strings.Split(got, "\n")); diff != "" {
		t.Errorf("reply (-want +got):\n%s", diff)
	}
}

// simple is a set of 9-3/8 with 45s and takeoffs of 1-1/16 that were said.
func simple() *figure.Answer {
	said := parser.End{Takeoff: 1.0625}
	return &figure.Answer{
		Ask: parser.Ask{
			Kind: parser.Offset, Angle: 45, Measures: []parser.Measure{given(parser.Set, 9.375)}, Ends: [2]parser.End{said, said},
		},
		Kind: parser.Offset, Main: parser.Cut, Angle: 45,
		Lengths: []figure.Length{
			inches(parser.Cut, 11.133252147247767), inches(parser.EndGap, 11.5),
			inches(parser.Travel, 13.258252147247767), inches(parser.Run, 9.375), inches(parser.Set, 9.375),
		},
		Ends: ends(45, 1.0625, catalog.Said),
	}
}

func TestReplySimpleOffset(t *testing.T) {
	same(t, wording.Whole(simple(), wording.Options{}),
		"Cut 11-1/8 in",
		"Set 9-3/8, two 45s, takeoff 1-1/16",
		"Ends 11-1/2 apart · travel 13-1/4 · run 9-3/8",
		"Takeoff 1-1/16 each, as you said.",
	)
}

func TestReplyInSpanish(t *testing.T) {
	same(t, wording.Whole(simple(), wording.Options{Language: parser.Spanish, FirstTime: true}),
		"Corte 11-1/8 pulg",
		"Desvío 9-3/8, dos codos de 45, descuento 1-1/16",
		"Puntas a 11-1/2 · diagonal 13-1/4 · avance 9-3/8",
		"Descuento 1-1/16 en cada punta, como dijiste.",
		"dogleg calcula largos. El código local, el inspector y la licencia deciden.",
	)
}

func TestReplyInMillimeters(t *testing.T) {
	same(t, wording.Whole(simple(), wording.Options{Metric: true}),
		"Cut 283 mm",
		"Set 238.1 mm, two 45s, takeoff 27 mm",
		"Ends 292 mm apart · travel 337 mm · run 238 mm",
		"Takeoff 27 mm each, as you said.",
	)
}

// A takeoff from memory makes the cut, and what hangs on it, only about so.
func TestReplyProvisional(t *testing.T) {
	a := simple()
	a.Ask.Ends = [2]parser.End{}
	a.Ask.Pipe = catalog.Pipe{Material: catalog.PVC, Size: "1-1/2"}
	a.System, a.Size = catalog.System{ID: "pvc-dwv", Name: "PVC DWV"}, "1-1/2"
	a.Ends = ends(45, 1.0625, catalog.Memory)
	for i := range a.Ends {
		a.Ends[i].Takeoff.Insertion, a.Ends[i].Takeoff.Band = 0.6875, 0.125
	}
	a.Provisional, a.Band, a.TakesOff = true, 0.25, 0.5
	a.Assumed = []figure.Assumption{{What: parser.PipeOf, Took: "DWV", Instead: []figure.Alternative{
		{Name: "PVC schedule 40", Cut: 11.6}, {Name: "PVC schedule 80", Cut: 11.6}, {Name: "PVC sewer"},
	}}}
	a.Cautions = []figure.Caution{figure.CheckTakeoff, figure.SolventCement, figure.NoAirTest}
	same(t, wording.Whole(a, wording.Options{FirstTime: true}),
		"Cut about 11-7/16 in", // 11.1333 + 1/4 = 11.3833, rounded up
		"Set 9-3/8, two 45s, 1-1/2 PVC DWV",
		"Ends about 11-1/4 apart · travel 13-1/4 · run 9-3/8",
		`Takeoff 1-1/16 each: pattern from memory, ±1/8. Measure yours: say takeoff, or face, and what you found.`,
		"Left long: by that takeoff it is 11-1/8. Dry-fit, then trim: up to 1/2 may come off.",
		"Taken as DWV; PVC schedule 40 or PVC schedule 80 would be about 11-5/8; say so if it is PVC sewer.",
		"Primer and cement: keep air moving, no flame or spark, gloves on, lids shut.",
		"Test plastic with water. No air or gas pressure: it bursts in shards.",
		"dogleg figures lengths. The local code, the inspector and the license decide.",
	)
}

func TestReplyUnlikeEnds(t *testing.T) {
	street := catalog.Fitting{Shape: catalog.Bend, Angle: 22.5, Street: true}
	a := &figure.Answer{
		Ask: parser.Ask{Kind: parser.Offset, Measures: []parser.Measure{given(parser.Set, 5.6875)}, Ends: [2]parser.End{
			{Fitting: catalog.BendOf(22.5)}, {Fitting: street},
		}},
		Kind: parser.Offset, Main: parser.Cut, Angle: 22.5,
		Lengths: []figure.Length{
			inches(parser.Cut, 12.799653725468783), inches(parser.EndGap, 15.793339635996979),
			inches(parser.Travel, 14.862153725468783), inches(parser.Run, 13.730839635996979),
		},
		Ends: [2]figure.End{
			{Fitting: catalog.BendOf(22.5), Takeoff: catalog.Takeoff{Length: 0.8125, Evidence: catalog.Own, Measured: catalog.Measured{How: "center to stop", When: "3 Nov", Line: "the grey ones"}}},
			{Fitting: street, Takeoff: catalog.Takeoff{Length: 1.25, Evidence: catalog.Published, Source: "ASME B16.9, center to face"}},
		},
	}
	same(t, wording.Whole(a, wording.Options{}),
		"Cut 12-13/16 in",
		"Set 5-11/16, 22-1/2 and street 22-1/2",
		"Ends 15-13/16 light apart · travel 14-7/8 · run 13-3/4 light",
		"Takeoff 13/16 at the 22-1/2, yours, 3 Nov (the grey ones)",
		"Takeoff 1-1/4 at the street 22-1/2: ASME B16.9, center to face. Check it against the fitting.",
	)
}

func TestReplyRollingOffset(t *testing.T) {
	a := &figure.Answer{
		Ask:  parser.Ask{Kind: parser.Offset, Angle: 60, Measures: []parser.Measure{given(parser.Roll, 7.25), given(parser.Rise, 10.5)}},
		Kind: parser.Offset, Main: parser.Cut, Angle: 60, Rolling: true, RollAngle: 34.62415507994895,
		Lengths: []figure.Length{
			inches(parser.Cut, 12.858748108792053), inches(parser.EndGap, 9.241874054396028),
			inches(parser.Travel, 14.733748108792053), inches(parser.Run, 7.366874054396028), inches(parser.Set, 12.759800155174846),
		},
		Ends: ends(60, 0.9375, catalog.Said),
	}
	same(t, wording.Whole(a, wording.Options{}),
		"Cut 12-7/8 in light",
		"Roll 7-1/4, rise 10-1/2, two 60s",
		"Ends 9-1/4 apart · travel 14-3/4 light · run 7-3/8",
		"True set 12-3/4. Turn the fitting 55° up from level: 8-5/16 light across in 12 up",
		"Takeoff 15/16 each, as you said.",
	)
}

// Nearer to level the turn is so much up in a foot across.
func TestReplyRollingNearLevel(t *testing.T) {
	a := &figure.Answer{
		Ask:  parser.Ask{Kind: parser.Offset, Angle: 45, Measures: []parser.Measure{given(parser.Roll, 14.0625), given(parser.Rise, 6.8125)}},
		Kind: parser.Offset, Main: parser.Travel, Angle: 45, Rolling: true, RollAngle: 90 - 25.847610220596255,
		Lengths: []figure.Length{
			inches(parser.Travel, 22.09814754679677), inches(parser.Run, 15.625749982000864), inches(parser.Set, 15.625749982000864),
		},
	}
	same(t, wording.Whole(a, wording.Options{}),
		"Travel 22-1/8 in light",
		"Roll 14-1/16, rise 6-13/16, two 45s",
		"Run 15-5/8",
		"True set 15-5/8. Turn the fitting 26° up from level: 5-13/16 up in 12 across",
	)
}

// Measurements that disagree come before the cut.
func TestReplyDisagreement(t *testing.T) {
	a := simple()
	a.Unequal = []figure.Disagreement{{
		Role:   parser.Set,
		First:  parser.Measure{Role: parser.Set, Length: 9.375, Method: parser.Centers, Text: "9-3/8"},
		Second: parser.Measure{Role: parser.Set, Length: 11.25, Method: parser.OutsideToOutside, Text: "11-1/4"},
		Apart:  0.375,
	}}
	lines := strings.Split(wording.Whole(a, wording.Options{}), "\n")
	if want := "Set 9-3/8 and 11-1/4 outside to outside are 3/8 apart: measure again"; lines[0] != want {
		t.Errorf("got %q, want %q", lines[0], want)
	}
	if want := "Cut 11-1/8 in"; lines[1] != want {
		t.Errorf("got %q, want %q", lines[1], want)
	}
}

// Which bend fits a set of 8-3/4 in a room of 21-1/4.
func TestReplyFit(t *testing.T) {
	a := &figure.Answer{
		Ask:  parser.Ask{Kind: parser.Fit, Measures: []parser.Measure{given(parser.Set, 8.75), given(parser.Room, 21.25)}},
		Kind: parser.Fit, Main: parser.Cut, Angle: 22.380135051959574,
		Lengths: []figure.Length{inches(parser.Cut, 15.5), inches(parser.EndGap, 17.155444566)},
		Bends: []figure.Choice{
			{Angle: 30, Fits: true, Run: 15.155444566, Cut: 15.5, EndGap: 17.155444566, Spare: 4.094555434, Why: "gentlest that fits", Ends: ends(30, 1, catalog.Own)},
			{Angle: 45, Fits: true, Run: 8.75, Cut: 9.999368671, EndGap: 11.125, Spare: 10.125, Unsure: true},
			{Angle: 22.5, Run: 21.124368671, Cut: 21.114851885, EndGap: 22.874368671, Spare: -1.624368671, Why: "too long for the room"},
			{Angle: 90, Why: "hubs collide"},
		},
		Ends: ends(30, 1, catalog.Own),
	}
	same(t, wording.Whole(a, wording.Options{}),
		"Cut 15-1/2 in with two 30s",
		"Set 8-3/4, room 21-1/4",
		"Ends 17-1/8 heavy apart",
		"30: run 15-1/8 heavy, cut 15-1/2, ends 17-1/8 heavy apart, 4-1/8 light to spare, the gentlest that fits",
		"45: run 8-3/4, cut about 10, ends about 11-1/8 apart, about 10-1/8 to spare",
		"22-1/2: no, short by 1-5/8",
		"90: no, hubs collide",
		"Takeoff 1 each, yours",
	)
}

func TestReplyParallel(t *testing.T) {
	a := &figure.Answer{
		Ask:  parser.Ask{Kind: parser.Parallel, Angle: 45, Lines: 3, Measures: []parser.Measure{given(parser.Spacing, 6.5), given(parser.Set, 15.25)}},
		Kind: parser.Parallel, Main: parser.Stagger, Angle: 45,
		Lengths: []figure.Length{
			inches(parser.Stagger, 2.692388155425118), inches(parser.Travel, 21.566756826189703), inches(parser.Run, 15.25),
		},
		Unstaggered: 4.59619407771256,
		Lines:       []figure.Line{{Number: 1}, {Number: 2, Start: 2.692388155425118}, {Number: 3, Start: -5.384776310850236}},
	}
	same(t, wording.Whole(a, wording.Options{}),
		"Stagger 2-11/16 in",
		"Spacing 6-1/2, set 15-1/4, 3 lines, two 45s",
		"Travel 21-9/16 · run 15-1/4",
		"Travel, run and cut are the same on every line.",
		"Line 1: the one on the side you step away from.",
		"Bent at one place they would close up to 4-5/8 light.",
		"Line 2 bends 2-11/16 sooner",
		"Line 3 bends 5-3/8 later",
	)
}

// Clearances read rounded up: 8.3436 is 8-5/16 heavy, and 8-3/8 on the safe side.
func TestReplyAround(t *testing.T) {
	a := &figure.Answer{
		Ask:  parser.Ask{Kind: parser.Around, Angle: 45, Measures: []parser.Measure{given(parser.Reach, 5.25), given(parser.Clearance, 1)}},
		Kind: parser.Around, Main: parser.Start, Angle: 45,
		Lengths: []figure.Length{
			{Role: parser.Start, Length: 8.343592167691146, Up: true},
			{Role: parser.Set, Length: 7.4375, Up: true},
			inches(parser.Travel, 10.518213370149896), inches(parser.Run, 7.4375),
		},
	}
	same(t, wording.Whole(a, wording.Options{}),
		"First bend's center 8-3/8 in before it",
		"Rounded up.",
		"Sticks out 5-1/4, clear 1, two 45s",
		"Set 7-7/16 · travel 10-1/2 heavy · run 7-7/16",
	)
}

func TestReplyFall(t *testing.T) {
	a := &figure.Answer{
		Ask:  parser.Ask{Kind: parser.Fall, Grade: geometry.InchPerFoot / 8, Measures: []parser.Measure{given(parser.Long, 328)}},
		Kind: parser.Fall, Main: parser.Drop, Grade: geometry.InchPerFoot / 8,
		Lengths: []figure.Length{inches(parser.Drop, 3.416666666666667)},
		Minimums: []figure.Minimum{
			{Behind: "IPC Table 704.1", Grade: geometry.InchPerFoot / 8, Meets: true},
			{Behind: "UPC 708", Grade: geometry.InchPerFoot / 4},
		},
	}
	same(t, wording.Whole(a, wording.Options{}),
		"Fall 3-7/16 in light",
		`Length 328 (27' 4"), 1/8 per foot`,
		"Grade 1/8 per foot, 1.04%, 1 in 96",
		"Meets 1/8 per foot, the least by IPC Table 704.1; check with the inspector.",
		"Under 1/4 per foot, the least by UPC 708; check with the inspector.",
	)
}

// 4-3/4 in 31' 6": 0.1508 in per foot, 1.26 %, 1 in 79.6.
func TestReplyGrade(t *testing.T) {
	a := &figure.Answer{
		Ask:  parser.Ask{Kind: parser.Fall, Measures: []parser.Measure{given(parser.Drop, 4.75), given(parser.Long, 378)}},
		Kind: parser.Fall, Main: parser.Grade, Grade: geometry.Slope(4.75 / 378),
	}
	same(t, wording.Whole(a, wording.Options{}),
		"Grade 0.151 per foot, 1.26%, 1 in 79.6",
		`Fall 4-3/4, length 378 (31' 6")`,
	)
}

func TestReplySum(t *testing.T) {
	ask := parser.Ask{Kind: parser.Sum, Sum: &parser.Arithmetic{
		Terms:     []parser.Term{{Length: 62.25, Text: `5' 2-1/4"`}, {Length: 18 * geometry.Millimeter, Text: "18 mm"}},
		Operators: []parser.Operator{parser.Plus},
	}}
	a := &figure.Answer{Ask: ask, Kind: parser.Sum, Main: parser.Total, Sum: figure.SumResult{Length: 62.95866141732284}}
	same(t, wording.Whole(a, wording.Options{}),
		`62-15/16 in heavy (5' 2-15/16")`,
		`5' 2-1/4" + 18 mm`,
		"1599.2 mm", // 62.95866 × 25.4 = 1599.15
	)
}

func TestReplyMultiplier(t *testing.T) {
	a := &figure.Answer{
		Ask: parser.Ask{Kind: parser.Multiplier, Angle: 22.5}, Kind: parser.Multiplier, Main: parser.AngleOf, Angle: 22.5,
		Factors: []figure.Factor{
			{From: parser.Set, To: parser.Travel, Exact: 2.613125929753, Printed: "2.613"},
			{From: parser.Set, To: parser.Run, Exact: 2.414213562373, Printed: "2.414"},
		},
	}
	same(t, wording.Whole(a, wording.Options{}),
		"Set to travel: × 2.613",
		"22-1/2°",
		"Set to run: × 2.414",
	)
}

// Words read otherwise than written are read back.
func TestReplySaysHowItRead(t *testing.T) {
	a := simple()
	a.Ask.Repairs = []parser.Repair{{Wrote: "sett", Read: "set"}}
	a.Ask.Taken = []parser.Taken{{Text: "9 3/8", Read: "set 9-3/8", Not: "set 9, 3/8 pipe"}}
	reply := wording.Whole(a, wording.Options{})
	for _, want := range []string{`Read "sett" as set.`, `Took "9 3/8" as set 9-3/8, not set 9, 3/8 pipe.`} {
		if !strings.Contains(reply, "\n"+want+"\n") {
			t.Errorf("%q is not a line of\n%s", want, reply)
		}
	}
}

// The limit is said when the hubs are within an inch of touching, and not else.
func TestReplyLimitOnlyWhenNear(t *testing.T) {
	a := simple()
	a.Limit = &figure.Limit{Touching: 3.680607966083864, Cut: 2.25}
	if reply := wording.Whole(a, wording.Options{}); strings.Contains(reply, "Hubs") {
		t.Errorf("a limit that is far off is said:\n%s", reply)
	}
	a.Lengths[0].Length = 3.26
	if reply := wording.Whole(a, wording.Options{}); strings.Contains(reply, "Hubs") {
		t.Errorf("a limit more than an inch off is said:\n%s", reply)
	}
	a.Lengths[0].Length = 3.25
	if reply := wording.Whole(a, wording.Options{}); !strings.Contains(reply, "\nHubs touch at a set of 3-11/16.") {
		t.Errorf("the limit is not said:\n%s", reply)
	}
}

// The triangle of an offset hangs on a takeoff only when it was reached from a
// piece: a travel made of a cut is about so, one made of set and angle is not.
func TestReplyTriangleIsSureUnlessFromAPiece(t *testing.T) {
	for _, c := range []struct {
		name  string
		ask   parser.Ask
		about bool
	}{
		{"set and angle", parser.Ask{Angle: 45, Measures: []parser.Measure{given(parser.Set, 9)}}, false},
		{"set, angle and end gap", parser.Ask{Angle: 45, Measures: []parser.Measure{given(parser.Set, 9), given(parser.EndGap, 12)}}, false},
		{"set and room", parser.Ask{Kind: parser.Fit, Measures: []parser.Measure{given(parser.Set, 9), given(parser.Room, 30)}}, false},
		{"cut and angle", parser.Ask{Angle: 45, Measures: []parser.Measure{given(parser.Cut, 9)}}, true},
		{"set and cut", parser.Ask{Measures: []parser.Measure{given(parser.Set, 9), given(parser.Cut, 12)}}, true},
	} {
		a := &figure.Answer{
			Ask: c.ask, Kind: c.ask.Kind, Main: parser.Travel,
			Lengths: []figure.Length{inches(parser.Travel, 15)}, Ends: ends(45, 1, catalog.Memory),
		}
		want := map[bool]string{false: "Travel 15 in", true: "Travel about 15 in"}[c.about]
		if got := wording.Whole(a, wording.Options{}); !strings.HasPrefix(got, want+"\n") {
			t.Errorf("%s: got %q, want %q", c.name, got, want)
		}
	}
}

// What a dry fit or a mark came to, worded either way.
func TestReplyTooShort(t *testing.T) {
	a := &figure.Answer{
		Ask:  parser.Ask{Kind: parser.Check, Angle: 45, Measures: []parser.Measure{given(parser.Set, 8.25), given(parser.DryFit, 8)}},
		Kind: parser.Check, Main: parser.TrimOff,
		Lengths: []figure.Length{inches(parser.TrimOff, -0.3535533905932738)}, // 1/4 in of set, ÷ sin 45°
		Findings: []figure.Finding{
			{What: parser.Set, By: -0.25}, {What: parser.TakeoffOf, By: -0.1767766952966369}, {What: parser.AngleOf, Turn: -1.72},
		},
	}
	same(t, wording.Whole(a, wording.Options{}),
		"Too short by 3/8 in light",
		"Set 8-1/4, dry fit 8, two 45s",
		"Any one of these would explain it:",
		"set out by 1/4",
		"takeoff out by 3/16 at each end",
		"fittings that turn 1.7° too little",
	)
}

// A 4 in long-radius elbow cut to 52-1/2°: radius 6, the back 7.5595 and the
// throat 3.4361 along the wall.
func TestReplyTrim(t *testing.T) {
	a := &figure.Answer{
		Ask:  parser.Ask{Kind: parser.Trim, Angle: 52.5, Pipe: catalog.Pipe{Size: "4"}},
		Kind: parser.Trim, Main: parser.TakeoffOf, Angle: 52.5,
		Lengths: []figure.Length{inches(parser.TakeoffOf, 2.9588725561878246), inches(parser.Radius, 6)},
		Ordinates: []figure.Ordinate{
			{Eighth: 0, Back: 3.4361169648638366},
			{Eighth: 2, Arc: 3.534291735288517, Back: 5.497787143782139},
			{Eighth: 4, Arc: 7.068583470577035, Back: 7.559457322700441},
			{Eighth: 6, Arc: 10.602875205865552, Back: 5.497787143782139},
		},
	}
	same(t, wording.Whole(a, wording.Options{}),
		"Takeoff 2-15/16 in heavy",
		"52.5°, 4 pipe",
		"Radius 6",
		"Marks from the face, round from the throat; the other half is the same:",
		"throat: 3-7/16",
		"2/8 round (3-9/16 light): 5-1/2",
		"back (7-1/16): 7-9/16",
		"Keep the piece with that face.",
	)
}

func TestReplyOfNothing(t *testing.T) {
	for _, said := range []string{
		wording.Whole(nil, wording.Options{}), wording.Steps(nil, wording.Options{}), wording.Spoken(nil, wording.Options{}),
	} {
		if said == "" || strings.Contains(said, "Cut") {
			t.Errorf("got %q", said)
		}
	}
}
