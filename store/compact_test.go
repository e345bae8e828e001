package store_test

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
	"testing"
	"time"

	"dogleg/store"
	"dogleg/store/storetest"

	"pgregory.net/rapid"
)

// between is a context that does something whenever it is asked whether it has
// ended, which Compact does between two steps.
type between struct {
	context.Context
	do func()
}

func (b between) Err() error {
	b.do()
	return b.Context.Err()
}

// leftBehind is what else lies in the folder of a file.
func leftBehind(t testing.TB, path string) (names []string) {
	t.Helper()
	files, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		if file.Name() != filepath.Base(path) {
			names = append(names, file.Name())
		}
	}
	return names
}

// fillWithJobs keeps jobs of ten people, some 400 KB.
func fillWithJobs(t testing.TB, db *store.DB) {
	update(t, db, func(tx *store.Tx) {
		for n := range 200 {
			tx.Person(upstairs.Person(fmt.Sprint(n % 10))).AddJob(store.Job{Asked: strings.Repeat("x", 2000)})
		}
	})
}

// TestCompactBetweenWrites: what is written at random between any two steps of the
// copying is in the new file, and nothing else is. Another copy, which never was
// compacted, tells what has to be there.
func TestCompactBetweenWrites(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		db, j := shipping(t)
		there := freshCopy(t)
		write := func() {
			err := db.Update(func(tx *store.Tx) error {
				for range rapid.IntRange(0, 8).Draw(rt, "writes") {
					storetest.Anything(rt, tx)
				}
				return nil
			})
			if err != nil {
				rt.Fatal(err)
			}
		}
		for range rapid.IntRange(0, 20).Draw(rt, "transactions before") {
			write()
		}
		db.CopyAtOnce(rapid.SampledFrom([]int{1, 100, 1000, 10_000}).Draw(rt, "bytes at once"))
		steps := 0
		during := between{t.Context(), func() {
			if steps++; steps < 20 {
				write()
			}
		}}
		if err := db.Compact(during); err != nil {
			rt.Fatal(err)
		}
		write()
		if err := db.Check(); err != nil {
			rt.Fatal(err)
		}
		j.apply(t, there)
		if hash(t, db) != hash(t, there) || position(t, db) != position(t, there) {
			rt.Fatal("the compacted file holds something else")
		}
	})
}

// TestCompactWaitsForNobody: a transaction that began to read before sees the same
// until it ends, while others write into the new file.
func TestCompactWaitsForNobody(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	db := open(t, path)
	late := upstairs.Person("11") // who has none yet
	fillWithJobs(t, db)
	update(t, db, func(tx *store.Tx) { tx.Person(upstairs.Person("4")).Forget("") }) // room in the file: to grow, it waits for who reads
	before, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	compacted := make(chan error, 1)
	view(t, db, func(tx *store.Tx) {
		update(t, db, func(tx *store.Tx) { tx.Person(late).AddJob(store.Job{Asked: "before it"}) })
		go func() { compacted <- db.Compact(t.Context()) }()
		for now := before; os.SameFile(before, now); time.Sleep(time.Millisecond) {
			if now, err = os.Stat(path); err != nil {
				t.Fatal(err)
			}
		}
		update(t, db, func(tx *store.Tx) { tx.Person(late).AddJob(store.Job{Asked: "after it"}) })
		if jobs := tx.Person(late).Jobs(); len(jobs) != 0 {
			t.Errorf("a transaction that only reads sees %d jobs that were added since", len(jobs))
		}
		if jobs := tx.Person(upstairs.Person("3")).Jobs(); len(jobs) != 20 {
			t.Errorf("and %d of 20 that were there", len(jobs))
		}
	})
	if err := <-compacted; err != nil {
		t.Fatal(err)
	}
	view(t, db, func(tx *store.Tx) {
		if last, _ := tx.Person(late).Job(0); last.Asked != "after it" {
			t.Errorf("the last job is %+v", last)
		}
	})
	if others := leftBehind(t, path); len(others) > 0 {
		t.Errorf("left behind: %v", others)
	}
}

// TestForgottenWhileCompacting: who is forgotten while the file is written anew may
// have been copied by then. It is known that they are to be taken out, and the next
// time they are.
func TestForgottenWhileCompacting(t *testing.T) {
	const words = "seventeen light past the newel"
	path := filepath.Join(t.TempDir(), "juniper.db")
	db := open(t, path)
	db.Now = func() time.Time { return noon }
	fillWithJobs(t, db)
	update(t, db, func(tx *store.Tx) {
		tx.Person(upstairs.Person("1")).AddJob(store.Job{Asked: words})
		tx.Person(dana).AddJob(store.Job{Asked: "Dana's"})
	})
	update(t, db, func(tx *store.Tx) { tx.Person(dana).Forget("") })
	db.CopyAtOnce(100_000)
	steps := 0
	last := between{t.Context(), func() {
		if steps++; steps == 4 { // most has been copied
			update(t, db, func(tx *store.Tx) { tx.Person(upstairs.Person("1")).Forget("") })
		}
	}}
	if err := db.Compact(last); err != nil {
		t.Fatal(err)
	}
	if steps < 4 || !bytes.Contains(read(t, path), []byte(words)) {
		t.Fatalf("%d steps; they were forgotten before they were copied: the test proves nothing", steps)
	}
	if !db.Forgotten() {
		t.Error("nothing tells that it should be compacted again")
	}
	if err := db.Compact(t.Context()); err != nil {
		t.Fatal(err)
	}
	if db.Forgotten() || bytes.Contains(read(t, path), []byte(words)) {
		t.Error("they are in the file still")
	}
}

// TestCompactGivesUp: where the disk is full, where a transaction fails meanwhile,
// and where it is told to end, the file stays as it is and goes on being written;
// nothing is left beside it, and the next time it is compacted.
func TestCompactGivesUp(t *testing.T) {
	ended, end := context.WithCancel(t.Context())
	end()
	for what, try := range map[string]func(db *store.DB) error{
		"full disk": func(db *store.DB) error {
			defer db.LittleSpace(0)
			db.LittleSpace(200_000)
			return db.Compact(t.Context())
		},
		"failed transaction": func(db *store.DB) error {
			return db.Compact(between{t.Context(), func() {
				db.Full(true)
				defer db.Full(false)
				err := db.Update(func(tx *store.Tx) error { tx.Queue(upstairs, bytes.Repeat([]byte("x"), 1<<20)); return nil })
				if err == nil {
					t.Error("there is space on the full disk")
				}
			}})
		},
		"ended": func(db *store.DB) error {
			err := db.Compact(ended)
			if !errors.Is(err, context.Canceled) {
				t.Errorf("ended: %v", err)
			}
			return err
		},
	} {
		t.Run(what, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "juniper.db")
			db := open(t, path)
			db.CopyAtOnce(50_000)
			fillWithJobs(t, db)
			update(t, db, func(tx *store.Tx) { tx.Person(upstairs.Person("3")).Forget("") })
			before := hash(t, db)
			if err := try(db); err == nil {
				t.Error("nothing went wrong")
			}
			if others := leftBehind(t, path); len(others) > 0 {
				t.Errorf("left behind: %v", others)
			}
			if hash(t, db) != before || !db.Forgotten() {
				t.Error("the file holds something else, or is not to be compacted any more")
			}
			update(t, db, func(tx *store.Tx) { tx.Person(dana).AddJob(store.Job{Asked: "after"}) })
			if err := db.Compact(t.Context()); err != nil || db.Forgotten() {
				t.Errorf("the next time: %v", err)
			}
		})
	}
}

// A compacted file is this process's alone, as the one before was, and nothing
// stands beside it.
func TestCompactedFileIsLocked(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	db := open(t, path)
	for range 3 {
		if err := db.Compact(t.Context()); err != nil {
			t.Fatal(err)
		}
		if _, err := store.Open(path); !errors.Is(err, store.ErrLocked) {
			t.Errorf("a second process opens it: %v", err)
		}
	}
	if others := leftBehind(t, path); len(others) > 0 {
		t.Errorf("left behind: %v", others)
	}
}

// Whatever is written while a file is compacted is in it afterwards, to the byte,
// and who is forgotten meanwhile is not forgotten to be forgotten: as long as their
// words stand in the file it says that it should be compacted.
func TestWrittenWhileCompacting(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	db, same := open(t, path), open(t, filepath.Join(t.TempDir(), "same.db"))
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	db.Now = func() time.Time { return now }
	same.Now = db.Now
	words := func(n int) string { return fmt.Sprintf("%d past the newel on Juniper Street", n) }
	random := rand.New(rand.NewPCG(1, 2))
	over := make(chan struct{})
	var compacting sync.WaitGroup
	compacting.Go(func() {
		for {
			select {
			case <-over:
				return
			default:
				if err := db.Compact(t.Context()); err != nil {
					t.Error(err)
					return
				}
			}
		}
	})
	for n := range 300 {
		who, forget := upstairs.Person(fmt.Sprint(random.IntN(9))), random.IntN(4) == 0
		write := func(tx *store.Tx) {
			if forget {
				tx.Person(who).Forget("Sam")
				return
			}
			tx.Person(who).AddJob(store.Job{Asked: words(n), Reply: strings.Repeat("x", 500)})
			tx.MarkDone(fmt.Sprint(n))
			tx.StrikeOff(tx.Queue(upstairs, []byte("y")))
		}
		update(t, db, write)
		update(t, same, write)
	}
	close(over)
	compacting.Wait()
	if hash(t, db) != hash(t, same) {
		t.Error("it holds something else than one that was never compacted")
	}
	if err := db.Check(); err != nil {
		t.Error(err)
	}
	kept := func(db *store.DB) (jobs []string) {
		view(t, db, func(tx *store.Tx) {
			for _, who := range tx.People() {
				for _, j := range tx.Person(who).Jobs() {
					jobs = append(jobs, j.Asked)
				}
			}
		})
		return jobs
	}(db)
	traces := func() (n int) {
		content := read(t, path)
		for i := range 300 {
			if bytes.Contains(content, []byte(`"`+words(i))) && !strings.Contains(strings.Join(kept, "\n")+"\n", words(i)+"\n") {
				n++
			}
		}
		return n
	}
	if n := traces(); n > 0 && !db.Forgotten() {
		t.Errorf("%d forgotten jobs stand in the file, and nothing says that it should be compacted", n)
	}
	if err := db.Compact(t.Context()); err != nil || traces() > 0 {
		t.Errorf("%v; %d forgotten jobs stand in the compacted file", err, traces())
	}
}

// A database that is named by a link is the file that the link leads to: that one is
// written anew and stays locked, and the link stays a link.
func TestCompactBehindALink(t *testing.T) {
	folder := t.TempDir()
	real, link := filepath.Join(folder, "real.db"), filepath.Join(t.TempDir(), "link.db")
	if err := os.Symlink(real, link); err != nil {
		t.Fatal(err)
	}
	if _, err := store.Open(link); !errors.Is(err, store.ErrNotDatabase) {
		t.Errorf("a link to nothing: %v", err)
	}
	first, err := store.Open(real)
	if err == nil {
		err = first.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	db := open(t, link)
	const words = "seventeen light past the newel"
	update(t, db, func(tx *store.Tx) { tx.Person(dana).AddJob(store.Job{Asked: words}) })
	update(t, db, func(tx *store.Tx) { tx.Person(dana).Forget("") })
	if err := db.Compact(t.Context()); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode().Type() != os.ModeSymlink {
		t.Errorf("the link is %v, %v", info.Mode(), err)
	}
	if bytes.Contains(read(t, real), []byte(words)) {
		t.Error("the file that the link leads to keeps what was forgotten")
	}
	for _, path := range []string{real, link} {
		if _, err := store.Open(path); !errors.Is(err, store.ErrLocked) {
			t.Errorf("%s is not locked: %v", path, err)
		}
	}
}
