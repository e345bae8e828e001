package cluster

import (
	"context"
	"errors"
	"math/rand/v2"
	"time"

	"github.com/nats-io/nats.go/jetstream"
	"github.com/nats-io/nuid"
)

// Elect waits until this process is the one that has the lease of a name, and
// then calls run. The context of run ends with the cause [ErrDeposed] when the
// lease is lost, or may be; once run has returned then, Elect waits again. It
// returns what run returned otherwise, and nil when ctx ends before.
func (c *Cluster) Elect(ctx context.Context, name string, run func(context.Context) error) error {
	for {
		held, err := c.acquire(ctx, name)
		if err != nil {
			return unlessEnded(ctx, err)
		}
		if deposed, err := held.during(ctx, run); !deposed {
			return err
		}
		c.log.Warn("a lease was lost", "lease", name)
	}
}

// unlessEnded is err, or nil where ctx has ended, since that is why.
func unlessEnded(ctx context.Context, err error) error {
	if ctx.Err() != nil {
		return nil
	}
	return err
}

// lease is a key that one has as long as it is written again before it runs
// out.
type lease struct {
	c        *Cluster
	name     string
	holder   string        // a word that nobody else has
	lasts    time.Duration // from when it was written
	revision uint64
	until    time.Time // when it may be somebody else's, with a margin
}

// acquire waits until the lease is there to be had.
func (c *Cluster) acquire(ctx context.Context, name string) (*lease, error) {
	l := &lease{c: c, name: name, holder: nuid.Next(), lasts: c.leaseTime}
	said := 0
	for {
		err := c.once(ctx, writes, l.take)
		switch {
		case err == nil && time.Now().Before(l.until):
			return l, nil
		case err == nil || taken(err):
			said = 0
		case ctx.Err() == nil && c.believed(err, &said):
			return nil, err
		}
		wait := l.lasts / 12
		if err := sleep(ctx, wait+rand.N(wait)); err != nil {
			return nil, err
		}
	}
}

// take tries once.
func (l *lease) take(ctx context.Context) error {
	began := time.Now()
	revision, err := l.c.leases.Create(ctx, l.name, []byte(l.holder))
	switch {
	case err == nil:
		l.revision, l.until = revision, l.end(began)
		return nil
	case taken(err):
		return l.recognize(ctx, err)
	case l.until.IsZero():
		l.until = l.end(began) // it may be written all the same, and not before
	}
	return err
}

// taken says whether a key couldn't be made because somebody has made it, be it
// between two steps of making it over a deleted one.
func taken(err error) bool { return errors.Is(err, jetstream.ErrKeyExists) || outdated(err) }

// end is until when a lease can be relied on that was written after began.
func (l *lease) end(began time.Time) time.Time { return began.Add(l.lasts - l.lasts/6) }

// recognize looks whether a key that was refused is there because this very
// holder wrote it, and the answer was lost. If it isn't, why is returned.
func (l *lease) recognize(ctx context.Context, why error) error {
	entry, err := l.c.leases.Get(ctx, l.name)
	if err != nil && !errors.Is(err, jetstream.ErrKeyNotFound) {
		return err
	}
	if err == nil && string(entry.Value()) == l.holder {
		l.revision = entry.Revision()
		return nil
	}
	return why
}

// renew writes the lease again. It fails with ErrDeposed if it is not ours any
// more; after other errors until decides.
func (l *lease) renew(ctx context.Context) error {
	ctx, cancel := context.WithTimeout(ctx, min(l.lasts/4, time.Until(l.until)))
	defer cancel()
	began := time.Now()
	err := l.c.once(ctx, writes, func(ctx context.Context) error {
		revision, err := l.c.leases.Update(ctx, l.name, []byte(l.holder), l.revision)
		if err == nil {
			l.revision, l.until = revision, l.end(began)
		}
		return err
	})
	if !outdated(err) {
		return err
	}
	if ours := l.recognize(ctx, ErrDeposed); ours != nil {
		return ours
	}
	return err // it can be written now
}

// during runs while the lease is held. It says whether the lease was lost.
func (l *lease) during(ctx context.Context, run func(context.Context) error) (deposed bool, err error) {
	held, end := context.WithCancelCause(ctx)
	kept := make(chan struct{})
	go func() {
		defer close(kept)
		l.keep(held, end)
	}()
	err = run(held)
	deposed = errors.Is(context.Cause(held), ErrDeposed) && ctx.Err() == nil
	end(nil)
	<-kept
	l.release(ctx)
	return deposed, err
}

// keep writes the lease again and again, until held ends or the lease is lost,
// which ends held.
func (l *lease) keep(held context.Context, end context.CancelCauseFunc) {
	wait := l.lasts / 4
	for sleep(held, min(wait, time.Until(l.until))) == nil {
		if !time.Now().Before(l.until) {
			end(ErrDeposed)
			return
		}
		switch err := l.renew(held); {
		case err == nil:
			wait = l.lasts / 4
		case errors.Is(err, ErrDeposed):
			end(ErrDeposed)
			return
		default:
			wait = l.lasts / 12
		}
	}
}

// releaseFor is how long giving a lease back may take; it runs out anyway.
const releaseFor = time.Second

// release gives the lease back if it is still ours, so that the next one needs
// not wait until it has run out.
func (l *lease) release(ctx context.Context) {
	ctx, cancel := context.WithTimeout(context.WithoutCancel(ctx), releaseFor)
	defer cancel()
	_ = l.c.leases.Delete(ctx, l.name, jetstream.LastRevision(l.revision))
}
