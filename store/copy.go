package store

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"

	"go.etcd.io/bbolt"
)

// This file is about databases of which several processes have a copy each. One
// of them writes; what each of its transactions wrote is shipped, and applied to
// the other copies in the same order.

// OpenCopy opens a copy, or makes a new one if there is no such file. It is like
// [Open] but for two things. The file is thrown away with the process, so no
// transaction waits for the disk, and after a crash of the machine it may be torn.
// And it keeps the version that it has, which is that of what is shipped to it,
// until the first [DB.Update] or [DB.View] on it: that brings it up to date in a
// transaction that is shipped as any other. A new one is the empty database of
// version 1, which is where every copy begins that begins from nothing.
func OpenCopy(path string) (*DB, error) {
	return openAs(path, copyOptions(), migrations[:1])
}

func copyOptions() *bbolt.Options {
	// Without NoGrowSync, although a copy needn't be safe: bbolt says that on some
	// file systems what was written is not what is read then.
	return &bbolt.Options{Timeout: lockTimeout, InitialMmapSize: room(), NoSync: true, NoFreelistSync: true}
}

// positionKey holds the place in the journal at which this copy stands. It is of
// the copy and not of what is in it.
var positionKey = []byte("position")

// shipment is changes that were shipped, and where they stand in the journal.
type shipment struct {
	changes Changes
	at      uint64
}

// Apply writes what a transaction on another copy wrote, as DB.Ship was given it,
// and keeps at as the place where this copy stands. Changes up to the place where
// it stands already do nothing; whoever applies sees to it that none are left
// out. It fails with [ErrNewer] or [ErrMisfit], and then nothing is written.
func (db *DB) Apply(c Changes, at uint64) error {
	return db.alone(func(root *bucket) error { return apply(root, shipment{c, at}) })
}

func apply(root *bucket, s shipment) error {
	if s.at <= position(root) {
		return nil
	}
	if err := s.changes.replay(root); err != nil {
		return fmt.Errorf("store: at %d: %w", s.at, err)
	}
	return stand(root, s.at)
}

// Position is the place in the journal at which this copy stands, 0 before
// anything was shipped or applied.
func (db *DB) Position() (at uint64, err error) {
	err = db.look(func(root *bucket) error {
		at = position(root)
		return nil
	})
	return at, err
}

// Rebase says that this copy stands at another place: that of a journal that
// goes on from what is in it.
func (db *DB) Rebase(at uint64) error {
	return db.oneByOne(func(root *bucket) error { return stand(root, at) })
}

func position(root *bucket) uint64 { return numberOf(root.Bucket(metaBucket).Get(positionKey)) }

// stand keeps the place at which the copy stands.
func stand(root *bucket, at uint64) error {
	return root.Bucket(metaBucket).Put(positionKey, number(at))
}

// ship hands on what the transaction wrote from a place in its record on. From here
// to the end of the commit the changes may be in the journal and not in this copy,
// so they are kept.
func (db *DB) ship(root *bucket, from int) error {
	if len(root.record.operations) == from {
		return nil
	}
	c := root.record.changes(from, version(root))
	at, err := db.Ship(c)
	if err != nil {
		return fmt.Errorf("store: not written, for it could not be shipped: %w", err)
	}
	db.owed = shipment{c, at}
	return stand(root, at)
}

// settle writes what the last transaction shipped, if its commit failed after
// that. Who calls is in a transaction that may write, and so is alone.
func (db *DB) settle(root *bucket) error {
	switch {
	case db.owed.changes == nil:
		return nil
	case db.owed.at <= position(root): // the commit succeeded
		db.owed = shipment{}
		return nil
	}
	return apply(root, db.owed)
}

// upToDate brings a copy up to date before its first transaction.
func (db *DB) upToDate() error {
	if db.current.Load() {
		return nil
	}
	err := db.write(func(root *bucket) error { return upgrade(root, migrations) })
	if err == nil {
		db.current.Store(true)
	}
	return err
}

// Hash is a digest, SHA-256 in hexadecimal, of all that is in the database: two
// copies that hold the same have the same. What is of the file alone is left out:
// where it stands in the journal, and whether it is to be compacted.
func (db *DB) Hash() (digest string, err error) {
	err = db.look(func(root *bucket) error {
		sum := sha256.New()
		sum.Write(number(version(root)))
		for name := range root.all() {
			if !bytes.Equal(name, metaBucket) {
				root.digest(sum, name)
			}
		}
		digest = hex.EncodeToString(sum.Sum(nil))
		return nil
	})
	return digest, err
}

// digest writes the bucket of this name, and all in it, so that no other could
// be written the same.
func (b *bucket) digest(sum io.Writer, name []byte) {
	in := b.Bucket(name)
	say := func(kind byte, fields ...[]byte) {
		text := []byte{kind}
		for _, field := range fields {
			text = appendField(text, field)
		}
		_, _ = sum.Write(text) // a digest takes everything
	}
	say('b', name, number(in.Sequence()))
	for k, v := range in.all() {
		if v == nil {
			in.digest(sum, k)
			continue
		}
		say('k', k, v)
	}
	say('e')
}
