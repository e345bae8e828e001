package parser

import (
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
)

// What a number may stand for, and what it costs to take it so. The costs are
// our own judgment of how people write; only their order matters. Nothing is
// decided by one of them alone: the reading whose labels cost least together
// wins, and a close second is asked about.

// label is what one number is taken for.
type label struct {
	role  Role
	term  int // the element whose word claims the number; -1 if none does
	cost  float64
	angle geometry.Angle
	size  catalog.Size
	bare  bool // no word claims it
	count bool // how many, of something else
	odd   bool // there is no such pipe, or no such angle: kept for the refusal
}

// unclaimed is the cost of a number that stands for nothing: more than any
// reading in which it stands for something.
const unclaimed = 10

// labels lists what the number at element i may be taken for, behind those of the
// numbers before it.
func (s *scene) labels(out []label, i int) []label {
	q := s.elements[i].quantity
	out = append(out, label{role: Bare, term: -1, cost: unclaimed})
	if q.unit == grade {
		return append(out, label{role: Grade, term: s.claimant(i, Grade)})
	}
	if sched, ok := s.schedule(i); ok {
		return append(out, sched)
	}
	out = s.angleLabels(out, i, q)
	if l, ok := s.countLabel(i, q); ok {
		out = append(out, l)
	}
	if q.isLength() {
		out = s.roleLabels(out, i, q)
		out = s.sizeLabels(out, i, q)
		out = s.bareLabels(out, i, q)
	}
	return out
}

// between is the cost of what stands between a number and a word that claims
// it: nothing much for small words, more for a comma, most for another number.
func (s *scene) between(i, j int) float64 {
	from, to, cost := i+1, j, 0.05
	if j < i {
		from, to, cost = j+1, i, 0
	}
	for k := from; k < to; k++ {
		cost += s.weight(k)
	}
	if j > i && j+1 < len(s.elements) && s.elements[j+1].term.is(senseLink) && j+2 < len(s.elements) && s.elements[j+2].quantity != nil {
		cost += 1.6 // "set is 9": the word looks ahead
	}
	if s.asked(j) {
		cost += 1.2 // "what set, 45s": the word asks
	}
	if i < j && s.looksAhead(j) {
		cost += 1.6 // spaced 4, only have 45s: what it claims comes behind
	}
	return cost
}

// looksAhead says whether the word at j claims the number right behind it, and
// none before: lines 3/4 spaced 4 in, 3 tubos separados 15 cm.
func (s *scene) looksAhead(j int) bool {
	if !strings.HasSuffix(meant(s.elements[j].term, senseRole), "ahead") {
		return false
	}
	for j++; j < len(s.elements) && (s.elements[j].term.is(senseLink) || s.elements[j].term.is(senseAt)); j++ {
	}
	return j < len(s.elements) && s.elements[j].quantity != nil
}

// weight is what the element at k costs that stands between a number and its
// word: the end of a sentence as much as a comma, how many fittings there are
// hardly more than the word for them.
func (s *scene) weight(k int) float64 { return s.weights[k] }

func (s *scene) weightOf(k int) float64 {
	e := &s.elements[k]
	switch {
	case e.mark == "." && (k == 0 || s.elements[k-1].quantity == nil || s.elements[k-1].quantity.unit == noUnit):
		return 0.9 // in. and deg. have a dot of their own
	case s.countsFittings(k), k > 0 && s.countsFittings(k-1), meant(e.term, senseHint) == "between":
		return 0.2
	}
	return e.weight()
}

// weight is what an element costs by itself.
func (e *element) weight() float64 {
	switch {
	case e.quantity != nil && (e.quantity.plural || e.quantity.unit == degree):
		return 1.2
	case e.quantity != nil:
		return 2.2
	case e.mark == "\n":
		return 1.1
	case e.mark == ",":
		return 0.9
	case e.mark == ":" || e.mark == "=":
		return 0
	case e.mark != "", e.word != "":
		return 0.35
	case e.term.is(senseLink), e.term.is(senseAt), e.term.is(senseArticle):
		return 0.02
	case e.term.is(senseFor):
		return 1
	case e.term.is(senseFiller), e.term.is(senseBoth), e.term.is(senseWith), e.term.is(senseTo), e.term.is(senseAsk):
		return 0.2
	case e.term.is(senseAnd), e.term.is(senseBy):
		return 0.5
	case strings.HasPrefix(meant(e.term, senseRole), "wanted"):
		return 0.4 // has to be
	case e.term.is(senseRole):
		return 1.3
	}
	return 0.8
}
