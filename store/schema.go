package store

import (
	"encoding/binary"
	"fmt"

	"go.etcd.io/bbolt"
)

// The buckets at the top of the file.
var (
	metaBucket       = []byte("meta")
	peopleBucket     = []byte("people")
	crewsBucket      = []byte("crews")
	outboxBucket     = []byte("outbox")
	seenBucket       = []byte("seen")
	seenOrderBucket  = []byte("seen_order")
	cursorsBucket    = []byte("cursors")
	quarantineBucket = []byte("quarantine")
)

// The buckets of a person; those of a crew are named alike.
var (
	takeoffsBucket = []byte("takeoffs")
	jobsBucket     = []byte("jobs")
	cutsBucket     = []byte("cuts")
)

var versionKey = []byte("version")

// A migration brings a file from one version to the next.
type migration func(root *bucket) error

// migrations are in order: the first makes version 1 of an empty file.
var migrations = []migration{
	makeBuckets,
	makeCrews,
	allowCuts,
	indexUsers,
	allowSeals,
}

func makeBuckets(root *bucket) error {
	for _, name := range [][]byte{
		metaBucket, peopleBucket, outboxBucket, seenBucket,
		seenOrderBucket, cursorsBucket, quarantineBucket,
	} {
		if _, err := root.Make(name); err != nil {
			return err
		}
	}
	return nil
}

func makeCrews(root *bucket) error {
	_, err := root.Make(crewsBucket)
	return err
}

// allowCuts changes nothing that is there: a cut list is made when somebody
// begins one. The new version keeps out older programs, which don't know it.
func allowCuts(*bucket) error { return nil }

// allowSeals changes nothing that is there: what is written from now on has a
// checksum, which older programs don't know.
func allowSeals(*bucket) error { return nil }

func topBuckets() [][]byte {
	return [][]byte{
		metaBucket, peopleBucket, usersBucket, crewsBucket, outboxBucket, seenBucket,
		seenOrderBucket, cursorsBucket, quarantineBucket,
	}
}

// migrate brings a file up to date. Each step and its new version number are
// one transaction, so a crash in between leaves a whole older version.
func migrate(bolt *bbolt.DB, steps []migration) error {
	for {
		var done bool
		err := bolt.View(func(tx *bbolt.Tx) error {
			done = version(rootOf(tx, nil)) >= uint64(len(steps))
			return nil
		})
		if done || err != nil {
			return err
		}
		if err := bolt.Update(func(tx *bbolt.Tx) error { return step(rootOf(tx, nil), steps) }); err != nil {
			return err
		}
	}
}

// upgrade brings a file up to date in a transaction that is open.
func upgrade(root *bucket, steps []migration) error {
	for version(root) < uint64(len(steps)) {
		if err := step(root, steps); err != nil {
			return err
		}
	}
	return nil
}

func step(root *bucket, steps []migration) error {
	from := version(root)
	if err := steps[from](root); err != nil {
		return fmt.Errorf("bringing the database from version %d to %d: %w", from, from+1, err)
	}
	return root.Bucket(metaBucket).Put(versionKey, number(from+1))
}

// version is that of the file; a file that bbolt has just made has version 0.
func version(root *bucket) uint64 {
	return numberOf(root.Bucket(metaBucket).Get(versionKey))
}

// outdated says whether the file is of an earlier version, as only a copy is that
// is open.
func outdated(root *bucket) bool {
	v := version(root)
	return 0 < v && v < uint64(len(migrations))
}

// readable says whether this program can work with the file.
func readable(root *bucket) error {
	switch v := version(root); {
	case v == 0:
		return ErrNotDatabase
	case v > uint64(len(migrations)):
		return ErrNewer
	}
	return nil
}

// number writes a number as a key, so that the order of keys is that of the
// numbers.
func number(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }

// numberOf reads it back; anything else than eight bytes is 0.
func numberOf(key []byte) uint64 {
	if len(key) != 8 {
		return 0
	}
	return binary.BigEndian.Uint64(key)
}
