package telegram_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"sync/atomic"
	"testing"
	"time"

	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
)

// Updates that come in another order, and each twice, are each answered once,
// those of a chat in the order they came.
func TestReorderedAndDoubledUpdates(t *testing.T) {
	j := newJob(t)
	for n := range 15 {
		for chat := range int64(3) {
			j.api.Say(chat+1, fmt.Sprint(n))
		}
	}
	batch := j.api.Unconfirmed()
	random := rand.New(rand.NewPCG(8, 8))
	mixed := slices.Concat(batch, batch)
	random.Shuffle(len(mixed), func(a, b int) { mixed[a], mixed[b] = mixed[b], mixed[a] })
	first := map[int64][]string{}
	seen := map[string]bool{}
	for _, raw := range mixed {
		var u struct {
			Message struct {
				Chat struct{ ID int64 }
				Text string
			}
		}
		if err := json.Unmarshal(raw, &u); err != nil {
			t.Fatal(err)
		}
		if !seen[string(raw)] {
			first[u.Message.Chat.ID] = append(first[u.Message.Chat.ID], "heard "+u.Message.Text)
		}
		seen[string(raw)] = true
	}
	j.api.Drop()
	j.api.Redeliver(mixed...)
	j.start()
	for chat, want := range first {
		j.says(chat, want...)
	}
	if n := len(j.memory.questions()); n != 45 {
		t.Errorf("the conversation was asked %d times, want 45", n)
	}
}

// A clock that jumps by years, both ways, loses nothing and doubles nothing.
func TestClockThatJumps(t *testing.T) {
	j := newJob(t)
	var years atomic.Int64
	clock := func() time.Time { return time.Now().AddDate(int(years.Load()), 0, 0) }
	j.config.Now, j.memory.db.Now = clock, clock
	var want []string
	var all []json.RawMessage
	j.start()
	for n, jump := range []int64{0, 20, -20, 0, 1, -1} {
		years.Store(jump)
		j.api.Say(12, fmt.Sprint(n))
		all = append(all, j.api.Unconfirmed()...)
		want = append(want, fmt.Sprint("heard ", n))
		j.says(12, want...)
		j.settle()
		j.api.Redeliver(all...)
		j.settle()
	}
	j.says(12, want...)
}

// A token that is taken back while the bot runs ends it, soon and in order; with
// one that is known again nothing is lost and nothing said twice.
func TestTokenTakenBack(t *testing.T) {
	j := newJob(t)
	j.start()
	j.api.Say(12, "before")
	j.says(12, "heard before")
	j.settle()
	revoked := loopback.Refuse("", 401, "Unauthorized")
	revoked.Times = -1
	j.api.Plant(revoked)
	j.api.Say(12, "meanwhile")
	select {
	case err := <-j.over:
		j.stop = nil
		if !errors.Is(err, telegram.ErrToken) {
			t.Errorf("ended with %v", err)
		}
	case <-time.After(soon):
		t.Fatal("it goes on")
	}
	introduced := len(j.api.Calls("getMe")) // other calls of the first run may still come in
	if err := telegram.Serve(context.Background(), j.config); !errors.Is(err, telegram.ErrToken) {
		t.Errorf("started again: %v", err)
	}
	if n := len(j.api.Calls("getMe")) - introduced; n != 1 {
		t.Errorf("%d tries with a token that isn't known, want 1", n)
	}
	j.api.Mend()
	j.start()
	j.api.Say(12, "after")
	j.says(12, "heard before", "heard meanwhile", "heard after")
	j.settle()
}

// The network is away for a long while: it is tried again and again, but never
// in a hot loop, and then all is answered, once and in order.
func TestNetworkAwayForLong(t *testing.T) {
	j := newJob(t)
	j.start()
	j.api.Say(12, "before")
	j.says(12, "heard before")
	j.api.Plant(loopback.Fault{Method: "sendMessage", Lost: false, Status: 502, Body: "<html>", Times: 1})
	away := loopback.Fault{Status: 503, Times: -1, Body: "<html>"}
	j.api.Say(12, "last words")
	j.await("the last message that came through", func() bool { return len(j.memory.questions()) == 2 })
	j.api.Plant(away)
	began, calls := time.Now(), len(j.api.Calls(""))
	for n := range 20 {
		j.api.Say(12, fmt.Sprint(n))
	}
	j.await("many tries", func() bool { return len(j.api.Calls(""))-calls > 40 })
	// A poller and a line of messages try; each waits at least half of RetryMax
	// once it has failed four times.
	most := 2 * (8 + int(time.Since(began)/(quick.RetryMax/2)))
	if n := len(j.api.Calls("")) - calls; n > most {
		t.Errorf("%d calls in %v, want at most %d", n, time.Since(began), most)
	}
	j.api.Mend()
	want := []string{"heard before", "heard last words"}
	for n := range 20 {
		want = append(want, fmt.Sprint("heard ", n))
	}
	j.says(12, want...)
	j.settle()
}

// Everything goes wrong at once, at random, for hundreds of calls: each message
// is answered in order, and not one is lost. Only where the server took a message
// without saying so may an answer come twice.
func TestStormOfFaults(t *testing.T) {
	j := newJob(t)
	j.config.Timing.Send, j.config.Timing.PollEnds = 200*time.Millisecond, 300*time.Millisecond
	const chats, each = 6, 20
	random := rand.New(rand.NewPCG(16, 4))
	kinds := []loopback.Fault{
		{Status: 502, Body: "<html><h1>502</h1>"},
		{Status: 500, Body: `{"ok":false,"error_code":500,"description":"Internal"}`},
		{Status: 200, Body: "OK"},
		{Status: 200, Body: ""},
		{Status: 200, Body: `{"ok":true,"result":`},
		{Status: 404, Body: "<html>not here"},
		{Half: true},
		{Lost: true},
		{Hang: true},
		{Delay: 50 * time.Millisecond},
	}
	unsure := 0
	for range 150 {
		f := kinds[random.IntN(len(kinds))]
		f.Method = []string{"getUpdates", "sendMessage"}[random.IntN(2)]
		if f.Method == "sendMessage" && (f.Half || f.Lost) {
			unsure++
		}
		j.api.Plant(f)
	}
	j.start()
	for n := range each {
		for chat := range int64(chats) {
			j.api.Say(chat+1, fmt.Sprint(n))
		}
	}
	j.settle()
	if err := j.end(); err != nil {
		t.Error(err)
	}
	sent := 0
	for chat := range int64(chats) {
		j.answeredAll(chat+1, each)
		sent += len(j.delivered(chat + 1))
	}
	unsure += j.givenUp()
	if sent > chats*each+unsure {
		t.Errorf("%d answers to %d messages, where %d responses were lost", sent, chats*each, unsure)
	}
}
