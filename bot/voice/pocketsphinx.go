package voice

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"syscall"
)

// DefaultSounds is where Debian's pocketsphinx-en-us keeps how American English
// sounds.
const DefaultSounds = "/usr/share/pocketsphinx/model/en-us/en-us"

// Pocketsphinx is the ear that runs Debian's pocketsphinx_batch for each note.
// Not pocketsphinx_continuous: it takes a note in pieces and hears it worse.
type Pocketsphinx struct {
	program string
	sounds  string
	folder  string // holds the model, and while a note is heard that
}

// decoders are the settings that each note is decoded with. They were found on
// other recordings than those that are reported on; see README.md.
var decoders = [][]string{
	{"-remove_noise", "no", "-wip", "0.03", "-lw", "5", "-fwdflatlw", "6.5"},
	{"-remove_noise", "yes", "-wip", "0.03", "-lw", "5", "-fwdflatlw", "6.5"},
}

// guesses is how many guesses a decoder gives. Many differ by a pause only.
const guesses = "60"

// NewPocketsphinx finds the recognizer and unpacks the model into a folder of
// its own, which Close removes. The error is ErrNoEngine where it is not
// installed.
func NewPocketsphinx(sounds string) (*Pocketsphinx, error) {
	program, err := exec.LookPath("pocketsphinx_batch")
	if err != nil {
		return nil, ErrNoEngine
	}
	if _, err := os.Stat(sounds); err != nil {
		return nil, ErrNoEngine
	}
	clearAway(os.TempDir())
	folder, err := os.MkdirTemp("", fmt.Sprintf("%s%d-", folderPrefix, os.Getpid()))
	if err != nil {
		return nil, err
	}
	if err := unpackModel(folder); err != nil {
		os.RemoveAll(folder)
		return nil, err
	}
	return &Pocketsphinx{program, sounds, folder}, nil
}

const folderPrefix = "dogleg-ear-"

// clearAway removes the folders of runs that were killed: somebody's voice may
// be in them. The number of the process stands in a folder's name.
func clearAway(parent string) {
	left, _ := filepath.Glob(filepath.Join(parent, folderPrefix+"*"))
	for _, folder := range left {
		var number int
		_, err := fmt.Sscanf(strings.TrimPrefix(filepath.Base(folder), folderPrefix), "%d-", &number)
		if err == nil && errors.Is(syscall.Kill(number, 0), syscall.ESRCH) {
			os.RemoveAll(folder)
		}
	}
}

// Close removes what NewPocketsphinx made.
func (p *Pocketsphinx) Close() error { return os.RemoveAll(p.folder) }

// Listen implements Ear. The decoders run at the same time; when the context
// ends they are killed.
func (p *Pocketsphinx) Listen(ctx context.Context, s Sound) ([][]Guess, error) {
	folder, err := os.MkdirTemp(p.folder, "note-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	if err := p.lay(folder, s); err != nil {
		return nil, err
	}
	heard, errs := make([][]Guess, len(decoders)), make(chan error)
	for i := range decoders {
		go func() {
			var err error
			heard[i], err = p.decode(ctx, folder, i)
			errs <- err
		}()
	}
	for range decoders {
		err = errors.Join(err, <-errs)
	}
	return heard, err
}

// lay puts the note, and the list that names it, where the decoders look.
func (p *Pocketsphinx) lay(folder string, s Sound) error {
	if err := os.WriteFile(filepath.Join(folder, "list"), []byte("note\n"), 0o600); err != nil {
		return err
	}
	f, err := os.OpenFile(filepath.Join(folder, "note.wav"), os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	w := bufio.NewWriter(f)
	return errors.Join(writeWAV(w, s), w.Flush(), f.Close())
}

func (p *Pocketsphinx) decode(ctx context.Context, folder string, n int) ([]Guess, error) {
	best := filepath.Join(folder, fmt.Sprintf("best%d", n))
	others := filepath.Join(folder, fmt.Sprintf("others%d", n))
	if err := os.Mkdir(others, 0o700); err != nil {
		return nil, err
	}
	err := run(ctx, folder, p.program, append([]string{
		"-hmm", p.sounds, "-dict", filepath.Join(p.folder, dictionaryFile), "-lm", filepath.Join(p.folder, modelFile),
		"-adcin", "yes", "-adchdr", "44", "-cepdir", folder, "-cepext", ".wav", "-ctl", filepath.Join(folder, "list"),
		"-hyp", best, "-nbest", guesses, "-nbestdir", others, "-nbestext", "", "-logfn", os.DevNull,
	}, decoders[n]...)...)
	if err != nil {
		return nil, err
	}
	return readGuesses(best, filepath.Join(others, "note"))
}

// readGuesses reads the decoder's best guess and its list of others. The best
// need not be in the list: it comes of a search without the list's shortcuts.
func readGuesses(best, others string) ([]Guess, error) {
	f, err := os.Open(others)
	if errors.Is(err, os.ErrNotExist) { // nothing was said
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	listed, err := scored(f)
	if err != nil {
		return nil, err
	}
	line, err := os.ReadFile(best)
	if err != nil {
		return nil, err
	}
	first, _, _ := strings.Cut(string(line), "(note")
	return unite(words(first), listed), nil
}

// unite puts the best guess first, and each wording once.
func unite(best string, listed []Guess) []Guess {
	if best == "" {
		return nil
	}
	all := []Guess{{Text: best}}
	for _, g := range listed {
		if !slices.ContainsFunc(all, func(other Guess) bool { return other.Text == g.Text }) {
			all = append(all, g)
		}
	}
	return all
}

// scored reads the list: a guess a line, its score behind it. How far one lies
// behind is counted from the best in the list.
func scored(r io.Reader) ([]Guess, error) {
	var all []Guess
	highest := 0.0
	lines := bufio.NewScanner(r)
	for lines.Scan() {
		at := strings.LastIndexByte(lines.Text(), ' ')
		if at < 0 {
			continue
		}
		score, err := strconv.ParseFloat(lines.Text()[at+1:], 64)
		if err != nil {
			return nil, fmt.Errorf("voice: the recognizer's list of guesses: %w", err)
		}
		if len(all) == 0 || score > highest {
			highest = score
		}
		all = append(all, Guess{words(lines.Text()[:at]), score})
	}
	for i := range all {
		all[i].Behind = highest - all[i].Behind
	}
	return all, lines.Err()
}

// marks are of no use to who reads a guess: a word may be said another way,
// and(2), and the model has number words of its own for figures that are read
// out, =two.
var marks = regexp.MustCompile(`\(\d+\)|=`)

func words(line string) string {
	return strings.Join(strings.Fields(marks.ReplaceAllString(line, "")), " ")
}

// run runs a program of ours to its end. What it prints goes into a file of the
// folder, which takes nobody to read along, as a pipe would. When the context
// ends the program is killed.
func run(ctx context.Context, folder, program string, args ...string) error {
	printed, err := os.CreateTemp(folder, "printed-")
	if err != nil {
		return err
	}
	defer printed.Close()
	c := exec.CommandContext(ctx, program, args...)
	c.Stdout, c.Stderr = printed, printed
	err = c.Run()
	if err == nil || ctx.Err() != nil {
		return ctx.Err()
	}
	said := make([]byte, 200)
	n, _ := printed.ReadAt(said, 0)
	return fmt.Errorf("voice: %s failed: %w: %s", filepath.Base(program), err, said[:n])
}
