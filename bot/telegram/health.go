package telegram

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"sync/atomic"
	"time"
)

// Health counts what happens, for whoever watches over the bot. It is safe to
// read at any time.
type Health struct {
	// Pulse, where it is set before the bot is served, says what has stopped
	// inside, nil if nothing has.
	Pulse func(context.Context) error

	// StandBy, where it is set before the bot is served, says why a process that
	// receives nothing could not take over either, nil if it could.
	StandBy func(context.Context) error

	// The last poll succeeded, or Telegram was told where to call, or the feed
	// can be read; and what a relay received it could hand on.
	Receiving atomic.Bool
	LastPoll  atomic.Int64 // Unix seconds of the last poll that succeeded
	Polls     atomic.Int64
	Strangers atomic.Int64 // calls of the webhook without the secret

	Relayed     atomic.Int64 // handed on by a relay
	Updates     atomic.Int64 // handled, those put in quarantine among them
	Repeated    atomic.Int64 // delivered again although handled before
	Quarantined atomic.Int64
	Commits     atomic.Int64
	TooMuch     atomic.Int64 // not answered, being beyond a budget
	Rivals      atomic.Int64 // polls ended because another process polls

	Unsent  atomic.Int64 // in the outbox now
	Unheard atomic.Int64 // recordings that wait to be heard
	Sent    atomic.Int64
	Retried atomic.Int64 // sends that failed and are tried again
	TooMany atomic.Int64 // sends refused because there were too many
	Dropped atomic.Int64 // messages given up: blocked, or refused for good
}

// pulseTakes is the time after which no pulse counts as one that has stopped.
const pulseTakes = 5 * time.Second

// Register adds to a mux what a service manager or a balancer asks: GET /healthz
// says 200 as long as the process is worth keeping, GET /readyz as long as
// updates reach it or it stands by; else both say 503 and why.
func (h *Health) Register(mux *http.ServeMux) {
	mux.HandleFunc("GET /healthz", report(h.alive))
	mux.HandleFunc("GET /readyz", report(h.ready))
}

func (h *Health) alive(ctx context.Context) error {
	if h.Pulse == nil {
		return nil
	}
	ctx, cancel := context.WithTimeout(ctx, pulseTakes)
	defer cancel()
	return h.Pulse(ctx)
}

func (h *Health) ready(ctx context.Context) error {
	if h.Receiving.Load() {
		return h.alive(ctx)
	}
	if h.StandBy != nil {
		return h.StandBy(ctx)
	}
	return errors.New("no updates are received")
}

func report(state func(context.Context) error) http.HandlerFunc {
	return func(out http.ResponseWriter, r *http.Request) {
		if err := state(r.Context()); err != nil {
			http.Error(out, err.Error(), http.StatusServiceUnavailable)
			return
		}
		fmt.Fprintln(out, "ok")
	}
}
