package voice_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"math"
	"os"
	"testing"
	"time"

	"dogleg/bot/voice"
)

const recording = "../../testdata/voice/people/cen7-fclc-b.ogg"

// The recording's length is that which its last page states: the samples at
// 48 kHz less those to skip at the start (RFC 7845, section 4).
func TestOpusNote(t *testing.T) {
	content, err := os.ReadFile(recording)
	if err != nil {
		t.Fatal(err)
	}
	sound, err := voice.Read(bytes.NewReader(content), time.Minute)
	if err != nil {
		t.Fatal(err)
	}
	last := bytes.LastIndex(content, []byte("OggS"))
	end := binary.LittleEndian.Uint64(content[last+6:])
	skip := binary.LittleEndian.Uint16(content[bytes.Index(content, []byte("OpusHead"))+10:])
	want := time.Duration(end-uint64(skip)) * time.Second / 48000
	if off := sound.Length() - want; off < 0 || off > 120*time.Millisecond {
		t.Errorf("lasts %v, states %v", sound.Length(), want)
	}
	loudest := 0
	for _, s := range sound {
		loudest = max(loudest, int(s))
	}
	if loudest < 1000 {
		t.Errorf("somebody speaks in it, and the loudest sample is %d", loudest)
	}
}

func TestTooLong(t *testing.T) {
	f, err := os.Open(recording)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if _, err := voice.Read(f, time.Second); !errors.Is(err, voice.ErrTooLong) {
		t.Errorf("got %v", err)
	}
	if _, err := voice.Read(bytes.NewReader(tone(16000, 1, 2*time.Second)), time.Second); !errors.Is(err, voice.ErrTooLong) {
		t.Errorf("WAV: got %v", err)
	}
}

// tone is a WAV file of a tone of 200 Hz with an amplitude of 10,000.
func tone(rate, channels int, length time.Duration) []byte {
	var b bytes.Buffer
	n := int(length*time.Duration(rate)/time.Second) * channels
	b.WriteString("RIFF")
	write := func(v any) { _ = binary.Write(&b, binary.LittleEndian, v) }
	write(uint32(36 + 2*n))
	b.WriteString("WAVEfmt ")
	write([]uint32{16})
	write([]uint16{1, uint16(channels)})
	write([]uint32{uint32(rate), uint32(2 * rate * channels)})
	write([]uint16{uint16(2 * channels), 16})
	b.WriteString("data")
	write(uint32(2 * n))
	for i := range n {
		at := float64(i/channels) / float64(rate)
		write(int16(10000 * math.Sin(2*math.Pi*200*at)))
	}
	return b.Bytes()
}

// Whatever the rate, the tone comes out as long, as loud and as high.
func TestWAV(t *testing.T) {
	for _, rate := range []int{8000, 16000, 22050, 32000, 44100, 48000} {
		for _, channels := range []int{1, 2} {
			sound, err := voice.Read(bytes.NewReader(tone(rate, channels, time.Second)), time.Minute)
			if err != nil {
				t.Errorf("%d Hz: %v", rate, err)
				continue
			}
			if off := sound.Length() - time.Second; off.Abs() > time.Millisecond {
				t.Errorf("%d Hz, %d channels: lasts %v", rate, channels, sound.Length())
			}
			rises, power := 0, 0.0
			for i := 1; i < len(sound); i++ {
				if sound[i-1] < 0 && sound[i] >= 0 {
					rises++
				}
				power += float64(sound[i]) * float64(sound[i])
			}
			if rises < 199 || rises > 201 {
				t.Errorf("%d Hz, %d channels: %d waves, want 200", rate, channels, rises)
			}
			if loud := math.Sqrt(2 * power / float64(len(sound))); loud < 9700 || loud > 10100 {
				t.Errorf("%d Hz, %d channels: amplitude %.0f, want 10000", rate, channels, loud)
			}
		}
	}
}

// Samples of 8 and of 24 bits sound as those of 16, and so do those of which an
// extension says that they are plain.
func TestWAVOfOtherBits(t *testing.T) {
	plain := tone(16000, 2, time.Second)
	want, err := voice.Read(bytes.NewReader(plain), time.Minute)
	if err != nil {
		t.Fatal(err)
	}
	for _, bits := range []int{8, 24} {
		var b bytes.Buffer
		b.Write(plain[:44])
		for at := 44; at < len(plain); at += 2 {
			s := int16(binary.LittleEndian.Uint16(plain[at:]))
			if bits == 8 {
				b.WriteByte(byte(int(s)>>8 + 128))
			} else {
				b.Write([]byte{0x7f, byte(s), byte(s >> 8)})
			}
		}
		content := b.Bytes()
		binary.LittleEndian.PutUint16(content[34:], uint16(bits))
		binary.LittleEndian.PutUint16(content[32:], uint16(2*bits/8))
		binary.LittleEndian.PutUint32(content[40:], uint32(len(content)-44))
		got, err := voice.Read(bytes.NewReader(content), time.Minute)
		if err != nil || len(got) != len(want) {
			t.Fatalf("%d bits: %d samples, want %d, %v", bits, len(got), len(want), err)
		}
		for i := range got {
			if off := int(got[i]) - int(want[i]); off < -256 || off > 256 || bits == 24 && off != 0 {
				t.Fatalf("%d bits: sample %d is %d, want %d", bits, i, got[i], want[i])
			}
		}
	}
	extended := append(append([]byte{}, plain[:16]...), 40, 0, 0, 0)
	extended = append(append(extended, 0xfe, 0xff), plain[22:36]...)
	extended = append(extended, 22, 0, 16, 0, 3, 0, 0, 0, 1, 0)
	extended = append(extended, "\x00\x00\x00\x00\x10\x00\x80\x00\x00\xaa\x00\x38\x9b\x71"...)
	extended = append(extended, plain[36:]...)
	if got, err := voice.Read(bytes.NewReader(extended), time.Minute); err != nil || len(got) != len(want) {
		t.Errorf("extended: %d samples, want %d, %v", len(got), len(want), err)
	}
}

// What breaks off is told, and not heard as if it were whole.
func TestCutOff(t *testing.T) {
	note, err := os.ReadFile(recording)
	if err != nil {
		t.Fatal(err)
	}
	for name, content := range map[string][]byte{
		"Opus": note[:2*len(note)/3],
		"WAV":  tone(16000, 2, time.Second)[:40000],
	} {
		if _, err := voice.Read(bytes.NewReader(content), time.Minute); !errors.Is(err, voice.ErrCutOff) {
			t.Errorf("%s: got %v", name, err)
		}
	}
}

func TestWhatIsNoRecording(t *testing.T) {
	for name, content := range map[string][]byte{
		"nothing":          nil,
		"text":             []byte("12 set 45s 1-1/2 pvc"),
		"Ogg of no Opus":   []byte("OggS\x00\x02\x00\x00\x00\x00\x00\x00\x00\x00abcd\x00\x00\x00\x00\x00\x00\x00\x00\x01\x03abc"),
		"a page cut short": []byte("OggS\x00\x02"),
		"WAV cut short":    []byte("RIFF\x00\x00\x00\x00WAVEfmt "),
		"WAV of floats":    bytes.Replace(tone(16000, 1, time.Second), []byte("\x10\x00\x00\x00\x01\x00"), []byte("\x10\x00\x00\x00\x03\x00"), 1),
	} {
		if _, err := voice.Read(bytes.NewReader(content), time.Minute); !errors.Is(err, voice.ErrFormat) {
			t.Errorf("%s: got %v", name, err)
		}
	}
}

// Whatever comes from outside: no panic, and no more sound than was asked for.
func FuzzRead(f *testing.F) {
	note, err := os.ReadFile(recording)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(note[:4000])
	f.Add(tone(8000, 2, 100*time.Millisecond))
	f.Fuzz(func(t *testing.T, content []byte) {
		sound, err := voice.Read(bytes.NewReader(content), time.Second)
		if err != nil && sound != nil {
			t.Error("a sound with an error")
		}
		if sound.Length() > time.Second+150*time.Millisecond {
			t.Errorf("lasts %v", sound.Length())
		}
	})
}
