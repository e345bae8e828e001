package bot_test

import (
	"strings"
	"testing"

	"dogleg/bot"
)

// undo takes back the last thing that changed something, one after the other, and
// says what: not the job, where it was a takeoff that was kept.
func TestUndoTakesBackTheLastThingDone(t *testing.T) {
	h := juniperStreet(t)
	h.say("12 set 45s 2 pvc dwv", "Cut about 14-1/4 in")
	h.say("takeoff 1-3/8", "Kept as yours: 45, 2 PVC DWV, takeoff 1-3/8 in", "Cut 14-1/4 in light")
	h.restart()
	h.say("undo", "Forgotten: 45, 2 PVC DWV: 1-3/8", "Cut about 14-1/4 in")
	h.say("takeoffs", "None of your own yet")
	h.say("jobs", "1. Cut about 14-1/4 in (set 12")
	h.say("undo", "Dropped 1. Cut about 14-1/4 in")
	h.say("jobs", "No jobs yet")
	h.say("undo", "There is nothing to undo.")
}

// A takeoff that took another's place gives it back.
func TestUndoGivesBackTheTakeoffBefore(t *testing.T) {
	h := juniperStreet(t)
	h.say("takeoff 2 abs 45 is 1-1/8")
	h.say("takeoff 2 abs 45 is 1-1/4", "In place of 1-1/8")
	h.say("undo", "Kept again: 45, 2 ABS DWV: 1-1/8")
	h.say("12 set 45s 2 abs", "Takeoff 1-1/8, yours")
	h.say("forget takeoff 1", "Forgotten: 45, 2 ABS DWV: 1-1/8")
	h.say("undo", "Kept again: 45, 2 ABS DWV: 1-1/8")
	h.say("takeoffs", "1. 45, 2 ABS DWV: 1-1/8")
}

// So does a slip on the list: what was checked off, dropped, added or cleared.
func TestUndoOnTheList(t *testing.T) {
	h := juniperStreet(t)
	h.say(twelve)
	h.say("add laundry")
	h.say(twenty)
	h.say("add kitchen")
	h.say("done 1", "■ 1. ")
	h.say("undo", "Taken back:\n□ 1. 14-3/4 light")
	h.say("drop 2", "Dropped □ 2. ")
	h.say("undo", "Taken back:\n□ 3. 26-1/16 light", "kitchen")
	h.say("clear list", "Clear the list, 2 open and 0 done? Say yes, or no.")
	h.say("yes", "List cleared.")
	h.restart()
	h.say("undo", "The list is back.\nCut list: 2 open, 0 done", "laundry", "kitchen")
	h.say("list", "laundry", "kitchen")
	h.say(twelve)
	h.say("add bath", "bath")
	h.say("undo", "Dropped □ 3. 14-3/4 light, 45s, 2 ABS DWV, bath")
	h.say("jobs", "3. Cut 14-3/4 in light") // the job stays
}

// A list in use is asked about before it is cleared, and anything but a yes leaves
// it.
func TestOwnListIsClearedAfterAYes(t *testing.T) {
	for said, left := range map[string]int{"yes": 0, "sí": 0, "no": 1, "list": 1, "9 set 45s 2 abs takeoff 1": 1} {
		memory, c := new(bot.Forgetful), new(bot.Conversation)
		say := func(text string) string { return c.Handle(bot.Message{Text: text, When: morning}, memory).Text }
		say(twelve)
		say("add")
		if asked := say("drop all"); !strings.Contains(asked, "?") || len(memory.Cuts()) != 1 {
			t.Errorf("drop all is answered %q", asked)
		}
		say(said)
		say("yes") // to nothing, unless it was said at once
		if got := len(memory.Cuts()); got != left {
			t.Errorf("after %q %d pieces are left, want %d", said, got, left)
		}
	}
}

func TestUndoASetting(t *testing.T) {
	h := juniperStreet(t)
	h.say("metric", "Millimeters first")
	h.say("undo", "Taken back. Inches first from now on.")
	h.say("12 set 45s takeoff 1-1/8 2 abs", "Cut 14-3/4 in light")
	h.say("handbook two")
	h.say("handbook three")
	h.say("undo", "Taken back. Handbook figures from now on: multipliers to two decimals.")
	h.say("call it laundry", "1. laundry: ")
	h.say("call it kitchen", "1. kitchen: ")
	h.say("undo", "Taken back:\n1. laundry: ")
	h.say("remove job 1", "Dropped 1. laundry")
	h.say("undo", "Taken back:\n2. laundry: Cut 14-3/4 in light")
}

// What others set is not kept in what one could take back: it would stay when they
// ask to be forgotten.
func TestUndoKeepsNoNames(t *testing.T) {
	h := juniperStreet(t)
	h.say("crew takeoff 2 abs 45 is 1-1/8")
	h.as("sam", "crew takeoff 2 abs 45 is 1-1/4")
	if kept := string(h.as("sam", "export my data").Files[0].Content); strings.Contains(kept, "dana") {
		t.Errorf("Dana's name is kept with Sam:\n%s", kept)
	}
}
