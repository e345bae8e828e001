package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strconv"

	"dogleg/store"
)

// databaseFlag is the flag of those commands that work on a database which is
// there without being named.
type databaseFlag struct {
	DB string `name:"db" placeholder:"FILE" help:"Database file; else what DOGLEG_STORE or DOGLEG_DB names; else dogleg.db in your data folder."`
}

// open opens the database of the command line, of the environment or of the
// user's data folder, whichever is there first. Only the data folder's own
// place is made when it isn't there: a folder that someone named and that
// doesn't exist is more likely a typing error.
func (f databaseFlag) open(env func(string) string) (*store.DB, error) {
	path, err := f.place(env)
	if err != nil {
		return nil, err
	}
	if real, err := store.RealPath(path); err == nil && isMount(real) {
		return nil, fmt.Errorf("%s is mounted by itself, so that no file can take its place, as when what was forgotten is taken out: mount its folder", path)
	}
	return openKeeping(path, env)
}

// place is where the database is or is to be, in a folder that is there.
func (f databaseFlag) place(env func(string) string) (string, error) {
	path, own, err := f.path(env)
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

// reading is a database that is only read.
type reading struct {
	*store.DB
	scrap string // a folder to be thrown away with it
}

// Close closes the database.
func (r reading) Close() error {
	err := r.DB.Close()
	if r.scrap != "" {
		err = errors.Join(err, os.RemoveAll(r.scrap))
	}
	return err
}

// existing opens the database to read it, and does not make one. What several
// machines share is copied first.
func (f databaseFlag) existing(ctx context.Context, env func(string) string) (reading, error) {
	if f.shared(env) {
		return copyOfShared(ctx, env)
	}
	path, _, err := f.path(env)
	if err != nil {
		return reading{}, err
	}
	if _, err := os.Stat(path); errors.Is(err, os.ErrNotExist) {
		return reading{}, fmt.Errorf("%s: no such database", path)
	}
	db, err := openKeeping(path, env)
	return reading{DB: db}, err
}

// shared says whether the database is one that several machines share.
func (f databaseFlag) shared(env func(string) string) bool {
	return f.DB == "" && env("DOGLEG_STORE") != ""
}

// path is where the database is, and whether that is the user's data folder.
func (f databaseFlag) path(env func(string) string) (path string, own bool, err error) {
	if f.DB != "" {
		return f.DB, false, nil
	}
	if path := env("DOGLEG_DB"); path != "" {
		return path, false, nil
	}
	folder, err := dataFolder(runtime.GOOS, env)
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
