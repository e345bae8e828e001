package bot_test

import (
	"strings"
	"testing"

	"dogleg/bot"
	"dogleg/bot/figure"
)

func TestSettingsAreRemembered(t *testing.T) {
	h := juniperStreet(t)
	h.say(measured)

	// 14.7206 in = 373.9 mm.
	h.say("metric on", "Millimeters")
	h.restart()
	h.say("12 in set 45s 2 abs", "Cut 374 mm")
	h.say("metric off", "Inches")
	h.say("12 set 45s 2 abs", "Cut 14-3/4 in light")

	// 14.7206 is 14-23/32 (14.71875) and under 1/64 off it.
	h.say("thirty seconds on", "Thirty-seconds")
	h.say("12 set 45s 2 abs", "Cut 14-23/32 in\n")
	h.say("sixteenths on", "Sixteenths")
	h.say("12 set 45s 2 abs", "Cut 14-3/4 in light")

	h.say("spanish", "español")
	if r := h.as("dana", "12 set 45s 2 abs"); !strings.Contains(r.Text, "Corte") {
		t.Errorf("after \"spanish\": %s", r.Text)
	}
	h.say("english", "English")
	h.say("12 set 45s 2 abs", "Cut 14-3/4 in light")
}

func TestHandbookSetting(t *testing.T) {
	// 12 × 1.41 = 16.92, less 2.25 is 14.67: 14-11/16 by the two-decimal book.
	h := juniperStreet(t)
	h.say(measured)
	h.say("handbook two", "two decimals")
	h.say("12 set 45s 2 abs", "14-11/16")
	h.say("exact", "Exact")
	h.say("12 set 45s 2 abs", "Cut 14-3/4 in light")
}

func TestFlagsGoBeforeSettings(t *testing.T) {
	h := juniperStreet(t)
	h.say(measured)
	h.bot.Metric = true
	h.say("12 in set 45s 2 abs", "Cut 374 mm")
	h.bot = bot.Conversation{Handbook: figure.TwoDecimals}
	h.say("12 set 45s 2 abs", "14-11/16")
	h.bot = bot.Conversation{} // a flag is for one call
	if r := h.as("dana", "12 set 45s 2 abs"); strings.Contains(r.Text, "14-11/16") {
		t.Errorf("the flag was remembered: %s", r.Text)
	}
}

// Answers are said to those who want it, in words, and only where something
// here can speak.
func TestTalkSetting(t *testing.T) {
	h := juniperStreet(t)
	h.say(measured)
	h.say("talk on", "no voice here")
	h.bot.Speaks = true
	if r := h.as("dana", "12 set 45s 2 abs"); r.Aloud != "" {
		t.Errorf("nobody asked for %q", r.Aloud)
	}
	h.say("talk on", "voice note")
	h.restart()
	// 12 × 1.41421 − 2 × 1.125 = 14.7206, 14-3/4 light.
	for _, c := range []struct{ text, want string }{
		{"12 set 45s 2 abs", "Cut fourteen and three quarters, light. Set twelve, two forty-fives, two-inch ABS DWV."},
		{"12 set 2 abs", "Set twelve, two ABS DWV. Which angle: ninety, sixty, forty-five or twenty-two and a half?"},
		{"jobs", ""},
		{"desvío 12 codos de 45 2 abs", ""}, // which the voice doesn't speak
	} {
		if r := h.as("dana", c.text); r.Aloud != c.want {
			t.Errorf("%q is said %q, want %q", c.text, r.Aloud, c.want)
		}
	}
	h.say("english")
	h.say("talk off", "No more")
	if r := h.as("dana", "12 set 45s 2 abs"); r.Aloud != "" {
		t.Errorf("after talk off: %q", r.Aloud)
	}
}
