package cluster

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"dogleg/store"
)

// filled is a database file with something in it, that stands far ahead in
// another journal, and its hash.
func filled(t *testing.T) (file []byte, hash string) {
	t.Helper()
	db, err := store.Open(filepath.Join(t.TempDir(), "juniper.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	mustMark(t, db, 1, 50)
	if err := db.Rebase(5000); err != nil {
		t.Fatal(err)
	}
	var backup bytes.Buffer
	if err := db.Backup(&backup); err != nil {
		t.Fatal(err)
	}
	return backup.Bytes(), hashOf(t, db)
}

func TestThereAndBackAgain(t *testing.T) {
	t.Parallel()
	eachKind(t, func(t *testing.T, s *servers) {
		c := open(t, s)
		file, hash := filled(t)
		if err := c.Load(t.Context(), bytes.NewReader(file)); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "saved.db")
		saved, err := os.Create(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(c.Save(t.Context(), saved), saved.Close()); err != nil {
			t.Fatal(err)
		}
		db, err := store.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		defer db.Close()
		if hashOf(t, db) != hash {
			t.Error("what was saved isn't what was loaded")
		}
		if err := db.Check(); err != nil {
			t.Error(err)
		}
	})
}

func TestLoadedStateIsWhereWorkersGoOn(t *testing.T) {
	s := sharedServers(t, 1)
	c := open(t, s)
	file, _ := filled(t)
	if err := c.Load(t.Context(), bytes.NewReader(file)); err != nil {
		t.Fatal(err)
	}
	first := startWorker(t, s)
	db := first.db()
	mustMark(t, db, 51, 60)
	if missing := lacks(t, db, 1, 60); missing != nil {
		t.Errorf("missing: %v", missing)
	}
	sameAs(t, db, startWorker(t, s).copy)
	if err := first.copy.Snapshot(t.Context()); err != nil {
		t.Fatal(err)
	}
	all, err := c.list(t.Context())
	if err != nil || len(all) != 1 || all[0].kind != snapshotKind {
		t.Errorf("what was loaded is still there: %v, %v", all, err)
	}
	sameAs(t, db, startWorker(t, s).copy)
}

func TestLoadRefuses(t *testing.T) {
	t.Parallel()
	s := sharedServers(t, 1)
	c := open(t, s, hasty)
	file, _ := filled(t)
	if err := c.Load(t.Context(), bytes.NewReader(file[:len(file)/2])); !errors.Is(err, store.ErrNotDatabase) {
		t.Errorf("half a file: %v", err)
	}
	w := startWorker(t, s)
	db := w.db()
	if err := c.Load(t.Context(), bytes.NewReader(file)); !errors.Is(err, ErrBusy) {
		t.Errorf("while a worker leads: %v", err)
	}
	mustMark(t, db, 1, 1)
	w.stop()
	if err := c.Load(t.Context(), bytes.NewReader(file)); !errors.Is(err, ErrHolds) {
		t.Errorf("where something is: %v", err)
	}
}

func TestLoadWhereWorkersHaveDoneNothingYet(t *testing.T) {
	s := sharedServers(t, 1)
	w := startWorker(t, s)
	if err := w.db().View(func(*store.Tx) error { return nil }); err != nil { // brings it up to date
		t.Fatal(err)
	}
	w.stop()
	file, hash := filled(t)
	c := open(t, s)
	if err := c.Load(t.Context(), bytes.NewReader(file)); err != nil {
		t.Fatal(err)
	}
	next := startWorker(t, s)
	if got := hashOf(t, next.db()); got != hash {
		t.Error("what the next one has isn't what was loaded")
	}
}
