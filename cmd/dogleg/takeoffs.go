package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"time"

	"dogleg/bot/figure"
	"dogleg/bot/serve"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/store"
)

type takeoffsCommand struct {
	Export exportCommand `cmd:"" help:"Write your own takeoffs to a new file; - is standard output."`
	Import importCommand `cmd:"" help:"Read takeoffs from a file; - is standard input."`
}

// ownFlags say whose takeoffs, in which database.
type ownFlags struct {
	databaseFlag
	User string `placeholder:"NAME" help:"Whose takeoffs they are, where several share a database."`
}

type exportCommand struct {
	ownFlags
	File string `arg:"" help:"The table, as CSV. It must not exist yet."`
}

// Run writes the table and says how much it holds, unless it goes to standard
// output.
func (c exportCommand) Run(ctx context.Context, world streams) error {
	db, err := c.in(world.env).Existing(ctx)
	if err != nil {
		return err
	}
	var own []store.Takeoff
	err = db.View(func(tx *store.Tx) error {
		own = tx.Person(atTheTerminal(c.User)).Takeoffs()
		return nil
	})
	if err := errors.Join(err, db.Close()); err != nil {
		return err
	}
	if c.File == "-" {
		return store.WriteTakeoffs(world.out, own)
	}
	if err := serve.NewFile(c.File, func(w io.Writer) error { return store.WriteTakeoffs(w, own) }); err != nil {
		return err
	}
	_, err = fmt.Fprintf(world.out, "%s written to %s.\n", counted(len(own)), c.File)
	return err
}

type importCommand struct {
	ownFlags
	Anyway bool   `help:"Take lengths too that the fitting's geometry doesn't allow."`
	File   string `arg:"" help:"The table, as CSV with the header system,fitting,size,line,inches,how,when."`
}

// Run keeps all of the table, or nothing where a row is wrong. A takeoff takes
// the place of the one for the same fitting, size and line.
func (c importCommand) Run(world streams) error {
	table, err := c.table(world.in)
	if err != nil {
		return err
	}
	check := plausible
	if c.Anyway {
		check = nil
	}
	takeoffs, err := store.ReadTakeoffs(table, time.Now(), check)
	if err := errors.Join(err, table.Close()); err != nil {
		return fmt.Errorf("%s: nothing was kept: %w", c.File, err)
	}
	if c.in(world.env).Shared() {
		return errors.New("what several machines share is written by the bot alone; send it the table, or name a file with --db")
	}
	db, err := c.in(world.env).Open()
	if err != nil {
		return err
	}
	err = db.Update(func(tx *store.Tx) error {
		for _, t := range takeoffs {
			tx.Person(atTheTerminal(c.User)).SetTakeoff(t)
		}
		return nil
	})
	if err := errors.Join(err, db.Close()); err != nil {
		return err
	}
	_, err = fmt.Fprintf(world.out, "%s kept.\n", counted(len(takeoffs)))
	return err
}

func (c importCommand) table(stdin io.Reader) (io.ReadCloser, error) {
	if c.File == "-" {
		return io.NopCloser(stdin), nil
	}
	return os.Open(c.File)
}

// plausible questions a takeoff as the conversation does.
func plausible(t store.Takeoff) error {
	s, _ := catalog.SystemByID(t.System)
	f, _ := catalog.FittingByKey(t.Fitting)
	err := figure.Plausible(s, catalog.Takeoff{Fitting: f, Size: t.Size, Length: t.Length})
	if err == nil {
		return nil
	}
	return errors.New(wording.Questioned(err))
}

func counted(n int) string {
	if n == 1 {
		return "1 takeoff"
	}
	return fmt.Sprintf("%d takeoffs", n)
}
