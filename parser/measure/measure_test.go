package measure_test

import (
	"math"
	"slices"
	"testing"

	"dogleg/parser/measure"
)

// Each way of writing a measure is among the readings of it, with the value that a
// tape shows: worked out by hand.
func TestWaysToWriteAMeasure(t *testing.T) {
	for _, c := range []struct {
		text   string
		number float64
		unit   measure.Unit
	}{
		{"12-5/8", 12.625, measure.NoUnit},
		{"12 5/8", 12.625, measure.NoUnit},
		{"12⅝", 12.625, measure.NoUnit},
		{`12"5/8`, 12.625, measure.InchUnit},
		{"twelve and five eighths", 12.625, measure.NoUnit},
		{"12 and 58ths", 12.625, measure.NoUnit},
		{"75 8", 7.625, measure.NoUnit}, // as phones write seven and five eighths
		{`5' 6-1/2"`, 66.5, measure.InchUnit},
		{"5 foot 6", 66, measure.InchUnit},
		{"an inch and a half", 1.5, measure.InchUnit},
		{"two inches and a half", 2.5, measure.InchUnit},
		{"a foot and a half", 1.5, measure.FootUnit},
		{"12-5/8 heavy", 12.65625, measure.NoUnit},
		{"a 16th shy of 9", 8.9375, measure.NoUnit},
		{"strong 9 and 3/4", 9.78125, measure.NoUnit},
		{"8 and a strong 3/8", 8.40625, measure.NoUnit},
		{"a scant 5/8", 0.59375, measure.NoUnit},
		{"fourteen and an ate", 14.125, measure.NoUnit},
		{"nine and 5 8", 9.625, measure.NoUnit},
		{"three thirty seconds", 0.09375, measure.NoUnit},
		{"one and a half", 1.5, measure.NoUnit},
		{"67/8", 6.875, measure.NoUnit},
		{"814", 8.25, measure.NoUnit},
		{"22316", 22.1875, measure.NoUnit},
		{"12 38", 12.375, measure.NoUnit},
		{"11 and 34", 11.75, measure.NoUnit},
		{"point three percent", 0.036, measure.PerFootOf},
		{"half a percent", 0.06, measure.PerFootOf},
		{"an eighth over ten", 10.125, measure.NoUnit},
		{"1 in 40", 0.3, measure.PerFootOf},
		{"1:60", 0.2, measure.PerFootOf},
		{"2 per cent", 0.24, measure.PerFootOf},
		{"quarter inch per foot", 0.25, measure.PerFootOf},
		{"18 mm per metre", 0.216, measure.PerFootOf},
		{"1 inch in 20 ft", 0.05, measure.PerFootOf},
		{"12,5 cm", 12.5, measure.CM},
		{"1,200 mm", 1200, measure.MM},
		{"1 meter 20", 1200, measure.MM},
		{"four point two metres", 4.2, measure.M},
		{"three fifty", 350, measure.NoUnit},
		{"eighth bend", 45, measure.TurnPart},
		{"1/16 bends", 22.5, measure.TurnPart},
		{"DN100", 100, measure.NominalDia},
		{"80 NB", 80, measure.NominalDia},
		{"cuarenta y cinco", 45, measure.NoUnit},
		{"one three five", 135, measure.NoUnit},
		{"one one two and a half", 112.5, measure.NoUnit},
		{"one twelve and a half", 112.5, measure.NoUnit},
		{"one oh ate", 108, measure.NoUnit},
		{"twelve oh five", 1205, measure.NoUnit},
		{"for hundred", 400, measure.NoUnit},
		{"to hundred and eighty", 280, measure.NoUnit},
		{"three hundred and for", 304, measure.NoUnit},
		{"two point one five", 2.15, measure.NoUnit},
		{"two point oh five metres", 2.05, measure.M},
		{"six forty two point one eight", 642.18, measure.NoUnit},
		{"one in forty", 0.3, measure.PerFootOf},
		{"one in a hundred", 0.12, measure.PerFootOf},
		{"a metre ten", 1100, measure.MM},
		{"un metro veinte", 1200, measure.MM},
		{"un metro y medio", 1.5, measure.M},
		{"una y media", 1.5, measure.NoUnit},
		{"uno y medio por ciento", 0.18, measure.PerFootOf},
		{"al 1,5", 0.18, measure.PerFootOf},
		{"1,5 %", 0.18, measure.PerFootOf},
		{"al uno y medio", 0.18, measure.PerFootOf},
		{"cuarenta y uno", 41, measure.NoUnit},
		{"9 3 8 hvy", 9.40625, measure.NoUnit},
		{"15 1/4 fuerte", 15.28125, measure.NoUnit},
		{"1 8", 0.125, measure.NoUnit},
		{"31 and 3/4's", 31.75, measure.NoUnit},
		{"1.35 mtr", 1.35, measure.M},
		{"cuarenta y cincos", 45, measure.NoUnit},
		{"40 y cincos", 45, measure.NoUnit},
		{"40 y 5", 45, measure.NoUnit},
		{"noventas", 90, measure.NoUnit},
		{"18mm/m", 0.216, measure.PerFootOf},
		{"10 mm/m", 0.12, measure.PerFootOf},
		{"18 mm in the metre", 0.216, measure.PerFootOf},
		{"1/4/ft", 0.25, measure.PerFootOf},
		{"eleven and. Five eighths", 11.625, measure.NoUnit},
		{"twenty six. And a half", 26.5, measure.NoUnit},
		{"twelve, and one eighth", 12.125, measure.NoUnit},
		{"23. And a quarter", 23.25, measure.NoUnit},
		{"5.1/2", 5.5, measure.NoUnit},
		{"5.25", 5.25, measure.NoUnit},
		{"seven and three ate", 7.375, measure.NoUnit},
		{"10 and 3 ate", 10.375, measure.NoUnit},
		{"for d fives", 45, measure.NoUnit},
		{"seven teen and three six teenths", 17.1875, measure.NoUnit},
		{"treinta y una", 31, measure.NoUnit},
		{"cuarenta y una y media", 41.5, measure.NoUnit},
		{"8ths", 0.125, measure.NoUnit}, // of a turn
		{"6ths", 1.0 / 6, measure.NoUnit},
	} {
		tokens := measure.Tokens(c.text)
		whole := func(m measure.Measure) bool {
			return m.To == len(tokens) && math.Abs(m.Number-c.number) < 1e-9 && m.Unit == c.unit
		}
		if got := measure.At(c.text, tokens, 0); !slices.ContainsFunc(got, whole) {
			t.Errorf("%q: %+v, want %g %s", c.text, got, c.number, c.unit)
		}
	}
}

// What may be two numbers is offered as two besides.
func TestAlternatives(t *testing.T) {
	for text, first := range map[string]float64{"7 1/2 pvc": 7, "thirty two inch": 30, "five hundred and one": 500, "12, 5": 12, "814": 814, "6 12": 6, "1 8 45s": 1, "four and a half inch and a quarter": 4.5, "one in forty one point six": 0.3} {
		tokens := measure.Tokens(text)
		alone := func(m measure.Measure) bool { return math.Abs(m.Number-first) < 1e-9 }
		if got := measure.At(text, tokens, 0); !slices.ContainsFunc(got, alone) {
			t.Errorf("%q: %+v, want %g too", text, got, first)
		}
	}
}

// Two numbers are not one where a language doesn't say it so, or a stop parts them.
func TestNotOneNumber(t *testing.T) {
	for text, not := range map[string]float64{"40 and 5": 45, "14. 1/2": 14.5, "forty and a": 41, "10 y 5": 15, "9 and two ate": 9.25} {
		tokens := measure.Tokens(text)
		if got := measure.At(text, tokens, 0); slices.ContainsFunc(got, func(m measure.Measure) bool { return math.Abs(m.Number-not) < 1e-9 }) {
			t.Errorf("%q: %+v, and not %g", text, got, not)
		}
	}
}

// A fraction whose stroke is lost is one only where it is written to what follows.
func TestFractionsRunTogether(t *testing.T) {
	for text, want := range map[string]bool{"34cu": true, "34 cu": false, "45s": false, "12": false} {
		tokens := measure.Tokens(text)
		below := func(m measure.Measure) bool { return m.Number < 1 }
		if got := measure.At(text, tokens, 0); slices.ContainsFunc(got, below) != want {
			t.Errorf("%q: %+v", text, got)
		}
	}
}

func FuzzTokens(f *testing.F) {
	f.Add("12-5/8 set 45s 2 inch pvc\n1:60, ½")
	f.Fuzz(func(t *testing.T, text string) {
		tokens := measure.Tokens(text)
		at := 0
		for i := range tokens {
			if tokens[i].Begin < at || tokens[i].End <= tokens[i].Begin || tokens[i].End > len(text) {
				t.Fatalf("%q: token %d from %d to %d", text, i, tokens[i].Begin, tokens[i].End)
			}
			at = tokens[i].End
			for _, m := range measure.At(text, tokens, i) {
				if m.To <= i || m.To > len(tokens) || math.IsNaN(m.Number) {
					t.Fatalf("%q: %+v", text, m)
				}
			}
		}
	})
}
