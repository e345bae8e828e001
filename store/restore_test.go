package store_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"dogleg/store"
)

// withJob makes a database that holds one job and returns its bytes.
func withJob(t *testing.T, asked string) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "one.db")
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	update(t, db, func(tx *store.Tx) { tx.Person(dana).AddJob(store.Job{Asked: asked}) })
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	return read(t, path)
}

// TestRestore: the backup takes the place of whatever is there, which is kept
// to the byte under another name.
func TestRestore(t *testing.T) {
	backup := filepath.Join(t.TempDir(), "backup.db")
	write(t, backup, withJob(t, "the old one"))
	whole := withJob(t, "the new one")
	for name, before := range map[string][]byte{
		"nothing": nil,
		"whole":   whole,
		"damaged": whole[:len(whole)/2],
		"text":    []byte("12 set 45s"),
		"empty":   {},
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "juniper.db")
			if before != nil {
				write(t, path, before)
			}
			aside, err := store.Restore(backup, path, noon)
			if err != nil {
				t.Fatal(err)
			}
			if (aside == "") != (before == nil) {
				t.Errorf("put aside as %q", aside)
			}
			if aside != "" && !bytes.Equal(read(t, aside), before) {
				t.Error("what was there is not what was put aside")
			}
			if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
				t.Errorf("restored with mode %v, %v", info.Mode(), err)
			}
			view(t, open(t, path), func(tx *store.Tx) {
				if j, _ := tx.Person(dana).Job(0); j.Asked != "the old one" {
					t.Errorf("restored: %+v", j)
				}
			})
		})
	}
}

// TestRestoreKeepsWhatWasPutAsideBefore: two within a second get two names.
func TestRestoreKeepsWhatWasPutAsideBefore(t *testing.T) {
	dir := t.TempDir()
	backup, path := filepath.Join(dir, "backup.db"), filepath.Join(dir, "juniper.db")
	write(t, backup, withJob(t, "the old one"))
	for n, content := range []string{"first", "second"} {
		write(t, path, []byte(content))
		aside, err := store.Restore(backup, path, noon)
		if err != nil || string(read(t, aside)) != content {
			t.Errorf("restore %d: %q, %v", n+1, aside, err)
		}
	}
}

// TestRestoreRefuses: nothing is changed where the backup is no good, or where
// somebody has the database open.
func TestRestoreRefuses(t *testing.T) {
	dir := t.TempDir()
	good, bad, path := filepath.Join(dir, "good.db"), filepath.Join(dir, "bad.db"), filepath.Join(dir, "juniper.db")
	whole := filled(t)
	write(t, good, whole)
	write(t, bad, whole[:len(whole)/2])
	write(t, path, withJob(t, "mine"))
	before := read(t, path)
	if _, err := store.Restore(bad, path, noon); !errors.Is(err, store.ErrNotDatabase) {
		t.Errorf("from half a backup: %v", err)
	}
	if _, err := store.Restore(filepath.Join(dir, "none.db"), path, noon); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("from no backup: %v", err)
	}
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := store.Restore(good, path, noon); !errors.Is(err, store.ErrLocked) {
		t.Errorf("while it is open: %v", err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(read(t, path), before) {
		t.Error("the database was changed")
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".dogleg*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

func write(t testing.TB, path string, content []byte) {
	t.Helper()
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
}
