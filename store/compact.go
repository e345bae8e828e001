package store

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"go.etcd.io/bbolt"
)

// This file is about writing the file anew while the program goes on. A new file
// is filled a little at a time, each time out of a transaction of its own: one that
// lasted for all of it would hold up who needs the old file to grow, and nothing in
// that file could be used again meanwhile. So what is copied late is younger than
// what was copied early, and what was copied early may have changed since. What is
// written during the copying is recorded, and done to the new file as well, in the
// same order. Whoever does it all again, from before a key was copied, comes to
// what that key holds now.

// Forgotten says whether somebody was forgotten whose bytes may still be in the
// file.
func (db *DB) Forgotten() (yes bool) {
	_ = db.look(func(root *bucket) error {
		yes = forgottenIn(root)
		return nil
	})
	return yes
}

func forgottenIn(root *bucket) bool { return root.Bucket(metaBucket).Get(forgottenKey) != nil }

// copyAtOnce is how many bytes are copied in one transaction.
const copyAtOnce = 1 << 20

// Compact writes the file anew without what was deleted, and puts it in the place
// of the old one in one step, while the program goes on: who writes waits for that
// step alone, and who reads for nothing. It returns when the last of those is done
// who still read the old file. Killed anywhere, one of the two files is there
// whole. It ends early, with the context's error, when that does.
//
// For a time there are two files on the disk. Where there isn't space for both it
// fails, and goes no further either if a transaction fails to write meanwhile.
//
// What is deleted while it runs may stay in the file until the next time, which
// [DB.Forgotten] tells.
func (db *DB) Compact(ctx context.Context) error {
	db.compacting.Lock()
	defer db.compacting.Unlock()
	db.keepTail(true)
	defer db.keepTail(false)
	fresh, err := draft(db.path, compacted(db.path)+"*", db.options, func(to *bbolt.DB) error { return db.copyTo(ctx, to) })
	if err != nil {
		return err
	}
	old, err := db.giveWay(fresh)
	if err != nil {
		return discard(fresh, err)
	}
	return old.Close()
}

// copyTo copies everything, while others write.
func (db *DB) copyTo(ctx context.Context, to *bbolt.DB) error {
	at, err := db.copyOn(ctx, to, nil)
	for err == nil && at != nil {
		at, err = db.copyOn(ctx, to, at)
	}
	return err
}

// copyOn does what was written since it was called last, copies as much as one
// transaction may, and returns how far it came.
func (db *DB) copyOn(ctx context.Context, to *bbolt.DB, behind reached) (at reached, err error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	since, err := db.tail.take()
	if err != nil {
		return nil, err
	}
	err = db.look(func(from *bucket) error {
		return to.Update(func(tx *bbolt.Tx) error {
			root, left := rootOf(tx, nil), db.copyAtOnce
			root.seals = from.seals
			if err := redo(root, since); err != nil {
				return err
			}
			marked := forgottenIn(root)
			if at, err = copySome(root, from, behind, &left); err != nil || marked {
				return err
			}
			return unmark(root)
		})
	})
	return at, err
}

// unmark takes away the mark that somebody was forgotten, where it was copied: a
// copy has it only of those who were forgotten since it was begun.
func unmark(root *bucket) error {
	if meta := root.Bucket(metaBucket); meta != nil {
		return meta.Delete(forgottenKey)
	}
	return nil
}

// giveWay puts a copy in the place of the file, with what was written since the
// last of it was copied.
func (db *DB) giveWay(fresh *bbolt.DB) (old *bbolt.DB, err error) {
	db.writing.Lock()
	defer db.writing.Unlock()
	since, err := db.tail.take()
	if err == nil {
		err = fresh.Update(func(tx *bbolt.Tx) error { return redo(rootOf(tx, nil), since) })
	}
	if err == nil {
		err = replace(fresh.Path(), db.path)
	}
	if err != nil {
		return nil, err
	}
	db.tail.kept = false // however long the last may read the old file
	db.swap.Lock()
	defer db.swap.Unlock()
	old, db.bolt = db.bolt, fresh // which holds the lock on the new file already
	return old, nil
}

// reached is how far copying has come: the key in the root that was copied last;
// if that is a bucket, the one in it; and so on. It is nil at the end.
type reached [][]byte

// copySome copies what comes behind that, until so many bytes are left of those
// that may be copied, and returns how far it came.
func copySome(to, from *bucket, behind reached, left *int) (at reached, err error) {
	var last []byte
	if len(behind) > 0 {
		last, behind = behind[0], behind[1:]
	}
	for k, v := range from.from(last) {
		switch {
		case v == nil && bytes.Equal(k, last):
			at, err = copySomeInside(to, from, k, behind, left)
		case v == nil:
			at, err = copySomeInside(to, from, k, nil, left)
		case !bytes.Equal(k, last):
			err = to.Put(k, v)
			if *left -= len(k) + len(v); *left <= 0 {
				at = reached{}
			}
		}
		if err != nil || at != nil {
			return append(reached{bytes.Clone(k)}, at...), err
		}
	}
	return nil, nil
}

// copySomeInside does so in the bucket of this name.
func copySomeInside(to, from *bucket, name []byte, behind reached, left *int) (reached, error) {
	source := from.Bucket(name)
	inner, err := to.Make(name)
	if err != nil {
		return nil, err
	}
	if err := inner.SetSequence(source.Sequence()); err != nil {
		return nil, err
	}
	inner.bolt.FillPercent = 1 // the keys come in their order
	return copySome(inner, source, behind, left)
}

// tail is what was written since a copy began to be made, for that copy.
type tail struct {
	sync.Mutex
	kept       bool // for who holds DB.writing
	operations []byte
	failed     error // of a commit, of which nobody knows whether it is in the file
}

// keepTail says whether what is written is to be recorded from now on.
func (db *DB) keepTail(kept bool) {
	db.writing.Lock()
	defer db.writing.Unlock()
	db.tail.Lock()
	defer db.tail.Unlock()
	db.tail.kept, db.tail.operations, db.tail.failed = kept, nil, nil
}

// record is for what a transaction writes, nil if nobody wants to know.
func (t *tail) record() *record {
	if !t.kept {
		return nil
	}
	return &record{}
}

// add takes in what a transaction wrote, when it is over.
func (t *tail) add(r *record, failed error) {
	if r == nil {
		return
	}
	r.rewind()
	t.Lock()
	defer t.Unlock()
	t.operations = append(t.operations, r.operations...)
	if t.failed == nil && failed != nil {
		t.failed = fmt.Errorf("store: a transaction failed while the file was compacted: %w", failed)
	}
}

// take hands out what was written since it was called last.
func (t *tail) take() (operations []byte, err error) {
	t.Lock()
	defer t.Unlock()
	operations, t.operations = t.operations, nil
	return operations, t.failed
}

// redo does to a copy what was done to what it is a copy of. Some of it the copy
// may have already, and of some of it what came before may be missing: then what
// comes after takes it away again.
func redo(root *bucket, operations []byte) error {
	return perform(root, operations, (*bucket).makeAlong, (*bucket).redo)
}

// makeAlong is the bucket at the end of a path, nil if it can't be made.
func (b *bucket) makeAlong(path []byte) *bucket {
	for len(path) > 0 && b != nil {
		name, rest, ok := cutField(path)
		if !ok {
			return nil
		}
		b, _ = b.Make(name)
		path = rest
	}
	return b
}

func (b *bucket) redo(o operation, fields [2][]byte) error {
	switch {
	case o == makeBucket:
		_, err := b.Make(fields[0])
		return err
	case o == deleteBucket && b.Bucket(fields[0]) == nil:
		return nil
	}
	return b.do(o, fields)
}

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
