package sketch_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"dogleg/bot/sketch"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/parser"
)

// Every fitting that the catalog has no takeoff of can be shown with what to measure
// on it: of a branch three lengths, of a street fitting both ends, of any other its
// takeoff. No figure is on it, for none is known.
func TestWhatToMeasureIsShown(t *testing.T) {
	shown := 0
	for _, s := range catalog.Systems() {
		for _, f := range s.Fittings() {
			for _, size := range s.Sizes() {
				if _, known := s.Takeoff(f, size); known {
					continue
				}
				d, err := sketch.Measure(s, f, size, wording.Options{})
				if err != nil {
					t.Fatalf("%s %s %s: %v", size, s.ID, f.Key(), err)
				}
				shown++
				var roles []parser.Role
				for _, dim := range d.Views[0].Dimensions {
					roles = append(roles, dim.Role)
					if strings.ContainsAny(dim.Label, "0123456789") {
						t.Errorf("%s %s has a figure: %q", s.ID, f.Key(), dim.Label)
					}
				}
				want := []parser.Role{parser.TakeoffOf}
				switch {
				case f.Shape.BranchShape():
					want = []parser.Role{parser.TakeoffOf, parser.Inlet, parser.Outlet}
				case f.Street:
					want = []parser.Role{parser.TakeoffOf, parser.Spigot}
				}
				for _, role := range want {
					if !slices.Contains(roles, role) {
						t.Errorf("%s %s: no %s among %v", s.ID, f.Key(), role, roles)
					}
				}
				break // one size shows it
			}
		}
	}
	if shown < 20 {
		t.Errorf("only %d fittings without a takeoff", shown)
	}
	system, _ := catalog.SystemByID("pvc-dwv")
	if _, err := sketch.Measure(system, catalog.Fitting{Shape: catalog.Wye}, "7", wording.Options{}); !errors.Is(err, sketch.ErrNothingToDraw) {
		t.Errorf("a wye of no size: %v", err)
	}
}
