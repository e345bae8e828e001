package bot_test

import (
	"strings"
	"testing"
)

func TestTakeoffIsKeptAndTheJobAnsweredAgain(t *testing.T) {
	h := juniperStreet(t)
	h.say("laundry: 12 set 45s 2 pvc", "Cut about ")
	// 1-1/8 at each end: 16.9706 − 2.25 = 14.7206, firm now that it is measured.
	h.say("takeoff 1-1/8", "45", "2 PVC DWV", "1-1/8", "Cut 14-3/4 in light\n")
	h.say("jobs", "1. laundry: Cut 14-3/4 in light")
	if strings.Contains(h.as("dana", "jobs").Text, "2.") {
		t.Error("the same piece is on the list twice")
	}
	h.restart()
	h.say("same but 10", "Cut 11-7/8 in heavy\n")
	h.say("10 set 45s 2 pvc dwv", "Cut 11-7/8 in heavy\n")

	for _, other := range []string{"10 set 22s 2 pvc dwv", "10 set 45s 3 pvc dwv", "10 set 45s 2 abs"} {
		if got := first(h.as("dana", other).Text); !strings.HasPrefix(got, "Cut about") {
			t.Errorf("%q: %q, but only the 45 in 2 in PVC DWV was measured", other, got)
		}
	}
	if got := first(h.as("sam", "10 set 45s 2 pvc dwv").Text); !strings.HasPrefix(got, "Cut about") {
		t.Errorf("another's takeoff was used: %q", got)
	}
}

func TestTakeoffOfAJobWhosePipeIsAsked(t *testing.T) {
	h := juniperStreet(t)
	h.say("12 set 45s", "What pipe?")
	h.say("takeoff 1-1/8", "Cut 14-3/4 in light") // enough for this piece
	h.say("takeoffs", "None of your own yet")     // but of which fitting it is nobody said
}

func TestTakeoffFromTheFace(t *testing.T) {
	h := juniperStreet(t)
	h.say("12 set 45s 2 pvc")
	// Socket depth of 2 in PVC DWV: 3/4 (ASTM D2665).
	h.say("face 1-7/8", "1-1/8", "1-7/8 to the face, less 3/4", "D2665", "Cut 14-3/4 in light\n")
	h.say("face 2-1/4 depth 1", "1-1/4", "2-1/4 to the face, less 1 ", "as you said")
}

func TestTakeoffThatNoFittingHasIsQuestioned(t *testing.T) {
	h := juniperStreet(t)
	h.say("12 set 45s 2 pvc", "Cut about")
	if r := h.as("dana", "takeoff 9"); r.Understood || strings.Contains(r.Text, "Cut ") {
		t.Errorf("a takeoff of 9 in for a 2 in 45 was taken: %s", r.Text)
	}
	h.say("takeoffs", "None of your own yet")
	h.say("same but 12", "Cut about")
}

func TestTakeoffsAreListedAndForgotten(t *testing.T) {
	h := juniperStreet(t)
	h.say(measured)
	h.say("my 3 pvc 22s are 13/16 takeoff")
	h.say("takeoffs", "1. 45, 2 ABS DWV: 1-1/8", "3 Nov", "2. 22-1/2, 3 PVC DWV: 13/16", "3 Nov")
	h.say("forget takeoff 3", "no such takeoff")
	h.say("forget takeoff 2", "Forgotten: 22-1/2, 3 PVC DWV")
	h.say("takeoffs", "1. 45, 2 ABS DWV: 1-1/8")
	h.say("forget takeoff 3 abs 45", "no such takeoff")
	h.say("forget takeoff 2 abs 45", "Forgotten: 45, 2 ABS DWV")
	h.say("takeoffs", "None of your own yet")
	h.say("forget", "Forget what?")
}

func TestNewestTakeoffCounts(t *testing.T) {
	h := juniperStreet(t)
	h.say("my 2 abs 45s are 1-1/2 takeoff")
	h.say(measured)
	h.say("12 set 45s 2 abs", "Cut 14-3/4 in light\n")
}

func TestForgetMe(t *testing.T) {
	h := juniperStreet(t)
	h.say(measured)
	h.say("12 set 45s 2 abs", "Cut 14-3/4")
	h.say("metric on")
	h.say("forget me", "gone")
	h.say("jobs", "No jobs yet")
	h.say("takeoffs", "None of your own yet")
	h.say("explain", "nothing to explain")
	h.say("12 set 45s 2 abs", "Cut about", " in\n")
}

func TestTakeoffThatLacksThePipeAsksForIt(t *testing.T) {
	h := juniperStreet(t)
	h.say("my 45s are 1-1/8 takeoff", "What pipe?")
	h.restart()
	h.say("2 abs", "1-1/8")
	h.say("takeoffs", "1. 45, 2 ABS DWV: 1-1/8")
	h.say("12 set 45s 2 abs", "Cut 14-3/4 in light\n")
}

func TestTakeoffOfEndsThatDiffer(t *testing.T) {
	h := juniperStreet(t)
	h.say("12 set street 45 and 45 2 abs")
	h.say("takeoff 1-1/8", "The ends differ: street 45 and 45")
	h.say("takeoffs", "None of your own yet")
}

// TestTakeoffOfAFittingThatNoTableHas: whoever has it in hand knows better.
func TestTakeoffOfAFittingThatNoTableHas(t *testing.T) {
	h := juniperStreet(t)
	if r := h.as("dana", "12 set 22s 3/4 copper"); r.Understood {
		t.Fatalf("a table has it after all: %s", r.Text)
	}
	// 12 / sin 22.5° = 31.3575, less 1/2 at each end is 30.3575.
	h.say("takeoff 1/2", "Kept", "22-1/2", "Cut 30-3/8 in light\n")
	h.say("jobs", "1. Cut 30-3/8 in light")
}

// TestTakeoffNamedOutrightAnswersTheJobAgain: the last job uses it, so it is
// said again, under its number.
func TestTakeoffNamedOutrightAnswersTheJobAgain(t *testing.T) {
	h := juniperStreet(t)
	h.say("bath: 12 set 45s 2 abs", "Cut about")
	h.say("my 3 abs 45s are 2 takeoff", "Kept")
	h.say("jobs", "1. bath: Cut about")
	h.say(measured, "Kept", "Cut 14-3/4 in light\n")
	h.say("jobs", "1. bath: Cut 14-3/4 in light")
}
