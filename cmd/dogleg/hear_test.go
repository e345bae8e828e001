package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dogleg/bot/voice"
)

// Without the recognizer one line says what to install, and the rest works.
func TestWithoutRecognizer(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	note := filepath.Join(t.TempDir(), "note.oga")
	if err := os.WriteFile(note, []byte("OggS"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"hear", note}, {"ask", "--voice", note}} {
		var out, errs bytes.Buffer
		if status := Run(t.Context(), args, nil, &out, &errs, os.Getenv); status != trouble {
			t.Errorf("%q: status %d", args, status)
		}
		want := "dogleg: voice notes need the recognizer: apt-get install pocketsphinx pocketsphinx-en-us\n"
		if errs.String() != want || out.Len() > 0 {
			t.Errorf("%q: said %q and %q", args, out.String(), errs.String())
		}
	}
	var out, errs bytes.Buffer
	status := Run(t.Context(), []string{"ask", "set 10-3/8 45s 2 pvc dwv"}, nil, &out, &errs, os.Getenv)
	if status != answered || !strings.HasPrefix(out.String(), "Cut ") {
		t.Errorf("status %d, said %q", status, out.String())
	}
}

// guessing is an ear that guesses the same of every sound.
type guessing [][]voice.Guess

func (g guessing) Listen(ctx context.Context, _ voice.Sound) ([][]voice.Guess, error) {
	return g, ctx.Err()
}
