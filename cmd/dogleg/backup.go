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

// Run copies the database and says where to.
func (c backupCommand) Run(world streams) error {
	db, err := c.existing(world.env)
	if err != nil {
		return err
	}
	if err := errors.Join(copyTo(db, c.File), db.Close()); err != nil {
		return err
	}
	_, err = fmt.Fprintf(world.out, "Copied to %s.\n", c.File)
	return err
}

// copyTo writes a new file, whole or not at all. A copy that is there already
// may be the only good one, so it is not written over.
func copyTo(db *store.DB, path string) error { return newFile(path, db.Backup) }

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
