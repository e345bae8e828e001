package voice_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"testing"
	"time"

	"dogleg/bot/voice"
)

// page is a page of Ogg that holds whole packets.
func page(serial uint32, packets ...[]byte) []byte {
	head := []byte("OggS\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00")
	binary.LittleEndian.PutUint32(head[14:], serial)
	var lacing, body []byte
	for _, p := range packets {
		body = append(body, p...)
		n := len(p)
		for ; n >= 255; n -= 255 {
			lacing = append(lacing, 255)
		}
		lacing = append(lacing, byte(n))
	}
	head[26] = byte(len(lacing))
	return append(append(head, lacing...), body...)
}

// opus begins a stream of Opus that skips so many samples at its start.
func opus(skip uint16) []byte {
	head := []byte("OpusHead\x01\x01\x00\x00\x80\xbb\x00\x00\x00\x00\x00")
	binary.LittleEndian.PutUint16(head[10:], skip)
	return append(page(1, head), page(1, []byte("OpusTags\x00\x00\x00\x00\x00\x00\x00\x00"))...)
}

// TestBombs: recordings that are small and unpack to much, or to nothing for
// long, are given up at the length that is listened to.
func TestBombs(t *testing.T) {
	silence := bytes.Repeat([]byte{0x08 | 3<<3}, 1) // a packet of 60 ms that holds nothing else
	many := make([][]byte, 255)
	for i := range many {
		many[i] = silence
	}
	hour := bytes.Repeat(page(1, many...), 240) // 15 s to the page
	empty := make([][]byte, 255)
	huge := page(1, bytes.Repeat([]byte{1}, 255*254))
	huge[26], huge[27+254-1] = 254, 255 // a packet that goes on on the next page, for ever
	for name, c := range map[string]struct {
		content []byte
		want    error // nil: any, or none
	}{
		"an hour in 130 kB":            {append(opus(0), hour...), voice.ErrTooLong},
		"skipping all of it":           {append(opus(65535), hour...), voice.ErrTooLong},
		"empty packets":                {append(opus(0), bytes.Repeat(page(1, empty...), 4000)...), nil},
		"other streams":                {append(opus(0), bytes.Repeat(page(2, many...), 4000)...), nil},
		"a packet without an end":      {append(opus(0), bytes.Repeat(huge, 100)...), voice.ErrFormat},
		"20 MB of nothing":             {make([]byte, 20<<20), voice.ErrFormat},
		"20 MB of OggS":                {bytes.Repeat([]byte("OggS"), 5<<20), voice.ErrFormat},
		"0 bytes":                      {nil, voice.ErrFormat},
		"a WAV of gigabytes":           {append(tone(8000, 2, time.Second)[:40], bytes.Repeat([]byte{0xff}, 20<<20)...), voice.ErrTooLong},
		"a WAV of one sample a second": {wav(1, 20<<10), nil},
		"a WAV of billions":            {wav(1<<32-1, 1<<20), nil},
		"a WAV of none":                {wav(0, 1<<20), nil},
	} {
		sound, err := voice.Read(bytes.NewReader(c.content), time.Minute)
		if c.want != nil && !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
		if sound.Length() > time.Minute+150*time.Millisecond {
			t.Errorf("%s lasts %v", name, sound.Length())
		}
	}
}

// wav says that it has so many samples a second.
func wav(rate uint32, bytes int) []byte {
	content := append(tone(8000, 1, time.Second)[:44], make([]byte, bytes)...)
	binary.LittleEndian.PutUint32(content[24:], rate)
	binary.LittleEndian.PutUint32(content[40:], uint32(bytes))
	return content
}
