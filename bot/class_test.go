package bot_test

import (
	"bytes"
	"strings"
	"testing"

	"dogleg/bot"
)

// A sheet for a class is the same whenever its number is said, whoever says it; its
// answers are on it, so that nobody gets one where others read along.
func TestASheetForAClass(t *testing.T) {
	paint := func(memory bot.Memory, text string) []byte {
		t.Helper()
		var c bot.Conversation
		r := c.Handle(bot.Message{Text: text, When: morning}, memory)
		if len(r.Files) != 1 || r.Files[0].Picture || !r.Understood {
			t.Fatalf("%q: %+v", text, r)
		}
		f, ok := c.Paint(r.Files[0])
		if !ok || !bytes.HasPrefix(f.Content, []byte("%PDF")) || bytes.Count(f.Content, []byte("/Type /Page\n")) != 2 {
			t.Fatalf("%q: no PDF of two pages", text)
		}
		return f.Content
	}
	dana := new(bot.Forgetful)
	first := paint(dana, "practice sheet 4182")
	if !bytes.Equal(first, paint(new(bot.Forgetful), "class sheet 4182")) {
		t.Error("the same number makes another sheet")
	}
	for _, other := range []string{"practice sheet 4183", "practice sheet fall 4182", "hoja de práctica 4182", "practice sheet"} {
		if bytes.Equal(first, paint(dana, other)) {
			t.Errorf("%s makes the same sheet", other)
		}
	}
	var c bot.Conversation
	r := c.Handle(bot.Message{Text: "practice sheet", When: morning, From: "Dana", Group: new(bot.Forgetful)}, dana)
	if len(r.Files) != 0 || !strings.HasPrefix(r.Text, "Its answers go with a sheet.") {
		t.Errorf("in a group: %q", r.Text)
	}
}

// The results of a group name each who answered, the best first; who has answered too
// little is named apart.
func TestResultsOfAGroup(t *testing.T) {
	people := map[string]*bot.Forgetful{"Dana": {}, "Lee": {}, "Sam": {}}
	group := new(bot.Forgetful)
	c := bot.Conversation{Seed: 4}
	say := func(name, text string) string {
		t.Helper()
		m := bot.Message{Text: text, When: morning, From: name, User: name, Group: group, Mates: func() []bot.Memory {
			return []bot.Memory{people["Dana"], people["Lee"], people["Sam"], new(bot.Forgetful)}
		}}
		return c.Handle(m, people[name]).Text
	}
	if got := say("Dana", "results"); !strings.HasPrefix(got, "Nobody has answered yet.") {
		t.Errorf("before anybody answered: %q", got)
	}
	for n := range 6 {
		posed := strings.TrimSuffix(say("Lee", "practice cut"), "\nFirst right figure has it.")
		say("Lee", "99")
		if n == 0 {
			say("Sam", "98")
		}
		if got := say("Dana", solve(t, posed)); !strings.HasPrefix(got, "Dana: Right. ") {
			t.Fatalf("%q: %q", posed, got)
		}
	}
	want := "Right at the first try:\nDana: 6 of 6\nLee: 0 of 6, weakest at cut\nToo few yet to say:\nSam: 0 of 1"
	for _, text := range []string{"results", "class results"} {
		if got := say("Dana", text); got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
	if got := say("Dana", "resultados"); !strings.HasPrefix(got, "Bien a la primera:\nDana: 6 de 6") {
		t.Errorf("in Spanish: %q", got)
	}
	alone := c.Handle(bot.Message{Text: "results", When: morning}, new(bot.Forgetful)).Text
	if !strings.HasPrefix(alone, "Results are a group's.") {
		t.Errorf("alone: %q", alone)
	}
}

// Draw, explain and more are about the problem that waits, until something else is
// answered; a hint always is.
func TestHelpInAProblem(t *testing.T) {
	h := juniperStreet(t)
	h.bot.Seed = 12
	posed := h.say("practice rolling").Text
	if drawn := h.say("draw"); len(drawn.Files) != 1 || drawn.Text != posed {
		t.Errorf("draw: %q, %d files", drawn.Text, len(drawn.Files))
	}
	h.say("explain", "True set", "Travel (set to travel)", "Cut", "more: why each step.")
	h.restart()
	h.say("more", "True set", "Set ÷ travel is the sine")
	h.say("set 9 45s 2 pvc dwv takeoff 1-1/2", "Cut ")
	h.say("explain", "Travel: 9 × 1.4142")
	h.say("hint", "True set")
	h.say("explain", "more: why each step.")
	h.say("exam", "Question 1 of 12")
	for _, help := range []string{"hint", "draw", "explain"} {
		h.say(help, "No hints in an exam.")
	}
}
