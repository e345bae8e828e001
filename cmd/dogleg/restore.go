package main

import (
	"context"
	"fmt"
	"time"

	"dogleg/bot/serve"
	"dogleg/store"
)

type restoreCommand struct {
	databaseFlag
	File string `arg:"" help:"The backup. It is only read."`
}

// Run puts a backup in the database's place, and says where what was there is
// kept now.
func (c restoreCommand) Run(ctx context.Context, world streams) error {
	if c.in(world.env).Shared() {
		return c.share(ctx, world)
	}
	path, err := c.in(world.env).Place()
	if err != nil {
		return err
	}
	aside, err := store.Restore(c.File, path, time.Now())
	if err != nil {
		return err
	}
	if aside != "" {
		aside = " What was there is in " + aside + "."
	}
	_, err = fmt.Fprintf(world.out, "Restored from %s.%s\n", c.File, aside)
	return err
}

// share puts a backup where several machines will share it, who have nothing
// yet.
func (c restoreCommand) share(ctx context.Context, world streams) error {
	if err := serve.LoadShared(ctx, world.env, c.File); err != nil {
		return err
	}
	_, err := fmt.Fprintf(world.out, "Restored from %s. What the servers hold is the same, by its hash.\n", c.File)
	return err
}
