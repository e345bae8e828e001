package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"dogleg/bot/telegram"
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

func TestWhatTelegramIsTold(t *testing.T) {
	note, err := os.ReadFile("../../testdata/voice/people/cen7-fclc-b.ogg")
	if err != nil {
		t.Fatal(err)
	}
	alike := func(text string) guessing { return guessing{{{Text: text}}, {{Text: text}}} }
	for name, c := range map[string]struct {
		ear       guessing
		recording []byte
		want      telegram.Heard
	}{
		"sure": {
			alike("set twelve and a half forty fives two inch pvc"), note,
			telegram.Heard{Words: "set 12-1/2 45s 2 in pvc", Say: "Heard: set 12-1/2 45s 2 in pvc"},
		},
		"not sure": {
			guessing{{{Text: "set seventeen forty fives two inch pvc"}}, {{Text: "set seventy forty fives two inch pvc"}}},
			note,
			telegram.Heard{Say: "Not sure I heard that right. Which was it? Send the line, or say it again.\nset 17 45s 2 in pvc\nset 70 45s 2 in pvc", Choices: []string{"set 17 45s 2 in pvc", "set 70 45s 2 in pvc"}},
		},
		"no request": {
			alike("~mommy ~daddy"), note,
			telegram.Heard{Say: "I couldn't make a request of that. Say it again, a little slower, or type it: 12 set 45s 1-1/2 pvc"},
		},
		"cut off":       {alike("one"), note[:2*len(note)/3], telegram.Heard{Say: cutOff}},
		"no voice note": {alike("one"), []byte("ID3"), telegram.Heard{Say: noSpeech}},
	} {
		got, err := telegramEar{c.ear}.Hear(t.Context(), bytes.NewReader(c.recording))
		if err != nil || !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: got %+v, %v", name, got, err)
		}
	}
	over, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := (telegramEar{alike("one")}).Hear(over, bytes.NewReader(note)); !errors.Is(err, context.Canceled) {
		t.Errorf("after its time: %v", err)
	}
}
