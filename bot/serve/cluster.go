package serve

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"dogleg/bot/metrics"
	"dogleg/bot/telegram"
	"dogleg/store"
	"dogleg/store/cluster"

	"golang.org/x/sync/errgroup"
)

// This file runs one bot on several machines, where DOGLEG_STORE names the
// servers of NATS that they share.

// role is one kind of work. A process does as many as DOGLEG_ROLES names, and
// each is done by as many processes as are started for it.
type role string

const (
	receiving role = "receive" // take updates from Telegram
	answering role = "work"    // answer them; one process does at a time, the others stand by
	listening role = "hear"    // hear recordings
)

var everyRole = []role{receiving, answering, listening}

// rolesOf reads which roles a process has; all of them where nothing is set.
func rolesOf(setting string) ([]role, error) {
	if setting == "" {
		return everyRole, nil
	}
	var roles []role
	for name := range strings.SplitSeq(setting, ",") {
		r := role(strings.TrimSpace(name))
		if !slices.Contains(everyRole, r) {
			return nil, fmt.Errorf("DOGLEG_ROLES names %q; there are receive, work and hear, with commas between them", r)
		}
		if !slices.Contains(roles, r) {
			roles = append(roles, r)
		}
	}
	return roles, nil
}

// botOf is the bot's number, which a token begins with.
func botOf(token string) string {
	number, _, _ := strings.Cut(token, ":")
	return number
}

// join joins the machines that share a bot.
func join(ctx context.Context, env func(string) string, o cluster.Options) (*cluster.Cluster, error) {
	secret, err := token(env)
	if err != nil {
		return nil, err
	}
	return cluster.Open(ctx, env("DOGLEG_STORE"), botOf(secret), o)
}

// shareTakes is when reading or writing what the machines share is given up.
const shareTakes = 10 * time.Minute

// withShared does something with what the machines share, and nothing else.
func withShared(ctx context.Context, env func(string) string, do func(context.Context, *cluster.Cluster) error) error {
	ctx, cancel := context.WithTimeout(ctx, shareTakes)
	defer cancel()
	shared, err := join(ctx, env, cluster.Options{})
	if err != nil {
		return err
	}
	defer shared.Close()
	return do(ctx, shared)
}

// SaveShared writes what the machines share, as a database file.
func SaveShared(ctx context.Context, env func(string) string, w io.Writer) error {
	return withShared(ctx, env, func(ctx context.Context, shared *cluster.Cluster) error { return shared.Save(ctx, w) })
}

// LoadShared makes a backup what the machines share, from now on. They must hold
// nothing yet.
func LoadShared(ctx context.Context, env func(string) string, backup string) error {
	file, err := os.Open(backup)
	if err != nil {
		return err
	}
	defer file.Close()
	return withShared(ctx, env, func(ctx context.Context, shared *cluster.Cluster) error { return shared.Load(ctx, file) })
}

// copyOfShared opens a copy of what the machines share.
func copyOfShared(ctx context.Context, env func(string) string) (r Reading, err error) {
	r.scrap, err = os.MkdirTemp("", "dogleg-")
	if err != nil {
		return r, err
	}
	path := filepath.Join(r.scrap, "dogleg.db")
	err = NewFile(path, func(w io.Writer) error { return SaveShared(ctx, env, w) })
	if err == nil {
		r.DB, err = store.Open(path)
	}
	if err != nil {
		return r, errors.Join(err, os.RemoveAll(r.scrap))
	}
	return r, nil
}

// together is a process that serves with others.
type together struct {
	*service
	env      func(string) string
	shared   *cluster.Cluster
	folder   string // where its copy of the database is
	receives bool
	works    bool
	patience time.Duration // after which the log says that servers are waited for; 0 is the cluster's own
	joined   atomic.Bool   // the servers were reached: shared is there
	copied   atomic.Bool   // the copy of the database is there
}

// serveTogether does this process's share of serving, until the context ends or
// one of its roles fails.
func serveTogether(ctx context.Context, d Database, log *slog.Logger) error {
	path, err := d.Place()
	if err != nil {
		return err
	}
	roles, err := rolesOf(d.Env("DOGLEG_ROLES"))
	if err != nil {
		return err
	}
	t := &together{
		env: d.Env, folder: filepath.Dir(path),
		receives: slices.Contains(roles, receiving), works: slices.Contains(roles, answering),
	}
	// Waiting for the others is no fault that a restart would mend.
	health := &telegram.Health{Pulse: func(context.Context) error { return nil }}
	if !t.receives || d.Env("DOGLEG_WEBHOOK_URL") == "" { // whom Telegram calls is ready when it is called
		health.StandBy = t.standsBy
	}
	var end func()
	if t.service, end, err = newService(d.Env, log, health); err != nil {
		return err
	}
	defer end()
	defer watch(ctx, t.health, log)()
	if err := t.join(ctx); err != nil {
		return unlessEnded(ctx, err)
	}
	defer t.shared.Close()
	parts, ctx := errgroup.WithContext(ctx)
	for _, r := range roles {
		parts.Go(func() error { return t.play(ctx, r) })
	}
	return parts.Wait()
}

// join joins the machines that share the bot. Servers that can't be reached, or
// that have lost more than half of themselves, are waited for: they come back, and
// a restart here would not bring them.
func (t *together) join(ctx context.Context) (err error) {
	for {
		if t.shared, err = join(ctx, t.env, cluster.Options{Log: t.log, Patience: t.patience}); err == nil {
			t.joined.Store(true)
			return nil
		}
		if !errors.Is(err, cluster.ErrUnreachable) || ctx.Err() != nil {
			return err
		}
		t.log.Error("waiting for the servers that the machines share", "error", err)
	}
}

// unlessEnded is why something could not be begun, which is no fault where the
// run was ended meanwhile.
func unlessEnded(ctx context.Context, err error) error {
	if ctx.Err() != nil {
		return nil
	}
	return err
}

// standsBy says why this process could not take over from another, nil if it
// could.
func (t *together) standsBy(context.Context) error {
	switch {
	case !t.joined.Load() || !t.shared.Connected():
		return errors.New("no server of NATS is reached")
	case t.works && !t.copied.Load():
		return errors.New("the copy of the database is not here yet")
	}
	return nil
}

func (t *together) play(ctx context.Context, r role) error {
	switch r {
	case receiving:
		return t.receive(ctx)
	case answering:
		return t.answer(ctx)
	case listening:
		return t.listen(ctx)
	}
	return fmt.Errorf("a role that nobody plays: %s", r)
}

// receive hands on what Telegram has. Any number are called, where Telegram
// calls; one at a time polls.
func (t *together) receive(ctx context.Context) error {
	if err := t.takeCalls(t.env); err != nil {
		return err
	}
	relay := func(ctx context.Context) error {
		return telegram.Relay(ctx, telegram.RelayConfig{
			Token: t.token, Base: t.base, Webhook: t.webhook, Post: post{t.shared}, Log: t.log, Health: t.health,
		})
	}
	if t.webhook != nil {
		return relay(ctx)
	}
	return t.shared.Elect(ctx, "poll", relay)
}

// mostHeard is how many recordings are given out at once to those who hear.
const mostHeard = 32

// answer keeps a copy of the database, and while it is this process's turn
// answers what the receivers hand on.
func (t *together) answer(ctx context.Context) error {
	t.addSpeaker()
	kept, err := t.shared.Copy(ctx, t.folder)
	if err != nil {
		return unlessEnded(ctx, err)
	}
	defer kept.Close()
	t.copied.Store(true)
	t.meters.Share(func() metrics.Journal { return metrics.Journal(kept.Status()) })
	warm()
	begin, end := noteBegun(filepath.Join(t.folder, "dogleg.begun"), t.log)
	defer end()
	return kept.Run(ctx, func(led context.Context, db *store.DB) error {
		ctx, stop := whileLeading(led)
		defer stop()
		config := t.config(db)
		config.Feed, config.Ear, config.Hearers, config.Begin = feed{t.shared}, sharedEar{t.shared}, mostHeard, begin
		if t.receives { // then whether it is ready is for the one who receives to say
			config.Health = t.answers
		}
		err := telegram.Serve(ctx, config)
		if errors.Is(err, telegram.ErrDeposed) {
			return cluster.ErrDeposed
		}
		return err
	})
}

// whileLeading is the context of who leads, for the transport: where it ends because
// another leads, its cause is the transport's own word for that. A context takes over
// its parent's cause at once, so it has to be one of its own.
func whileLeading(led context.Context) (ctx context.Context, stop func()) {
	ctx, end := context.WithCancelCause(context.WithoutCancel(led))
	forget := context.AfterFunc(led, func() {
		cause := context.Cause(led)
		if errors.Is(cause, cluster.ErrDeposed) {
			cause = telegram.ErrDeposed
		}
		end(cause)
	})
	return ctx, func() { forget(); end(nil) }
}

// listen hears what those who answer want heard.
func (t *together) listen(ctx context.Context) error {
	defer t.addEar()()
	if t.ear == nil {
		<-ctx.Done() // the log says what to install
		return nil
	}
	hear := func(ctx context.Context, clip io.Reader) ([]byte, error) {
		heard, err := t.ear.Hear(ctx, clip)
		if err != nil {
			return nil, err
		}
		return json.Marshal(heard)
	}
	ears, ctx := errgroup.WithContext(ctx)
	for range hearers() {
		ears.Go(func() error { return t.shared.Listen(ctx, hear) })
	}
	return ears.Wait()
}

// post hands what was received to the machines.
type post struct{ shared *cluster.Cluster }

// Put returns when an update can't be lost any more.
func (p post) Put(ctx context.Context, update, chat int64, raw json.RawMessage) error {
	return p.shared.Put(ctx, update, chat, raw)
}

// feed hands the updates of the machines to the Telegram transport.
type feed struct{ shared *cluster.Cluster }

// Name tells one stream of updates from another that was made in its place.
func (f feed) Name() string { return f.shared.UpdatesID() }

// Next waits for updates behind a place.
func (f feed) Next(ctx context.Context, behind int64, most int) ([]telegram.Fed, error) {
	updates, err := f.shared.Next(ctx, behind, most)
	var fed []telegram.Fed
	for _, u := range updates {
		fed = append(fed, telegram.Fed{At: u.At, Raw: u.Raw})
	}
	return fed, err
}

// sharedEar has others hear.
type sharedEar struct{ shared *cluster.Cluster }

// Hear sends a recording to whoever hears next.
func (e sharedEar) Hear(ctx context.Context, recording io.Reader) (heard telegram.Heard, err error) {
	answer, err := e.shared.Ask(ctx, recording)
	if err != nil {
		return heard, err
	}
	return heard, json.Unmarshal(answer, &heard)
}
