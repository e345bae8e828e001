package serve

import (
	"context"
	"log/slog"
	"net"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"dogleg/bot/telegram"
	"dogleg/store"
)

// TestPulse: there is one as long as a message could be answered, and none while
// somebody hangs on to the place of those who write.
func TestPulse(t *testing.T) {
	db := openStore(t)
	beats := pulse(db)
	if err := beats(t.Context()); err != nil {
		t.Fatal(err)
	}
	hangs, let := make(chan struct{}), make(chan struct{})
	over := make(chan error)
	go func() {
		over <- db.Update(func(*store.Tx) error {
			close(hangs)
			<-let
			return nil
		})
	}()
	<-hangs
	for range 3 { // the tries behind the first find it waiting
		ctx, cancel := context.WithTimeout(t.Context(), 20*time.Millisecond)
		if err := beats(ctx); err == nil {
			t.Error("a pulse while nothing gets written")
		}
		cancel()
	}
	close(let)
	if err := <-over; err != nil {
		t.Fatal(err)
	}
	if err := beats(t.Context()); err != nil {
		t.Errorf("no pulse afterwards: %v", err)
	}
}

func openStore(t *testing.T) *store.DB {
	t.Helper()
	db, err := store.Open(filepath.Join(t.TempDir(), "dogleg.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	return db
}

// TestSystemdIsTold listens where systemd would.
func TestSystemdIsTold(t *testing.T) {
	path := filepath.Join(t.TempDir(), "notify")
	systemd, err := net.ListenUnixgram("unixgram", &net.UnixAddr{Name: path, Net: "unixgram"})
	if err != nil {
		t.Fatal(err)
	}
	defer systemd.Close()
	t.Setenv("NOTIFY_SOCKET", path)
	t.Setenv("WATCHDOG_USEC", "20000")
	health := &telegram.Health{Pulse: pulse(openStore(t))}
	stop := watch(t.Context(), health, slog.New(slog.NewTextHandler(t.Output(), nil)))
	expect(t, systemd, "READY=1")
	expect(t, systemd, "WATCHDOG=1\nSTATUS=receiving no updates")
	health.Receiving.Store(true)
	expect(t, systemd, "WATCHDOG=1\nSTATUS=receiving updates")
	stop()
	expect(t, systemd, "STOPPING=1")
}

// expect reads until systemd is told this.
func expect(t *testing.T, systemd *net.UnixConn, want string) {
	t.Helper()
	_ = systemd.SetReadDeadline(time.Now().Add(patience))
	said := make([]byte, 256)
	for {
		n, err := systemd.Read(said)
		if err != nil {
			t.Fatalf("%q was never said: %v", want, err)
		}
		if strings.HasPrefix(string(said[:n]), want) {
			return
		}
	}
}
