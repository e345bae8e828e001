package sketch

import (
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
		parser.Sum, parser.Multiplier, parser.Takeoff, parser.Check:
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
		o := wording.Options{
			Metric:   rapid.Bool().Draw(t, "metric"),
			Language: rapid.SampledFrom([]parser.Language{parser.English, parser.Spanish}).Draw(t, "language"),
		}
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
						t.Errorf("%s: words lie on each other at %v and %v", v.Name, one, other)
					}
				}
			}
		}
	})
}
