package read

import (
	"bytes"
	"cmp"
	"compress/gzip"
	_ "embed"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"sync"
)

//go:embed weights.gz
var weights []byte

// grain is how finely a feature's weight is kept: a byte holds -127 to 127 of them.
const grain = 1.0 / 40

// grains is a number in grains, as it is kept.
func grains(w, grain float32) int8 {
	return int8(max(-127, min(127, math.Round(float64(w)/float64(grain)))))
}

// Learned is the model that comes with the program.
var Learned = sync.OnceValue(func() *Model {
	m, err := load(bytes.NewReader(weights))
	if err != nil {
		panic(err) // the file is embedded and tested
	}
	return m
})

// Save writes a model, with its weights rounded: a byte for each feature's weight, and
// for each vector of the network the grain in which it is kept, and a byte for each of
// its numbers.
func (m *Model) Save(w io.Writer) error {
	z, err := gzip.NewWriterLevel(w, gzip.BestCompression)
	if err != nil {
		return err
	}
	b := make([]byte, 0, len(m.w))
	for _, v := range m.w {
		b = append(b, byte(grains(v, grain)))
	}
	for _, rows := range [][]float32{m.net.embed, m.net.dense} {
		for row := range slices.Chunk(rows, dim) {
			g := grainOf(row)
			b = binary.LittleEndian.AppendUint32(b, math.Float32bits(g))
			for _, v := range row {
				b = append(b, byte(grains(v, g)))
			}
		}
	}
	_, err = z.Write(b)
	return errors.Join(err, z.Close())
}

// grainOf is the grain in which a vector is kept: its largest number is 127 of them.
func grainOf(row []float32) float32 {
	most := float32(0)
	for _, v := range row {
		most = max(most, v, -v)
	}
	return cmp.Or(most/127, 1)
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
	m := NewModel()
	m.net = emptyNetwork()
	const kept = 4 + dim // bytes of a vector
	if want := len(m.w) + (len(m.net.embed)+len(m.net.dense))/dim*kept; len(b) != want {
		return nil, fmt.Errorf("the reader's weights: %d bytes of them, not %d", len(b), want)
	}
	for i := range m.w {
		m.w[i] = float32(int8(b[i])) * grain
	}
	b = b[len(m.w):]
	for _, rows := range [][]float32{m.net.embed, m.net.dense} {
		for row := range slices.Chunk(rows, dim) {
			g := math.Float32frombits(binary.LittleEndian.Uint32(b))
			for i := range row {
				row[i] = float32(int8(b[4+i])) * g
			}
			b = b[kept:]
		}
	}
	return m, nil
}

// Rounded is the model as it is read back when it was saved.
func (m *Model) Rounded() (*Model, error) {
	var b bytes.Buffer
	if err := m.Save(&b); err != nil {
		return nil, err
	}
	return load(&b)
}
