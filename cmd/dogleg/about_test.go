package main

import (
	"slices"
	"strings"
	"testing"

	"dogleg/bot/telegram/loopback"
)

// replyTo has somebody reply to a message of ours, and returns what is said to that.
func (c *crew) replyTo(who int, message int64, text string) string {
	c.Helper()
	c.when.Add(60)
	_, said := c.reply(c.api.Post(c.chat, map[string]any{
		"text": text, "from": member(who), "date": c.when.Load(),
		"reply_to_message": map[string]any{"message_id": message, "from": map[string]any{"id": loopback.BotID, "is_bot": true}},
	}))
	return said
}

// under presses the button with a label under a message, and returns the message that
// comes of it.
func (c *crew) under(who int, message int64, label string) int64 {
	c.Helper()
	_, buttons := c.api.Shown(c.chat, message)
	i := slices.IndexFunc(buttons, func(b loopback.Button) bool { return b.Label == label })
	if i < 0 {
		c.Fatalf("no button %s in %v", label, buttons)
	}
	c.press(who, message, buttons[i].Data)
	to, _ := c.reply(message)
	return to
}

// 14 × √2 − 2 × 1-1/8 = 17.549 is 17-9/16.
//
// Dana's pipe has 45s and is 2 in; Sam's has 22s and is 3 in. Whatever message about
// Dana's pipe Sam replies to, a change is one of Dana's pipe: its steps, its picture,
// what was said of it when it was put on the list. The list itself is about no job,
// and so a change is asked about, and no cut is told.
func TestRepliesAreAboutWhatTheyReplyTo(t *testing.T) {
	for name, message := range map[string]func(c *crew, figures int64) int64{
		"figures":         func(_ *crew, figures int64) int64 { return figures },
		"steps by button": func(c *crew, figures int64) int64 { return c.under(0, figures, "Steps") },
		"picture":         func(c *crew, figures int64) int64 { return c.under(0, figures, "Picture") },
		"steps":           func(c *crew, _ int64) int64 { to, _ := c.reply(c.write(0, "explain")); return to },
		"job again":       func(c *crew, _ int64) int64 { to, _ := c.reply(c.write(0, "jobs 1")); return to },
		"cautions":        func(c *crew, _ int64) int64 { to, _ := c.reply(c.write(0, "cautions")); return to },
		"second piece":    func(c *crew, _ int64) int64 { c.ask(0, "add hall"); to, _ := c.reply(c.write(0, "add")); return to },
	} {
		t.Run(name, func(t *testing.T) {
			c := juniperStreet(t)
			figures, _ := c.reply(c.write(0, laundryAsk))
			c.ask(1, "9 set 22s 3 abs takeoff 1")
			to := message(c, figures)
			c.restart()
			if got := c.replyTo(1, to, "same but 14"); !strings.HasPrefix(got, "Cut 17-9/16 in\nEnds 16-1/4 apart\nSet 14, 45s,") {
				t.Errorf("a change of Dana's pipe says %q", got)
			}
		})
	}
	c := juniperStreet(t)
	c.ask(0, laundryAsk)
	list, _ := c.reply(c.write(0, "add laundry"))
	jobs, _ := c.reply(c.write(0, "jobs"))
	asks, text := c.reply(c.write(0, "15 set 45s 4 abs"))
	c.ask(1, "9 set 22s 3 abs takeoff 1")
	for what, message := range map[string]int64{"the list": list, "her jobs": jobs, "what nobody knows": asks + 1000} {
		for _, change := range []string{"same but 14", "explain", "draw it", "add", "with 22s", "undo"} {
			if got := c.replyTo(1, message, change); !strings.HasPrefix(got, "Which job is that about?") {
				t.Errorf("%s to %s says %q", change, what, got)
			}
		}
	}
	if got := c.replyTo(1, list, "done 1"); !strings.Contains(got, "1. 14-3/4") {
		t.Errorf("a word about the list, in reply to it, says %q", got)
	}
	if got := c.replyTo(1, asks, "1-1/8"); strings.Contains(got, "22") {
		t.Errorf("an answer to what Dana was asked (%q) figures Sam's pipe: %q", text, got)
	}
}
