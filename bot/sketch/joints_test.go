package sketch_test

import (
	"bytes"
	"compress/zlib"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"

	"dogleg/bot/figure"
	"dogleg/bot/sketch"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

var (
	drain2 = catalog.Pipe{Material: catalog.PVC, Use: catalog.DWV, Size: "2"}
	weld4  = catalog.Pipe{Material: catalog.Steel, Joint: catalog.ButtWeld, Size: "4"}
)

func end(f catalog.Fitting, takeoff float64) parser.End {
	return parser.End{Fitting: f, Takeoff: geometry.Length(takeoff)}
}

func measure(r parser.Role, inches float64) parser.Measure {
	return parser.Measure{Role: r, Length: geometry.Length(inches)}
}

// jointAsks are asks of lines whose fittings have unlike ends or turns, by the
// view that shows them.
func jointAsks() map[string]parser.Ask {
	bend := catalog.BendOf(45)
	both := [2]parser.End{end(bend, 1.5), end(bend, 1.5)}
	union := parser.Inline{Fitting: catalog.Fitting{Shape: catalog.Union}, Laying: 2.125, Place: 16}
	unlike := [2]parser.End{end(bend, 1.5), end(catalog.BendOf(22.5), 1.125)}
	return map[string]parser.Ask{
		"corner":  {Kind: parser.Corner, Angle: 90, Pipe: drain2, Ends: both, Measures: []parser.Measure{measure(parser.Leg, 12)}},
		"uneven":  {Kind: parser.Corner, Pipe: drain2, Ends: [2]parser.End{end(catalog.BendOf(60), 1.75), end(catalog.BendOf(30), 1.25)}, Measures: []parser.Measure{measure(parser.Leg, 12)}},
		"square":  {Kind: parser.Offset, Pipe: drain2, Ends: [2]parser.End{end(bend, 1.5), end(catalog.BendOf(90), 2.25)}, Measures: []parser.Measure{measure(parser.Set, 12)}},
		"unlike":  {Kind: parser.Offset, Pipe: drain2, Ends: unlike, Measures: []parser.Measure{measure(parser.Set, 12)}},
		"wye":     {Kind: parser.Offset, Pipe: drain2, Ends: [2]parser.End{{Fitting: catalog.Fitting{Shape: catalog.Wye, Angle: 45}, Takeoff: 3.25, Inlet: 3.25, Outlet: 1.0625}, end(bend, 1.5)}, Measures: []parser.Measure{measure(parser.Set, 12)}},
		"inline":  {Kind: parser.Offset, Pipe: drain2, Ends: both, Inline: []parser.Inline{union}, Measures: []parser.Measure{measure(parser.Set, 30)}},
		"lines":   {Kind: parser.Doglegs, Pipe: drain2, Ends: unlike, Measures: []parser.Measure{measure(parser.Set, 12), measure(parser.Set, 10), measure(parser.Straight, 24)}},
		"back":    {Kind: parser.Doglegs, Pipe: drain2, Ends: both, ComeBack: true, Measures: []parser.Measure{measure(parser.Set, 12), measure(parser.Set, 10), measure(parser.Straight, 24)}},
		"wrap":    {Kind: parser.Wrap, Angle: 30, Pipe: weld4},
		"miter":   {Kind: parser.Miter, Angle: 90, Pieces: 4, Pipe: weld4},
		"saddle":  {Kind: parser.Saddle, Angle: 45, Pipe: weld4, Ends: [2]parser.End{1: {Size: "6"}}},
		"riser":   {Kind: parser.Riser, Pipe: drain2, Stations: []parser.Station{{}, {Fitting: catalog.Fitting{Shape: catalog.Wye}, Reading: 14.5, Below: 1.0625, Above: 3.25}, {Fitting: bend, Reading: 40, Below: 1.5, Above: 1.5}}},
		"spigots": {Kind: parser.Offset, Pipe: drain2, Ends: [2]parser.End{{Fitting: catalog.Fitting{Shape: catalog.Bend, Angle: 45, Street: true}, Takeoff: 1.25, Spigot: 2.125}, end(bend, 1.5)}},
	}
}

// TestJointsAreDrawn paints all of them; with -v they lie in DOGLEG_PICTURES to be
// looked at.
func TestJointsAreDrawn(t *testing.T) {
	for name, ask := range jointAsks() {
		a, err := figure.Solve(ask, figure.Settings{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		d, err := sketch.Draw(a, wording.Options{})
		if err != nil || len(d.Views) == 0 {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var picture bytes.Buffer
		if err := d.PNG(&picture); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if folder := os.Getenv("DOGLEG_PICTURES"); folder != "" {
			if err := os.WriteFile(filepath.Join(folder, name+".png"), picture.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		for _, v := range d.Views {
			for _, dim := range v.Dimensions {
				want, ok := a.Length(dim.Role)
				if !ok || dim.Axis == "" || dim.Role == "" || dim.Role == parser.FarEnd {
					continue
				}
				if got := measured(dim); math.Abs((got-want).Inches()) > 1e-9 && dim.Role != parser.TakeoffOf {
					t.Errorf("%s: %s is drawn %v long, it is %v", name, dim.Role, got, want)
				}
			}
		}
	}
}

// measured is how far apart a dimension's ends lie, along its axis.
func measured(d sketch.Dimension) geometry.Length {
	x, y := float64(d.To.X-d.From.X), float64(d.To.Y-d.From.Y)
	switch d.Axis {
	case sketch.Level:
		return geometry.Length(math.Abs(x))
	case sketch.Plumb:
		return geometry.Length(math.Abs(y))
	case sketch.Along:
	}
	return geometry.Length(math.Hypot(x, y))
}

// pdfLine is a line as a PDF has it: from, to, in points.
var pdfLine = regexp.MustCompile(`(?m)^(-?[\d.]+) (-?[\d.]+) m (-?[\d.]+) (-?[\d.]+) l S$`)

// TestTemplatesAreTrueToScale reads the lines of the PDF back: the square line is
// as long as the pipe is around, 72 points to the inch, over all sheets; the ruler
// is six inches; and the line of the cut stands as far over the square line as it
// is figured, 4.5 × tan 15° at the back of a 90 in four pieces on 4 in pipe.
func TestTemplatesAreTrueToScale(t *testing.T) {
	a, err := figure.Solve(jointAsks()["miter"], figure.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	template, err := sketch.TemplateOf(a, wording.Options{})
	if err != nil {
		t.Fatal(err)
	}
	longest, ruler, highest := 0.0, false, 0.0
	for _, l := range pdfLines(t, template) {
		long := math.Hypot(l[2]-l[0], l[3]-l[1])
		longest = max(longest, long)
		ruler = ruler || math.Abs(long-6*72) < 0.02
		if l[1] != l[3] && l[0] != l[2] {
			highest = max(highest, l[1], l[3])
		}
	}
	square := math.Inf(1)
	for _, l := range pdfLines(t, template) {
		if math.Abs(math.Hypot(l[2]-l[0], l[3]-l[1])-math.Pi*4.5*72) < 0.02 && l[1] > highest-3*72 {
			square = min(square, highest-l[1])
		}
	}
	if math.Abs(longest-math.Pi*4.5*72) > 0.02 || !ruler {
		t.Errorf("the square line is %v points, the ruler is there: %v", longest, ruler)
	}
	if want := 4.5 * math.Tan(15*math.Pi/180) * 72; math.Abs(square-want) > 0.03 {
		t.Errorf("the cut rises %v points, want %v", square, want)
	}
}

// pdfLines are the lines of a template's PDF, written without compression.
func pdfLines(t *testing.T, template *sketch.Template) [][4]float64 {
	t.Helper()
	var out bytes.Buffer
	if err := template.PDF(&out, time.Date(2026, 11, 30, 8, 0, 0, 0, time.UTC)); err != nil {
		t.Fatal(err)
	}
	var lines [][4]float64
	for _, stream := range inflated(t, out.Bytes()) {
		for _, found := range pdfLine.FindAllSubmatch(stream, -1) {
			var l [4]float64
			for i := range l {
				l[i], _ = strconv.ParseFloat(string(found[i+1]), 64)
			}
			lines = append(lines, l)
		}
	}
	if len(lines) < 50 {
		t.Fatalf("only %d lines are found in the PDF", len(lines))
	}
	return lines
}

// TestTemplatesThatCantBe: of a plain offset there is none; and a cut that is
// deeper than a sheet is said to be.
func TestTemplatesThatCantBe(t *testing.T) {
	a, err := figure.Solve(jointAsks()["unlike"], figure.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := sketch.TemplateOf(a, wording.Options{}); !errors.Is(err, sketch.ErrNothingToDraw) {
		t.Errorf("error is %v", err)
	}
	deep := jointAsks()["saddle"]
	deep.Angle = 15
	if a, err = figure.Solve(deep, figure.Settings{}); err != nil {
		t.Fatal(err)
	}
	if _, err := sketch.TemplateOf(a, wording.Options{}); !errors.Is(err, sketch.ErrTooLarge) {
		t.Errorf("error is %v", err)
	}
}

// streams of a PDF, each behind the word.
var pdfStream = regexp.MustCompile(`(?s)stream\r?\n(.*?)\r?\nendstream`)

// inflated are the streams of a PDF that are compressed, unpacked.
func inflated(t *testing.T, pdf []byte) [][]byte {
	t.Helper()
	var all [][]byte
	for _, s := range pdfStream.FindAllSubmatch(pdf, -1) {
		r, err := zlib.NewReader(bytes.NewReader(s[1]))
		if err != nil {
			continue // not compressed: a font
		}
		text, err := io.ReadAll(r)
		if err == nil {
			all = append(all, text)
		}
	}
	return all
}

// Each line of a rack is as thick as its pipe, its cover is drawn on both sides, and
// its stagger and its spacing are dimensioned.
func TestRackIsDrawnLineByLine(t *testing.T) {
	a, err := figure.Solve(parser.Ask{
		Kind: parser.Parallel, Angle: 45, Pipe: catalog.Pipe{Material: catalog.PVC, Use: catalog.DWV},
		Measures: []parser.Measure{{Role: parser.Set, Length: 12}, {Role: parser.Spacing, Length: 2, Method: parser.InsideToInside}},
		Rack:     []parser.RackLine{{Size: "4", Takeoff: 2}, {Size: "2", Takeoff: 1.5}, {Size: "1-1/2", Insulation: 1, Takeoff: 1}},
	}, figure.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	d, err := sketch.Draw(a, wording.Options{})
	if err != nil {
		t.Fatal(err)
	}
	v, _ := d.View("parallel")
	wide, dashed, labels := map[geometry.Length]bool{}, 0, map[string]bool{}
	for _, b := range v.Bands {
		if b.Part == sketch.PipePiece {
			wide[b.Width] = true
		}
	}
	for _, l := range v.Lines {
		if l.Stroke == sketch.DashStroke {
			dashed++
		}
	}
	for _, dim := range v.Dimensions {
		labels[dim.Label] = true
	}
	if !wide[4.5] || !wide[2.375] || !wide[1.9] || dashed != 2 {
		t.Errorf("pieces %v wide, %d dashed lines", wide, dashed)
	}
	for _, label := range []string{"5-7/16", "5-1/8", "2-1/4", "4-3/8"} {
		if !labels[label] {
			t.Errorf("%s is not dimensioned: %v", label, labels)
		}
	}
}
