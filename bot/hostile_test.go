package bot_test

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"dogleg/bot"
)

// hostile are messages that nobody sends in good faith, most of them as long as
// a message can be.
func hostile() map[string]string {
	fill := func(s string) string { return strings.Repeat(s, 4096/len(s)) }
	return map[string]string{
		"brackets":            fill("("),
		"brackets that pair":  strings.Repeat("(", 2048) + strings.Repeat(")", 2048),
		"square brackets":     fill("[{"),
		"ten thousand digits": "set " + strings.Repeat("9", 10000) + " 45s 2 pvc",
		"digits in a row":     "set " + fill("9") + " 45s",
		"null bytes":          fill("\x00"),
		"null in the middle":  "12 set\x0045s\x002 pvc",
		"right to left":       "\u202e\u200f12 set 45s 2 pvc\u202c",
		"right to left name":  "call it \u202elaundry",
		"no UTF-8":            "12 set \xff\xfe 45s\xc0\xaf",
		"joined figures":      fill("\U0001f468\u200d"),
		"combining marks":     fill("e\u0301"),
		"fractions":           fill("1/2 "),
		"slashes":             fill("1/"),
		"dots":                fill("1."),
		"signs":               fill("1+"),
		"quotes":              fill("5' 3\""),
		"asks":                fill("set 9 45s 2 pvc\n"),
		"line breaks":         fill("\n"),
		"and and":             fill("set 9 and "),
		"too much":            "set 1e308 45s 2 pvc",
		"more than that":      "set 1e999 45s 2 pvc",
		"too much of feet":    "fall over 1e308 ft at 1/4",
		"too steep":           "fall over 10 ft at 1e308%",
		"too sharp":           "9 set at 1e308 degrees 2 pvc",
		"too much added":      "1e308 + 1e308",
		"too much multiplied": "1e200*1e200",
		"by nothing":          "set 1/0 45s 2 pvc",
		"divided by nothing":  "16 / 0",
		"minus nothing":       "set -0 45s 2 pvc",
		"minus":               "set -5 45s 2 pvc",
		"nothing":             "0 set 45s 2 pvc",
		"no number":           "set NaN 45s 2 pvc",
		"without end":         "set ∞ 45s 2 pvc",
		"many lines":          "1000000000 lines 8 apart, set 15 45s",
		"a job of billions":   "explain 99999999999999999999",
		"a takeoff of them":   "forget takeoff 18446744073709551616",
		"markup":              "call it <b>&lt;</b><script>",
		"a template":          "call it {what} %s %n ${HOME} $(reboot)",
	}
}

// unsaid is what no reply has in it: a number that is none, or one of a hundred
// digits.
var unsaid = regexp.MustCompile(`NaN|Inf\b|%!|\d{60}`)

// TestHostileMessages: each gets an answer in words, none leaves anything behind
// that spoils the next one, and each can be written as JSON.
func TestHostileMessages(t *testing.T) {
	for name, text := range hostile() {
		t.Run(name, func(t *testing.T) {
			h := juniperStreet(t)
			before := h.as("dana", "12 set 45s 2 abs takeoff 1-1/8").Text
			for range 2 {
				reply := h.as("dana", text)
				if reply.Fault || strings.TrimSpace(reply.Text) == "" || unsaid.MatchString(reply.Text) {
					t.Errorf("said: %.300q", reply.Text)
				}
				if _, err := json.Marshal(reply.Records); err != nil {
					t.Errorf("as JSON: %v", err)
				}
			}
			after := h.as("dana", "12 set 45s 2 abs takeoff 1-1/8").Text
			if want, _, _ := strings.Cut(before, "\n"); !strings.HasPrefix(after, want) {
				t.Errorf("after it: %q, before: %q", after, before)
			}
		})
	}
}

// What can't be measured is said so, and figured from nothing else in the
// message.
func TestNumbersThatCannotBe(t *testing.T) {
	for text, want := range map[string]string{
		"set 1e308 45s 2 pvc":       `I can't read "1e308"`,
		"set 1/0 45s 2 pvc":         `I can't read "1/0"`,
		"set -0 45s 2 pvc":          "has to be more than 0",
		"0 set 45s 2 pvc":           "has to be more than 0",
		"-12 set":                   "has to be more than 0",
		"fall over 1e308 ft at 1/4": `I can't read "1e308 ft"`,
		"9 set at 1e308 degrees":    `I can't read "1e308 degrees"`,
		"16 / 0":                    "divisor has to be more than zero",
		"1e308 + 1e308":             `I can't read "1e308"`,
		"9999999 + 9999999":         "more than a mile",
		"9 set at 200 degrees":      "No fitting turns a line 200 degrees",
	} {
		h := juniperStreet(t)
		if reply := h.as("dana", text); reply.Understood || !strings.Contains(reply.Text, want) {
			t.Errorf("%q: %s", text, reply.Text)
		}
	}
}

// FuzzPressed: whatever a button is said to hold, there is a line in answer, and
// nothing of the list goes that no button named.
func FuzzPressed(f *testing.F) {
	for _, press := range []string{
		"done 1 0", "done 1 x", "open 1 0", "done 18446744073709551616 0", "done -1 0", "drop 1 0", "done 1", "done  1  0  0",
		"", " ", "\x00", "\xff", "\u202edone 1 0", strings.Repeat("9 ", 32), "done 1 \n0",
	} {
		f.Add(press)
	}
	f.Fuzz(func(t *testing.T, press string) {
		var c bot.Conversation
		var memory bot.Forgetful
		c.Handle(bot.Message{Text: "12 set 45s 2 abs takeoff 1-1/8", When: morning}, &memory)
		c.Handle(bot.Message{Text: "add", When: morning}, &memory)
		if len(memory.Cuts()) != 1 {
			t.Fatal("no list to press at")
		}
		reply := c.Handle(bot.Message{Pressed: press, When: morning}, &memory)
		if reply.Fault || press != "" && reply.Text == "" {
			t.Errorf("said %q", reply.Text)
		}
		if len(memory.Cuts()) != 1 || len(memory.Jobs()) != 1 {
			t.Error("a piece or a job is gone")
		}
	})
}
