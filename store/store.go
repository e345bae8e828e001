package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strconv"
	"sync"
	"sync/atomic"
	"syscall"
	"time"

	"go.etcd.io/bbolt"
	bolterrors "go.etcd.io/bbolt/errors"
)

// What [Open] may fail with. The error it returns names the path and is one of
// these by errors.Is.
var (
	// ErrLocked: another process has the file open.
	ErrLocked = errors.New("another dogleg is using this database")

	// ErrNotDatabase: the file is damaged, cut short, empty, or something else
	// altogether. It was left as it is.
	ErrNotDatabase = errors.New("not a dogleg database, or a damaged one (it was left as it is)")

	// ErrNewer: a later version of this program wrote the file.
	ErrNewer = errors.New("a newer dogleg wrote this database")

	// ErrNoDirectory: the folder that should hold the file isn't there.
	ErrNoDirectory = errors.New("no such folder")

	// ErrNotWritable: the folder or the file may not be written.
	ErrNotWritable = errors.New("not allowed to write here")
)

// lockTimeout is how long Open waits for another process to let go of the
// file: long enough for a restart, short enough for a person.
const lockTimeout = time.Second

// mode of the file: only its owner reads what people measured.
const mode fs.FileMode = 0o600

// DB is an open database. It is safe for use by several goroutines.
type DB struct {
	// Now is the clock. Set it before the first transaction.
	Now func() time.Time

	// Keep is how many jobs are kept for a person; the oldest go first. Set it
	// before the first transaction; a new DB has [KeptJobs].
	Keep int

	// Ship, where it isn't nil, is given what each transaction of Update wrote,
	// at its end and before it is on the disk here; for a transaction that wrote
	// nothing, and for those that Apply writes, it isn't called. It returns the
	// place in the journal, counted upwards from 1, that the changes now have
	// ([DB.Position]). If it fails, nothing is written, and Update returns its
	// error. One call follows another, and no transaction may be begun in it. Set
	// it before the first transaction, or never.
	//
	// If the disk fails after Ship has returned, Update returns an error although
	// the changes are in the journal; the next Update writes them here first.
	Ship func(c Changes) (at uint64, err error)

	path       string
	options    *bbolt.Options
	compacting sync.Mutex   // held by Compact; it is locked before the next two
	writing    sync.Mutex   // held by who writes in bolt
	swap       sync.RWMutex // held with writing while another file takes the place of bolt, for reading by who begins to read
	bolt       *bbolt.DB
	current    atomic.Bool // the file is of this program's version
	owed       shipment    // for who may write in bolt
	tail       tail        // what was written since Compact began
	copyAtOnce int         // bytes that Compact copies in one transaction
}

// Open opens the database at path, or makes a new one if there is no such
// file. A file that is there already is written to only when it is a database
// of this program.
func Open(path string) (*DB, error) {
	db, err := openAs(path, &bbolt.Options{Timeout: lockTimeout, InitialMmapSize: room()}, migrations)
	if err == nil {
		db.current.Store(true)
	}
	return db, err
}

// Path is where the database is, behind any link.
func (db *DB) Path() string { return db.path }

// room is how much of the process's memory is set aside for the file to grow into,
// as addresses and not as memory. Where it outgrows them, it is mapped anew, and
// for that who writes waits until nobody reads any more: a backup, say. Windows
// would make the file as large, and 32 bits have few addresses.
func room() int {
	if runtime.GOOS == "windows" || strconv.IntSize < 64 {
		return 0
	}
	return 1 << 30
}

// growth is by how many bytes a file grows at a time.
const growth = 1 << 20

// openAs opens the file at path in some way, brought up by some steps.
func openAs(path string, options *bbolt.Options, steps []migration) (*DB, error) {
	real, err := RealPath(path)
	var bolt *bbolt.DB
	if err == nil {
		bolt, err = open(real, options, steps)
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, named(err))
	}
	return &DB{Now: time.Now, Keep: KeptJobs, path: real, options: options, bolt: bolt, copyAtOnce: copyAtOnce}, nil
}

func open(path string, options *bbolt.Options, steps []migration) (bolt *bbolt.DB, err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if p := recover(); p != nil { // bbolt panics on pages that make no sense, or lead past the end
			bolt, err = nil, fmt.Errorf("%w: %v", ErrNotDatabase, p)
		}
	}()
	if err := create(path, steps); err != nil {
		return nil, err
	}
	if err := inspect(path); err != nil {
		return nil, err
	}
	bolt, err = bbolt.Open(path, mode, options)
	if err != nil {
		return nil, err
	}
	bolt.AllocSize = growth
	tidy(path)
	_ = os.Chmod(path, mode) // one that was copied here may be open to all; whose it is decides
	if err := migrate(bolt, steps); err != nil {
		return nil, errors.Join(err, bolt.Close())
	}
	return bolt, nil
}

// Close closes the database. It waits for open transactions, and for Compact.
func (db *DB) Close() error {
	db.compacting.Lock()
	defer db.compacting.Unlock()
	db.writing.Lock()
	defer db.writing.Unlock()
	db.swap.Lock()
	defer db.swap.Unlock()
	return db.bolt.Close()
}

// create makes a new database at path if nothing is there. It is written under
// another name first and appears at path whole or not at all, so that an empty
// file there is always damage and never a beginning.
func create(path string, steps []migration) error {
	if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	dir := filepath.Dir(path)
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return ErrNoDirectory
	}
	bolt, err := draft(path, draftName, nil, func(bolt *bbolt.DB) error { return migrate(bolt, steps) })
	if err != nil {
		return err
	}
	made := bolt.Path() // which a closed one has no more
	defer os.Remove(made)
	if err := bolt.Close(); err != nil {
		return err
	}
	return place(made, path)
}

// draftName is the name of a file that is to become a database.
const draftName = ".dogleg-new-*"

// draft makes an open database next to path, under another name, and fills it.
func draft(path, name string, options *bbolt.Options, fill func(*bbolt.DB) error) (*bbolt.DB, error) {
	file, err := os.CreateTemp(filepath.Dir(path), name)
	if err != nil {
		return nil, err
	}
	if err := file.Close(); err != nil {
		return nil, errors.Join(err, os.Remove(file.Name()))
	}
	bolt, err := bbolt.Open(file.Name(), mode, options)
	if err != nil {
		return nil, errors.Join(err, os.Remove(file.Name()))
	}
	bolt.AllocSize = growth
	if err := fill(bolt); err != nil {
		return nil, discard(bolt, err)
	}
	return bolt, nil
}

// discard takes a draft away, and returns why.
func discard(draft *bbolt.DB, why error) error {
	made := draft.Path()
	return errors.Join(why, draft.Close(), os.Remove(made))
}

// replace gives a finished file the name of another, which is gone then.
func replace(draft, path string) error {
	if err := os.Rename(draft, path); err != nil {
		return err
	}
	syncFolder(path)
	return nil
}

// syncFolder waits until the name of a file is on the disk. Not every system
// can.
func syncFolder(path string) {
	if dir, err := os.Open(filepath.Dir(path)); err == nil {
		_ = dir.Sync()
		_ = dir.Close()
	}
}

// place gives a finished file its name. A link, unlike a rename, never takes
// the place of a file that another process put there meanwhile; a rename is for
// file systems that have no links.
func place(draft, path string) error {
	err := os.Link(draft, path)
	if err != nil && !errors.Is(err, fs.ErrExist) {
		err = os.Rename(draft, path)
	}
	if err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	syncFolder(path)
	return nil
}

// inspect looks at a file without writing to it: whether it is all there and
// ours. bbolt maps the file into memory, where reading past the end of a file
// that was cut short would kill the process.
func inspect(path string) error {
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	if !info.Mode().IsRegular() || info.Size() == 0 {
		return ErrNotDatabase
	}
	bolt, err := bbolt.Open(path, mode, &bbolt.Options{Timeout: lockTimeout, ReadOnly: true})
	if err != nil {
		return unreadable(err)
	}
	defer bolt.Close()
	return bolt.View(func(tx *bbolt.Tx) error {
		info, err := os.Stat(path) // again: it may have grown until we had the lock
		if err != nil {
			return err
		}
		if info.Size() < tx.Size() {
			return ErrNotDatabase
		}
		if err := soundPages(path, tx, true); err != nil {
			return fmt.Errorf("%w: %w", ErrNotDatabase, err)
		}
		return readable(rootOf(tx, nil))
	})
}

// unreadable tells what the system refuses from what bbolt finds in a file.
func unreadable(err error) error {
	var refused syscall.Errno
	if errors.Is(err, bolterrors.ErrTimeout) || errors.As(err, &refused) {
		return err
	}
	return fmt.Errorf("%w: %w", ErrNotDatabase, err)
}

// named turns an error of the system into ours.
func named(err error) error {
	switch {
	case errors.Is(err, bolterrors.ErrTimeout):
		return ErrLocked
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return fmt.Errorf("%w: %w", ErrNotWritable, err)
	case errors.Is(err, syscall.ENOTDIR):
		return ErrNoDirectory
	}
	return err
}
