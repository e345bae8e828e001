package cluster

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"dogleg/store"
)

// What [Cluster.Load] may fail with.
var (
	// ErrHolds: the servers hold something of this bot already.
	ErrHolds = errors.New("the NATS servers hold something of this bot already")

	// ErrBusy: a worker leads.
	ErrBusy = errors.New("a worker is running; stop it first")

	// errDiffers: what was stored isn't what was given.
	errDiffers = errors.New("what was read back differs from what was written")
)

// Save writes what the servers hold as a database file, as [store.DB.Backup]
// does. It is compared with the copy it was made of by its content.
func (c *Cluster) Save(ctx context.Context, to io.Writer) error {
	folder, err := os.MkdirTemp("", "dogleg-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	k, err := c.Copy(ctx, folder)
	if err != nil {
		return err
	}
	path := filepath.Join(folder, "saved.db")
	if err := errors.Join(k.save(path), k.Close()); err != nil {
		return fmt.Errorf("saving: %w", err)
	}
	return pour(path, to)
}

// save writes the copy into a new file, and compares the two.
func (k *Copy) save(path string) error {
	hash, err := k.db.Hash()
	if err != nil {
		return err
	}
	file, err := os.OpenFile(path, os.O_CREATE|os.O_WRONLY|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	if err := errors.Join(k.db.Backup(file), file.Close()); err != nil {
		return err
	}
	return holds(path, hash)
}

// holds fails if the database in a file holds something else than what has this
// hash.
func holds(path, hash string) error {
	got, err := examined(path, (*store.DB).Hash)
	if err == nil && got != hash {
		err = errDiffers
	}
	return err
}

// examined opens a copy to look at something in it.
func examined[T any](path string, look func(*store.DB) (T, error)) (found T, err error) {
	db, err := store.OpenCopy(path)
	if err != nil {
		return found, err
	}
	found, err = look(db)
	return found, errors.Join(err, db.Close())
}

func pour(path string, to io.Writer) error {
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	_, err = io.Copy(to, file)
	return err
}

// Load makes a database file, such as [store.DB.Backup] or [Cluster.Save] has
// written, what the servers hold of the bot from now on. They must hold nothing
// yet ([ErrHolds]), and no worker may lead ([ErrBusy]); workers that begin or
// follow later have it. The file is checked from the first page to the last
// before, and compared by its content when it is there.
func (c *Cluster) Load(ctx context.Context, backup io.Reader) error {
	folder, err := os.MkdirTemp("", "dogleg-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	path := filepath.Join(folder, "backup.db")
	hash, err := received(path, backup)
	if err != nil {
		return fmt.Errorf("loading: %w", err)
	}
	held, err := c.acquireSoon(ctx)
	if err != nil {
		return fmt.Errorf("loading: %w", err)
	}
	deposed, err := held.during(ctx, func(ctx context.Context) error { return c.loadLeading(ctx, path, hash) })
	if err == nil && deposed {
		err = ErrDeposed
	}
	if err != nil {
		return fmt.Errorf("loading: %w", err)
	}
	return nil
}

// received writes a backup into a file, and checks it.
func received(path string, backup io.Reader) (hash string, err error) {
	file, err := os.OpenFile(path, os.O_CREATE|os.O_WRONLY|os.O_EXCL, 0o600)
	if err != nil {
		return "", err
	}
	_, err = io.Copy(file, backup)
	if err := errors.Join(err, file.Close()); err != nil {
		return "", err
	}
	return examined(path, func(db *store.DB) (string, error) {
		if err := db.Check(); err != nil {
			return "", err
		}
		return db.Hash()
	})
}

// acquireSoon acquires the lease to lead, unless somebody has it who is alive.
func (c *Cluster) acquireSoon(ctx context.Context) (*lease, error) {
	soon, cancel := context.WithTimeout(ctx, 2*c.leaseTime)
	defer cancel()
	held, err := c.acquire(soon, leader)
	if err != nil && ctx.Err() == nil && soon.Err() != nil {
		err = ErrBusy
	}
	return held, err
}

// loadLeading loads a file while nobody else writes. It is there once the last
// step is done, and not before.
func (c *Cluster) loadLeading(ctx context.Context, path, hash string) error {
	k, err := c.Copy(ctx, filepath.Dir(path))
	if err != nil {
		return err
	}
	defer k.Close()
	if err := k.empty(); err != nil {
		return err
	}
	if err := k.fence(ctx); err != nil {
		return err
	}
	object, err := c.storeLoaded(ctx, path, hash, k.read+1)
	if err != nil {
		return err
	}
	messages := c.pieces(nil)
	messages[0].Header.Set(loadHeader, object)
	_, err = k.write(ctx, messages)
	return err
}

// storeLoaded stores a file that is to be the database from a place on, and
// reads it back.
func (c *Cluster) storeLoaded(ctx context.Context, path, hash string, at uint64) (object string, err error) {
	if _, err := examined(path, func(db *store.DB) (any, error) { return nil, db.Rebase(at) }); err != nil {
		return "", err
	}
	file, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer file.Close()
	if object, err = c.upload(ctx, loadedKind, at, file); err != nil {
		return "", err
	}
	back := path + ".back"
	if err := c.download(ctx, object, back); err != nil {
		return "", err
	}
	return object, holds(back, hash)
}

// empty fails if there is anything in the copy.
func (k *Copy) empty() error {
	hash, err := k.db.Hash()
	if err != nil {
		return err
	}
	for _, open := range []func(string) (*store.DB, error){store.OpenCopy, store.Open} {
		nothing, err := hashOfNothing(filepath.Dir(k.path), open)
		if err != nil {
			return err
		}
		if hash == nothing {
			return nil
		}
	}
	return fmt.Errorf("%w, up to %d in its journal; save it, take the bot's streams away, and load then", ErrHolds, k.read)
}

// hashOfNothing is the hash of a new database.
func hashOfNothing(folder string, open func(string) (*store.DB, error)) (string, error) {
	path := filepath.Join(folder, "nothing.db")
	defer os.Remove(path)
	db, err := open(path)
	if err != nil {
		return "", err
	}
	hash, err := db.Hash()
	return hash, errors.Join(err, db.Close())
}
