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
	bolt *bbolt.Tx
	now  time.Time
	keep int // jobs of a person
	err  error
}

// Update runs fn in a transaction that may write. All that fn wrote is on the
// disk when Update returns nil. If fn returns an error or panics, or a write
// fails, nothing of it is; a panic goes on up.
func (db *DB) Update(fn func(*Tx) error) error {
	db.swap.RLock()
	defer db.swap.RUnlock()
	return db.bolt.Update(func(bolt *bbolt.Tx) error { return db.run(bolt, fn) })
}

// View runs fn in a transaction that only reads, and sees the database as it
// was when it began.
func (db *DB) View(fn func(*Tx) error) error {
	db.swap.RLock()
	defer db.swap.RUnlock()
	return db.bolt.View(func(bolt *bbolt.Tx) error { return db.run(bolt, fn) })
}

func (db *DB) run(bolt *bbolt.Tx, fn func(*Tx) error) error {
	tx := &Tx{bolt: bolt, now: db.Now(), keep: db.Keep}
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
func (tx *Tx) put(b *bbolt.Bucket, key []byte, value any) {
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
func (tx *Tx) get(b *bbolt.Bucket, key []byte, into any) bool {
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
func (tx *Tx) remove(b *bbolt.Bucket, key []byte) bool {
	if tx.err != nil || b == nil || b.Get(key) == nil {
		return false
	}
	tx.fail(b.Delete(key))
	return tx.err == nil
}

// next gives the bucket's next number. Numbers go up for ever: one that was
// deleted is not given again.
func (tx *Tx) next(b *bbolt.Bucket) (uint64, bool) {
	if tx.err != nil || b == nil {
		return 0, false
	}
	n, err := b.NextSequence()
	tx.fail(err)
	return n, err == nil
}
