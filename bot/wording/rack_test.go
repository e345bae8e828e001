package wording_test

import (
	"strings"
	"testing"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/parser"
)

// threeLines are 4, 2 and 1-1/2 in, the last one covered 1 in thick, with 2 in
// clear between them; takeoffs of 2, 1-1/2 and 1.
func threeLines() parser.Ask {
	return parser.Ask{
		Kind: parser.Parallel, Angle: 45, Pipe: catalog.Pipe{Material: catalog.PVC, Use: catalog.DWV},
		Measures: []parser.Measure{{Role: parser.Set, Length: 12}, {Role: parser.Spacing, Length: 2, Method: parser.InsideToInside}},
		Rack:     []parser.RackLine{{Size: "4", Takeoff: 2}, {Size: "2", Takeoff: 1.5}, {Size: "1-1/2", Insulation: 1, Takeoff: 1}},
	}
}

// By hand: 12 × √2 = 16.9706; less 4, 3 and 2. Centers 2.25 + 2 + 1.1875 = 5.4375
// and 5.1375 more, of which 0.4142 is 2.2523 and 4.3803.
func TestRackIsWorded(t *testing.T) {
	a, err := figure.Solve(threeLines(), figure.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	brief := wording.NewBrief(a, wording.Options{}).Text
	for _, want := range []string{
		"Travel 17 in light · run 12\n", "1) 4 in, cut 13 light\n", "2) 2 in, center 5-7/16 over, bends 2-1/4 sooner, cut 14 light\n",
		"3) 1-1/2 in, 1 covered, center 10-9/16 over, bends 4-3/8 sooner, cut 15 light", "Line 1, the side you leave, bends last",
	} {
		if !strings.Contains(brief, want) {
			t.Errorf("%q is not in\n%s", want, brief)
		}
	}
	steps := wording.Steps(a, wording.Options{})
	for _, want := range []string{
		"Line 2: spacing (clear space, half of each pipe, what covers them): 2 + 3.4375 = 5.4375",
		"Line 3: spacing (clear space, half of each pipe, what covers them): 2 + 2.1375 + 1 = 5.1375",
		"Line 3: stagger (spacing × tangent of half the angle): 5.1375 × 0.4142 = 2.128",
		"Line 2: cut (travel less a takeoff at each end): 16.9706 - 2 × 1.5 = 13.9706",
	} {
		if !strings.Contains(steps, want) {
			t.Errorf("%q is not in\n%s", want, steps)
		}
	}
	if spanish := wording.NewBrief(a, wording.Options{Language: parser.Spanish}).Text; !strings.Contains(spanish, "2) 2 pulg, centro a 5-7/16, dobla 2-1/4 antes") {
		t.Errorf("in Spanish:\n%s", spanish)
	}
}

// The record has each line's size, its cover, how far over it lies and what is clear
// beside it; counted from the other side its bend begins later.
func TestRackInTheRecord(t *testing.T) {
	ask := threeLines()
	ask.LineOne = parser.Toward
	a, err := figure.Solve(ask, figure.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	r := wording.NewRecord(parser.Statement{Ask: &ask}, a, nil, "")
	if len(r.EachLine) != 3 || r.Given["line_one"] != "toward" {
		t.Fatalf("%d lines of %v", len(r.EachLine), r.Given)
	}
	last := r.EachLine[2]
	if last.Size != "1-1/2" || last.Cover != 1 || last.Outside != 1.9 || last.Over != 10.575 || *last.Clear != 2 || last.Start > -4.38 || last.Start < -4.381 {
		t.Errorf("%+v", last)
	}
	if brief := wording.NewBrief(a, wording.Options{}).Text; !strings.Contains(brief, "bends 4-3/8 later") || !strings.Contains(brief, "on the side you step toward") {
		t.Error(brief)
	}
}

// Lines that would overlap are refused with how far.
func TestRackTooClose(t *testing.T) {
	ask := threeLines()
	ask.Measures[1] = parser.Measure{Role: parser.Spacing, Length: 3}
	_, err := figure.Solve(ask, figure.Settings{})
	if text := wording.Refusal(err, wording.Options{}); !strings.Contains(text, "overlap") {
		t.Error(text)
	}
}
