package wording_test

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"
	"unicode/utf16"
	"unicode/utf8"

	"pgregory.net/rapid"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

func options() *rapid.Generator[wording.Options] {
	return rapid.Custom(func(t *rapid.T) wording.Options {
		return wording.Options{
			Language:  rapid.SampledFrom([]parser.Language{"", parser.English, parser.Spanish}).Draw(t, "language"),
			Division:  rapid.SampledFrom([]geometry.Division{0, geometry.Eighths, geometry.Sixteenths, geometry.ThirtySeconds}).Draw(t, "division"),
			Metric:    rapid.Bool().Draw(t, "metric"),
			FirstTime: rapid.Bool().Draw(t, "first time"),
		}
	})
}

func anyLength() *rapid.Generator[geometry.Length] {
	return rapid.Custom(func(t *rapid.T) geometry.Length {
		if rapid.Bool().Draw(t, "whole") {
			return geometry.Length(rapid.IntRange(1, 200).Draw(t, "inches"))
		}
		return geometry.Length(rapid.Float64Range(0.01, 900).Draw(t, "inches"))
	})
}

func anyEnd(evidence ...catalog.Evidence) *rapid.Generator[figure.End] {
	return rapid.Custom(func(t *rapid.T) figure.End {
		f := catalog.Fitting{
			Shape:  rapid.SampledFrom([]catalog.Shape{catalog.Bend, catalog.Tee, catalog.Wye}).Draw(t, "shape"),
			Angle:  rapid.SampledFrom(geometry.Bends()).Draw(t, "angle"),
			Street: rapid.Bool().Draw(t, "street"),
			Sweep:  rapid.SampledFrom([]catalog.Sweep{catalog.Regular, catalog.Long, catalog.Short}).Draw(t, "sweep"),
		}
		if f.Sweep != catalog.Regular {
			f.Street = false // none is made both ways
		}
		return figure.End{Fitting: f, Takeoff: catalog.Takeoff{
			Fitting: f, Length: anyLength().Draw(t, "takeoff"), Insertion: anyLength().Draw(t, "insertion"),
			Band:     geometry.Length(rapid.SampledFrom([]float64{0, 0.125, 0.3}).Draw(t, "band")),
			Evidence: rapid.SampledFrom(evidence).Draw(t, "evidence"),
			Source:   rapid.SampledFrom([]string{"", "ASME B16.9, center to face"}).Draw(t, "source"),
		}}
	})
}

var kinds = []parser.Kind{
	parser.Offset, parser.Fit, parser.Piece, parser.Mark, parser.Parallel, parser.Around,
	parser.Fall, parser.Trim, parser.Check, parser.Takeoff,
}

// anyAnswer draws an answer that hangs together no better than chance: the
// wording has to be right for all of them.
func anyAnswer(evidence ...catalog.Evidence) *rapid.Generator[*figure.Answer] {
	return rapid.Custom(func(t *rapid.T) *figure.Answer {
		a := &figure.Answer{
			Ask: parser.Ask{
				Kind: rapid.SampledFrom(kinds).Draw(t, "kind"), Angle: rapid.SampledFrom(geometry.Bends()).Draw(t, "angle"),
				Measures:    []parser.Measure{given(parser.Set, anyLength().Draw(t, "set"))},
				Sensitivity: rapid.Bool().Draw(t, "sensitivity"),
			},
			Main:    rapid.SampledFrom([]parser.Role{parser.Cut, parser.EndGap, parser.Travel, parser.MarkAt, parser.AngleOf}).Draw(t, "main"),
			Rolling: rapid.Bool().Draw(t, "rolling"), RollAngle: geometry.Angle(rapid.Float64Range(0, 90).Draw(t, "roll angle")),
			Ends:        [2]figure.End{anyEnd(evidence...).Draw(t, "end"), anyEnd(evidence...).Draw(t, "end")},
			Provisional: rapid.Bool().Draw(t, "provisional"), Band: anyLength().Draw(t, "band"),
			Limit:    &figure.Limit{Touching: anyLength().Draw(t, "touching"), Cut: anyLength().Draw(t, "cut there")},
			Handbook: &figure.Handbook{Name: "two decimals", Travel: 9, Run: 9, Cut: anyLength().Draw(t, "cut by the book"), Differs: rapid.Bool().Draw(t, "differs")},
			Assumed:  []figure.Assumption{{Took: "threaded", Instead: []figure.Alternative{{Name: "butt-weld", Cut: anyLength().Draw(t, "cut instead")}}}},
			Throws:   []figure.Throw{{What: "set", Off: "1/8 in", Cut: anyLength().Draw(t, "throw")}},
			Cautions: []figure.Caution{figure.CheckTakeoff, figure.DryVent, figure.Gas},
		}
		a.Kind = a.Ask.Kind
		for _, role := range []parser.Role{parser.Cut, parser.EndGap, parser.Travel, parser.MarkAt, parser.TrimOff, parser.PipeLength} {
			l := inches(role, anyLength().Draw(t, string(role)))
			l.Up = rapid.Bool().Draw(t, "up")
			a.Lengths = append(a.Lengths, l)
		}
		if rapid.Bool().Draw(t, "by the book") {
			a.Exact = a.Lengths
		}
		for range rapid.IntRange(0, 3).Draw(t, "bends") {
			a.Bends = append(a.Bends, figure.Choice{
				Angle: rapid.SampledFrom(geometry.Bends()).Draw(t, "bend"), Fits: rapid.Bool().Draw(t, "fits"),
				Cut: anyLength().Draw(t, "cut of the bend"), EndGap: anyLength().Draw(t, "gap of the bend"), Ends: a.Ends,
			})
		}
		cut := figure.Quantity{Role: parser.Cut, Length: a.Lengths[0].Length}
		a.Steps = []figure.Step{
			{Name: figure.StepAdd, Rule: figure.RuleCut, Result: cut, Terms: []figure.Quantity{{Length: 20}, {Length: 1, Minus: true}}},
			{Name: figure.StepMark, Result: cut},
			{Name: figure.StepMark, Result: figure.Quantity{Role: parser.EndGap, Length: a.Lengths[1].Length}},
		}
		return a
	})
}

// bareCut finds a cut, or another length that hangs on the takeoffs, that is
// printed without about.
var bareCut = regexp.MustCompile(`(?i)\b(cut|corte|mark|marca|trim|recorte|puntas a|end|ends|pipe|tubo|piece at|pieza a|would be|sería) \d[^/]|^\d.*\b(Cut|Corte)[^,]*: [^,]*$`)

// No length that hangs on a takeoff from memory or geometry is printed without
// about, whatever else the answer holds and whatever its flags say.
func TestMemoryAlwaysSaysAbout(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAnswer(catalog.SecondHand, catalog.Memory, catalog.Derived).Draw(t, "answer")
		o := options().Draw(t, "options")
		for _, text := range []string{wording.Whole(a, o), wording.Steps(a, o)} {
			for line := range strings.Lines(text) {
				if found := bareCut.FindString(strings.TrimSpace(line)); found != "" {
					t.Fatalf("%q has no about in\n%s", found, text)
				}
			}
		}
		if r := wording.NewRecord(parser.Statement{Ask: &a.Ask}, a, nil, ""); !r.Provisional {
			t.Fatalf("the record is not provisional")
		}
	})
}

// The property above would be worth nothing if it never saw a cut: with sure
// takeoffs the same answers print it bare.
func TestSureCutsAreBare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAnswer(catalog.Own, catalog.Said, catalog.Published, catalog.OpenData).Draw(t, "answer")
		a.Provisional, a.Main, a.Kind = false, parser.Cut, parser.Offset
		text := wording.Whole(a, wording.Options{})
		if !regexp.MustCompile(`^Cut \d`).MatchString(text) {
			t.Fatalf("not bare: %s", text)
		}
	})
}

// The one number stands alone on the first line, and a reply fits a message.
func TestReplyShape(t *testing.T) {
	any := []catalog.Evidence{catalog.Own, catalog.Said, catalog.Published, catalog.OpenData, catalog.SecondHand, catalog.Memory, catalog.Derived}
	rapid.Check(t, func(t *rapid.T) {
		a := anyAnswer(any...).Draw(t, "answer")
		o := options().Draw(t, "options")
		for range rapid.IntRange(0, 400).Draw(t, "lines") {
			a.Lines = append(a.Lines, figure.Line{Number: len(a.Lines) + 1, Start: 2.5})
		}
		text := wording.Whole(a, o)
		first, rest, _ := strings.Cut(text, "\n")
		if strings.ContainsAny(first, "·;") || utf8.RuneCountInString(first) > 80 || rest == "" {
			t.Fatalf("the first line does not stand alone: %q", first)
		}
		for _, text := range []string{text, wording.Steps(a, o), wording.Spoken(a, o), wording.AllCautions(a, o)} {
			if n := len(utf16.Encode([]rune(text))); n > 4096 || n == 0 {
				t.Fatalf("%d UTF-16 units", n)
			}
			if strings.ContainsAny(text, "{}!") || strings.Contains(text, "\n\n") {
				t.Fatalf("untidy:\n%s", text)
			}
		}
	})
}

// At most two cautions go with an answer.
func TestReplyCautions(t *testing.T) {
	a := simple()
	a.Cautions = []figure.Caution{figure.Gas, figure.LiveLine, figure.OldLead}
	reply := wording.Whole(a, wording.Options{})
	if strings.Contains(reply, "leaded solder") || !strings.Contains(reply, "drained, vented, tagged") {
		t.Errorf("got\n%s", reply)
	}
	if all := wording.AllCautions(a, wording.Options{}); !strings.Contains(all, "leaded solder") {
		t.Errorf("got\n%s", all)
	}
}

// A record survives the journey through JSON.
func TestRecordRoundTrip(t *testing.T) {
	any := []catalog.Evidence{catalog.Own, catalog.Said, catalog.Published, catalog.Memory}
	rapid.Check(t, func(t *rapid.T) {
		a := anyAnswer(any...).Draw(t, "answer")
		first, err := json.Marshal(wording.NewRecord(parser.Statement{Ask: &a.Ask}, a, nil, wording.Whole(a, wording.Options{})))
		if err != nil {
			t.Fatal(err)
		}
		var r wording.Record
		if err := json.Unmarshal(first, &r); err != nil {
			t.Fatal(err)
		}
		second, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		if string(first) != string(second) {
			t.Fatalf("went in as\n%s\ncame out as\n%s", first, second)
		}
	})
}
