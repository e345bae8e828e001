package wording_test

import (
	"strings"
	"testing"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// Levels are told as they were said: in meters to the millimeter, in feet to the
// hundredth. 18 m at 1 in 60 fall 0.300 m; 41.5 ft at 1/4 in per foot fall 10.375
// in, 0.8646 ft: 102.35 - 0.86 = 101.49.
func TestLevelsAsTheyWereSaid(t *testing.T) {
	for text, want := range map[string][]string{
		"upper invert 12.450 m, length 18 m, fall 1:60":             {"Lower invert 12.150 m", "Upper invert 12.450 m, length 18 m, 1 in 60", "Fall 300 mm"},
		"upper invert 102.35 ft, length 41.5 ft, fall 1/4 per foot": {"Lower invert 101.49 ft", "Upper invert 102.35 ft, length 498"},
		"fall 6 m at 1 in 40":    {"Fall 150 mm", "Length 6 m, 1 in 40", "Grade 1 in 40, 2.5%"},
		"fall over 12 m at 1.5%": {"Fall 180 mm", "Length 12 m, 1.5%"},
	} {
		a, err := figure.Solve(parser.Likeliest(text), figure.Settings{})
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		reply := wording.Whole(a, wording.Options{})
		for _, line := range want {
			if !strings.Contains(reply, line) {
				t.Errorf("%q is answered with\n%s\nwithout %q", text, reply, line)
			}
		}
	}
}

// The least grade of a code that no table was seen of says so.
func TestRecalledMinimum(t *testing.T) {
	a, err := figure.Solve(parser.Likeliest("fall over 12 m at 1 in 80 110 mm pvc"), figure.Settings{Code: figure.ASNZS})
	if err != nil {
		t.Fatal(err)
	}
	if reply := wording.Whole(a, wording.Options{}); !strings.Contains(reply, "Under 1 in 60, the least by AS/NZS 3500.2 as I recall it; check with the inspector.") {
		t.Error(reply)
	}
}
