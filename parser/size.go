package parser

import (
	"math"

	"dogleg/catalog"
	"dogleg/geometry"
)

// schedule reads the number after "schedule": 40, 80.
func (s *scene) schedule(i int) (label, bool) {
	if i == 0 || !s.elements[i-1].term.is(senseScheduled) {
		return label{}, false
	}
	return label{role: PipeOf, term: i - 1}, true
}

// sizeLabels takes the number for the size of the pipe.
func (s *scene) sizeLabels(out []label, i int, q *quantity) []label {
	size := sizeOf(q)
	if size == "" || q.unit == foot {
		return out
	}
	for j := range s.elements {
		e := &s.elements[j]
		m, ok := e.term.means(senseMaterial)
		if !ok {
			if e.term.is(senseJoint) || e.term.is(senseUse) {
				ok = s.material == ""
			}
			m = string(s.material)
		}
		if !ok {
			continue
		}
		cost := s.sizeCost(i, j)
		if cost > 3 {
			continue
		}
		l := label{role: SizeOf, term: j, size: size, cost: cost}
		if l.size, ok = realSize(catalog.Material(m), size, q); !ok {
			l.odd, l.cost, l.size = true, cost+oddSize(q, cost), size
		}
		out = append(out, l)
	}
	return s.sizeWithout(out, i, q, size)
}

// oddSize is the added cost of a size that there is not: less where its inches stand
// right before the material, so that they are refused and not taken for a length.
func oddSize(q *quantity, between float64) float64 {
	if between == 0 && q.unit == inch && !q.weak {
		return 1.2 // 3 inch CPVC
	}
	return 4
}

// sizeCost is what stands between a size and its material; the size comes
// before it more often than after.
func (s *scene) sizeCost(i, j int) float64 {
	if j < i {
		return s.between(i, j) + 0.5
	}
	cost := 0.0
	for k := i + 1; k < j; k++ {
		if s.isSchedule(k) || s.elements[k].term.is(senseMaterial) {
			continue
		}
		cost += s.weight(k)
	}
	return cost
}

func (s *scene) isSchedule(k int) bool {
	if s.elements[k].term.is(senseScheduled) {
		return true
	}
	return k > 0 && s.elements[k].quantity != nil && s.elements[k-1].term.is(senseScheduled)
}

// sizeWithout takes the number for a size where no material stands near it.
func (s *scene) sizeWithout(out []label, i int, q *quantity, size catalog.Size) []label {
	real, ok := realSize(s.material, size, q)
	if !ok {
		return out
	}
	cost := 3.0
	switch {
	case q.unit == inch && s.names(TakeoffOf):
		cost = 0.8
	case q.unit == inch:
		cost = 1.6
	}
	for j, e := range s.elements {
		if e.term.is(sensePipe) && j > i && !(isPlural(e) && s.bank()) || e.term.is(senseSize) {
			cost = min(cost, s.between(i, j)+0.1)
		}
	}
	return append(out, label{role: SizeOf, term: -1, size: real, cost: cost})
}

// isPlural says whether a word names several pipes.
func isPlural(e element) bool { return e.text == "pipes" || e.text == "tubos" }

// sizeOf is the name of the pipe size that a number would be.
func sizeOf(q *quantity) catalog.Size {
	if q.value <= 0 || q.value > 400 {
		return ""
	}
	if q.unit == metric {
		return catalog.Size(q.length().Metric(0))
	}
	t := q.length().Tape(geometry.ThirtySeconds)
	if math.Abs((t.Length()-q.length()).Inches()) > 1e-9 || t.Negative {
		return ""
	}
	return catalog.Size(t.String())
}

// realSize says whether there is such a pipe in the material; in any of them if
// none was said. A bare 22 beside copper may be a metric one.
func realSize(m catalog.Material, size catalog.Size, q *quantity) (catalog.Size, bool) {
	if catalog.Sold(m, size) {
		return size, true
	}
	if m == "" || q.unit != noUnit || !q.whole {
		return "", false
	}
	named := size + " mm"
	return named, catalog.Sold(m, named)
}
