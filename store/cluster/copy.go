package cluster

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"
	"time"

	"dogleg/store"
)

// ErrEmptied: the servers hold nothing of this bot, but there is a copy of what
// they held.
var ErrEmptied = errors.New("the NATS servers hold nothing of this bot any more")

// Copy is a copy of the bot's database in this process. Close it when Run has
// returned.
type Copy struct {
	c    *Cluster
	path string
	db   *store.DB

	read   uint64 // place in the journal up to which this copy knows it
	reader reader
	torn   pieced

	writing sync.Mutex // held while something is shipped
	term    *term      // while leading; writing guards it

	saving  sync.Mutex           // held while a snapshot is made
	saved   atomic.Int64         // bytes of the last one
	since   atomic.Int64         // bytes in the journal behind it
	filled  chan struct{}        // told when they are many
	forgot  atomic.Bool          // the journal may hold what is left of somebody who was forgotten
	uploads map[string]time.Time // pieces of no snapshot, and when they were first seen; saving guards it

	leading                atomic.Bool
	at, written, snapshots atomic.Uint64
	waited                 atomic.Int64
}

// Status is what can be counted of a copy.
type Status struct {
	Leading   bool          // it is the one that writes
	Position  uint64        // place in the journal that it knows
	Written   uint64        // messages that it wrote into the journal
	Waited    time.Duration // how long it waited for them to be acknowledged, all in all
	Snapshots uint64        // that it made
}

// Status may be asked at any time.
func (k *Copy) Status() Status {
	return Status{
		Leading: k.leading.Load(), Position: k.at.Load(), Written: k.written.Load(),
		Waited: time.Duration(k.waited.Load()), Snapshots: k.snapshots.Load(),
	}
}

// Copy makes a copy of the bot's database in a folder: the newest snapshot, and
// what is in the journal since. A copy that an earlier process left there is
// replaced, unless it holds what the servers have lost.
func (c *Cluster) Copy(ctx context.Context, folder string) (*Copy, error) {
	k := &Copy{c: c, path: filepath.Join(folder, "copy-"+c.bot+".db"), filled: make(chan struct{}, 1)}
	k.reader = reader{c: c, stream: c.name("journal")}
	if err := k.begin(ctx); err != nil {
		return nil, fmt.Errorf("a copy of the database: %w", err)
	}
	return k, nil
}

func (k *Copy) begin(ctx context.Context) error {
	if err := k.setAside(ctx); err != nil {
		return err
	}
	// A snapshot may be taken away while it is fetched, for a newer one; and whoever
	// says where the journal ends may be behind.
	err := k.c.surely(ctx, func(ctx context.Context) error { return k.load(ctx, 0) })
	if err == nil {
		err = k.c.surely(ctx, k.fits)
	}
	if err == nil {
		err = k.catchUp(ctx)
	}
	if err != nil {
		return errors.Join(err, k.Close())
	}
	return nil
}

// fits says whether the journal goes as far as the snapshot. If it doesn't, what
// would be written next would stand where the snapshot says it has been.
func (k *Copy) fits(ctx context.Context) error {
	info, err := k.c.journalInfo(ctx)
	if err == nil && info.State.LastSeq < k.read {
		err = fmt.Errorf("%w: %w: the journal ends at %d and the newest snapshot stands at %d; "+
			"take the bot's streams away and load the newest copy or backup",
			ErrReplaced, errShort, info.State.LastSeq, k.read)
	}
	return err
}

// Close closes the file. It stays where it is, should it be needed.
func (k *Copy) Close() error {
	k.reader.close()
	if k.db == nil {
		return nil
	}
	return k.db.Close()
}

// setAside looks at what an earlier process left, and keeps it if it is ahead of
// the journal, which it can't be unless the servers have lost something.
func (k *Copy) setAside(ctx context.Context) error {
	if _, err := os.Stat(k.path); err != nil {
		return nil // none
	}
	at, err := placeIn(k.path)
	if errors.Is(err, store.ErrLocked) {
		return err
	}
	info, infoErr := k.c.journalInfo(ctx)
	switch {
	case infoErr != nil:
		return infoErr
	case err != nil || at <= info.State.LastSeq:
		return os.Remove(k.path)
	case info.State.LastSeq == 0:
		return fmt.Errorf("%w, and %s was made of what they held: load it there, or take it away", ErrEmptied, k.path)
	}
	aside := k.path + time.Now().UTC().Format(".ahead-20060102T150405Z")
	k.c.log.Error("the NATS servers have lost what they had acknowledged; the copy that has it is kept",
		"copy", aside, "copy_ends", at, "journal_ends", info.State.LastSeq)
	return os.Rename(k.path, aside)
}

// placeIn is the place at which a copy in a file stands.
func placeIn(path string) (uint64, error) {
	db, err := store.OpenCopy(path)
	if err != nil {
		return 0, err
	}
	at, err := db.Position()
	return at, errors.Join(err, db.Close())
}

// load fetches the newest snapshot that stands behind a place, or begins with
// the empty database where there is none and behind is 0.
func (k *Copy) load(ctx context.Context, behind uint64) error {
	draft := k.path + ".new"
	defer os.Remove(draft)
	newest, err := k.c.newest(ctx)
	if err != nil {
		return err
	}
	switch {
	case newest.name == "" && behind == 0:
		if err := os.RemoveAll(draft); err != nil {
			return err
		}
	case newest.at <= behind:
		return errGap
	default:
		if err := k.c.download(ctx, newest.name, draft); err != nil {
			return err
		}
		k.saved.Store(newest.size)
	}
	return k.replace(draft)
}

// replace puts a file in the place of the copy, which is the copy from now on.
func (k *Copy) replace(draft string) error {
	if k.db != nil {
		if err := k.db.Close(); err != nil {
			return err
		}
		k.db = nil
	}
	err := os.Rename(draft, k.path)
	if errors.Is(err, os.ErrNotExist) {
		err = os.RemoveAll(k.path)
	}
	if err != nil {
		return err
	}
	db, err := store.OpenCopy(k.path)
	if err != nil {
		return err
	}
	db.Ship = k.ship
	k.db = db
	return k.rewind()
}

// rewind reads the journal from where the copy stands.
func (k *Copy) rewind() error {
	at, err := k.db.Position()
	k.stand(at)
	k.torn = pieced{}
	return err
}

// stand notes up to where the journal is known.
func (k *Copy) stand(at uint64) {
	k.read = at
	k.at.Store(at)
}
