package voice

import (
	"encoding/binary"
	"errors"
	"io"
	"math"
)

// wavFormat is the part of a WAV file that says what its samples are.
type wavFormat struct {
	Coding, Channels   uint16
	Rate, BytesASecond uint32
	BytesASlot, Bits   uint16
}

// The ways in which samples are coded that are read: plain whole numbers, and
// those of which an extension says that they are plain.
const (
	plainSamples    = 1
	extendedSamples = 0xfffe
)

// usable says whether it is plain samples of 8, 16 or 24 bits at a rate that can
// be brought to ours.
func (f wavFormat) usable() bool {
	return f.Coding == plainSamples && (f.Bits == 8 || f.Bits == 16 || f.Bits == 24) &&
		(f.Channels == 1 || f.Channels == 2) && f.Rate >= 8000 && f.Rate <= 96000
}

// read reads what a format chunk says. Of an extended one the kind of samples
// stands behind its size, how many bits count, and which channels there are.
func (f *wavFormat) read(r io.Reader) error {
	if err := binary.Read(r, binary.LittleEndian, f); err != nil || f.Coding != extendedSamples {
		return err
	}
	var extension struct {
		Size, Bits uint16
		Channels   uint32
		Coding     uint16
	}
	if err := binary.Read(r, binary.LittleEndian, &extension); err != nil {
		return err
	}
	f.Coding = extension.Coding
	return nil
}

// readWAV reads plain samples, mixes two channels and brings them to our rate.
func readWAV(r io.Reader, limit int) (Sound, error) {
	var riff [12]byte
	if _, err := io.ReadFull(r, riff[:]); err != nil || string(riff[8:]) != "WAVE" {
		return nil, ErrFormat
	}
	var format wavFormat
	for {
		var chunk struct {
			Name [4]byte
			Size uint32
		}
		if err := binary.Read(r, binary.LittleEndian, &chunk); err != nil {
			return nil, ErrFormat
		}
		body := io.LimitReader(r, int64(chunk.Size)+int64(chunk.Size%2))
		switch string(chunk.Name[:]) {
		case "fmt ":
			if err := format.read(body); err != nil {
				return nil, ErrFormat
			}
		case "data":
			if !format.usable() {
				return nil, ErrFormat
			}
			return format.samples(body, int64(chunk.Size), limit)
		}
		if _, err := io.Copy(io.Discard, body); err != nil {
			return nil, ErrFormat
		}
	}
}

// samples reads the samples, of so many bytes as the file says. Who writes a file
// before its end is known says none, or as many as can be said.
func (f wavFormat) samples(r io.Reader, bytes int64, limit int) (Sound, error) {
	most := (limit + 1) * int(f.Rate) / Rate
	var mixed Sound
	width := int(f.Bits) / 8
	slot := make([]byte, width*int(f.Channels))
	for {
		_, err := io.ReadFull(r, slot)
		switch {
		case (errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF)) && bytes < math.MaxInt32 && int64(len(mixed)+1)*int64(len(slot)) <= bytes:
			return nil, ErrCutOff
		case errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF):
			return resample(mixed, int(f.Rate)), nil
		case err != nil:
			return nil, err
		case len(mixed) > most:
			return nil, ErrTooLong
		}
		sum := 0
		for at := 0; at < len(slot); at += width {
			sum += sample(slot[at : at+width])
		}
		mixed = append(mixed, int16(sum/int(f.Channels)))
	}
}

// sample is one sample in 16 bits. One of 8 bits has no sign: its middle is 128.
func sample(b []byte) int {
	if len(b) == 1 {
		return (int(b[0]) - 128) << 8
	}
	return int(int16(binary.LittleEndian.Uint16(b[len(b)-2:])))
}

// resample brings sound to our rate: each new sample is the mean of the old
// ones that it stands for, or lies on the line between the two around it.
func resample(old Sound, rate int) Sound {
	if rate == Rate {
		return old
	}
	made := make(Sound, len(old)*Rate/rate)
	for i := range made {
		from, to := float64(i)*float64(rate)/Rate, float64(i+1)*float64(rate)/Rate
		made[i] = old.mean(from, to)
	}
	return made
}

func (s Sound) mean(from, to float64) int16 {
	first, last := int(from), min(int(to), len(s)-1)
	if last-first < 1 || to-from < 1 {
		next := min(first+1, len(s)-1)
		share := from - float64(first)
		return int16(float64(s[first])*(1-share) + float64(s[next])*share)
	}
	sum := 0
	for _, sample := range s[first:last] {
		sum += int(sample)
	}
	return int16(sum / (last - first))
}

// writeWAV writes sound as a WAV file.
func writeWAV(w io.Writer, s Sound) error {
	head := struct {
		Riff   [4]byte
		Size   uint32
		Wave   [8]byte
		Length uint32
		Format wavFormat
		Data   [4]byte
		Bytes  uint32
	}{
		[4]byte([]byte("RIFF")), uint32(36 + 2*len(s)), [8]byte([]byte("WAVEfmt ")), 16,
		wavFormat{1, 1, Rate, 2 * Rate, 2, 16},
		[4]byte([]byte("data")), uint32(2 * len(s)),
	}
	if err := binary.Write(w, binary.LittleEndian, head); err != nil {
		return err
	}
	return binary.Write(w, binary.LittleEndian, []int16(s))
}
