package bot_test

import (
	"strings"
	"testing"
)

// As in the other tests, two takeoffs of 1-1/8 off a set of 12 leave 14-3/4
// light; two of 1-1/4 leave 16.9706 − 2.5 = 14.4706: 14-1/2 light.

func TestCrewsTakeoffServesEveryone(t *testing.T) {
	h := juniperStreet(t)
	h.say("crew takeoff 2 abs 45 is 1-1/8", "Kept for all in this chat: 45, 2 ABS DWV, takeoff 1-1/8")
	sam := func(text string, words ...string) {
		t.Helper()
		wants(t, text, h.as("sam", text).Text, words...)
	}
	sam("12 set 45s 2 abs", "Cut 14-3/4 in light\n", "Takeoff 1-1/8, the crew's, set by dana, 3 Nov")
	sam("takeoffs", "The crew's, for everyone here:\n1. 45, 2 ABS DWV: 1-1/8, center to stop, set by dana, 3 Nov")

	// A member's own goes before it, for that member alone.
	sam("takeoff 2 abs 45 is 1-1/4", "Kept as yours", "Cut 14-1/2 in light\n", "yours, 3 Nov")
	sam("takeoffs", "1. 45, 2 ABS DWV: 1-1/4", "The crew's", "2. 45, 2 ABS DWV: 1-1/8")
	h.say("12 set 45s 2 abs", "Cut 14-3/4 in light\n")

	// Newer does not go before own.
	h.say("crew takeoff 2 abs 45 is 1-3/16", "In place of 1-1/8, 3 Nov.")
	sam("12 set 45s 2 abs", "Cut 14-1/2 in light\n")
}

func TestCrewsTakeoffOfTheLastJob(t *testing.T) {
	h := juniperStreet(t)
	h.say("laundry: 12 set 45s 2 abs", "Cut about")
	h.say("takeoff 1-1/8 for the crew", "Kept for all in this chat", "Cut 14-3/4 in light\n", "the crew's, set by dana")
	wants(t, "12 set 45s 2 abs", h.as("sam", "12 set 45s 2 abs").Text, "Cut 14-3/4 in light\n")
}

func TestCrewsTakeoffIsForgottenByAnyone(t *testing.T) {
	h := juniperStreet(t)
	h.say("crew takeoff 2 abs 45 is 1-1/8")
	h.say(measured)
	if got := h.as("sam", "forget takeoff 2 abs 45").Text; !strings.Contains(got, "no such takeoff") {
		t.Errorf("without a word of the crew: %s", got)
	}
	wants(t, "", h.as("sam", "forget crew takeoff 2 abs 45").Text, "Forgotten: 45, 2 ABS DWV: 1-1/8", "set by dana")
	wants(t, "", h.as("sam", "takeoffs").Text, "None of your own yet")
	h.say("takeoffs", "1. 45, 2 ABS DWV: 1-1/8") // Dana's own is Dana's
}

func TestWhoIsForgottenIsNamelessInTheCrewsBook(t *testing.T) {
	h := juniperStreet(t)
	h.say("crew takeoff 2 abs 45 is 1-1/8")
	h.say("forget me", "goes")
	h.say("yes", "gone")
	got := h.as("sam", "12 set 45s 2 abs").Text
	wants(t, "", got, "Cut 14-3/4 in light\n", "the crew's, 3 Nov")
	if strings.Contains(got, "dana") {
		t.Errorf("one who is forgotten is still named: %s", got)
	}
}
