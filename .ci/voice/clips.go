//go:build ignore

// Clips has the lines of a list said by synthetic voices, those that begin with a
// tab left out, and writes what they say as phones do, in Ogg with Opus at 24 kb/s: KIND-VOICE-LINE.oga. A noisy
// clip has noise 20 dB below the speech, falling towards the high tones as that
// of a site does.
//
//	go run .ci/voice/clips.go LIST FOLDER KIND VOICE…
package main

import (
	"encoding/binary"
	"fmt"
	"log"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
)

func main() {
	log.SetFlags(0)
	list, folder, kind, voices := os.Args[1], os.Args[2], os.Args[3], os.Args[4:]
	content, err := os.ReadFile(list)
	if err != nil {
		log.Fatal(err)
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		log.Fatal(err)
	}
	jobs := make(chan clip)
	var workers sync.WaitGroup
	for range 2 {
		workers.Go(func() {
			for c := range jobs {
				if err := c.make(); err != nil {
					log.Fatalf("%s: %v", c.path, err)
				}
			}
		})
	}
	n := 0
	for line := range strings.Lines(string(content)) {
		if strings.HasPrefix(line, "\t") { // what was meant
			continue
		}
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		for i, voice := range voices {
			path := filepath.Join(folder, fmt.Sprintf("%s-%s-%03d.oga", kind, voice, n))
			jobs <- clip{path, line, voice, kind == "noisy", uint64(100*n + i)}
		}
		n++
	}
	close(jobs)
	workers.Wait()
}

type clip struct {
	path, line, voice string
	noisy             bool
	seed              uint64
}

func (c clip) make() error {
	wav := c.path + ".wav"
	defer os.Remove(wav)
	if err := c.say(wav); err != nil {
		return err
	}
	if err := c.treat(wav); err != nil {
		return err
	}
	return exec.Command("opusenc", "--quiet", "--bitrate", "24", "--speech", wav, c.path).Run()
}

// say has flite or festival say the line; festival's voices have an underscore.
func (c clip) say(wav string) error {
	if !strings.Contains(c.voice, "_") {
		return exec.Command("flite", "-voice", c.voice, "-t", c.line, "-o", wav).Run()
	}
	festival := exec.Command("text2wave", "-F", "16000", "-eval", "(voice_"+c.voice+")", "-o", wav)
	festival.Stdin = strings.NewReader(c.line)
	return festival.Run()
}

// treat puts a third of a second around the speech, and noise under it: what a
// quiet room has, or the noise of a site.
func (c clip) treat(wav string) error {
	file, err := os.ReadFile(wav)
	if err != nil {
		return err
	}
	const head = 44
	rate := int(binary.LittleEndian.Uint32(file[24:]))
	silence := make([]byte, 2*(rate/3))
	sound := append(append(append([]byte{}, silence...), file[head:]...), silence...)
	power := 0.0
	for i := 0; i+1 < len(sound); i += 2 {
		s := float64(int16(binary.LittleEndian.Uint16(sound[i:])))
		power += s * s
	}
	loud := 3.0
	if c.noisy {
		loud = math.Sqrt(power/float64(len(sound)/2)) / 10 // 20 dB
	}
	dice := rand.New(rand.NewPCG(c.seed, 20))
	const memory = 0.95
	level := loud * math.Sqrt(1-memory*memory)
	noise := 0.0
	for i := 0; i+1 < len(sound); i += 2 {
		noise = memory*noise + level*dice.NormFloat64()
		s := float64(int16(binary.LittleEndian.Uint16(sound[i:]))) + noise
		binary.LittleEndian.PutUint16(sound[i:], uint16(int16(max(-32768, min(32767, s)))))
	}
	binary.LittleEndian.PutUint32(file[4:], uint32(36+len(sound)))
	binary.LittleEndian.PutUint32(file[40:], uint32(len(sound)))
	return os.WriteFile(wav, append(file[:head:head], sound...), 0o644)
}
