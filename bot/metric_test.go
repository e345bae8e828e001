package bot_test

import (
	"slices"
	"strings"
	"testing"

	"dogleg/bot"
)

// What a bare number is in is asked once. 58 × √2 = 82.02, 300 × √2 = 424.26 mm; two
// takeoffs of 12 go off.
func TestUnitIsAskedOnce(t *testing.T) {
	h := juniperStreet(t)
	r := h.as("dana", "set 58 45s 22 mm copper takeoff 12")
	if !strings.Contains(r.Text, "58 mm or 58 in?") || r.Understood {
		t.Fatalf("asked back with %q", r.Text)
	}
	var says []string
	for _, row := range r.Buttons {
		for _, b := range row {
			says = append(says, b.Says)
		}
	}
	if !slices.Equal(says, []string{"58 mm", "58 in"}) {
		t.Errorf("buttons %v", says)
	}
	h.restart()
	h.say("58 mm", "Cut 58 mm", "Set 58 mm", "millimeters from now on")   // 82.02 − 24
	h.say("same but 300", "Cut 400 mm", "Set 300 mm")                     // 424.26 − 24
	h.say("set 150 45s 2 pvc dwv takeoff 30", "Cut 152 mm", "Set 150 mm") // 212.13 − 60
	h.say("set 12 45s 2 pvc dwv", "12 mm or 12 in?")                      // less than the pipe is wide
	h.say("in", "Set 12")
	h.say("set 150 45s 2 pvc dwv takeoff 30", "Set 150 mm") // which they set before
}

// Of who said inches, only what can't be inches beside metric pipe is doubted.
func TestUnitOfInches(t *testing.T) {
	h := juniperStreet(t)
	h.say("set 80 45s 2 pvc dwv", "80 mm or 80 in?")
	h.say("inches", "Set 80", "inches from now on")
	h.say("set 90 45s 2 pvc dwv", "Set 90")
	h.say("set 30 45s 22 mm copper takeoff 1/2", "Set 30,")
	h.say("set 250 45s 22 mm copper", "250 mm or 250 in?")
}

// What stands beside a bare number says its unit, and so does what it changes.
func TestUnitBeside(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"set 300 mm 45s 22 mm copper takeoff 15", "Cut 394 mm"}, // 424.26 − 30
		{"roll 200 mm rise 150 45s 22 mm copper", "rise 150 mm"},
		{"set 0.3 m 45s 22 mm copper takeoff 15 mm", "Cut 394 mm"},            // the same
		{"set 250 45s 50 mm pvc takeoff 24", "Set 250 mm"},                    // nobody's inches beside metric pipe
		{"set 12-1/2 45s takeoff 2, 2 pvc dwv", "Cut 13-11/16 in"},            // 17.6777 − 4
		{"set 12 in 45s 110 mm pvc pressure takeoff 1 in", "Cut 15 in light"}, // 16.9706 − 2: inches, whatever the pipe
		{"fall 120 mm over 6 m", "Grade 1 in 50, 2%"},
		{"fall over 6 at 1 in 40", "6 m or 6 ft?"},
	} {
		if r := answers(c.text); len(r) != 1 || !strings.Contains(r[0].Reply, c.want) {
			t.Errorf("%q: %+v, want %q", c.text, r, c.want)
		}
	}
}

// An answer can be heard in the other unit, and nothing changes by that. 394.26 mm
// are 15.522 in.
func TestInAnotherUnit(t *testing.T) {
	h := juniperStreet(t)
	h.say("set 300 mm 45s 22 mm copper takeoff 15 mm", "Cut 394 mm")
	h.say("in inches?", "Cut 15-1/2 in heavy")
	h.say("same but 310 mm", "Cut 408 mm") // 438.41 − 30
	h.say("set 12 45s 2 pvc dwv takeoff 1-1/2", "Cut 14 in")
	h.say("in mm", "Cut 355 mm") // 13.9706 in
}

// Bends that are sold by the angle left between the pipes turn the rest.
func TestAngleBetweenThePipes(t *testing.T) {
	h := juniperStreet(t)
	h.say("set 300 mm 135s 22 mm copper takeoff 15 mm", "Cut 394 mm", `Took "135" as 45°`)
	// 300 ÷ sin 87.5° = 300.29, less 120 and two seals of 10.
	h.say("set 300 mm 92.5s 110 mm pvc takeoff 60 mm", "Cut about 160 mm", `Took "92.5" as 87.5°`)
	if r := h.as("dana", "set 300 mm 100s 22 mm copper takeoff 15 mm"); r.Understood {
		t.Errorf("100s: %s", r.Text)
	}
}

// The code is asked once, under the first drain that has a grade, and none is cited
// before it is named.
func TestCodeIsAskedOnce(t *testing.T) {
	h := juniperStreet(t)
	r := h.say("fall over 12 m at 1 in 80 110 mm pvc", "Fall 150 mm", "Least fall by which code?")
	if strings.Contains(r.Text, "IPC Table") || !hasButton(r, "code AS/NZS 3500") || !hasButton(r, "code none") {
		t.Errorf("%s %v", r.Text, r.Buttons)
	}
	if r := h.as("dana", "fall over 10 m at 1 in 80 110 mm pvc"); strings.Contains(r.Text, "code") || strings.Contains(r.Text, "least") {
		t.Errorf("asked twice: %s", r.Text)
	}
	h.say("AS/NZS 3500", "Drains by AS/NZS 3500")
	h.restart()
	h.say("fall over 12 m at 1 in 80 110 mm pvc", "Under the least by AS/NZS 3500.2, as I recall it")
	h.say("code IPC", "Drains by IPC")
	h.say("fall over 22 ft at 1/4 3 pvc dwv", "Enough by IPC Table 704.1")
	h.say("code none", "No code")
	if r := h.as("dana", "fall over 22 ft at 1/4 3 pvc dwv"); strings.Contains(r.Text, "nough") {
		t.Errorf("after none: %s", r.Text)
	}
}

func hasButton(r bot.Reply, says string) bool {
	for _, row := range r.Buttons {
		if slices.ContainsFunc(row, func(b bot.Button) bool { return b.Says == says }) {
			return true
		}
	}
	return false
}

// The cut list, the sticks and the problems of who asks in millimeters are in them.
func TestListAndPracticeInMillimeters(t *testing.T) {
	h := juniperStreet(t)
	h.say("set 300 mm 45s 22 mm copper takeoff 15 mm", "Cut 394 mm")
	h.say("add job 1", "394 mm")
	h.say("list", "394 mm")
	h.say("sticks 5.8 m tube cutter", "1 stick of 5.8 m", "394 mm; rest 5405 mm") // 5800 − 394.26
	// A wheel takes nothing: 3000 − 394.26 = 2605.74; what is said of another saw is
	// said in millimeters.
	h.say("sticks 3 m", "1 stick of 3 m", "rest 2605 mm", "No kerf: tube cutter")
	h.say("sticks 3 m chop saw", "Kerf 2.8 mm a cut", "sticks 3 m hacksaw") // 0.109 in
	h.say("practice travel", " mm", "How long is the travel?")              // of who asked in them last
	h.say("stop")
	h.say("metric on", "Millimeters")
	r := h.say("practice travel", " mm", "How long is the travel?")
	if set, _, _ := strings.Cut(r.Text, ","); strings.Contains(set, "/") {
		t.Errorf("a problem in millimeters: %s", r.Text)
	}
}
