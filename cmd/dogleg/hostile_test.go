package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"dogleg/bot/telegram/loopback"
	"dogleg/store"
)

// TestServeSurvivesWhatIsSent sends the real bot what nobody means well by, each
// from somebody else, in between good questions: each good one is answered, each
// other at most once, nothing panics, and the database is whole.
func TestServeSurvivesWhatIsSent(t *testing.T) {
	server := loopback.New()
	defer server.Close()
	path := filepath.Join(t.TempDir(), "dogleg.db")
	var stderr bytes.Buffer
	ctx, stop := context.WithCancel(t.Context())
	status := make(chan int)
	go func() {
		status <- Run(ctx, []string{"serve", "--db", path}, strings.NewReader(""), &bytes.Buffer{}, &stderr, environment(
			"DOGLEG_TOKEN", loopback.Token, "DOGLEG_API_ENDPOINT", server.Base(),
		))
	}()
	file := func(kind, name string, size int) map[string]any {
		server.Keep(name, make([]byte, min(size, 20<<20)))
		return map[string]any{kind: map[string]any{"file_id": name, "duration": 3, "file_size": size, "mime_type": "audio/ogg"}}
	}
	sent := []map[string]any{
		{"text": strings.Repeat("(", 4096)},
		{"text": "set " + strings.Repeat("9", 4090)},
		{"text": "12 set\x0045s\x00 2 pvc"},
		{"text": "\u202e\u200f12 set 45s 2 pvc"},
		{"text": "set 1e308 45s 2 pvc"},
		{"text": "set 1/0 45s 2 pvc"},
		{"text": "set -0 45s 2 pvc"},
		{"text": strings.Repeat("set 9 45s 2 pvc\n", 256)},
		{"text": "x", "entities": []any{map[string]any{"type": "mention", "offset": -1, "length": 1 << 40}}},
		{"caption": strings.Repeat("[", 1024), "photo": []any{}},
		file("voice", "nothing", 0), file("voice", "much", 20<<20), file("audio", "a lie", 1000),
		file("document", "table", 20<<20), file("document", "empty", 0),
		{"location": map[string]any{"latitude": 1e308}},
		{"dice": nil},
		{},
	}
	for n, fields := range sent {
		server.Post(int64(1000+n), fields)
		server.PushRaw(`"message":{"message_id":"x"}`)
		server.Say(int64(2000+n), "set 15 45s 2 in pvc")
	}
	all := server.Await(patience, func() bool {
		said := replies(server)
		for n := range sent {
			if len(said[fmt.Sprint(2000+n)]) == 0 {
				return false
			}
		}
		return len(server.Unconfirmed()) == 0
	})
	stop()
	if got := <-status; got != 0 || !all {
		t.Fatalf("exit status %d, all answered: %v\n%.3000s", got, all, &stderr)
	}
	for n, fields := range sent {
		if got := replies(server)[fmt.Sprint(1000+n)]; len(got) > 1 && fields["text"] != sent[7]["text"] {
			t.Errorf("%.60v got %d replies", fields, len(got))
		}
	}
	if log := stderr.String(); strings.Contains(log, "panic") || strings.Contains(log, loopback.Token) {
		t.Errorf("the log:\n%.3000s", log)
	}
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(db.Check(), db.Close()); err != nil {
		t.Error(err)
	}
}
