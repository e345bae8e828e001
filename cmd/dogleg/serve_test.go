package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"dogleg/bot/serve"
	"dogleg/bot/telegram/loopback"
	"dogleg/store"
)

// patience is how long a test waits for what must come; only a failing one
// waits so long.
const patience = 60 * time.Second

// environment is a lookup in a list of names and values.
func environment(pairs ...string) func(string) string {
	values := map[string]string{}
	for i := 0; i < len(pairs); i += 2 {
		values[pairs[i]] = pairs[i+1]
	}
	return func(name string) string { return values[name] }
}

func TestServeAnswersAndEndsInOrder(t *testing.T) {
	server := loopback.New()
	defer server.Close()
	ctx, stop := context.WithCancel(t.Context())
	var stderr bytes.Buffer
	status := make(chan int)
	go func() {
		status <- Run(ctx, []string{"serve"}, strings.NewReader(""), &bytes.Buffer{}, &stderr, environment(
			"DOGLEG_TOKEN", loopback.Token,
			"DOGLEG_API_ENDPOINT", server.Base(),
			"XDG_DATA_HOME", t.TempDir(),
		))
	}()

	server.Say(501, "set 15 45s")
	answered := server.Await(patience, func() bool { return len(replies(server)["501"]) == 1 })
	stop()
	if got := <-status; got != 0 {
		t.Errorf("exit status %d, want 0", got)
	}
	if !answered {
		t.Fatalf("no reply; the log:\n%s", &stderr)
	}
	// 15 in of set with 45s is 15 × √2 = 21.213 in of travel: 21-3/16 on a tape.
	if text := replies(server)["501"][0]; !strings.Contains(text, "21-3/16") {
		t.Errorf("the reply lacks the travel of 21-3/16:\n%s", text)
	}
	if strings.Contains(stderr.String(), loopback.Token) {
		t.Error("the token is in the log")
	}
}

// What Telegram takes a fee for is asked for only where the rate that was set
// needs it.
func TestServePaysOnlyForAHigherRate(t *testing.T) {
	for rate, want := range map[string]string{"": "", "30": "", "31": "true"} {
		server := loopback.New()
		defer server.Close()
		ctx, stop := context.WithCancel(t.Context())
		status := make(chan int)
		go func() {
			status <- Run(ctx, []string{"serve"}, strings.NewReader(""), &bytes.Buffer{}, &bytes.Buffer{}, environment(
				"DOGLEG_TOKEN", loopback.Token, "DOGLEG_API_ENDPOINT", server.Base(),
				"DOGLEG_RATE", rate, "XDG_DATA_HOME", t.TempDir(),
			))
		}()
		server.Say(501, "set 15 45s")
		sent := server.Await(patience, func() bool { return len(server.Calls("sendMessage")) == 1 })
		stop()
		if got := <-status; got != 0 || !sent {
			t.Fatalf("rate %q: exit status %d, sent: %v", rate, got, sent)
		}
		if got := server.Calls("sendMessage")[0].Params["allow_paid_broadcast"]; got != want {
			t.Errorf("rate %q: allow_paid_broadcast is %q, want %q", rate, got, want)
		}
	}
}

func TestServeEndsWhereTheTokenIsNotKnown(t *testing.T) {
	server := loopback.New()
	defer server.Close()
	var stderr bytes.Buffer
	unknown := "999:" + strings.Repeat("x", 35)
	status := Run(t.Context(), []string{"serve"}, strings.NewReader(""), &bytes.Buffer{}, &stderr, environment(
		"DOGLEG_TOKEN", unknown,
		"DOGLEG_API_ENDPOINT", server.Base(),
		"XDG_DATA_HOME", t.TempDir(),
	))
	if status != trouble {
		t.Errorf("exit status %d, want %d", status, trouble)
	}
	if !strings.Contains(stderr.String(), "token is not known") || strings.Contains(stderr.String(), unknown) {
		t.Errorf("the error is to name the trouble and not the token:\n%s", &stderr)
	}
}

// replies are the texts that the server took, by chat.
func replies(server *loopback.Server) map[string][]string {
	texts := map[string][]string{}
	for _, call := range server.Calls("sendMessage") {
		if chat := call.Params["chat_id"]; call.Status == 200 {
			texts[chat] = append(texts[chat], call.Params["text"])
		}
	}
	return texts
}

func ExampleRun() {
	status := Run(context.Background(), []string{"ask", "16-15/16 - 3"},
		strings.NewReader(""), os.Stdout, os.Stderr, environment())
	fmt.Println("exit status", status)
	// Output:
	// 13-15/16 in
	// 16-15/16 - 3
	// Code, inspector and license decide.
	// exit status 0
}

// Who asks for their data gets it as a file; in a group, where others read
// along, nobody does. Who asks to be forgotten is.
func TestServeHandsOverAndForgets(t *testing.T) {
	server := loopback.New()
	defer server.Close()
	path := filepath.Join(t.TempDir(), "dogleg.db")
	ctx, stop := context.WithCancel(t.Context())
	status := make(chan int)
	go func() {
		status <- Run(ctx, []string{"serve", "--db", path}, strings.NewReader(""), &bytes.Buffer{}, &bytes.Buffer{}, environment(
			"DOGLEG_TOKEN", loopback.Token, "DOGLEG_API_ENDPOINT", server.Base(),
		))
	}()
	say := func(chat int64, text string) {
		t.Helper()
		sent := func() int { return len(server.Calls("sendMessage")) + len(server.Calls("sendDocument")) }
		before := sent()
		server.Post(chat, map[string]any{"text": text, "reply_to_message": map[string]any{
			"message_id": 1, "from": map[string]any{"id": int64(loopback.BotID), "is_bot": true},
		}})
		if !server.Await(patience, func() bool { return sent() > before }) {
			t.Fatalf("no reply to %q", text)
		}
	}
	say(70911342, "set 15 45s 2 in pvc")
	say(-12, "set 18 45s 2 in pvc")
	say(-12, "export my data")
	say(70911342, "export my data")
	if !server.Await(patience, func() bool { return len(server.Calls("sendDocument")) == 1 }) {
		t.Fatalf("%d files", len(server.Calls("sendDocument")))
	}
	var data struct{ Jobs []store.Job }
	call := server.Calls("sendDocument")[0]
	if err := json.Unmarshal(call.Files["document"], &data); err != nil || call.Params["chat_id"] != "70911342" {
		t.Errorf("to %s: %v", call.Params["chat_id"], err)
	}
	if len(data.Jobs) != 1 || data.Jobs[0].Asked != "set 15 45s 2 in pvc" {
		t.Errorf("jobs: %+v", data.Jobs)
	}
	say(70911342, "forget me")
	say(70911342, "yes")
	stop()
	if got := <-status; got != 0 {
		t.Errorf("exit status %d", got)
	}
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	serve.CompactForgotten(t.Context(), db, slog.New(slog.DiscardHandler))
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(content, []byte("70911342")) || !bytes.Contains(content, []byte("set 18 45s")) {
		t.Error("who was forgotten is in the file still, or the others aren't")
	}
}

// TestBackupWhileServing copies the database while people write, and finds in
// each copy all that was answered before it was asked for.
func TestBackupWhileServing(t *testing.T) {
	server := loopback.New()
	defer server.Close()
	folder := t.TempDir()
	path := filepath.Join(folder, "dogleg.db")
	env := environment("DOGLEG_TOKEN", loopback.Token, "DOGLEG_API_ENDPOINT", server.Base())
	ctx, stop := context.WithCancel(t.Context())
	status := make(chan int)
	go func() {
		status <- Run(ctx, []string{"serve", "--db", path}, strings.NewReader(""), &bytes.Buffer{}, &bytes.Buffer{}, env)
	}()
	for n := 1; n <= 4; n++ {
		for chat := range int64(5) {
			server.Say(chat+1, "set 15 45s 2 in pvc")
		}
		if !server.Await(patience, func() bool { return len(server.Calls("sendMessage")) >= 5*n }) {
			t.Fatal("no reply")
		}
		var out, stderr bytes.Buffer
		backup := filepath.Join(folder, fmt.Sprint("copy", n))
		if got := Run(t.Context(), []string{"backup", "--db", path, backup}, nil, &out, &stderr, env); got != 0 {
			t.Fatalf("exit status %d: %s", got, &stderr)
		}
		db, err := store.Open(backup)
		if err != nil {
			t.Fatal(err)
		}
		jobs := 0
		err = db.View(func(tx *store.Tx) error {
			for _, key := range tx.People() {
				jobs += len(tx.Person(key).Jobs())
			}
			return nil
		})
		if err := errors.Join(err, db.Close()); err != nil || jobs != 5*n {
			t.Errorf("copy %d: %d jobs, want %d (%v)", n, jobs, 5*n, err)
		}
	}
	stop()
	if got := <-status; got != 0 {
		t.Errorf("exit status %d", got)
	}
	var stderr bytes.Buffer
	if left, _ := filepath.Glob(path + "*"); len(left) != 1 {
		t.Errorf("left behind: %v", left)
	}
	if got := Run(t.Context(), []string{"backup", "--db", path, filepath.Join(folder, "copy1")}, nil, &bytes.Buffer{}, &stderr, env); got != trouble {
		t.Errorf("over a copy that is there: exit status %d, %s", got, &stderr)
	}
}

// TestServeRefusesDamage: a database with a page that makes no sense is named,
// nobody is answered from it, and it is left as it was.
func TestServeRefusesDamage(t *testing.T) {
	server := loopback.New()
	defer server.Close()
	// A page that holds a job says at its start how many entries it has.
	path, content := damaged(t, func(content []byte) {
		page := bytes.Index(content, []byte("12 set 45s")) / os.Getpagesize() * os.Getpagesize()
		copy(content[page:], bytes.Repeat([]byte{0xff}, 64))
	})
	server.Say(7, "12 set 45s")
	var stderr bytes.Buffer
	status := Run(t.Context(), []string{"serve", "--db", path}, nil, &bytes.Buffer{}, &stderr, environment(
		"DOGLEG_TOKEN", loopback.Token, "DOGLEG_API_ENDPOINT", server.Base(),
	))
	if said := stderr.String(); status != trouble || !strings.Contains(said, "the database is damaged") || !strings.Contains(said, "dogleg restore") || strings.Count(said, "\n") != 1 {
		t.Errorf("exit status %d: %.600s", status, said)
	}
	if n := len(server.Calls("")); n > 0 {
		t.Errorf("%d calls", n)
	}
	if after, err := os.ReadFile(path); err != nil || !bytes.Equal(after, content) {
		t.Error("the file was changed")
	}
}

// TestServeTellsOfABrokenRecord: a job that can't be read is told in the log, and
// everybody is answered meanwhile.
func TestServeTellsOfABrokenRecord(t *testing.T) {
	server := loopback.New()
	defer server.Close()
	path, _ := damaged(t, func(content []byte) {
		copy(content[bytes.Index(content, []byte(`{"Number":1,`)):], `!`)
	})
	log, err := os.Create(filepath.Join(t.TempDir(), "log")) // read while it is written
	if err != nil {
		t.Fatal(err)
	}
	defer log.Close()
	logged := func() string {
		text, _ := os.ReadFile(log.Name())
		return string(text)
	}
	ctx, stop := context.WithCancel(t.Context())
	status := make(chan int)
	go func() {
		status <- Run(ctx, []string{"serve", "--db", path}, nil, &bytes.Buffer{}, log, environment(
			"DOGLEG_TOKEN", loopback.Token, "DOGLEG_API_ENDPOINT", server.Base(),
		))
	}()
	server.Say(501, "set 15 45s")
	if !server.Await(patience, func() bool {
		return len(replies(server)["501"]) == 1 && strings.Contains(logged(), "breaks its own rules")
	}) {
		t.Errorf("no reply, or nothing is told: %s", logged())
	}
	stop()
	if got := <-status; got != answered {
		t.Errorf("exit status %d: %s", got, logged())
	}
}

// damaged is a database of a hundred people with a job each, and its content after
// something was done to it.
func damaged(t *testing.T, harm func(content []byte)) (path string, content []byte) {
	path = filepath.Join(t.TempDir(), "dogleg.db")
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	err = db.Update(func(tx *store.Tx) error {
		for n := range 100 {
			tx.Person(serve.ChatOf(int64(n)).Person("7")).AddJob(store.Job{Asked: strings.Repeat("12 set 45s ", 50)})
		}
		return nil
	})
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
	if content, err = os.ReadFile(path); err != nil {
		t.Fatal(err)
	}
	harm(content)
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	return path, content
}

// What is in hand stands in a file beside the database. A message that has killed the program three times is not figured a fourth time: its sender is
// told.
func TestServeSetsAsideWhatKilledIt(t *testing.T) {
	server := loopback.New()
	defer server.Close()
	path := filepath.Join(t.TempDir(), "dogleg.db")
	server.Number(77)
	server.Say(501, "set 15 45s")
	server.Say(502, "set 15 45s")
	begun := path + ".begun"
	deadly := fmt.Sprintf("telegram %d %s 77", loopback.BotID, server.Base())
	if err := os.WriteFile(begun, []byte("2 "+deadly+"\n0 "+deadly+"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	status := make(chan int)
	go func() {
		status <- Run(ctx, []string{"serve", "--db", path}, strings.NewReader(""), &bytes.Buffer{}, &bytes.Buffer{}, environment(
			"DOGLEG_TOKEN", loopback.Token, "DOGLEG_API_ENDPOINT", server.Base(),
		))
	}()
	server.Await(patience, func() bool { return len(replies(server)["501"]) > 0 && len(replies(server)["502"]) > 0 })
	stop()
	if got := <-status; got != 0 {
		t.Errorf("exit status %d", got)
	}
	if got := replies(server)["501"]; len(got) != 1 || !strings.HasPrefix(got[0], "Something went wrong") {
		t.Errorf("whose message killed it was told %q", got)
	}
	if got := replies(server)["502"]; len(got) != 1 || !strings.Contains(got[0], "21-3/16") { // as above
		t.Errorf("the next one was told %q", got)
	}
	if left, err := os.ReadFile(begun); err == nil {
		t.Errorf("left behind: %q", left)
	}
}
