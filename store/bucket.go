package store

import (
	"bytes"
	"errors"
	"iter"

	"go.etcd.io/bbolt"
)

// bucket is a bucket of the file. All code of this package reads and writes
// through it and never through bbolt's own, so that where somebody wants to know
// what a transaction wrote, nothing can be written past the record.
//
// A nil bucket is one that isn't there: it holds nothing.
type bucket struct {
	bolt   *bbolt.Bucket
	record *record // nil where nobody wants to know
	path   []byte  // from the root, as it stands in the record; nil without one
	seals  bool    // values get a checksum
}

// rootOf is the bucket that holds all the others.
func rootOf(tx *bbolt.Tx, r *record) *bucket {
	root := &bucket{bolt: tx.Cursor().Bucket(), record: r}
	root.seals = version(root) >= sealsFrom
	return root
}

// in is a bucket that stands in this one.
func (b *bucket) in(bolt *bbolt.Bucket, name []byte) *bucket {
	inner := &bucket{bolt: bolt, record: b.record, seals: b.seals}
	if b.record != nil {
		inner.path = appendField(b.path[:len(b.path):len(b.path)], name)
	}
	return inner
}

// Bucket is the one of this name in it, nil if there is none.
func (b *bucket) Bucket(name []byte) *bucket {
	if b == nil {
		return nil
	}
	bolt := b.bolt.Bucket(name)
	if bolt == nil {
		return nil
	}
	return b.in(bolt, name)
}

// Get is the value of a key, nil if there is none. Like every value that is read,
// it is good until the transaction ends or writes.
func (b *bucket) Get(key []byte) []byte {
	if b == nil {
		return nil
	}
	return plain(key, b.bolt.Get(key))
}

// all is what it holds, in the order of the keys; a bucket has a nil value.
func (b *bucket) all() iter.Seq2[[]byte, []byte] { return b.from(nil) }

// from is what it holds from a key on.
func (b *bucket) from(start []byte) iter.Seq2[[]byte, []byte] {
	return func(yield func(k, v []byte) bool) {
		if b == nil {
			return
		}
		c := b.bolt.Cursor()
		k, v := c.First()
		if start != nil {
			k, v = c.Seek(start)
		}
		for k != nil && yield(k, plain(k, v)) {
			k, v = c.Next()
		}
	}
}

// first is the first key and its value, nil if it holds nothing.
func (b *bucket) first() (k, v []byte) {
	k, v = b.bolt.Cursor().First()
	return k, plain(k, v)
}

// last is the last key and its value, nil if it holds nothing.
func (b *bucket) last() (k, v []byte) {
	k, v = b.bolt.Cursor().Last()
	return k, plain(k, v)
}

// Sequence is the number that was given last in it.
func (b *bucket) Sequence() uint64 { return b.bolt.Sequence() }

// Put writes a value, which must stay as it is until the transaction ends.
func (b *bucket) Put(key, value []byte) error {
	stands := value
	if b.seals {
		stands = sealed(key, value)
	}
	err := b.bolt.Put(key, stands)
	if err == nil {
		b.record.add(b, putKey, key, value)
	}
	return err
}

// Delete takes a key away.
func (b *bucket) Delete(key []byte) error {
	err := b.bolt.Delete(key)
	if err == nil {
		b.record.add(b, deleteKey, key)
	}
	return err
}

// Make makes a bucket in it, or returns the one that is there.
func (b *bucket) Make(name []byte) (*bucket, error) {
	if there := b.Bucket(name); there != nil {
		return there, nil
	}
	return b.create(name)
}

// create makes a bucket in it, where none of this name may be.
func (b *bucket) create(name []byte) (*bucket, error) {
	bolt, err := b.bolt.CreateBucket(name)
	if err != nil {
		return nil, err
	}
	b.record.add(b, makeBucket, name)
	return b.in(bolt, name), nil
}

// DeleteBucket takes a bucket away with all that is in it.
func (b *bucket) DeleteBucket(name []byte) error {
	err := deleteAll(b.bolt, name)
	if err == nil {
		b.record.add(b, deleteBucket, name)
	}
	return err
}

// deleteAll deletes a bucket, and first those in it, one by one: bbolt deletes them
// while it walks over them. Where the bucket was written to in this transaction it
// passes over some, whose pages are lost to the file then.
func deleteAll(in *bbolt.Bucket, name []byte) error {
	if b := in.Bucket(name); b != nil {
		var inner [][]byte
		err := b.ForEachBucket(func(k []byte) error {
			inner = append(inner, bytes.Clone(k))
			return nil
		})
		for _, k := range inner {
			err = errors.Join(err, deleteAll(b, k))
		}
		if err != nil {
			return err
		}
	}
	return in.DeleteBucket(name)
}

// NextSequence gives a number that was never given before.
func (b *bucket) NextSequence() (uint64, error) {
	n, err := b.bolt.NextSequence()
	if err == nil {
		b.record.add(b, setSequence, number(n))
	}
	return n, err
}

// SetSequence says which number was given last.
func (b *bucket) SetSequence(n uint64) error {
	err := b.bolt.SetSequence(n)
	if err == nil {
		b.record.add(b, setSequence, number(n))
	}
	return err
}
