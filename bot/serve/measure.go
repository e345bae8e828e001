package serve

import (
	"context"
	"errors"
	"io"
	"log/slog"
	"net"
	"net/http"
	"time"

	"dogleg/bot"
	"dogleg/bot/metrics"
	"dogleg/bot/telegram"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// metered is a memory that counts what was answered, once it is on the disk.
type metered struct {
	Memory
	meters *metrics.Meters
}

// Update runs fn in one transaction of the store.
func (m metered) Update(fn func(telegram.Tx) error) error {
	var replies []replied
	var figured time.Time
	watched := *m.Conversation
	watched.Watch = func() func(bot.Reply) {
		began := time.Now()
		return func(r bot.Reply) { replies = append(replies, replied{r.Records, time.Since(began)}) }
	}
	err := Memory{m.DB, &watched}.Update(func(tx telegram.Tx) error {
		replies = nil
		defer func() { figured = time.Now() }()
		return fn(tx)
	})
	if err != nil {
		return err
	}
	m.meters.Committed(time.Since(figured))
	for _, r := range replies {
		r.count(m.meters)
	}
	return nil
}

// replied is what the conversation made of one message, and how long it took.
type replied struct {
	records []wording.Record
	took    time.Duration
}

func (r replied) count(m *metrics.Meters) {
	m.Figured(r.took)
	for _, record := range r.records {
		kind := string(record.Kind)
		if kind == "" {
			kind = metrics.NoAsk
		}
		m.Answer(kind, outcomeOf(record))
		if record.Tape != nil {
			m.Cut(record.Provisional)
		}
	}
}

func outcomeOf(r wording.Record) metrics.Outcome {
	switch {
	case r.Possible != nil && !*r.Possible:
		return metrics.Impossible
	case r.AskBack != "":
		return metrics.AskedBack
	case !r.Understood:
		return metrics.Misunderstood
	}
	return metrics.Answered
}

// timedEar is an ear whose time is noted.
type timedEar struct {
	telegram.Ear
	meters *metrics.Meters
}

// Hear hears a recording.
func (e timedEar) Hear(ctx context.Context, recording io.Reader) (telegram.Heard, error) {
	began := time.Now()
	defer func() { e.meters.Heard(time.Since(began)) }()
	return e.Ear.Hear(ctx, recording)
}

// kinds are those whose counters are there from the start on.
var kinds = []parser.Kind{
	parser.Offset, parser.Fit, parser.Piece, parser.Mark, parser.Parallel, parser.Around,
	parser.Fall, parser.Trim, parser.Sum, parser.Multiplier, parser.Takeoff, parser.Check,
	parser.Corner, parser.Miter, parser.Saddle, parser.Wrap, parser.Riser, parser.Doglegs,
}

// newMeters makes the meters with a line for each kind of ask.
func newMeters(health ...*telegram.Health) *metrics.Meters {
	var names []string
	for _, k := range kinds {
		names = append(names, string(k))
	}
	return metrics.New(names, health...)
}

// publish answers Prometheus, and who asks for the health, at an address of
// this machine, until the returned function is called; nobody, where there is
// no address.
func publish(address string, m *metrics.Meters, health *telegram.Health, log *slog.Logger) (stop func(), err error) {
	if address == "" {
		return func() {}, nil
	}
	listener, err := net.Listen("tcp", address)
	if err != nil {
		return nil, err
	}
	mux := http.NewServeMux()
	mux.Handle("GET /metrics", m.Handler())
	health.Register(mux)
	server := &http.Server{
		Handler:           mux,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       5 * time.Second,
		WriteTimeout:      30 * time.Second,
	}
	go func() {
		if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
			log.Error("metrics are not read any more", "error", err)
		}
	}()
	return func() { _ = server.Close() }, nil
}
