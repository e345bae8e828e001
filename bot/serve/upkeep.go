package serve

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"strings"
	"sync"
	"time"

	"dogleg/store"
)

// soundPages reads through the pages of the database before anybody is answered.
// Damaged ones end it: written to, they would take more with them.
func soundPages(db *store.DB) error {
	err := db.CheckPages()
	if errors.Is(err, store.ErrDamaged) {
		first, _, _ := strings.Cut(err.Error(), "\n") // dogleg check says them all
		return fmt.Errorf("%s; nothing was changed: dogleg restore BACKUP puts a backup in its place and keeps this file", first)
	}
	return err
}

// readThrough reads the records on those pages while people are answered, until
// the context ends or the returned function is called: it takes long, and a record
// that breaks an invariant is only told.
func readThrough(ctx context.Context, db *store.DB, log *slog.Logger) (stop func()) {
	return inBackground(ctx, func(ctx context.Context) {
		if err := db.CheckRecords(ctx); err != nil && ctx.Err() == nil {
			log.Error("the database breaks its own rules", "error", err)
		}
	})
}

// inBackground does something until the returned function is called, which waits
// for its end.
func inBackground(ctx context.Context, do func(context.Context)) (stop func()) {
	ctx, cancel := context.WithCancel(ctx)
	var over sync.WaitGroup
	over.Go(func() { do(ctx) })
	return func() { cancel(); over.Wait() }
}

// betweenCompactions is how long what was forgotten may stay readable in the
// file.
const betweenCompactions = time.Hour

// keepCompact takes out of the file what was forgotten, at the start and then
// every so often, until the context ends or the returned function is called.
func keepCompact(ctx context.Context, db *store.DB, log *slog.Logger) (stop func()) {
	return inBackground(ctx, func(ctx context.Context) {
		tick := time.NewTicker(betweenCompactions)
		defer tick.Stop()
		for ctx.Err() == nil {
			CompactForgotten(ctx, db, log)
			select {
			case <-tick.C:
			case <-ctx.Done():
			}
		}
	})
}

// CompactForgotten takes out of the file what was forgotten, if anything was. That it
// can't be done yet is only logged.
func CompactForgotten(ctx context.Context, db *store.DB, log *slog.Logger) {
	if !db.Forgotten() {
		return
	}
	if err := db.Compact(ctx); err != nil && ctx.Err() == nil {
		log.Error("what was forgotten can't be taken out of the file yet", "error", err)
	}
}
