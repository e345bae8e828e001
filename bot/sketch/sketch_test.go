package sketch_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"io"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"dogleg/bot/figure"
	"dogleg/bot/sketch"
	"dogleg/bot/wording"
	"dogleg/geometry"
	"dogleg/parser"
)

// answer figures one message.
func answer(t testing.TB, message string) *figure.Answer {
	t.Helper()
	statements := parser.Parse(message)
	if len(statements) != 1 || statements[0].Ask == nil {
		t.Fatalf("%q is not one ask", message)
	}
	a, err := figure.Solve(*statements[0].Ask, figure.Settings{})
	if err != nil {
		t.Fatalf("%q: %v", message, err)
	}
	return a
}

func draw(t testing.TB, message string, o wording.Options) *sketch.Drawing {
	t.Helper()
	d, err := sketch.Draw(answer(t, message), o)
	if err != nil {
		t.Fatalf("%q: %v", message, err)
	}
	return d
}

func view(t testing.TB, d *sketch.Drawing, name string) sketch.View {
	t.Helper()
	v, ok := d.View(name)
	if !ok {
		t.Fatalf("no view %s", name)
	}
	return v
}

// Each length is drawn between points that are as far apart as it says. The
// expected ones are worked by hand: 12 × √2 = 16.970563, a hair under 17; less
// twice 1-1/8 it is 14.720563; 12 and twice 1-1/8 is 14-1/4.
func TestDimensionsLieWhereTheyAre(t *testing.T) {
	type dimension struct {
		role  parser.Role
		long  float64
		label string
	}
	for _, c := range []struct {
		message, view string
		want          []dimension
	}{
		{"set 12 45s takeoff 1-1/8 1-1/2 pvc dwv", "offset", []dimension{
			{parser.Cut, 14.720563, "cut 14-3/4 light"},
			{parser.Travel, 16.970563, "travel 17 light"},
			{parser.Run, 12, "run 12"},
			{parser.EndGap, 14.25, "ends 14-1/4 apart"},
			{parser.Set, 12, "set 12"},
		}},
		// The root of 8² + 6² is 10; 10 × √2 = 14.142136, less twice 2 is 10.142136.
		{"roll 8 rise 6 45s takeoff 2 3 abs", "offset", []dimension{
			{parser.Cut, 10.142136, "cut 10-1/8 heavy"},
			{parser.Travel, 14.142136, "travel 14-1/8 heavy"},
			{parser.Run, 10, "run 10"},
			{parser.EndGap, 14, "ends 14 apart"},
			{parser.Set, 10, "true set 10"},
		}},
		{"roll 8 rise 6 45s takeoff 2 3 abs", "turn", []dimension{{parser.Roll, 8, "roll 8"}, {parser.Rise, 6, "rise 6"}}},
		// 6-3/4 and twice 7/8 is 8-1/2, less 5-1/4 is 3-1/4.
		{"set 6-3/4 45s takeoff 7/8, ends are 5-1/4 apart now, where do I cut the standing pipe", "standing", []dimension{
			{parser.EndGap, 8.5, "ends 8-1/2 apart"},
			{parser.TrimOff, 3.25, "trim 3-1/4"},
			{parser.Set, 6.75, "set 6-3/4"},
		}},
		// 8 × tan 22-1/2° = 3.313708; 20 × √2 = 28.284271.
		{"3 lines 8 apart set 20 45s", "parallel", []dimension{
			{parser.Travel, 28.284271, "travel 28-5/16 light"},
			{parser.Run, 20, "run 20"},
			{parser.Stagger, 3.313708, "stagger 3-5/16"},
			{parser.Spacing, 8, "spacing 8"},
		}},
		// (2-3/16 + 5-1/4 cos 45°) / sin 45° = 8.343592, which rounds up to 8-3/8;
		// 5-1/4 and 2-3/16 is 7-7/16, and × √2 it is 10.518213.
		{"around reach 5-1/4 clearance 1 45s 2 pvc dwv", "around", []dimension{
			{parser.Start, 8.343592, "start 8-3/8 before it"},
			{parser.Reach, 5.25, "reach 5-1/4"},
			{parser.Set, 7.4375, "set 7-7/16"},
			{parser.Travel, 10.518213, "travel 10-1/2 heavy"},
			{parser.Clearance, 1, "clearance 1"},
			// less two of 1-1/2; a takeoff before the bend; 7-7/16 and two of 1-1/2.
			// Each is left long by what the takeoffs may be off, 1/8 each.
			{parser.Cut, 7.518213, "cut about 7-13/16"},
			{parser.MarkAt, 9.843592, "mark about 9-11/16"},
			{parser.EndGap, 10.4375, "ends about 10-3/16 apart"},
		}},
		{"54 face to face two 90s 2 pvc dwv depth 3/4", "piece", []dimension{
			{parser.Depth, 0.75, "depth 3/4"},
			{parser.Depth, 0.75, "depth 3/4"},
			{parser.CenterToCenter, 54, "face to face 54"},
			{parser.Cut, 55.5, "cut 55-1/2"},
		}},
		{"36 center to center two 90s 3/4 copper takeoff 1", "piece", []dimension{
			{parser.CenterToCenter, 36, "center to center 36"},
			{parser.TakeoffOf, 1, "takeoff 1"},
			{parser.TakeoffOf, 1, "takeoff 1"},
			{parser.Cut, 34, "cut 34"},
		}},
		// 6 × tan 18-1/2° = 2.007572; all the way around 4-1/2 it is 14.137167.
		{"trim a 4 in elbow to 37 degrees", "elbow", []dimension{
			{parser.TakeoffOf, 2.007572, "takeoff 2"},
			{parser.Radius, 6, "radius 6"},
		}},
		{"trim a 4 in elbow to 37 degrees", "wrap", []dimension{{"", 14.137167, "all the way around 14-1/8"}}},
		{"set 12 room 20 2 pvc dwv", "bends", []dimension{{parser.Room, 20, "room 20"}}},
	} {
		t.Run(c.message+" "+c.view, func(t *testing.T) {
			v := view(t, draw(t, c.message, wording.Options{}), c.view)
			if len(v.Dimensions) != len(c.want) {
				t.Fatalf("%d dimensions, want %d: %+v", len(v.Dimensions), len(c.want), v.Dimensions)
			}
			for i, want := range c.want {
				got := v.Dimensions[i]
				if long := apart(got); got.Role != want.role || got.Label != want.label || math.Abs(long-want.long) > 1e-6 {
					t.Errorf("%s, drawn %.6f long, %q; want %s, %.6f, %q", got.Role, long, got.Label, want.role, want.long, want.label)
				}
			}
		})
	}
}

// apart is how long the line of a dimension is.
func apart(d sketch.Dimension) float64 {
	x, y := float64(d.To.X-d.From.X), float64(d.To.Y-d.From.Y)
	switch d.Axis {
	case sketch.Level:
		return math.Abs(x)
	case sketch.Plumb:
		return math.Abs(y)
	case sketch.Along:
	}
	return math.Hypot(x, y)
}

// The piece and the pipes are drawn where they lie: with 1-1/8 taken at each
// end, the piece of a 12 set begins 1-1/8 × cos 45° = 0.795495 past and above
// the first center.
func TestPipesLieWhereTheyWereWalked(t *testing.T) {
	v := view(t, draw(t, "set 12 45s takeoff 1-1/8 1-1/2 pvc dwv", wording.Options{}), "offset")
	piece := partOf(t, v, sketch.PipePiece)[0]
	wantPoint(t, "start of the piece", piece.Points[0], 1.920495, 0.795495)
	wantPoint(t, "end of the piece", piece.Points[1], 12.329505, 11.204505)
	standing := partOf(t, v, sketch.StandingPipe)
	wantPoint(t, "end of the old line", standing[0].Points[1], 0, 0)
	wantPoint(t, "end of the far line", standing[1].Points[0], 14.25, 12)
	// The outside diameter of 1-1/2 is 1.900 (ASTM D1785).
	if piece.Width != 1.9 {
		t.Errorf("the piece is drawn %v wide, want 1.9", piece.Width)
	}
}

// A bend of a bank that keeps its spacing lies on the line that halves the turn:
// for 45s, 8 up is 3.313708 back.
func TestBanksBendInALine(t *testing.T) {
	v := view(t, draw(t, "3 lines 8 apart set 20 45s 2 steel butt weld", wording.Options{}), "parallel")
	for i, b := range partOf(t, v, sketch.StandingPipe) {
		wantPoint(t, "first bend", b.Points[1], -3.313708*float64(i), 8*float64(i))
		wantPoint(t, "second bend", b.Points[2], 20-3.313708*float64(i), 20+8*float64(i))
	}
}

func TestFallIsDrawnSteeperAndSaysSo(t *testing.T) {
	v := view(t, draw(t, "fall 27 ft at 1/8", wording.Options{}), "fall")
	// 27 × 1/8 = 3-3/8, a 96th of 324; a fifth is about 19 times that.
	pipe := partOf(t, v, sketch.StandingPipe)[0]
	wantPoint(t, "upper end", pipe.Points[0], 0, 3.375*19)
	wantPoint(t, "lower end", pipe.Points[1], 324, 0)
	if want := "fall drawn steeper than it is, times 19"; !slices.Contains(v.Caption, want) {
		t.Errorf("caption %q lacks %q", v.Caption, want)
	}
}

// The tape's arrow stands at the exact cut, its figures are at their inches and
// each sixteenth has its mark.
func TestTapeShowsTheMark(t *testing.T) {
	v := view(t, draw(t, "set 12 45s takeoff 1-1/8 1-1/2 pvc dwv", wording.Options{}), "tape")
	var ticks []float64
	arrow := math.NaN()
	for _, l := range v.Lines {
		if l.Stroke == sketch.CutStroke {
			arrow = float64(l.Points[0].X)
		} else {
			ticks = append(ticks, float64(l.Points[0].X))
		}
	}
	if math.Abs(arrow-14.720563) > 1e-6 {
		t.Errorf("arrow at %v, want 14.720563", arrow)
	}
	for i, x := range ticks {
		if i > 0 && math.Abs(x-ticks[i-1]-1.0/16) > 1e-9 {
			t.Errorf("marks at %v and %v, want a sixteenth apart", ticks[i-1], x)
		}
	}
	if !slices.Contains(ticks, 14.75) || !slices.Contains(ticks, 14.0) {
		t.Errorf("no mark at 14 or at 14-3/4 among %v", ticks)
	}
	for _, l := range v.Labels {
		if !l.Main && l.Text != fmt.Sprint(float64(l.At.X)) {
			t.Errorf("%s stands at %v", l.Text, l.At.X)
		}
	}
}

// A takeoff that was said is sure; that of the drain fitting's table is from
// memory, and its band is drawn to scale.
func TestDoubtIsHatched(t *testing.T) {
	sure := draw(t, "set 12 45s takeoff 1-1/8 1-1/2 pvc dwv", wording.Options{})
	for _, v := range sure.Views {
		if len(v.Hatches) > 0 {
			t.Errorf("%s is hatched with a takeoff that was said", v.Name)
		}
	}
	a := answer(t, "set 12 45s 1-1/2 pvc dwv")
	if a.Band <= 0 {
		t.Fatal("this answer is sure; the test needs one that is not")
	}
	d, err := sketch.Draw(a, wording.Options{})
	if err != nil {
		t.Fatal(err)
	}
	v := view(t, d, "offset")
	bodies := partOf(t, v, sketch.FittingBody)
	if len(v.Hatches) != len(bodies) {
		t.Errorf("%d stretches are hatched, want one for each of %d bodies", len(v.Hatches), len(bodies))
	}
	for i, h := range v.Hatches {
		if !slices.Equal(h.Points, bodies[i].Points) || h.Width != bodies[i].Width {
			t.Errorf("hatched along %v, %v wide; the fitting lies along %v, %v wide", h.Points, h.Width, bodies[i].Points, bodies[i].Width)
		}
	}
	hatch := view(t, d, "tape").Hatches
	cut, _ := a.Length(parser.Cut)
	if len(hatch) != 1 || math.Abs(float64(hatch[0].Points[0].X-(cut-a.Band))) > 1e-9 || math.Abs(float64(hatch[0].Points[1].X-(cut+a.Band))) > 1e-9 {
		t.Errorf("hatched %+v, want %v either side of %v", hatch, a.Band, cut)
	}
}

// Turned 60° up from level for a rise that is √3 times the roll.
func TestTurnIsSeenAlongTheLine(t *testing.T) {
	v := view(t, draw(t, "roll 7 rise 12-1/8 45s takeoff 2 3 abs", wording.Options{}), "turn")
	var angles []string
	for _, a := range v.Arcs {
		angles = append(angles, a.Label)
	}
	if want := []string{"60°", "30°"}; !slices.Equal(angles, want) {
		t.Errorf("angles %q, want %q", angles, want)
	}
}

// The factors of a 60: 2/√3 = 1.155, 1/√3 = 0.577, √3/2 = 0.866, 1/2, 2 and √3.
func TestTriangleHasItsMultipliers(t *testing.T) {
	v := view(t, draw(t, "multiplier 60", wording.Options{}), "triangle")
	want := []string{
		"set × 1.155 = travel", "set × 0.577 = run", "travel × 0.866 = set",
		"travel × 0.500 = run", "run × 2.000 = travel", "run × 1.732 = set",
	}
	if !slices.Equal(v.Caption, want) {
		t.Errorf("caption %q, want %q", v.Caption, want)
	}
}

func TestSpanishAndMetric(t *testing.T) {
	o := wording.Options{Language: parser.Spanish, Metric: true}
	v := view(t, draw(t, "set 300 mm 45s takeoff 30 mm 2 pvc dwv", o), "offset")
	var labels []string
	for _, d := range v.Dimensions {
		labels = append(labels, d.Label)
	}
	// 300 × √2 = 424.26; less 60 it is 364.26; 300 and 60 is 360.
	want := []string{"corte 364 mm", "diagonal 424 mm", "avance 300 mm", "puntas a 360 mm", "desvío 300 mm"}
	if !slices.Equal(labels, want) {
		t.Errorf("labels %q, want %q", labels, want)
	}
}

// Who asks in millimeters has them on the picture too.
func TestAskedInMillimeters(t *testing.T) {
	v := view(t, draw(t, "set 300 mm 45s takeoff 30 mm 2 pvc dwv", wording.Options{}), "offset")
	for _, d := range v.Dimensions {
		if !strings.HasSuffix(d.Label, " mm") && !strings.HasSuffix(d.Label, " mm apart") {
			t.Errorf("label %q", d.Label)
		}
	}
}

func TestNothingToDraw(t *testing.T) {
	_, err := sketch.Draw(&figure.Answer{Kind: parser.Sum, Sum: figure.SumResult{Number: 4, Plain: true}}, wording.Options{})
	if !errors.Is(err, sketch.ErrNothingToDraw) {
		t.Errorf("a plain number: %v, want %v", err, sketch.ErrNothingToDraw)
	}
}

// everyKind has one ask for each kind of picture.
var everyKind = []string{
	"set 12 45s 1-1/2 pvc dwv",
	"roll 8 rise 14 45s 3 abs",
	"set 15 45s travel?",
	"set 12 room 20 2 pvc dwv",
	"36 center to center two 90s 3/4 copper",
	"set 12 45s 2 pvc dwv, ends overlap 3",
	"3 lines 8 apart set 20 45s 2 steel butt weld",
	"around reach 5-1/4 clearance 1 45s 2 pvc dwv",
	"fall 27 ft at 1/8",
	"trim a 4 in elbow to 37 degrees",
	"multiplier 45",
	"takeoff 45 2 pvc dwv",
	"16-15/16 - 3",
	"dry fit is 8-5/8, should be 8-1/4, 45s, how much do I trim",
}

// The PNG is a picture 1080 across and small enough to send; the SVG is a
// document with the same words in it as the drawing.
func TestWritten(t *testing.T) {
	for _, message := range everyKind {
		t.Run(message, func(t *testing.T) {
			d := draw(t, message, wording.Options{})
			var image, document bytes.Buffer
			if err := errors.Join(d.PNG(&image), d.SVG(&document)); err != nil {
				t.Fatal(err)
			}
			if image.Len() > 100_000 || document.Len() > 100_000 {
				t.Errorf("PNG of %d bytes, SVG of %d", image.Len(), document.Len())
			}
			config, err := png.DecodeConfig(&image)
			if err != nil || config.Width != 1080 {
				t.Errorf("PNG %d wide, %v", config.Width, err)
			}
			words := wordsOf(t, &document)
			for _, v := range d.Views {
				for _, d := range v.Dimensions {
					wantWords(t, words, d.Label)
				}
				for _, l := range v.Labels {
					wantWords(t, words, l.Text)
				}
			}
			wantWords(t, words, d.Title)
			wantWords(t, words, d.Understood)
		})
	}
}

// wordsOf is all text of an SVG document, which must be well formed.
func wordsOf(t *testing.T, document io.Reader) string {
	t.Helper()
	var words []string
	decoder := xml.NewDecoder(document)
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return strings.Join(strings.Fields(strings.Join(words, " ")), " ")
		}
		if err != nil {
			t.Fatal(err)
		}
		if text, ok := token.(xml.CharData); ok {
			words = append(words, string(text))
		}
	}
}

func wantWords(t *testing.T, words, want string) {
	t.Helper()
	if !strings.Contains(words, want) {
		t.Errorf("the document lacks %q", want)
	}
}

func partOf(t *testing.T, v sketch.View, p sketch.Part) []sketch.Band {
	t.Helper()
	var bands []sketch.Band
	for _, b := range v.Bands {
		if b.Part == p {
			bands = append(bands, b)
		}
	}
	if len(bands) == 0 {
		t.Fatalf("%s has no %s", v.Name, p)
	}
	return bands
}

func wantPoint(t *testing.T, name string, got sketch.Point, x, y float64) {
	t.Helper()
	if math.Hypot(float64(got.X)-x, float64(got.Y)-y) > 2e-6 {
		t.Errorf("%s at %v, %v; want %v, %v", name, got.X, got.Y, geometry.Length(x), geometry.Length(y))
	}
}

func BenchmarkPNG(b *testing.B) {
	for _, message := range everyKind {
		b.Run(message, func(b *testing.B) {
			a := answer(b, message)
			size := 0
			for b.Loop() {
				d, err := sketch.Draw(a, wording.Options{})
				if err != nil {
					b.Fatal(err)
				}
				var image bytes.Buffer
				if err := d.PNG(&image); err != nil {
					b.Fatal(err)
				}
				size = image.Len()
			}
			b.ReportMetric(float64(size), "bytes")
		})
	}
}

// The step of the drain in the cellar at Juniper Street, with takeoffs measured
// on the fittings.
func ExampleDraw() {
	ask := *parser.Parse("set 9-3/8 45s takeoff 1-1/8 1-1/2 pvc dwv")[0].Ask
	a, err := figure.Solve(ask, figure.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := sketch.Draw(a, wording.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(d.Title)
	for _, v := range d.Views {
		fmt.Println(v.Name)
		for _, dimension := range v.Dimensions {
			fmt.Println("\t" + dimension.Label)
		}
	}
	if err := d.PNG(io.Discard); err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	// Output:
	// Cut 11 in
	// offset
	// 	cut 11
	// 	travel 13-1/4
	// 	run 9-3/8
	// 	ends 11-5/8 apart
	// 	set 9-3/8
	// tape
}
