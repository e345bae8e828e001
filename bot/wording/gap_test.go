package wording_test

import (
	"math"
	"strings"
	"testing"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// TestAGapIsToldWithTheCut: with the gap, its source and how well it is known
// the cut can be figured again. 12 × √2 = 16.97056; less two of 2-1/2 is
// 11.97056, less two gaps of 1/8 is 11.72056.
func TestAGapIsToldWithTheCut(t *testing.T) {
	a := solved(t, "set 12, 45s, 4 butt weld")
	r := wording.NewRecord(parser.Statement{Ask: &a.Ask}, a, nil, "")
	if got := r.Figures["cut"]; math.Abs(got-11.72056) > 1e-4 {
		t.Errorf("cut %v, want 11.72056", got)
	}
	if r.Gap == nil || r.Gap.Inches != 0.125 || r.Gap.Least != 0.0625 || r.Gap.Evidence != "memory" || r.Gap.Source == "" {
		t.Errorf("gap %+v, want 1/8, least 1/16, from memory", r.Gap)
	}
	again := 12*math.Sqrt2 - r.Takeoffs[0].Inches - r.Takeoffs[1].Inches - 2*r.Figures["gap"]
	if math.Abs(again-r.Figures["cut"]) > 1e-9 {
		t.Errorf("from the record the cut is %v, it says %v", again, r.Figures["cut"])
	}
	steps := wording.Steps(a, wording.Options{})
	for _, want := range []string{"travel less a takeoff and a gap at each end", "run, and a takeoff and a gap at each end"} {
		if !strings.Contains(steps, want) {
			t.Errorf("the steps say nothing of %q:\n%s", want, steps)
		}
	}
}

// TestAGapThatWasSaid is cited as said, in the words it was said in; none is
// none.
func TestAGapThatWasSaid(t *testing.T) {
	said := told(t, "set 12, 45s, 4 butt weld, 3/32 gap")
	if !strings.Contains(said, "Gap 3/32 at each joint, as you said.") {
		t.Errorf("a gap of 3/32 was said:\n%s", said)
	}
	a := solved(t, "set 12, 45s, 4 butt weld")
	a.Ask.Measures = append(a.Ask.Measures, parser.Measure{Role: parser.JointGap})
	none, err := figure.Solve(a.Ask, figure.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if cut, _ := none.Length(parser.Cut); math.Abs(cut.Inches()-11.97056) > 1e-4 {
		t.Errorf("without a gap the cut is %v, want 11.97056", cut)
	}
	if text := wording.Whole(none, wording.Options{}); !strings.Contains(text, "No gap at the joints, as you said.") {
		t.Errorf("no gap was said:\n%s", text)
	}
}

// TestAUsualGapMakesNoDefiniteCut, though the takeoffs were measured: it may be
// 1/16 narrower at each of two joints.
func TestAUsualGapMakesNoDefiniteCut(t *testing.T) {
	a := solved(t, "set 12, 45s, 2 butt weld, takeoff 1-3/8")
	if !a.Provisional || math.Abs(a.Band.Inches()-0.125) > 1e-9 || math.Abs(a.TakesOff.Inches()-0.125) > 1e-9 {
		t.Errorf("provisional %v, band %v, off %v, want true and 1/8", a.Provisional, a.Band, a.TakesOff)
	}
	if a := solved(t, "set 12, 45s, 2 butt weld, takeoff 1-3/8, gap 1/8"); a.Provisional {
		t.Error("the gap and the takeoffs were said, and yet the cut is not sure")
	}
}

// TestTheRecordRebuildsTheCut, for each pipe: from travel, takeoffs and gap; and
// it tells 2 in DWV from 2 in schedule 80.
func TestTheRecordRebuildsTheCut(t *testing.T) {
	for ask, system := range map[string]string{
		"set 12 45s 2 pvc dwv": "pvc-dwv", "set 12 45s 2 pvc sch 80 takeoff 1": "pvc-80",
		"set 12 45s 4 butt weld": "steel-butt-weld", "set 12 45s 4 no hub": "cast-iron-no-hub",
		"set 20 45s 4 hub and spigot cast iron": "cast-iron-hub",
	} {
		a := solved(t, ask)
		r := wording.NewRecord(parser.Statement{Ask: &a.Ask}, a, nil, "")
		if r.Pipe == nil || r.Pipe.System != system || r.Pipe.Joint == "" {
			t.Errorf("%q is of %+v, want %s", ask, r.Pipe, system)
			continue
		}
		again := r.Figures["travel"] - r.Takeoffs[0].Inches - r.Takeoffs[1].Inches - 2*r.Figures["gap"]
		if math.Abs(again-r.Figures["cut"]) > 1e-9 {
			t.Errorf("%q: rebuilt, the cut is %v, not %v", ask, again, r.Figures["cut"])
		}
		if r.Provisional && r.Band > 0 && r.Printed["cut"] < r.Figures["cut"]+r.Band {
			t.Errorf("%q: printed %v, less than %v and %v", ask, r.Printed["cut"], r.Figures["cut"], r.Band)
		}
	}
}
