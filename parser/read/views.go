package read

import (
	"slices"

	"dogleg/parser/ask"
	"dogleg/parser/measure"
)

// view is what a step sees of a message through the network: the mean of some places'
// vectors, by a vector of its own.
type view struct {
	as       int // the number of its own vector
	from, to int // places
}

// The numbers of the views' vectors: a part that a number is taken for, and whether the
// tape was laid in a way of its own; a bare number's unit; how it is reckoned; what is done with a word; what
// a stretch says and how, as a whole, by its first and by its last item; what it says by
// the item behind it; a command's verb as a whole and by its first item.
const (
	viewNumber = 0
	viewScale  = viewNumber + 2*int(partCount)
	viewBy     = viewScale + 2*scaleCount
	viewFact   = viewBy + reckoningCount
	viewEnd    = viewFact + useCount*factCount
	viewNext   = viewEnd + 3*4*int(sayingCount)
	viewVerb   = viewNext + int(sayingCount)
	viewCount  = viewVerb + 2*verbCount
)

// numberViews are those of taking a measure for a label.
func numberViews(m *message, out []view, x *measure.Measure, l label) []view {
	from, to := m.itemAt[x.From]+1, m.itemAt[x.To-1]+2
	laid := 0
	if l.method > 0 {
		laid = 1
	}
	out = append(out, view{viewNumber + 2*int(l.part) + laid, from, to})
	if l.by != told {
		out = append(out, view{viewBy + int(l.by), from, to})
	}
	if l.scale == asSaid {
		return out
	}
	as := viewScale + int(l.scale)
	if parts[l.part].sort == aSize {
		as += scaleCount
	}
	return append(out, view{as, from, to})
}

// factViews are those of an item that is taken or left.
func factViews(m *message, out []view, p *step) []view {
	index, u := p.item()
	sense := slices.IndexFunc(facts[:], m.items[index].has)
	return append(out, view{viewFact + useCount*sense + int(u), index + 1, index + 2})
}

// endViews are those of a stretch that says something.
func endViews(m *message, out []view, e *ending) []view {
	from, to := m.itemAt[e.from]+1, m.itemAt[e.to-1]+2
	as := viewEnd + 3*(4*int(e.saying)+int(howOf(e)))
	out = append(out, view{as, from, to}, view{as + 1, from, from + 1}, view{as + 2, to - 1, to})
	if to <= len(m.items) {
		out = append(out, view{viewNext + int(e.saying), to, to + 1})
	}
	if e.saying == command {
		as = viewVerb + 2*verbAt[e.verb]
		out = append(out, view{as, from, to}, view{as + 1, from, from + 1})
	}
	return out
}

// verbAt is the place of each verb among them.
var verbAt = func() map[ask.Verb]int {
	all := map[ask.Verb]int{}
	for i, v := range verbs {
		all[v] = i
	}
	return all
}()

// viewsOf are all those of a step.
func viewsOf(m *message, out []view, p *step) []view {
	switch {
	case p.ending != nil:
		return endViews(m, out, p.ending)
	case p.measure != nil:
		return numberViews(m, out, p.measure, p.label)
	case p.fact != 0:
		return factViews(m, out, p)
	}
	return out
}

// score is how much some views speak for their step; nothing without a network.
func (c *context) score(views []view) (s float64) {
	if c == nil {
		return 0
	}
	for _, v := range views {
		before, behind := vector(c.sums, v.from), vector(c.sums, v.to)
		product := float32(0)
		for i, w := range viewed(c.net.dense, v.as) {
			product += w * (behind[i] - before[i])
		}
		s += float64(product) / float64(v.to-v.from)
	}
	return s
}
