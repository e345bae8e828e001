package voice_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"dogleg/bot/voice"
)

// installed puts scripts of ours in the place of the programs, and temporary
// files into a folder that it returns.
func installed(t *testing.T, programs map[string]string) (temporary string) {
	t.Helper()
	bin, temporary := t.TempDir(), t.TempDir()
	for name, script := range programs {
		if err := os.WriteFile(filepath.Join(bin, name), []byte("#!/bin/sh\n"+script+"\n"), 0o700); err != nil {
			t.Fatal(err)
		}
	}
	t.Setenv("PATH", bin+":/usr/bin:/bin")
	t.Setenv("TMPDIR", temporary)
	return temporary
}

// entries are the names in a folder.
func entries(t *testing.T, folder string) (names []string) {
	t.Helper()
	found, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range found {
		names = append(names, e.Name())
	}
	return names
}

func TestNoEngine(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	if _, err := voice.NewPocketsphinx(voice.DefaultSounds); !errors.Is(err, voice.ErrNoEngine) {
		t.Errorf("the ear: got %v", err)
	}
	if _, err := voice.NewFlite(); !errors.Is(err, voice.ErrNoVoice) {
		t.Errorf("the voice: got %v", err)
	}
}

// recognizes is a recognizer that writes what the real one does, in its forms:
// the best guess, and a list of guesses with their scores.
const recognizes = `
while [ $# -gt 1 ]; do
	case $1 in -hyp) best=$2 ;; -nbestdir) others=$2 ;; esac
	shift
done
echo 'set and(2) twelve (note -4100)' >$best
printf '%s\n' 'set twelve -4200' 'set and twelve -4150' 'set and(2) twelve -4160' >$others/note`

func TestGuessesOfTheRecognizer(t *testing.T) {
	temporary := installed(t, map[string]string{"pocketsphinx_batch": recognizes})
	ear, err := voice.NewPocketsphinx(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	decoders, err := ear.Listen(t.Context(), make(voice.Sound, 100))
	if err != nil {
		t.Fatal(err)
	}
	want := "[{set and twelve 0} {set twelve 50}]"
	for _, guesses := range decoders {
		if got := fmt.Sprint(guesses); got != want {
			t.Errorf("got %s, want %s", got, want)
		}
	}
	if len(decoders) != 2 {
		t.Errorf("%d decoders", len(decoders))
	}
	for _, folder := range entries(t, temporary) {
		for _, name := range entries(t, filepath.Join(temporary, folder)) {
			if strings.HasPrefix(name, "note") {
				t.Errorf("of the note is left %s", name)
			}
		}
	}
	if err := ear.Close(); err != nil || len(entries(t, temporary)) > 0 {
		t.Errorf("when closed: %v, and there is left %q", err, entries(t, temporary))
	}
}

// A program that hangs is killed when its time is over, and nothing is left of
// what it was given.
func TestKilledPastItsTime(t *testing.T) {
	const hangs = "echo $$ >$TMPDIR/started; exec sleep 600"
	sounds := t.TempDir()
	for name, begin := range map[string]func(context.Context) error{
		"ear": func(ctx context.Context) error {
			ear, err := voice.NewPocketsphinx(sounds)
			if err != nil {
				t.Fatal(err)
			}
			defer ear.Close()
			_, err = ear.Listen(ctx, make(voice.Sound, 100))
			return err
		},
		"voice": func(ctx context.Context) error {
			flite, err := voice.NewFlite()
			if err != nil {
				t.Fatal(err)
			}
			_, err = flite.Speak(ctx, "set twelve")
			return err
		},
	} {
		t.Run(name, func(t *testing.T) {
			temporary := installed(t, map[string]string{"pocketsphinx_batch": hangs, "flite": hangs, "opusenc": hangs})
			ctx, cancel := context.WithCancel(t.Context())
			started := filepath.Join(temporary, "started")
			go func() {
				for ctx.Err() == nil {
					if _, err := os.Stat(started); err == nil {
						cancel()
					}
					time.Sleep(time.Millisecond)
				}
			}()
			if err := begin(ctx); !errors.Is(err, context.Canceled) {
				t.Errorf("got %v", err)
			}
			if left := entries(t, temporary); len(left) > 1 {
				t.Errorf("left: %q", left)
			}
		})
	}
}

func TestProgramThatFails(t *testing.T) {
	const fails = "echo no such voice >&2; exit 3"
	installed(t, map[string]string{"pocketsphinx_batch": fails, "flite": fails, "opusenc": fails})
	ear, err := voice.NewPocketsphinx(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer ear.Close()
	flite, err := voice.NewFlite()
	if err != nil {
		t.Fatal(err)
	}
	_, heard := ear.Listen(t.Context(), make(voice.Sound, 100))
	_, spoken := flite.Speak(t.Context(), "set twelve")
	for _, err := range []error{heard, spoken} {
		if err == nil || !strings.Contains(err.Error(), "no such voice") {
			t.Errorf("got %v", err)
		}
	}
}

// What a run that was killed left of somebody's voice is removed by the next
// run, what belongs to one that still goes is not.
func TestWhatAKilledRunLeft(t *testing.T) {
	temporary := installed(t, map[string]string{"pocketsphinx_batch": recognizes})
	const never = 1 << 30 // above the highest number of a process on Linux, 1 << 22
	ours := fmt.Sprintf("dogleg-ear-%d-1", os.Getpid())
	for _, name := range []string{fmt.Sprintf("dogleg-ear-%d-1", never), ours, "dogleg-ear-x"} {
		if err := os.MkdirAll(filepath.Join(temporary, name, "note-1"), 0o700); err != nil {
			t.Fatal(err)
		}
	}
	ear, err := voice.NewPocketsphinx(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	if err := ear.Close(); err != nil {
		t.Fatal(err)
	}
	if got := fmt.Sprint(entries(t, temporary)); got != fmt.Sprintf("[%s dogleg-ear-x]", ours) {
		t.Errorf("left: %s", got)
	}
}

// What is read aloud goes by way of the synthesizer into the encoder.
func TestReadAloud(t *testing.T) {
	temporary := installed(t, map[string]string{
		"flite": `while [ $# -gt 1 ]; do
	case $1 in -f) words=$2 ;; -o) sound=$2 ;; esac
	shift
done
sed 's/^/sound of /' $words >$sound`,
		"opusenc": `while [ $# -gt 2 ]; do shift; done
sed 's/^/packets of /' $1 >$2`,
	})
	flite, err := voice.NewFlite()
	if err != nil {
		t.Fatal(err)
	}
	got, err := flite.Speak(t.Context(), "-o set twelve")
	if err != nil || string(got) != "packets of sound of -o set twelve" {
		t.Errorf("got %q, %v", got, err)
	}
	if left := entries(t, temporary); len(left) > 0 {
		t.Errorf("left: %q", left)
	}
}
