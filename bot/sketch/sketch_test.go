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
	a, err := figure.Solve(parser.Likeliest(message), figure.Settings{})
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
			{parser.TakeoffOf, 1.125, "takeoff 1-1/8"},
			{parser.TakeoffOf, 1.125, "takeoff 1-1/8"},
			{parser.Travel, 16.970563, "travel 17 light"},
			{parser.Run, 12, "run 12"},
			{parser.EndGap, 14.25, "ends 14-1/4 apart"},
			{parser.Set, 12, "set 12"},
		}},
		// The root of 8² + 6² is 10; 10 × √2 = 14.142136, less twice 2 is 10.142136.
		{"roll 8 rise 6 45s takeoff 2 3 abs", "offset", []dimension{
			{parser.Cut, 10.142136, "cut 10-1/8 heavy"},
			{parser.TakeoffOf, 2, "takeoff 2"},
			{parser.TakeoffOf, 2, "takeoff 2"},
			{parser.Travel, 14.142136, "travel 14-1/8 heavy"},
			{parser.Run, 10, "run 10"},
			{parser.EndGap, 14, "ends 14 apart"},
			{parser.Set, 10, "true set 10"},
		}},
		{"roll 8 rise 6 45s takeoff 2 3 abs", "end", []dimension{
			{parser.Roll, 8, "roll 8"},
			{parser.Rise, 6, "rise 6"},
			{parser.Set, 10, "true set 10"},
		}},
		// 6-3/4 and twice 7/8 is 8-1/2, less 5-1/4 is 3-1/4.
		{"set 6-3/4 45s takeoff 7/8, ends are 5-1/4 apart now, where do I cut the standing pipe", "standing", []dimension{
			{parser.EndGap, 8.5, "ends 8-1/2 apart"},
			{parser.TrimOff, 3.25, "trim 3-1/4"},
			{parser.GapNow, 5.25, "ends now 5-1/4 apart"},
		}},
		// 12 and twice 1-1/2 is 15; that and 3 is 18.
		{"set 12 45s takeoff 1-1/2 2 pvc dwv, ends overlap 3", "standing", []dimension{
			{parser.EndGap, 15, "ends 15 apart"},
			{parser.TrimOff, 18, "trim 18"},
			{parser.Overlap, 3, "ends overlap 3"},
		}},
		// 8 × tan 22-1/2° = 3.313708; 20 × √2 = 28.284271.
		{"3 lines 8 apart set 20 45s", "parallel", []dimension{
			{parser.Travel, 28.284271, "travel 28-5/16 light"},
			{parser.Run, 20, "run 20"},
			{parser.Stagger, 3.313708, "stagger 3-5/16"},
			{parser.Spacing, 8, "spacing 8"},
			{parser.Stagger, 3.313708, "stagger 3-5/16"},
		}},
		// (2-3/16 + 5-1/4 cos 45°) / sin 45° = 8.343592, which rounds up to 8-3/8;
		// 5-1/4 and 2-3/16 is 7-7/16, whose travel is 10.518213.
		{"around reach 5-1/4 clearance 1 45s 2 pvc dwv", "around", []dimension{
			{parser.Start, 8.343592, "start 8-3/8 before it"},
			{parser.Reach, 5.25, "sticks out 5-1/4"},
			{parser.Set, 7.4375, "set 7-7/16"},
			{parser.Clearance, 1, "clear 1"},
			// less two of 1-1/2; a takeoff before the bend; 7-7/16 and two of 1-1/2.
			// Each is left long by what the takeoffs may be off, 1/8 each.
			{parser.Cut, 7.518213, "cut about 7-13/16"},
			{parser.TakeoffOf, 1.5, "takeoff about 1-1/2"},
			{parser.TakeoffOf, 1.5, "takeoff about 1-1/2"},
			{parser.MarkAt, 9.843592, "stop the pipe about 9-11/16 before it"},
			{parser.EndGap, 10.4375, "ends about 10-3/16 apart"},
		}},
		{"piece between two 90s, 54 face to face, 2 pvc dwv depth 3/4", "piece", []dimension{
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

// The faces of a bend are square to the pipes in it: it goes straight on for a
// little from each.
func TestFittingsAreSquareAtTheFace(t *testing.T) {
	v := view(t, draw(t, "set 12 45s takeoff 2 2 pvc dwv", wording.Options{}), "offset")
	for i, body := range partOf(t, v, sketch.FittingBody) {
		n := len(body.Points) - 1
		straight := [2][2]sketch.Point{{body.Points[0], body.Points[1]}, {body.Points[n-1], body.Points[n]}}
		legs := [2][2]float64{{1, 0}, {math.Sqrt2 / 2, math.Sqrt2 / 2}}
		if i == 1 {
			legs[0], legs[1] = [2]float64{-math.Sqrt2 / 2, -math.Sqrt2 / 2}, [2]float64{-1, 0}
			straight[0], straight[1] = [2]sketch.Point{straight[0][1], straight[0][0]}, [2]sketch.Point{straight[1][1], straight[1][0]}
		}
		for j, ends := range straight {
			x, y := float64(ends[1].X-ends[0].X), float64(ends[1].Y-ends[0].Y)
			if long := math.Hypot(x, y); math.Hypot(x/long-legs[j][0], y/long-legs[j][1]) > 1e-6 || long < 0.2 {
				t.Errorf("bend %d: face %d looks along %.4f, %.4f for %.2f, want %v", i, j, x/long, y/long, long, legs[j])
			}
		}
	}
}

// A bend of a bank that keeps its spacing lies on the line that halves the turn:
// for 45s, 8 up is 3.313708 back.
func TestBanksBendInALine(t *testing.T) {
	v := view(t, draw(t, "3 lines 8 apart set 20 45s", wording.Options{}), "parallel")
	for i, b := range partOf(t, v, sketch.StandingPipe) {
		wantPoint(t, "first bend", b.Points[1], -3.313708*float64(i), 8*float64(i))
		wantPoint(t, "second bend", b.Points[2], 20-3.313708*float64(i), 20+8*float64(i))
	}
	// With fittings that take 1-1/2, each piece begins 1.060660 past and above its bend.
	v = view(t, draw(t, "3 lines 8 apart set 20 45s 2 pvc dwv takeoff 1-1/2", wording.Options{}), "parallel")
	for i, b := range partOf(t, v, sketch.PipePiece) {
		wantPoint(t, "piece", b.Points[0], 1.060660-3.313708*float64(i), 1.060660+8*float64(i))
	}
}

// Each line has its number at both ends; of many that stand close, the first and
// the last have theirs.
func TestLinesAreNumbered(t *testing.T) {
	for message, want := range map[string]string{
		"3 lines 8 apart set 20 45s": "1 1 2 2 3 3",
		"8 lines 2 apart set 20 45s": "1 1 8 8",
	} {
		var numbers []string
		for _, l := range view(t, draw(t, message, wording.Options{}), "parallel").Labels {
			numbers = append(numbers, l.Text)
		}
		if got := strings.Join(numbers, " "); got != want {
			t.Errorf("%s: numbered %s, want %s", message, got, want)
		}
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
	if got := v.Dimensions[0].Label; got != "length 27 ft" {
		t.Errorf("%q along it, want length 27 ft", got)
	}
	at := map[string]sketch.Point{}
	for _, l := range v.Labels {
		at[l.Text] = l.At
	}
	wantPoint(t, "high end", at["high end"], 0, 3.375*19)
	wantPoint(t, "low end", at["low end"], 324, 0)
	for _, l := range v.Lines {
		if l.Stroke == sketch.ThickStroke && len(l.Points) == 2 && (l.Points[1].X <= l.Points[0].X || l.Points[1].Y >= l.Points[0].Y) {
			t.Errorf("it flows from %v to %v, want down", l.Points[0], l.Points[1])
		}
	}
}

// tapeOf is what a strip of tape shows: where its marks are, where the line of the
// mark is and which way its arrow head points, and what is written where.
type tapeOf struct {
	ticks, hooks []float64
	mark         float64
	leans        float64
	written      map[string]float64
	named        string // at the mark
}

func readTape(t *testing.T, d *sketch.Drawing) tapeOf {
	t.Helper()
	v := view(t, d, "tape")
	tape := tapeOf{mark: math.NaN(), written: map[string]float64{}}
	for _, l := range v.Lines {
		x := float64(l.Points[0].X)
		switch {
		case l.Stroke == sketch.HookStroke:
			tape.hooks = append(tape.hooks, x)
		case l.Stroke != sketch.CutStroke:
			tape.ticks = append(tape.ticks, x)
		case len(l.Points) == 2:
			tape.mark = x
		default:
			tape.leans = float64(l.Points[1].X) - x
		}
	}
	for _, l := range v.Labels[1:] { // the first is what the reply says
		if l.Main {
			tape.named = l.Text
		}
		tape.written[l.Text] = float64(l.At.X)
	}
	return tape
}

// In millimeters a drain's length is in meters, and its grade as it is said: 150
// mm over 6 m is 1 in 40.
func TestFallInMeters(t *testing.T) {
	v := view(t, draw(t, "fall over 6 m at 2.5 percent", wording.Options{Metric: true}), "fall")
	if got := v.Dimensions[0].Label; got != "length 6 m" {
		t.Errorf("%q along it, want length 6 m", got)
	}
	if got := v.Labels[0].Text; got != "1 in 40 = 2.5 %" {
		t.Errorf("grade %q, want 1 in 40 = 2.5 %%", got)
	}
}

// The tape's line is on the mark that the words name, and an arrow head points
// to the side on which what is heavy or light lies. The marks are a sixteenth
// apart, those near the line are counted, and the inches stand at theirs.
func TestTapeShowsTheMark(t *testing.T) {
	tape := readTape(t, draw(t, "set 12 45s takeoff 1-1/8 1-1/2 pvc dwv", wording.Options{})) // 14.720563
	if tape.mark != 14.75 || tape.leans >= 0 || tape.named != "3/4" {
		t.Errorf("line at %v, leaning %v, named %q; want 14.75, toward zero, 3/4", tape.mark, tape.leans, tape.named)
	}
	for i, x := range tape.ticks {
		if i > 0 && math.Abs(x-tape.ticks[i-1]-1.0/16) > 1e-9 {
			t.Errorf("marks at %v and %v, want a sixteenth apart", tape.ticks[i-1], x)
		}
	}
	for text, want := range map[string]float64{
		"8": 14.5, "9": 14.5625, "10": 14.625, "11": 14.6875, "3/4": 14.75, "13": 14.8125, "14": 14.875,
	} {
		if got, ok := tape.written[text]; !ok || got != want {
			t.Errorf("%s is written at %v, want %v", text, got, want)
		}
	}
	if _, ok := tape.written["0"]; !ok || len(tape.hooks) != 1 || tape.hooks[0] > tape.ticks[0] {
		t.Errorf("hooks at %v, want one before the marks, and a 0 at it", tape.hooks)
	}
	// 10 × √2 = 14.142136 less 4 is 10.142136, an eighth heavy.
	if tape := readTape(t, draw(t, "set 10 45s takeoff 2 3 abs", wording.Options{})); tape.mark != 10.125 || tape.leans <= 0 {
		t.Errorf("line at %v, leaning %v; want 10.125, away from zero", tape.mark, tape.leans)
	}
	// Of what is short, the tape is whole from its end.
	tape = readTape(t, draw(t, "dry fit is 8-5/8, should be 8-1/4, 45s, how much do I trim", wording.Options{}))
	if tape.ticks[0] != 0 || len(tape.hooks) != 1 || tape.hooks[0] != 0 || tape.mark != 0.5 {
		t.Errorf("marks from %v, hook at %v, line at %v; want 0, 0 and 1/2", tape.ticks[0], tape.hooks, tape.mark)
	}
}

// In millimeters the tape has a mark at each, a figure at each centimeter, and
// the ones between counted near the line: 300 × √2 less 60 is 364.26.
func TestTapeInMillimeters(t *testing.T) {
	tape := readTape(t, draw(t, "set 300 mm 45s takeoff 30 mm 2 pvc dwv", wording.Options{Metric: true}))
	if math.Abs(tape.mark*25.4-364) > 1e-9 || tape.leans != 0 || tape.named != "364" {
		t.Errorf("line at %v mm, leaning %v, named %q; want 364, neither way", tape.mark*25.4, tape.leans, tape.named)
	}
	for i, x := range tape.ticks {
		if i > 0 && math.Abs((x-tape.ticks[i-1])*25.4-1) > 1e-9 {
			t.Errorf("marks at %v and %v mm, want one apart", tape.ticks[i-1]*25.4, x*25.4)
		}
	}
	for text, want := range map[string]float64{"360": 360, "370": 370, "3": 363, "5": 365} {
		if got, ok := tape.written[text]; !ok || math.Abs(got*25.4-want) > 1e-9 {
			t.Errorf("%s is written at %v mm, want %v", text, got*25.4, want)
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

// Turned 60° up from level for a rise that is √3 times the roll. Both pipes are
// cut across where they lie: 3 in is 3.500 outside (ASTM D1785).
func TestRollingIsSeenAlongTheLine(t *testing.T) {
	v := view(t, draw(t, "roll 7 rise 12-1/8 45s takeoff 2 3 abs", wording.Options{}), "end")
	if len(v.Arcs) != 1 || v.Arcs[0].Label != "60°" {
		t.Errorf("angles %v, want 60°", v.Arcs)
	}
	if len(v.Circles) != 2 {
		t.Fatalf("%d pipes, want 2", len(v.Circles))
	}
	wantPoint(t, "far pipe", v.Circles[0].Center, 7, 12.125)
	wantPoint(t, "near pipe", v.Circles[1].Center, 0, 0)
	if r := v.Circles[0].Radius; r != 1.75 {
		t.Errorf("the pipe is drawn with a radius of %v, want 1.75", r)
	}
}

// The box is as long as the run, 10, and as high as the rise, 6; the roll, 8,
// recedes at 38° and is seven tenths as long: 5.6 × cos 38° = 4.412860, 5.6 ×
// sin 38° = 3.447704. The pipe goes from corner to corner, and its piece begins
// after 2 of the travel of 14.142136, by 2.038286 and 1.336107.
func TestRollingIsSeenInItsBox(t *testing.T) {
	v := view(t, draw(t, "roll 8 rise 6 45s takeoff 2 3 abs", wording.Options{}), "box")
	for _, l := range v.Lines {
		if l.Stroke == sketch.ThickStroke {
			for i, want := range [][2]float64{{10, 0}, {14.412860, 3.447704}, {14.412860, 9.447704}, {10, 0}} {
				wantPoint(t, "the triangle of roll, rise and true set", l.Points[i], want[0], want[1])
			}
		}
	}
	wantPoint(t, "the piece", partOf(t, v, sketch.PipePiece)[0].Points[0], 2.038286, 1.336107)
	var labels []string
	for _, l := range v.Labels {
		labels = append(labels, l.Text)
	}
	if want := []string{"true set 10", "run 10", "roll 8", "rise 6", "travel 14-1/8 heavy"}; !slices.Equal(labels, want) {
		t.Errorf("labels %q, want %q", labels, want)
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

// The dry fit of 8-5/8 is 3/8 over a set of 8-1/4, drawn three times as much,
// which is about a seventh of the set; 3/8 × √2 = 0.530330 comes off. One of
// 9-3/4 is 1/4 under a set of 10, drawn six times.
func TestDryFitShowsWhatIsHigh(t *testing.T) {
	for _, c := range []struct {
		message          string
		off              string
		trim, set, shown float64
		dry              string
		pieceTo          float64 // up
	}{
		{"dry fit is 8-5/8, should be 8-1/4, 45s, how much do I trim", "3/8 high", 3 * 0.530330, 8.25, 9.375, "dry fit 8-5/8", 8.25},
		{"dry fit is 9-3/4, should be 10, 45s, how much do I trim", "1/4 low", 6 * 0.353553, 10, 8.5, "dry fit 9-3/4", 8.5},
	} {
		v := view(t, draw(t, c.message, wording.Options{}), "dry fit")
		for i, want := range []struct {
			long  float64
			label string
		}{{c.trim, ""}, {c.set, ""}, {c.shown, c.dry}} {
			if d := v.Dimensions[i]; math.Abs(apart(d)-want.long) > 1e-5 || want.label != "" && d.Label != want.label {
				t.Errorf("%s: drawn %.5f long, %q; want %.5f %q", c.message, apart(d), d.Label, want.long, want.label)
			}
		}
		if v.Labels[0].Text != c.off {
			t.Errorf("%s: %q, want %q", c.message, v.Labels[0].Text, c.off)
		}
		piece := partOf(t, v, sketch.PipePiece)[0]
		if y := float64(piece.Points[1].Y); math.Abs(y-c.pieceTo) > 1e-6 {
			t.Errorf("%s: the piece ends %v up, want %v", c.message, y, c.pieceTo)
		}
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
	want := []string{"corte 364 mm", "descuento 30 mm", "descuento 30 mm", "diagonal 424 mm", "avance 300 mm", "puntas a 360 mm", "desvío 300 mm"}
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

// The PNG is a card 1080 across and small enough to send; the SVG is a document
// with the same words in it as the drawing.
func TestWritten(t *testing.T) {
	for _, message := range everyKind {
		t.Run(message, func(t *testing.T) {
			d := draw(t, message, wording.Options{})
			var image, document bytes.Buffer
			if err := errors.Join(d.PNG(&image), d.SVG(&document)); err != nil {
				t.Fatal(err)
			}
			if image.Len() > 110_000 || document.Len() > 110_000 {
				t.Errorf("PNG of %d bytes, SVG of %d", image.Len(), document.Len())
			}
			wantCard(t, &image)
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

// wantCard wants a picture 1080 across that is white and opaque all along its
// edge: on a dark chat it is a card.
func wantCard(t *testing.T, from io.Reader) {
	t.Helper()
	m, err := png.Decode(from)
	if err != nil {
		t.Fatal(err)
	}
	b := m.Bounds()
	if b.Dx() != 1080 {
		t.Errorf("PNG %d wide", b.Dx())
	}
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			edge := min(x-b.Min.X, b.Max.X-1-x, y-b.Min.Y, b.Max.Y-1-y) < 8
			r, g, blue, alpha := m.At(x, y).RGBA()
			if alpha != 0xffff || edge && (r != 0xffff || g != 0xffff || blue != 0xffff) {
				t.Fatalf("at %d, %d of %v it is %v", x, y, b, m.At(x, y))
			}
		}
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
	ask := parser.Likeliest("set 9-3/8 45s takeoff 1-1/8 1-1/2 pvc dwv")
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
	// 	takeoff 1-1/8
	// 	takeoff 1-1/8
	// 	travel 13-1/4
	// 	run 9-3/8
	// 	ends 11-5/8 apart
	// 	set 9-3/8
	// tape
}
