package figure_test

import (
	"math"
	"testing"

	"dogleg/bot/figure"
	"dogleg/parser"
)

// Per inch of set the cut moves 1/sin a and the run cot a; a degree moves the
// set T cos a · π/180. For 22-1/2s 1/sin is 2.613125929753.
func TestThrows(t *testing.T) {
	a := solve(t, takeoffs(ask(parser.Offset, 22.5, m(parser.Set, 5.6875)), 0.8125, 1.25), figure.Settings{})
	want := map[string][3]float64{ // cut, set, run
		"set":     {2.613125929753 / 8, 0.125, 2.414213562373 / 8},
		"angle":   {0, 14.862153725468783 * 0.923879532511 * math.Pi / 180, 14.862153725468783 * 0.382683432365 * math.Pi / 180},
		"takeoff": {0.125, 0.125 * 0.382683432365, 0.125 * 0.923879532511},
	}
	if len(a.Throws) != len(want) {
		t.Errorf("%d throws: %+v", len(a.Throws), a.Throws)
	}
	for _, got := range a.Throws {
		w := want[got.What]
		for i, l := range []float64{got.Cut.Inches(), got.Set.Inches(), got.Run.Inches()} {
			if math.Abs(l-w[i]) > 1e-9 {
				t.Errorf("%s off %s throws %+v, want %v", got.What, got.Off, got, w)
				break
			}
		}
	}
}

// Of a roll of 14-1/16 and a rise of 6-13/16 by 45s, 1/16 of roll moves the
// cut by 0.07954569478176933, so 1/8 by twice that. Computed apart from this
// program.
func TestRollThrow(t *testing.T) {
	a := solve(t, takeoffs(ask(parser.Offset, 45, m(parser.Roll, 14.0625), m(parser.Rise, 6.8125)), 1.5, 1.5), figure.Settings{})
	for _, got := range a.Throws {
		if got.What == "roll" && math.Abs(got.Cut.Inches()-2*0.07954569478176933) > 1e-9 {
			t.Errorf("1/8 of roll moves the cut by %v", got.Cut)
		}
	}
	if a.Throws[0].What != "roll" || a.Throws[1].What != "rise" {
		t.Errorf("throws are %+v, want roll and rise first", a.Throws)
	}
}
