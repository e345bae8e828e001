package serve

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strconv"

	"dogleg/store"
)

// Database is where what people keep is found, by what a command line and the
// environment say of it.
type Database struct {
	File string              // as a flag names it; empty where none does
	Env  func(string) string // looks a variable up
}

// Open opens the database of the command line, of the environment or of the
// user's data folder, whichever is there first. Only the data folder's own
// place is made when it isn't there: a folder that someone named and that
// doesn't exist is more likely a typing error.
func (d Database) Open() (*store.DB, error) {
	path, err := d.Place()
	if err != nil {
		return nil, err
	}
	if real, err := store.RealPath(path); err == nil && isMount(real) {
		return nil, fmt.Errorf("%s is mounted by itself, so that no file can take its place, as when what was forgotten is taken out: mount its folder", path)
	}
	return openKeeping(path, d.Env)
}

// Place is where the database is or is to be, in a folder that is there.
func (d Database) Place() (string, error) {
	path, own, err := d.Path()
	if err == nil && own {
		err = os.MkdirAll(filepath.Dir(path), 0o700)
	}
	return path, err
}

// openKeeping opens a database that keeps as many jobs for each person as
// DOGLEG_JOBS says, or else as usual.
func openKeeping(path string, env func(string) string) (*store.DB, error) {
	keep, err := jobsKept(env("DOGLEG_JOBS"))
	if err != nil {
		return nil, err
	}
	db, err := store.Open(path)
	if err == nil {
		db.Keep = keep
	}
	return db, err
}

// jobsKept reads how many jobs are kept for each person.
func jobsKept(setting string) (int, error) {
	if setting == "" {
		return store.KeptJobs, nil
	}
	n, err := strconv.Atoi(setting)
	if err != nil || n < 1 || n > mostJobs {
		return 0, fmt.Errorf("DOGLEG_JOBS is %q; it says how many jobs are kept for each person, 1 to %d", setting, mostJobs)
	}
	return n, nil
}

// mostJobs bounds what is read for each message of a person.
const mostJobs = 10_000

// Reading is a database that is only read.
type Reading struct {
	*store.DB
	scrap string // a folder to be thrown away with it
}

// Close closes the database.
func (r Reading) Close() error {
	err := r.DB.Close()
	if r.scrap != "" {
		err = errors.Join(err, os.RemoveAll(r.scrap))
	}
	return err
}

// Existing opens the database to read it, and does not make one. What several
// machines share is copied first.
func (d Database) Existing(ctx context.Context) (Reading, error) {
	if d.Shared() {
		return copyOfShared(ctx, d.Env)
	}
	path, _, err := d.Path()
	if err != nil {
		return Reading{}, err
	}
	if _, err := os.Stat(path); errors.Is(err, os.ErrNotExist) {
		return Reading{}, fmt.Errorf("%s: no such database", path)
	}
	db, err := openKeeping(path, d.Env)
	return Reading{DB: db}, err
}

// Shared says whether the database is one that several machines share.
func (d Database) Shared() bool {
	return d.File == "" && d.Env("DOGLEG_STORE") != ""
}

// Path is where the database is, and whether that is the user's data folder.
func (d Database) Path() (path string, own bool, err error) {
	if d.File != "" {
		return d.File, false, nil
	}
	if path := d.Env("DOGLEG_DB"); path != "" {
		return path, false, nil
	}
	folder, err := dataFolder(runtime.GOOS, d.Env)
	return filepath.Join(folder, "dogleg", "dogleg.db"), true, err
}

// dataFolder is where an operating system wants a user's data to be kept.
func dataFolder(system string, env func(string) string) (string, error) {
	if folder := env("XDG_DATA_HOME"); filepath.IsAbs(folder) {
		return folder, nil // the XDG specification: a relative path is to be ignored
	}
	if system == "windows" {
		if folder := env("LocalAppData"); folder != "" {
			return folder, nil
		}
	}
	home := env("HOME")
	switch {
	case home == "":
		return "", errors.New("no home folder to keep jobs in: give --db FILE, or set DOGLEG_DB")
	case system == "darwin":
		return filepath.Join(home, "Library", "Application Support"), nil
	}
	return filepath.Join(home, ".local", "share"), nil
}

// NewFile writes a file that must not be there yet, whole or not at all.
func NewFile(path string, write func(io.Writer) error) error {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	if err := errors.Join(write(file), file.Sync(), file.Close()); err != nil {
		return errors.Join(err, os.Remove(path))
	}
	return nil
}
