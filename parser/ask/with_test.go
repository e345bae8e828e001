package ask_test

import (
	"testing"

	"dogleg/parser/ask"
)

// A set to which the other part of the step is added is the one part of it: 12 over,
// and it climbs 4 too.
func TestSetGetsARise(t *testing.T) {
	over := ask.Ask{Kind: ask.Offset, Measures: []ask.Measure{{Role: ask.Set, Length: 12}}}
	for _, c := range []struct {
		added      ask.Role
		roll, rise float64
	}{{ask.Rise, 12, 4}, {ask.Roll, 4, 12}} {
		got := over.With(ask.Ask{FollowUp: true, Measures: []ask.Measure{{Role: c.added, Length: 4}}})
		roll, _ := got.Length(ask.Roll)
		rise, _ := got.Length(ask.Rise)
		if len(got.Measures) != 2 || roll.Inches() != c.roll || rise.Inches() != c.rise {
			t.Errorf("with a %s of 4: %+v", c.added, got.Measures)
		}
	}
	both := over.With(ask.Ask{FollowUp: true, Measures: []ask.Measure{{Role: ask.Roll, Length: 9}, {Role: ask.Rise, Length: 4}}})
	if roll, _ := both.Length(ask.Roll); len(both.Measures) != 2 || roll != 9 {
		t.Errorf("with both parts: %+v", both.Measures)
	}
}
