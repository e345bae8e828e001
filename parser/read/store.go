package read

import (
	"bytes"
	"compress/gzip"
	_ "embed"
	"fmt"
	"io"
	"math"
	"sync"
)

//go:embed weights.gz
var weights []byte

// grain is how finely a weight is kept: a byte holds -127 to 127 of them.
const grain = 1.0 / 40

// grains is a weight as it is kept.
func grains(w float32) int8 {
	return int8(max(-127, min(127, math.Round(float64(w)/grain))))
}

// Learned is the model that comes with the program.
var Learned = sync.OnceValue(func() *Model {
	m, err := load(bytes.NewReader(weights))
	if err != nil {
		panic(err) // the file is embedded and tested
	}
	return m
})

// Save writes a model, with its weights rounded.
func (m *Model) Save(w io.Writer) error {
	z, err := gzip.NewWriterLevel(w, gzip.BestCompression)
	if err != nil {
		return err
	}
	b := make([]byte, len(m.w))
	for i, v := range m.w {
		b[i] = byte(grains(v))
	}
	if _, err := z.Write(b); err != nil {
		return err
	}
	return z.Close()
}

func load(r io.Reader) (*Model, error) {
	z, err := gzip.NewReader(r)
	if err != nil {
		return nil, fmt.Errorf("the reader's weights: %w", err)
	}
	b, err := io.ReadAll(z)
	if err != nil {
		return nil, fmt.Errorf("the reader's weights: %w", err)
	}
	if len(b) != 1<<modelBits {
		return nil, fmt.Errorf("the reader's weights: %d of them, not %d", len(b), 1<<modelBits)
	}
	m := NewModel()
	for i, v := range b {
		m.w[i] = float32(int8(v)) * grain
	}
	return m, nil
}

// Rounded is the model as it is read back when it was saved.
func (m *Model) Rounded() *Model {
	out := NewModel()
	for i, v := range m.w {
		out.w[i] = float32(grains(v)) * grain
	}
	return out
}
