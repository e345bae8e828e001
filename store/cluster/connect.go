package cluster

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"
)

// oldest is the oldest server that has all that is used: streams that carry
// what we write about them.
var oldest = [2]int{2, 10}

// How a connection is kept. A server that is gone without a word is noticed
// after two pings.
const (
	dialFor     = 2 * time.Second
	redialAfter = 250 * time.Millisecond
	pingEvery   = 2 * time.Second
	pingsUnheld = 2
	writeFor    = 3 * time.Second // to a server that takes nothing more, while all others wait
)

// connect connects to one of the servers, and tries again while none answers.
func (c *Cluster) connect(ctx context.Context, a addresses) error {
	options, err := c.dialOptions()
	if err != nil {
		return err
	}
	var waited pauses
	for {
		conn, err := nats.Connect(strings.Join(a.urls, ","), options...)
		if err == nil {
			c.conn = conn
			break
		}
		if refused(err) {
			return fmt.Errorf("%w: %s: %w; give a user that may enter, in the address or as credentials",
				ErrRefused, a.shown, err)
		}
		if waited.pause(ctx) != nil {
			return fmt.Errorf("%w at %s: %w; start it there, or give the address where it is",
				ErrUnreachable, a.shown, err)
		}
	}
	if err := c.checkServer(); err != nil {
		c.conn.Close()
		return err
	}
	c.js, err = jetstream.New(c.conn, jetstream.WithDefaultTimeout(attempt))
	return err
}

// refused says whether a server let nobody in, which waiting doesn't change.
func refused(err error) bool {
	return errors.Is(err, nats.ErrAuthorization) || errors.Is(err, nats.ErrAuthExpired) ||
		errors.Is(err, nats.ErrAuthRevoked) || errors.Is(err, nats.ErrAccountAuthExpired) ||
		errors.Is(err, nats.ErrNkeysNotSupported)
}

// dialOptions: the connection comes back for ever and by itself, and keeps
// nothing to send later: what a request has given up on must not arrive then.
func (c *Cluster) dialOptions() ([]nats.Option, error) {
	options := []nats.Option{
		nats.Name("dogleg " + c.bot),
		nats.Timeout(dialFor),
		nats.MaxReconnects(-1),
		nats.ReconnectWait(redialAfter),
		nats.ReconnectBufSize(-1),
		nats.PingInterval(pingEvery),
		nats.MaxPingsOutstanding(pingsUnheld),
		nats.FlusherTimeout(writeFor),
		nats.IgnoreAuthErrorAbort(), // a user that is changed there comes in again later
		nats.ErrorHandler(c.heard),
		nats.DisconnectErrHandler(func(_ *nats.Conn, err error) { c.log.Warn("NATS is disconnected", "error", err) }),
		nats.ReconnectHandler(func(conn *nats.Conn) { c.log.Info("NATS is connected again", "server", conn.ConnectedServerName()) }),
	}
	if c.options.Credentials != "" {
		if err := readable(c.options.Credentials); err != nil {
			return nil, err
		}
		options = append(options, nats.UserCredentials(c.options.Credentials))
	}
	if c.options.Authority != "" {
		if err := readable(c.options.Authority); err != nil {
			return nil, err
		}
		options = append(options, nats.RootCAs(c.options.Authority))
	}
	return options, nil
}

// heard is told what goes wrong beside any request.
func (c *Cluster) heard(_ *nats.Conn, _ *nats.Subscription, err error) {
	if errors.Is(err, nats.ErrPermissionViolation) {
		c.denied.note(err)
	}
	c.log.Warn("NATS reports", "error", err)
}

// checkServer looks whether the server that is connected has what is needed.
func (c *Cluster) checkServer() error {
	version := c.conn.ConnectedServerVersion()
	if older(version) {
		return fmt.Errorf("%w: %s runs nats-server %s; it takes %d.%d or newer",
			ErrUnfit, c.shown, version, oldest[0], oldest[1])
	}
	if most := c.conn.MaxPayload(); most < smallestPayload {
		return fmt.Errorf("%w: %s takes messages of %d bytes; set its max_payload to 1MB, or at least %d",
			ErrUnfit, c.shown, most, smallestPayload)
	}
	return nil
}

// smallestPayload lets through any update of Telegram's and the pieces of all
// else.
const smallestPayload = 256 << 10

// older says whether a server's version is older than the oldest that will do.
// One that can't be read is somebody's own build.
func older(version string) bool {
	fields := strings.SplitN(version, ".", 3)
	if len(fields) < 2 {
		return false
	}
	major, err1 := strconv.Atoi(fields[0])
	minor, err2 := strconv.Atoi(fields[1])
	if err1 != nil || err2 != nil {
		return false
	}
	return major < oldest[0] || major == oldest[0] && minor < oldest[1]
}

// denials keeps the last word of a server on what this user may not do: the
// request itself only gets no answer.
type denials struct {
	mu   sync.Mutex
	last error
}

func (d *denials) note(err error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.last = err
}

func (d *denials) latest() error {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.last
}

// readable says why a file can't be read.
func readable(path string) error {
	file, err := os.Open(path)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrRefused, err)
	}
	return file.Close()
}
