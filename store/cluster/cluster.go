package cluster

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"strings"
	"sync"
	"time"

	"github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"
)

// What may be wrong; the errors that are returned are these by errors.Is, and
// say what was tried and what would work. No password and no token is ever in
// them.
var (
	// ErrAddress: the address isn't one of NATS servers, or the name of the bot
	// can't be one here.
	ErrAddress = errors.New("not an address of NATS servers")

	// ErrUnreachable: no server answers.
	ErrUnreachable = errors.New("no NATS server answers")

	// ErrRefused: the servers don't let this user in, or don't let it do what
	// has to be done.
	ErrRefused = errors.New("refused by the NATS servers")

	// ErrUnfit: the servers answer, but JetStream isn't on, or they are too old,
	// too few or too small.
	ErrUnfit = errors.New("these NATS servers won't do")

	// ErrForeign: a stream of this name is there and isn't dogleg's, or a newer
	// dogleg's.
	ErrForeign = errors.New("the stream is somebody else's")

	// ErrReplaced: a stream was taken away, or made anew, while this process had
	// its place in the old one. The process has to begin again.
	ErrReplaced = errors.New("the stream was taken away or made anew")

	// ErrFull: the stream of updates is full; nothing reads it.
	ErrFull = errors.New("the stream of updates is full")

	// ErrDeposed: somebody else leads, or may do so. It is the cause of the
	// context's end of who led.
	ErrDeposed = errors.New("another one leads now")
)

// DefaultLease is how long a lease lasts that isn't renewed, and so about how
// long a bot stands still whose leader's machine dies.
const DefaultLease = 6 * time.Second

// Options is what needs not be told.
type Options struct {
	// Log gets what an operator should know. None is a silent one.
	Log *slog.Logger

	// Credentials is the path of a credentials file, as NATS has them, where
	// the address has no user.
	Credentials string

	// Authority is the path of a file with the certificates that the servers'
	// are signed with, where they aren't the system's.
	Authority string

	// Replicas is on how many servers everything is kept: 1, 3 or 5. 0 is 3
	// where the servers are a cluster, and 1 where there is a single one.
	Replicas int

	// Lease is for how long a lease lasts that isn't renewed; 0 is DefaultLease.
	// It matters only to who makes the streams.
	Lease time.Duration

	// Patience is how long Open waits for servers that don't answer yet; 0 is
	// 20 seconds.
	Patience time.Duration
}

// filled is the options with what stands for the zeros.
func (o Options) filled() Options {
	if o.Log == nil {
		o.Log = slog.New(slog.DiscardHandler)
	}
	if o.Lease == 0 {
		o.Lease = DefaultLease
	}
	if o.Patience == 0 {
		o.Patience = 20 * time.Second
	}
	return o
}

// Cluster is what NATS keeps of one bot. It is safe for use by several
// goroutines.
type Cluster struct {
	bot     string
	shown   string // the addresses, without users
	options Options
	log     *slog.Logger

	conn    *nats.Conn
	js      jetstream.JetStream
	doubts  doubts
	unseen  unseen
	unwatch context.CancelFunc
	denied  denials

	ids              map[string]string // of the streams, by their names
	updates, journal jetstream.Stream
	leases           jetstream.KeyValue
	leaseTime        time.Duration
	snapshots, clips jetstream.ObjectStore
	hearing          jetstream.Consumer

	reading sync.Mutex // held by Next
	next    reader
	swept   uint64
}

// named says whether a bot can be called so: it is a part of subjects and of
// names of streams.
func named(bot string) bool {
	other := func(r rune) bool {
		return r != '_' && r != '-' && (r < '0' || r > '9') && (r < 'A' || r > 'Z') && (r < 'a' || r > 'z')
	}
	return bot != "" && len(bot) <= longestName && !strings.ContainsFunc(bot, other)
}

const longestName = 64

// Open connects to the servers at url, such as nats://a:4222,b:4222,c:4222,
// with a user and password or a token in it as NATS has it
// (nats://user:password@a:4222), and makes or checks what is kept there for a
// bot: its name is letters, digits, - and _. It waits for servers that aren't
// up yet, as long as Options.Patience says.
func Open(ctx context.Context, url, bot string, o Options) (*Cluster, error) {
	if !named(bot) {
		return nil, fmt.Errorf("%w: the bot's name %q must be of letters, digits, - and _", ErrAddress, bot)
	}
	addresses, err := parseAddresses(url)
	if err != nil {
		return nil, err
	}
	o = o.filled()
	c := &Cluster{bot: bot, shown: addresses.shown, options: o, log: o.Log, ids: map[string]string{}}
	ctx, cancel := context.WithTimeout(ctx, o.Patience)
	defer cancel()
	if err := c.connect(ctx, addresses); err != nil {
		return nil, err
	}
	if err := c.prepare(ctx); err != nil {
		c.Close()
		return nil, err
	}
	c.next = reader{c: c, stream: c.name("updates")}
	c.watch()
	return c, nil
}

// Close ends the connection. Whoever waits gets an error.
func (c *Cluster) Close() {
	if c.unwatch != nil {
		c.unwatch()
	}
	c.conn.Close()
}

// watchEvery is how often somebody asks whether anybody answers.
const watchEvery = time.Second

// watch asks something cheap now and then, so that a server that doesn't answer
// any more is left also by who only waits.
func (c *Cluster) watch() {
	ctx, stop := context.WithCancel(context.Background())
	c.unwatch = stop
	go func() {
		for sleep(ctx, watchEvery) == nil {
			_ = c.once(ctx, reads, func(ctx context.Context) error {
				_, err := c.same(ctx, c.name("journal"))
				return err
			})
		}
	}()
}

// Connected says whether a server is connected at the moment.
func (c *Cluster) Connected() bool { return c.conn.IsConnected() }

// name is that of one of the bot's streams and buckets.
func (c *Cluster) name(what string) string { return "dogleg_" + c.bot + "_" + what }

// subject is where messages of one of the bot's streams go.
func (c *Cluster) subject(what string) string { return "dogleg." + c.bot + "." + what }
