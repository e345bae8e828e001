package bot_test

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"dogleg/bot"
	"dogleg/geometry"

	"pgregory.net/rapid"
)

// inches is a reading of a tape in sixty-fourths.
func inches(l float64) string { return geometry.Length(l).Tape(64).String() }

// kept is the one takeoff that a message left in an empty memory.
func kept(t rapid.TB, message string) float64 {
	t.Helper()
	var memory bot.Forgetful
	var c bot.Conversation
	reply := c.Handle(bot.Message{Text: message, When: morning}, &memory)
	if strings.Contains(reply.Text, "Send it once more") || strings.Contains(reply.Text, "send it once more") { // it is what the table has, too
		reply = c.Handle(bot.Message{Text: message, When: morning}, &memory)
	}
	own := memory.Takeoffs()
	if len(own) != 1 || !strings.HasPrefix(reply.Text, "Kept as yours") {
		t.Fatalf("%q kept %v: %s", message, own, reply.Text)
	}
	return own[0].Length.Inches()
}

// A fitting is invented, with a takeoff known to a sixty-fourth, and measured in
// each of the three ways with a tape that reads no finer. It comes back the same
// within a sixty-fourth: in a dry fit the tape is out by half of one at most,
// which a bend of 22-1/2 or more makes 1/98 of each takeoff.
func TestThreeWaysToMeasureAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bend := rapid.SampledFrom([]float64{22.5, 45, 60, 90}).Draw(t, "bend")
		radians := bend / 180 * math.Pi
		// From half the diameter of a 2 in pipe up to twice, 2.375 in outside.
		low, high := 1.1875*math.Tan(radians/2), 4.75*math.Tan(radians/2)+0.5
		low = max(low, 0.375) // half of the socket
		known := math.Round(rapid.Float64Range(low, high).Draw(t, "takeoff")*64) / 64
		depth := float64(rapid.IntRange(40, 80).Draw(t, "depth")) / 64
		cut := float64(rapid.IntRange(6*16, 40*16).Draw(t, "cut")) / 16
		set := math.Sin(radians) * (cut + 2*known)
		fitting := fmt.Sprintf("2 pvc dwv %v", bend)

		for way, message := range map[string]string{
			"center to stop": fmt.Sprintf("takeoff %s is %s", fitting, inches(known)),
			"face":           fmt.Sprintf("%s face %s depth %s", fitting, inches(known+depth), inches(depth)),
			"dry fit":        fmt.Sprintf("%ss: cut %s, dry fit %s", fitting, inches(cut), inches(set)),
		} {
			if got := kept(t, message); math.Abs(got-known) > 1.0/64 {
				t.Errorf("%s: %q came to %v, want %v", way, message, got, known)
			}
		}
	})
}

// What is said to be sent can be sent, and the three ways of the explanation
// measure the same fitting.
func TestHowToMeasure(t *testing.T) {
	for _, language := range []struct{ question, send string }{
		{"how do I measure a takeoff?", `Send: (.*)`},
		{"how do i measure takeoffs", `Send: (.*)`},
		{"¿cómo mido un descuento?", `Manda: (.*)`},
	} {
		h := juniperStreet(t)
		text := h.say(language.question).Text
		examples := regexp.MustCompile(language.send).FindAllStringSubmatch(text, -1)
		if len(examples) != 3 {
			t.Fatalf("%s: %d ways\n%s", language.question, len(examples), text)
		}
		for _, example := range examples {
			var memory bot.Forgetful
			reply := h.bot.Handle(bot.Message{Text: example[1], When: morning}, &memory)
			own := memory.Takeoffs()
			if len(own) != 1 || math.Abs(own[0].Length.Inches()-1.125) > 1.0/64 {
				t.Errorf("%q kept %v: %s", example[1], own, reply.Text)
			}
		}
		for line := range strings.Lines(text) {
			if strings.HasPrefix(line, "    ") && utf8.RuneCountInString(line) > 41 {
				t.Errorf("too wide for a phone: %q", line)
			}
		}
	}
}

// From the first message to a cut on one's own takeoffs in three.
func TestFirstTimeWithABagOfFittings(t *testing.T) {
	h := juniperStreet(t)
	h.say("how do I measure a takeoff?", "1. ", "2. ", "3. ")
	h.say("takeoff 2 pvc 45 is 1-1/8", "Kept as yours: 45, 2 PVC DWV, takeoff 1-1/8")
	got := h.say("12 set 45s 2 pvc", "Cut 14-3/4 in light\n", "yours, 3 Nov").Text
	if strings.Contains(got, "about") || strings.Contains(got, "Taken as") {
		t.Errorf("unsure of a fitting that was measured: %s", got)
	}
}

func TestDryFitOfUnnamedPipeIsOnlyTold(t *testing.T) {
	h := juniperStreet(t)
	// 8.625 × √2 = 12.1976, less 10.1875 is 2.0101: 1.0050 each.
	h.say("cut 10-3/16 with 45s gave me a dry set of 8-5/8, what's the real takeoff", "Takeoff 1 in\n")
	h.say("takeoffs", "None of your own yet")
}

// A fitting that no table has is shown with what to measure on it.
func TestUnknownFittingIsShown(t *testing.T) {
	h := juniperStreet(t)
	reply := h.say("takeoff 2 pvc dwv wye", "I know no takeoff of 2 wye in PVC DWV. Measure it")
	if picture := file(t, reply, "measure.png"); !picture.Picture || !strings.HasPrefix(string(picture.Content), "\x89PNG") {
		t.Error("no picture")
	}
}
