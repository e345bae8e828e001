package cluster

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"dogleg/store"

	"github.com/nats-io/nats.go/jetstream"
)

// worker is a process with a copy, as far as this package is concerned.
type worker struct {
	t      testing.TB
	shared *Cluster
	copy   *Copy
	leads  chan *store.DB // gets the database each time this worker begins to lead
	causes chan error     // why each time of leading ended
	cancel context.CancelFunc
	done   chan error
}

// startWorker starts a worker with a connection and a folder of its own.
func startWorker(t testing.TB, s *servers, change ...func(*Options)) *worker {
	t.Helper()
	return startIn(t, open(t, s, change...), t.TempDir())
}

func startIn(t testing.TB, c *Cluster, folder string) *worker {
	t.Helper()
	w := &worker{t: t, shared: c, leads: make(chan *store.DB, 100), causes: make(chan error, 100), done: make(chan error, 1)}
	var err error
	if w.copy, err = c.Copy(t.Context(), folder); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	w.cancel = cancel
	go func() {
		w.done <- w.copy.Run(ctx, func(ctx context.Context, db *store.DB) error {
			w.leads <- db
			<-ctx.Done()
			w.causes <- context.Cause(ctx)
			return nil
		})
	}()
	t.Cleanup(func() { w.stop() })
	return w
}

// stop stops it as SIGTERM does.
func (w *worker) stop() {
	w.cancel()
	if w.done == nil {
		return
	}
	if err := <-w.done; err != nil {
		w.t.Errorf("a worker ended with %v", err)
	}
	w.done = nil
	if err := w.copy.Close(); err != nil {
		w.t.Error(err)
	}
}

// db waits until it leads.
func (w *worker) db() *store.DB {
	w.t.Helper()
	select {
	case db := <-w.leads:
		return db
	case <-time.After(60 * time.Second):
		w.t.Fatal("a worker doesn't lead after a minute")
		return nil
	}
}

// mark writes something.
func mark(db *store.DB, id string) error {
	return db.Update(func(tx *store.Tx) error { tx.MarkDone(id); return nil })
}

func mustMark(t testing.TB, db *store.DB, from, to int) {
	t.Helper()
	for i := from; i <= to; i++ {
		if err := mark(db, fmt.Sprint(i)); err != nil {
			t.Fatal(err)
		}
	}
}

// lacks lists which of the marks aren't there.
func lacks(t testing.TB, db *store.DB, from, to int) (missing []int) {
	t.Helper()
	if err := db.View(func(tx *store.Tx) error {
		for i := from; i <= to; i++ {
			if !tx.Done(fmt.Sprint(i)) {
				missing = append(missing, i)
			}
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	return missing
}

func hashOf(t testing.TB, db *store.DB) string {
	t.Helper()
	hash, err := db.Hash()
	if err != nil {
		t.Fatal(err)
	}
	return hash
}

// sameAs waits until a copy holds what a database does.
func sameAs(t testing.TB, want *store.DB, k *Copy) {
	t.Helper()
	at, err := want.Position()
	if err != nil {
		t.Fatal(err)
	}
	eventually(t, fmt.Sprintf("a copy at %d", at), func() bool { return k.Status().Position >= at })
	if hashOf(t, want) != hashOf(t, k.db) {
		t.Errorf("the copies differ at %d", at)
	}
}

func TestAnotherWorkerGoesOn(t *testing.T) {
	t.Parallel()
	eachKind(t, func(t *testing.T, s *servers) {
		first := startWorker(t, s)
		db := first.db()
		second := startWorker(t, s)
		mustMark(t, db, 1, 20)
		sameAs(t, db, second.copy)
		if st := first.copy.Status(); !st.Leading || second.copy.Status().Leading || st.Written < 20 {
			t.Errorf("the first: %+v; the second: %+v", st, second.copy.Status())
		}
		first.stop()
		next := second.db()
		if missing := lacks(t, next, 1, 20); missing != nil {
			t.Errorf("the next one lacks %v", missing)
		}
		mustMark(t, next, 21, 30)
	})
}

func TestWhoWritesWithoutKnowingIsDeposed(t *testing.T) {
	t.Parallel()
	eachKind(t, func(t *testing.T, s *servers) {
		paused := startWorker(t, s)
		db := paused.db()
		mustMark(t, db, 1, 3)
		// Its process stands still, its lease runs out, another one takes over.
		other, err := open(t, s).Copy(t.Context(), t.TempDir())
		if err != nil {
			t.Fatal(err)
		}
		defer other.Close()
		if err := other.fence(t.Context()); err != nil {
			t.Fatal(err)
		}
		if err := mark(db, "late"); !errors.Is(err, ErrDeposed) {
			t.Errorf("who was paused wrote: %v", err)
		}
		if err := mark(db, "later"); !errors.Is(err, ErrDeposed) {
			t.Errorf("who was paused wrote later: %v", err)
		}
		if cause := <-paused.causes; !errors.Is(cause, ErrDeposed) {
			t.Errorf("it stopped because of %v", cause)
		}
		again := paused.db()
		if err := again.View(func(tx *store.Tx) error {
			if tx.Done("late") || tx.Done("later") {
				t.Error("what was refused is there")
			}
			return nil
		}); err != nil {
			t.Error(err)
		}
		mustMark(t, again, 4, 5)
	})
}

func TestLostAcknowledgement(t *testing.T) {
	c := open(t, sharedServers(t, 1))
	k, err := c.Copy(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer k.Close()
	msg := c.pieces([]byte("changes"))[0]
	first, err := c.append(t.Context(), 0, msg)
	if err != nil {
		t.Fatal(err)
	}
	if again, err := c.append(t.Context(), 0, msg); err != nil || again != first {
		t.Errorf("the same once more: at %d, %v; it is at %d", again, err, first)
	}
	if _, err := c.append(t.Context(), 0, c.pieces([]byte("changes"))[0]); !errors.Is(err, ErrDeposed) {
		t.Errorf("another one's: %v", err)
	}
	if err := c.journal.Purge(t.Context(), jetstream.WithPurgeSequence(first+1)); err != nil {
		t.Fatal(err)
	}
	if _, err := c.append(t.Context(), 0, c.pieces(nil)[0]); !errors.Is(err, ErrDeposed) {
		t.Errorf("behind what was taken away: %v", err)
	}
	if at, err := c.append(t.Context(), first, c.pieces(nil)[0]); err != nil || at != first+1 {
		t.Errorf("at the end of what was taken away: %d, %v", at, err)
	}
}

func TestLargeTransactions(t *testing.T) {
	s := sharedServers(t, 1)
	w := startWorker(t, s)
	db := w.db()
	large := strings.Repeat("a cut list of a whole tower ", 80_000) // 2 MB
	if err := db.Update(func(tx *store.Tx) error { tx.Quarantine("1", []byte(large)); return nil }); err != nil {
		t.Fatal(err)
	}
	mustMark(t, db, 1, 3)
	late := startWorker(t, s)
	sameAs(t, db, late.copy)
	info, err := w.shared.journal.Info(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if info.State.Msgs < 8 {
		t.Errorf("%d messages in the journal, of 2 MB of 512 KB each and 4 more", info.State.Msgs)
	}
}

func TestTornTransactionNeverHappened(t *testing.T) {
	s := sharedServers(t, 1)
	w := startWorker(t, s)
	mustMark(t, w.db(), 1, 3)
	w.stop()
	// Its next transaction is of several pieces, and it dies before the last.
	c := open(t, s)
	pieces := c.pieces(bytes.Repeat([]byte{1}, 3*c.pieceSize()))
	at := w.copy.read
	for _, piece := range pieces[:2] {
		var err error
		if at, err = c.append(t.Context(), at, piece); err != nil {
			t.Fatal(err)
		}
	}
	first := startWorker(t, s)
	db := first.db()
	mustMark(t, db, 4, 6)
	second := startWorker(t, s)
	sameAs(t, db, second.copy)
	if missing := lacks(t, db, 1, 6); missing != nil {
		t.Errorf("missing: %v", missing)
	}
}

func TestSnapshotStandsForWhatWasTakenAway(t *testing.T) {
	t.Parallel()
	eachKind(t, func(t *testing.T, s *servers) {
		w := startWorker(t, s)
		db := w.db()
		mustMark(t, db, 1, 10)
		behind, err := open(t, s).Copy(t.Context(), t.TempDir())
		if err != nil {
			t.Fatal(err)
		}
		mustMark(t, db, 11, 20)
		for range 2 {
			if err := w.copy.Snapshot(t.Context()); err != nil {
				t.Fatal(err)
			}
		}
		if all, err := w.shared.list(t.Context()); err != nil || len(all) == 0 || len(all) > 2 {
			t.Errorf("the snapshots are %v, %v", all, err)
		}
		info, err := w.shared.journal.Info(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if info.State.Msgs != 0 {
			t.Errorf("%d messages are left in the journal", info.State.Msgs)
		}
		ctx, cancel := context.WithCancel(t.Context())
		following := make(chan error)
		go func() { following <- behind.follow(ctx) }()
		sameAs(t, db, behind) // though nothing is in the journal
		mustMark(t, db, 21, 25)
		sameAs(t, db, behind)
		cancel()
		if err := errors.Join(<-following, behind.Close()); err != nil {
			t.Error(err)
		}
		sameAs(t, db, startWorker(t, s).copy)
	})
}

func TestSnapshotIsMadeWhenTheJournalIsLong(t *testing.T) {
	t.Parallel()
	w := startWorker(t, sharedServers(t, 1))
	db := w.db()
	noise := make([]byte, 3<<19)
	for i := range noise {
		noise[i] = byte(rand.N(256))
	}
	for i := 0; i < 20 && w.copy.Status().Snapshots == 0; i++ {
		if err := db.Update(func(tx *store.Tx) error { tx.Quarantine(fmt.Sprint(i), noise); return nil }); err != nil {
			t.Fatal(err)
		}
	}
	eventually(t, "a snapshot", func() bool { return w.copy.Status().Snapshots > 0 })
	sameAs(t, db, startWorker(t, sharedServers(t, 1)).copy)
}

func TestForgottenPeopleLeaveTheJournal(t *testing.T) {
	s := sharedServers(t, 1)
	first := startWorker(t, s)
	db := first.db()
	who := store.ChatOf("telegram", "4711").Person("17")
	if err := db.Update(func(tx *store.Tx) error { tx.Person(who).AddJob(store.Job{}); return nil }); err != nil {
		t.Fatal(err)
	}
	if err := db.Update(func(tx *store.Tx) error { tx.Person(who).Forget(""); return nil }); err != nil {
		t.Fatal(err)
	}
	first.stop()
	// Whoever leads next looks first.
	second := startWorker(t, s)
	db = second.db()
	eventually(t, "a snapshot", func() bool { return second.copy.Status().Snapshots > 0 })
	if db.Forgotten() {
		t.Error("the file wasn't compacted")
	}
}

func TestWorkerStopsWithoutServers(t *testing.T) {
	t.Parallel()
	s := startServers(t, 1)
	w := startWorker(t, s)
	db := w.db()
	s.stopAll()
	wrote := make(chan error)
	go func() { wrote <- mark(db, "in vain") }()
	began := time.Now()
	w.stop()
	if err := <-wrote; err == nil {
		t.Error("something was written without servers")
	}
	if took := time.Since(began); took > 10*time.Second {
		t.Errorf("it took %v", took)
	}
}

// Contenders fight for the lease, which a third one takes away all the time:
// whatever was acknowledged is in the journal, once, and nothing that was refused
// is, but for what was under way when its writer was stopped.
func TestContendersNeverWriteBesideEachOther(t *testing.T) {
	t.Parallel()
	eachKind(t, func(t *testing.T, s *servers) {
		const contenders, rounds = 3, 8
		thief := open(t, s, hasty)
		ctx, cancel := context.WithCancel(t.Context())
		var mu sync.Mutex
		var acknowledged []string
		refused := map[string]bool{}
		var wait sync.WaitGroup
		var terms atomic.Int64
		for n := range contenders {
			k, err := open(t, s, hasty).Copy(t.Context(), t.TempDir())
			if err != nil {
				t.Fatal(err)
			}
			count := 0
			wait.Go(func() {
				defer k.Close()
				err := k.Run(ctx, func(leading context.Context, db *store.DB) error {
					terms.Add(1)
					for leading.Err() == nil {
						id := fmt.Sprintf("%d/%d", n, count)
						count++
						err := mark(db, id)
						mu.Lock()
						if err == nil {
							acknowledged = append(acknowledged, id)
						} else {
							refused[id] = true
						}
						mu.Unlock()
					}
					return nil
				})
				if err != nil {
					t.Errorf("a contender ended with %v", err)
				}
			})
		}
		for range rounds {
			before := terms.Load()
			_ = thief.leases.Delete(ctx, leader)
			eventually(t, "another one leads", func() bool { return terms.Load() > before })
			_ = sleep(ctx, rand.N(50*time.Millisecond))
		}
		cancel()
		wait.Wait()
		k, err := thief.Copy(t.Context(), t.TempDir())
		if err != nil {
			t.Fatal(err)
		}
		defer k.Close()
		if err := k.fence(t.Context()); err != nil {
			t.Fatal(err)
		}
		_, term, end := newTerm(t.Context())
		defer end()
		k.enter(term)
		extra := 0
		if err := k.db.View(func(tx *store.Tx) error {
			for _, id := range acknowledged {
				if !tx.Done(id) {
					t.Errorf("%s was acknowledged and isn't there", id)
				}
			}
			for id := range refused {
				if tx.Done(id) {
					extra++
				}
			}
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		t.Logf("%d acknowledged, %d refused, %d of those written, in %d terms", len(acknowledged), len(refused), extra, terms.Load())
		if int64(extra) > terms.Load() {
			t.Errorf("%d were written though refused", extra)
		}
		if len(acknowledged) == 0 {
			t.Error("nobody wrote anything")
		}
	})
}

func TestJournalMadeAnewIsNoticed(t *testing.T) {
	s := sharedServers(t, 1)
	c := open(t, s)
	folder := t.TempDir()
	w := startIn(t, c, folder)
	db := w.db()
	mustMark(t, db, 1, 3)
	if err := w.copy.Snapshot(t.Context()); err != nil {
		t.Fatal(err)
	}
	if err := c.js.DeleteStream(t.Context(), c.name("journal")); err != nil {
		t.Fatal(err)
	}
	if err := mark(db, "late"); !errors.Is(err, ErrReplaced) {
		t.Errorf("written without a journal: %v", err)
	}
	if err := <-w.done; !errors.Is(err, ErrReplaced) {
		t.Errorf("without a journal the worker ended with %v", err)
	}
	w.done = nil
	if err := w.copy.Close(); err != nil {
		t.Error(err)
	}
	if _, err := open(t, s).Copy(t.Context(), t.TempDir()); !errors.Is(err, ErrReplaced) {
		t.Errorf("a new journal and an old snapshot: %v", err)
	}
	if _, err := open(t, s).Copy(t.Context(), folder); !errors.Is(err, ErrEmptied) {
		t.Errorf("a new journal and an old copy: %v", err)
	}
	if _, err := os.Stat(filepath.Join(folder, "copy-"+c.bot+".db")); err != nil {
		t.Error("the copy is gone:", err)
	}
}

func TestBrokenUploadsAreSweptLater(t *testing.T) {
	w := startWorker(t, sharedServers(t, 1))
	mustMark(t, w.db(), 1, 3)
	loose := "$O." + w.shared.name("snapshots") + ".C.brokenoff"
	if _, err := w.shared.js.Publish(t.Context(), loose, []byte("a piece")); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		since time.Duration // that it was seen
		left  int
	}{{0, 1}, {forsakenAfter / 2, 1}, {forsakenAfter, 0}} {
		if c.since > 0 {
			w.copy.uploads[loose] = time.Now().Add(-c.since)
		}
		if err := w.copy.Snapshot(t.Context()); err != nil {
			t.Fatal(err)
		}
		got, err := w.shared.piecesOfUploads(t.Context())
		if err != nil || len(got) != c.left {
			t.Errorf("seen for %v: %v, %v; want %d", c.since, got, err, c.left)
		}
	}
	sameAs(t, w.copy.db, startWorker(t, sharedServers(t, 1)).copy)
}

func TestServersThatLostWhatTheyHadAcknowledged(t *testing.T) {
	t.Parallel()
	c := open(t, sharedServers(t, 1))
	folder := t.TempDir()
	k, err := c.Copy(t.Context(), folder)
	if err != nil {
		t.Fatal(err)
	}
	if err := k.fence(t.Context()); err != nil {
		t.Fatal(err)
	}
	// As if the journal had been longer when this copy was made.
	ahead := k.read + 5
	if err := k.db.Rebase(ahead); err != nil {
		t.Fatal(err)
	}
	k.stand(ahead)
	if err := k.fence(t.Context()); !errors.Is(err, ErrReplaced) || !strings.Contains(err.Error(), "lost") {
		t.Errorf("behind the journal's end: %v", err)
	}
	if err := k.Close(); err != nil {
		t.Fatal(err)
	}
	again, err := c.Copy(t.Context(), folder)
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	if again.read >= ahead {
		t.Errorf("the new copy stands at %d, the journal ends before %d", again.read, ahead)
	}
	if kept, err := filepath.Glob(filepath.Join(folder, "*.ahead-*")); err != nil || len(kept) != 1 {
		t.Errorf("the copy that has more is kept as %v, %v", kept, err)
	}
}
