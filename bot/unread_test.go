package bot_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"dogleg/bot"
)

// say has one person write, and returns the reply.
func write(m bot.Memory, from, text string) string {
	c := bot.Conversation{}
	return c.Handle(bot.Message{Text: text, When: time.Date(2026, 11, 3, 7, 0, 0, 0, time.UTC), From: from}, m).Text
}

// Nothing is kept without a yes, and a no takes away what was kept after one.
func TestUnreadOnlyWithConsent(t *testing.T) {
	m := new(bot.Forgetful)
	write(m, "Dana", "the grommulator wants a snurf")
	if got := bot.Unread(m); len(got) != 0 {
		t.Errorf("kept without consent: %q", got)
	}
	if reply := write(m, "Dana", "learn from me"); !strings.Contains(reply, "stop learning") {
		t.Errorf("the reply doesn't say how to take it back: %s", reply)
	}
	write(m, "Dana", "the grommulator wants a snurf")
	write(m, "Dana", "12 set 45s 2 abs")
	if got := bot.Unread(m); !slices.Equal(got, []string{"the grommulator wants a snurf"}) {
		t.Errorf("kept %q", got)
	}
	write(m, "Dana", "stop learning")
	if got := bot.Unread(m); len(got) != 0 {
		t.Errorf("kept after it was taken back: %q", got)
	}
	write(m, "Dana", "the grommulator wants a snurf")
	if got := bot.Unread(m); len(got) != 0 {
		t.Errorf("kept after it was taken back: %q", got)
	}
}

func TestUnreadInSpanish(t *testing.T) {
	m := new(bot.Forgetful)
	if reply := write(m, "", "aprende de mí"); !strings.Contains(reply, "deja de aprender") {
		t.Errorf("%s", reply)
	}
	write(m, "", "el grommulador quiere un snurf")
	if got := bot.Unread(m); len(got) != 1 {
		t.Errorf("kept %q", got)
	}
	write(m, "", "deja de aprender")
	if got := bot.Unread(m); len(got) != 0 {
		t.Errorf("kept %q", got)
	}
}

// What leads to a person is taken out; measures stay as they are.
func TestUnreadHoldsNobody(t *testing.T) {
	for text, want := range map[string]string{
		"snurf 12-5/8 and 16-15/16 grommul":       "snurf 12-5/8 and 16-15/16 grommul",
		"snurf 3302 mm grommul":                   "snurf 3302 mm grommul",
		"snurf 5 ft 2-1/4 grommul":                "snurf 5 ft 2-1/4 grommul",
		"grommul call me at 555-0134-222":         "grommul call me at #",
		"grommul (212) 555-0134 snurf":            "grommul # snurf",
		"grommul +44 20 7946 0958":                "grommul #",
		"grommul 70911342 snurf":                  "grommul # snurf",
		"grommul @juniper_sam snurf":              "grommul @ snurf",
		"snurf sam.o@example.org grommul":         "snurf @ grommul",
		"snurf https://example.org/u/sam grommul": "snurf @ grommul",
		"dana says the grommul of Dana's snurfs":  "@ says the grommul of @'s snurfs",
	} {
		m := new(bot.Forgetful)
		write(m, "Dana O", "learn from me")
		write(m, "Dana O", text)
		if got := bot.Unread(m); !slices.Equal(got, []string{want}) {
			t.Errorf("%q is kept as %q, want %q", text, got, want)
		}
	}
}

func TestUnreadKeepsTheLast(t *testing.T) {
	m := new(bot.Forgetful)
	write(m, "", "learn from me")
	for n := range bot.KeptUnread + 3 {
		write(m, "", "grommul snurf "+strings.Repeat("x", n+1))
	}
	got := bot.Unread(m)
	if len(got) != bot.KeptUnread || got[0] != "grommul snurf xxxx" {
		t.Errorf("%d kept, the first %q", len(got), got[0])
	}
}

func ExampleCorpus() {
	fmt.Print(bot.Corpus([]string{"snurf the riser\nby 3", "grommul 12", "grommul 12"}))
	// Output:
	// grommul 12
	//
	// snurf the riser\nby 3
}
