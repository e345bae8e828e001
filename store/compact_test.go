package store_test

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"dogleg/store"
)

// A compacted file is this process's alone, as the one before was, and nothing
// stands beside it.
func TestCompactedFileIsLocked(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	db := open(t, path)
	for range 3 {
		if err := db.Compact(); err != nil {
			t.Fatal(err)
		}
		if _, err := store.Open(path); !errors.Is(err, store.ErrLocked) {
			t.Errorf("a second process opens it: %v", err)
		}
	}
	if others, _ := filepath.Glob(filepath.Join(filepath.Dir(path), ".*")); len(others) > 0 {
		t.Errorf("left behind: %v", others)
	}
}

// Who reads for long, as a backup does, keeps neither the file from being
// compacted nor anybody from writing meanwhile.
func TestCompactHoldsNobodyUp(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	db := open(t, path)
	addJob := func() {
		update(t, db, func(tx *store.Tx) { tx.Person(dana).AddJob(store.Job{Asked: "12 set 45s"}) })
	}
	addJob()
	reading, enough := make(chan struct{}), make(chan struct{})
	var read, compacted sync.WaitGroup
	read.Go(func() {
		view(t, db, func(tx *store.Tx) {
			close(reading)
			<-enough
			if n := len(tx.Person(dana).Jobs()); n != 1 {
				t.Errorf("who began to read when there was 1 job reads %d", n)
			}
		})
	})
	<-reading
	compacted.Go(func() {
		if err := db.Compact(); err != nil {
			t.Error(err)
		}
	})
	for range 20 {
		addJob()
	}
	close(enough)
	read.Wait()
	compacted.Wait()
	view(t, db, func(tx *store.Tx) {
		if n := len(tx.Person(dana).Jobs()); n != 21 {
			t.Errorf("%d jobs, want 21", n)
		}
	})
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
				if err := db.Compact(); err != nil {
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
	if err := db.Compact(); err != nil || traces() > 0 {
		t.Errorf("%v; %d forgotten jobs stand in the compacted file", err, traces())
	}
}
