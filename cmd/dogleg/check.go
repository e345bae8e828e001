package main

import (
	"context"
	"errors"
	"fmt"
)

type checkCommand struct{ databaseFlag }

// Run reads the whole database and says what is wrong with it.
func (c checkCommand) Run(ctx context.Context, world streams) error {
	db, err := c.in(world.env).Existing(ctx)
	if err != nil {
		return err
	}
	if err := errors.Join(db.Check(), db.Close()); err != nil {
		return err
	}
	_, err = fmt.Fprintln(world.out, "The database is whole.")
	return err
}
