package wording_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// record is a record as somebody who reads the JSON has it.
func record(t *testing.T, ask *parser.Ask, a *figure.Answer, err error) map[string]any {
	t.Helper()
	r := wording.NewRecord(parser.Statement{Ask: ask}, a, err, "the chat text")
	return read(t, r)
}

func read(t *testing.T, r wording.Record) map[string]any {
	t.Helper()
	text, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	var m map[string]any
	if err := json.Unmarshal(text, &m); err != nil {
		t.Fatal(err)
	}
	return m
}

func TestRecordOfAnAnswer(t *testing.T) {
	a := simple()
	a.Ask.Ends = [2]parser.End{}
	a.Ask.Pipe = catalog.Pipe{Material: catalog.PVC, Size: "1-1/2"}
	a.System, a.Size = catalog.System{Name: "PVC DWV"}, "1-1/2"
	a.Ends = ends(45, 1.0625, catalog.Published)
	for i := range a.Ends {
		a.Ends[i].Takeoff.Source = "a standard"
	}
	a.Cautions = []figure.Caution{figure.ABSDry}
	want := map[string]any{
		"understood": true,
		"kind":       "offset",
		"read":       "set 9-3/8, two 45s, 1-1/2 PVC DWV",
		"given":      map[string]any{"set": 9.375, "angle": 45.0, "size": "1-1/2", "material": "pvc"},
		"figures":    map[string]any{"set": 9.375, "run": 9.375, "travel": 13.258252147247767, "cut": 11.133252147247767, "end_gap": 11.5},
		"takeoffs": []any{
			map[string]any{"fitting": "45", "inches": 1.0625, "source": "a standard", "evidence": "published"},
			map[string]any{"fitting": "45", "inches": 1.0625, "source": "a standard", "evidence": "published"},
		},
		"tape":     map[string]any{"cut": "11-1/8"},
		"cautions": []any{"ABS has to be dry to glue: water ruins the bond."},
		"reply":    "the chat text",
	}
	if diff := cmp.Diff(want, record(t, &a.Ask, a, nil)); diff != "" {
		t.Errorf("record (-want +got):\n%s", diff)
	}
}

func TestRecordLeansAndIsProvisional(t *testing.T) {
	a := simple()
	a.Lengths[0].Length = 19.09814754679677
	a.Ends = ends(45, 1.5, catalog.Published)
	if diff := cmp.Diff(map[string]any{"cut": "19-1/8", "cut_off": "light"}, record(t, &a.Ask, a, nil)["tape"]); diff != "" {
		t.Errorf("tape: %s", diff)
	}
	a.Ends = ends(45, 1.5, catalog.Memory)
	a.Band = 0.25
	got := record(t, &a.Ask, a, nil)
	// 19.0981 and a quarter is 19.3481, which is no longer than 19-3/8.
	if diff := cmp.Diff(map[string]any{"cut": "19-3/8"}, got["tape"]); diff != "" {
		t.Errorf("tape: %s", diff)
	}
	if got["provisional"] != true || got["band"] != 0.25 {
		t.Errorf("got %v, %v", got["provisional"], got["band"])
	}
}

// Each thing that can be stated, under its key; what is not stated is absent.
func TestRecordGiven(t *testing.T) {
	street := catalog.Fitting{Shape: catalog.Bend, Angle: 45, Street: true}
	for _, c := range []struct {
		name string
		ask  parser.Ask
		want map[string]any
	}{
		{"nothing", parser.Ask{}, nil},
		{
			"rolling",
			parser.Ask{Measures: []parser.Measure{given(parser.Roll, 8), given(parser.Rise, 14)}, Angle: 45},
			map[string]any{"roll": 8.0, "rise": 14.0, "angle": 45.0},
		},
		{
			"a way of laying the tape",
			parser.Ask{Measures: []parser.Measure{{Role: parser.Set, Length: 13.875, Method: parser.OutsideToOutside}}},
			map[string]any{"method": "outside-to-outside", "measured": 13.875},
		},
		{
			"the same, cross-checked",
			parser.Ask{Measures: []parser.Measure{given(parser.Set, 12), {Role: parser.Set, Length: 13.875, Method: parser.OutsideToOutside}}},
			map[string]any{"set": 12.0, "method": "outside-to-outside", "measured": 13.875},
		},
		{
			"fall",
			parser.Ask{Measures: []parser.Measure{given(parser.Long, 264)}, Grade: geometry.InchPerFoot / 4},
			map[string]any{"length": 264.0, "grade": 0.25},
		},
		{
			"parallel",
			parser.Ask{Measures: []parser.Measure{given(parser.Spacing, 6.5)}, Lines: 4},
			map[string]any{"spacing": 6.5, "lines": 4.0},
		},
		{
			"unlike ends",
			parser.Ask{Ends: [2]parser.End{{Fitting: catalog.BendOf(45), Takeoff: 1.1875}, {Fitting: street}}},
			map[string]any{"fittings": []any{"45", "street 45"}, "takeoff": 1.1875},
		},
		{"face", parser.Ask{Ends: [2]parser.End{{Face: 1.875}, {Face: 1.875}}}, map[string]any{"face": 1.875}},
	} {
		got := record(t, &c.ask, nil, nil)["given"]
		if c.want == nil && got == nil {
			continue
		}
		if diff := cmp.Diff(any(c.want), got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
}

func TestRecordOfAMisunderstanding(t *testing.T) {
	m := &parser.Misunderstanding{
		Trouble: parser.NoSuchSize, Text: "12 set 45s 1-3/8 pvc", Subject: "1-3/8", Near: []string{"1-1/4", "1-1/2"},
		Read: parser.Ask{Measures: []parser.Measure{given(parser.Set, 12)}, Angle: 45, Pipe: catalog.Pipe{Material: catalog.PVC}},
	}
	want := map[string]any{
		"understood": false,
		"read":       "set 12, two 45s, PVC",
		"given":      map[string]any{"set": 12.0, "angle": 45.0, "material": "pvc"},
		"problem":    "I carry no 1-3/8 PVC pipe; 1-1/4 or 1-1/2?",
		"suggest":    []any{"1-1/4", "1-1/2"},
		"reply":      "the chat text",
	}
	got := read(t, wording.NewRecord(parser.Statement{Misunderstanding: m}, nil, nil, "the chat text"))
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("record (-want +got):\n%s", diff)
	}
}

// A missing fact is asked back, with what could be figured and without a cut.
func TestRecordOfAMissingFact(t *testing.T) {
	a := simple()
	got := record(t, &a.Ask, nil, &figure.Missing{Wanted: parser.AngleOf, Options: []string{"45", "22-1/2"}, Partly: a})
	if got["understood"] != true || got["possible"] != false || got["ask_back"] != "angle" {
		t.Errorf("got %v", got)
	}
	want := map[string]any{"travel": 13.258252147247767, "run": 9.375, "set": 9.375}
	if diff := cmp.Diff(any(want), got["figures"]); diff != "" {
		t.Errorf("figures (-want +got):\n%s", diff)
	}
	if got["tape"] != nil {
		t.Errorf("there is a cut: %v", got["tape"])
	}
}

func TestRecordOfTheImpossible(t *testing.T) {
	a := simple()
	got := record(t, &a.Ask, nil, &figure.Impossible{Cause: figure.Collide, Smallest: 3.0052, Bends: []geometry.Angle{22.5}, Partly: a})
	if got["possible"] != false || got["tape"] != nil {
		t.Errorf("got %v", got)
	}
	if diff := cmp.Diff(any([]any{"22-1/2s"}), got["suggest"]); diff != "" {
		t.Errorf("suggest (-want +got):\n%s", diff)
	}
	figures, _ := got["figures"].(map[string]any)
	if _, cut := figures["cut"]; cut {
		t.Error("there is a cut")
	}
}

// What was given twice is all there: a takeoff for each end, two readings.
func TestRecordOfWhatWasGivenTwice(t *testing.T) {
	ask := parser.Ask{
		Kind: parser.Mark,
		Ends: [2]parser.End{{Takeoff: 13.0 / 16}, {Takeoff: 1.25}},
		Measures: []parser.Measure{
			{Role: parser.Reading, Length: 40},
			{Role: parser.Reading, Length: 61},
			{Role: parser.Set, Length: 12},
		},
	}
	got := record(t, &ask, nil, nil)["each_given"]
	want := map[string]any{"takeoff": []any{0.8125, 1.25}, "reading": []any{40.0, 61.0}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// The tape of who asked in metric is a metric one. 300 × √2 − 30 = 394.26 mm.
func TestRecordOfMetric(t *testing.T) {
	s := parser.Parse("set 300 mm 45s 22 mm copper takeoff 15 mm")[0]
	a, err := figure.Solve(*s.Ask, figure.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	r := wording.NewRecord(s, a, nil, "")
	if r.Tape == nil || *r.Tape != (wording.TapeRecord{Cut: "394 mm"}) {
		t.Errorf("tape %+v", r.Tape)
	}
	if got, want := r.Figures["cut"], 394.26406871192853/25.4; math.Abs(got-want) > 1e-9 {
		t.Errorf("cut %v in, want %v", got, want)
	}
}
