package wire

import (
	"context"
	"errors"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"syscall"
	"testing"
	"time"
)

const secret = "AAJuniperStreetSecretOfThisTest"

func clientOf(base string) *Client {
	return NewClient(Options{Token: "987654321:" + secret, Base: base, Send: 5 * time.Second, Log: slog.New(slog.DiscardHandler)})
}

// An error says what failed and where, but not the token that is part of every
// address.
func TestErrorsHideTheToken(t *testing.T) {
	nobody, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	nobody.Close()
	talker := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.WriteHeader(400)
		_, _ = w.Write([]byte(`{"ok":false,"error_code":400,"description":"Bad Request: ` + r.URL.Path + `"}`))
	}))
	defer talker.Close()

	for name, base := range map[string]string{
		"nobody listens":          "http://" + nobody.Addr().String(),
		"no such address":         "http://127.0.0.1:1\x7f",
		"no such scheme":          "juniper://127.0.0.1",
		"the server says it back": talker.URL,
	} {
		_, err := clientOf(base).GetMe(context.Background())
		if err == nil {
			t.Errorf("%s: no error", name)
			continue
		}
		if strings.Contains(err.Error(), secret) || !strings.Contains(err.Error(), hidden) {
			t.Errorf("%s: %v", name, err)
		}
	}
	_, err = clientOf("http://" + nobody.Addr().String()).GetMe(context.Background())
	if !errors.Is(err, syscall.ECONNREFUSED) {
		t.Errorf("the cause is lost: %v", err)
	}
}

// A redirect would hand the token to wherever it points.
func TestRedirectsAreNotFollowed(t *testing.T) {
	followed := false
	elsewhere := httptest.NewServer(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { followed = true }))
	defer elsewhere.Close()
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		http.Redirect(w, r, elsewhere.URL+r.URL.Path, http.StatusTemporaryRedirect)
	}))
	defer server.Close()
	if _, err := clientOf(server.URL).GetMe(context.Background()); err == nil || followed {
		t.Errorf("followed: %v, error: %v", followed, err)
	}
}
