package main

import (
	"bytes"
	"context"
	"errors"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"dogleg/bot/serve"
	"dogleg/bot/telegram/loopback"
	"dogleg/store"

	"github.com/nats-io/nats-server/v2/server"
)

// natsHere starts one server of NATS in this process.
func natsHere(t *testing.T) (address string) {
	t.Helper()
	s, err := server.NewServer(&server.Options{
		Host: "127.0.0.1", Port: server.RANDOM_PORT, JetStream: true, StoreDir: t.TempDir(), NoSigs: true, NoLog: true,
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

// command runs one command line and wants exit status 0.
func command(t *testing.T, env func(string) string, args ...string) (said string) {
	t.Helper()
	var out, trouble bytes.Buffer
	if status := Run(t.Context(), args, strings.NewReader(""), &out, &trouble, env); status != 0 {
		t.Fatalf("dogleg %s: status %d: %s%s", strings.Join(args, " "), status, &out, &trouble)
	}
	return out.String()
}

// TestMoveInAndOut: what one machine keeps moves to shared servers and back, and
// is the same by its hash; and what is there already is never written over.
func TestMoveInAndOut(t *testing.T) {
	folder, address := t.TempDir(), natsHere(t)
	alone := filepath.Join(folder, "alone.db")
	juniperBase(t, alone)
	env := environment("DOGLEG_TOKEN", loopback.Token, "DOGLEG_STORE", address)

	command(t, env, "restore", alone)
	back := filepath.Join(folder, "back.db")
	command(t, env, "backup", back)
	if a, b := hashOf(t, alone), hashOf(t, back); a != b {
		t.Errorf("one machine's %s has come back as %s", a, b)
	}
	if said := command(t, env, "check"); !strings.Contains(said, "whole") {
		t.Errorf("check says %q", said)
	}
	if said := command(t, env, "export", "--telegram", "7", "-"); !strings.Contains(said, "laundry") {
		t.Errorf("the export lacks the job:\n%s", said)
	}
	var trouble bytes.Buffer
	if Run(t.Context(), []string{"restore", back}, strings.NewReader(""), &bytes.Buffer{}, &trouble, env) == 0 {
		t.Error("a second backup was put over the first")
	}
	if !strings.Contains(trouble.String(), "already") {
		t.Errorf("the refusal doesn't say why: %s", &trouble)
	}
}

// juniperBase makes a database with something of everything in it.
func juniperBase(t *testing.T, path string) {
	t.Helper()
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	err = db.Update(func(tx *store.Tx) error {
		p := tx.Person(serve.ChatOf(7).Person("7"))
		p.AddJob(store.Job{Name: "laundry", Asked: "set 10-3/8 45s 2 pvc", When: time.Unix(1_795_600_000, 0)})
		p.SetNote(store.Settings, []byte(`{}`))
		p.AddCut(store.Cut{Length: 1 << 10})
		tx.Queue(serve.ChatOf(7), []byte(`{}`))
		tx.MarkDone("telegram 1")
		tx.Quarantine("telegram 2", []byte("?"))
		return nil
	})
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
}

func hashOf(t *testing.T, path string) string {
	t.Helper()
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	hash, err := db.Hash()
	if err != nil {
		t.Fatal(err)
	}
	return hash
}

// TestServeTogetherInOneProcess: one process that plays all roles answers as one
// with a file does.
func TestServeTogetherInOneProcess(t *testing.T) {
	telegram := loopback.New()
	defer telegram.Close()
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	var stderr lockedBuffer
	ended := make(chan int, 1)
	go func() {
		ended <- Run(ctx, []string{"serve"}, strings.NewReader(""), &bytes.Buffer{}, &stderr, environment(
			"DOGLEG_TOKEN", loopback.Token, "DOGLEG_API_ENDPOINT", telegram.Base(),
			"DOGLEG_STORE", natsHere(t), "XDG_DATA_HOME", t.TempDir(),
		))
	}()
	telegram.Say(501, "set 15 45s")
	if !telegram.Await(patience, func() bool { return len(replies(telegram)["501"]) == 1 }) {
		t.Fatalf("no reply; the log:\n%s", stderr.tail(10_000))
	}
	stop()
	if status := <-ended; status != 0 {
		t.Errorf("exit status %d; the log:\n%s", status, stderr.tail(10_000))
	}
	// 15 in of set with 45s is 15 × √2 = 21.213 in of travel: 21-3/16 on a tape.
	if text := replies(telegram)["501"][0]; !strings.Contains(text, "21-3/16") {
		t.Errorf("the reply lacks the travel of 21-3/16:\n%s", text)
	}
	if strings.Contains(string(stderr.tail(1<<20)), loopback.Token) {
		t.Error("the token is in the log")
	}
}

// TestWhoStandsByIsReady: a process that receives nothing, since another does or
// since its role is another, is ready as long as it could take over.
func TestWhoStandsByIsReady(t *testing.T) {
	telegram := loopback.New()
	defer telegram.Close()
	address := natsHere(t)
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	serve := func(roles string) (measured string, ended chan int) {
		measured, ended = freePort(t), make(chan int, 1)
		go func() {
			ended <- Run(ctx, []string{"serve"}, strings.NewReader(""), &bytes.Buffer{}, &bytes.Buffer{}, environment(
				"DOGLEG_TOKEN", loopback.Token, "DOGLEG_API_ENDPOINT", telegram.Base(), "DOGLEG_STORE", address,
				"DOGLEG_ROLES", roles, "DOGLEG_METRICS", measured, "XDG_DATA_HOME", t.TempDir(),
			))
		}()
		return measured, ended
	}
	var all []chan int
	for _, roles := range []string{"receive,work", "receive", "work", "hear"} {
		measured, ended := serve(roles)
		all = append(all, ended)
		if !telegram.Await(patience, func() bool { return fetch(measured, "/readyz") == "ok\n" }) {
			t.Errorf("%s: %s", roles, fetch(measured, "/readyz"))
		}
	}
	stop()
	for _, ended := range all {
		if status := <-ended; status != 0 {
			t.Errorf("exit status %d", status)
		}
	}
}
