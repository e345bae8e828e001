package telegram

import (
	"context"
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/url"
	"os"
	"strings"
	"time"

	"dogleg/bot/telegram/wire"
)

// Webhook says where Telegram calls, where it is to call instead of being
// polled.
type Webhook struct {
	// URL is the public address, with https. What stands there is a reverse
	// proxy that has the certificate and passes on to the listener.
	URL string
	// Listener takes plain HTTP from that proxy.
	Listener net.Listener
}

// longestUpdate is the size of the largest update that is read. A message has
// at most 4096 characters; with what it replies to and all its fields, real
// ones stay far below.
const longestUpdate = 1 << 20

// longestHeader is that of a request's header lines; the secret is in them.
const longestHeader = 16 << 10

// secretHeader is where Telegram puts the secret that it was told.
const secretHeader = "X-Telegram-Bot-Api-Secret-Token"

// secretOf is what only Telegram and we know, made of the token: so there is
// nothing more to set up, keep and lose, every process of one bot has the same,
// and from it nobody gets back to the token.
func secretOf(token string) string {
	mac := hmac.New(sha256.New, []byte(token))
	mac.Write([]byte("dogleg webhook"))
	return hex.EncodeToString(mac.Sum(nil))
}

// webhook takes updates from Telegram's calls.
type webhook struct {
	*edge
	to      sink
	secret  string
	arrived chan arrival
	ending  context.Context
}

// arrival is one update that came in a call, and whether it is kept.
type arrival struct {
	raw  json.RawMessage
	kept chan bool
}

// listen takes updates until the context ends. It never has anything for the
// server to be told afterwards: each call was answered for itself.
func (e *edge) listen(ctx context.Context, to sink) error {
	ending, end := context.WithCancel(ctx)
	defer end()
	w := &webhook{edge: e, to: to, secret: secretOf(e.Token), arrived: make(chan arrival), ending: ending}
	server := w.server()
	over := make(chan error, 1)
	go func() {
		over <- server.Serve(e.Webhook.Listener)
		end()
	}()
	err := e.setWebhook(ending)
	if err == nil {
		e.Health.Receiving.Store(true)
		w.collect(ending)
		e.Health.Receiving.Store(false)
	}
	end() // those who wait are told to come again
	finishing, cancel := context.WithTimeout(context.WithoutCancel(ctx), e.Timing.Finish)
	defer cancel()
	_ = server.Shutdown(finishing) // calls cut off are made again
	if broken := <-over; !errors.Is(broken, http.ErrServerClosed) {
		return fmt.Errorf("webhook: %w", broken)
	}
	return err
}

// server is bounded in all that a slow or a large call could take.
func (w *webhook) server() *http.Server {
	mux := http.NewServeMux()
	w.Health.Register(mux)
	mux.HandleFunc("POST "+pathOf(w.Webhook.URL), w.take)
	return &http.Server{
		Handler:           mux,
		ReadHeaderTimeout: w.Timing.Header,
		ReadTimeout:       w.Timing.Body,
		WriteTimeout:      w.Timing.Send,
		IdleTimeout:       2 * time.Minute, // longer than proxies keep theirs, so that none calls into a closed one
		MaxHeaderBytes:    longestHeader,
		ErrorLog:          slog.NewLogLogger(w.Log.Handler(), slog.LevelDebug),
	}
}

// pathOf is the path of an address as the mux wants it: this one, and none
// below it.
func pathOf(address string) string {
	u, err := url.Parse(address)
	if err != nil || u.Path == "" || u.Path == "/" {
		return "/{$}"
	}
	return u.Path
}

// take answers one call: 200 only when the update is kept. Whoever does
// not know the secret is told nothing, and none of what they send is read.
func (w *webhook) take(out http.ResponseWriter, r *http.Request) {
	if !hmac.Equal([]byte(r.Header.Get(secretHeader)), []byte(w.secret)) {
		w.Health.Strangers.Add(1)
		http.Error(out, "who are you?", http.StatusUnauthorized)
		return
	}
	raw, err := io.ReadAll(http.MaxBytesReader(out, r.Body, longestUpdate))
	if err != nil {
		w.Log.Warn("a call could not be read", "error", err)
		http.Error(out, "not read", statusOf(err))
		return
	}
	if !w.hand(r.Context(), raw) {
		http.Error(out, "not kept", http.StatusServiceUnavailable)
	}
}

// statusOf says why a body could not be read.
func statusOf(err error) int {
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		return http.StatusRequestEntityTooLarge
	case errors.Is(err, os.ErrDeadlineExceeded):
		return http.StatusRequestTimeout
	}
	return http.StatusBadRequest
}

// hand gives an update to the collector and says whether it was kept.
func (w *webhook) hand(caller context.Context, raw json.RawMessage) bool {
	a := arrival{raw, make(chan bool, 1)}
	select {
	case w.arrived <- a:
		return <-a.kept
	case <-caller.Done():
	case <-w.ending.Done():
	}
	return false
}

// collect has kept what arrives, in the order in which it does, and whatever
// waits together. Where there is no room it lets callers wait, and Telegram keeps
// the rest.
//
// Where polling would read on is left as it is: calls overlap, so that a later
// update may be kept and an earlier one still be under way.
func (w *webhook) collect(ctx context.Context) {
	for w.to.room(ctx) {
		batch := w.gather(ctx)
		if len(batch) == 0 {
			return
		}
		var list []*received
		for _, a := range batch {
			list = append(list, receive(a.raw))
		}
		_, kept := w.to.keep(ctx, list, bookmark{})
		for _, a := range batch {
			a.kept <- kept
		}
	}
}

// gather waits for an update and takes those that wait with it. It is empty if
// the context ended first.
func (w *webhook) gather(ctx context.Context) (batch []arrival) {
	select {
	case a := <-w.arrived:
		batch = append(batch, a)
	case <-ctx.Done():
		return nil
	}
	for len(batch) < mostUpdates {
		select {
		case a := <-w.arrived:
			batch = append(batch, a)
		default:
			return batch
		}
	}
	return batch
}

// setWebhook has Telegram call us, however long the network takes to come up.
func (e *edge) setWebhook(ctx context.Context) error {
	for failures := 0; ; failures++ {
		err := e.client.SetWebhook(ctx, e.Webhook.URL, secretOf(e.Token))
		switch verdict := wire.VerdictOn(err); verdict {
		case wire.Delivered:
			e.Log.Info("Telegram calls", "url", e.Webhook.URL)
			return nil
		case wire.Hopeless:
			return unknownToken(err)
		case wire.Undeliverable:
			return fmt.Errorf("no webhook at %s: %w", e.Webhook.URL, err)
		case wire.Later, wire.Again, wire.Moved, wire.Unanswered, wire.Threadless, wire.Plainly, wire.Anew:
			e.Log.Warn("the webhook can't be set", "error", err)
		}
		if !e.pause(ctx, e.patience(err, failures)) {
			return ctx.Err()
		}
	}
}

// webhookIsSet tells the refusal of a poll because of a webhook from that
// because of another poll.
func webhookIsSet(err error) bool {
	var r *wire.Refusal
	return errors.As(err, &r) && r.Code == http.StatusConflict && strings.Contains(r.Description, "webhook is active")
}

// leaveWebhook goes back to polling: of those who were started with one token,
// the last decides how it is served. What Telegram still has to deliver it
// keeps for the polls.
func (e *edge) leaveWebhook(ctx context.Context) (left bool) {
	e.Log.Warn("a webhook was set; it is taken away, since this process polls")
	err := e.client.DeleteWebhook(ctx)
	if err != nil {
		e.Log.Warn("the webhook can't be taken away", "error", err)
	}
	return err == nil
}
