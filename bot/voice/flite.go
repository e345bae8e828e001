package voice

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// Flite is the voice that reads aloud: Debian's flite, whose sound opusenc turns
// into Ogg with Opus, as phones play it. Each text is two short processes, one
// after the other; several goroutines may speak at once.
type Flite struct{ synthesizer, encoder string }

// ErrNoVoice says that what reads aloud is not installed, and what to install.
var ErrNoVoice = errors.New("spoken answers need a voice: apt-get install flite opus-tools")

// NewFlite finds the programs. The error is ErrNoVoice where one is missing.
func NewFlite() (*Flite, error) {
	synthesizer, err := exec.LookPath("flite")
	if err != nil {
		return nil, ErrNoVoice
	}
	encoder, err := exec.LookPath("opusenc")
	if err != nil {
		return nil, ErrNoVoice
	}
	return &Flite{synthesizer, encoder}, nil
}

// voiceName is the one of flite's American voices that the ear hears best,
// which says little of how well a person does; see README.md.
const voiceName = "rms"

// letters are names said letter by letter that flite takes for a word.
var letters = strings.NewReplacer("ABS", "A B S")

// Speak returns a text, in English words, read aloud. It ends early, with an
// error, when the context does.
func (f *Flite) Speak(ctx context.Context, text string) ([]byte, error) {
	folder, err := os.MkdirTemp("", "dogleg-voice-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	in := func(name string) string { return filepath.Join(folder, name) }
	words, sound, packed := in("text"), in("sound.wav"), in("sound.oga")
	if err := os.WriteFile(words, []byte(letters.Replace(text)), 0o600); err != nil {
		return nil, err
	}
	if err := run(ctx, folder, f.synthesizer, "-voice", voiceName, "-f", words, "-o", sound); err != nil {
		return nil, err
	}
	if err := run(ctx, folder, f.encoder, "--quiet", "--bitrate", "24", "--speech", sound, packed); err != nil {
		return nil, err
	}
	return os.ReadFile(packed)
}
