package parser

import (
	"slices"
	"testing"

	"dogleg/geometry"
)

// TestNumbersKeepTheirPlace: what is said along the way, taken back or settled on takes
// no number away that has a word of its own, or that could be a length. Each of these
// was once read without one of its numbers.
func TestNumbersKeepTheirPlace(t *testing.T) {
	for _, c := range []struct {
		text  string
		role  Role // that must have this length
		value geometry.Length
	}{
		{"one is 40 from the wall. the other says 44. 45s 2 pvc", Set, 4},
		{"over 12, up say 11, with 45s 2 pvc", Roll, 12},
		{"set should be 12, dry fit says 12-1/4, 45s 2 pvc", DryFit, 12.25},
		{"I want 12. The dry fit says 12-3/8. 45s 2 pvc", DryFit, 12.375},
		{"wanted 12, wait, 12-1/4 is what i got, 45s 2 pvc", DryFit, 12.25},
		{"wanted 12 not the 12-1/4 i got dry fit 45s 2 pvc", DryFit, 12.25},
		{"the travel came out 17-1/4 dry, wanted 17, 45s 2 pvc", DryFit, 17.25},
		{"12 set 45s, 2 pvc. wait, 15 of room", Room, 15},
		{"set 12 and three 8ths 45s 2 pvc", Set, 12.375},
		{"three 8ths shy of 12 set 45s 2 pvc", Set, 11.625},
		{"set 10 on the 6th bend, 45s 2 pvc", Set, 10},
		{"ruin 12 22s 2 pvc", Run, 12},
		{"move the riser 10 45s 2 pvc", Set, 10},
		{"set 12 min 45s 2 pvc", Set, 12},
		{"12:45 2 pvc", Set, 12},
		{"14 times 1.414, 45s 2 pvc", Set, 14},
		{"set 1 m 20 45s 2 pvc", Set, 120 * geometry.Centimeter},
	} {
		a := Parse(c.text)[0].Ask
		if a == nil || !slices.ContainsFunc(a.All(c.role), func(m Measure) bool { return max(m.Length-c.value, c.value-m.Length) < geometry.Hair }) {
			t.Errorf("%q: %+v, want %s %v", c.text, a, c.role, c.value)
		}
	}
}

// TestNumbersAreAskedAbout: a number that nothing can be made of is asked about and
// not passed over.
func TestNumbersAreAskedAbout(t *testing.T) {
	for _, text := range []string{
		"rolling offset ten three 45s 2 pvc", "twelve set and three, 45s 2 pvc", "from floor 12 and 30, 45s 2 pvc",
		"12 set 45s 2 pvc wait, 20 is the run", "my set's 12, he says 12-1/2",
	} {
		for _, s := range Parse(text) {
			if s.Ask != nil && len(s.Ask.Measures) < 2 {
				t.Errorf("%q: %+v", text, s.Ask)
			}
		}
	}
}
