package store_test

import (
	"bytes"
	"errors"
	"path/filepath"
	"testing"

	"dogleg/store"
	"dogleg/store/storetest"

	"go.etcd.io/bbolt"
)

// openCopy opens a copy that is closed when the test ends.
func openCopy(t testing.TB, path string) *store.DB {
	t.Helper()
	db, err := store.OpenCopy(path)
	if err != nil {
		t.Fatalf("OpenCopy(%s): %v", path, err)
	}
	t.Cleanup(func() {
		if err := errors.Join(db.Check(), db.Close()); err != nil {
			t.Error(err)
		}
	})
	return db
}

func freshCopy(t testing.TB) *store.DB { return openCopy(t, filepath.Join(t.TempDir(), "copy.db")) }

// journal keeps what is shipped to it.
type journal struct {
	all   []store.Changes
	fails error
}

func (j *journal) ship(c store.Changes) (at uint64, err error) {
	if j.fails != nil {
		return 0, j.fails
	}
	j.all = append(j.all, bytes.Clone(c))
	return uint64(len(j.all)), nil
}

// shipping is a fresh copy that ships to a journal.
func shipping(t testing.TB) (*store.DB, *journal) {
	db, j := freshCopy(t), &journal{}
	db.Ship = j.ship
	return db, j
}

// apply brings a copy to the end of the journal.
func (j *journal) apply(t testing.TB, db *store.DB) {
	t.Helper()
	for i := int(position(t, db)); i < len(j.all); i++ {
		if err := db.Apply(j.all[i], uint64(i+1)); err != nil {
			t.Fatalf("Apply of %d: %v", i+1, err)
		}
	}
}

func hash(t testing.TB, db *store.DB) string {
	t.Helper()
	sum, err := db.Hash()
	if err != nil {
		t.Fatal(err)
	}
	return sum
}

func position(t testing.TB, db *store.DB) uint64 {
	t.Helper()
	at, err := db.Position()
	if err != nil {
		t.Fatal(err)
	}
	return at
}

// alike fails the test unless two copies hold the same and stand at the same place.
func alike(t testing.TB, a, b *store.DB) {
	t.Helper()
	if hash(t, a) != hash(t, b) {
		t.Error("the copies differ")
	}
	if position(t, a) != position(t, b) {
		t.Errorf("the copies stand at %d and %d", position(t, a), position(t, b))
	}
}

// TestCopyFollows: a copy that began from nothing holds the same after every
// transaction, also where buckets were moved, copied and deleted.
func TestCopyFollows(t *testing.T) {
	db, j := shipping(t)
	there := freshCopy(t)
	moved := store.ChatOf("telegram", "-1001207")
	for _, fn := range []func(*store.Tx){
		storetest.Everything,
		func(tx *store.Tx) { tx.Person(dana).SetExchange(store.Exchange{Question: 1, Answer: 2}) },
		func(tx *store.Tx) { tx.MoveChat(upstairs, moved) },
		func(tx *store.Tx) { tx.Person(moved.Person("7")).ClearCuts() },
		func(tx *store.Tx) { tx.Person(moved.Person("8")).SetNote(store.State, []byte{}) },
		func(tx *store.Tx) { tx.Person(moved.Person("7")).DropJob(1) },
		func(tx *store.Tx) { tx.Person(moved.Person("7")).Forget("Dana") },
	} {
		update(t, db, fn)
		j.apply(t, there)
		alike(t, db, there)
	}
	if !there.Forgotten() {
		t.Error("the copy doesn't know that somebody was forgotten")
	}
	update(t, there, func(tx *store.Tx) {
		if n := tx.Queue(upstairs, []byte("x")).Number; n != 2 {
			t.Errorf("numbers go on from %d", n)
		}
	})
}

// TestNothingIsShippedOfNothing: neither of a transaction that wrote nothing nor of
// one that did not end well.
func TestNothingIsShippedOfNothing(t *testing.T) {
	db, j := shipping(t)
	update(t, db, func(*store.Tx) {}) // brings it up to date
	shipped := len(j.all)
	leak := errors.New("a leak")
	update(t, db, func(tx *store.Tx) { tx.Person(dana).DropJob(3); tx.Done("1"); tx.StrikeOff(store.Entry{Number: 1}) })
	if err := db.Update(func(tx *store.Tx) error { storetest.Everything(tx); return leak }); !errors.Is(err, leak) {
		t.Error(err)
	}
	if err := db.Update(func(tx *store.Tx) error { storetest.Everything(tx); tx.MarkDone(""); return nil }); err == nil {
		t.Error("a failed write is no error")
	}
	func() {
		defer func() { _ = recover() }()
		_ = db.Update(func(tx *store.Tx) error { storetest.Everything(tx); panic("burst") })
	}()
	if len(j.all) != shipped {
		t.Errorf("shipped: %q", j.all[shipped:])
	}
	storetest.Nothing(t, db)
}

func TestWhatCannotBeShippedIsNotWritten(t *testing.T) {
	db, j := shipping(t)
	update(t, db, func(tx *store.Tx) { tx.Queue(upstairs, []byte("first")) })
	before, at := hash(t, db), position(t, db)
	j.fails = errors.New("no route")
	err := db.Update(func(tx *store.Tx) error { storetest.Everything(tx); return nil })
	if !errors.Is(err, j.fails) {
		t.Errorf("Update: %v, want the error of Ship", err)
	}
	if hash(t, db) != before || position(t, db) != at {
		t.Error("it was written all the same")
	}
	j.fails = nil
	update(t, db, storetest.Everything)
	there := freshCopy(t)
	j.apply(t, there)
	alike(t, db, there)
}

// TestUpToDateNeedsShip: a copy that can't ship can't be brought up to date, and so
// is neither read nor written.
func TestUpToDateNeedsShip(t *testing.T) {
	db, j := shipping(t)
	j.fails = errors.New("no route")
	read := func(*store.Tx) error { t.Error("the copy is of an old version"); return nil }
	if err := db.View(read); !errors.Is(err, j.fails) {
		t.Errorf("View: %v", err)
	}
	if err := db.Update(read); !errors.Is(err, j.fails) {
		t.Errorf("Update: %v", err)
	}
	if got := db.Version(); got != 1 {
		t.Errorf("version %d", got)
	}
	j.fails = nil
	view(t, db, func(*store.Tx) {})
	if got, want := db.Version(), fresh(t).Version(); got != want {
		t.Errorf("version %d, want %d", got, want)
	}
}

// TestApplyOutOfOrder: what stands in the journal at or before the place where the
// copy is does nothing.
func TestApplyOutOfOrder(t *testing.T) {
	db, j := shipping(t)
	for range 3 {
		update(t, db, func(tx *store.Tx) { tx.Queue(upstairs, []byte("x")) })
	}
	there := freshCopy(t)
	j.apply(t, there)
	for i, c := range j.all {
		if err := there.Apply(c, uint64(i+1)); err != nil {
			t.Errorf("Apply of %d, once more: %v", i+1, err)
		}
	}
	alike(t, db, there)
	if err := there.Apply(nil, 9); err != nil || position(t, there) != 9 || hash(t, there) != hash(t, db) {
		t.Errorf("empty changes: %v, at %d", err, position(t, there))
	}
}

func TestApplyRefuses(t *testing.T) {
	db, j := shipping(t)
	update(t, db, storetest.Everything)
	update(t, db, func(tx *store.Tx) { tx.Queue(upstairs, []byte("x")) })
	last := j.all[len(j.all)-1]
	newerForm, newerVersion := bytes.Clone(last), bytes.Clone(last)
	newerForm[0]++
	newerVersion[1]++
	for name, refused := range map[string]struct {
		changes store.Changes
		want    error
	}{
		"a newer form":           {newerForm, store.ErrNewer},
		"a newer version":        {newerVersion, store.ErrNewer},
		"before what came first": {last, store.ErrMisfit}, // of version 1 is the copy
		"no form":                {store.Changes{0, 1}, store.ErrMisfit},
		"half of them":           {last[:len(last)/2], store.ErrMisfit},
		"a byte":                 {last[:1], store.ErrMisfit},
		"text":                   {append(bytes.Clone(last), "12 set 45s"...), store.ErrMisfit},
	} {
		t.Run(name, func(t *testing.T) {
			there := freshCopy(t)
			before := hash(t, there)
			if err := there.Apply(refused.changes, 7); !errors.Is(err, refused.want) {
				t.Errorf("Apply: %v, want %v", err, refused.want)
			}
			if hash(t, there) != before || position(t, there) != 0 {
				t.Error("something was written")
			}
		})
	}
}

// TestOldCopyKeepsItsVersion: a copy follows in the version that the journal is of,
// and is brought up to date by what comes through it.
func TestOldCopyKeepsItsVersion(t *testing.T) {
	leads, follows := openCopy(t, unpacked(t, "testdata/versions/2.db.gz")), openCopy(t, unpacked(t, "testdata/versions/2.db.gz"))
	if leads.Version() != 2 || follows.Version() != 2 {
		t.Fatal("opening them brought them up to date")
	}
	j := &journal{}
	leads.Ship = j.ship
	view(t, leads, func(*store.Tx) {})
	update(t, leads, storetest.Everything)
	j.apply(t, follows)
	alike(t, leads, follows)
	if got, want := follows.Version(), fresh(t).Version(); got != want {
		t.Errorf("version %d, want %d", got, want)
	}
}

// TestPlaceGoesWithTheFile: a backup stands where the copy stood, also after it was
// compacted; what it holds is the same.
func TestPlaceGoesWithTheFile(t *testing.T) {
	db, _ := shipping(t)
	update(t, db, storetest.Everything)
	update(t, db, func(tx *store.Tx) { tx.Person(upstairs.Person("8")).Forget("") })
	before := hash(t, db)
	if err := db.Compact(t.Context()); err != nil {
		t.Fatal(err)
	}
	if db.Forgotten() || hash(t, db) != before {
		t.Error("it was not compacted, or holds something else now")
	}
	update(t, db, func(tx *store.Tx) { tx.Queue(upstairs, []byte("after")) }) // still shipped
	var backup bytes.Buffer
	if err := db.Backup(&backup); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	write(t, filepath.Join(dir, "backup.db"), backup.Bytes())
	alike(t, db, openCopy(t, filepath.Join(dir, "backup.db")))
	path := filepath.Join(dir, "juniper.db")
	if _, err := store.Restore(filepath.Join(dir, "backup.db"), path, noon); err != nil {
		t.Fatal(err)
	}
	alike(t, db, open(t, path))
}

// TestShippedIsNotLostWithTheDisk: where the disk fails after the changes were
// shipped, the next transaction finds them written.
func TestShippedIsNotLostWithTheDisk(t *testing.T) {
	db, j := shipping(t)
	update(t, db, func(*store.Tx) {})
	at := position(t, db)
	db.Full(true)
	large := bytes.Repeat([]byte("x"), 1<<20)
	if err := db.Update(func(tx *store.Tx) error { tx.Queue(upstairs, large); return nil }); err == nil {
		t.Fatal("there is space on the full disk")
	}
	if position(t, db) != at {
		t.Error("the copy stands where it has not come to")
	}
	if err := db.Update(func(*store.Tx) error { return nil }); err == nil {
		t.Error("a transaction did not see what is in the journal")
	}
	db.Full(false)
	update(t, db, func(tx *store.Tx) {
		if box := tx.Outbox(); len(box) != 1 {
			t.Errorf("%d wait", len(box))
		}
		tx.Queue(upstairs, []byte("after"))
	})
	there := freshCopy(t)
	j.apply(t, there)
	alike(t, db, there)
}

// TestApplyFailsWhole: changes that don't fit further in leave nothing behind.
func TestApplyFailsWhole(t *testing.T) {
	db, j := shipping(t)
	update(t, db, storetest.Everything)
	there := freshCopy(t)
	j.apply(t, there)
	update(t, db, func(tx *store.Tx) {
		tx.Queue(upstairs, []byte("x"))
		tx.Person(dana).AddJob(store.Job{})
	})
	err := there.Tamper(func(tx *bbolt.Tx) error { return tx.Bucket([]byte("people")).DeleteBucket([]byte(dana)) })
	if err != nil {
		t.Fatal(err)
	}
	before, at := hash(t, there), position(t, there)
	if err := there.Apply(j.all[len(j.all)-1], at+1); !errors.Is(err, store.ErrMisfit) {
		t.Errorf("Apply: %v", err)
	}
	if hash(t, there) != before || position(t, there) != at {
		t.Error("half of it was written")
	}
}

// FuzzApply: whatever arrives instead of changes, a copy takes it whole or not at
// all, and what it holds can be checked afterwards.
func FuzzApply(f *testing.F) {
	db, j := shipping(f)
	update(f, db, storetest.Everything)
	update(f, db, func(tx *store.Tx) { tx.MoveChat(upstairs, store.ChatOf("telegram", "-9")) })
	for _, c := range j.all {
		f.Add([]byte(c))
	}
	for _, text := range []string{"", "\x01", "\x01\x01", "\x01\x01i\x00p\x00\x00", "\x01\x01x\x04meta", "\x01\x01s\x08\xff\xff\xff\xff\xff\xff\xff\xff"} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		there, err := store.OpenCopy(filepath.Join(t.TempDir(), "copy.db"))
		if err != nil {
			t.Fatal(err)
		}
		defer there.Close()
		before := hash(t, there)
		if err := there.Apply(text, 1); err != nil {
			if !errors.Is(err, store.ErrMisfit) && !errors.Is(err, store.ErrNewer) {
				t.Error(err)
			}
			if hash(t, there) != before || position(t, there) != 0 {
				t.Error("half of it was written")
			}
		}
		if err := there.Check(); err != nil {
			t.Error(err)
		}
	})
}

// backedUp is another copy, begun from a backup.
func backedUp(t testing.TB, db *store.DB) *store.DB {
	t.Helper()
	var backup bytes.Buffer
	if err := db.Backup(&backup); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "backup.db")
	write(t, path, backup.Bytes())
	return openCopy(t, path)
}
