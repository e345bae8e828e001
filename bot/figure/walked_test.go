package figure

import (
	"errors"
	"testing"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// soundOffset is a rolling offset figured by hand: roll 6, rise 8, set 10 by
// 30s, so travel 20 and run 10·√3; takeoffs 1 and 2, a gap of 1/8.
func soundOffset() solved {
	end := func(takeoff geometry.Length) End { return End{Takeoff: catalog.Takeoff{Length: takeoff}} }
	return solved{
		Offset:  geometry.Offset{Set: 10, Run: 17.320508075688775, Travel: 20, Angle: 30},
		from:    parser.Set,
		rolling: geometry.Rolling{Roll: 6, Rise: 8},
		pieced:  true,
		joint:   joint{ends: [2]End{end(1), end(2)}, gap: catalog.Allowance{Length: 0.125}},
		cut:     16.75,
		endGap:  20.570508075688775,
	}
}

// The walk is the last gate before an answer leaves: whatever formula may be
// wrong, the pieces then don't land.
func TestWrongFormulasAreCaught(t *testing.T) {
	w := newWork(parser.Ask{}, Settings{})
	if err := w.walked(soundOffset()); err != nil {
		t.Fatalf("a sound offset: %v", err)
	}
	wrong := map[string]func(*solved){
		"only one takeoff comes off":        func(o *solved) { o.cut = o.Travel - 1 },
		"gaps forgotten in the cut":         func(o *solved) { o.cut += 0.25 },
		"gaps forgotten in the end gap":     func(o *solved) { o.endGap -= 0.25 },
		"takeoff twice":                     func(o *solved) { o.cut -= 1 },
		"travel by the 1.41 of a handbook":  func(o *solved) { o.cut -= 20 * 0.003 },
		"roll and rise added up":            func(o *solved) { o.rolling = geometry.Rolling{Roll: 14} },
		"roll and rise swapped in the walk": func(o *solved) { o.rolling = geometry.Rolling{Roll: 8, Rise: 6.01} },
		"cosine for sine":                   func(o *solved) { o.Angle = 60 },
		"two thousandths too long":          func(o *solved) { o.cut += 0.002 },
	}
	for name, spoil := range wrong {
		o := soundOffset()
		spoil(&o)
		var i *Impossible
		if err := w.walked(o); !errors.As(err, &i) || i.Cause != NotLanding {
			t.Errorf("%s: %v, want it not to land", name, err)
		}
	}
}

// A bank whose lines don't keep their distance is caught too.
func TestWrongStaggerIsCaught(t *testing.T) {
	// 45s, 10 apart: the stagger is 10 · tan 22-1/2° = 4.142135623730951.
	for stagger, sound := range map[geometry.Length]bool{4.142135623730951: true, 4.5: false, -4.142135623730951: false, 0: false} {
		w := newWork(parser.Ask{}, Settings{})
		w.answer.Lines = []Line{{Number: 1}, {Number: 2, Start: stagger, Spacing: 10}}
		o := solved{Offset: geometry.Offset{Set: 20, Run: 20, Travel: 28.284271247461902, Angle: 45}}
		if err := w.walkedLines(o); (err == nil) != sound {
			t.Errorf("stagger %v: %v", stagger, err)
		}
	}
}
