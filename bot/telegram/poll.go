package telegram

import (
	"context"
	"encoding/json"
	"errors"
	"time"

	"dogleg/bot/telegram/wire"
)

// sink is where updates go that were received.
type sink interface {
	// room waits until there is room for more. It is false if the context ended
	// first.
	room(ctx context.Context) bool

	// keep returns when the updates are where they can't be lost any more, and
	// says whether any of them was not known before. It is not kept if the run
	// ended first. The bookmark, unless it is the zero one, is kept with them.
	keep(ctx context.Context, list []*received, on bookmark) (fresh, kept bool)
}

// bookmark is where to read on in a stream of updates.
type bookmark struct {
	Source
	at int64
}

// mostUpdates is how many updates one poll brings at most, by the Bot API.
const mostUpdates = 100

// poll polls from an offset on until the context ends. It returns the offset
// that the server has not been told yet, 0 if there is none.
func (e *edge) poll(ctx context.Context, offset int64, to sink) (unconfirmed int64, err error) {
	defer e.Health.Receiving.Store(false)
	for failures := 0; to.room(ctx); {
		asked := time.Now()
		batch, err := e.client.GetUpdates(ctx, offset, mostUpdates, e.Timing.Poll, e.Timing.PollEnds)
		switch {
		case ctx.Err() != nil:
			return unconfirmed, nil
		case wire.VerdictOn(err) == wire.Hopeless:
			return unconfirmed, unknownToken(err)
		case err != nil:
			wait := e.patience(err, failures)
			if e.noteFailedPoll(ctx, err) && failures == 0 { // what was in the way is gone
				wait = 0
			}
			e.pause(ctx, wait)
			failures++
			continue
		}
		failures, unconfirmed = 0, 0
		e.Health.Polls.Add(1)
		e.Health.Receiving.Store(true)
		e.Health.LastPoll.Store(e.Now().Unix())
		last, fresh := e.take(ctx, batch, to)
		if last != 0 {
			offset, unconfirmed = last+1, last+1
		}
		if !fresh { // to ask again at once would spin, and the server punishes it
			e.pause(ctx, e.Timing.Breath-time.Since(asked))
		}
	}
	return unconfirmed, nil
}

// take has a batch kept and returns the number of the last update in it, and
// whether any was not known before. It returns only when the batch is kept, or
// with 0 when the run ends first or no update in the batch had a number.
//
// The last update is the last received, which need not have the highest
// number.
func (e *edge) take(ctx context.Context, batch []json.RawMessage, to sink) (last int64, fresh bool) {
	var list []*received
	for _, raw := range batch {
		r := receive(raw)
		list = append(list, r)
		if r.id != 0 {
			last = r.id
		}
	}
	if len(list) == 0 {
		return 0, false
	}
	on := bookmark{}
	if last != 0 {
		on = bookmark{e.source(), last + 1}
	}
	fresh, kept := to.keep(ctx, list, on)
	if !kept {
		return 0, false
	}
	return last, fresh && last != 0
}

// noteFailedPoll tells of a poll that failed, and says whether what made it fail was
// taken out of the way.
func (e *edge) noteFailedPoll(ctx context.Context, err error) (mended bool) {
	e.Health.Receiving.Store(false)
	var r *wire.Refusal
	switch {
	case webhookIsSet(err):
		return e.leaveWebhook(ctx)
	case errors.As(err, &r) && r.Code == 409:
		e.Health.Rivals.Add(1)
		e.Log.Error("another process polls with this token", "error", err)
	default:
		e.Log.Warn("poll failed", "error", err)
	}
	return false
}

// confirm tells the server what has arrived, as the next poll would have.
func (e *edge) confirm(offset int64) {
	if _, err := e.client.GetUpdates(context.Background(), offset, 1, 0, e.Timing.Toast); err != nil {
		e.Log.Warn("the last updates could not be confirmed; they will come again and be known", "error", err)
	}
}
