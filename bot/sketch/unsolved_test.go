package sketch_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"dogleg/bot/figure"
	"dogleg/bot/sketch"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// No number stands on the sketch of a problem that isn't in its words, and what is
// wanted stands there with a question mark.
func TestUnsolved(t *testing.T) {
	number := regexp.MustCompile(`\d+(?:[-./]\d+)*`)
	for posed, wanted := range map[string]string{
		"set 10-3/8, 45s, takeoff 1-7/16, 2 PVC DWV":                    "cut ?",
		"roll 7-1/2, rise 4-1/4, 45s, takeoff 1-1/16, 3 PVC DWV":        "cut ?",
		"dry fit 10-3/8, set 9, 60s":                                    "trim ?",
		"mark: set 12, ends now 9 apart, 45s, takeoff 1-1/8, 2 PVC DWV": "",
		"fall over 22 ft at 1/4 per foot, 3 PVC DWV":                    "fall ?",
		"set 14, wye and 45, takeoffs 3-1/4 and 1-3/4, 3 PVC DWV":       "cut ?",
	} {
		a, err := figure.Solve(parser.Likeliest(posed), figure.Settings{})
		if err != nil {
			t.Fatal(posed, err)
		}
		d, err := sketch.Unsolved(a, posed, wording.Options{})
		if err != nil {
			t.Fatal(posed, err)
		}
		var texts []string
		for _, v := range d.Views {
			texts = append(append(texts, v.Over), v.Caption...)
			for _, l := range v.Labels {
				texts = append(texts, l.Text)
			}
			for _, l := range v.Dimensions {
				texts = append(texts, l.Label)
			}
			for _, l := range v.Arcs {
				texts = append(texts, l.Label)
			}
		}
		for _, text := range texts {
			for _, n := range number.FindAllString(text, -1) {
				if !slices.Contains(number.FindAllString(posed, -1), n) {
					t.Errorf("%s: the sketch says %q", posed, text)
				}
			}
		}
		if all := strings.Join(texts, "\n"); !strings.Contains(all, wanted) {
			t.Errorf("%s: no %q on the sketch: %q", posed, wanted, all)
		}
	}
}
