package serve

import (
	"bytes"
	"context"
	"errors"
	"log/slog"
	"net"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
	"dogleg/store/cluster"

	"github.com/nats-io/nats-server/v2/server"
)

// patience is how long a test waits for what must come; only a failing one waits that
// long.
const patience = 60 * time.Second

// environment is a lookup in a list of names and values.
func environment(pairs ...string) func(string) string {
	values := map[string]string{}
	for i := 0; i < len(pairs); i += 2 {
		values[pairs[i]] = pairs[i+1]
	}
	return func(name string) string { return values[name] }
}

// natsAt starts one server of NATS in this process.
func natsAt(t *testing.T, port int) (address string) {
	t.Helper()
	s, err := server.NewServer(&server.Options{
		Host: "127.0.0.1", Port: port, JetStream: true, StoreDir: t.TempDir(), NoSigs: true, NoLog: true,
	})
	if err != nil {
		t.Fatal(err)
	}
	s.Start()
	t.Cleanup(func() { s.Shutdown(); s.WaitForShutdown() })
	if !s.ReadyForConnections(patience) {
		t.Fatal("the server of NATS doesn't start")
	}
	return s.ClientURL()
}

// TestServeWaitsForItsServers: servers that come later than anybody's patience are
// served with all the same; a setting that waiting doesn't mend ends it.
func TestServeWaitsForItsServers(t *testing.T) {
	address, port := freePort(t)
	var log lockedBuffer
	late := &together{
		service: &service{log: slog.New(slog.NewTextHandler(&log, nil))}, patience: 500 * time.Millisecond,
		env: environment("DOGLEG_TOKEN", loopback.Token, "DOGLEG_STORE", address),
	}
	joined := make(chan error)
	go func() { joined <- late.join(t.Context()) }()
	for deadline := time.Now().Add(patience); !bytes.Contains(log.tail(10_000), []byte("waiting for the servers")); {
		if time.Now().After(deadline) {
			t.Fatalf("nothing says that servers are waited for:\n%s", log.tail(10_000))
		}
		time.Sleep(time.Millisecond)
	}
	if late.standsBy(t.Context()) == nil {
		t.Error("ready without servers")
	}
	natsAt(t, port)
	if err := <-joined; err != nil {
		t.Fatal(err)
	}
	defer late.shared.Close()
	if err := late.standsBy(t.Context()); err != nil {
		t.Error(err)
	}

	wrong := &together{service: late.service, env: environment("DOGLEG_TOKEN", loopback.Token, "DOGLEG_STORE", "gopher://"+address)}
	if err := wrong.join(t.Context()); !errors.Is(err, cluster.ErrAddress) {
		t.Errorf("an address that is none: %v", err)
	}
}

// freePort is a port of this machine that nobody listens on.
func freePort(t *testing.T) (address string, port int) {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	return listener.Addr().String(), listener.Addr().(*net.TCPAddr).Port
}

func TestRoles(t *testing.T) {
	for setting, want := range map[string][]role{
		"":                   {receiving, answering, listening},
		"work":               {answering},
		" hear , work,work ": {listening, answering},
	} {
		got, err := rolesOf(setting)
		if err != nil || !slices.Equal(got, want) {
			t.Errorf("rolesOf(%q) = %v, %v; want %v", setting, got, err, want)
		}
	}
	for _, setting := range []string{"works", "work;hear", "work,"} {
		if roles, err := rolesOf(setting); err == nil {
			t.Errorf("rolesOf(%q) = %v, want an error", setting, roles)
		}
	}
}

// TestServerConfiguration: the servers' own program takes deploy/nats.conf.
func TestServerConfiguration(t *testing.T) {
	path := filepath.Join(root, "deploy", "nats.conf")
	if _, err := os.Stat(path); err != nil {
		t.Fatal(err)
	}
	options, err := server.ProcessConfigFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !options.JetStream || !options.SyncAlways || len(options.Routes) != 3 || options.Username == "" {
		t.Errorf("JetStream %v, every write synced %v, %d routes, user %q", options.JetStream, options.SyncAlways, len(options.Routes), options.Username)
	}
}

// Who is deposed is told so in the transport's own word, or it would go on to send
// what is in hand while another sends the same; who is ended is not.
func TestTransportIsToldThatAnotherLeads(t *testing.T) {
	for _, c := range []struct{ cause, want error }{
		{cluster.ErrDeposed, telegram.ErrDeposed}, {nil, context.Canceled},
	} {
		led, end := context.WithCancelCause(t.Context())
		ctx, stop := whileLeading(led)
		end(c.cause)
		<-ctx.Done()
		if got := context.Cause(ctx); !errors.Is(got, c.want) {
			t.Errorf("of %v the transport is told %v", c.cause, got)
		}
		stop()
	}
}

// root is the top of the repository, seen from this package's folder.
var root = filepath.Join("..", "..")

// lockedBuffer is written by several processes.
type lockedBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *lockedBuffer) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *lockedBuffer) tail(most int) []byte {
	l.mu.Lock()
	defer l.mu.Unlock()
	b := l.b.Bytes()
	return b[max(0, len(b)-most):]
}
