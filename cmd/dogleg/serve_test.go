package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"dogleg/bot/telegram/loopback"
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
	// 354.0 mm
	// dogleg figures lengths. The local code, the inspector and the license decide.
	// exit status 0
}
