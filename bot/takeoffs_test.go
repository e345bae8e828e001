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
		if got := first(h.as("dana", other).Text); !strings.HasPrefix(got, "Cut about") && !strings.HasPrefix(got, "Travel") {
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
	// A 45 of 2.375 outside: half that by tan 22-1/2 less an eighth is 0.367, but
	// half the socket of 3/4 is 0.375; three times it, an inch and two depths are
	// 5.451.
	r := h.say("takeoff 9", "A takeoff of 9 for a 45 in 2 PVC DWV? By its geometry it takes 3/8 to 5-7/16", "send it once more")
	if r.Understood || strings.Contains(r.Text, "Cut ") {
		t.Errorf("a takeoff of 9 in for a 2 in 45 was taken: %s", r.Text)
	}
	h.say("takeoffs", "None of your own yet")
	h.say("same but 12", "Cut about")
}

func TestDoubtedTakeoffIsKeptWhenSaidAgain(t *testing.T) {
	h := juniperStreet(t)
	h.say("takeoff 2 pvc 45 is 6", "A takeoff of 6")
	h.say("takeoff 2 pvc 45 is 7", "A takeoff of 7") // another one is no confirmation
	h.say("takeoff 3 pvc 45 is 9", "A takeoff of 9")
	h.say("takeoff 2 pvc 45 is 9", "A takeoff of 9") // nor is another fitting
	h.say("takeoff 3 pvc 45 is 9", "A takeoff of 9")
	h.say("takeoffs", "None of your own yet")
	h.restart()
	h.say("takeoff 3 pvc 45 is 9", "Kept as yours: 45, 3 PVC DWV, takeoff 9")
	h.say("takeoff 3 pvc 45 is 9-1/2", "A takeoff of 9-1/2") // each is questioned for itself
	h.say("takeoffs", "1. 45, 3 PVC DWV: 9,")
}

func TestFaceInsideTheSocketIsQuestioned(t *testing.T) {
	h := juniperStreet(t)
	for range 2 { // no fitting is like that, however often it is said
		h.say("2 pvc 45 face 1/2", "A face of 1/2 lies inside the 3/4 that the pipe goes in")
	}
	h.say("takeoffs", "None of your own yet")
}

// TestFaceWithoutAKnownDepth: that of 1-1/2 in PVC DWV is only recalled.
func TestFaceWithoutAKnownDepthAsksForIt(t *testing.T) {
	h := juniperStreet(t)
	h.say("1-1/2 pvc dwv 45 face 1-7/8", "How deep does the pipe go in?")
	h.say("3/4", "Kept as yours: 45, 1-1/2 PVC DWV, takeoff 1-1/8", "less 3/4 that the pipe goes in (as you said)")
	h.say("9 set 45s 1-1/2 abs face 1-7/8", "Cut about", "depth from memory")
}

func TestTwoTakeoffsInOneMessage(t *testing.T) {
	h := juniperStreet(t)
	h.say("12 set street 45 and 45 2 abs")
	// 16.9706 − 1.125 − 1.5 = 14.3456: 14-3/8 light.
	h.say("takeoff 1-1/2 and 1-1/8", "Kept as yours: street 45, 2 ABS DWV, takeoff 1-1/2",
		"Kept as yours: 45, 2 ABS DWV, takeoff 1-1/8", "Cut 14-3/8 in light\n")
	h.say("takeoffs", "1. 45, 2 ABS DWV: 1-1/8", "2. street 45, 2 ABS DWV: 1-1/2")
}

// TestTwoTakeoffsOfOneFitting: which of them is the fitting's own, nobody said.
func TestTwoTakeoffsOfOneFitting(t *testing.T) {
	h := juniperStreet(t)
	h.say("12 set 45s 2 abs")
	// For this piece alone: 16.9706 − 1.125 − 1.25 = 14.5956: 14-5/8 light.
	h.say("takeoff 1-1/8 and 1-1/4", "Cut 14-5/8 in light\n", "takeoff 1-1/8, takeoff 1-1/4")
	h.say("my 2 abs 45s are takeoff 1-1/8 and takeoff 1-1/4", "Two takeoffs for one fitting, the 45: 1-1/8 and 1-1/4")
	h.say("takeoffs", "None of your own yet")
}

func TestTakeoffIsCorrected(t *testing.T) {
	h := juniperStreet(t)
	h.say(measured)
	h.now = h.now.AddDate(1, 0, 0)
	h.say("my 2 abs 45s are 1-1/4 takeoff", "Kept as yours", "In place of 1-1/8, 3 Nov 2026.")
	h.say("takeoffs", "1. 45, 2 ABS DWV: 1-1/4, center to stop, 3 Nov\n")
}

// TestTakeoffOfAnotherPipe: it was taken as DWV, which was not said.
func TestTakeoffIsMovedToThePipeThatWasMeant(t *testing.T) {
	h := juniperStreet(t)
	h.say("takeoff 2 pvc 45 is 1-1/8", "2 PVC DWV", "Is it schedule 40 or 80? Say so.")
	h.say("it's schedule 40", "Kept as yours: 45, 2 PVC schedule 40, takeoff 1-1/8")
	h.say("takeoffs", "1. 45, 2 PVC schedule 40: 1-1/8")
	if strings.Contains(h.as("dana", "takeoffs").Text, "DWV") {
		t.Error("it stayed under the other pipe as well")
	}
	h.say("12 set 45s 2 pvc", "Cut 14-3/4 in light\n", "2 PVC schedule 40")

	h.say("takeoff 1-1/4", "Cut 14-1/2 in light\n")
	h.say("dwv", "Kept as yours: 45, 2 PVC DWV, takeoff 1-1/4", "Cut 14-1/2 in light\n", "2 PVC DWV")
	h.say("takeoffs", "2 PVC DWV: 1-1/4")
	h.say("threaded", "threaded") // there is no such thing: it stays where it was
	h.say("takeoffs", "2 PVC DWV: 1-1/4")
}

// TestAnotherMaterialIsAnotherPipe: the job is changed, and not the takeoff.
func TestAnotherMaterialIsAnotherPipe(t *testing.T) {
	h := juniperStreet(t)
	h.say("12 set 45s 2 pvc dwv")
	h.say("takeoff 1-1/8", "Cut 14-3/4 in light\n")
	h.say("in abs", "Cut about", "2 ABS DWV")
	h.say("takeoffs", "1. 45, 2 PVC DWV: 1-1/8")
}

// TestMeasuredPipeIsTaken: what was measured settles which pipe it is, unless
// two were.
func TestMeasuredPipeIsTaken(t *testing.T) {
	h := juniperStreet(t)
	h.say("takeoff 2 pvc schedule 40 45 is 1-1/8", "2 PVC schedule 40")
	got := h.say("12 set 45s 2 pvc", "Cut 14-3/4 in light\n", "2 PVC schedule 40").Text
	if strings.Contains(got, "about") || strings.Contains(got, "Taken as") {
		t.Errorf("unsure of a fitting that was measured: %s", got)
	}
	h.say("takeoff 2 pvc dwv 45 is 1-1/4", "2 PVC DWV")
	h.say("12 set 45s 2 pvc", "Cut about 14-1/2 in\n", "If schedule 40: about 14-3/4")
}

func TestLinesOfFittings(t *testing.T) {
	h := juniperStreet(t)
	h.say("my 2 abs 45s are 1-1/8 takeoff the grey ones", "Kept as yours", "(the grey ones)")
	h.say("my 2 abs 45s are 1-1/4 takeoff", "Kept as yours")
	h.say("12 set 45s 2 abs", "Cut 14-1/2 in light\n")
	h.say("12 set 45s 2 abs the grey ones", "Cut 14-3/4 in light\n", "yours, 3 Nov (the grey ones)")
	h.say("12 set 45s 2 abs the white ones", "Cut about", "None measured of the white ones.")
}

func TestTakeoffsAsATable(t *testing.T) {
	h := juniperStreet(t)
	h.say("export takeoffs", "None of your own yet")
	h.say("my 2 abs 45s are 1-1/8 takeoff the grey ones")
	h.say("export takeoffs", "system,fitting,size,line,inches,how,when\nabs-dwv,45,2,the grey ones,1-1/8,center to stop,2026-11-03T")
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
	h.say("forget me", "goes", "yes")
	h.say("jobs", "Cut 14-3/4") // no yes
	h.say("yes")
	h.say("takeoffs", "45, 2 ABS DWV")
	h.say("forget everything", "goes", "yes")
	h.say("Yes.", "gone")
	h.say("jobs", "No jobs yet")
	h.say("takeoffs", "None of your own yet")
	h.say("explain", "nothing to explain")
	h.say("12 set 45s 2 abs", "Cut about", " in, ")
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

// A takeoff that comes back just as the table has it may not have been measured
// at all, and a face is none: both are asked about, and kept when sent again.
func TestWhatTheTableHasIsAskedAbout(t *testing.T) {
	h := juniperStreet(t)
	h.say("12 set 45s 2 pvc dwv", "Cut about")
	h.say("takeoff 1-1/2", "1-1/2 is what my table has for a 45 in 2 PVC DWV. Measured on the fitting?")
	h.say("takeoffs", "None of your own yet")
	h.say("takeoff 2-1/4", "2-1/4 is the face in my table for a 45 in 2 PVC DWV")
	h.say("takeoff 3/4", "3/4 is how far the pipe goes into a 45 in 2 PVC DWV")
	h.say("takeoffs", "None of your own yet")
	h.say("takeoff 1-1/2", "Measured on the fitting?")
	h.say("takeoff 1-1/2", "Kept as yours", "Cut 14 in light\n")
}

// A takeoff that is said for one way around an obstacle is not kept in place of
// what was measured. 12 × √2 less two of 1-1/8 is 14.72.
func TestATakeoffForOnePieceIsNotKept(t *testing.T) {
	h := juniperStreet(t)
	h.say("takeoff 2 pvc dwv 45 is 1-1/8", "Kept as yours")
	h.say("around a beam, reach 7-3/4, clearance 1-1/2, 45s, 2 pvc dwv, takeoff 29/32", "First bend center", "takeoff 29/32")
	h.say("dodge a footing that's 6-1/2 past center, keep 2 off it, 45s 4 pvc dwv takeoff 2", "First bend center")
	h.say("set 12 45s 2 pvc dwv", "Cut 14-3/4 in light", "Takeoff 1-1/8, yours")
}
