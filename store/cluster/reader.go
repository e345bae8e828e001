package cluster

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"

	"github.com/nats-io/nats.go/jetstream"
)

// reader reads a stream in its order, from behind a sequence, for ever. It has
// a consumer at the server, which it makes anew when that is lost with its
// server or a message got lost on the way.
type reader struct {
	c      *Cluster
	stream string
	behind uint64 // sequence in the stream of what was read last

	messages jetstream.MessagesContext // nil: there is no consumer
	counted  uint64                    // what the consumer has sent, of which none may be missing
}

// How a consumer is looked after: one whose server is gone is noticed after two
// beats.
const (
	beat      = time.Second
	pullFor   = 10 * time.Second
	unusedFor = 30 * time.Second
	readAhead = 128
)

// read is a message and where it stood.
type read struct {
	jetstream.Msg
	at      uint64
	pending uint64 // how many are behind it
}

// next waits for the next message. After an error the reader reads on where it
// was; whoever calls pauses before.
func (r *reader) next(ctx context.Context) (read, error) {
	for {
		if r.messages == nil {
			if err := r.open(ctx); err != nil {
				return read{}, err
			}
		}
		msg, err := r.messages.Next(jetstream.NextContext(ctx))
		if err != nil {
			if ctx.Err() != nil {
				return read{}, context.Cause(ctx) // the consumer is sound
			}
			r.close()
			return read{}, err
		}
		about, err := msg.Metadata()
		if err != nil {
			r.close()
			return read{}, err
		}
		if about.Sequence.Consumer != r.counted+1 || about.Sequence.Stream <= r.behind {
			r.close() // something was lost on the way: from where we stand, once more
			continue
		}
		r.counted, r.behind = about.Sequence.Consumer, about.Sequence.Stream
		return read{msg, about.Sequence.Stream, about.NumPending}, nil
	}
}

// seek goes to another place, or stays where it is the same.
func (r *reader) seek(behind uint64) {
	if behind != r.behind {
		r.close()
		r.behind = behind
	}
}

// open makes a consumer that begins behind what was read.
func (r *reader) open(ctx context.Context) error {
	ctx, cancel := context.WithTimeout(ctx, attempt)
	defer cancel()
	if _, err := r.c.same(ctx, r.stream); err != nil {
		return err
	}
	consumer, err := r.c.js.CreateConsumer(ctx, r.stream, jetstream.ConsumerConfig{
		DeliverPolicy:     jetstream.DeliverByStartSequencePolicy,
		OptStartSeq:       r.behind + 1,
		AckPolicy:         jetstream.AckNonePolicy,
		MemoryStorage:     true,
		Replicas:          1,
		InactiveThreshold: unusedFor,
	})
	if err != nil {
		return err
	}
	r.messages, err = consumer.Messages(
		jetstream.PullMaxMessages(readAhead), jetstream.PullExpiry(pullFor), jetstream.PullHeartbeat(beat),
	)
	r.counted = 0
	return err
}

// close lets the consumer go; its server takes it away when nobody has used it
// for a while.
func (r *reader) close() {
	if r.messages != nil {
		r.messages.Stop()
		r.messages = nil
	}
}

// same returns what there is to know of a stream, unless it is another than the
// one that was opened.
func (c *Cluster) same(ctx context.Context, name string) (*jetstream.StreamInfo, error) {
	stream, err := c.js.Stream(ctx, name)
	missing := errors.Is(err, jetstream.ErrStreamNotFound)
	if often := c.unseen.note(name, missing); missing && often < convinced {
		return nil, fmt.Errorf("%w: %w", errUnseen, err)
	}
	if missing || err == nil && stream.CachedInfo().Config.Metadata[idKey] != c.ids[name] {
		return nil, fmt.Errorf("%w: %s", ErrReplaced, name)
	}
	if err != nil {
		return nil, err
	}
	return stream.CachedInfo(), nil
}

// errUnseen: a server doesn't know a stream that was there. One that has just come
// back answers so before it has read all that it keeps.
var errUnseen = errors.New("a server doesn't know the stream, or not yet")

// unseen counts how often in a row the servers didn't know a stream.
type unseen struct {
	mu    sync.Mutex
	times map[string]int
}

func (u *unseen) note(name string, missing bool) (often int) {
	u.mu.Lock()
	defer u.mu.Unlock()
	if !missing {
		delete(u.times, name)
		return 0
	}
	if u.times == nil {
		u.times = map[string]int{}
	}
	u.times[name]++
	return u.times[name]
}
