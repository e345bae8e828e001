package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"dogleg/bot/serve"
	"dogleg/store"
)

type dataCommand struct {
	ownFlags
	Telegram int64  `placeholder:"NUMBER" help:"Whose data it is by their number in Telegram, in every chat, instead of at the terminal."`
	File     string `arg:"" help:"The data, as JSON. It must not exist yet; - is standard output."`
}

// Run writes all that is kept of one person: for each chat in which anything is,
// what, with what they gave to the crew there.
func (c dataCommand) Run(ctx context.Context, world streams) error {
	db, err := c.in(world.env).Existing(ctx)
	if err != nil {
		return err
	}
	who := atTheTerminal(c.User)
	if c.Telegram != 0 {
		who = serve.ChatOf(c.Telegram).Person(fmt.Sprint(c.Telegram))
	}
	kept := map[store.Key]json.RawMessage{}
	err = db.View(func(tx *store.Tx) error {
		for _, key := range tx.Everywhere(who) {
			kept[key] = tx.Person(key).ExportWithGiven()
		}
		return nil
	})
	if err := errors.Join(err, db.Close()); err != nil {
		return err
	}
	write := func(w io.Writer) error {
		out := json.NewEncoder(w)
		out.SetIndent("", "  ")
		return out.Encode(kept)
	}
	if c.File == "-" {
		return write(world.out)
	}
	if err := serve.NewFile(c.File, write); err != nil {
		return err
	}
	_, err = fmt.Fprintf(world.out, "Written to %s.\n", c.File)
	return err
}
