package cluster

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"path/filepath"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"dogleg/store"

	"github.com/nats-io/nats.go/jetstream"
)

// faulty answers some requests itself before it lets them through.
type faulty struct {
	jetstream.JetStream
	err    error
	stream atomic.Int64 // requests about a stream that fail
	reader atomic.Int64 // and for a consumer
}

func (f *faulty) Stream(ctx context.Context, name string) (jetstream.Stream, error) {
	if f.stream.Add(-1) >= 0 {
		return nil, f.err
	}
	return f.JetStream.Stream(ctx, name)
}

func (f *faulty) CreateConsumer(ctx context.Context, stream string, config jetstream.ConsumerConfig) (jetstream.Consumer, error) {
	if f.reader.Add(-1) >= 0 {
		return nil, f.err
	}
	return f.JetStream.CreateConsumer(ctx, stream, config)
}

// What a server that has just come back says, and what the way to it says, ends
// nobody who follows, whether it is known or not. What is said again and again does.
func TestFollowingGoesOnWhatever(t *testing.T) {
	t.Parallel()
	s := sharedServers(t, 1)
	for name, c := range map[string]struct {
		err   error
		often int64
	}{
		"the stream is not known yet": {jetstream.ErrStreamNotFound, 3},
		"a consumer that is gone":     {jetstream.ErrConsumerNotFound, 3},
		"no consumer can be made":     {jetstream.ErrConsumerCreate, 3},
		"a server that ends":          {jetstream.ErrServerShutdown, 3},
		"a way that breaks":           {&net.OpError{Op: "write", Err: syscall.EPIPE}, 3},
		"what nobody knows":           {errors.New("nats: something new"), 3},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			leads := startWorker(t, s)
			db := leads.db()
			follows := startWorker(t, s)
			between := &faulty{JetStream: follows.shared.js, err: c.err}
			mustMark(t, db, 1, 3)
			follows.stop()
			follows.shared.js = between
			between.stream.Store(c.often)
			between.reader.Store(c.often)
			again := startIn(t, follows.shared, t.TempDir())
			mustMark(t, db, 4, 6)
			eventually(t, "the copy is as far as the journal", func() bool { return again.copy.at.Load() == leads.copy.at.Load() })
			if between.stream.Load() >= 0 || between.reader.Load() >= 0 {
				t.Error("nothing failed")
			}
		})
	}
}

func TestWhatIsSaidAgainAndAgainIsBelieved(t *testing.T) {
	c := open(t, sharedServers(t, 1))
	tries := 0
	strange := errors.New("nats: something new")
	err := c.surely(t.Context(), func(context.Context) error { tries++; return strange })
	if !errors.Is(err, strange) || tries != convinced {
		t.Errorf("%v after %d tries", err, tries)
	}
	for _, known := range []error{ErrReplaced, store.ErrNewer, store.ErrMisfit} {
		tries = 0
		err := c.surely(t.Context(), func(context.Context) error { tries++; return fmt.Errorf("at 5: %w", known) })
		if !errors.Is(err, known) || tries != 1 {
			t.Errorf("%v after %d tries", err, tries)
		}
	}
}

// A process that was frozen finds that more time has passed than anybody waits. That
// the journal is short has to be seen again and again, not for long.
func TestShortJournalIsCountedNotTimed(t *testing.T) {
	var s shortness
	frozen := time.Now()
	for i := range convinced - 1 {
		if s.lasts(frozen.Add(time.Duration(i) * time.Hour)) {
			t.Fatalf("believed the %dth time", i+1)
		}
	}
	if !s.lasts(frozen.Add(convinced * time.Hour)) {
		t.Error("never believed")
	}
	var fast shortness
	for range 5 * convinced {
		if fast.lasts(frozen) {
			t.Fatal("believed at once: the message may be under way")
		}
	}
}

// Whoever is ended while it learns that another leads has ended in order.
func TestEndedWhileDeposedIsNoError(t *testing.T) {
	t.Parallel()
	c := open(t, sharedServers(t, 1))
	k, err := c.Copy(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer k.Close()
	ctx, end := context.WithCancel(t.Context())
	err = k.Run(ctx, func(held context.Context, _ *store.DB) error {
		if _, err := c.leases.Put(held, leader, []byte("somebody else")); err != nil {
			t.Error(err)
		}
		<-held.Done()
		end()
		return context.Cause(held)
	})
	if err != nil {
		t.Errorf("it ended with %v", err)
	}
}

// fickle loses an object some times before it has it.
type fickle struct {
	jetstream.ObjectStore
	lost atomic.Int64
}

func (f *fickle) Get(ctx context.Context, name string, options ...jetstream.GetObjectOpt) (jetstream.ObjectResult, error) {
	if f.lost.Add(-1) >= 0 {
		return nil, jetstream.ErrObjectNotFound
	}
	return f.ObjectStore.Get(ctx, name, options...)
}

// A snapshot may be taken away, for a newer one, while a copy is made of it.
func TestSnapshotThatIsTakenAwayMeanwhile(t *testing.T) {
	t.Parallel()
	s := sharedServers(t, 1)
	leads := startWorker(t, s)
	mustMark(t, leads.db(), 1, 3)
	if err := leads.copy.Snapshot(t.Context()); err != nil {
		t.Fatal(err)
	}
	c := open(t, s)
	objects := &fickle{ObjectStore: c.snapshots}
	objects.lost.Store(downloads + 1)
	c.snapshots = objects
	k, err := c.Copy(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer k.Close()
	if k.read < 3 {
		t.Errorf("the copy stands at %d", k.read)
	}
}

// stuck is an object of which nothing comes. As with the client's own, whoever closes
// it waits for who reads it.
type stuck struct {
	jetstream.ObjectResult
	mu    sync.Mutex
	never chan struct{}
}

func (s *stuck) Read([]byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	<-s.never
	return 0, io.EOF
}

func (s *stuck) Close() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return nil
}

// still has objects of which nothing comes.
type still struct {
	jetstream.ObjectStore
	never chan struct{}
}

func (s *still) Get(context.Context, string, ...jetstream.GetObjectOpt) (jetstream.ObjectResult, error) {
	return &stuck{never: s.never}, nil
}

// A snapshot that stops coming keeps nobody from ending, nor from giving up a lead.
func TestStalledSnapshotIsGivenUp(t *testing.T) {
	t.Parallel()
	c := open(t, sharedServers(t, 1))
	objects := &still{c.snapshots, make(chan struct{})}
	defer close(objects.never)
	c.snapshots = objects
	ctx, end := context.WithCancelCause(t.Context())
	done := make(chan error)
	go func() { done <- c.download(ctx, "snapshot", filepath.Join(t.TempDir(), "draft")) }()
	time.Sleep(50 * time.Millisecond)
	end(ErrDeposed)
	select {
	case err := <-done:
		if !errors.Is(err, ErrDeposed) {
			t.Errorf("given up with %v", err)
		}
	case <-time.After(20 * time.Second):
		t.Fatal("it is waited for")
	}
}
