package voice

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"

	"github.com/pion/opus"
)

// packets takes the packets out of the pages of an Ogg stream (RFC 3533). It
// doesn't check the pages' sums: a note comes by way of TCP and TLS.
type packets struct {
	r       io.Reader
	lacing  []byte // of the page that is being read, what is left of it
	part    []byte // of a packet that goes on
	serial  uint32
	started bool
}

// next returns the next packet of the first stream, or io.EOF.
func (p *packets) next() ([]byte, error) {
	for {
		for len(p.lacing) > 0 {
			n := int(p.lacing[0])
			p.lacing = p.lacing[1:]
			piece := make([]byte, n)
			if _, err := io.ReadFull(p.r, piece); err != nil {
				return nil, brokenOff(err)
			}
			p.part = append(p.part, piece...)
			if len(p.part) > mostPacket {
				return nil, ErrFormat
			}
			if n < 255 {
				whole := p.part
				p.part = nil
				return whole, nil
			}
		}
		if err := p.page(); err != nil {
			return nil, err
		}
	}
}

// mostPacket is more than any Opus packet or the tags of a recording hold.
const mostPacket = 256 << 10

// page reads the head of the next page of the stream, passing over others.
func (p *packets) page() error {
	var head [27]byte
	for {
		switch _, err := io.ReadFull(p.r, head[:]); {
		case errors.Is(err, io.EOF) && len(p.part) == 0:
			return io.EOF
		case err != nil:
			return brokenOff(err)
		}
		if string(head[:4]) != "OggS" {
			return ErrFormat
		}
		lacing := make([]byte, head[26])
		if _, err := io.ReadFull(p.r, lacing); err != nil {
			return brokenOff(err)
		}
		serial := binary.LittleEndian.Uint32(head[14:])
		if !p.started {
			p.serial, p.started = serial, true
		}
		if serial == p.serial {
			p.lacing = lacing
			return nil
		}
		var size int64
		for _, n := range lacing {
			size += int64(n)
		}
		if _, err := io.CopyN(io.Discard, p.r, size); err != nil {
			return brokenOff(err)
		}
	}
}

// brokenOff is the error of a stream that ends within a page or a packet.
func brokenOff(err error) error {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return ErrCutOff
	}
	return err
}

// readOpus decodes Opus in Ogg (RFC 7845).
func readOpus(r io.Reader, limit int) (Sound, error) {
	p := &packets{r: r}
	head, err := p.next()
	if err != nil || len(head) < 19 || !bytes.HasPrefix(head, []byte("OpusHead")) {
		return nil, ErrFormat
	}
	if _, err := p.next(); err != nil { // the tags
		return nil, ErrFormat
	}
	skip := int(binary.LittleEndian.Uint16(head[10:])) * Rate / 48000
	decoder, err := opus.NewDecoderWithOutput(Rate, 1)
	if err != nil {
		return nil, err
	}
	var sound Sound
	frame := make([]int16, Rate*120/1000) // the longest packet is 120 ms
	for {
		packet, err := p.next()
		switch {
		case errors.Is(err, io.EOF):
			return sound[min(skip, len(sound)):], nil
		case err != nil:
			return nil, err
		case len(packet) == 0:
			continue
		}
		n, err := decodePacket(&decoder, packet, frame)
		if err != nil {
			return nil, err
		}
		sound = append(sound, frame[:n]...)
		if len(sound)-skip > limit {
			return nil, ErrTooLong
		}
	}
}

// decodePacket decodes one packet. A packet that the decoder chokes on makes
// the recording damaged, not the program.
func decodePacket(d *opus.Decoder, packet []byte, frame []int16) (n int, err error) {
	defer func() {
		if recover() != nil {
			n, err = 0, ErrFormat
		}
	}()
	if n, err = d.DecodeToInt16(packet, frame); err != nil {
		return 0, ErrFormat
	}
	return n, nil
}
