package main

import (
	"fmt"
	"time"

	"dogleg/store"
)

type restoreCommand struct {
	databaseFlag
	File string `arg:"" help:"The backup. It is only read."`
}

// Run puts a backup in the database's place, and says where what was there is
// kept now.
func (c restoreCommand) Run(world streams) error {
	path, err := c.place(world.env)
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
