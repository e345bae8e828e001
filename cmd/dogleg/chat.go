package main

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"time"

	"dogleg/bot"
	"dogleg/bot/serve"
	"dogleg/bot/terminal"
	"dogleg/store"
)

type chatCommand struct {
	databaseFlag
	User string `placeholder:"NAME" help:"Whose conversation it is, where several share a database."`
	Seed uint64 `placeholder:"NUMBER" help:"Make the same practice problems every time, for who begins to practice."`
}

// Run talks until the input ends. Each message is one transaction: killed
// anywhere, a job was kept whole or not at all.
func (c chatCommand) Run(ctx context.Context, world streams) error {
	db, err := c.in(world.env).Open()
	if err != nil {
		return err
	}
	path, _, _ := c.in(world.env).Path() // it was found just now
	conversation := bot.Conversation{Log: logTo(world.err), Seed: c.Seed}
	handle := func(line string) (reply bot.Reply, err error) {
		message := bot.Message{Text: line, When: time.Now(), From: c.User}
		reply, err = answer(db, &conversation, message, atTheTerminal(c.User))
		return keepFiles(&conversation, reply, filepath.Dir(path)), err
	}
	err = terminal.Chat(ctx, world.in, world.out, handle, isTerminal(world.in))
	serve.CompactForgotten(context.WithoutCancel(ctx), db, conversation.Log)
	return errors.Join(err, db.Close())
}

// answer answers a message with what a person keeps, and keeps what comes of
// it, in one transaction. After a fault of ours nothing is kept.
func answer(db *store.DB, c *bot.Conversation, m bot.Message, who store.Key) (reply bot.Reply, err error) {
	err = db.Update(func(tx *store.Tx) error {
		reply = c.Handle(m, tx.Person(who))
		if reply.Fault {
			return serve.ErrFault
		}
		return nil
	})
	return reply, err
}

// atTheTerminal is the key of a person who talks to this machine itself. No
// name is the one person there usually is.
func atTheTerminal(user string) store.Key {
	return store.ChatOf("terminal", "").Person(user)
}

// isTerminal says whether a person types, so that they are greeted and
// prompted.
func isTerminal(in io.Reader) bool {
	file, ok := in.(*os.File)
	if !ok {
		return false
	}
	info, err := file.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
