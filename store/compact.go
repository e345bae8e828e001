package store

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"go.etcd.io/bbolt"
)

// Forgotten says whether somebody was forgotten whose bytes may still be in the
// file.
func (db *DB) Forgotten() (yes bool) {
	_ = db.look(func(root *bucket) error {
		yes = root.Bucket(metaBucket).Get(forgottenKey) != nil
		return nil
	})
	return yes
}

// Compact writes the file anew without what was deleted before it began, and puts
// it in the place of the old one in one step. The program goes on meanwhile: what
// is written to the old file while it is copied is gathered and written to the new
// one too, and only for the last of that do transactions wait. Who is forgotten
// meanwhile makes [DB.Forgotten] true again. Killed anywhere, one of the two files
// is there whole. If it fails, the old one stays.
func (db *DB) Compact() error {
	db.compacting.Lock()
	defer db.compacting.Unlock()
	since := new(tail)
	defer db.gatherIn(nil)
	fresh, err := draft(db.path, compacted(db.path)+"*", db.options, func(to *bbolt.DB) error { return db.copyTo(to, since) })
	if err != nil {
		return err
	}
	if err := db.exchange(fresh, since); err != nil {
		return discard(fresh, err)
	}
	return nil
}

// copyTo copies all that the database holds at this moment, and gathers what is
// written from the same moment on.
func (db *DB) copyTo(to *bbolt.DB, since *tail) error {
	copied := make(chan error, 1)
	db.swap.Lock() // nobody writes, and no transaction begins
	db.tail = since
	// The last of what bbolt copies it commits when its own transaction has ended
	// that reads it, so another keeps the pages as they are until then.
	hold, err := db.bolt.Begin(false)
	if err != nil {
		db.swap.Unlock()
		return err
	}
	defer func() { _ = hold.Rollback() }() // which fails only where it was called before
	begun := db.bolt.Stats().TxN
	go func() { copied <- bbolt.Compact(to, db.bolt, compactAtOnce) }()
	for len(copied) == 0 && db.bolt.Stats().TxN == begun { // until its own transaction has begun
		time.Sleep(10 * time.Microsecond)
	}
	db.swap.Unlock()
	if err := <-copied; err != nil {
		return err
	}
	return to.Update(func(tx *bbolt.Tx) error { return tx.Bucket(metaBucket).Delete(forgottenKey) })
}

// exchange brings a copy up to what was written since, and puts it in the place of
// the database.
func (db *DB) exchange(fresh *bbolt.DB, since *tail) error {
	for range mostRounds {
		list, err := since.take()
		if err == nil {
			err = replayAll(fresh, list)
		}
		if err != nil {
			return err
		}
		if len(list) < lastRound {
			break
		}
	}
	old, err := db.exchangeNow(fresh, since)
	if err != nil {
		return err
	}
	return old.Close() // when those who still read in it are done
}

// exchangeNow does the last of it, while nobody writes.
func (db *DB) exchangeNow(fresh *bbolt.DB, since *tail) (old *bbolt.DB, err error) {
	db.swap.Lock()
	defer db.swap.Unlock()
	list, err := since.take()
	if err == nil {
		err = replayAll(fresh, list)
	}
	if err == nil {
		err = replace(fresh.Path(), db.path)
	}
	if err != nil {
		return nil, err
	}
	old, db.bolt = db.bolt, fresh // which holds the lock on the new file already
	return old, nil
}

// mostRounds is how often what was written meanwhile is caught up with before
// everybody waits for the rest, and lastRound how few transactions that may as well
// be done with.
const (
	mostRounds = 20
	lastRound  = 50
)

// gatherIn has what is written gathered, by nobody where the tail is nil.
func (db *DB) gatherIn(t *tail) {
	db.swap.Lock()
	defer db.swap.Unlock()
	db.tail = t
}

// tail gathers what transactions write while the database is copied.
type tail struct {
	mu   sync.Mutex
	list []Changes
	size int
	err  error // why the list isn't what was written
}

// longestTail is how much is gathered, in bytes, before copying is given up: more
// than is written in an hour at Telegram's pace.
const longestTail = 256 << 20

var errTooMuchMeanwhile = errors.New("store: too much was written while the file was compacted")

func (t *tail) add(c Changes) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.size += len(c); t.size > longestTail {
		t.err = errTooMuchMeanwhile
	}
	if t.err == nil {
		t.list = append(t.list, c)
	}
}

// spoil says that what was added last may not be in the database.
func (t *tail) spoil(why error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.err = fmt.Errorf("store: not compacted, for something could not be written meanwhile: %w", why)
}

// take hands out what was gathered since it was asked last.
func (t *tail) take() (list []Changes, err error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	list, t.list, t.size = t.list, nil, 0
	return list, t.err
}

// replayAll does to a copy what was done to the database.
func replayAll(to *bbolt.DB, list []Changes) error {
	for some := range slices.Chunk(list, replayedAtOnce) {
		err := to.Update(func(tx *bbolt.Tx) error {
			for _, c := range some {
				if err := c.replay(rootOf(tx, nil)); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// replayedAtOnce is how many transactions become one of the copy.
const replayedAtOnce = 1000

// compacted is how the name begins of what is to take the place of a file. Only
// who has the lock on that file makes such.
func compacted(path string) string { return "." + filepath.Base(path) + ".compacted-" }

// tidy takes away what a process left behind that was killed while it compacted.
// Who calls has the lock.
func tidy(path string) {
	files, _ := os.ReadDir(filepath.Dir(path)) // those that could be read
	for _, file := range files {
		if strings.HasPrefix(file.Name(), compacted(path)) {
			_ = os.Remove(filepath.Join(filepath.Dir(path), file.Name()))
		}
	}
}

// compactAtOnce is how many bytes are copied in one transaction.
const compactAtOnce = 1 << 20
