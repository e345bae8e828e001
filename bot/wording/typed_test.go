package wording_test

import (
	"testing"

	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// What is offered to be sent back is read as it was meant.
func TestTypedReadsBack(t *testing.T) {
	for _, want := range []parser.Ask{
		{Angle: 45, Measures: []parser.Measure{given(parser.Set, 7.5)}, Pipe: catalog.Pipe{Material: catalog.PVC, Size: "2"}},
		{Angle: 45, Measures: []parser.Measure{given(parser.Set, 7)}, Pipe: catalog.Pipe{Material: catalog.PVC, Size: "1/2"}},
		{Angle: 22.5, Measures: []parser.Measure{given(parser.Roll, 8), given(parser.Rise, 14.25)}, Pipe: catalog.Pipe{Material: catalog.CastIron, Size: "4"}},
		{Measures: []parser.Measure{given(parser.Long, 324)}, Grade: geometry.InchPerFoot / 8},
		{Angle: 45, Measures: []parser.Measure{{Role: parser.Set, Length: 13.875, Method: parser.OutsideToOutside}}, Pipe: catalog.Pipe{Material: catalog.Copper, Size: "3/4"}},
	} {
		text := wording.Typed(want)
		got := parser.Parse(text)[0].Ask
		if got == nil {
			t.Errorf("%q is not read: %+v", text, parser.Parse(text)[0].Misunderstanding)
			continue
		}
		if got.Angle != want.Angle && got.Ends[0].Fitting.Angle != want.Angle || got.Pipe.Material != want.Pipe.Material ||
			got.Pipe.Size != want.Pipe.Size || got.Grade != want.Grade || len(got.Measures) != len(want.Measures) {
			t.Errorf("%q is read as %+v", text, got)
			continue
		}
		for i, m := range got.Measures {
			if w := want.Measures[i]; m.Role != w.Role || m.Length != w.Length || m.Method != w.Method {
				t.Errorf("%q: %+v, want %+v", text, m, w)
			}
		}
	}
}

// What is offered in Spanish is Spanish, and read as it was meant.
func TestTypedInSpanish(t *testing.T) {
	for want, ask := range map[string]parser.Ask{
		"desvío 12, codos de 45, 2 pvc":                  {Angle: 45, Measures: []parser.Measure{given(parser.Set, 12)}, Pipe: catalog.Pipe{Material: catalog.PVC, Size: "2"}},
		"lateral 8, subida 14, codos de 45, 3 abs":       {Angle: 45, Measures: []parser.Measure{given(parser.Roll, 8), given(parser.Rise, 14)}, Pipe: catalog.Pipe{Material: catalog.ABS, Size: "3"}},
		"desvío 7-5/8, codos de 22-1/2, 3/4 cobre":       {Angle: 22.5, Measures: []parser.Measure{given(parser.Set, 7.625)}, Pipe: catalog.Pipe{Material: catalog.Copper, Size: "3/4"}},
		"desvío 14, espacio 30, 2 pvc":                   {Measures: []parser.Measure{given(parser.Set, 14), given(parser.Room, 30)}, Pipe: catalog.Pipe{Material: catalog.PVC, Size: "2"}},
		"largo 22 pies, a 1/4 por pie, 3 hierro fundido": {Measures: []parser.Measure{given(parser.Long, 264)}, Grade: geometry.InchPerFoot / 4, Pipe: catalog.Pipe{Material: catalog.CastIron, Size: "3"}},
	} {
		if got := wording.TypedIn(ask, wording.Options{Language: parser.Spanish}); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
