package telegram_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
	"dogleg/store"
)

// queue stands between those who receive and the one who answers: a post, and
// the feed of what was put there. It knows a number that it had before.
type queue struct {
	name string

	mu      sync.Mutex
	changed chan struct{} // closed and renewed whenever anything happens
	fed     []telegram.Fed
	chats   []int64 // in which the updates of fed are
	known   map[int64]bool
	asked   []int64         // behind which places it was asked
	broken  error           // why it can't be read or written now
	puts    int             // those that failed among them
	held    map[int64]int64 // chats whose puts wait until so many updates are there
}

func newQueue(name string) *queue {
	return &queue{name: name, changed: make(chan struct{}), known: map[int64]bool{}, held: map[int64]int64{}}
}

var errAway = errors.New("no quorum")

func (q *queue) Name() string { return q.name }

func (q *queue) Next(ctx context.Context, behind int64, most int) ([]telegram.Fed, error) {
	q.mu.Lock()
	q.asked = append(q.asked, behind)
	q.mu.Unlock()
	var next []telegram.Fed
	err := q.await(ctx, func() bool {
		next = q.fed[min(behind, int64(len(q.fed))):]
		return len(next) > 0
	})
	return next[:min(most, len(next))], err
}

func (q *queue) Put(ctx context.Context, update, chat int64, raw json.RawMessage) error {
	q.mu.Lock()
	q.puts++
	q.mu.Unlock()
	return q.await(ctx, func() bool {
		if int64(len(q.fed)) < q.held[chat] {
			return false
		}
		if update == 0 || !q.known[update] {
			q.add(chat, raw)
		}
		q.known[update] = true
		return true
	})
}

// await waits until something is done, or it can't be.
func (q *queue) await(ctx context.Context, do func() bool) error {
	for {
		q.mu.Lock()
		changed, broken := q.changed, q.broken
		done := broken == nil && do()
		q.mu.Unlock()
		switch {
		case broken != nil:
			return broken
		case done:
			return nil
		}
		select {
		case <-changed:
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}

// add puts in an update. The lock is held.
func (q *queue) add(chat int64, raw json.RawMessage) {
	q.fed = append(q.fed, telegram.Fed{At: int64(len(q.fed) + 1), Raw: raw})
	q.chats = append(q.chats, chat)
	q.stir()
}

// stir wakes all who wait. The lock is held.
func (q *queue) stir() {
	close(q.changed)
	q.changed = make(chan struct{})
}

// say puts in what somebody says in a private chat.
func (q *queue) say(update, chat int64, text string) {
	q.mu.Lock()
	defer q.mu.Unlock()
	q.add(chat, fmt.Appendf(nil,
		`{"update_id":%d,"message":{"message_id":%d,"date":1,"chat":{"id":%d,"type":"private"},"from":{"id":%d},"text":%q}}`,
		update, update, chat, chat, text))
}

// is makes it fail, or work again with nil.
func (q *queue) is(broken error) {
	q.mu.Lock()
	defer q.mu.Unlock()
	q.broken = broken
	q.stir()
}

// hold has what is put for a chat wait until so many updates are there.
func (q *queue) hold(chat, until int64) {
	q.mu.Lock()
	defer q.mu.Unlock()
	q.held[chat] = until
}

// places are those behind which it was asked.
func (q *queue) places() []int64 {
	q.mu.Lock()
	defer q.mu.Unlock()
	return append([]int64(nil), q.asked...)
}

// there are the updates that it has, and their chats.
func (q *queue) there() ([]telegram.Fed, []int64) {
	q.mu.Lock()
	defer q.mu.Unlock()
	return append([]telegram.Fed(nil), q.fed...), append([]int64(nil), q.chats...)
}

func (q *queue) tries() int {
	q.mu.Lock()
	defer q.mu.Unlock()
	return q.puts
}

// place is where the bot reads on in a feed.
func (j *job) place(feed string) (at int64) {
	j.Helper()
	j.memory.view(j.T, func(tx *store.Tx) {
		at, _ = tx.Cursor(stream, store.Source{Bot: loopback.BotID, Server: feed})
	})
	return at
}

// newFedJob is a job whose bot is fed.
func newFedJob(t *testing.T) (*job, *queue) {
	j, q := newJob(t), newQueue("juniper")
	j.config.Feed = q
	return j, q
}

func TestFeedIsAnswered(t *testing.T) {
	j, q := newFedJob(t)
	j.start()
	q.say(500, 12, "set 10 45s")
	q.say(501, 13, "set 11 45s")
	q.say(502, 12, "set 12 45s")
	j.says(12, "heard set 10 45s", "heard set 12 45s")
	j.says(13, "heard set 11 45s")
	if err := j.end(); err != nil {
		t.Fatal(err)
	}
	if at := j.place("juniper"); at != 4 {
		t.Errorf("reads on at %d, want 4", at)
	}
	if n := len(j.api.Calls("getUpdates")) + len(j.api.Calls("setWebhook")); n > 0 {
		t.Errorf("asked Telegram for updates %d times", n)
	}
}

// A restart reads on behind what was answered, and another feed from its start;
// what was answered before is known by its number, whichever way it came.
func TestFeedIsReadOn(t *testing.T) {
	j, q := newFedJob(t)
	j.config.Feed = nil
	j.api.Number(500)
	j.api.Say(12, "polled") // 500
	j.start()
	j.settle()
	j.end()

	j.config.Feed = q
	q.say(500, 12, "polled")
	q.say(501, 12, "fed")
	j.start()
	j.says(12, "heard polled", "heard fed")
	j.end()

	q.say(502, 12, "after the restart")
	j.start()
	j.says(12, "heard polled", "heard fed", "heard after the restart")
	j.end()
	places := q.places()
	if places[0] != 0 {
		t.Errorf("began behind %d", places[0])
	}
	if last := places[len(places)-1]; last != 3 || !slices.Contains(places, 2) || slices.Contains(places, 1) {
		t.Errorf("asked behind %v", places)
	}

	anew := newQueue("juniper, made anew")
	j.config.Feed = anew
	anew.say(502, 12, "after the restart")
	anew.say(503, 12, "in the new one")
	j.start()
	j.says(12, "heard polled", "heard fed", "heard after the restart", "heard in the new one")
	if n := j.config.Health.Repeated.Load(); n != 2 {
		t.Errorf("%d known again, want 2", n)
	}
}

// The place moves only with the answers, and nothing is read meanwhile.
func TestFeedIsReadOnOnlyAfterCommit(t *testing.T) {
	j, q := newFedJob(t)
	j.start()
	q.say(500, 12, "help")
	j.says(12, "heard help")
	j.memory.failing.Store(true)
	q.say(501, 12, "12 set 45s")
	j.awaitLog("no space left on device")
	if at := j.place("juniper"); at != 2 {
		t.Errorf("reads on at %d, want 2", at)
	}
	if places := q.places(); slices.Contains(places, 2) {
		t.Errorf("asked behind %v", places)
	}
	j.memory.failing.Store(false)
	j.says(12, "heard help", "heard 12 set 45s")
}

func TestFeedThatFailsIsWaitedOut(t *testing.T) {
	j, q := newFedJob(t)
	q.is(errAway)
	j.start()
	j.awaitLog(errAway.Error())
	if j.config.Health.Receiving.Load() {
		t.Error("it says that it receives")
	}
	q.is(nil)
	q.say(500, 12, "12 set 45s")
	j.says(12, "heard 12 set 45s")
	j.await("it receives again", j.config.Health.Receiving.Load)
	j.end()
	if j.config.Health.Receiving.Load() {
		t.Error("it says that it receives after its end")
	}
}

func TestFeedWithAFailureIsNotAskedInASpin(t *testing.T) {
	j, q := newFedJob(t)
	j.config.Timing.Retry, j.config.Timing.RetryMax = time.Hour, time.Hour
	q.is(errAway)
	j.start()
	j.awaitLog(errAway.Error())
	if j.api.Await(patience, func() bool { return len(q.places()) > 1 }) {
		t.Error("asked again at once")
	}
}

// still is a feed that doesn't wait.
type still struct {
	*queue
	fed []telegram.Fed
}

func (s still) Next(_ context.Context, behind int64, _ int) ([]telegram.Fed, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.asked = append(s.asked, behind)
	return s.fed, nil
}

func TestFeedThatStandsStillIsNotAskedInASpin(t *testing.T) {
	same := []telegram.Fed{{At: 1, Raw: []byte(`{"update_id":9,"message":{"message_id":1,"date":1,"chat":{"id":12,"type":"private"},"text":"12 set"}}`)}}
	for name, c := range map[string]struct {
		fed  []telegram.Fed
		want int // times it is asked
	}{"with nothing": {nil, 1}, "with the same": {same, 2}} {
		t.Run(name, func(t *testing.T) {
			j, q := newFedJob(t)
			j.config.Feed = still{q, c.fed}
			j.config.Timing.Breath = time.Hour
			j.start()
			j.await("it is asked", func() bool { return len(q.places()) == c.want })
			if j.api.Await(patience, func() bool { return len(q.places()) > c.want }) {
				t.Error("asked again at once")
			}
		})
	}
}

// What can't be read, or at which the conversation panics, stops nothing.
func TestPoisonInTheFeed(t *testing.T) {
	j, q := newFedJob(t)
	j.memory.answer = func(q telegram.Question) string {
		if q.Text == "boom" {
			panic("index out of range")
		}
		return "heard " + q.Text
	}
	q.mu.Lock()
	q.add(0, json.RawMessage(`{"update_id":400,"message":[]}`))
	q.add(0, json.RawMessage(`7`))
	q.mu.Unlock()
	q.say(500, 13, "boom")
	q.say(501, 12, "12 set 45s")
	j.start()
	j.says(12, "heard 12 set 45s")
	if n := len(j.memory.quarantined(t)); n != 3 {
		t.Errorf("%d in quarantine, want 3", n)
	}
	if at := j.place("juniper"); at != 5 {
		t.Errorf("reads on at %d, want 5", at)
	}
}

// Where too much is unsent, the rest stays in the feed.
func TestFeedWaitsForTheOutbox(t *testing.T) {
	j, q := newFedJob(t)
	j.config.Window = 1 // byte
	j.api.Plant(loopback.Fault{Method: send, Hang: true, Times: -1})
	j.config.Timing.Finish = time.Millisecond
	j.start()
	q.say(500, 12, "12 set 45s")
	j.await("a message on its way", func() bool { return len(j.api.Calls(send)) > 0 })
	q.say(501, 13, "13 set 45s")
	if j.api.Await(patience, func() bool { return j.place("juniper") > 2 }) {
		t.Error("read on although nothing can be sent")
	}
}

// Whose place is taken sends nothing more: the outbox is another's.
func TestDeposedSendsNothing(t *testing.T) {
	j, q := newFedJob(t)
	j.config.Timing.Finish = time.Hour // nothing is finished
	j.api.Plant(loopback.Fault{Method: send, Hang: true})
	ctx, end := context.WithCancelCause(t.Context())
	over := make(chan error, 1)
	go func() { over <- telegram.Serve(ctx, j.config) }()
	q.say(500, 12, "12 set 45s")
	q.say(501, 12, "13 set 45s")
	j.await("a message on its way", func() bool { return len(j.api.Calls(send)) == 1 && j.place("juniper") == 3 })
	end(fmt.Errorf("lease lost: %w", telegram.ErrDeposed))
	select {
	case err := <-over:
		if !errors.Is(err, telegram.ErrDeposed) {
			t.Errorf("got %v", err)
		}
	case <-time.After(soon):
		t.Fatal("it doesn't end")
	}
	if n := len(j.api.Calls(send)); n != 1 {
		t.Errorf("sent %d times", n)
	}
	if n := len(j.memory.outbox(t)); n != 2 {
		t.Errorf("%d in the outbox, want both", n)
	}
	j.start() // the other
	j.says(12, "heard 12 set 45s", "heard 13 set 45s")
}
