package telegram_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
)

// relayed is what a relay of this job would be set up with.
func (j *job) relayed(to telegram.Post) telegram.RelayConfig {
	return telegram.RelayConfig{
		Token: j.config.Token, Base: j.config.Base, Webhook: j.config.Webhook,
		Log: j.config.Log, Timing: j.config.Timing, Post: to, Health: new(telegram.Health),
	}
}

// relay runs a relay until the returned function is called, or the test ends.
func (j *job) relay(c telegram.RelayConfig) (end func()) {
	ctx, stop := context.WithCancel(context.Background())
	over := make(chan error, 1)
	go func() { over <- telegram.Relay(ctx, c) }()
	end = sync.OnceFunc(func() {
		stop()
		select {
		case err := <-over:
			if err != nil {
				j.Error(err)
			}
		case <-time.After(soon):
			j.Error("the relay does not stop")
		}
	})
	j.Cleanup(end)
	return end
}

// numbers are those of the updates in a queue, in order.
func (q *queue) numbers(t *testing.T) (all []int64) {
	t.Helper()
	fed, _ := q.there()
	for _, f := range fed {
		var u struct {
			ID int64 `json:"update_id"`
		}
		if err := json.Unmarshal(f.Raw, &u); err != nil {
			t.Fatal(err)
		}
		all = append(all, u.ID)
	}
	return all
}

func TestRelayKnowsTheChat(t *testing.T) {
	j, q := newJob(t), newQueue("juniper")
	want := map[string]int64{} // chats by the update
	for content, chat := range map[string]int64{
		`"message":{"message_id":1,"date":1,"chat":{"id":12,"type":"private"},"text":"12 set"}`:                 12,
		`"message":{"message_id":1,"date":1,"chat":{"id":-40,"type":"group"},"from":{"id":13},"text":"12 set"}`: -40,
		`"edited_message":{"message_id":1,"date":1,"chat":{"id":14,"type":"private"},"text":"12 set"}`:          14,
		`"callback_query":{"id":"7","from":{"id":15},"message":{"message_id":1,"date":1,"chat":{"id":-41}}}`:    -41,
		`"callback_query":{"id":"8","from":{"id":16},"inline_message_id":"y","data":"x"}`:                       16,
		`"inline_query":{"id":"9","from":{"id":17},"query":"12 set","offset":""}`:                               17,
		`"my_chat_member":{"chat":{"id":18},"from":{"id":18},"new_chat_member":{"status":"kicked"}}`:            18,
		`"message":{"message_id":1,"date":"noon","chat":{"id":19,"type":"private"}}`:                            0,
		`"message":[]`:                0,
		`"poll":{"id":"5"}`:           0,
		`"callback_query":{"id":"7"}`: 0,
	} {
		want[fmt.Sprintf(`{"update_id":%d,%s}`, j.api.PushRaw(content), content)] = chat
	}
	c := j.relayed(q)
	j.relay(c)
	j.await("all confirmed", func() bool { return len(j.api.Unconfirmed()) == 0 })
	fed, chats := q.there()
	if len(fed) != len(want) || c.Health.Relayed.Load() != int64(len(want)) {
		t.Errorf("%d there and %d counted, of %d", len(fed), c.Health.Relayed.Load(), len(want))
	}
	for i, f := range fed {
		if chat, ok := want[string(f.Raw)]; !ok || chat != chats[i] {
			t.Errorf("chat %d, want %d: %s", chats[i], chat, f.Raw)
		}
	}
}

// A poll is confirmed when all that it brought is there, and not before.
func TestRelayConfirmsOnlyWhatIsThere(t *testing.T) {
	j, q := newJob(t), newQueue("juniper")
	q.hold(13, 3)
	j.api.Say(12, "12 set 45s")
	j.api.Say(13, "13 set 45s")
	end := j.relay(j.relayed(q))
	j.await("the other chat's", func() bool { fed, _ := q.there(); return len(fed) == 1 })
	if j.api.Await(patience, func() bool { return len(j.api.Unconfirmed()) < 2 || len(j.api.Calls("getUpdates")) > 1 }) {
		t.Error("confirmed, or polled again, before all was there")
	}
	end() // and begun again, where one of the two is there
	q.hold(13, 0)
	j.relay(j.relayed(q))
	j.await("all confirmed", func() bool { return len(j.api.Unconfirmed()) == 0 })
	if got := q.numbers(t); !slices.Equal(got, []int64{1, 2}) {
		t.Errorf("there are %v", got)
	}
}

// What was put when it is told to end is confirmed, so that it need not come
// again.
func TestRelayConfirmsAtItsEnd(t *testing.T) {
	j, q := newJob(t), newQueue("juniper")
	j.api.Say(12, "12 set 45s")
	ctx, stop := context.WithCancel(t.Context())
	err := telegram.Relay(ctx, j.relayed(post(func(_ context.Context, update, chat int64, raw json.RawMessage) error {
		stop() // in the middle of it
		return q.Put(t.Context(), update, chat, raw)
	})))
	if fed, _ := q.there(); err != nil || len(fed) != 1 || len(j.api.Unconfirmed()) > 0 {
		t.Errorf("%d there, %d unconfirmed, %v", len(fed), len(j.api.Unconfirmed()), err)
	}
}

// post is a function as a post.
type post func(ctx context.Context, update, chat int64, raw json.RawMessage) error

func (p post) Put(ctx context.Context, update, chat int64, raw json.RawMessage) error {
	return p(ctx, update, chat, raw)
}

// Within a chat the order is kept, and a chat whose put takes its time holds up
// no other.
func TestRelayKeepsEachChatsOrder(t *testing.T) {
	j, q := newJob(t), newQueue("juniper")
	for n := range 5 {
		for chat := range int64(4) {
			j.api.Say(chat+1, fmt.Sprint(n))
		}
	}
	q.hold(1, 15) // the first waits for all the others
	j.relay(j.relayed(q))
	j.await("all confirmed", func() bool { return len(j.api.Unconfirmed()) == 0 })
	fed, chats := q.there()
	next := map[int64]int{}
	for i, f := range fed {
		if want := fmt.Sprintf(`"text":"%d"`, next[chats[i]]); !strings.Contains(string(f.Raw), want) {
			t.Errorf("chat %d: %s, want %s", chats[i], f.Raw, want)
		}
		next[chats[i]]++
	}
	if len(fed) != 20 || chats[19] != 1 {
		t.Errorf("%d there, the last of chat %d", len(fed), chats[len(chats)-1])
	}
}

// A post that fails is waited out; what was put is not put again, and until all
// is there the relay says that it isn't ready.
func TestRelayWaitsOutThePost(t *testing.T) {
	j, q := newJob(t), newQueue("juniper")
	j.api.Say(12, "12 set 45s")
	j.api.Say(12, "13 set 45s")
	var mu sync.Mutex
	failures, put, unready := 0, []int64{}, false
	health := new(telegram.Health)
	c := j.relayed(post(func(ctx context.Context, update, chat int64, raw json.RawMessage) error {
		mu.Lock()
		defer mu.Unlock()
		unready = unready || update == 2 && failures > 0 && !health.Receiving.Load()
		if update == 2 && failures < 3 {
			failures++
			return errAway
		}
		put = append(put, update)
		return q.Put(ctx, update, chat, raw)
	}))
	c.Health = health
	j.relay(c)
	j.await("all confirmed", func() bool { return len(j.api.Unconfirmed()) == 0 })
	mu.Lock()
	defer mu.Unlock()
	if !slices.Equal(put, []int64{1, 2}) || failures != 3 {
		t.Errorf("put %v after %d failures", put, failures)
	}
	if !unready || !health.Receiving.Load() {
		t.Errorf("unready meanwhile: %v; ready after it: %v", unready, health.Receiving.Load())
	}
}

// One that answers nothing is asked again after a while.
func TestRelayGivesUpAPutThatHangs(t *testing.T) {
	j, q := newJob(t), newQueue("juniper")
	c := j.relayed(q)
	c.Timing.Send = 20 * time.Millisecond
	q.hold(12, 1)
	j.api.Say(12, "12 set 45s")
	j.relay(c)
	j.await("another try", func() bool { return q.tries() > 2 })
	q.hold(12, 0)
	j.await("all confirmed", func() bool { return len(j.api.Unconfirmed()) == 0 })
}

func TestRelayDoesNotSpin(t *testing.T) {
	t.Run("a post that fails", func(t *testing.T) {
		j, q := newJob(t), newQueue("juniper")
		c := j.relayed(q)
		c.Timing.Retry, c.Timing.RetryMax = time.Hour, time.Hour
		q.is(errAway)
		j.api.Say(12, "12 set 45s")
		j.relay(c)
		j.awaitLog(errAway.Error())
		if j.api.Await(patience, func() bool { return q.tries() > 1 }) {
			t.Error("put again at once")
		}
	})
	for name, result := range map[string]string{
		"the same again and again": `[{"update_id":9,"message":{"message_id":1,"date":1,"chat":{"id":12,"type":"private"},"text":"12 set"}}]`,
		"what has no number":       `[7]`,
		"nothing":                  `[]`,
	} {
		t.Run(name, func(t *testing.T) {
			j, q := newJob(t), newQueue("juniper")
			c := j.relayed(q)
			c.Timing.Breath = time.Hour
			j.api.Plant(loopback.Fault{Method: "getUpdates", Status: 200, Body: `{"ok":true,"result":` + result + `}`, Times: -1})
			j.relay(c)
			j.await("a poll", func() bool { return len(j.api.Calls("getUpdates")) > 0 })
			if j.api.Await(patience, func() bool { return len(j.api.Calls("getUpdates")) > 2 }) {
				t.Error("polled again at once")
			}
		})
	}
}

func TestRelayEndsWhereTheTokenIsNotKnown(t *testing.T) {
	for method, fault := range map[string]loopback.Fault{
		"getMe":      loopback.Refuse("getMe", 401, "Unauthorized"),
		"getUpdates": loopback.Refuse("getUpdates", 401, "Unauthorized"),
	} {
		t.Run(method, func(t *testing.T) {
			j := newJob(t)
			j.api.Plant(fault)
			if err := telegram.Relay(t.Context(), j.relayed(newQueue("juniper"))); !errors.Is(err, telegram.ErrToken) {
				t.Errorf("got %v", err)
			}
		})
	}
}

// A call of Telegram's is answered with 200 only when its update is there.
func TestRelayAnswersACallOnlyWhenItIsThere(t *testing.T) {
	p, q := newWebhookJob(t), newQueue("juniper")
	q.is(errAway)
	c := p.relayed(q)
	end := p.relay(c)
	p.secretTold()
	p.api.Say(12, "12 set 45s")
	p.api.Say(13, "13 set 45s")
	p.await("it tries", func() bool { return strings.Count(p.log.String(), errAway.Error()) > 2 })
	if n := len(p.api.Unconfirmed()); n != 2 {
		t.Errorf("%d updates are with the server, of 2 that aren't there", n)
	}
	if status := p.send("GET", "/readyz", "", nil); status != 503 {
		t.Errorf("ready: %d", status)
	}
	q.is(nil)
	p.await("all confirmed", func() bool { return len(p.api.Unconfirmed()) == 0 })
	if status := p.send("GET", "/readyz", "", nil); status != 200 {
		t.Errorf("ready: %d", status)
	}
	got := q.numbers(t)
	slices.Sort(got)
	if !slices.Equal(got, []int64{1, 2}) {
		t.Errorf("there are %v", got)
	}
	q.is(errAway)
	p.api.Say(12, "14 set 45s")
	end()
	if n := len(p.api.Unconfirmed()); n != 1 {
		t.Errorf("%d updates are with the server after the end, of 1 that isn't there", n)
	}
}

// People write, two relays take turns at receiving, and one serves what they
// hand on: everybody is answered, once and in order.
func TestRelaysAndServe(t *testing.T) {
	j, q := newFedJob(t)
	j.start()
	for round := range 4 {
		end := j.relay(j.relayed(q))
		for chat := range int64(10) {
			j.api.Say(chat+1, fmt.Sprint("set ", 10+round))
		}
		if round%2 == 0 { // in the middle of it
			j.await("something there", func() bool { fed, _ := q.there(); return len(fed) > 10*round })
		} else {
			j.await("all confirmed", func() bool { return len(j.api.Unconfirmed()) == 0 })
		}
		end()
	}
	j.relay(j.relayed(q))
	for chat := range int64(10) {
		j.says(chat+1, "heard set 10", "heard set 11", "heard set 12", "heard set 13")
	}
	j.settle()
}
