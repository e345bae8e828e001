package read

import (
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas32"
)

// slope is how the score of a lesson's right paths, less that of its others, changes with
// a network's weights.
type slope struct {
	dense []float32
	rows  []uint32  // of signs' vectors
	embed []float32 // for these, one behind the other
	last  []float32 // for the last vectors of the places: how it changes from place to place
}

func (c *context) newSlope() *slope {
	return &slope{dense: make([]float32, denseSize), last: make([]float32, len(c.sums))}
}

// want asks that some views speak more for their step, by a factor.
func (c *context) want(g *slope, views []view, more float32) {
	for _, v := range views {
		w, dw := viewed(c.net.dense, v.as), viewed(g.dense, v.as)
		before, behind := vector(c.sums, v.from), vector(c.sums, v.to)
		begin, end := vector(g.last, v.from), vector(g.last, v.to)
		mean := more / float32(v.to-v.from)
		for i, x := range w {
			dw[i] += mean * (behind[i] - before[i])
			begin[i] += mean * x
			end[i] -= mean * x
		}
	}
}

// back finds the slope of the layers and of the signs' vectors from that of the last
// vectors: what want has asked is passed back through the network.
func (c *context) back(g *slope) {
	dh := g.last[:c.places*dim]
	for i := dim; i < len(dh); i++ {
		dh[i] += dh[i-dim]
	}
	for i, k := range c.kept {
		dh[i] *= k
	}
	for k := len(reaches) - 1; k >= 0; k-- {
		c.backThrough(g, dh, k)
	}
	for i, rows := range c.rows {
		for _, r := range rows {
			g.rows = append(g.rows, r)
			g.embed = append(g.embed, vector(dh, i)...)
		}
	}
}

// backThrough takes the slope of the vectors behind a layer to those before it.
func (c *context) backThrough(g *slope, dh []float32, k int) {
	w, _ := layer(c.net.dense, k)
	dw, db := layer(g.dense, k)
	data := make([]float32, len(dh))
	for i := range data {
		if c.held[k+1][i] > c.held[k][i] {
			data[i] = dh[i]
			db[i%dim] += dh[i]
		}
	}
	dz := matrix(c.places, dim, data)
	blas32.Gemm(blas.Trans, blas.NoTrans, 1, matrix(c.places, 3*dim, c.beside[k]), dz, 1, dw)
	dx := matrix(c.places, 3*dim, make([]float32, 3*len(dh)))
	blas32.Gemm(blas.NoTrans, blas.Trans, 1, dz, w, 0, dx)
	for i := range c.places {
		for side, j := range [3]int{i - reaches[k], i, i + reaches[k]} {
			if j >= 0 && j < c.places {
				add(vector(dh, j), vector(dx.Data, 3*i+side))
			}
		}
	}
}

// descent moves a network's weights, each the less the more it was moved (Adagrad).
type descent struct {
	squares *network // of the slopes, added up
	mean    *network // of the weights, over the time that counts
	moments int      // of that time
}

// How a network learns.
const (
	netRate  = 0.015
	netDecay = 1e-4
	everyFew = 16 // steps between two that count for the mean
)

func newDescent() *descent { return &descent{squares: emptyNetwork(), mean: emptyNetwork()} }

// move moves a network's weights by some lessons' slopes.
func (d *descent) move(n *network, all []gradient) {
	dense := make([]float32, denseSize)
	rows := map[uint32][]float32{}
	var order []uint32
	for _, g := range all {
		if g.slope == nil {
			continue
		}
		add(dense, g.slope.dense)
		for k, r := range g.slope.rows {
			if rows[r] == nil {
				rows[r] = make([]float32, dim)
				order = append(order, r)
			}
			add(rows[r], vector(g.slope.embed, k))
		}
	}
	descend(n.dense, d.squares.dense, dense, len(all))
	for _, r := range order {
		descend(vector(n.embed, int(r)), vector(d.squares.embed, int(r)), rows[r], len(all))
	}
}

func descend(w, squares, slope []float32, lessons int) {
	for i, v := range slope {
		if v == 0 {
			continue
		}
		v -= netDecay * w[i] * float32(lessons)
		squares[i] += v * v
		w[i] += netRate * v / float32(math.Sqrt(float64(squares[i])+1e-2))
	}
}

// count takes a network's weights into the mean.
func (d *descent) count(n *network) {
	d.moments++
	blend := func(mean, w []float32) {
		for i, v := range w {
			mean[i] += (v - mean[i]) / float32(d.moments)
		}
	}
	blend(d.mean.embed, n.embed)
	blend(d.mean.dense, n.dense)
}

// average is the network whose weights are the mean. A sign that no lesson has shown has
// no vector.
func (d *descent) average() *network {
	for i := range 1 << embedBits {
		if zero(vector(d.squares.embed, i)) {
			clear(vector(d.mean.embed, i))
		}
	}
	return d.mean
}

func zero(v []float32) bool {
	for _, x := range v {
		if x != 0 {
			return false
		}
	}
	return true
}
