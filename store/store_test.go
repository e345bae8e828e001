package store_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"dogleg/store"

	"go.etcd.io/bbolt"
)

// noon is when the tests happen: the first day on Juniper Street.
var noon = time.Date(2026, time.November, 3, 12, 0, 0, 0, time.UTC)

var (
	upstairs = store.ChatOf("telegram", "1207")
	dana     = upstairs.Person("7")
)

// open opens a database that is checked and closed when the test ends.
func open(t testing.TB, path string) *store.DB {
	t.Helper()
	db, err := store.Open(path)
	if err != nil {
		t.Fatalf("Open(%s): %v", path, err)
	}
	db.Now = func() time.Time { return noon }
	t.Cleanup(func() {
		if err := db.Check(); err != nil {
			t.Errorf("check after the test: %v", err)
		}
		if err := db.Close(); err != nil {
			t.Errorf("Close: %v", err)
		}
	})
	return db
}

func fresh(t testing.TB) *store.DB { return open(t, filepath.Join(t.TempDir(), "juniper.db")) }

func update(t testing.TB, db *store.DB, fn func(*store.Tx)) {
	t.Helper()
	if err := db.Update(func(tx *store.Tx) error { fn(tx); return nil }); err != nil {
		t.Fatalf("Update: %v", err)
	}
}

func view(t testing.TB, db *store.DB, fn func(*store.Tx)) {
	t.Helper()
	if err := db.View(func(tx *store.Tx) error { fn(tx); return nil }); err != nil {
		t.Fatalf("View: %v", err)
	}
}

func TestNewFileIsItsOwnersOnly(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	open(t, path)
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if got := info.Mode().Perm(); got != 0o600 {
		t.Errorf("mode %o, want 600", got)
	}
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil || len(entries) != 1 {
		t.Errorf("the folder holds %v (%v), want the database alone", entries, err)
	}
}

// A file that somebody copied here is its owner's only once it was opened.
func TestOpenFileIsItsOwnersOnly(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	write(t, path, withJob(t, "12 set 45s"))
	if err := os.Chmod(path, 0o644); err != nil {
		t.Fatal(err)
	}
	db := open(t, path)
	if err := db.Compact(t.Context()); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
}

func TestOpenLocked(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	open(t, path)
	if _, err := store.Open(path); !errors.Is(err, store.ErrLocked) {
		t.Errorf("second Open: %v, want ErrLocked", err)
	}
}

func TestOpenWhereNothingCanBe(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "plans.txt")
	if err := os.WriteFile(file, []byte("Juniper Street, second floor"), 0o600); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]error{
		filepath.Join(dir, "no", "juniper.db"): store.ErrNoDirectory,
		filepath.Join(file, "juniper.db"):      store.ErrNoDirectory,
		dir:                                    store.ErrNotDatabase,
	} {
		_, err := store.Open(path)
		if !errors.Is(err, want) || !strings.Contains(err.Error(), path) {
			t.Errorf("Open(%s): %v, want %v and the path", path, err, want)
		}
	}
}

func TestOpenWhereWritingIsForbidden(t *testing.T) {
	dir := t.TempDir()
	if err := os.Chmod(dir, 0o500); err != nil {
		t.Fatal(err)
	}
	if os.Geteuid() == 0 {
		dir = "/sys" // root may write anywhere but where the kernel says no
	}
	if _, err := store.Open(filepath.Join(dir, "juniper.db")); !errors.Is(err, store.ErrNotWritable) {
		t.Errorf("Open in a folder without write permission: %v, want ErrNotWritable", err)
	}
}

// TestOpenLeavesDamageAlone: whatever stands in the file's place is refused
// and stays as it is, to the byte.
func TestOpenLeavesDamageAlone(t *testing.T) {
	whole := filled(t)
	other := func() []byte {
		path := filepath.Join(t.TempDir(), "other.db")
		db, err := bbolt.Open(path, 0o600, nil)
		if err != nil {
			t.Fatal(err)
		}
		if err := db.Close(); err != nil {
			t.Fatal(err)
		}
		return read(t, path)
	}()
	scribbled := bytes.Clone(whole)
	for i := 2 * os.Getpagesize(); i < len(scribbled); i++ {
		scribbled[i] = 'x'
	}
	for name, content := range map[string][]byte{
		"empty":              {},
		"one byte":           {0},
		"zeros":              make([]byte, 1<<16),
		"text":               []byte(strings.Repeat("12 set 45s 1-1/2 pvc\n", 2000)),
		"short text":         []byte("12 set 45s"),
		"a header page":      whole[:os.Getpagesize()],
		"two header pages":   whole[:2*os.Getpagesize()],
		"half of it":         whole[:len(whole)/2],
		"headers, then junk": scribbled,
		"another's database": other,
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "juniper.db")
			if err := os.WriteFile(path, content, 0o600); err != nil {
				t.Fatal(err)
			}
			if _, err := store.Open(path); !errors.Is(err, store.ErrNotDatabase) {
				t.Errorf("Open: %v, want ErrNotDatabase", err)
			}
			if !bytes.Equal(read(t, path), content) {
				t.Error("the file was changed")
			}
		})
	}
}

// filled is the content of a database that holds enough to fill many pages.
func filled(t *testing.T) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "whole.db")
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	update(t, db, func(tx *store.Tx) {
		for range 200 {
			tx.Person(dana).AddJob(store.Job{Asked: strings.Repeat("12 set 45s ", 100)})
		}
	})
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	content := read(t, path)
	// bbolt lets the file be longer than what is in use; the tests cut into the
	// part in use.
	reopened := open(t, path)
	var used bytes.Buffer
	if err := reopened.Backup(&used); err != nil {
		t.Fatal(err)
	}
	return content[:used.Len()]
}

func read(t *testing.T, path string) []byte {
	t.Helper()
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return content
}

func TestOpenRefusesNewer(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := db.MigrateWith(func(*bbolt.Tx) error { return nil }); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	before := read(t, path)
	if _, err := store.Open(path); !errors.Is(err, store.ErrNewer) {
		t.Errorf("Open: %v, want ErrNewer", err)
	}
	if !bytes.Equal(read(t, path), before) {
		t.Error("the file was changed")
	}
}

func TestMigrationIsWholeOrNot(t *testing.T) {
	db := fresh(t)
	began := db.Version()
	rename := func(tx *bbolt.Tx) error {
		return tx.Bucket([]byte("cursors")).Put([]byte("getUpdates"), []byte(`{"At":5}`))
	}
	fails := func(tx *bbolt.Tx) error {
		return errors.Join(tx.DeleteBucket([]byte("people")), errors.New("no water"))
	}
	if err := db.MigrateWith(rename, fails); err == nil || !strings.Contains(err.Error(), "no water") {
		t.Fatalf("migration with a failing step: %v", err)
	}
	if got := db.Version(); got != began+1 {
		t.Errorf("version %d after the second of two steps failed, want %d", got, began+1)
	}
	view(t, db, func(tx *store.Tx) {
		if at, ok := tx.Cursor("getUpdates", store.Source{}); !ok || at != 5 {
			t.Error("the first step did not stay")
		}
		tx.People() // would panic without its bucket
	})
	// The version is put back, so that the check after the test knows the file.
	_ = db.Tamper(func(tx *bbolt.Tx) error {
		return tx.Bucket([]byte("meta")).Put([]byte("version"), []byte{0, 0, 0, 0, 0, 0, 0, byte(began)})
	})
}
