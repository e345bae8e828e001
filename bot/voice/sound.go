package voice

import (
	"bufio"
	"errors"
	"io"
	"time"
)

// Rate is how many samples a second of sound has.
const Rate = 16000

// Sound is what was recorded, one channel, [Rate] samples a second.
type Sound []int16

// Length is how long it lasts.
func (s Sound) Length() time.Duration {
	return time.Duration(len(s)) * time.Second / Rate
}

// What can be wrong with a recording.
var (
	ErrFormat  = errors.New("voice: no Ogg Opus recording and no WAV of plain samples")
	ErrCutOff  = errors.New("voice: the recording breaks off")
	ErrTooLong = errors.New("voice: longer than what is listened to")
)

// Read reads a recording of at most a given length: Ogg with Opus, or WAV. It
// returns ErrFormat for anything else, and for what is damaged from the start,
// ErrCutOff for what breaks off in the middle, since what is missing may change
// what was asked, and ErrTooLong without reading the rest.
func Read(r io.Reader, most time.Duration) (Sound, error) {
	b := bufio.NewReader(r)
	limit := int(most * Rate / time.Second)
	switch start, _ := b.Peek(4); string(start) {
	case "OggS":
		return readOpus(b, limit)
	case "RIFF":
		return readWAV(b, limit)
	}
	return nil, ErrFormat
}
