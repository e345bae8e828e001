package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"log"
	"net"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"strings"
	"testing"

	"dogleg/bot/telegram/loopback"
)

// TestServeIsMeasured reads the metrics and the health of the program while it
// serves by a webhook, and looks at its log.
func TestServeIsMeasured(t *testing.T) {
	server := loopback.New()
	defer server.Close()
	behind, measured := freePort(t), freePort(t)
	front := tlsProxy(t, behind)
	server.CallThrough(front.Client())
	ctx, stop := context.WithCancel(t.Context())
	var stderr bytes.Buffer
	status := make(chan int)
	go func() {
		status <- Run(ctx, []string{"serve"}, strings.NewReader(""), &bytes.Buffer{}, &stderr, environment(
			"DOGLEG_TOKEN", loopback.Token,
			"DOGLEG_API_ENDPOINT", server.Base(),
			"DOGLEG_WEBHOOK_URL", strings.Replace(front.URL, portOf(front.URL), "443", 1)+"/juniper",
			"DOGLEG_WEBHOOK_LISTEN", behind,
			"DOGLEG_METRICS", measured,
			"DOGLEG_LOG_FORMAT", "json",
			"DOGLEG_LOG_LEVEL", "debug",
			"XDG_DATA_HOME", t.TempDir(),
		))
	}()
	server.Say(501, "set 15 45s 2 in pvc")
	server.Say(501, "purple elephants on Juniper Street")
	server.Say(502, "set 15 45s 2 in pvc takeoff 1-1/8")
	all := server.Await(patience, func() bool {
		return len(replies(server)["501"]) == 2 && len(replies(server)["502"]) == 1 && len(server.Unconfirmed()) == 0
	})
	var text string
	server.Await(patience, func() bool { // the server has a reply before the bot counts it
		text = fetch(measured, "/metrics")
		return strings.Contains(text, `dogleg_sends_total{result="sent"} 3`)
	})
	health, ready := fetch(measured, "/healthz"), fetch(behind, "/readyz")
	stop()
	if got := <-status; got != 0 {
		t.Errorf("exit status %d, want 0", got)
	}
	if !all {
		t.Fatalf("not answered; the log:\n%s", &stderr)
	}
	for _, line := range []string{
		`dogleg_updates_total{result="handled"} 3`,
		`dogleg_answers_total{kind="offset",outcome="answered"} 2`,
		`dogleg_answers_total{kind="none",outcome="misunderstood"} 1`,
		`dogleg_cuts_total{evidence="provisional"} 1`,
		`dogleg_cuts_total{evidence="sure"} 1`,
		`dogleg_sends_total{result="sent"} 3`,
		`dogleg_figuring_seconds_count 3`,
		`dogleg_receiving 1`,
	} {
		if !strings.Contains(text, line+"\n") {
			t.Errorf("the metrics lack %s", line)
		}
	}
	if health != "ok\n" || ready != "ok\n" {
		t.Errorf("health %q, ready %q", health, ready)
	}
	for line := range strings.Lines(stderr.String()) {
		if !json.Valid([]byte(line)) {
			t.Errorf("no JSON in the log: %s", line)
		}
	}
	for _, word := range []string{"elephants", "45s", loopback.Token} {
		if strings.Contains(stderr.String(), word) || strings.Contains(text, word) {
			t.Errorf("%q is in the log or in the metrics", word)
		}
	}
}

// freePort is an address of this machine that nobody listens on.
func freePort(t *testing.T) string {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	return listener.Addr().String()
}

func portOf(address string) string {
	u, _ := url.Parse(address)
	return u.Port()
}

// tlsProxy passes calls on to a port behind it. Its client goes to it whatever
// the port that is called.
func tlsProxy(t *testing.T, behind string) *httptest.Server {
	pass := httputil.NewSingleHostReverseProxy(&url.URL{Scheme: "http", Host: behind})
	pass.ErrorLog = log.New(io.Discard, "", 0)
	front := httptest.NewTLSServer(pass)
	t.Cleanup(front.Close)
	front.Client().Transport.(*http.Transport).DialContext = func(ctx context.Context, _, _ string) (net.Conn, error) {
		return new(net.Dialer).DialContext(ctx, "tcp", front.Listener.Addr().String())
	}
	return front
}

// fetch is what is read at an address, or the status where that isn't 200.
func fetch(host, path string) string {
	response, err := http.Get("http://" + host + path)
	if err != nil {
		return err.Error()
	}
	defer response.Body.Close()
	body, _ := io.ReadAll(response.Body)
	if response.StatusCode != 200 {
		return response.Status
	}
	return string(body)
}
