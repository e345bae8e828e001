package wording_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// TestWhatJobHasWhichCaution holds what a reply says against what the codes and
// standards have a job say: the rows are those of the table in the notes on the
// trade, section 6, whose sources figure.Authorities names, and of the check of
// 1,132 jobs. A row names the cautions that must be among the two of the reply,
// or before the cut, and those that must not.
func TestWhatJobHasWhichCaution(t *testing.T) {
	for _, row := range []struct {
		job      string
		carries  parser.Load
		through  parser.Barrier
		has, not []figure.Caution
	}{
		// What it carries decides, on any pipe.
		{"set 12 45s 3/4 copper takeoff 1/2", parser.FuelGas, "", of(figure.GasNamed), of(figure.Gas)},
		{"set 12 45s 1 pex takeoff 1", parser.FuelGas, "", of(figure.GasNamed), of(figure.GasInPlastic)},
		{"set 12 45s 2 pvc takeoff 1-1/8", parser.FuelGas, "", of(figure.GasInPlastic), of(figure.GasNamed)},
		{"set 12 45s 1 threaded steel", parser.FuelGas, "", of(figure.GasNamed), of(figure.Gas)},
		{"set 12 45s 1 threaded steel", "", "", of(figure.Gas), of(figure.GasNamed)},
		{"set 12 45s 3/4 copper takeoff 1/2", parser.MedicalGas, "", of(figure.MedicalGas), of(figure.GasNamed)},
		{"set 12 45s 1 pex takeoff 1", parser.CompressedAir, "", of(figure.AirInPlastic), nil},
		{"set 12 45s 2 pvc dwv", parser.Water, "", of(figure.DrainForWater), nil},
		{"set 12 45s 2 abs", parser.Water, "", of(figure.DrainForWater), nil},
		{"set 12 45s 2 pvc takeoff 1", parser.Water, "", nil, of(figure.DrainForWater)}, // schedule 40 then
		{"set 12 45s 3 pvc dwv", parser.Vent, "", of(figure.DryVent), of(figure.DrainGrade)},
		{"set 12 60s 3 pvc dwv takeoff 2", parser.Vent, "", of(figure.DryVent), of(figure.Cleanout)},
		{"set 12 45s 4 pvc dwv takeoff 4", parser.AsbestosCement, "", of(figure.AsbestosNamed), nil},
		{"set 12 45s 1/2 copper takeoff 3/8", parser.LeadPipe, "", of(figure.LeadNamed), nil},

		// What it goes through.
		{"set 12 45s 2 pvc dwv", "", parser.Masonry, of(figure.Silica), nil},
		{"set 12 45s 2 pvc dwv", "", parser.Joist, of(figure.Structure), nil},
		{"around a beam, reach 6, clearance 1, 45s, 2 pvc dwv", "", "", nil, of(figure.Silica, figure.BlindCut)},

		// What the codes say of a turn in a drain.
		{"set 12 60s 3 pvc dwv takeoff 2", "", "", of(figure.Cleanout, figure.StackOffset), nil},
		{"set 12 72s 3 no hub takeoff 2", "", "", of(figure.BendNotListed, figure.Cleanout), nil},
		{"set 14 30s 4 pvc dwv takeoff 2", "", "", of(figure.BendNotListed), of(figure.Cleanout)},
		{"set 14 90s 3 pvc dwv takeoff 2", "", "", of(figure.QuarterInDrain, figure.Cleanout), nil},
		{"set 12 45 and sanitary tee 3 pvc dwv takeoff 2 and 3", "", "", of(figure.TeeOnItsBack), nil},
		{"set 12 45 and wye 3 pvc dwv takeoff 2 and 3", "", "", nil, of(figure.TeeOnItsBack)},
		{"set 12 45s 4 no hub", "", "", of(figure.CastIronWeight, figure.DrainGrade), of(figure.Cleanout, figure.BendNotListed)},
		{"set 12 45s 3 pvc dwv at 1/16 per foot takeoff 1", "", "", of(figure.SolventCement), of(figure.BelowMinimum)}, // a line of its own says so

		// A standing line is cut.
		{"set 12 45s, ends are 9 apart now, 4 cast iron no hub", "", "", of(figure.CastIronWeight, figure.LiveLine), nil},
		{"set 12 45s, ends are 9 apart now, 1 copper takeoff 1/2", "", "", of(figure.LiveLine, figure.OldLead), nil},
		{"set 12 45s, ends are 9 apart now, 2 pvc dwv", "", "", of(figure.LiveLine, figure.BlindCut), nil},
		{"set 12 45s, ends are 9 apart now, takeoff 1", "", "", of(figure.LiveLine, figure.OldAsbestos), nil},

		// How it is joined, where nothing graver stands before it.
		{"set 12 45s 2 pvc dwv", "", "", of(figure.SolventCement, figure.NoAirTest), nil},
		{"set 12 45s 2 pvc sch 40 takeoff 1", "", "", of(figure.PrimerAndCement, figure.NoAirTest), nil},
		{"set 12 45s 2 abs", "", "", of(figure.ABSDry, figure.NoAirTest), nil},
		{"set 12 45s 3/4 copper takeoff 1/2", "", "", of(figure.HotWork, figure.TestFirst), nil},
		{"set 20 45s 4 butt weld", "", "", of(figure.HotWork, figure.Gas), nil},
		{"set 4 45s 4 butt weld takeoff 2, gap 1/8", "", "", of(figure.ShortPup), nil}, // 5.657 - 4.25 = 1.407
		{"set 12 22-1/2s 2 copper takeoff 1/2", "", "", of(figure.DryFitFirst), nil},

		// What is only looked up, and a fall, has none.
		{"takeoff for a 2 pvc dwv 45", "", "", nil, of(figure.SolventCement, figure.NoAirTest)},
		{"takeoff for a 2 pvc dwv 90", parser.Vent, "", nil, of(figure.DryVent, figure.QuarterInDrain, figure.Cleanout)},
		{"fall over 22 ft at 1/4, 3 pvc", "", "", nil, of(figure.SolventCement, figure.NoAirTest, figure.TestFirst)},
	} {
		ask := solved(t, row.job).Ask
		ask.Carries, ask.Through = row.carries, row.through
		a, err := figure.Solve(ask, figure.Settings{})
		if err != nil {
			t.Errorf("%q that carries %q: %v", row.job, row.carries, err)
			continue
		}
		text := wording.Whole(a, wording.Options{})
		for _, c := range row.has {
			if !strings.Contains(text, sentenceOf(t, c)) {
				t.Errorf("%q that carries %q says nothing of %q, but of %q:\n%s", row.job, row.carries, c, wording.Pressing(a), text)
			}
		}
		for _, c := range row.not {
			if strings.Contains(text, sentenceOf(t, c)) {
				t.Errorf("%q that carries %q says %q:\n%s", row.job, row.carries, c, text)
			}
		}
		short := wording.Reply(a, wording.Options{})
		for _, c := range row.has {
			if a.Grave(c) && !strings.Contains(short, briefOf(t, c)) {
				t.Errorf("%q that carries %q says nothing of %q at first:\n%s", row.job, row.carries, c, short)
			}
		}
		if strings.Contains(text, "Cut ") && slices.ContainsFunc(row.has, figure.Caution.NamedFirst) && strings.Index(text, "Cut ") < strings.Index(text, sentenceOf(t, row.has[0])) {
			t.Errorf("%q: the cut stands before its caution:\n%s", row.job, text)
		}
	}
}

func of(c ...figure.Caution) []figure.Caution { return c }

// sentenceOf is the line of a caution.
func sentenceOf(t *testing.T, c figure.Caution) string {
	t.Helper()
	text := wording.AllCautions(&figure.Answer{Cautions: of(c)}, wording.Options{})
	line, _, _ := strings.Cut(strings.TrimPrefix(text, "· "), " (")
	if len(line) < 10 {
		t.Fatalf("no sentence for %q", c)
	}
	return line
}

// briefOf is the line of a caution in a short answer.
func briefOf(t *testing.T, c figure.Caution) string {
	t.Helper()
	f, err := os.Open("cautions.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		if row[0] == string(c) {
			return row[3]
		}
	}
	t.Fatalf("no sentence for %q", c)
	return ""
}

// TestNoCompressedAirInPlastic: it is refused with the reason and its source,
// whether the pipe is named or taken.
func TestNoCompressedAirInPlastic(t *testing.T) {
	for _, job := range []string{"set 12 45s 2 pvc takeoff 1-1/8", "set 12 45s 1 pvc schedule 80 takeoff 1", "set 12 45s 1 cpvc takeoff 1", "set 12 45s 2 abs takeoff 1-1/8"} {
		ask := solved(t, job).Ask
		ask.Carries = parser.CompressedAir
		a, err := figure.Solve(ask, figure.Settings{})
		if err == nil {
			t.Errorf("%q is answered: %s", job, wording.Whole(a, wording.Options{}))
			continue
		}
		text := wording.WholeRefusal(err, wording.Options{})
		if !strings.Contains(text, "bursts in shards") || !strings.Contains(text, "OSHA") || strings.Contains(text, "Cut") {
			t.Errorf("%q is refused with\n%s", job, text)
		}
	}
}

// TestWaterTakesPressurePipe: DWV fittings are no silent offer for it.
func TestWaterTakesPressurePipe(t *testing.T) {
	ask := solved(t, "set 12 45s 2 pvc takeoff 1").Ask
	ask.Carries = parser.Water
	a, err := figure.Solve(ask, figure.Settings{})
	if err != nil || a.System.ID != "pvc-40" {
		t.Errorf("water in PVC runs in %s: %v", a.System.Name, err)
	}
}

// TestEveryCautionShows: whatever is in the list is said in the first, short
// answer of some job, at the latest when those that are told once a day were told
// before it. What has a line of its own is left out: the check of the takeoff, and
// a grade below the minimum.
func TestEveryCautionShows(t *testing.T) {
	brief := map[figure.Caution]string{}
	for _, authority := range figure.Authorities() {
		brief[authority.Caution] = briefOf(t, authority.Caution)
	}
	shown := map[figure.Caution]int{}
	jobs := 0
	for _, s := range catalog.Systems() {
		var day wording.Options
		sizes := s.Sizes()
		for _, size := range []catalog.Size{sizes[0], sizes[len(sizes)/2], sizes[len(sizes)-1]} {
			for _, angle := range []geometry.Angle{90, 72, 60, 45, 30, 22.5} {
				for _, kind := range []parser.Kind{parser.Offset, parser.Mark, parser.Around, parser.Piece} {
					for _, load := range []parser.Load{"", parser.FuelGas, parser.MedicalGas, parser.CompressedAir, parser.Water, parser.Vent, parser.AsbestosCement, parser.LeadPipe} {
						ask := jobOf(parser.Ask{Kind: kind, Angle: angle, Carries: load}, s, size, jobs)
						jobs++
						a, err := figure.Solve(ask, figure.Settings{})
						if err != nil {
							continue
						}
						b := wording.NewBrief(a, day)
						day.ToldToday = append(day.ToldToday, b.Told...)
						for c, line := range brief {
							if strings.Contains(b.Text, line) {
								shown[c]++
							}
						}
					}
				}
			}
		}
	}
	if jobs < 1132 {
		t.Errorf("only %d jobs", jobs)
	}
	for c := range brief {
		if shown[c] == 0 && c != figure.CheckTakeoff && c != figure.BelowMinimum {
			t.Errorf("in %d jobs nothing says %q: %v", jobs, c, fmt.Sprint(shown))
		}
	}
}

// jobOf makes a job of an ask, in a pipe: with unlike ends, long sweeps, joists and
// no pipe at all now and then.
func jobOf(ask parser.Ask, s catalog.System, size catalog.Size, n int) parser.Ask {
	ask.Pipe = catalog.Pipe{Material: s.Material, Joint: s.Joint, Use: s.Use, Schedule: s.Schedule, Size: size}
	ask.Measures = slices.Clone(measuresOf[ask.Kind])
	for i, end := range []int{n % 2, n / 7 % 2} {
		ask.Ends[i].Takeoff = geometry.Length(3 + end)
	}
	if n%5 == 0 {
		ask.Pipe = catalog.Pipe{}
	}
	if n%7 == 0 {
		ask.Ends[1].Size = s.Sizes()[0]
	}
	if n%13 == 0 {
		ask.Ends[0].Fitting = catalog.Fitting{Shape: catalog.SanitaryTee}
	}
	if n%11 == 0 {
		ask.Through = []parser.Barrier{parser.Joist, parser.Masonry}[n%2]
	}
	if n%5 == 2 {
		ask.Ends[0].Fitting = catalog.Fitting{Shape: catalog.Bend, Angle: ask.Angle, Sweep: catalog.Long}
		ask.Ends[1].Fitting = ask.Ends[0].Fitting
	}
	return ask
}

// measuresOf are the measures of a job of each kind.
var measuresOf = map[parser.Kind][]parser.Measure{
	parser.Around: {given(parser.Reach, 30), given(parser.Clearance, 1)},
	parser.Mark:   {given(parser.Set, 24), given(parser.GapNow, 9)},
	parser.Offset: {given(parser.Set, 10)},
	parser.Piece:  {given(parser.CenterToCenter, 40)},
}
