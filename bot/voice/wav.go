package voice

import (
	"encoding/binary"
	"errors"
	"io"
)

// wavFormat is the part of a WAV file that says what its samples are.
type wavFormat struct {
	Coding, Channels   uint16
	Rate, BytesASecond uint32
	BytesASlot, Bits   uint16
}

// usable says whether it is plain samples of 16 bits at a rate that can be
// brought to ours.
func (f wavFormat) usable() bool {
	return f.Coding == 1 && f.Bits == 16 && (f.Channels == 1 || f.Channels == 2) && f.Rate >= 8000 && f.Rate <= 96000
}

// readWAV reads plain 16-bit samples, mixes two channels and brings them to our
// rate.
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
			if err := binary.Read(body, binary.LittleEndian, &format); err != nil {
				return nil, ErrFormat
			}
		case "data":
			if !format.usable() {
				return nil, ErrFormat
			}
			return format.samples(body, limit)
		}
		if _, err := io.Copy(io.Discard, body); err != nil {
			return nil, ErrFormat
		}
	}
}

func (f wavFormat) samples(r io.Reader, limit int) (Sound, error) {
	most := (limit + 1) * int(f.Rate) / Rate
	var mixed Sound
	slot := make([]int16, f.Channels)
	for {
		err := binary.Read(r, binary.LittleEndian, slot)
		switch {
		case errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF):
			return resample(mixed, int(f.Rate)), nil
		case err != nil:
			return nil, err
		case len(mixed) > most:
			return nil, ErrTooLong
		}
		sum := 0
		for _, s := range slot {
			sum += int(s)
		}
		mixed = append(mixed, int16(sum/len(slot)))
	}
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
