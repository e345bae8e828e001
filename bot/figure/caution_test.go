package figure_test

import (
	"slices"
	"testing"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

func TestCautions(t *testing.T) {
	offset := func(a geometry.Angle, p catalog.Pipe) parser.Ask {
		return takeoffs(pipe(ask(parser.Offset, a, m(parser.Set, 20.5)), p), 0.8125, 0.8125)
	}
	of := func(m catalog.Material, j catalog.Joint, u catalog.Use, s catalog.Size) catalog.Pipe {
		return catalog.Pipe{Material: m, Joint: j, Use: u, Size: s}
	}
	reduced := offset(45, drain2)
	reduced.Ends[1].Size = "1-1/2"
	tests := []struct {
		name     string
		ask      parser.Ask
		has, not []figure.Caution
	}{
		{"plastic", offset(45, drain2), []figure.Caution{figure.SolventCement, figure.NoAirTest}, []figure.Caution{figure.HotWork, figure.BendNotListed, figure.ABSDry, figure.CheckTakeoff}},
		{"abs", offset(45, of(catalog.ABS, "", "", "2")), []figure.Caution{figure.ABSDry, figure.ABSToPVC}, nil},
		{"copper", offset(45, of(catalog.Copper, "", "", "3/4")), []figure.Caution{figure.HotWork}, []figure.Caution{figure.SolventCement}},
		{"threaded steel", offset(45, threaded2), []figure.Caution{figure.Gas}, []figure.Caution{figure.HotWork}},
		{"welded steel", offset(45, welded3), []figure.Caution{figure.HotWork, figure.Gas}, nil},
		{"cast iron", offset(45, of(catalog.CastIron, catalog.NoHub, "", "4")), []figure.Caution{figure.CastIronWeight}, nil},
		{"a 72 in a drain", offset(72, drain2), []figure.Caution{figure.BendNotListed, figure.Cleanout}, nil},
		{"a 30 in a drain", offset(30, drain2), []figure.Caution{figure.BendNotListed}, []figure.Caution{figure.Cleanout}},
		{"an 11-1/4", offset(11.25, drain2), []figure.Caution{figure.BendNotListed, figure.DryFitFirst}, nil},
		{"a 22-1/2", offset(22.5, drain2), []figure.Caution{figure.DryFitFirst}, []figure.Caution{figure.BendNotListed}},
		{"a 60 in a drain", offset(60, drain2), []figure.Caution{figure.StackOffset}, []figure.Caution{figure.BendNotListed}},
		{"a smaller end", reduced, []figure.Caution{figure.NoReduction}, nil},
		{"no pipe", takeoffs(ask(parser.Offset, 45, m(parser.Set, 20.5)), 0.75, 0.75), nil, []figure.Caution{figure.SolventCement, figure.Gas, figure.HotWork}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := solve(t, test.ask, figure.Settings{}).Cautions
			for _, c := range test.has {
				if !slices.Contains(got, c) {
					t.Errorf("cautions %v lack %q", got, c)
				}
			}
			for _, c := range test.not {
				if slices.Contains(got, c) {
					t.Errorf("cautions %v have %q", got, c)
				}
			}
		})
	}
}

// What a fit cautions of is the bend it takes, not the true angle.
func TestFitCautionsOfTheBestBend(t *testing.T) {
	settings := own(map[string]float64{"90": 2, "60": 1.5, "45": 1.1875, "22-1/2": 0.875})
	a := solve(t, pipe(ask(parser.Fit, 0, m(parser.Set, 8.75), m(parser.Room, 21.25)), drain2), settings)
	if a.Bends[0].Angle != 45 || slices.Contains(a.Cautions, figure.BendNotListed) {
		t.Errorf("the best bend is %v, cautions %v", a.Bends[0].Angle, a.Cautions)
	}
}

// A takeoff that nobody has checked is the first thing to say.
func TestUncheckedTakeoffIsCautionedFirst(t *testing.T) {
	a := solve(t, pipe(ask(parser.Offset, 45, m(parser.Set, 20.5)), catalog.Pipe{Material: catalog.Copper, Size: "3/4"}), figure.Settings{})
	if a.Ends[0].Takeoff.Evidence.Sure() {
		t.Skip("the catalog has a sure takeoff for copper")
	}
	if a.Cautions[0] != figure.CheckTakeoff {
		t.Errorf("cautions are %v", a.Cautions)
	}
}

// Whatever is given has something behind it, and nothing is there twice.
func TestEveryCautionHasAnAuthority(t *testing.T) {
	behind := map[figure.Caution]bool{}
	for _, a := range figure.Authorities() {
		if behind[a.Caution] || a.Behind == "" || a.When == "" {
			t.Errorf("%+v", a)
		}
		behind[a.Caution] = true
	}
	for name, message := range everyKind() {
		for _, c := range solve(t, message, figure.Settings{}).Cautions {
			if !behind[c] {
				t.Errorf("%s: %q has nothing behind it", name, c)
			}
		}
	}
}
