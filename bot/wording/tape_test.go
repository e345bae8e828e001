package wording_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dogleg/bot/wording"
	"dogleg/geometry"
	"dogleg/parser"
)

func TestTape(t *testing.T) {
	for _, c := range []struct {
		length geometry.Length
		o      wording.Options
		want   string
	}{
		{14.75, wording.Options{}, "14-3/4"},
		{16.9375 + 0.02, wording.Options{}, "16-15/16 heavy"},
		{14.25 - 0.02, wording.Options{}, "14-1/4 light"},
		{14.25 - 0.02, wording.Options{Language: parser.Spanish}, "14-1/4 un pelo menos"},
		{35.9375, wording.Options{}, "35-15/16"},
		{36, wording.Options{}, `36 (3' 0")`},
		{62.95866141732284, wording.Options{}, `62-15/16 heavy (5' 2-15/16")`}, // 5' 2-1/4" and 18 mm
		{9.28125, wording.Options{Division: geometry.ThirtySeconds}, "9-9/32"},
		{16.73228346456693, wording.Options{Metric: true}, "425 mm"},
	} {
		if got := wording.Tape(c.length, c.o); got != c.want {
			t.Errorf("Tape(%v, %+v) = %q, want %q", c.length, c.o, got, c.want)
		}
	}
}

// Lengths that are whole 1024ths of an inch are rounded here in whole numbers,
// by another road than the code's.
func TestTapeAgainstWholeNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 35*1024).Draw(t, "1024ths")
		mark := (n + 32) / 64 // half-way goes up
		lean := ""
		switch off := n - mark*64; {
		case off > 16: // 16/1024 is 1/64
			lean = " heavy"
		case off < -16:
			lean = " light"
		}
		want := sixteenths(mark) + lean
		if got := wording.Tape(geometry.Length(n)/1024, wording.Options{}); got != want {
			t.Fatalf("%d/1024 in reads %q, want %q", n, got, want)
		}
	})
}

// sixteenths writes so many sixteenths of an inch in lowest terms.
func sixteenths(n int) string {
	whole, top, bottom := n/16, n%16, 16
	for top > 0 && top%2 == 0 {
		top, bottom = top/2, bottom/2
	}
	switch {
	case top == 0:
		return fmt.Sprint(whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", top, bottom)
	}
	return fmt.Sprintf("%d-%d/%d", whole, top, bottom)
}

// What somebody gave is read back as given, never rounded to the tape.
func TestReadBackUnrounded(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"5-1/64", "Set 5-1/64"}, {"12.3", "Set 12.3"}, {"238 mm", "Set 238 mm"}, {"40 cm", "Set 400 mm"}, {"6.35 m", "Set 6350 mm"},
	} {
		length := map[string]geometry.Length{
			"5-1/64": 5.015625, "12.3": 12.3, "238 mm": 238 * geometry.Millimeter,
			"40 cm": 40 * geometry.Centimeter, "6.35 m": 6.35 * geometry.Meter,
		}[c.text]
		a := simple()
		a.Ask = parser.Ask{Measures: []parser.Measure{{Role: parser.Set, Length: length, Text: c.text}}}
		if got := secondLine(a, parser.English); got != c.want {
			t.Errorf("%s is read back as %q, want %q", c.text, got, c.want)
		}
	}
}

// A length is always in one piece: no line break, no double space.
func TestTapeIsTidy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := geometry.Length(rapid.Float64Range(-5000, 70000).Draw(t, "inches"))
		o := options().Draw(t, "options")
		text := wording.Tape(l, o)
		if text == "" || strings.Contains(text, "  ") || strings.TrimSpace(text) != text || strings.Contains(text, "\n") {
			t.Fatalf("%v reads %q", l, text)
		}
	})
}
