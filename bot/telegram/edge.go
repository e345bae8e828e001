package telegram

import (
	"context"
	"errors"
	"math/rand/v2"
	"time"

	"dogleg/bot/telegram/wire"
)

// edge is what [Serve] and [Relay] share: the settings, the calls to Telegram,
// and who we are there.
type edge struct {
	Config
	client *wire.Client
	self   wire.Account
}

func newEdge(c Config) *edge {
	c = c.withDefaults()
	return &edge{Config: c, client: wire.NewClient(wire.Options{
		Token: c.Token, Base: c.Base, Calls: c.Senders, Send: c.Timing.Send, Toast: c.Timing.Toast, Log: c.Log,
	})}
}

// source is Telegram's own stream of updates.
func (e *edge) source() Source { return Source{Bot: e.self.ID, Base: e.Base} }

// introduce learns who we are, however long the network takes to come up.
func (e *edge) introduce(ctx context.Context) error {
	for failures := 0; ; failures++ {
		self, err := e.client.GetMe(ctx)
		if err == nil {
			e.self = self
			return nil
		}
		if wire.VerdictOn(err) == wire.Hopeless {
			return unknownToken(err)
		}
		e.Log.Warn("Telegram can't be reached", "error", err)
		if !e.pause(ctx, e.patience(err, failures)) {
			return ctx.Err()
		}
	}
}

// insist does something with the memory until it succeeds. It is false if the
// context ended first.
func (e *edge) insist(ctx context.Context, trouble string, do func() error) bool {
	for failures := 0; ; failures++ {
		err := do()
		if err == nil {
			return true
		}
		e.Log.Error(trouble, "error", err)
		if !e.pause(ctx, e.patience(err, failures)) {
			return false
		}
	}
}

// patience is how long to wait after a failed call: as long as told, else
// longer with every failure, and not in step with others that failed with us.
func (e *edge) patience(err error, failures int) time.Duration {
	var r *wire.Refusal
	if errors.As(err, &r) {
		switch {
		case r.RetryAfter > 0:
			return r.RetryAfter
		case r.Code == 409:
			return e.Timing.Rival
		}
	}
	wait := min(e.Timing.Retry<<min(failures, 16), e.Timing.RetryMax)
	return wait/2 + rand.N(wait/2+1)
}

// pause waits and is false if the context ended first.
func (e *edge) pause(ctx context.Context, d time.Duration) bool {
	if d <= 0 {
		return ctx.Err() == nil
	}
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-timer.C:
		return true
	case <-ctx.Done():
		return false
	}
}

// unlessEnded is the error, or that for which the run was ended, or nil if it
// was ended from outside.
func unlessEnded(ctx context.Context, err error) error {
	switch cause := context.Cause(ctx); {
	case errors.Is(cause, ErrToken), errors.Is(cause, ErrDeposed):
		return cause
	case cause != nil:
		return nil
	}
	return err
}
