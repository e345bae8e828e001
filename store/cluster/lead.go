package cluster

import (
	"context"
	"errors"
	"fmt"
	"sync/atomic"
	"time"

	"dogleg/store"

	"github.com/nats-io/nats.go"
)

// leader is the name of the lease of the worker that leads.
const leader = "leader"

// term is one time of leading.
type term struct {
	leading context.Context // of who leads
	depose  context.CancelCauseFunc
	writing context.Context // lasts a little longer
	refused atomic.Bool     // another one has written
}

// graceFor is how long who led may write to end, when its context has ended.
const graceFor = 3 * time.Second

// Run follows what others write until this process has the lease to lead, then
// runs lead with the database, and follows again when it was deposed: the
// context of lead has [ErrDeposed] as its cause then, and its writes fail with
// it. What db.Update has returned nil for is in the journal on more than half of
// the servers. After lead's context has ended it may write for 3 more seconds.
// Whoever is forgotten is taken out of this copy and out of the journal within
// the hour.
//
// It returns nil when ctx ends, what lead returns where it wasn't deposed, and
// an error where the copy can't be kept: [store.ErrNewer] when a newer dogleg
// writes, [ErrReplaced], or a disk that is full.
func (k *Copy) Run(ctx context.Context, lead func(ctx context.Context, db *store.DB) error) error {
	for {
		held, err := k.followUntilElected(ctx)
		if err != nil {
			return unlessEnded(ctx, err)
		}
		deposed, err := held.during(ctx, func(ctx context.Context) error { return k.lead(ctx, lead) })
		deposed = deposed || errors.Is(err, ErrDeposed)
		switch {
		case deposed && ctx.Err() != nil: // there is nobody to follow any more
			return nil
		case !deposed:
			return err
		}
		k.c.log.Warn("another one leads, or may lead; following again", "said", err)
		_ = sleep(ctx, held.lasts/12)
	}
}

// followUntilElected follows until this process has the lease.
func (k *Copy) followUntilElected(ctx context.Context) (*lease, error) {
	ctx, elected := context.WithCancel(ctx)
	defer elected()
	var held *lease
	var electing error
	done := make(chan struct{})
	go func() {
		defer close(done)
		defer elected()
		held, electing = k.c.acquire(ctx, leader)
	}()
	following := k.follow(ctx)
	elected()
	<-done
	if following != nil && held != nil {
		held.release(ctx)
	}
	return held, errors.Join(following, electing)
}

// lead leads while the lease is held.
func (k *Copy) lead(held context.Context, lead func(context.Context, *store.DB) error) error {
	if err := k.fence(held); err != nil {
		return unlessEnded(held, fmt.Errorf("taking over: %w", err))
	}
	ctx, t, end := newTerm(held)
	k.enter(t)
	k.c.log.Info("this process leads", "at", k.read)
	tended := make(chan struct{})
	go func() {
		defer close(tended)
		k.tend(ctx)
	}()
	err := lead(ctx, k.db)
	end()
	<-tended
	k.enter(nil)
	if t.refused.Load() && held.Err() == nil {
		return ErrDeposed
	}
	return err
}

// fence sees to it that this copy knows all that is in the journal, and that
// nobody who led before can write any more: behind what they know there is a
// message now that they don't know.
func (k *Copy) fence(ctx context.Context) error {
	for {
		if err := k.catchUp(ctx); err != nil {
			return err
		}
		at, err := k.write(ctx, k.c.pieces(nil))
		switch {
		case err == nil:
			return k.db.Apply(nil, at)
		case errors.Is(err, errShort):
			return fmt.Errorf("%w: %v; the copy at %s has it", ErrReplaced, err, k.path)
		case !errors.Is(err, ErrDeposed):
			return err
		}
	}
}

// newTerm begins a time of leading. Its end is for when lead has returned.
func newTerm(held context.Context) (ctx context.Context, t *term, end func()) {
	t = &term{}
	ctx, t.depose = context.WithCancelCause(held)
	t.leading = ctx
	var stop context.CancelFunc
	t.writing, stop = context.WithCancel(context.WithoutCancel(held))
	context.AfterFunc(ctx, func() { time.AfterFunc(graceFor, stop) })
	return ctx, t, func() { t.depose(nil); stop() }
}

// enter begins or ends a time of leading, when nothing is being shipped.
func (k *Copy) enter(t *term) {
	k.writing.Lock()
	defer k.writing.Unlock()
	k.term = t
	k.leading.Store(t != nil)
}

// ship is the database's Ship.
func (k *Copy) ship(changes store.Changes) (at uint64, err error) {
	k.writing.Lock()
	defer k.writing.Unlock()
	t := k.term
	if t == nil || t.refused.Load() {
		return 0, ErrDeposed
	}
	at, err = k.write(t.writing, k.c.pieces(changes))
	if err != nil && t.writing.Err() != nil {
		err = fmt.Errorf("%w: %w", context.Cause(t.leading), err)
	}
	if errors.Is(err, ErrDeposed) || errors.Is(err, ErrReplaced) || t.writing.Err() != nil {
		t.refused.Store(true)
		t.depose(ErrDeposed)
	}
	if k.since.Add(int64(len(changes))) > k.longest() {
		k.tellFilled()
	}
	return at, err
}

// write writes messages into the journal, one behind the other, and returns the
// place of the last.
func (k *Copy) write(ctx context.Context, messages []*nats.Msg) (at uint64, err error) {
	began := time.Now()
	defer func() { k.waited.Add(int64(time.Since(began))) }()
	for _, msg := range messages {
		if at, err = k.c.append(ctx, k.read, msg); err != nil {
			return 0, err
		}
		k.stand(at)
		k.written.Add(1)
	}
	return at, nil
}
