package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"dogleg/bot"
	"dogleg/bot/serve"
	"dogleg/store"
)

type unreadCommand struct {
	databaseFlag
	File string `arg:"" help:"The messages, in the form of the corpus. It must not exist yet; - is standard output."`
}

// Run writes what could not be understood of those who consented, all people
// together, without who they are.
func (c unreadCommand) Run(ctx context.Context, world streams) error {
	db, err := c.in(world.env).Existing(ctx)
	if err != nil {
		return err
	}
	var texts []string
	err = db.View(func(tx *store.Tx) error {
		for _, key := range tx.People() {
			texts = append(texts, bot.Unread(tx.Person(key))...)
		}
		return nil
	})
	if err := errors.Join(err, db.Close()); err != nil {
		return err
	}
	write := func(w io.Writer) error {
		_, err := io.WriteString(w, bot.Corpus(texts))
		return err
	}
	if c.File == "-" {
		return write(world.out)
	}
	if err := serve.NewFile(c.File, write); err != nil {
		return err
	}
	_, err = fmt.Fprintf(world.out, "Written to %s. Read it before you hand it on: a name in the text is not always known as one.\n", c.File)
	return err
}
