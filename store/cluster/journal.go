package cluster

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"time"

	"github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"
	"github.com/nats-io/nuid"
)

// Headers of a message in the journal.
const (
	writeHeader  = "Dogleg-Write"  // a word for what is written at once, that nothing else has
	pieceHeader  = "Dogleg-Piece"  // which piece of it this is, from 1
	piecesHeader = "Dogleg-Pieces" // how many there are
	loadHeader   = "Dogleg-Load"   // instead of changes: the object that is the database from here on
)

// largestPiece is how many bytes of changes go into one message; servers take
// messages of 1 MB unless they are told otherwise.
const largestPiece = 512 << 10

// errShort: the journal ends before a place that it acknowledged.
var errShort = errors.New("the servers have lost what they had acknowledged")

// pieces divides what is written at once into messages. There is always one:
// nothing at all is a fence.
func (c *Cluster) pieces(changes []byte) (all []*nats.Msg) {
	parts := slices.Collect(slices.Chunk(changes, c.pieceSize()))
	if len(parts) == 0 {
		parts = [][]byte{nil}
	}
	write := nuid.Next()
	for i, part := range parts {
		msg := nats.NewMsg(c.subject("journal"))
		msg.Header.Set(writeHeader, write)
		msg.Header.Set(pieceHeader, strconv.Itoa(i+1))
		msg.Header.Set(piecesHeader, strconv.Itoa(len(parts)))
		msg.Data = part
		all = append(all, msg)
	}
	return all
}

// pieceSize leaves room for the headers.
func (c *Cluster) pieceSize() int { return int(min(largestPiece, c.conn.MaxPayload()/2)) }

// append writes a message into the journal right behind a place, or fails with
// ErrDeposed if something else is there. It goes on until there is a definite
// answer or ctx ends; then the message may be in the journal or not.
func (c *Cluster) append(ctx context.Context, behind uint64, msg *nats.Msg) (at uint64, err error) {
	var waited pauses
	var short shortness
	for {
		at, err = c.publish(ctx, behind, msg)
		switch {
		case err == nil:
			return at, nil
		case outdated(err):
			if at, err = c.placeOf(ctx, behind, msg); err == nil || errors.Is(err, ErrDeposed) {
				return at, err
			}
			if errors.Is(err, errShort) && short.lasts(time.Now()) {
				return 0, fmt.Errorf("%w: %w", ErrDeposed, err)
			}
		case !c.passing(err):
			return 0, err
		}
		if _, gone := c.same(ctx, c.name("journal")); errors.Is(gone, ErrReplaced) {
			return 0, gone
		}
		if ended := waited.pause(ctx); ended != nil {
			return 0, fmt.Errorf("%w: %w", ended, err)
		}
	}
}

// undecidedFor is how long a message may be under way at the servers: it is
// refused the second time, and isn't there yet.
const undecidedFor = 5 * time.Second

// shortness is that a message is refused although nothing new is seen in the journal.
type shortness struct {
	since time.Time
	times int
}

// lasts notes that it was seen once more, and says whether it is believed now: it has
// lasted longer than a message is under way, and was seen often, since to a process
// that was frozen any time may have passed.
func (s *shortness) lasts(now time.Time) bool {
	if s.times++; s.times == 1 {
		s.since = now
	}
	return s.times >= convinced && now.Sub(s.since) > undecidedFor
}

// publish makes one attempt to write.
func (c *Cluster) publish(ctx context.Context, behind uint64, msg *nats.Msg) (at uint64, err error) {
	err = c.once(ctx, writes, func(ctx context.Context) error {
		ack, err := c.js.PublishMsg(ctx, msg,
			jetstream.WithExpectLastSequence(behind), jetstream.WithExpectStream(c.name("journal")), jetstream.WithRetryAttempts(0))
		if err == nil {
			at = ack.Sequence
		}
		return err
	})
	return at, err
}

// placeOf looks for a message that was refused: it is in the journal already if
// the answer to an earlier attempt got lost. It fails with ErrDeposed if another
// message is behind the place, and with errShort if none is to be seen yet.
func (c *Cluster) placeOf(ctx context.Context, behind uint64, msg *nats.Msg) (at uint64, err error) {
	err = c.once(ctx, reads, func(ctx context.Context) error {
		last, err := c.journal.GetLastMsgForSubject(ctx, msg.Subject)
		if errors.Is(err, jetstream.ErrMsgNotFound) {
			return c.placeOfNone(ctx, behind)
		}
		if err != nil {
			return err
		}
		at = last.Sequence
		switch {
		case last.Sequence <= behind:
			return fmt.Errorf("%w: the journal ends at %d, not at %d", errShort, last.Sequence, behind)
		case last.Sequence == behind+1 && sameMessage(last.Header, msg.Header):
			return nil
		}
		return ErrDeposed
	})
	return at, err
}

// placeOfNone is placeOf for a journal of which everything was taken away.
func (c *Cluster) placeOfNone(ctx context.Context, behind uint64) error {
	info, err := c.same(ctx, c.name("journal"))
	switch {
	case err != nil:
		return err
	case info.State.LastSeq <= behind:
		return fmt.Errorf("%w: the journal ends at %d, not at %d", errShort, info.State.LastSeq, behind)
	}
	return ErrDeposed
}

func sameMessage(a, b nats.Header) bool {
	return a.Get(writeHeader) == b.Get(writeHeader) && a.Get(pieceHeader) == b.Get(pieceHeader)
}

// pieced puts together what was written at once from its pieces. What isn't
// whole when something else comes never becomes whole: whoever wrote it is gone.
type pieced struct {
	write string
	data  []byte
	count int
}

// errTorn: a last piece came without those before it.
var errTorn = errors.New("the journal lacks a piece of what was written")

// add takes a message; done says that all is there now.
func (p *pieced) add(header nats.Header, data []byte) (whole []byte, done bool, err error) {
	if write := header.Get(writeHeader); write != p.write {
		*p = pieced{write: write}
	}
	p.data, p.count = append(p.data, data...), p.count+1
	if header.Get(pieceHeader) != strconv.Itoa(p.count) {
		return nil, false, errTorn
	}
	if header.Get(piecesHeader) != strconv.Itoa(p.count) {
		return nil, false, nil
	}
	whole = p.data
	*p = pieced{}
	return whole, true, nil
}
