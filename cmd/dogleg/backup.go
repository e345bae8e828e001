package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"dogleg/store"
)

type backupCommand struct {
	databaseFlag
	File string `arg:"" help:"The copy. It must not exist yet."`
}

// Run copies the database, checks the copy, and says where it is.
func (c backupCommand) Run(ctx context.Context, world streams) error {
	if err := c.copy(ctx, world.env); err != nil {
		return err
	}
	if err := checkCopy(c.File); err != nil {
		return errors.Join(fmt.Errorf("the copy is no good, and was taken away: %w", err), os.Remove(c.File))
	}
	_, err := fmt.Fprintf(world.out, "Copied to %s.\n", c.File)
	return err
}

// copy writes the copy, of what is open here, is open elsewhere, or is shared.
func (c backupCommand) copy(ctx context.Context, env func(string) string) error {
	if c.shared(env) {
		return newFile(c.File, func(w io.Writer) error { return saveShared(ctx, env, w) })
	}
	path, _, err := c.path(env)
	if err != nil {
		return err
	}
	db, err := c.existing(ctx, env)
	switch {
	case errors.Is(err, store.ErrLocked):
		return newFile(c.File, func(w io.Writer) error { return copyLive(path, w, err) })
	case err != nil:
		return err
	}
	return errors.Join(newFile(c.File, db.Backup), db.Close())
}

// checkCopy looks through a copy, so that a bad one is found today.
func checkCopy(path string) error {
	db, err := store.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(db.Check(), db.Close())
}

// newFile writes a file that must not be there yet, whole or not at all.
func newFile(path string, write func(io.Writer) error) error {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	if err := errors.Join(write(file), file.Sync(), file.Close()); err != nil {
		return errors.Join(err, os.Remove(path))
	}
	return nil
}
