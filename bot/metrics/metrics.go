// Package metrics counts what the bot does and how long it takes, in the form
// that Prometheus reads.
//
// Everything here is a number about all people together. No label has a chat, a
// name or a word that anybody wrote; the labels have few values, all of them
// known beforehand, and each is there from the start with 0, so that a rate is
// right from the first event on.
//
// README.md says what each is good for, and deploy/grafana.json shows them.
package metrics

import (
	"net/http"
	"sync/atomic"
	"time"

	"dogleg/bot/telegram"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promhttp"
)

// Outcome is what came of one thing that was said.
type Outcome string

// What may come of it.
const (
	Answered      Outcome = "answered"      // with a figure, or a command was carried out
	AskedBack     Outcome = "asked_back"    // one more fact is needed
	Impossible    Outcome = "impossible"    // understood, but can't be built
	Misunderstood Outcome = "misunderstood" // not understood
)

var outcomes = []Outcome{Answered, AskedBack, Impossible, Misunderstood}

// NoAsk is the kind of what is no ask: a command, or what was not understood.
const NoAsk = "none"

// Meters are the counters of one process. They are safe for use by several
// goroutines.
type Meters struct {
	registry   *prometheus.Registry
	answers    *prometheus.CounterVec
	cuts       *prometheus.CounterVec
	figuring   prometheus.Histogram
	committing prometheus.Histogram
	hearing    prometheus.Histogram
	delivering prometheus.Histogram
}

// New makes the meters, with a line for each of these kinds of ask, and reads
// the bot's own counts from its health. Where parts of the bot have a health each,
// their counts are added up, and whether updates are received is for the first to
// say.
func New(kinds []string, health ...*telegram.Health) *Meters {
	m := &Meters{
		registry: prometheus.NewRegistry(),
		answers: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "dogleg_answers_total", Help: "Things said, by the kind of ask and what came of it.",
		}, []string{"kind", "outcome"}),
		cuts: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "dogleg_cuts_total", Help: "Cuts given: sure, or provisional since nobody has checked the takeoff.",
		}, []string{"evidence"}),
		figuring:   seconds("dogleg_figuring_seconds", "From a message to its answer, in the conversation alone.", 0.0001, 14),
		committing: seconds("dogleg_commit_seconds", "The wait for the disk at the end of a transaction.", 0.0005, 14),
		hearing:    seconds("dogleg_hearing_seconds", "Hearing one recording, from its first byte to its words.", 0.05, 12),
		delivering: seconds("dogleg_delivery_seconds", "From an answer to when Telegram has taken it, the wait in the queue included.", 0.01, 16),
	}
	for _, kind := range append(kinds, NoAsk) {
		for _, outcome := range outcomes {
			m.answers.WithLabelValues(kind, string(outcome))
		}
	}
	m.cuts.WithLabelValues("sure")
	m.cuts.WithLabelValues("provisional")
	m.registry.MustRegister(m.answers, m.cuts, m.figuring, m.committing, m.hearing, m.delivering,
		collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	m.watch(health)
	return m
}

// seconds is a histogram whose buckets double from the first on.
func seconds(name, help string, first float64, buckets int) prometheus.Histogram {
	return prometheus.NewHistogram(prometheus.HistogramOpts{
		Name: name, Help: help, Buckets: prometheus.ExponentialBuckets(first, 2, buckets),
	})
}

// counted finds one of the transport's counts.
type counted func(*telegram.Health) *atomic.Int64

// watch reads the transport's counts when Prometheus does.
func (m *Meters) watch(all []*telegram.Health) {
	sum := func(of counted) func() float64 {
		return func() (n float64) {
			for _, h := range all {
				n += float64(of(h).Load())
			}
			return n
		}
	}
	for result, of := range map[string]counted{
		"handled":     func(h *telegram.Health) *atomic.Int64 { return &h.Updates },
		"repeated":    func(h *telegram.Health) *atomic.Int64 { return &h.Repeated },
		"quarantined": func(h *telegram.Health) *atomic.Int64 { return &h.Quarantined },
		"relayed":     func(h *telegram.Health) *atomic.Int64 { return &h.Relayed },
	} {
		m.count("dogleg_updates_total", "Updates that came, by what was done with them; one in quarantine was handled too, one relayed is handled elsewhere.", sum(of), "result", result)
	}
	for result, of := range map[string]counted{
		"sent":     func(h *telegram.Health) *atomic.Int64 { return &h.Sent },
		"retried":  func(h *telegram.Health) *atomic.Int64 { return &h.Retried },
		"too_many": func(h *telegram.Health) *atomic.Int64 { return &h.TooMany },
		"dropped":  func(h *telegram.Health) *atomic.Int64 { return &h.Dropped },
	} {
		m.count("dogleg_sends_total", "Tries to send a message, by how they went.", sum(of), "result", result)
	}
	m.count("dogleg_polls_total", "Polls that succeeded.", sum(func(h *telegram.Health) *atomic.Int64 { return &h.Polls }))
	m.count("dogleg_commits_total", "Transactions of updates that are on the disk.", sum(func(h *telegram.Health) *atomic.Int64 { return &h.Commits }))
	m.count("dogleg_rivals_total", "Polls ended because another process polls with this token.", sum(func(h *telegram.Health) *atomic.Int64 { return &h.Rivals }))
	m.count("dogleg_strangers_total", "Calls of the webhook without its secret.", sum(func(h *telegram.Health) *atomic.Int64 { return &h.Strangers }))
	m.gauge("dogleg_unsent_messages", "Messages in the outbox now.", sum(func(h *telegram.Health) *atomic.Int64 { return &h.Unsent }))
	m.gauge("dogleg_unheard_recordings", "Recordings that wait to be heard now.", sum(func(h *telegram.Health) *atomic.Int64 { return &h.Unheard }))
	m.gauge("dogleg_receiving", "1 while updates are received, else 0.", func() float64 { return yes(all[0].Receiving.Load()) })
}

func yes(is bool) float64 {
	if is {
		return 1
	}
	return 0
}

func (m *Meters) count(name, help string, read func() float64, label ...string) {
	labels := prometheus.Labels{}
	if len(label) == 2 {
		labels[label[0]] = label[1]
	}
	m.registry.MustRegister(prometheus.NewCounterFunc(
		prometheus.CounterOpts{Name: name, Help: help, ConstLabels: labels}, read,
	))
}

func (m *Meters) gauge(name, help string, read func() float64) {
	m.registry.MustRegister(prometheus.NewGaugeFunc(prometheus.GaugeOpts{Name: name, Help: help}, read))
}

// Journal is what a process counts of the database that it shares with others.
type Journal struct {
	Leading   bool          // it is the one that answers
	Position  uint64        // place in the journal that its copy stands at
	Written   uint64        // messages that it wrote there
	Waited    time.Duration // until they were acknowledged, all in all
	Snapshots uint64        // of the database, that it made
}

// Share adds the counts of a journal.
func (m *Meters) Share(read func() Journal) {
	m.gauge("dogleg_leading", "1 while this process is the one that answers, else 0.", func() float64 { return yes(read().Leading) })
	m.gauge("dogleg_journal_position", "Place in the journal that this process's copy stands at.", func() float64 { return float64(read().Position) })
	m.count("dogleg_journal_written_total", "Messages written into the journal.", func() float64 { return float64(read().Written) })
	m.count("dogleg_journal_wait_seconds_total", "Waiting for NATS to acknowledge them.", func() float64 { return read().Waited.Seconds() })
	m.count("dogleg_snapshots_total", "Snapshots of the database that were stored.", func() float64 { return float64(read().Snapshots) })
}

// Answer counts one thing that was said, of this kind, or [NoAsk].
func (m *Meters) Answer(kind string, outcome Outcome) {
	m.answers.WithLabelValues(kind, string(outcome)).Inc()
}

// Cut counts a cut that was given.
func (m *Meters) Cut(provisional bool) {
	evidence := "sure"
	if provisional {
		evidence = "provisional"
	}
	m.cuts.WithLabelValues(evidence).Inc()
}

// Figured notes how long the conversation took for one message.
func (m *Meters) Figured(d time.Duration) { m.figuring.Observe(d.Seconds()) }

// Committed notes how long the disk took for one transaction.
func (m *Meters) Committed(d time.Duration) { m.committing.Observe(d.Seconds()) }

// Heard notes how long hearing one recording took.
func (m *Meters) Heard(d time.Duration) { m.hearing.Observe(d.Seconds()) }

// Delivered notes how long an answer was under way.
func (m *Meters) Delivered(d time.Duration) { m.delivering.Observe(d.Seconds()) }

// Handler answers Prometheus.
func (m *Meters) Handler() http.Handler {
	return promhttp.HandlerFor(m.registry, promhttp.HandlerOpts{})
}
