package cluster

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"net"
	"slices"
	"sync"
	"time"

	"dogleg/store"

	"github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"
)

// attempt is how long one request waits for its answer before it is made
// again.
const attempt = 2 * time.Second

// asking is what a request wants. A server that is cut off from the others goes on
// telling what it knows, so that an answer to one that reads says nothing of
// whether there is anybody who would write.
type asking int

const (
	reads asking = iota
	writes
)

// patiently calls try until it succeeds, fails for good, or ctx ends. Each call
// gets a context of its own that ends after attempt, and there is a pause
// between two.
func (c *Cluster) patiently(ctx context.Context, a asking, try func(context.Context) error) error {
	return c.patientlyFor(ctx, attempt, a, try)
}

// patientlyFor is patiently with attempts that may take so long.
func (c *Cluster) patientlyFor(ctx context.Context, long time.Duration, a asking, try func(context.Context) error) error {
	var waited pauses
	for {
		err := c.onceFor(ctx, long, a, try)
		if err == nil || !c.passing(err) {
			return err
		}
		if ended := waited.pause(ctx); ended != nil {
			return fmt.Errorf("%w (%w)", err, ended)
		}
	}
}

// once makes one attempt, and notes whether anybody answered.
func (c *Cluster) once(ctx context.Context, a asking, try func(context.Context) error) error {
	return c.onceFor(ctx, attempt, a, try)
}

// onceFor is once with an attempt that may take so long.
func (c *Cluster) onceFor(ctx context.Context, long time.Duration, a asking, try func(context.Context) error) error {
	began := time.Now()
	limited, cancel := context.WithTimeout(ctx, long)
	defer cancel()
	err := try(limited)
	switch {
	case err == nil || !c.passing(err):
		c.doubts.settle(a)
	case ctx.Err() == nil && c.doubts.grow(a, began):
		c.leaveServer()
	}
	return err
}

// silences are the errors of an attempt that nobody answered, and of one that
// somebody else was making just then what it should make.
var silences = []error{
	context.DeadlineExceeded, nats.ErrTimeout, nats.ErrNoResponders, jetstream.ErrNoStreamResponse,
	nats.ErrReconnectBufExceeded, nats.ErrDisconnected, nats.ErrConnectionReconnecting, nats.ErrStaleConnection,
	nats.ErrConnectionClosed, // of a request that was under way when the server went
	jetstream.ErrNoHeartbeat, jetstream.ErrMsgIteratorClosed, jetstream.ErrConsumerDeleted,
	jetstream.ErrConsumerLeadershipChanged, jetstream.ErrConsumerNotFound, jetstream.ErrServerShutdown,
	jetstream.ErrStreamNameAlreadyInUse, errUnseen, errStalled, errGap,
}

// passing says whether an error is one of those that pass: no answer, a server
// that says that it can't at the moment, or a stream that somebody else is just
// making.
func (c *Cluster) passing(err error) bool {
	if c.conn.IsClosed() {
		return false
	}
	if slices.ContainsFunc(silences, func(known error) bool { return errors.Is(err, known) }) {
		return true
	}
	if _, way := errors.AsType[*net.OpError](err); way { // a large message is written at once
		return true
	}
	api := apiError(err)
	switch {
	case api == nil || slices.Contains(standing, api.ErrorCode):
		return false
	case api.ErrorCode == duplicateUnderWay, api.ErrorCode == tooFewPeers:
		return true
	}
	return api.Code >= 500
}

// standing are the codes of what a server can't do at any moment, although it calls
// them its own faults.
var standing = []jetstream.ErrorCode{
	jetstream.JSErrCodeJetStreamNotEnabled, jetstream.JSErrCodeJetStreamNotEnabledForAccount,
	noStorage, noMemory, notClustered,
}

// convinced is how often in a row something has to be said that ends this process
// before it is believed. It is counted and not timed: to a process that was frozen
// the time that has passed says nothing.
const convinced = 10

// certain says whether an error is believed at once: it was looked into already, or
// was found in what is here.
func certain(err error) bool {
	if errors.Is(err, errShort) {
		return false
	}
	return slices.ContainsFunc(
		[]error{ErrReplaced, ErrDeposed, ErrEmptied, ErrRefused, ErrUnfit, errTorn, store.ErrNewer, store.ErrMisfit},
		func(known error) bool { return errors.Is(err, known) })
}

// believed counts an error that doesn't pass, and says whether it is believed now.
func (c *Cluster) believed(err error, said *int) bool {
	if c.conn.IsClosed() || certain(err) {
		return true
	}
	if !c.passing(err) {
		*said++
	}
	return *said >= convinced
}

// surely calls try until it succeeds, ctx ends, or its error is believed.
func (c *Cluster) surely(ctx context.Context, try func(context.Context) error) error {
	var waited pauses
	said := 0
	for {
		err := try(ctx)
		if err == nil || c.believed(err, &said) {
			return err
		}
		if ended := waited.pause(ctx); ended != nil {
			return fmt.Errorf("%w: %w", ended, err)
		}
	}
}

// Codes of errors that nats.go has no names for.
const (
	tooFewPeers       jetstream.ErrorCode = 10005 // no suitable peers for placement
	storeFailed       jetstream.ErrorCode = 10077 // among others: maximum bytes exceeded
	notClustered      jetstream.ErrorCode = 10074 // replicas > 1 not supported
	noStorage         jetstream.ErrorCode = 10047 // insufficient storage resources
	noMemory          jetstream.ErrorCode = 10028 // insufficient memory resources
	duplicateUnderWay jetstream.ErrorCode = 10158 // the same id is being stored just now
)

// apiError is what JetStream itself answered, if that is the error. Object stores
// read through the older of the client's two interfaces, which has a type of its own
// for it.
func apiError(err error) *jetstream.APIError {
	if js, ok := errors.AsType[jetstream.JetStreamError](err); ok {
		return js.APIError()
	}
	if js, ok := errors.AsType[nats.JetStreamError](err); ok && js.APIError() != nil {
		old := js.APIError()
		return &jetstream.APIError{Code: old.Code, ErrorCode: jetstream.ErrorCode(old.ErrorCode), Description: old.Description}
	}
	return nil
}

// outdated says whether JetStream refused to write because what is there is
// newer than the writer knows.
func outdated(err error) bool {
	api := apiError(err)
	return api != nil && (api.ErrorCode == jetstream.JSErrCodeStreamWrongLastSequence ||
		api.ErrorCode == jetstream.JSErrCodeStreamWrongLastSequenceConstant)
}

// pauses are those between tries: longer each time, and never quite the same,
// so that many who wait don't come at once. The zero value begins with the
// shortest.
type pauses struct{ last time.Duration }

const (
	shortestPause = 50 * time.Millisecond
	longestPause  = time.Second
)

// pause waits. It returns why ctx ended, if it did.
func (p *pauses) pause(ctx context.Context) error {
	p.last = min(max(2*p.last, shortestPause), longestPause)
	return sleep(ctx, p.last/2+rand.N(p.last/2))
}

// sleep waits, and returns why ctx ended if it did so before.
func sleep(ctx context.Context, d time.Duration) error {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return context.Cause(ctx)
	case <-timer.C:
		return nil
	}
}

// doubts are about the server that is connected: it may be cut off from the
// others, and then answers pings but nothing else.
type doubts struct {
	mu    sync.Mutex
	since [2]time.Time // nobody has answered since then, by what was asked
	moved time.Time    // when the server was changed for it
}

// doubtful is how long nobody has to answer before another server is tried.
const doubtful = 3 * time.Second

func (d *doubts) settle(a asking) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.since[a] = time.Time{}
}

// grow notes that nobody has answered what was asked then; true if another
// server should be tried.
func (d *doubts) grow(a asking, asked time.Time) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	now := time.Now()
	if d.since[a].IsZero() {
		d.since[a] = asked
	}
	if now.Sub(d.since[a]) < doubtful || now.Sub(d.moved) < doubtful {
		return false
	}
	d.moved = now
	return true
}

// leaveServer goes to another server if there is one.
func (c *Cluster) leaveServer() {
	if !c.conn.IsConnected() || len(c.conn.Servers()) < 2 {
		return
	}
	c.log.Warn("nobody answers through this NATS server; another is tried", "server", c.conn.ConnectedServerName())
	_ = c.conn.ForceReconnect() // it fails only where the connection was closed
}
