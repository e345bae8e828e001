package read

import (
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas32"
)

// The features of a step name the words next to it, one by one. What the words further
// off make of these is seen by a small convolutional network. Each item of a message is
// a vector, the sum of the vectors of its signs; in each layer it takes up what the
// items on both sides of it hold, in the next layer further off. What a step does has a
// vector for each view that it takes of the items (views.go), and the products of these
// with the items' vectors are added to the step's score.

const (
	dim       = 48 // of a vector
	embedBits = 15 // signs are hashed to so many bits of rows
	layerSize = 3*dim*dim + dim
	denseSize = len(reaches)*layerSize + viewCount*dim
)

// reaches are how far apart the items are that each layer joins.
var reaches = [...]int{1, 2, 4, 8}

// network is the weights of the layers and of the views, and the vectors of signs. Both
// slices are rows of dim.
type network struct {
	embed []float32
	dense []float32 // the layers, and behind them the views
}

func emptyNetwork() *network {
	return &network{embed: make([]float32, dim<<embedBits), dense: make([]float32, denseSize)}
}

// newNetwork is one that has learned nothing: its views see nothing, and its other
// weights are by chance, so that they learn unlike things.
func newNetwork() *network {
	n := emptyNetwork()
	chance := rand.New(rand.NewPCG(3, 5))
	for i := range n.embed {
		n.embed[i] = 0.1 * (2*chance.Float32() - 1)
	}
	for k := range reaches {
		w, _ := layer(n.dense, k)
		for i := range w.Data {
			w.Data[i] = 0.12 * (2*chance.Float32() - 1)
		}
	}
	return n
}

// layer is the weights of one layer, as a matrix with rows for the item before, for the
// item itself and for the item behind; and what is added to their product.
func layer(dense []float32, k int) (w blas32.General, b []float32) {
	part := dense[k*layerSize : (k+1)*layerSize]
	return matrix(3*dim, dim, part[:3*dim*dim]), part[3*dim*dim:]
}

// viewed is the vector of a view.
func viewed(dense []float32, as int) []float32 { return vector(dense[len(reaches)*layerSize:], as) }

func vector(of []float32, i int) []float32 { return of[i*dim : (i+1)*dim] }

func matrix(rows, cols int, data []float32) blas32.General {
	return blas32.General{Rows: rows, Cols: cols, Stride: cols, Data: data}
}

// context is what a network makes of a message. Its first place is what was said before,
// the others are the items.
type context struct {
	net    *network
	places int
	rows   [][]uint32  // the signs' vectors that each place is the sum of
	held   [][]float32 // the places' vectors: first the sums, then what each layer makes
	beside [][]float32 // for each layer: the vectors of three places side by side
	kept   []float32   // while teaching: by what each number of the last vectors is multiplied
	sums   []float32   // of the last vectors before each place
}

// look makes the vectors of a message's items.
func (n *network) look(m *message, mask uint32) *context {
	c := &context{net: n, places: len(m.items) + 1}
	h := c.embedded(m, mask)
	for k, d := range reaches {
		w, b := layer(n.dense, k)
		x := c.sideBySide(h, d)
		z := make([]float32, len(h))
		for i := range c.places {
			copy(vector(z, i), b)
		}
		blas32.Gemm(blas.NoTrans, blas.NoTrans, 1, matrix(c.places, 3*dim, x), w, 1, matrix(c.places, dim, z))
		for i, v := range z {
			z[i] = h[i] + max(0, v)
		}
		h = z
		c.beside, c.held = append(c.beside, x), append(c.held, h)
	}
	h = c.passOver(h, mask)
	c.sums = make([]float32, len(h)+dim)
	for i, v := range h {
		c.sums[i+dim] = c.sums[i] + v
	}
	return c
}

// embedded are the places' vectors before any layer.
func (c *context) embedded(m *message, mask uint32) []float32 {
	h := make([]float32, c.places*dim)
	c.rows = make([][]uint32, c.places)
	for i := range c.places {
		signs := saidSigns(m)
		if i > 0 {
			signs = contextSigns(m, &m.items[i-1])
		}
		for _, s := range signs {
			if passes(s, mask, signsPassed) {
				continue
			}
			row := s >> (32 - embedBits)
			c.rows[i] = append(c.rows[i], row)
			add(vector(h, i), vector(c.net.embed, int(row)))
		}
	}
	c.held = append(c.held, h)
	return h
}

// sideBySide puts beside each place's vector those of the places d before and behind it.
func (c *context) sideBySide(h []float32, d int) []float32 {
	x := make([]float32, 3*len(h))
	for i := range c.places {
		for k, j := range [3]int{i - d, i, i + d} {
			if j >= 0 && j < c.places {
				copy(vector(x, 3*i+k), vector(h, j))
			}
		}
	}
	return x
}

// passOver is the last vectors with some of their numbers taken out, while teaching.
func (c *context) passOver(h []float32, mask uint32) []float32 {
	if mask == 0 {
		return h
	}
	h, c.kept = slices.Clone(h), make([]float32, len(h))
	for i := range h {
		if !passes(uint32(i), mask, heldPassed) {
			c.kept[i] = 1 / (1 - heldPassed/100.0)
		}
		h[i] *= c.kept[i]
	}
	return h
}

func add(to, from []float32) {
	for i, v := range from {
		to[i] += v
	}
}

// contextSigns are the signs of an item for the network: a word that is not in the
// vocabulary has those of its parts, too, and a number what it may be.
func contextSigns(m *message, it *item) []uint32 {
	out := slices.Clone(m.signs(it))
	switch {
	case it.number:
		for k, x := range m.measures[it.from] {
			if k == 2 {
				break
			}
			out = append(out, mix(mix(fBin, bin(x.Number)), formOf(&x)), mix(fValue, hashOf(valueClass(&x))))
			if k == 0 {
				out = m.remembered(out, &x)
			}
		}
	case it.term == nil:
		text := "<" + it.text + ">"
		for k := range max(0, len(text)-2) {
			out = append(out, mix(fSpelled, hashOf(text[k:k+3])))
		}
	}
	return out
}

// saidSigns are the signs of what was said before.
func saidSigns(m *message) []uint32 {
	out := []uint32{mix(fContext, 11), mix(mix(fContext, 12), m.lastUnits())}
	if m.said.Wanted != "" {
		out = append(out, mix(mix(fContext, 13), hashOf(string(m.said.Wanted))))
	}
	if a := m.said.Last; a != nil {
		out = append(out, mix(mix(fContext, 14), hashOf(string(a.Kind))))
	}
	return out
}
