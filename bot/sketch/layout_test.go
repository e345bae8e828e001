package sketch

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// offsets are asks for offsets of every size and shape, rolling or not, in
// several systems.
func offsets(t *rapid.T) parser.Ask {
	ask := parser.Ask{
		Kind:  rapid.SampledFrom([]parser.Kind{parser.Offset, parser.Offset, parser.Parallel, parser.Around, parser.Mark, parser.Fit}).Draw(t, "kind"),
		Angle: rapid.SampledFrom(geometry.Bends()).Draw(t, "angle"),
		Pipe: catalog.Pipe{
			Material: rapid.SampledFrom([]catalog.Material{catalog.PVC, catalog.Copper, catalog.CastIron, catalog.Steel}).Draw(t, "material"),
			Size:     rapid.SampledFrom([]catalog.Size{"1/2", "2", "4", "8"}).Draw(t, "size"),
		},
		Lines: rapid.IntRange(0, 12).Draw(t, "lines"),
	}
	long := func(r parser.Role, most int) {
		l := geometry.Length(rapid.IntRange(1, most*16).Draw(t, string(r))) / 16
		ask.Measures = append(ask.Measures, parser.Measure{Role: r, Length: l})
	}
	switch {
	case ask.Kind == parser.Around:
		long(parser.Reach, 40)
		long(parser.Clearance, 6)
	case rapid.Bool().Draw(t, "rolling"):
		long(parser.Roll, 60)
		long(parser.Rise, 60)
	default:
		long(parser.Set, 300)
	}
	switch ask.Kind {
	case parser.Parallel:
		long(parser.Spacing, 24)
	case parser.Mark:
		long(parser.GapNow, 30)
	case parser.Fit:
		ask.Angle = 0
		long(parser.Room, 400)
	case parser.Unstated, parser.Offset, parser.Piece, parser.Around, parser.Fall, parser.Trim,
		parser.Sum, parser.Multiplier, parser.Takeoff, parser.Check,
		parser.Corner, parser.Miter, parser.Saddle, parser.Wrap, parser.Riser, parser.Doglegs:
	}
	return ask
}

// No word may hide another, and all must lie on the page, whatever is drawn.
func TestWordsDontHideEachOther(t *testing.T) {
	r := newRuler()
	rapid.Check(t, func(t *rapid.T) {
		a, err := figure.Solve(offsets(t), figure.Settings{})
		if err != nil {
			t.Skip("refused")
		}
		tidy(t, r, a, wording.Options{
			Metric:   rapid.Bool().Draw(t, "metric"),
			Language: rapid.SampledFrom([]parser.Language{parser.English, parser.Spanish}).Draw(t, "language"),
		})
	})
}

// What the asks drawn at random leave out is tidy too, in both languages and both
// units.
func TestEveryKindIsTidy(t *testing.T) {
	r := newRuler()
	for _, message := range []string{
		"set 3 22-1/2s 2 pvc dwv takeoff 3/4",
		"set 20 90s 2 pvc dwv takeoff 2",
		"set 12 45s 3 hub cast iron",
		"set 15 45s travel?",
		"roll 20 rise 3 22-1/2s 2 pvc dwv",
		"36 center to center two 90s 3/4 copper",
		"piece between two 90s, 54 face to face, 2 pvc dwv depth 3/4",
		"set 6-3/4 45s takeoff 7/8 2 pvc, end reads 40 on the tape, ends 5-1/4 apart now, where do I cut the standing pipe",
		"fall 27 ft at 1/8",
		"fall 30 ft at 1/4, upper invert 40, 4 pvc dwv",
		"trim a 4 in elbow to 37 degrees",
		"takeoff 45 2 pvc dwv",
		"multiplier 60",
		"16-15/16 - 3",
		"dry fit is 8-5/8, should be 8-1/4, 45s, how much do I trim",
		"dry fit is 9-3/4, should be 10, 45s, cut was 12, 2 pvc",
	} {
		a, err := figure.Solve(parser.Likeliest(message), figure.Settings{})
		if err != nil {
			t.Fatalf("%q: %v", message, err)
		}
		for _, l := range []parser.Language{parser.English, parser.Spanish} {
			for _, metric := range []bool{false, true} {
				t.Run(fmt.Sprint(message, l, metric), func(t *testing.T) {
					tidy(t, r, a, wording.Options{Language: l, Metric: metric})
				})
			}
		}
	}
}

// Words that are wider than the page at the smallest drawing are made smaller; of
// these the narrowest stand, which need not be those that were tried last.
func TestWidestWords(t *testing.T) {
	a, err := figure.Solve(parser.Ask{
		Kind: parser.Fit, Pipe: catalog.Pipe{Material: catalog.PVC, Size: "2"},
		Measures: []parser.Measure{
			{Role: parser.Roll, Length: 56.5}, {Role: parser.Rise, Length: 3.4375}, {Role: parser.Room, Length: 8.3125},
		},
	}, figure.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	tidy(t, newRuler(), a, wording.Options{Language: parser.Spanish})
}

// tidy wants each view of a drawing within its page, and no word on another.
func tidy(t rapid.TB, r ruler, a *figure.Answer, o wording.Options) {
	d, err := Draw(a, o)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range d.Views {
		l := fitted(r, v, pageWide-2*margin)
		if l.bounds.wide() > pageWide-2*margin+1 {
			t.Errorf("%s is %.0f wide", v.Name, l.bounds.wide())
		}
		for i, one := range l.words {
			for _, other := range l.words[:i] {
				if one.meets(other) {
					t.Errorf("%s: words lie on each other at %v and %v: %v %v %v", v.Name, one, other, l.scale, l.letter, v.Labels)
				}
			}
			for _, s := range l.solid {
				if s.cost >= onDimension && s.meets(one) {
					t.Errorf("%s: words at %v lie on the line of a dimension", v.Name, one)
				}
			}
		}
	}
}

// An end is cut off along the line, past its corners; what is shorter than that
// doesn't turn around.
func TestShortened(t *testing.T) {
	corner := []spot{{0, 0}, {3, 0}, {3, 10}}
	if got, want := shortened(corner, 5, 1), []spot{{3, 2}, {3, 9}}; !slices.Equal(got, want) {
		t.Errorf("shortened to %v, want %v", got, want)
	}
	if got, want := shortened(corner, -2, -2), []spot{{-2, 0}, {3, 0}, {3, 12}}; !slices.Equal(got, want) {
		t.Errorf("made longer to %v, want %v", got, want)
	}
	if got := shortened([]spot{{0, 0}, {4, 0}}, 5, 5); got[0].x > got[1].x {
		t.Errorf("a short line turned around: %v", got)
	}
}

// A slanting line through a bend goes in and out of it once for each leg.
func TestSlanting(t *testing.T) {
	bend := outline([]spot{{0, 0}, {10, 10}, {20, 0}}, 1)
	if ends := slanting(bend, 5); len(ends) != 2 {
		t.Errorf("goes in and out at %v, want one leg", ends)
	}
	for _, p := range slanting(bend, 5) {
		if abs(p.x+p.y-5) > 1e-9 || abs(p.x-p.y) > 2.5 {
			t.Errorf("%v lies off the line or off the leg", p)
		}
	}
}

// A wide band takes up no room past its ends: the words beside one do not meet
// it, and those on its edge do.
func TestStrokeMeets(t *testing.T) {
	band := strokeOf(spot{0, 0}, spot{100, 0}, 50, 1)
	for _, c := range []struct {
		b    box
		want bool
	}{
		{box{120, -10, 160, 10}, false},
		{box{80, 40, 120, 60}, true},
		{box{40, 60, 60, 80}, false},
		{box{-20, -60, 200, 60}, true},
	} {
		if got := band.meets(c.b); got != c.want {
			t.Errorf("meets %v: %v, want %v", c.b, got, c.want)
		}
	}
	slant := strokeOf(spot{0, 0}, spot{100, 100}, 2, 1)
	if slant.meets(box{60, 0, 100, 40}) || !slant.meets(box{40, 40, 60, 60}) {
		t.Error("a slanting line takes up the corners beside it, or not what lies on it")
	}
}
