package figure_test

import (
	"errors"
	"testing"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// A fitting that the catalog has, recalled or published, or thinks possible is
// never questioned: the doubt is for what no fitting can be.
func TestTheCatalogsOwnTakeoffsArePlausible(t *testing.T) {
	for _, s := range catalog.Systems() {
		for _, f := range s.Fittings() {
			for _, size := range s.Sizes() {
				known, ok := s.Takeoff(f, size)
				if !ok {
					continue
				}
				if err := figure.Plausible(s, known); err != nil {
					i := err.(*figure.Impossible)
					t.Errorf("%s %s %s: %v is not between %v", s.ID, size, f.Key(), known.Length, i.Between)
				}
			}
		}
	}
}

func TestImplausibleTakeoffs(t *testing.T) {
	for name, test := range map[string]struct {
		system, fitting string
		size            catalog.Size
		length          geometry.Length
	}{
		"9 on a 2 in 45":               {"pvc-dwv", "45", "2", 9},
		"under half the socket":        {"pvc-dwv", "45", "2", 0.34}, // of 3/4, less a hair
		"a 90 that has no room":        {"pvc-dwv", "90", "2", 1},    // half of 2.375 is 1.1875, less an eighth
		"nothing":                      {"pvc-dwv", "45", "2", 0},
		"less than nothing":            {"copper", "45", "1/2", -0.25},
		"a coupling as long as a pipe": {"pvc-dwv", "coupling", "2", 14},
	} {
		t.Run(name, func(t *testing.T) {
			s, _ := catalog.SystemByID(test.system)
			f, _ := catalog.FittingByKey(test.fitting)
			err := figure.Plausible(s, catalog.Takeoff{Fitting: f, Size: test.size, Length: test.length})
			var i *figure.Impossible
			if !errors.As(err, &i) || i.Cause != figure.BadTakeoff || i.Doubted.Length != test.length {
				t.Errorf("%v", err)
			}
		})
	}
}

func TestQuestionedTakeoffThatTheUserStandsBy(t *testing.T) {
	a := pipe(ask(parser.Takeoff, 45), drain2)
	a.Store = true
	a.Ends[0].Takeoff = 9
	s := figure.Settings{StandsBy: figure.OwnTakeoff{System: "pvc-dwv", Fitting: "45", Size: "2", Length: 9}}
	if got := solve(t, a, s); len(got.Own) != 1 || got.Own[0].Takeoff.Length != 9 {
		t.Errorf("kept %+v", got.Own)
	}
	a.Ends[0].Takeoff = 8
	if i := impossible(t, a, s); i.Cause != figure.BadTakeoff {
		t.Errorf("another length than was stood by: %v", i.Cause)
	}
}

// One for each of two fittings.
func TestTwoTakeoffsToKeep(t *testing.T) {
	a := takeoffs(pipe(ask(parser.Takeoff, 45), drain2), 1.5, 1.125)
	a.Store, a.Crew = true, true
	a.Ends[0].Fitting = catalog.Fitting{Shape: catalog.Bend, Angle: 45, Street: true}
	a.Ends[1].Fitting = catalog.BendOf(45)
	got := solve(t, a, figure.Settings{}).Own
	if len(got) != 2 || got[0].Takeoff.Fitting.Key() != "street 45" || got[0].Takeoff.Length != 1.5 ||
		got[1].Takeoff.Fitting.Key() != "45" || got[1].Takeoff.Length != 1.125 || !got[0].Crew {
		t.Errorf("kept %+v", got)
	}
}

// The crew's stands behind the user's own, in whichever system that is.
func TestOwnBeforeTheCrews(t *testing.T) {
	crews := figure.OwnTakeoff{System: "pvc-dwv", Fitting: "45", Size: "2", Length: 1.25, When: "4 Nov", By: "Dana", Crew: true}
	own := figure.OwnTakeoff{System: "pvc-40", Fitting: "45", Size: "2", Length: 1.125, When: "3 Nov"}
	message := pipe(ask(parser.Offset, 45, m(parser.Set, 12.5)), catalog.Pipe{Material: catalog.PVC, Size: "2"})
	for _, test := range []struct {
		name     string
		takeoffs []figure.OwnTakeoff
		system   string
		measured catalog.Measured
	}{
		{"the crew's alone", []figure.OwnTakeoff{crews}, "pvc-dwv", catalog.Measured{When: "4 Nov", By: "Dana", Crew: true}},
		{"own beside it", []figure.OwnTakeoff{crews, own}, "pvc-40", catalog.Measured{When: "3 Nov"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			got := solve(t, message, figure.Settings{Takeoffs: test.takeoffs})
			if got.System.ID != test.system || got.Ends[0].Takeoff.Measured != test.measured || got.Provisional || len(got.Assumed) != 0 {
				t.Errorf("%s, %+v, provisional %v, assumed %v", got.System.ID, got.Ends[0].Takeoff.Measured, got.Provisional, got.Assumed)
			}
		})
	}
}

// Measured in two systems, either may be meant.
func TestMeasuredInTwoSystems(t *testing.T) {
	s := figure.Settings{Takeoffs: []figure.OwnTakeoff{
		{System: "pvc-dwv", Fitting: "45", Size: "2", Length: 1.25},
		{System: "pvc-40", Fitting: "45", Size: "2", Length: 1.125},
	}}
	a := solve(t, pipe(ask(parser.Offset, 45, m(parser.Set, 12.5)), catalog.Pipe{Material: catalog.PVC, Size: "2"}), s)
	if !a.Provisional || len(a.Assumed) != 1 || len(a.Assumed[0].Instead) != 1 || a.Assumed[0].Instead[0].Name != "PVC schedule 40" {
		t.Errorf("provisional %v, assumed %+v", a.Provisional, a.Assumed)
	}
}

// What is measured of a hub-and-spigot fitting is its hub: the spigot's end is
// longer, and stays the table's.
func TestOwnTakeoffOfAHub(t *testing.T) {
	p := catalog.Pipe{Material: catalog.CastIron, Joint: catalog.Hub, Size: "4"}
	s := figure.Settings{Takeoffs: []figure.OwnTakeoff{{System: "cast-iron-hub", Fitting: "45", Size: "4", Length: 2.25}}}
	a := solve(t, pipe(ask(parser.Offset, 45, m(parser.Set, 20.5)), p), s)
	if a.Ends[0].Takeoff.Length != 2.25 || a.Ends[1].Takeoff.Evidence != catalog.Memory || !a.Provisional {
		t.Errorf("%+v, provisional %v", a.Ends, a.Provisional)
	}
}

func TestLineThatWasNotMeasured(t *testing.T) {
	message := pipe(ask(parser.Offset, 45, m(parser.Set, 12.5)), drain2)
	message.Line = "the grey ones"
	s := figure.Settings{Takeoffs: []figure.OwnTakeoff{{System: "pvc-dwv", Fitting: "45", Size: "2", Length: 1.25, Line: "white ones"}}}
	if a := solve(t, message, s); a.NoLine != "the grey ones" || !a.Provisional {
		t.Errorf("no line %q, provisional %v", a.NoLine, a.Provisional)
	}
	s.Takeoffs[0].Line = "Grey ones"
	if a := solve(t, message, s); a.NoLine != "" || a.Ends[0].Takeoff.Length != 1.25 {
		t.Errorf("no line %q, takeoff %v", a.NoLine, a.Ends[0].Takeoff.Length)
	}
}

// A sure number is not made with one that is recalled: the depth of 1-1/2 in
// PVC DWV, 11/16, is in no book that was read; that of 2 in is.
func TestRecalledDepthIsNotSure(t *testing.T) {
	faced := func(size catalog.Size) parser.Ask {
		a := pipe(ask(parser.Offset, 45, m(parser.Set, 12.5)), catalog.Pipe{Material: catalog.PVC, Use: catalog.DWV, Size: size})
		a.Ends[0].Face, a.Ends[1].Face = 1.875, 1.875
		return a
	}
	for size, unsure := range map[catalog.Size]bool{"1-1/2": true, "2": false} {
		if a := solve(t, faced(size), figure.Settings{}); a.Provisional != unsure {
			t.Errorf("face, %s: provisional %v", size, a.Provisional)
		}
		a := pipe(ask(parser.Piece, 90, by(parser.CenterToCenter, 54, parser.FaceToFace)), catalog.Pipe{Material: catalog.PVC, Use: catalog.DWV, Size: size})
		if got := solve(t, a, figure.Settings{}); got.Provisional != unsure {
			t.Errorf("face to face, %s: provisional %v", size, got.Provisional)
		}
		if got := solve(t, depths(a, 0.75, 0.75), figure.Settings{}); got.Provisional {
			t.Errorf("face to face, %s, with the depth said: provisional", size)
		}
	}
	kept := faced("1-1/2")
	kept.Kind, kept.Store, kept.Measures = parser.Takeoff, true, nil
	_, err := figure.Solve(kept, figure.Settings{})
	var missing *figure.Missing
	if !errors.As(err, &missing) || missing.Wanted != parser.Depth {
		t.Errorf("kept with a recalled depth: %v", err)
	}
}
