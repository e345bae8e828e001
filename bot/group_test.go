package bot_test

import (
	"strings"
	"testing"

	"dogleg/bot"
	"dogleg/store"
)

// crewChat says something in a chat of several people.
func (h *house) crewChat(user, text string) bot.Reply {
	h.t.Helper()
	chat := store.ChatOf("telegram", "-77")
	var reply bot.Reply
	err := h.db.Update(func(tx *store.Tx) error {
		m := bot.Message{Text: text, When: h.now, From: user, Group: tx.Person(chat.Person(""))}
		reply = h.bot.Handle(m, tx.Person(chat.Person(user)))
		return nil
	})
	if err != nil {
		h.t.Fatalf("%q: %v", text, err)
	}
	return reply
}

// One problem for the crew: a wrong figure is for the one who sent it, the
// first right one has it, and each keeps their own score.
func TestFirstRightFigureHasIt(t *testing.T) {
	h := juniperStreet(t)
	h.bot.Seed = 12
	posed, whose, _ := strings.Cut(h.crewChat("Dana", "practice cut").Text, "\nFirst")
	if whose == "" {
		t.Fatalf("got %q", posed)
	}
	right := solve(t, posed)
	if got := h.crewChat("Sam", "99"); !got.Private || !strings.HasPrefix(got.Text, "Not yet.") {
		t.Errorf("a wrong figure is answered %+v", got)
	}
	h.restart()
	if got := h.crewChat("Kim", right); got.Private || !strings.HasPrefix(got.Text, "Kim: Right. ") {
		t.Errorf("the first right figure is answered %+v", got)
	}
	if got := h.crewChat("Dana", right); !strings.HasPrefix(got.Text, right+" of what?") {
		t.Errorf("the second right figure is answered %q", got.Text)
	}
	for user, want := range map[string]string{
		"Kim": "1 of 1, cut", "Sam": "0 of 1, cut", "Dana": "No score yet.",
	} {
		if got := h.crewChat(user, "score").Text; !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", user, got, want)
		}
	}
}

// Only the first try at a problem counts, and skip tells everyone the answer.
func TestGroupCountsFirstTries(t *testing.T) {
	h := juniperStreet(t)
	h.bot.Seed = 12
	posed, _, _ := strings.Cut(h.crewChat("Dana", "practice travel").Text, "\nFirst")
	h.crewChat("Sam", "99")
	h.crewChat("Sam", solve(t, posed))
	if got := h.crewChat("Sam", "score").Text; !strings.Contains(got, "0 of 1, travel") {
		t.Errorf("score %q", got)
	}
	h.crewChat("Dana", "practice travel")
	if got := h.crewChat("Sam", "skip").Text; !strings.HasPrefix(got, "It is ") {
		t.Errorf("skip: %q", got)
	}
	if got := h.crewChat("Sam", "skip").Text; !strings.HasPrefix(got, "No problem is waiting.") {
		t.Errorf("skip with nothing waiting: %q", got)
	}
	if got := h.crewChat("Sam", "exam").Text; !strings.HasPrefix(got, "An exam is for one alone.") {
		t.Errorf("exam: %q", got)
	}
}
