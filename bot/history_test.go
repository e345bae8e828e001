package bot_test

import (
	"fmt"
	"strings"
	"testing"

	"dogleg/bot"
	"dogleg/store"
)

func TestJobsAreListedNamedAndUndone(t *testing.T) {
	h := juniperStreet(t)
	h.say("jobs", "No jobs yet")
	h.say(measured)
	h.say("12 set 45s 2 abs")
	h.say("call it laundry", "1. laundry: Cut 14-3/4 in light", "2 ABS DWV")
	h.say("bath: 10 set 45s 2 abs")
	h.say("16-15/16 - 3", "13-15/16") // a sum is no job
	h.say("what's the run", "Run 10") // nor is another look
	h.say("jobs", "1. laundry: Cut 14-3/4 in light", "\n2. bath: Cut 11-7/8 in heavy")
	h.say("jobs 1", "Cut 14-3/4 in light\n", "Set 12")
	h.say("jobs 9", "no job 9")
	h.say("undo", "Dropped 2. bath")
	h.say("same but 14", "Cut 17-9/16 in\n") // of job 1, which is the last now
	h.say("jobs", "1. laundry", "\n3. Cut 17-9/16")
	h.say("forget job 1", "Dropped 1. laundry")
	h.say("same but 10", "Cut 11-7/8 in heavy")
}

func TestLongNamesAreCut(t *testing.T) {
	h := juniperStreet(t)
	h.say("12 set 45s 2 abs")
	h.say("call it "+strings.Repeat("ñ", 300), "1. "+strings.Repeat("ñ", 40)+": Cut")
}

func TestLongListsAreCut(t *testing.T) {
	h := juniperStreet(t)
	for i := range 20 {
		h.as("dana", fmt.Sprintf("%d set 45s 2 abs", 10+i))
	}
	list := h.say("jobs", "(5 earlier)", "\n6. Cut", "\n20. Cut").Text
	if n := strings.Count(list, "Cut"); n != 15 {
		t.Errorf("%d jobs listed, want the last 15", n)
	}
}

// TestExplainRepeatsWhatWasSaid: a job that is cut does not change when
// something it was figured with does.
func TestExplainRepeatsWhatWasSaid(t *testing.T) {
	h := juniperStreet(t)
	h.say(measured)
	h.say("12 set 45s 2 abs", "Cut 14-3/4 in light")
	steps, _, _ := strings.Cut(h.say("explain", "12 × 1.4142", "16.9706", "14.7206").Text, "\nWhy a step is so")
	h.say("my 3 pvc 45s are 2 takeoff")
	h.say("10 set 45s 2 pvc")
	h.say("forget takeoff 2 abs 45")
	h.restart()
	again, _, _ := strings.Cut(h.as("dana", "explain 1").Text, "\nWhy a step is so")
	if again != steps {
		t.Errorf("explain 1 said\n%s\nthen\n%s", steps, again)
	}
	h.say("jobs 1", "Cut 14-3/4 in light")
}

func TestExplainASum(t *testing.T) {
	h := juniperStreet(t)
	h.say("12 set 45s 2 abs")
	h.say("16-15/16 - 3", "13-15/16")
	h.say("explain", "16-15/16 - 3")
	h.say("same but 14", "Set 14") // and the last ask is still the offset
}

// TestJobsOfAnotherVersionCanBeRead: an ask that can't be read any more doesn't
// take the job with it.
func TestJobsOfAnotherVersionCanBeRead(t *testing.T) {
	var memory bot.Forgetful
	memory.AddJob(store.Job{Name: "attic", Figure: "Cut 9 in", Summary: "an ask of old", Ask: []byte(`{"Angle":"45"}`)})
	memory.AddJob(store.Job{})
	var c bot.Conversation
	say := func(text string, words ...string) {
		t.Helper()
		wants(t, text, c.Handle(bot.Message{Text: text, When: morning}, &memory).Text, words...)
	}
	say("undo", "Dropped 2.")
	say("jobs", "1. attic: Cut 9 in (an ask of old)")
	say("same but 14", "nothing to change")
}
