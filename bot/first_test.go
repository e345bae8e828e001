package bot_test

import (
	"slices"
	"strings"
	"testing"

	"dogleg/bot"
)

// The examples of the first contact, and all that help shows up to the changes of an
// answer, are answered as they stand, in both languages and on both tapes; those for
// a metric tape in millimeters.
func TestExamplesAreAnsweredOnBothTapes(t *testing.T) {
	for _, before := range []string{"english", "spanish", "metric on", "métrico"} {
		h := juniperStreet(t)
		h.say(before)
		if before == "métrico" {
			h.say("spanish")
		}
		var asks []string
		for _, row := range h.say("help").Buttons[:3] {
			asks = append(asks, row[0].Says)
		}
		whole, _, _ := strings.Cut(h.say("more").Text, "\n\n")
		for line := range strings.Lines(whole) {
			_, ask, ok := strings.Cut(strings.TrimSpace(line), ": ")
			if !ok {
				t.Errorf("%s: help has %q", before, line)
			}
			asks = append(asks, ask)
		}
		if len(asks) < 12 {
			t.Errorf("%s: only %d examples", before, len(asks))
		}
		for _, ask := range asks {
			h := juniperStreet(t)
			h.say(before)
			r := h.as("dana", ask)
			if !r.Understood {
				t.Errorf("%s: %q is answered with\n%s", before, ask, r.Text)
			}
			if found := inInches.FindString(first(r.Text)); found != "" && strings.HasPrefix(before, "m") {
				t.Errorf("%s: %q: %q in\n%s", before, ask, found, r.Text)
			}
		}
	}
}

// While it waits whether something is meant that can't be taken back, undo is a no.
func TestUndoIsNoToWhatWaits(t *testing.T) {
	h := juniperStreet(t)
	h.say("12 set 45s 2 pvc dwv takeoff 1-1/8")
	h.say("add laundry", "1. ")
	h.say("clear list", "Say yes, or no.")
	h.say("undo", "The list stays.")
	h.say("list", "1 open", "laundry")
	h.say("forget me", "Send yes")
	h.say("undo", "Nothing was deleted.")
	h.say("list", "1 open", "laundry")
	h.say("undo", "Dropped", "laundry") // of the list, and no longer a no
}

// The code that is named answers the drain anew that it was asked under, and is taken
// back like any setting. 6 m at 1 in 40 is 150 mm.
func TestCodeAnswersTheDrain(t *testing.T) {
	h := juniperStreet(t)
	h.say("fall 6 m at 1 in 40 110 mm pvc", "Fall 150 mm", "Least fall by which code?")
	h.say("code BS EN 12056", "Drains by BS EN 12056", "Fall 150 mm", "BS EN 12056-2")
	h.say("jobs", "1. Fall 150 mm")
	if r := h.as("dana", "jobs"); strings.Contains(r.Text, "2. ") {
		t.Errorf("another job: %s", r.Text)
	}
	h.say("settings", "Drains by BS EN 12056: code none")
	h.say("undo", "No code")
	h.say("settings", "No code for drains: code BS EN 12056")
}

// What a pipe may be instead can be tapped, and changes what was asked: 300 × √2 =
// 424.26; the metric pressure elbows take off 2 × 11.
func TestOtherSystemsCanBeTapped(t *testing.T) {
	h := juniperStreet(t)
	r := h.say("set 300 mm 45s 50 mm pvc", "50 mm PVC soil pipe")
	for _, name := range []string{"solvent-weld PVC soil pipe", "metric PVC"} {
		if !hasButton(r, name) {
			t.Fatalf("no button %q among %+v", name, r.Buttons)
		}
	}
	h.say("solvent-weld PVC soil pipe", "Travel 424 mm", "50 mm solvent-weld PVC soil pipe")
	h.say("metric PVC", "Cut about 4", "50 mm metric PVC")
}

// Every button under an answer leads to an answer.
func TestButtonsLeadSomewhere(t *testing.T) {
	asks := slices.Concat(metricAsks, []string{
		"12 set 45s 2 pvc", "roll 8 rise 14 45s 3 abs", "fall 27 ft at 1/8 3 pvc", "26 center to center 90s 2 abs",
		"set 14 in 30 of room, 2 pvc", "12 set 45s 2 pvc, ends 9 apart", "reach 6, clear 1, 45s 2 pvc",
		"3 lines 8 apart, set 15 45s", "trim a 4 in weld 90 to 37", "12 set 45s", "12", "3 set 45s 4 pvc dwv",
		"set 300 mm 45s 110 mm pvc", "set 300 45s 110 mm pvc", "set 12 45s 3/4 copper", "set 12 45s 4 cast iron",
		"hola", "?", "settings", "desvío 12 codos de 45 2 pvc", "set 300 mm 45s 50 mm pvc", "set 300 mm 45s 160 mm pvc",
	})
	for _, ask := range asks {
		r := juniperStreet(t).as("dana", ask)
		for _, row := range r.Buttons {
			for _, b := range row {
				if b.Says == "" {
					continue
				}
				h := juniperStreet(t)
				h.as("dana", ask)
				tapped := h.as("dana", b.Says)
				if !tapped.Understood && !asksBack(tapped) {
					t.Errorf("%q: the button %+v leads to\n%s", ask, b, tapped.Text)
				}
			}
		}
	}
}

// asksBack says whether a reply puts a question and offers answers to it.
func asksBack(r bot.Reply) bool { return strings.Contains(r.Text, "?") && len(r.Buttons) > 0 }

// Of a pipe that there is not, the materials are named that there are, no longer than
// an answer; each can be tapped. 22-1/2 × √2 = 31.82, less two of 2-3/16 is 27.44.
func TestNoSuchPipeNamesTheMaterials(t *testing.T) {
	h := juniperStreet(t)
	r := h.as("dana", "4 sch 10 45s ofset 22 1/2")
	wants(t, "sch 10", r.Text, "I carry no schedule 10; I carry PVC, ABS")
	if rows := len(strings.Split(r.Text, "\n")); rows > 3 || !hasButton(r, "ABS") {
		t.Errorf("%d rows, %+v", rows, r.Buttons)
	}
	h.say("copper", "Set 22-1/2", "4 copper")
	h = juniperStreet(t)
	h.as("dana", "4 sch 10 45s ofset 22 1/2")
	h.say("ABS", "Cut about 27-", "4 ABS DWV")
}
