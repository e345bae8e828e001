package ask_test

import (
	"math"
	"testing"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser/ask"
)

// What a length was said in is told by its words; a fraction is said of inches only.
func TestUnitOfAMeasure(t *testing.T) {
	for text, want := range map[string]ask.Unit{
		"250": ask.OpenUnit, "12.5": ask.OpenUnit, "1,200": ask.OpenUnit, "two fifty": ask.OpenUnit,
		"238 mm": ask.Millimeters, "300mm": ask.Millimeters, "300 millimetres": ask.Millimeters, "300 milímetros": ask.Millimeters, "50 mm − 32 mm": ask.Millimeters,
		"12,5 cm": ask.Centimeters, "30 centímetros": ask.Centimeters,
		"6.35 m": ask.Meters, "0.42m": ask.Meters, "3 meters": ask.Meters, "2 metros": ask.Meters,
		"12-5/8": ask.Inches, "3/4": ask.Inches, "five eighths": ask.Inches, "12 in": ask.Inches, `12"`: ask.Inches, "5' 2": ask.Inches, "8 ft": ask.Inches,
		"ten and a half": ask.Inches, "12 pulgadas": ask.Inches, "a 16th shy of 9": ask.Inches, "12½": ask.Inches, "": ask.Inches,
	} {
		if got := (ask.Measure{Text: text, Length: 12}).Unit(); got != want {
			t.Errorf("%q is in %q, want %q", text, got, want)
		}
	}
	if got := (ask.Measure{Text: "12 5 8", Length: 12.625}).Unit(); got != ask.Inches {
		t.Errorf("12 5 8 is in %q", got)
	}
}

// A bare number becomes a length of the unit that it turns out to have, whichever a
// reader took it for, and the fittings' ends with it.
func TestBareNumbersGetAUnit(t *testing.T) {
	for _, taken := range []geometry.Length{250, 250 * geometry.Millimeter} {
		m := ask.Measure{Role: ask.Set, Length: taken, Text: "250"}
		for unit, want := range map[ask.Unit]float64{
			ask.Millimeters: 250 / 25.4, ask.Centimeters: 250 / 2.54, ask.Meters: 250000 / 25.4, ask.Inches: 250, ask.Feet: 3000,
		} {
			if got := m.In(unit); math.Abs(got.Length.Inches()-want) > 1e-9 || got.Unit() == ask.OpenUnit {
				t.Errorf("250 taken as %v: in %s it is %+v, want %v in", taken, unit, got, want)
			}
		}
	}
	a := ask.Ask{Measures: []ask.Measure{
		{Role: ask.Set, Length: 300 * geometry.Millimeter, Text: "300 mm"}, {Role: ask.TakeoffOf, Length: 15, Text: "15"},
	}}
	a.Ends[0].Takeoff, a.Ends[1].Takeoff = 15, 15
	got := a.In(func(ask.Measure) ask.Unit { return ask.Millimeters })
	if want := 15 * geometry.Millimeter; got.Measures[1].Length != want || got.Ends[0].Takeoff != want || got.Ends[1].Takeoff != want || got.Measures[0] != a.Measures[0] {
		t.Errorf("%+v", got)
	}
	if a.Measures[1].Length != 15 {
		t.Error("the ask itself was changed")
	}
}

// An ask is metric by its line, then by its fittings, then by its pipe.
func TestMetricAsk(t *testing.T) {
	set := func(text string) ask.Measure { return ask.Measure{Role: ask.Set, Length: 12, Text: text} }
	takeoff := func(text string) ask.Measure { return ask.Measure{Role: ask.TakeoffOf, Length: 1, Text: text} }
	pipe := func(s catalog.Size) catalog.Pipe { return catalog.Pipe{Size: s} }
	for _, c := range []struct {
		ask  ask.Ask
		want bool
	}{
		{ask.Ask{Measures: []ask.Measure{set("300 mm")}, Pipe: pipe("2")}, true},
		{ask.Ask{Measures: []ask.Measure{set("12 in")}, Pipe: pipe("110 mm")}, false},
		{ask.Ask{Measures: []ask.Measure{takeoff("1-1/8"), set("300 mm")}}, true},
		{ask.Ask{Measures: []ask.Measure{takeoff("24 mm")}, Pipe: pipe("2")}, true},
		{ask.Ask{Pipe: pipe("110 mm")}, true},
		{ask.Ask{Pipe: pipe("DN100")}, true},
		{ask.Ask{Pipe: pipe("2")}, false},
		{ask.Ask{}, false},
	} {
		if got := c.ask.Metric(); got != c.want {
			t.Errorf("%+v: %t", c.ask, got)
		}
	}
}
