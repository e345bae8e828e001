package telegram

import (
	"context"
	"encoding/json"
	"time"
)

// Feed hands out updates that somebody else received, as [Relay] does, one
// after the other in the order of their places.
type Feed interface {
	// Name tells one feed from another: a place in one means nothing in another,
	// which is read from its start.
	Name() string

	// Next waits for updates whose place is behind one, and returns so many of
	// them at most, in order. Places begin at 1; behind 0 are all that are still
	// there. It may return none after a while. An error says that the feed can't
	// be read now; it is asked again.
	Next(ctx context.Context, behind int64, most int) ([]Fed, error)
}

// Fed is an update in a [Feed].
type Fed struct {
	At  int64           // its place, higher than that of those before it
	Raw json.RawMessage // as Telegram sent it
}

// follow answers what a feed brings until the context ends. The place to read
// on is kept with the answers, so that there is nothing to confirm.
func (s *service) follow(ctx context.Context) {
	source := Source{Bot: s.self.ID, Base: s.Feed.Name()}
	next, ok := s.readOn(ctx, source)
	if !ok {
		return
	}
	behind := max(next-1, 0)
	s.Health.Receiving.Store(true)
	defer s.Health.Receiving.Store(false)
	for failures := 0; s.room(ctx); {
		asked := time.Now()
		fed, err := s.Feed.Next(ctx, behind, mostUpdates)
		if ctx.Err() != nil {
			return
		}
		s.Health.Receiving.Store(err == nil)
		if err != nil {
			s.Log.Warn("the feed of updates can't be read", "error", err)
			s.pause(ctx, s.patience(err, failures))
			failures++
			continue
		}
		failures = 0
		last := s.takeFed(ctx, fed, source)
		if last <= behind { // a feed that doesn't wait, or stands still
			s.pause(ctx, s.Timing.Breath-time.Since(asked))
		}
		behind = max(behind, last)
	}
}

// takeFed answers what a feed brought and returns the last place in it: 0 if
// the run ended first, or there was nothing.
func (s *service) takeFed(ctx context.Context, fed []Fed, from Source) (last int64) {
	if len(fed) == 0 {
		return 0
	}
	var list []*received
	for _, f := range fed {
		list = append(list, receive(f.Raw))
		last = max(last, f.At)
	}
	if _, kept := s.keep(ctx, list, bookmark{from, last + 1}); !kept {
		return 0
	}
	return last
}
