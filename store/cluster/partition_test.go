//go:build cluster

package cluster

import (
	"errors"
	"fmt"
	"io"
	"net"
	"net/url"
	"sync"
	"testing"
	"time"

	"github.com/nats-io/nats-server/v2/server"
)

// wire is a way to a port that can be cut.
type wire struct {
	listener net.Listener
	to       string

	mu    sync.Mutex
	cut   bool
	conns []net.Conn
}

func newWire(t *testing.T, to int) *wire {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	w := &wire{listener: l, to: fmt.Sprintf("127.0.0.1:%d", to)}
	t.Cleanup(func() { l.Close(); w.set(true) })
	go w.serve()
	return w
}

func (w *wire) serve() {
	for {
		in, err := w.listener.Accept()
		if err != nil {
			return
		}
		out, err := net.Dial("tcp", w.to)
		if err != nil || !w.keep(in, out) {
			in.Close()
			continue
		}
		go func() { _, _ = io.Copy(in, out); in.Close(); out.Close() }()
		go func() { _, _ = io.Copy(out, in); in.Close(); out.Close() }()
	}
}

func (w *wire) keep(conns ...net.Conn) bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.cut {
		for _, c := range conns {
			c.Close()
		}
		return false
	}
	w.conns = append(w.conns, conns...)
	return true
}

// set cuts the wire, or mends it.
func (w *wire) set(cut bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.cut = cut
	if cut {
		for _, c := range w.conns {
			c.Close()
		}
		w.conns = nil
	}
}

func (w *wire) port() int { return w.listener.Addr().(*net.TCPAddr).Port }

// wired starts three servers whose routes are wires. What cuts one off the
// others, or mends that, is returned: clients reach it all the time.
func wired(t *testing.T) (s *servers, cutOff func(which int, cut bool)) {
	const many = 3
	ports := freePorts(t, many)
	var between [many][many]*wire // from, to
	// What servers tell each other of leads nowhere: whoever came that way could not
	// be told apart, so that cutting one off would cut the others too.
	nowhere := newWire(t, ports[0])
	nowhere.set(true)
	for to := range many {
		for from := range many {
			between[from][to] = newWire(t, ports[to])
		}
	}
	n := -1
	s = startServers(t, many, func(o *server.Options) {
		n++
		o.Cluster.Port = ports[n]
		o.Cluster.Advertise = fmt.Sprintf("127.0.0.1:%d", nowhere.port())
		o.Routes = nil
		for to := range many {
			if to != n {
				o.Routes = append(o.Routes, &url.URL{Scheme: "nats-route", Host: fmt.Sprintf("127.0.0.1:%d", between[n][to].port())})
			}
		}
	})
	return s, func(which int, cut bool) {
		for other := range many {
			between[which][other].set(cut)
			between[other][which].set(cut)
		}
	}
}

// A server that is cut off the others answers its clients' pings and nothing
// else: they go to another one.
func TestServerThatIsCutOffIsLeft(t *testing.T) {
	s, cutOff := wired(t)
	worker, receiver := startWorker(t, s, hasty), open(t, s)
	db := worker.db()
	mustMark(t, db, 1, 3)
	cutOff(connectedTo(t, s, worker.shared), true)
	wrote := 3
	for deadline := time.Now().Add(60 * time.Second); wrote < 6; {
		if time.Now().After(deadline) {
			t.Fatal("nothing is written after a minute")
		}
		switch err := mark(db, fmt.Sprint(wrote+1)); {
		case err == nil:
			wrote++
		case errors.Is(err, ErrDeposed):
			db = worker.db()
		default:
			t.Logf("waited out: %v", err)
		}
	}
	put(t, receiver, 1, 3)
	for which := range s.each {
		cutOff(which, false)
	}
	mustMark(t, db, 7, 9)
	if missing := lacks(t, db, 1, 9); missing != nil {
		t.Errorf("missing: %v", missing)
	}
	sameAs(t, db, startWorker(t, s).copy)
}

// connectedTo is the server that a connection goes to.
func connectedTo(t *testing.T, s *servers, c *Cluster) int {
	t.Helper()
	for i, n := range s.each {
		if n.options.ServerName == c.conn.ConnectedServerName() {
			return i
		}
	}
	t.Fatal("connected to no server")
	return 0
}
