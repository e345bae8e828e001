package read

import (
	"cmp"
	"slices"
	"sync"

	"dogleg/parser/ask"
	"dogleg/parser/measure"
)

// Model is the weights of the features, and a network.
type Model struct {
	w    []float32
	net  *network // nil: none
	mask uint32   // while teaching, for one lesson: what it passes over; 0: nothing
}

// How many of a hundred a lesson passes over, each time others: what is taught stands on
// many of them then, and not on a few words.
const (
	featuresPassed = 20
	signsPassed    = 15 // of those that the network sees
	heldPassed     = 5  // numbers of the network's last vectors
)

// passes says whether something is passed over under a mask.
func passes(what, mask, percent uint32) bool { return mask != 0 && mix(what, mask)%100 < percent }

// passes says whether a feature is passed over.
func (m *Model) passes(f feature) bool { return passes(f, m.mask, featuresPassed) }

// look is what the model's network makes of a message.
func (m *Model) look(x *message) *context {
	if m.net == nil {
		return nil
	}
	return m.net.look(x, m.mask)
}

const modelBits = 21

// NewModel is one that knows nothing.
func NewModel() *Model { return &Model{w: make([]float32, 1<<modelBits)} }

// blank knows nothing: a search by merit needs no weights. It is made for teaching
// alone.
var blank = sync.OnceValue(NewModel)

// dot adds up the weights of some features.
func (m *Model) dot(f []feature) float64 {
	s := float32(0)
	for _, i := range f {
		if !m.passes(i) {
			s += m.w[i>>(32-modelBits)]
		}
	}
	return float64(s)
}

// dotWith adds up the weights of some signs, each mixed with the same.
func (m *Model) dotWith(signs []uint32, with uint32) float64 {
	s := float32(0)
	for _, v := range signs {
		if i := mix(v, with); !m.passes(i) {
			s += m.w[i>>(32-modelBits)]
		}
	}
	return float64(s)
}

// Reading is one way to read a message, with its probability.
type Reading struct {
	Statements  []ask.Statement
	Probability float64
	TakenBack   bool              // the message is withdrawn behind all that is read of it
	Either      bool              // two readings are as good: it is to be asked which
	Passed      []measure.Measure // the figures that are taken for nothing
}

// Read lists the ways to read a message, the likeliest first. There are none of a
// message that is empty or too long.
func (m *Model) Read(text string, said Said) []Reading {
	x, ok := prepare(text, said)
	if !ok {
		return nil
	}
	s := &search{m: x, model: m, width: width, alike: mostAlike, keep: mostLabels}
	all := s.paths()
	out := make([]Reading, len(all))
	for i, p := range probabilities(all) {
		out[i] = Reading{Statements: x.statements(all[i]), Probability: p, TakenBack: x.takenBack(all[i]), Either: all[i].asked == either, Passed: passed(all[i])}
	}
	return likeliestFirst(out)
}

// passed are the figures that a path takes for nothing.
func passed(p *step) (out []measure.Measure) {
	for ; p != nil; p = p.before {
		if p.measure != nil && p.label.part == none {
			out = append(out, *p.measure)
		}
	}
	return out
}

// Gather puts readings that say the same together, with all their probability, the
// likeliest first.
func Gather(in []Reading, same func(a, b []ask.Statement) bool) []Reading {
	var out []Reading
	for _, r := range in {
		i := slices.IndexFunc(out, func(o Reading) bool { return same(o.Statements, r.Statements) })
		if i < 0 {
			out = append(out, r)
			continue
		}
		out[i].Probability += r.Probability
	}
	return likeliestFirst(out)
}

func likeliestFirst(r []Reading) []Reading {
	slices.SortStableFunc(r, func(a, b Reading) int { return cmp.Compare(b.Probability, a.Probability) })
	return r
}
