package store

import (
	"encoding/json"
	"fmt"
	"time"

	"go.etcd.io/bbolt"
)

// Tx is a transaction. It is for one goroutine, and only until the function it
// was handed to returns.
//
// The first error is kept, and nothing is written after it; see the package
// comment.
type Tx struct {
	root *bucket
	now  time.Time
	keep int // jobs of a person
	err  error
}

// Update runs fn in a transaction that may write. All that fn wrote is on the
// disk when Update returns nil. If fn returns an error or panics, or a write
// fails, nothing of it is; a panic goes on up.
func (db *DB) Update(fn func(*Tx) error) error {
	if err := db.upToDate(); err != nil {
		return err
	}
	return db.write(func(root *bucket) error { return db.run(root, fn) })
}

// View runs fn in a transaction that only reads, and sees the database as it
// was when it began.
func (db *DB) View(fn func(*Tx) error) error {
	if err := db.upToDate(); err != nil {
		return err
	}
	return db.look(func(root *bucket) error { return db.run(root, fn) })
}

// write runs fn where it may write, and ships what it wrote.
func (db *DB) write(fn func(root *bucket) error) error {
	return db.alone(func(root *bucket) error {
		if db.Ship == nil {
			return fn(root)
		}
		if root.record == nil {
			root.record = &record{}
		}
		from := root.record.rewind()
		if err := fn(root); err != nil {
			return err
		}
		return db.ship(root, from)
	})
}

// alone runs fn where it may write, behind what the last transaction shipped and
// could not commit.
func (db *DB) alone(fn func(root *bucket) error) error {
	return db.oneByOne(func(root *bucket) error {
		if err := db.settle(root); err != nil {
			return err
		}
		return fn(root)
	})
}

// oneByOne runs fn where it may write, when nobody else does. Everything that is
// written goes through here, so that Compact hears of it.
func (db *DB) oneByOne(fn func(root *bucket) error) error {
	db.writing.Lock()
	defer db.writing.Unlock()
	r, done := db.tail.record(), false
	err := db.survive(func() error {
		return db.bolt.Update(func(tx *bbolt.Tx) error {
			err := fn(rootOf(tx, r))
			done = err == nil
			return err
		})
	})
	if done {
		db.tail.add(r, err)
	}
	return err
}

// look runs fn where it may only read.
func (db *DB) look(fn func(root *bucket) error) error {
	tx, err := db.begin()
	if err != nil {
		return err
	}
	defer func() { _ = tx.Rollback() }() // of one that reads, it fails only where it is over
	return db.survive(func() error { return fn(rootOf(tx, nil)) })
}

// begin begins a transaction that only reads. It may go on when another file takes
// the place of the one that it reads.
func (db *DB) begin() (*bbolt.Tx, error) {
	db.swap.RLock()
	defer db.swap.RUnlock()
	return db.bolt.Begin(false)
}

func (db *DB) run(root *bucket, fn func(*Tx) error) error {
	tx := &Tx{root: root, now: db.Now(), keep: db.Keep}
	if err := fn(tx); err != nil {
		return err
	}
	return tx.err
}

// Err is the first error that occurred so far, for those who can't wait for
// the end of the transaction to hear of it.
func (tx *Tx) Err() error { return tx.err }

// fail keeps the first error.
func (tx *Tx) fail(err error) {
	if tx.err == nil && err != nil {
		tx.err = fmt.Errorf("store: %w", err)
	}
}

// put writes a value as JSON. A nil bucket is one that failed to be made.
func (tx *Tx) put(b *bucket, key []byte, value any) {
	if tx.err != nil || b == nil {
		return
	}
	text, err := json.Marshal(value)
	if err != nil {
		tx.fail(err)
		return
	}
	tx.fail(b.Put(key, text))
}

// get reads a JSON value; it is false if there is none. A nil bucket has none.
func (tx *Tx) get(b *bucket, key []byte, into any) bool {
	if tx.err != nil || b == nil {
		return false
	}
	text := b.Get(key)
	return text != nil && tx.decode(text, into)
}

func (tx *Tx) decode(text []byte, into any) bool {
	err := json.Unmarshal(text, into)
	tx.fail(err)
	return err == nil
}

// remove deletes a key; it is false if there was none.
func (tx *Tx) remove(b *bucket, key []byte) bool {
	if tx.err != nil || b == nil || b.Get(key) == nil {
		return false
	}
	tx.fail(b.Delete(key))
	return tx.err == nil
}

// next gives the bucket's next number. Numbers go up for ever: one that was
// deleted is not given again.
func (tx *Tx) next(b *bucket) (uint64, bool) {
	if tx.err != nil || b == nil {
		return 0, false
	}
	n, err := b.NextSequence()
	tx.fail(err)
	return n, err == nil
}
