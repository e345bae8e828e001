package cluster

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"time"

	"github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"
)

// Update is one of Telegram's updates, as it was put.
type Update struct {
	At  int64 // its place; places go up, and may leave some out
	Raw json.RawMessage
}

// UpdatesID names this very stream of updates. Places in one of another name
// mean nothing in this one.
func (c *Cluster) UpdatesID() string {
	return c.name("updates") + "/" + c.ids[c.name("updates")]
}

// putFor is how long Put tries.
const putFor = 10 * time.Second

// Put keeps an update until a worker has read it. Once it has returned nil, the
// update is on more than half of the servers. One that was put already (within
// some minutes) isn't kept twice, so that a Put that failed can be made again; but
// each update of number 0, which is that of those without one, is another.
// It waits some seconds for servers that don't answer.
func (c *Cluster) Put(ctx context.Context, update, chat int64, raw json.RawMessage) error {
	ctx, cancel := context.WithTimeout(ctx, putFor)
	defer cancel()
	msg := nats.NewMsg(c.subject("updates." + strconv.FormatInt(chat, 10)))
	msg.Data = raw
	options := []jetstream.PublishOpt{jetstream.WithRetryAttempts(0)}
	if update != 0 {
		options = append(options, jetstream.WithMsgID(strconv.FormatInt(update, 10)))
	}
	err := c.patiently(ctx, writes, func(ctx context.Context) error {
		_, err := c.js.PublishMsg(ctx, msg, options...)
		return err
	})
	if api := apiError(err); api != nil && api.ErrorCode == storeFailed {
		err = fmt.Errorf("%w: %w; is a worker running", ErrFull, err)
	}
	if err != nil {
		return fmt.Errorf("update %d: %w", update, err)
	}
	return nil
}

// nextFor is how long Next tries before it says that nobody answers.
const nextFor = 10 * time.Second

// Next waits for updates whose place is behind, and returns them in their order,
// at most so many. Those up to behind must have been dealt with for good: they
// are taken away in time. It fails if nobody answers for some seconds, and can
// simply be called again; it has paused by then. One call at a time.
func (c *Cluster) Next(ctx context.Context, behind int64, most int) ([]Update, error) {
	c.reading.Lock()
	defer c.reading.Unlock()
	c.next.seek(uint64(max(behind, 0)))
	first, err := c.firstNext(ctx)
	if err != nil {
		return nil, fmt.Errorf("reading updates: %w", err)
	}
	c.sweep(ctx, uint64(max(behind, 0)))
	return c.moreNext(ctx, first, most), nil
}

// firstNext waits for an update, and for a server if there is none.
func (c *Cluster) firstNext(ctx context.Context) (read, error) {
	var waited pauses
	var failing time.Time // since when; the watch tries other servers
	for {
		got, err := c.next.next(ctx)
		if err == nil || ctx.Err() != nil {
			return got, err
		}
		if failing.IsZero() {
			failing = time.Now()
		}
		if ended := waited.pause(ctx); ended != nil {
			return read{}, ended
		}
		if time.Since(failing) > nextFor || !c.passing(err) {
			return read{}, err
		}
	}
}

// moreFor is how long Next waits for those that are on their way to this
// process.
const moreFor = 100 * time.Millisecond

// moreNext adds what is there already.
func (c *Cluster) moreNext(ctx context.Context, got read, most int) []Update {
	ctx, cancel := context.WithTimeout(ctx, moreFor)
	defer cancel()
	all := []Update{{At: int64(got.at), Raw: got.Data()}}
	for len(all) < most && got.pending > 0 {
		var err error
		if got, err = c.next.next(ctx); err != nil {
			break // the next call meets it again
		}
		all = append(all, Update{At: int64(got.at), Raw: got.Data()})
	}
	return all
}

// updatesBehind is how many updates are kept that were dealt with, for whoever
// has to go back.
const updatesBehind = 5000

// sweep takes away updates that were dealt with, now and then.
func (c *Cluster) sweep(ctx context.Context, done uint64) {
	if done < c.swept+updatesBehind+updatesBehind/5 {
		return
	}
	err := c.once(ctx, writes, func(ctx context.Context) error {
		return c.updates.Purge(ctx, jetstream.WithPurgeSequence(done-updatesBehind+1))
	})
	if err != nil && !errors.Is(err, context.Canceled) {
		c.log.Warn("updates that were dealt with can't be taken away yet", "error", err)
		return
	}
	c.swept = done - updatesBehind
}
