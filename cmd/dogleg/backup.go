package main

import (
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
func (c backupCommand) Run(world streams) error {
	path, _, err := c.path(world.env)
	if err != nil {
		return err
	}
	db, err := c.existing(world.env)
	switch {
	case errors.Is(err, store.ErrLocked):
		err = newFile(c.File, func(w io.Writer) error { return copyLive(path, w, err) })
	case err == nil:
		err = errors.Join(newFile(c.File, db.Backup), db.Close())
	}
	if err != nil {
		return err
	}
	if err := checkCopy(c.File); err != nil {
		return err
	}
	_, err = fmt.Fprintf(world.out, "Copied to %s.\n", c.File)
	return err
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
