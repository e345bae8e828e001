package wire

import (
	"bytes"
	"errors"
	"log/slog"
	"strings"
	"testing"
)

// Wherever a token may stand in what is logged, it doesn't come out; the
// library's own lines go the same way.
func TestLogHidesTokens(t *testing.T) {
	const (
		ours   = "odd token that looks like none"
		secret = "AAJuniperStreetSecretOfSomebody"
		others = "987654321:" + secret
	)
	var out bytes.Buffer
	log := slog.New(Redacting(slog.NewTextHandler(&out, nil), ours))
	for name, write := range map[string]func(text string){
		"message": func(s string) { log.Info(s) },
		"string":  func(s string) { log.Info("x", "at", s) },
		"error":   func(s string) { log.Info("x", "error", errors.New(s)) },
		"struct":  func(s string) { log.Info("x", "at", struct{ URL string }{s}) },
		"group":   func(s string) { log.Info("x", slog.Group("call", "at", s)) },
		"with":    func(s string) { log.With("at", s).WithGroup("g").Info("x") },
		"printf":  func(s string) { libraryLog{log}.Printf("at %s", s) },
		"println": func(s string) { libraryLog{log}.Println("at", s) },
	} {
		for _, token := range []string{ours, others, strings.Replace(others, ":", "%3A", 1)} {
			out.Reset()
			write("https://api.example/bot" + token + "/getMe")
			if got := out.String(); strings.Contains(got, ours) || strings.Contains(got, secret) || !strings.Contains(got, hidden) {
				t.Errorf("%s of %q: %s", name, token, got)
			}
		}
	}
	out.Reset()
	log.Info("x", "chat", 12, "waited", true)
	if !strings.Contains(out.String(), "chat=12 waited=true") {
		t.Errorf("what is no text is changed: %s", out.String())
	}
}
