package read

// Model is the weights of the features.
type Model struct {
	w []float32
}

const modelBits = 21

// NewModel is one that knows nothing.
func NewModel() *Model { return &Model{w: make([]float32, 1<<modelBits)} }

// NewModelOf is one with so few weights that it can only rank by merit.
func NewModelOf(int) *Model { return blank }

var blank = NewModel()

func (m *Model) dot(f []feature) float64 {
	s := float32(0)
	for _, i := range f {
		s += m.w[i>>(32-modelBits)]
	}
	return float64(s)
}

// dotWith adds up the weights of some signs, each mixed with the same.
func (m *Model) dotWith(signs []uint32, with uint32) float64 {
	s := float32(0)
	for _, v := range signs {
		s += m.w[mix(v, with)>>(32-modelBits)]
	}
	return float64(s)
}
