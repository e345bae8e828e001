package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"strings"
	"time"

	"dogleg/store"
)

// whole reads the database through before anybody is answered. Damaged pages
// end it: written to, they would take more with them. A record that breaks an
// invariant is only told.
func whole(db *store.DB, log *slog.Logger) error {
	err := db.Check()
	if errors.Is(err, store.ErrDamaged) {
		first, _, _ := strings.Cut(err.Error(), "\n") // dogleg check says them all
		return fmt.Errorf("%s; nothing was changed: dogleg restore BACKUP puts a backup in its place and keeps this file", first)
	}
	if err != nil {
		log.Error("the database breaks its own rules", "error", err)
	}
	return nil
}

// betweenCompactions is how long what was forgotten may stay readable in the
// file.
const betweenCompactions = time.Hour

// keepCompact takes out of the file what was forgotten, at the start and then
// every so often, until the context ends or the returned function is called.
func keepCompact(ctx context.Context, db *store.DB, log *slog.Logger) (stop func()) {
	ctx, cancel := context.WithCancel(ctx)
	over := make(chan struct{})
	go func() {
		defer close(over)
		tick := time.NewTicker(betweenCompactions)
		defer tick.Stop()
		for ctx.Err() == nil {
			compactForgotten(db, log)
			select {
			case <-tick.C:
			case <-ctx.Done():
			}
		}
	}()
	return func() { cancel(); <-over }
}

func compactForgotten(db *store.DB, log *slog.Logger) {
	if !db.Forgotten() {
		return
	}
	if err := db.Compact(); err != nil {
		log.Error("what was forgotten can't be taken out of the file yet", "error", err)
		return
	}
}
