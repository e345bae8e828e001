package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"dogleg/bot/serve"
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
	if c.in(env).Shared() {
		return serve.NewFile(c.File, func(w io.Writer) error { return serve.SaveShared(ctx, env, w) })
	}
	path, _, err := c.in(env).Path()
	if err != nil {
		return err
	}
	db, err := c.in(env).Existing(ctx)
	switch {
	case errors.Is(err, store.ErrLocked):
		return serve.NewFile(c.File, func(w io.Writer) error { return serve.CopyLive(path, w, err) })
	case err != nil:
		return err
	}
	return errors.Join(serve.NewFile(c.File, db.Backup), db.Close())
}

// checkCopy looks through a copy, so that a bad one is found today.
func checkCopy(path string) error {
	db, err := store.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(db.Check(), db.Close())
}
