package telegram_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
)

const tooMany = "That's more than I can answer at once. What comes now I don't read: give it a minute, then send again what's missing."

// flooded is a job with the budget of real use, in which time is what the
// messages say.
func flooded(t *testing.T) (j *job, at func(chat int64, user int64, text string, after time.Duration)) {
	j = newJob(t)
	j.config.Budget = telegram.Budget{}
	begin := time.Now().Unix()
	return j, func(chat, user int64, text string, after time.Duration) {
		j.api.Post(chat, map[string]any{
			"text": text, "date": begin + int64(after.Seconds()),
			"from": map[string]any{"id": user, "is_bot": false, "first_name": "Ada"},
			"reply_to_message": map[string]any{
				"message_id": 1, "from": map[string]any{"id": int64(loopback.BotID), "is_bot": true},
			},
		})
	}
}

// A user and a group write a thousand messages each, and then somebody else one.
// No more than a budget of each flood is figured before that one is, and each is
// told once.
func TestFloodsHoldUpNobodyElse(t *testing.T) {
	j, at := flooded(t)
	for n := range 1000 {
		at(11, 11, fmt.Sprint("flood ", n), 0)
		at(-12, int64(2000+n), fmt.Sprint("many ", n), 0)
	}
	at(13, 13, "12 set 45s", 0)
	j.start()
	j.says(13, "heard 12 set 45s")
	j.settle()
	asked := j.memory.questions()
	if n := len(asked); asked[n-1].Text != "12 set 45s" || n != 40+40+1 {
		t.Errorf("%d were asked, the last %q; want 40 of each flood and then the one", n, asked[n-1].Text)
	}
	for _, chat := range []int64{11, -12} {
		texts := j.delivered(chat)
		if len(texts) != 41 || texts[40] != tooMany || strings.Contains(strings.Join(texts[:40], "\n"), "That's more") {
			t.Errorf("chat %d got %d messages, the last %q; want 40 and the notice", chat, len(texts), texts[len(texts)-1])
		}
	}
	if n := j.config.Health.TooMuch.Load(); n != 2*960 {
		t.Errorf("%d counted as too much, want 2 × 960", n)
	}
}

// Who was beyond the budget is answered again as it recovers, told again only
// after it was whole, and what was written slowly is no flood, however late it
// is read.
func TestBudgetRecovers(t *testing.T) {
	j, at := flooded(t)
	for n := range 45 {
		at(11, 11, fmt.Sprint(n), 0)
	}
	at(11, 11, "a little later", 3*time.Second)
	for range 5 {
		at(11, 11, "too early", 3*time.Second)
	}
	at(11, 11, "much later", 5*time.Minute)
	for range 45 {
		at(11, 11, "again", 5*time.Minute)
	}
	for n := range 100 {
		at(12, 12, fmt.Sprint(n), time.Duration(n)*4*time.Second)
	}
	j.start()
	j.settle()
	count := map[string]int{}
	for _, text := range j.delivered(11) {
		count[text]++
	}
	if count[tooMany] != 2 || count["heard a little later"] != 1 || count["heard too early"] != 0 ||
		count["heard much later"] != 1 || count["heard again"] != 39 {
		t.Errorf("got %v", count)
	}
	if got := len(j.delivered(12)); got != 100 {
		t.Errorf("of 100 written slowly %d were answered", got)
	}
}

// A clock that was set back is not a flood for as long as it was set back.
func TestBudgetSurvivesAClockThatJumps(t *testing.T) {
	j, at := flooded(t)
	for n, jump := range []time.Duration{0, 24 * time.Hour, 0, -300 * time.Hour, 0, time.Hour} {
		at(11, 11, fmt.Sprint(n), jump)
	}
	j.start()
	j.settle()
	if got := j.delivered(11); len(got) != 6 {
		t.Errorf("got %q", got)
	}
}

func TestNoticeInSpanish(t *testing.T) {
	j := newJob(t)
	j.config.Budget = telegram.Budget{}
	for range 41 {
		j.api.Post(11, map[string]any{
			"text": "12 desvío 45s", "date": 1_700_000_000,
			"from": map[string]any{"id": 11, "first_name": "Ada", "language_code": "es-MX"},
		})
	}
	j.start()
	j.settle()
	if got := j.delivered(11); len(got) != 41 || !strings.HasPrefix(got[40], "Son más mensajes") {
		t.Errorf("%d messages, the last %q", len(got), got[len(got)-1])
	}
}

// One who sends note after note may have five waiting, and the others' notes go
// between them.
func TestNotesOfManyAreHeardInTurn(t *testing.T) {
	free, hearing := make(chan struct{}), make(chan struct{}, 1)
	var order []string
	j := listening(t, func(ctx context.Context, said string) (telegram.Heard, error) {
		hearing <- struct{}{}
		select {
		case <-free:
		case <-ctx.Done():
		}
		<-hearing
		order = append(order, said)
		return sure(ctx, said)
	})
	j.start()
	for n := range 8 {
		j.speak(21, fmt.Sprint("flood ", n))
	}
	j.speak(22, "beam")
	j.speak(23, "stack")
	j.says(23, "There are 6 notes ahead of yours, so it takes a little. Typing is quicker.")
	close(free)
	j.settle()
	if err := j.end(); err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(order, ", "); got != "flood 0, beam, stack, flood 1, flood 2, flood 3, flood 4" {
		t.Errorf("heard in this order: %s", got)
	}
	if got := strings.Join(j.delivered(21), "\n"); strings.Count(got, "You have 5 notes waiting already.") != 3 {
		t.Errorf("of eight notes three are to be refused: %s", got)
	}
}

// Buttons count as messages do: who presses one over and over is told so by the
// button, and the others' presses go on.
func TestPressesHaveABudget(t *testing.T) {
	j := newJob(t)
	j.config.Budget = telegram.Budget{}
	now := time.Now()
	j.config.Now = func() time.Time { return now }
	press := func(user int64, n int) {
		j.api.Push("callback_query", map[string]any{
			"id": fmt.Sprint(user, "-", n), "from": map[string]any{"id": user, "first_name": "Ada"}, "data": "done 1 x",
			"message": map[string]any{"message_id": 1, "date": 1, "chat": map[string]any{"id": -12, "type": "supergroup"}},
		})
	}
	for n := range 60 {
		press(11, n)
	}
	press(13, 0)
	j.start()
	j.await("all let go of", func() bool { return len(j.api.Calls("answerCallbackQuery")) == 61 })
	refused := 0
	for _, c := range j.api.Calls("answerCallbackQuery") {
		if c.Params["text"] == "Too many at once. Give it a minute." {
			refused++
		}
	}
	if n := len(j.memory.questions()); n != 41 || refused != 20 {
		t.Errorf("%d presses did something and %d were refused, want 41 and 20", n, refused)
	}
}

// Who types behind our name without end is offered nothing after a while, and
// can still write to us.
func TestTypingHasABudgetOfItsOwn(t *testing.T) {
	j := newJob(t)
	j.config.Budget = telegram.Budget{}
	now := time.Now()
	j.config.Now = func() time.Time { return now }
	for n := range 150 {
		j.api.Push("inline_query", map[string]any{"id": fmt.Sprint(n), "from": map[string]any{"id": 11, "first_name": "Ada"}, "query": "12 set", "offset": ""})
	}
	j.api.Say(11, "12 set 45s")
	j.start()
	j.says(11, "heard 12 set 45s")
	j.settle()
	j.await("the offers", func() bool { return len(j.api.Calls("answerInlineQuery")) >= 100 })
	if n := j.config.Health.TooMuch.Load(); n != 50 {
		t.Errorf("%d were too much, want 50", n)
	}
}
