package bot_test

import (
	"regexp"
	"testing"
)

// metricAsks are one of each kind that is told in millimeters, with takeoffs that
// were measured, so that every one is figured.
var metricAsks = []string{
	"set 300 mm 45s 22 mm copper takeoff 15 mm",
	"set 300 mm 45s 110 mm pvc takeoff 44 mm",
	"roll 200 mm rise 150 mm 45s 50 mm pvc takeoff 30 mm",
	"600 mm center to center 90s 22 mm copper takeoff 15 mm",
	"set 300 mm 45s 22 mm copper takeoff 15 mm, ends are 250 mm apart now",
	"3 lines 200 mm apart set 400 mm 45s 22 mm copper takeoff 15 mm",
	"around a beam, reach 150 mm, clearance 25 mm, 45s, 22 mm copper takeoff 15 mm",
	"fall 6 m at 1 in 40 110 mm pvc",
	"dry fit is 260 mm, should be 250 mm, 45s",
	"set 300 mm in 900 mm of room 22 mm copper takeoff 15 mm",
}

// inInches is a length as only an inch tape says it: a fraction, an inch mark, "in"
// that is no gradient's; or a figure with the decimals that come of 25.4.
var inInches = regexp.MustCompile(`\d/(?:2|4|8|16|32)\b|\d"(?:[^.]|$)|\d(?: heavy| light)? in\b(?: heavy| light)?(?:[^ \d]| [^\d]|$)|\d pulg`)

// All that follows an ask in millimeters is told in them, whatever the person has
// set, in words and buttons.
func TestWhatFollowsIsInMillimeters(t *testing.T) {
	for _, ask := range metricAsks {
		h := juniperStreet(t)
		for _, text := range []string{
			ask, "why", "explain", "more", "rule 3", "rule 5", "draw", "add kitchen", "list", "sticks 3 m", "material", "done",
			"jobs", "job 1", "share", "how long do i cut it", "undo", "undo", "undo",
		} {
			r := h.as("dana", text)
			if found := inInches.FindString(r.Text); found != "" {
				t.Errorf("%q, then %q: %q in\n%s", ask, text, found, r.Text)
			}
			for _, row := range r.Buttons {
				for _, b := range row {
					if found := inInches.FindString(b.Label + b.Share); found != "" {
						t.Errorf("%q, then %q: the button %+v", ask, text, b)
					}
				}
			}
		}
	}
}
