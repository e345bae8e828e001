package cluster

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"
	"time"
)

// elected runs Elect and tells when it leads.
func elected(ctx context.Context, c *Cluster, name string, run func(context.Context) error) chan error {
	done := make(chan error, 1)
	go func() { done <- c.Elect(ctx, name, run) }()
	return done
}

func TestOneIsElectedAtATime(t *testing.T) {
	t.Parallel()
	eachKind(t, func(t *testing.T, s *servers) {
		var running, most, turns atomic.Int64
		ctx, cancel := context.WithCancel(t.Context())
		defer cancel()
		turn := func(ctx context.Context) error {
			most.Store(max(most.Load(), running.Add(1)))
			defer running.Add(-1)
			turns.Add(1)
			return sleep(ctx, 50*time.Millisecond)
		}
		for range 3 {
			c := open(t, s, hasty)
			go func() {
				for ctx.Err() == nil {
					_ = c.Elect(ctx, "poll", turn)
				}
			}()
		}
		eventually(t, "six turns", func() bool { return turns.Load() >= 6 })
		if most.Load() != 1 {
			t.Errorf("%d ran at once", most.Load())
		}
	})
}

func TestLeaseIsKeptForLongerThanItLasts(t *testing.T) {
	t.Parallel()
	s := sharedServers(t, 1)
	first, second := open(t, s, hasty), open(t, s, hasty)
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	var others atomic.Int64
	leads := make(chan struct{})
	done := elected(ctx, first, "poll", func(ctx context.Context) error {
		close(leads)
		err := sleep(ctx, 2*first.leaseTime)
		if others.Load() != 0 {
			t.Error("another one was elected meanwhile")
		}
		return err
	})
	<-leads
	elected(ctx, second, "poll", func(context.Context) error { others.Add(1); return nil })
	if err := <-done; err != nil {
		t.Errorf("the lease was lost: %v", err)
	}
	eventually(t, "the other one is elected", func() bool { return others.Load() == 1 })
}

func TestElectReturnsWhatRunDoes(t *testing.T) {
	c := open(t, sharedServers(t, 1))
	burst := errors.New("burst")
	if err := c.Elect(t.Context(), "poll", func(context.Context) error { return burst }); !errors.Is(err, burst) {
		t.Errorf("got %v", err)
	}
	ended, cancel := context.WithCancel(t.Context())
	cancel()
	if err := c.Elect(ended, "poll", func(context.Context) error { return burst }); err != nil {
		t.Errorf("of a context that has ended: %v", err)
	}
}

func TestWhoseLeaseIsLostIsStoppedAndElectedAgain(t *testing.T) {
	t.Parallel()
	c := open(t, sharedServers(t, 1), hasty)
	ctx, cancel := context.WithCancel(t.Context())
	causes := make(chan error, 2)
	done := elected(ctx, c, "poll", func(ctx context.Context) error {
		<-ctx.Done()
		causes <- context.Cause(ctx)
		return ctx.Err()
	})
	eventually(t, "elected", func() bool { _, err := c.leases.Get(t.Context(), "poll"); return err == nil })
	if _, err := c.leases.Put(t.Context(), "poll", []byte("somebody else")); err != nil {
		t.Fatal(err)
	}
	if cause := <-causes; !errors.Is(cause, ErrDeposed) {
		t.Errorf("stopped because of %v", cause)
	}
	eventually(t, "elected again", func() bool {
		entry, err := c.leases.Get(t.Context(), "poll")
		return err == nil && string(entry.Value()) != "somebody else"
	})
	cancel()
	if err := <-done; err != nil && !errors.Is(err, context.Canceled) {
		t.Errorf("stopped at last: %v", err)
	}
}

func TestLeaseIsGivenUpWhenServersAreGone(t *testing.T) {
	t.Parallel()
	s := startServers(t, 1)
	c := open(t, s, hasty)
	ctx, cancel := context.WithCancel(t.Context())
	leads := make(chan struct{}, 9)
	causes := make(chan error, 9)
	done := elected(ctx, c, "poll", func(ctx context.Context) error {
		leads <- struct{}{}
		<-ctx.Done()
		causes <- context.Cause(ctx)
		return nil
	})
	<-leads
	s.stopAll()
	if cause := <-causes; !errors.Is(cause, ErrDeposed) {
		t.Errorf("stopped because of %v", cause)
	}
	s.start(s.each[0])
	<-leads // again
	cancel()
	if err := <-done; err != nil {
		t.Errorf("stopped at last: %v", err)
	}
}

func TestLostAnswerOfALease(t *testing.T) {
	c := open(t, sharedServers(t, 1))
	l, err := c.acquire(t.Context(), "poll")
	if err != nil {
		t.Fatal(err)
	}
	known := l.revision
	// It was written once more, and the answer got lost.
	if _, err := c.leases.Update(t.Context(), "poll", []byte(l.holder), known); err != nil {
		t.Fatal(err)
	}
	if err := l.renew(t.Context()); err == nil || errors.Is(err, ErrDeposed) {
		t.Errorf("renewed by the old revision: %v", err)
	}
	if err := l.renew(t.Context()); err != nil || l.revision <= known {
		t.Errorf("renewed by the one it was given: %v, revision %d after %d", err, l.revision, known)
	}
}
