package store

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"go.etcd.io/bbolt"
)

// Restore puts a copy of the backup in the place of the database at path, once
// the copy has been checked from the first page to the last and brought up to
// date. What was at path before, whole or damaged, is kept beside it; the name
// it then has is returned, empty if there was nothing. The backup itself is only
// read. It fails with [ErrLocked] while a dogleg has the database open.
func Restore(backup, path string, now time.Time) (aside string, err error) {
	if path, err = RealPath(path); err != nil {
		return "", err
	}
	locked, err := lock(path)
	if err != nil {
		return "", fmt.Errorf("%s: %w", path, named(err))
	}
	defer func() { err = errors.Join(err, locked.Close()) }()
	copied, err := checkedCopy(backup, path)
	if err != nil {
		return "", fmt.Errorf("%s: %w", backup, named(err))
	}
	defer os.Remove(copied)
	if locked.there {
		if aside, err = keepAside(path, now); err != nil {
			return "", err
		}
	}
	return aside, replace(copied, path)
}

// keepAside copies what is at path to a name that nothing has yet.
func keepAside(path string, now time.Time) (aside string, err error) {
	stem := path + ".replaced-" + now.UTC().Format("20060102T150405Z")
	for n := 1; ; n++ {
		aside = stem
		if n > 1 {
			aside = fmt.Sprintf("%s-%d", stem, n)
		}
		if err = copyFile(path, aside); !errors.Is(err, fs.ErrExist) {
			return aside, err
		}
	}
}

// checkedCopy copies a backup next to where it is to go, and checks the copy.
func checkedCopy(backup, path string) (copied string, err error) {
	draft, err := os.CreateTemp(filepath.Dir(path), draftName)
	if err != nil {
		return "", err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(draft.Name()))
		}
	}()
	if err := errors.Join(fill(draft, backup), draft.Close()); err != nil {
		return "", err
	}
	db, err := Open(draft.Name())
	if err != nil {
		return "", withoutPath(err)
	}
	return draft.Name(), errors.Join(db.Check(), db.Close())
}

// withoutPath is what Open found, without the name of a file that nobody knows.
func withoutPath(err error) error {
	for _, known := range []error{ErrNotDatabase, ErrNewer, ErrNotWritable} {
		if errors.Is(err, known) {
			return known
		}
	}
	return err
}

// copyFile makes a new file, its owner's only, of another's bytes.
func copyFile(from, to string) error {
	file, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	if err := errors.Join(fill(file, from), file.Close()); err != nil {
		return errors.Join(err, os.Remove(to))
	}
	return nil
}

func fill(file *os.File, from string) error {
	source, err := os.Open(from)
	if err != nil {
		return err
	}
	defer source.Close()
	if _, err := io.Copy(file, source); err != nil {
		return err
	}
	return file.Sync()
}

// heldFile is the place of a database, with the lock that keeps others out.
type heldFile struct {
	bolt  *bbolt.DB // nil where there is nothing that could be opened
	there bool
}

func (h heldFile) Close() error {
	if h.bolt == nil {
		return nil
	}
	return h.bolt.Close()
}

// lock takes the lock on a file, if it is one that dogleg could have open: a
// damaged one nobody has.
func lock(path string) (heldFile, error) {
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return heldFile{}, nil
	}
	if err := inspect(path); err != nil {
		if errors.Is(named(err), ErrLocked) {
			return heldFile{}, err
		}
		return heldFile{there: true}, nil
	}
	bolt, err := bbolt.Open(path, mode, &bbolt.Options{Timeout: lockTimeout})
	return heldFile{bolt, true}, err
}
