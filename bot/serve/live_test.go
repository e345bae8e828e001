package serve

import (
	"bytes"
	"context"
	"io"
	"log/slog"
	"net"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"dogleg/bot/telegram/loopback"
	"dogleg/store"
)

// larger is more than a socket takes without a reader.
func larger(t *testing.T, path string) {
	t.Helper()
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	err = db.Update(func(tx *store.Tx) error {
		for range 100 {
			tx.Person(store.ChatOf("terminal", "").Person("ada")).AddJob(store.Job{Reply: strings.Repeat("seventeen light ", 10_000)})
		}
		return nil
	})
	if err == nil {
		err = db.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
}

// Whoever asks for a backup and then reads nothing of it doesn't keep dogleg from
// ending.
func TestBackupReaderStandsStillAtTheEnd(t *testing.T) {
	server := loopback.New()
	defer server.Close()
	path := filepath.Join(t.TempDir(), "juniper.db")
	larger(t, path)
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error)
	env := environment("DOGLEG_TOKEN", loopback.Token, "DOGLEG_API_ENDPOINT", server.Base())
	go func() {
		ended <- Run(ctx, Database{path, env}, &bytes.Buffer{})
	}()
	if !server.Await(patience, func() bool { return len(server.Calls("getMe")) > 0 }) {
		t.Fatal("it doesn't serve")
	}
	reader, err := net.Dial("unix", socketOf(path))
	if err != nil {
		t.Fatal(err)
	}
	defer reader.Close()
	if _, err := io.ReadFull(reader, make([]byte, len(ready)+4096)); err != nil {
		t.Fatal(err)
	}
	stop()
	select {
	case err := <-ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(readerStands - time.Second):
		t.Fatal("it doesn't end")
	}
}

// Nor does it keep the file from being written anew.
func TestBackupReaderStandsStill(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	larger(t, path)
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	reader, writer := net.Pipe()
	defer reader.Close()
	over := make(chan struct{})
	go func() {
		defer close(over)
		handOut(t.Context(), db, writer, 50*time.Millisecond, slog.New(slog.DiscardHandler))
	}()
	if _, err := io.ReadFull(reader, make([]byte, len(ready)+4096)); err != nil {
		t.Fatal(err)
	}
	if err := db.Compact(t.Context()); err != nil {
		t.Error(err)
	}
	<-over
	if err := db.Close(); err != nil {
		t.Error(err)
	}
}
