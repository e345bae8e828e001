package cutlist_test

import (
	"math"
	"testing"

	"dogleg/bot/cutlist"
	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/parser"
)

// By hand, for sticks of 120: the 250 is two whole sticks and a 10, coupled twice;
// the 10 comes out of the stick of the 80, the 60 takes one more: 4 sticks. Joints
// are 6 at the ends and 4 at the couplings. 390 of pipe in spans of 48 at most are
// 9 spans, so 10 hangers. At 60 joints a quart the cement is a sixth of one.
func TestMaterialByHand(t *testing.T) {
	m, err := cutlist.MaterialOf(cutlist.Lot{Pipe: stack, Pieces: []cutlist.Piece{
		piece(1, 80, stack, fine, fine), piece(2, 60, stack, fine, square), piece(3, 250, stack, square, square),
	}}, 0, 0.125, "IPC")
	if err != nil {
		t.Fatal(err)
	}
	if len(m.Sticks) != 4 || m.Splices != 2 || m.Joints != 10 || m.Hangers != 10 || len(m.Over) != 0 {
		t.Errorf("%d sticks, %d splices, %d joints, %d hangers, %d too long", len(m.Sticks), m.Splices, m.Joints, m.Hangers, len(m.Over))
	}
	if m.Hanger.Table != "IPC table 308.5" || m.Hanger.Spacing.Inches() != 48 {
		t.Errorf("hung by %+v", m.Hanger)
	}
	cement := cutlist.Cements([]cutlist.Material{m})
	if len(cement) != 1 || cement[0].Of != catalog.PVC || math.Abs(cement[0].Quarts-1.0/6) > 1e-12 || !cement[0].Primer {
		t.Errorf("cement %+v", cement)
	}
}

// A no-hub pipe that is longer than a stick has one joint there and no coupling of
// its own; a quarter's spans are the closest of the codes where none was named, and
// none where the code has no table.
func TestMaterialOfOtherJoints(t *testing.T) {
	iron := pipe("cast-iron-no-hub", "4")
	lot := cutlist.Lot{Pipe: iron, Pieces: []cutlist.Piece{piece(1, 150, iron, fine, fine)}}
	m, err := cutlist.MaterialOf(lot, 120, 0, "")
	if err != nil || m.Joints != 3 || m.Couples() || len(m.Sticks) != 2 || m.Hanger.Spacing.Inches() != 48 {
		t.Errorf("%+v, %v", m, err)
	}
	if m, _ = cutlist.MaterialOf(lot, 120, 0, "AS/NZS 3500"); m.Hangers != 0 {
		t.Errorf("%d hangers by %+v", m.Hangers, m.Hanger)
	}
	// 3/4 copper tube is 7/8 in outside: two joints take 1-3/4 in of wire.
	m, err = cutlist.MaterialOf(cutlist.Lot{Pipe: supply, Pieces: []cutlist.Piece{piece(1, 20, supply, square, square)}}, 0, 0, "UPC")
	if err != nil || m.Wire.Inches() != 1.75 || m.Hangers != 2 {
		t.Errorf("%v of wire, %d hangers, %v", m.Wire.Inches(), m.Hangers, err)
	}
}

// Each line of a rack goes to the list as the pipe that it is.
func TestRackGoesToTheListBySize(t *testing.T) {
	ask := parser.Ask{
		Kind: parser.Parallel, Angle: 45, Pipe: catalog.Pipe{Material: catalog.PVC, Use: catalog.DWV},
		Measures: []parser.Measure{{Role: parser.Set, Length: 12}, {Role: parser.Spacing, Length: 2, Method: parser.InsideToInside}},
		Rack:     []parser.RackLine{{Size: "4", Takeoff: 2}, {Size: "2", Takeoff: 1.5}},
	}
	a, err := figure.Solve(ask, figure.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	var state cutlist.State
	(&cutlist.List{State: &state}).Answered(a)
	for i, want := range []struct {
		size catalog.Size
		cut  float64
	}{{"4", 12*math.Sqrt2 - 4}, {"2", 12*math.Sqrt2 - 3}} {
		if c := state.Cuts[i]; c.Size != want.size || math.Abs(c.Length.Inches()-want.cut) > 1e-9 || c.Fittings != [2]string{"45", "45"} {
			t.Errorf("piece %d: %+v", i+1, c)
		}
	}
}
