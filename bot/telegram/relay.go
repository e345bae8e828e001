package telegram

import (
	"context"
	"encoding/json"
	"log/slog"
	"sync"
)

// Post is where [Relay] hands what it receives, for a [Feed] to bring to the
// one who answers.
type Post interface {
	// Put returns when an update can't be lost any more, or with an error. It is
	// called again after an error, and after a restart with updates that it has:
	// what has the same number is the same. A number of 0 is that of what has
	// none, and each of these is another. Chat is where the update belongs, 0 if
	// nobody knows: those of one chat are put one after the other, in order. It
	// is called by several goroutines, and ends when the context does.
	Put(ctx context.Context, update, chat int64, raw json.RawMessage) error
}

// RelayConfig is what Relay needs. The zero values of all but Token and Post are
// those of real use.
type RelayConfig struct {
	Token   string
	Base    string // of the Bot API server, without a slash at the end
	Post    Post
	Webhook *Webhook // nil: polling
	Log     *slog.Logger
	Health  *Health // its own, not that of a Serve beside it
	Timing  Timing
}

// relay is one run of Relay.
type relay struct {
	*edge
	post Post
	last bookmark // of the batch before
}

// Relay receives updates as [Serve] does and hands each to a [Post] instead of
// answering it. A poll is confirmed, and Telegram's call answered, only when all
// of it is there. It remembers nothing: what it had received and not confirmed
// when it ended comes again.
//
// With a webhook any number may relay for one bot, behind one address; of those
// who poll Telegram lets only one.
//
// It runs until the context ends, and then returns nil; an error, soon, if the
// token is not known ([ErrToken]). All else that goes wrong, a Post that fails
// among it, is logged, waited for and tried again.
func Relay(ctx context.Context, c RelayConfig) error {
	r := &relay{post: c.Post, edge: newEdge(Config{
		Token: c.Token, Base: c.Base, Webhook: c.Webhook, Log: c.Log, Health: c.Health, Timing: c.Timing,
	})}
	defer r.client.Close()
	if err := r.introduce(ctx); err != nil {
		return unlessEnded(ctx, err)
	}
	r.Log.Info("relaying", "bot", r.self.Username, "id", r.self.ID)
	if r.Webhook != nil {
		return unlessEnded(ctx, r.listen(ctx, r))
	}
	last, err := r.poll(ctx, 0, r)
	if err = unlessEnded(ctx, err); err == nil && last != 0 {
		r.confirm(last)
	}
	return err
}

// room: what holds back is Put.
func (r *relay) room(ctx context.Context) bool { return ctx.Err() == nil }

// keep puts updates, again and again until all are there. What comes a second
// time can be told only where it follows on itself, which is where it would spin.
func (r *relay) keep(ctx context.Context, list []*received, on bookmark) (fresh, kept bool) {
	for failures := 0; ; failures++ {
		left, err := r.put(ctx, list)
		r.Health.Relayed.Add(int64(len(list) - len(left)))
		if err == nil {
			r.Health.Receiving.Store(true)
			fresh = on != r.last
			r.last = on
			return fresh, true
		}
		if ctx.Err() != nil {
			return false, false
		}
		r.Health.Receiving.Store(false)
		r.Log.Error("updates can't be handed on", "updates", len(left), "error", err)
		if !r.pause(ctx, r.patience(err, failures)) {
			return false, false
		}
		list = left
	}
}

// put puts updates once: those of a chat in order up to the first that fails,
// the chats side by side. It returns what is left, and why.
func (r *relay) put(ctx context.Context, list []*received) (left []*received, err error) {
	ctx, cancel := context.WithTimeout(ctx, r.Timing.Send)
	defer cancel()
	var mu sync.Mutex
	var putting sync.WaitGroup
	for _, line := range byChat(list) {
		putting.Go(func() {
			done, failed := r.putLine(ctx, line)
			mu.Lock()
			defer mu.Unlock()
			left = append(left, line[done:]...)
			if err == nil {
				err = failed
			}
		})
	}
	putting.Wait()
	return left, err
}

// putLine puts updates one after the other and says how many are there.
func (r *relay) putLine(ctx context.Context, line []*received) (done int, err error) {
	for i, u := range line {
		if err := r.post.Put(ctx, u.id, u.chat(), u.raw); err != nil {
			return i, err
		}
	}
	return len(line), nil
}

// byChat parts updates by the chats that they belong to.
func byChat(list []*received) map[int64][]*received {
	lines := map[int64][]*received{}
	for _, r := range list {
		lines[r.chat()] = append(lines[r.chat()], r)
	}
	return lines
}

// chat is where an update belongs: a person's own chat with us, where it was in
// none. It is 0 where that can't be read.
func (r *received) chat() int64 {
	u := r.update
	switch {
	case r.bad != nil:
		return 0
	case u.Message != nil:
		return u.Message.Chat.ID
	case u.Edited != nil:
		return u.Edited.Chat.ID
	case u.Button != nil && u.Button.Message != nil:
		return u.Button.Message.Chat.ID
	case u.Button != nil && u.Button.From != nil:
		return u.Button.From.ID
	case u.Inline != nil && u.Inline.From != nil:
		return u.Inline.From.ID
	case u.Standing != nil:
		return u.Standing.Chat.ID
	}
	return 0
}
