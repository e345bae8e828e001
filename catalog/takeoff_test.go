package catalog_test

import (
	"math"
	"strings"
	"testing"

	"dogleg/catalog"
	"dogleg/geometry"
)

// Values as the standard of the row prints them, or, where sure is false, as
// they are recalled from it. Threaded ones are center to end less makeup.
func TestTakeoffs(t *testing.T) {
	for _, want := range []struct {
		standard, id, fitting string
		size                  catalog.Size
		length                geometry.Length
		sure                  bool
	}{
		{"ASME B16.9, A", "steel-butt-weld", "90", "1/2", 1.5, true},
		{"ASME B16.9, A", "steel-butt-weld", "90", "3/4", 1.5, true}, // older editions: 1-1/8
		{"ASME B16.9, A", "steel-butt-weld", "90", "6", 9, true},
		{"ASME B16.9, A", "steel-butt-weld", "long 90", "6", 9, true}, // the regular one
		{"ASME B16.9, A", "steel-butt-weld", "short 90", "6", 6, true},
		{"ASME B16.9, B", "steel-butt-weld", "45", "1/2", 0.625, false},
		{"ASME B16.9, B", "steel-butt-weld", "45", "2", 1.375, false},
		{"ASME B16.9, B", "steel-butt-weld", "45", "6", 3.75, false},
		{"ASME B16.9, C", "steel-butt-weld", "tee", "4", 4.125, true},
		{"ASME B16.11 class 3000", "steel-socket-weld", "90", "1", 0.88, false},
		{"ASME B16.11 class 3000", "steel-socket-weld", "45", "2", 1, false},
		{"ASME B16.3, A 1.50, less 11/16", "steel-threaded", "90", "1", 1.50 - 0.6875, false},
		{"ASME B16.3, A 2.25, less 3/4", "steel-threaded", "90", "2", 2.25 - 0.75, false},
		{"ASME B16.3, C 1.43, less 11/16", "steel-threaded", "45", "1-1/2", 1.43 - 0.6875, false},
		{"ASME B16.3, A 1.31, less 9/16", "steel-threaded", "tee", "3/4", 1.31 - 0.5625, false},
		{"ASME B16.3, A 5.13, less L1 0.958 and L3 0.25", "steel-threaded", "90", "6", 5.13 - 1.208, false},
		{"CISPI 301, D", "cast-iron-no-hub", "90", "2", 4.5, false},
		{"CISPI 301, D", "cast-iron-no-hub", "45", "4", 3.125, false},
		{"ASTM A74, X", "cast-iron-hub", "90", "4", 4.5, false},
		{"ASTM A74, X", "cast-iron-hub", "45", "3", 1.9375, false},
		{"ASTM D3311 pattern", "pvc-dwv", "90", "3", 3.0625, false},
		{"ASTM D3311 pattern", "pvc-dwv", "45", "2", 1.5, false},
		{"ASTM D3311 pattern", "abs-dwv", "22-1/2", "4", 1.3125, false},
		{"IS 7834-3, Z", "pvc-metric", "90", "110 mm", 56 / 25.4, false},
		{"IS 7834-2, Z", "pvc-metric", "45", "110 mm", 23.5 / 25.4, false},
		{"IS 7834-6, half of 6 mm", "pvc-metric", "coupling", "110 mm", 3 / 25.4, false},
	} {
		got, ok := system(t, want.id).Takeoff(fitting(t, want.fitting), want.size)
		if !ok || !near(got.Length, want.length, within) || got.Evidence.Sure() != want.sure {
			t.Errorf("%s, %s %s %s: %v, %v, want %v, sure %v", want.standard, want.id, want.fitting, want.size, got, ok, want.length, want.sure)
		}
		standard, _, _ := strings.Cut(want.standard, ",")
		if name := strings.TrimSuffix(standard, " pattern"); !strings.Contains(got.Source, name) {
			t.Errorf("%s %s %s: source %q does not name %s", want.id, want.fitting, want.size, got.Source, name)
		}
		if got.Fitting != fitting(t, want.fitting) || got.Size != want.size {
			t.Errorf("takeoff of a %v in %s is for a %v in %s", want.fitting, want.size, got.Fitting, got.Size)
		}
	}
}

func TestSpigotTakeoffs(t *testing.T) {
	s := system(t, "cast-iron-hub")
	for _, want := range []struct { // ASTM A74, dimension D, recalled
		angle geometry.Angle
		size  catalog.Size
		d     geometry.Length
	}{
		{90, "2", 6}, {90, "4", 8}, {45, "2", 4.25}, {45, "4", 5.6875}, {45, "8", 8},
	} {
		got, ok := s.SpigotTakeoff(catalog.BendOf(want.angle), want.size)
		if !ok || got.Length != want.d || got.Insertion != 0 || got.Evidence != catalog.Memory {
			t.Errorf("spigot of a %v in %s: %v, %v, want %v", want.angle, want.size, got, ok, want.d)
		}
	}
	if got, ok := system(t, "cast-iron-no-hub").SpigotTakeoff(catalog.BendOf(90), "2"); ok {
		t.Errorf("a no-hub fitting has a spigot: %v", got)
	}
}

func TestThereIsNoTakeoff(t *testing.T) {
	xh := system(t, "cast-iron-hub")
	xh.Schedule = "XH"
	for _, no := range []struct {
		why     string
		s       catalog.System
		fitting string
		size    catalog.Size
	}{
		{"no such size", system(t, "pvc-dwv"), "45", "2-1/2"},
		{"no such bend", system(t, "steel-threaded"), "22-1/2", "1"},
		{"no such bend", system(t, "copper"), "60", "1"},
		{"no such sweep", system(t, "steel-butt-weld"), "short 45", "4"},
		{"no stock fitting", system(t, "steel-butt-weld"), "30", "4"},
		{"short radius starts at 1 in", system(t, "steel-butt-weld"), "short 90", "3/4"},
		{"not known", system(t, "pvc-dwv"), "long 90", "2"},
		{"not known", system(t, "pvc-dwv"), "street 45", "2"},
		{"not known", system(t, "pvc-dwv"), "wye", "2"},
		{"not known", system(t, "cast-iron-no-hub"), "45", "8"},
		{"not known", system(t, "cast-iron-hub"), "45", "10"},
		{"tables are of service weight", xh, "45", "4"},
		{"crimp fittings have no standard length", system(t, "pex"), "90", "1/2"},
	} {
		if got, ok := no.s.Takeoff(fitting(t, no.fitting), no.size); ok {
			t.Errorf("%s: %s %s %s has %v", no.why, no.s.ID, no.fitting, no.size, got)
		}
	}
}

// everyTakeoff calls check with each takeoff that there is.
func everyTakeoff(check func(s catalog.System, got catalog.Takeoff)) {
	for _, s := range catalog.Systems() {
		for _, f := range s.Fittings() {
			for _, size := range s.Sizes() {
				if got, ok := s.Takeoff(f, size); ok {
					check(s, got)
				}
				if got, ok := s.SpigotTakeoff(f, size); ok {
					check(s, got)
				}
			}
		}
	}
}

func TestEveryTakeoffSaysWhereItComesFrom(t *testing.T) {
	everyTakeoff(func(s catalog.System, got catalog.Takeoff) {
		if got.Length <= 0 || got.Band <= 0 || got.Band >= got.Length || got.Insertion < 0 {
			t.Errorf("%s: %v", s.ID, got)
		}
		if got.Source == "" || got.Evidence == "" {
			t.Errorf("%s: no source or no evidence: %v", s.ID, got)
		}
		unsure := strings.Contains(got.Source, "geometry") || strings.Contains(got.Source, "unchecked")
		if got.Evidence.Sure() == unsure {
			t.Errorf("%s: sure is %v, but the source is %q", s.ID, got.Evidence.Sure(), got.Source)
		}
		depth, _ := s.Insertion(got.Size)
		if got.Insertion != 0 && got.Insertion != depth.Length {
			t.Errorf("%s %s: insertion %v, depth %v", s.ID, got.Size, got.Insertion, depth.Length)
		}
	})
}

// A bend figured from two others carries their rounding to a sixteenth.
func TestTakeoffsGrowWithTheSize(t *testing.T) {
	for _, s := range catalog.Systems() {
		for _, f := range s.Fittings() {
			var before catalog.Takeoff
			for _, size := range s.Sizes() {
				got, ok := s.Takeoff(f, size)
				if !ok {
					continue
				}
				var rounding geometry.Length
				if got.Evidence == catalog.Derived {
					rounding = 1.0 / 16
				}
				if got.Length < before.Length-rounding {
					t.Errorf("%s %s: %v in %s, %v in %s", s.ID, f.Key(), before.Length, before.Size, got.Length, size)
				}
				before = got
			}
		}
	}
}

func TestASharperBendHasALongerTakeoff(t *testing.T) {
	for _, s := range catalog.Systems() {
		for _, size := range s.Sizes() {
			before := geometry.Length(math.Inf(1))
			for _, a := range s.Bends() {
				got, ok := s.Takeoff(catalog.BendOf(a), size)
				if !ok {
					continue
				}
				if got.Length >= before {
					t.Errorf("%s %s: the %v takes %v, the bend before it %v", s.ID, size, a, got.Length, before)
				}
				before = got.Length
			}
		}
	}
}

// Two pipes that meet at an angle must not run into each other inside the
// fitting: their walls meet at half the outside diameter times tan(a/2).
func TestPipesClearEachOtherInTheFitting(t *testing.T) {
	everyTakeoff(func(s catalog.System, got catalog.Takeoff) {
		if got.Fitting.Shape != catalog.Bend {
			return
		}
		pipe, _ := s.Dimensions(got.Size)
		least := float64(pipe.Outside) / 2 * math.Tan(float64(got.Fitting.Angle)*math.Pi/360)
		if float64(got.Length) < least {
			t.Errorf("%s %s %s: takeoff %v, pipes meet at %v", s.ID, got.Fitting.Key(), got.Size, got.Length, least)
		}
	})
}

// ASME B16.9: a long-radius 90 is one and a half times its nominal size (from
// 1 in up), a short-radius one its size, a long-radius 45 five eighths of it
// (from 4 in up).
func TestButtWeldElbowsFollowTheirRule(t *testing.T) {
	inches := map[catalog.Size]geometry.Length{
		"1": 1, "1-1/4": 1.25, "1-1/2": 1.5, "2": 2, "2-1/2": 2.5, "3": 3, "3-1/2": 3.5,
		"4": 4, "5": 5, "6": 6, "8": 8, "10": 10, "12": 12,
	}
	for size, nominal := range inches {
		if got := takeoff(t, "steel-butt-weld", "90", size); got.Length != 1.5*nominal {
			t.Errorf("90 in %s: %v", size, got.Length)
		}
		if got := takeoff(t, "steel-butt-weld", "short 90", size); got.Length != nominal {
			t.Errorf("short 90 in %s: %v", size, got.Length)
		}
		got := takeoff(t, "steel-butt-weld", "45", size)
		if nominal >= 4 && got.Length != 0.625*nominal {
			t.Errorf("45 in %s: %v", size, got.Length)
		}
		if pure := 1.5 * nominal * geometry.Length(math.Tan(math.Pi/8)); got.Length < pure {
			t.Errorf("45 in %s: %v is shorter than its curve, %v", size, got.Length, pure)
		}
	}
}

// The metric series of ISO 264: Z of a 90 is half the diameter and 1 mm, to
// half a millimeter.
func TestMetricPVCElbowsFollowTheirRule(t *testing.T) {
	s := system(t, "pvc-metric")
	for _, size := range s.Sizes() {
		pipe, _ := s.Dimensions(size)
		got, ok := s.Takeoff(catalog.BendOf(90), size)
		want := pipe.Outside.Millimeters()/2 + 1
		if !ok || math.Abs(got.Length.Millimeters()-want) > 0.5+1e-9 {
			t.Errorf("90 in %s: %v mm, want %v", size, got.Length.Millimeters(), want)
		}
	}
}

// What is figured from the quarter and eighth bends, beside what is recalled
// from the same standards of the other bends (and is not in the tables).
func TestPatternAgreesWithWhatIsRecalled(t *testing.T) {
	for _, r := range []struct {
		standard, id string
		angle        geometry.Angle
		size         catalog.Size
		recalled     geometry.Length
	}{
		{"CISPI 301, D", "cast-iron-no-hub", 72, "2", 3.6875},
		{"CISPI 301, D", "cast-iron-no-hub", 72, "3", 4.0625},
		{"CISPI 301, D", "cast-iron-no-hub", 60, "2", 3.25},
		{"CISPI 301, D", "cast-iron-no-hub", 60, "3", 3.5},
		{"CISPI 301, D", "cast-iron-no-hub", 60, "4", 3.8125},
		{"CISPI 301, D", "cast-iron-no-hub", 22.5, "1-1/2", 2.125},
		{"CISPI 301, D", "cast-iron-no-hub", 22.5, "2", 2.125},
		{"CISPI 301, D", "cast-iron-no-hub", 22.5, "3", 2.25},
		{"CISPI 301, D", "cast-iron-no-hub", 22.5, "4", 2.3125},
		{"CISPI 301, D", "cast-iron-no-hub", 22.5, "6", 3},
		{"ASTM A74, X", "cast-iron-hub", 60, "2", 2},
		{"ASTM A74, X", "cast-iron-hub", 60, "3", 2.5},
		{"ASTM A74, X", "cast-iron-hub", 60, "4", 2.8125},
		{"ASTM A74, X", "cast-iron-hub", 22.5, "2", 0.875},
		{"ASTM A74, X", "cast-iron-hub", 22.5, "3", 1.1875},
		{"ASTM A74, X", "cast-iron-hub", 22.5, "4", 1.3125},
		{"ASTM A74, X", "cast-iron-hub", 22.5, "5", 1.375},
		{"ASTM A74, X", "cast-iron-hub", 22.5, "6", 1.5},
	} {
		got, ok := system(t, r.id).Takeoff(catalog.BendOf(r.angle), r.size)
		if !ok || got.Evidence != catalog.Derived || !near(got.Length, r.recalled, 1.0/8) || got.Band < 1.0/8 {
			t.Errorf("%s %v in %s: %v, %v, recalled %v", r.standard, r.angle, r.size, got, ok, r.recalled)
		}
	}
}

// The two ends of a hub-and-spigot bend share its curve: over all bends of a
// size D and X differ by the same length (ASTM A74: B - A + Y).
func TestHubAndSpigotEndsShareOneCurve(t *testing.T) {
	s := system(t, "cast-iron-hub")
	for _, size := range s.Sizes() {
		var first geometry.Length
		for i, a := range s.Bends() {
			x, known := s.Takeoff(catalog.BendOf(a), size)
			d, knownToo := s.SpigotTakeoff(catalog.BendOf(a), size)
			if known != knownToo {
				t.Errorf("%v in %s: only one end is known", a, size)
			}
			if i == 0 {
				first = d.Length - x.Length
			}
			if !near(d.Length-x.Length, first, 1.0/16) {
				t.Errorf("%v in %s: D %v, X %v", a, size, d.Length, x.Length)
			}
		}
	}
}

// Every recalled DWV sixteenth bend fits the curve of its quarter and eighth
// bends, r·tan(a/2) + e, within its band; those that need more than 1/8 in say
// so.
func TestDWVPatternFitsItsCurve(t *testing.T) {
	tan := func(degrees float64) geometry.Length { return geometry.Length(math.Tan(degrees * math.Pi / 360)) }
	for _, size := range []catalog.Size{"1-1/4", "1-1/2", "2", "3", "4"} {
		quarter, eighth := takeoff(t, "pvc-dwv", "90", size), takeoff(t, "pvc-dwv", "45", size)
		r := (quarter.Length - eighth.Length) / (tan(90) - tan(45))
		e := quarter.Length - r*tan(90)
		if r <= 0 || e < 0 {
			t.Errorf("%s: radius %v, straight end %v", size, r, e)
		}
		sixteenth := takeoff(t, "pvc-dwv", "22-1/2", size)
		off := sixteenth.Length - (r*tan(22.5) + e)
		if !near(off, 0, sixteenth.Band) {
			t.Errorf("22-1/2 in %s is %v off its curve, band %v", size, off, sixteenth.Band)
		}
		remarked := strings.Contains(sixteenth.Note, "does not fit")
		if remarked == near(off, 0, 1.0/8) {
			t.Errorf("22-1/2 in %s is %v off its curve; its note is %q", size, off, sixteenth.Note)
		}
		sixth := takeoff(t, "pvc-dwv", "60", size)
		if sixth.Evidence != catalog.Derived || !near(sixth.Length, r*tan(60)+e, within) {
			t.Errorf("60 in %s: %v, want %v", size, sixth, r*tan(60)+e)
		}
	}
}

// Where nothing is known: outside diameter times tan(a/2), half of it either
// way. 1.9·tan 22.5° = 0.787005775…, 0.875·tan 45° = 0.875, 4.215·tan 11.25° =
// 0.838415626…
func TestRoughFigures(t *testing.T) {
	for _, want := range []struct {
		id     string
		angle  geometry.Angle
		size   catalog.Size
		length geometry.Length
		reason string
	}{
		{"pvc-40", 45, "1-1/2", 0.787005775, "ASTM D2466"},
		{"copper", 90, "3/4", 0.875, "ASME B16.22"},
		{"pvc-sewer", 22.5, "4", 0.838415626, "ASTM D3034"},
		{"pvc-dwv", 90, "6", 6.625, "recalled to 4 in"},
	} {
		got, ok := system(t, want.id).Takeoff(catalog.BendOf(want.angle), want.size)
		if !ok || !near(got.Length, want.length, within) || !near(got.Band, want.length/2, within) {
			t.Errorf("%s %v in %s: %v, %v, want %v", want.id, want.angle, want.size, got, ok, want.length)
		}
		if got.Evidence != catalog.Derived || !strings.Contains(got.Note, want.reason) || !strings.HasPrefix(got.Source, "rough, from geometry") {
			t.Errorf("%s %v in %s: %v", want.id, want.angle, want.size, got)
		}
	}
}

func TestThreads(t *testing.T) {
	s := system(t, "steel-threaded")
	for _, size := range s.Sizes() {
		thread, ok := catalog.ThreadOf(size)
		if !ok {
			t.Errorf("%s has no thread", size)
			continue
		}
		// ASME B1.20.1: L2 = (0.8 D + 6.8) / n.
		pipe, _ := s.Dimensions(size)
		l2 := (0.8*float64(pipe.Outside) + 6.8) / thread.PerInch
		if !near(thread.Effective, geometry.Length(l2), 0.0006) {
			t.Errorf("%s: effective %v, want %v", size, thread.Effective, l2)
		}
		// Made up tight is hand-tight and wrench, one turn either way. The other
		// table is as much as 1/8 in off.
		tight := thread.HandTight + thread.Wrench
		if !near(thread.Makeup, tight, thread.Turn()) || !near(thread.OtherMakeup, tight, 1.0/8) {
			t.Errorf("%s: makeup %v and %v, by the thread %v", size, thread.Makeup, thread.OtherMakeup, tight)
		}
		got := takeoff(t, "steel-threaded", "90", size)
		if got.Band != thread.Turn() || got.Insertion != thread.Makeup || !strings.Contains(got.Note, "another table") {
			t.Errorf("90 in %s: %v", size, got)
		}
	}
	// From 5 in up the makeup is figured from the thread, so the takeoff is too.
	for size, want := range map[catalog.Size]catalog.Evidence{"4": catalog.Memory, "5": catalog.Derived} {
		if got := takeoff(t, "steel-threaded", "90", size); got.Evidence != want {
			t.Errorf("90 in %s: %s, want %s", size, got.Evidence, want)
		}
	}
	if _, ok := catalog.ThreadOf("7"); ok {
		t.Error("there is a 7 in thread")
	}
}

func TestGaps(t *testing.T) {
	want := map[string]geometry.Length{ // all others: nothing
		"steel-butt-weld":   1.0 / 8,
		"steel-socket-weld": 1.0 / 16,
		"cast-iron-no-hub":  1.0 / 8,
		"steel-en-weld":     3 * geometry.Millimeter,
		"cast-iron-en":      3 * geometry.Millimeter,
		"pvc-soil":          10 * geometry.Millimeter, // for the pipe to grow
		"pvc-drain":         10 * geometry.Millimeter,
		"pp-soil":           10 * geometry.Millimeter,
	}
	for _, s := range catalog.Systems() {
		if got := s.Gap(); got.Length != want[s.ID] {
			t.Errorf("%s: gap %v, want %v", s.ID, got.Length, want[s.ID])
		}
	}
}

func TestEvidence(t *testing.T) {
	sure := map[catalog.Evidence]bool{
		catalog.Own: true, catalog.Said: true, catalog.Published: true, catalog.OpenData: true,
		catalog.SecondHand: false, catalog.Memory: false, catalog.Derived: false, "": false, "hearsay": false,
	}
	for e, want := range sure {
		if e.Sure() != want {
			t.Errorf("%q: sure %v", e, e.Sure())
		}
	}
}

func TestCenterToFace(t *testing.T) {
	// 2 in PVC DWV, an eighth bend: 1-1/2 to the stop, 3/4 deep.
	if got := takeoff(t, "pvc-dwv", "45", "2"); got.CenterToFace() != 2.25 {
		t.Errorf("center to face %v", got.CenterToFace())
	}
}

// A tee that the standard gives the length of a 90 takes what that takes, and is no
// surer; one of another standard has none.
func TestTeeAsNinety(t *testing.T) {
	for _, id := range []string{"pvc-40", "pvc-80", "cpvc", "copper"} {
		s := system(t, id)
		for _, size := range s.Sizes() {
			tee, ok := s.Takeoff(catalog.Fitting{Shape: catalog.Tee}, size)
			quarter, known := s.Takeoff(catalog.BendOf(90), size)
			if ok != known || tee.Length != quarter.Length || tee.Band != quarter.Band || ok && (tee.Evidence.Sure() || !strings.HasPrefix(tee.Source, "as the 90 (")) {
				t.Errorf("%s %s: a tee takes %+v, a 90 %+v", size, id, tee, quarter)
			}
		}
	}
	if got, ok := system(t, "copper-metric").Takeoff(catalog.Fitting{Shape: catalog.Tee}, "22 mm"); ok {
		t.Errorf("a 22 mm copper tee takes %+v", got)
	}
}

// What stands in the middle of a coupling is half of what keeps the ends apart: Z of
// IS 7834-6 for 50 mm is 3 mm, E of ASME B16.11 for 2 in is 3/4.
func TestCouplingsFromTheStop(t *testing.T) {
	for id, want := range map[string]struct {
		size   catalog.Size
		inches float64
	}{"pvc-metric": {"50 mm", 1.5 / 25.4}, "steel-socket-weld": {"2", 0.375}, "copper": {"3/4", 0.0625}} {
		got, ok := system(t, id).Takeoff(catalog.Fitting{Shape: catalog.Coupling}, want.size)
		if !ok || math.Abs(got.Length.Inches()-want.inches) > 1e-9 || got.Evidence.Sure() {
			t.Errorf("%s %s: %+v, want %v", want.size, id, got, want.inches)
		}
	}
}
