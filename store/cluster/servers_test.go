package cluster

import (
	"bytes"
	"context"
	"fmt"
	"log/slog"
	"net"
	"net/url"
	"os"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/nats-io/nats-server/v2/server"
)

// servers are NATS servers in this process: a single one, or a cluster.
type servers struct {
	t    testing.TB
	each []*node
}

// node is one server, which can be stopped and started again with what it has
// stored.
type node struct {
	options *server.Options
	running *server.Server // nil: stopped
}

// startServers starts so many, which end with the test.
func startServers(t testing.TB, many int, change ...func(*server.Options)) *servers {
	t.Helper()
	s := &servers{t: t}
	routes := freePorts(t, many)
	for i := range many {
		o := &server.Options{
			ServerName: fmt.Sprintf("n%d", i+1), Host: "127.0.0.1", Port: freePorts(t, 1)[0],
			JetStream: true, StoreDir: t.TempDir(), NoSigs: true, NoLog: true,
			JetStreamMaxStore: 1 << 40, JetStreamMaxMemory: 256 << 20,
		}
		if many > 1 {
			o.Cluster = server.ClusterOpts{Name: "juniper", Host: "127.0.0.1", Port: routes[i]}
			o.Routes = routesTo(routes)
		}
		for _, c := range change {
			c(o)
		}
		s.each = append(s.each, &node{options: o})
	}
	t.Cleanup(s.stopAll)
	for _, n := range s.each {
		s.start(n)
	}
	return s
}

func routesTo(ports []int) (routes []*url.URL) {
	for _, port := range ports {
		routes = append(routes, &url.URL{Scheme: "nats-route", Host: fmt.Sprintf("127.0.0.1:%d", port)})
	}
	return routes
}

// freePorts are ports that nobody listens at just now.
func freePorts(t testing.TB, many int) (ports []int) {
	t.Helper()
	for range many {
		l, err := net.Listen("tcp", "127.0.0.1:0")
		if err != nil {
			t.Fatal(err)
		}
		defer l.Close()
		ports = append(ports, l.Addr().(*net.TCPAddr).Port)
	}
	return ports
}

func (s *servers) start(n *node) {
	s.t.Helper()
	running, err := server.NewServer(n.options.Clone())
	if err != nil {
		s.t.Fatal(err)
	}
	running.Start()
	if !running.ReadyForConnections(10 * time.Second) {
		s.t.Fatal("a server isn't ready after 10 seconds")
	}
	n.running = running
}

func (s *servers) stop(n *node) {
	if n.running != nil {
		n.running.Shutdown()
		n.running.WaitForShutdown()
		n.running = nil
	}
}

func (s *servers) stopAll() {
	for _, n := range s.each {
		s.stop(n)
	}
}

// url is the address of them all.
func (s *servers) url() string {
	var all []string
	for _, n := range s.each {
		all = append(all, fmt.Sprintf("nats://127.0.0.1:%d", n.options.Port))
	}
	return strings.Join(all, ",")
}

// shared are the servers of the tests that do them no harm.
var shared = struct {
	sync.Mutex
	single, three *servers
}{}

// eachKind runs a test on a single server and on a cluster of three.
func eachKind(t *testing.T, test func(*testing.T, *servers)) {
	t.Run("one server", func(t *testing.T) { test(t, sharedServers(t, 1)) })
	t.Run("three servers", func(t *testing.T) { test(t, sharedServers(t, 3)) })
}

func sharedServers(t *testing.T, many int) *servers {
	t.Helper()
	shared.Lock()
	defer shared.Unlock()
	which := &shared.single
	if many > 1 {
		which = &shared.three
	}
	if *which == nil {
		*which = startServers(forAll{t}, many)
	}
	return *which
}

// forAll is a test whose servers outlive it: TestMain stops them.
type forAll struct{ testing.TB }

func (forAll) Cleanup(func()) {}

func (forAll) TempDir() string {
	dir, err := os.MkdirTemp(sharedFolder, "")
	if err != nil {
		panic(err)
	}
	return dir
}

var sharedFolder string

func TestMain(m *testing.M) {
	var err error
	if sharedFolder, err = os.MkdirTemp("", "dogleg-cluster-"); err != nil {
		panic(err)
	}
	code := m.Run()
	for _, s := range []*servers{shared.single, shared.three} {
		if s != nil {
			s.stopAll()
		}
	}
	_ = os.RemoveAll(sharedFolder)
	os.Exit(code)
}

// hasty has leases run out soon, for tests in which they do. Where all goes well
// they never should, however busy the machine is.
func hasty(o *Options) { o.Lease = 1200 * time.Millisecond }

// unhurried has leases never run out, for tests of what is done under one: on a busy
// machine one may not be renewed in time, and then it is lost, as it must be.
func unhurried(o *Options) { o.Lease = 10 * time.Minute }

// quick are options for tests.
func quick(t testing.TB) Options {
	log := &testLog{t: t}
	t.Cleanup(log.end)
	return Options{Log: slog.New(slog.NewTextHandler(log, nil)), Lease: 10 * time.Second}
}

// testLog writes to the test's log, as long as the test lasts.
type testLog struct {
	mu    sync.Mutex
	t     testing.TB
	ended bool
}

func (l *testLog) Write(line []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if !l.ended {
		l.t.Log(string(bytes.TrimSpace(line)))
	}
	return len(line), nil
}

func (l *testLog) end() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.ended = true
}

// botOf is a name that no other test has.
func botOf(t testing.TB) string {
	name := regexp.MustCompile(`[^A-Za-z0-9]+`).ReplaceAllString(t.Name(), "-")
	return name[max(0, len(name)-64):]
}

// open opens the cluster of a test's bot.
func open(t testing.TB, s *servers, change ...func(*Options)) *Cluster {
	t.Helper()
	o := quick(t)
	for _, c := range change {
		c(&o)
	}
	c, err := Open(t.Context(), s.url(), botOf(t), o)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(c.Close)
	return c
}

// within is a context that a test should not need to the end.
func within(t testing.TB, d time.Duration) context.Context {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), d)
	t.Cleanup(cancel)
	return ctx
}

// eventually waits until something holds.
func eventually(t testing.TB, what string, holds func() bool) {
	t.Helper()
	for deadline := time.Now().Add(20 * time.Second); !holds(); time.Sleep(10 * time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatalf("never: %s", what)
		}
	}
}
