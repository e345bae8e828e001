package parser_test

import (
	"fmt"
	"maps"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// one parses a message that asks one thing.
func one(t testing.TB, text string) parser.Ask {
	t.Helper()
	said := parser.Parse(text)
	if len(said) != 1 || said[0].Ask == nil {
		t.Fatalf("%q: want one ask, got %d statements: %s", text, len(said), describe(said[0]))
	}
	return *said[0].Ask
}

// TestLengths reads one length in every spelling that people type.
func TestLengths(t *testing.T) {
	for _, c := range []struct {
		spelling string
		inches   float64
	}{
		{"12 5/8", 12.625},
		{"12-5/8", 12.625},
		{"12 & 5/8", 12.625},
		{"12⅝", 12.625},
		{"12 ⅝", 12.625},
		{"12.625", 12.625},
		{`12"5/8`, 12.625},
		{`12-5/8"`, 12.625},
		{`12 5/8 in.`, 12.625},
		{"12 and 5/8", 12.625},
		{"twelve and five eighths", 12.625},
		{"twelve five eighths", 12.625},
		{"12 and five eighths", 12.625},
		{"12–5/8”", 12.625},
		{"12 5⁄8", 12.625},
		{`1' 6-1/2"`, 18.5},
		{"1ft 6.5in", 18.5},
		{"1'-6 1/2”", 18.5},
		{"1 foot 6-1/2", 18.5},
		{"one foot six and a half", 18.5},
		{"18½", 18.5},
		{"18.5", 18.5},
		{"eighteen and a half", 18.5},
		{"a foot and a half", 18},
		{"470 mm", 470 / 25.4},
		{"47cm", 47 / 2.54},
		{"47,5 cm", 47.5 / 2.54},
		{"0.47 m", 470 / 25.4},
		{"sixteen fifteen sixteenths", 16.9375},
		{"twenty five eighths", 20.625},
		{"twenty-two and a quarter", 22.25},
		{"one hundred and twenty inches", 120},
		{"nine inch and a half", 9.5},
		{"an inch and three quarters", 1.75},
		{"3 ft 2 inches and a half", 38.5},
		{"3 pies 2 pulgadas y media", 38.5},
		{"thirteen and three ates", 13.375},
		{"28 and 5 ates", 28.625},
		{"3 Ft 2 Inches And A Half", 38.5},
		{"a sixteenth shy of nine", 9 - 1.0/16},
		{"an eighth over ten", 10.125},
		{"10-3/8 heavy", 10.375 + 1.0/32},
		{"10-3/8 light", 10.375 - 1.0/32},
		{"nine less a sixteenth", 9 - 1.0/16},
	} {
		ask := one(t, "set "+c.spelling+", 45s, 3 abs")
		got, _ := ask.Length(parser.Set)
		if math.Abs(got.Inches()-c.inches) > 1e-9 || ask.Pipe.Size != "3" || ask.Angle != 45 {
			t.Errorf("%s: read %v in, angle %v, size %q, want %v in", c.spelling, got.Inches(), ask.Angle, ask.Pipe.Size, c.inches)
		}
	}
}

// TestAngles reads an angle in every way the trade says one.
func TestAngles(t *testing.T) {
	for _, c := range []struct {
		spelling string
		degrees  geometry.Angle
	}{
		{"45", 45},
		{"45s", 45},
		{"45's", 45},
		{"45°", 45},
		{"45 degree", 45},
		{"1/8 bend", 45},
		{"eighth bends", 45},
		{"forty fives", 45},
		{"two 45s", 45},
		{"1/8 bends", 45},
		{"45 ells", 45},
		{"22", 22.5},
		{"22s", 22.5},
		{"22-1/2", 22.5},
		{"22.5", 22.5},
		{"22½s", 22.5},
		{"twenty two and a half", 22.5},
		{"1/16 bend", 22.5},
		{"60s", 60},
		{"1/6 bends", 60},
		{"72s", 72},
		{"1/5 bend", 72},
		{"11-1/4s", 11.25},
		{"1/32 bend", 11.25},
		{"5-5/8 bend", 5.625},
		{"30s", 30},
		{"90s", 90},
		{"quarter bends", 90},
	} {
		ask := one(t, "set 9-3/8, "+c.spelling+", 3 no hub")
		if ask.Angle != c.degrees || ask.Pipe.Size != "3" {
			t.Errorf("%s: read %v, size %q, want %v", c.spelling, ask.Angle, ask.Pipe.Size, c.degrees)
		}
	}
}

// TestLengthsReadBack: every length in every spelling that dogleg itself prints
// reads back as itself.
func TestLengthsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sixteenths := rapid.IntRange(8, 16*96).Draw(t, "sixteenths")
		want := geometry.Length(float64(sixteenths) / 16)
		tape := want.Tape(geometry.Sixteenths)
		for _, spelling := range []string{tape.String(), tape.FeetInches(), want.Metric(4)} {
			ask := one(asTB(t), fmt.Sprintf("set %s, 45s, 3 abs", spelling))
			got, _ := ask.Length(parser.Set)
			if math.Abs((got - want).Inches()) > 1e-5 {
				t.Fatalf("%s: read %v, want %v", spelling, got, want)
			}
		}
	})
}

// asTB lends rapid's T to helpers that take a testing.TB.
func asTB(t *rapid.T) testing.TB { return rapidTB{T: t} }

type rapidTB struct {
	testing.TB
	T *rapid.T
}

func (r rapidTB) Helper()                   {}
func (r rapidTB) Fatalf(f string, a ...any) { r.T.Fatalf(f, a...) }

// TestAnyOrder: the words of an ask may come in any order.
func TestAnyOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.Permutation([]string{"set 9-3/8", "with 60s", "2 inch abs", "takeoff 1-1/8"}).Draw(t, "order")
		ask := one(asTB(t), strings.Join(words, ", "))
		set, _ := ask.Length(parser.Set)
		if set != 9.375 || ask.Angle != 60 || ask.Pipe.Size != "2" || ask.Pipe.Material != catalog.ABS || ask.Ends[1].Takeoff != 1.125 {
			t.Fatalf("%v: read %+v", words, ask)
		}
	})
}

// TestTwoReadings: where both readings are real pipe, neither is taken; where
// one is not, the other is, and it is said.
func TestTwoReadings(t *testing.T) {
	m := parser.Parse("set 7 1/2 copper 45s")[0].Misunderstanding
	if m == nil || m.Trouble != parser.TwoReadings || len(m.Readings) != 2 {
		t.Fatalf("want both readings, got %+v", m)
	}
	sizes := map[geometry.Length]catalog.Size{}
	for _, r := range m.Readings {
		set, _ := r[0].Length(parser.Set)
		sizes[set] = r[0].Pipe.Size
	}
	if want := map[geometry.Length]catalog.Size{7.5: "", 7: "1/2"}; !maps.Equal(sizes, want) {
		t.Errorf("sizes by the set are %v, want %v", sizes, want)
	}
	ask := one(t, "set 7 5/8 abs 45s 2 inch")
	if set, _ := ask.Length(parser.Set); set != 7.625 {
		t.Errorf("there is no 5/8 ABS, so the set is 7-5/8; read %v", set)
	}
}

// TestRepairs: a typing error with one trade word near it is repaired, and the
// ask says so; with none near it is not.
func TestRepairs(t *testing.T) {
	ask := one(t, "9 set 45s 3 coper")
	if ask.Pipe.Material != catalog.Copper || len(ask.Repairs) != 1 || ask.Repairs[0] != (parser.Repair{Wrote: "coper", Read: "copper"}) {
		t.Errorf("read %q, repairs %v", ask.Pipe.Material, ask.Repairs)
	}
	if a := parser.Parse("9 set 45s 3 bamboo")[0].Ask; a != nil && a.Pipe.Material != "" {
		t.Errorf("bamboo: %+v", a)
	}
}

// TestNoSuchSize names the sizes around the one that there isn't.
func TestNoSuchSize(t *testing.T) {
	m := parser.Parse("9 set 45s 1-3/8 pvc")[0].Misunderstanding
	if m == nil || m.Trouble != parser.NoSuchSize || m.Subject != "1-3/8" || fmt.Sprint(m.Near) != "[1-1/4 1-1/2]" {
		t.Errorf("got %+v", m)
	}
}

// TestWith changes an ask as a follow-up says, and leaves the rest.
func TestWith(t *testing.T) {
	base := one(t, "set 9-3/8 45s 2 pvc takeoff 1-1/8")
	after := func(last parser.Ask, text string) parser.Ask {
		t.Helper()
		said := parser.Read(text, parser.Said{Last: &last})
		if len(said) != 1 || said[0].Ask == nil {
			t.Fatalf("%q: %s", text, describe(said[0]))
		}
		return *said[0].Ask
	}
	set, _ := base.With(after(base, "same but 14")).Length(parser.Set)
	if set != 14 {
		t.Errorf("same but 14: set %v", set)
	}
	turned := base.With(after(base, "with 22s"))
	if turned.Angle != 22.5 || turned.Ends[0].Takeoff != 0 || turned.Pipe.Size != "2" {
		t.Errorf("with 22s: angle %v, takeoff %v: another bend has another takeoff", turned.Angle, turned.Ends[0].Takeoff)
	}
	abs := base.With(after(base, "in abs"))
	if abs.Pipe.Material != catalog.ABS || abs.Pipe.Size != "2" || abs.Angle != 45 {
		t.Errorf("in abs: %+v", abs.Pipe)
	}
	fall := one(t, "fall 27 ft at 1/8")
	fall = fall.With(after(fall, "same but 14 ft"))
	if long, _ := fall.Length(parser.Long); long != 14*12 || fall.Kind != parser.Fall {
		t.Errorf("a bare length after a fall is its length: %v, %s", long, fall.Kind)
	}
	rolled := base.With(parser.Ask{FollowUp: true, Measures: []parser.Measure{{Role: parser.Roll, Length: 8}, {Role: parser.Rise, Length: 14}}})
	if _, ok := rolled.Length(parser.Set); ok {
		t.Error("a roll and a rise take the place of the set")
	}
}

// TestAnswer reads bare answers to a question, and what is no answer to it.
func TestAnswer(t *testing.T) {
	for _, c := range []struct {
		text   string
		wanted parser.Role
		ok     bool
		want   func(parser.Ask) bool
	}{
		{"2 pvc", parser.PipeOf, true, func(a parser.Ask) bool { return a.Pipe.Size == "2" && a.Pipe.Material == "pvc" }},
		{"1 1/2", parser.SizeOf, true, func(a parser.Ask) bool { return a.Pipe.Size == "1-1/2" }},
		{"45", parser.AngleOf, true, func(a parser.Ask) bool { return a.Angle == 45 }},
		{"1/8 bend", parser.AngleOf, true, func(a parser.Ask) bool { return a.Angle == 45 }},
		{"threaded", parser.JointOf, true, func(a parser.Ask) bool { return a.Pipe.Joint == catalog.Thread }},
		{"9-3/8", parser.Set, true, func(a parser.Ask) bool { l, _ := a.Length(parser.Set); return l == 9.375 }},
		{"1-3/16", parser.TakeoffOf, true, func(a parser.Ask) bool { return a.Ends[1].Takeoff == 1.1875 }},
		{"four", parser.LineCount, true, func(a parser.Ask) bool { return a.Lines == 4 }},
		{"thanks mate", parser.AngleOf, false, nil},
		{"1-3/8", parser.SizeOf, false, nil},
		{"120", parser.AngleOf, false, nil},
	} {
		a, ok := parser.Answer(c.text, c.wanted)
		if ok != c.ok || ok && !c.want(a) {
			t.Errorf("%q to %s: %v %+v", c.text, c.wanted, ok, a)
		}
	}
}

// FuzzParse: whatever is said, Parse does not panic, says at least one thing,
// says exactly one thing of each statement, and is quick about it.
func FuzzParse(f *testing.F) {
	for _, m := range corpus(f, "../testdata/asks/*.txt") {
		f.Add(m.Text)
	}
	for _, text := range worst() {
		f.Add(text)
	}
	for _, text := range []string{"", "\x00", "\xff\xfe", "5/0", "1e308", "-0", "1/0 set", "\u202eset 9", "½½½", strings.Repeat("9", 10000)} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		said := parser.Parse(text)
		if len(said) == 0 {
			t.Fatal("nothing said")
		}
		for _, s := range said {
			n := 0
			for _, set := range []bool{s.Ask != nil, s.Command != nil, s.Misunderstanding != nil} {
				if set {
					n++
				}
			}
			if n != 1 {
				t.Fatalf("a statement says %d things", n)
			}
			if s.Ask != nil {
				finite(t, s.Ask)
			}
		}
		if slow(text) {
			t.Errorf("%d bytes took over ten seconds, three times", len(text))
		}
	})
}

func finite(t *testing.T, a *parser.Ask) {
	t.Helper()
	for _, m := range a.Measures {
		if v := m.Length.Inches(); math.IsNaN(v) || v < 0 || m.Length > geometry.Longest {
			t.Fatalf("%s is %v", m.Role, v)
		}
	}
	if v := a.Angle.Degrees(); math.IsNaN(v) || v < 0 || v > 90 {
		t.Fatalf("angle %v", v)
	}
}

// slow says whether a message takes over ten seconds every time: a thousand times what
// one takes, so that only a search without end is found, on whatever machine.
func slow(text string) bool {
	for range 3 {
		at := time.Now()
		parser.Parse(text)
		if time.Since(at) < 10*time.Second {
			return false
		}
	}
	return true
}

// TestPerCent: a grade in percent may be written in two words.
func TestPerCent(t *testing.T) {
	for other, usual := range map[string]string{
		"fall 20 ft at 1 per cent":                       "fall 20 ft at 1%",
		"Fall 20 Ft At 1 Per Cent":                       "fall 20 ft at 1%",
		"drenaje de 12 m con pendiente del 1 por ciento": "drenaje de 12 m con pendiente del 1%",
	} {
		got, want := one(t, other), one(t, usual)
		if got.Kind != parser.Fall || got.Grade != want.Grade {
			t.Errorf("%q: %v with a grade of %v, want that of %q, %v", other, got.Kind, got.Grade, usual, want.Grade)
		}
	}
}

// What is told of a bend is read before the way the tape was laid; the text of the
// statement is still all that was said.
func TestSidesOfABendKeepTheirText(t *testing.T) {
	for _, text := range []string{"end of pipe to center of 90", "from the center of the tee to the center of the 90"} {
		if got := parser.Parse(text)[0].Text; got != text {
			t.Errorf("%q: the text read is %q", text, got)
		}
	}
}
