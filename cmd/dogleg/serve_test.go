package main

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

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

// TestServeCrash kills the real program over and over while people write, and
// starts it again on the same file. Everyone must be answered, in their order,
// and each message is to leave one job, however often its reply was sent.
func TestServeCrash(t *testing.T) {
	const people, kills = 30, 12
	server := loopback.New()
	defer server.Close()
	path := filepath.Join(t.TempDir(), "dogleg.db")
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))

	for chat := range int64(people) {
		server.Say(chat+1, "set 15 45s 2 in pvc")
		server.Say(chat+1, "same but 18")
	}
	for range kills {
		process := startServing(t, server, path)
		time.Sleep(time.Duration(20+random.IntN(150)) * time.Millisecond)
		kill(t, process)
	}
	process := startServing(t, server, path)
	all := server.Await(patience, func() bool { return answeredTwice(server) == people })
	kill(t, process)
	if !all {
		t.Fatalf("%d of %d people have their two answers", answeredTwice(server), people)
	}

	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if err := db.Check(); err != nil {
		t.Error(err)
	}
	checkJobs(t, db, people)
}

// checkJobs wants the two jobs of each person, the second of which changed the
// first.
func checkJobs(t *testing.T, db *store.DB, people int) {
	t.Helper()
	err := db.View(func(tx *store.Tx) error {
		if got := len(tx.People()); got != people {
			t.Errorf("%d people in the database, want %d", got, people)
		}
		for _, key := range tx.People() {
			if got := len(tx.Person(key).Jobs()); got != 2 {
				t.Errorf("%s has %d jobs, want 2", key, got)
			}
		}
		return nil
	})
	if err != nil {
		t.Error(err)
	}
}

func startServing(t *testing.T, server *loopback.Server, path string) *exec.Cmd {
	t.Helper()
	process := exec.Command("dogleg", "serve", "--db", path)
	process.Env = append(os.Environ(), "DOGLEG_TOKEN="+loopback.Token, "DOGLEG_API_ENDPOINT="+server.Base())
	if err := process.Start(); err != nil {
		t.Fatal(err)
	}
	return process
}

func kill(t *testing.T, process *exec.Cmd) {
	t.Helper()
	if err := process.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = process.Wait() // says that it was killed
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

// answeredTwice counts the chats with an answer for a set of 15 and after it
// one for 18. With 45s their travels are 21.213 and 25.456 in.
func answeredTwice(server *loopback.Server) int {
	count := 0
	for _, texts := range replies(server) {
		all := strings.Join(texts, "\n")
		first, last := strings.Index(all, "21-3/16"), strings.LastIndex(all, "25-7/16")
		if first >= 0 && first < last {
			count++
		}
	}
	return count
}

func ExampleRun() {
	status := Run(context.Background(), []string{"ask", "16-15/16 - 3"},
		strings.NewReader(""), os.Stdout, os.Stderr, environment())
	fmt.Println("exit status", status)
	// Output:
	// 13-15/16 in
	// 16-15/16 - 3
	// 354.0 mm
	// dogleg figures lengths. The local code, the inspector and the license decide.
	// exit status 0
}
