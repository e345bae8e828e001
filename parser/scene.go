package parser

import (
	"slices"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
)

// scene is one statement laid out for reading: its elements, and what its
// words say before any number is given a role.
type scene struct {
	text          string
	elements      []element
	material      catalog.Material
	hints         []string
	roles         []Role   // that some word names for sure
	senses        senseSet // of all the words
	welded        bool     // a butt weld is spoken of
	twoLines      bool     // the places of two lines are told
	asksSet       bool     // the set is what is asked for
	otherMaterial string   // a second one that contradicts the first
	broken        int      // numbers cut up otherwise than they look
	cutting       float64  // what that costs
	second        int      // the element that a number was cut off into, where one was

	// What is asked for every number and every word near it is looked for once.
	weights   []float64 // what each element costs that stands between
	asks      bool      // something is asked
	fall      bool      // one is spoken of
	trimmed   bool      // an elbow is to be cut down
	lineCount int       // the element that says how many lines there are, or -1
}

func newScene(text string, elements []element, broken int) *scene {
	s := &scene{text: text, elements: elements, broken: broken}
	for i := range elements {
		e := &elements[i]
		if m, ok := e.term.means(senseMaterial); ok && s.material == "" {
			s.material = catalog.Material(m)
		}
		if e.term == nil {
			continue
		}
		s.senses |= e.term.senses
		s.welded = s.welded || isWeld(e)
		for _, m := range e.term.meanings {
			switch {
			case m.what == senseHint:
				hint, _, _ := strings.Cut(m.value, " ")
				s.hints = append(s.hints, hint)
			case m.what == senseRole && !strings.Contains(m.value, " soft"):
				role, _, _ := strings.Cut(m.value, " ")
				s.roles = append(s.roles, Role(role))
			}
		}
	}
	s.look()
	s.twoLines, s.asksSet = s.tellsTwoLines(), s.wantsSet()
	return s
}

// look settles what the rest of the reading asks for again and again.
func (s *scene) look() {
	s.weights = make([]float64, len(s.elements))
	for k := range s.elements {
		s.weights[k] = s.weightOf(k)
	}
	s.asks = s.has(senseAsk) || strings.Contains(s.text, "?")
	s.fall, s.trimmed = s.saysFall(), s.saysTrim()
	s.lineCount = s.findLineCount()
}

func (s *scene) hint(h string) bool  { return slices.Contains(s.hints, h) }
func (s *scene) hasRole(r Role) bool { return slices.Contains(s.roles, r) }
func (s *scene) has(what sense) bool { return s.senses.has(what) }

// falls says whether a fall is spoken of: by a word, or by a grade.
func (s *scene) falls() bool { return s.fall }

func (s *scene) saysFall() bool {
	return s.hint("fall") || s.feetAtFraction() || s.feetThatDrop() || anyOf(s.elements, func(e *element) bool {
		return e.quantity != nil && e.quantity.unit == grade
	})
}

// feetThatDrop says whether a length in feet is asked the drop of, with no bend
// in sight.
func (s *scene) feetThatDrop() bool {
	feet := false
	for i := range s.elements {
		e := &s.elements[i]
		if q := e.quantity; q != nil {
			if q.plural || q.unit == degree || s.besideBend(i) {
				return false
			}
			feet = feet || q.unit == foot || q.named == "m"
		}
	}
	return feet && s.names(Drop)
}

// feetAtFraction says whether a length in feet and a part of an inch "at" which
// it goes make a fall: 30 ft at 1/8.
func (s *scene) feetAtFraction() bool {
	feet, at := false, false
	for i := range s.elements {
		e := &s.elements[i]
		q := e.quantity
		switch {
		case q == nil:
		case q.plural || q.unit == degree:
			return false
		case q.unit == foot || q.named == "m":
			feet = true
		case i > 0 && s.elements[i-1].term.is(senseAt) && isAmount(q):
			at = true
		}
	}
	return feet && at
}

// bank says whether three lines or more are spoken of.
func (s *scene) bank() bool { return s.bankAt() >= 0 || s.hint("parallel") }

// bankAt is the place of the number that says how many lines there are: "three
// lines", "four 2 inch pipes". It is -1 where there is none.
func (s *scene) bankAt() int { return s.lineCount }

func (s *scene) findLineCount() int {
	fewest := 3.0
	if s.hint("parallel") {
		fewest = 2
	}
	for i := range s.elements {
		e := &s.elements[i]
		q := e.quantity
		if q == nil || !q.whole || q.unit != noUnit || q.plural || q.number < fewest || q.number > 40 || s.plainlyAngle(i) {
			continue
		}
		if i > 1 && s.elements[i-1].text == "of" && meant(s.elements[i-2].term, senseHint) == "parallel" {
			return i // a bank of 6
		}
		for _, next := range s.elements[i+1 : min(i+5, len(s.elements))] {
			if next.text == "pipes" || next.text == "tubos" || strings.HasPrefix(meant(next.term, senseRole), string(LineCount)) {
				return i
			}
			if next.mark != "" || next.term.is(senseRole) {
				break
			}
		}
	}
	return -1
}

// opensWithSame says whether a follow-up begins the statement: same but 14.
func (s *scene) opensWithSame() bool {
	for i := range s.elements {
		e := &s.elements[i]
		if i < 3 && meant(e.term, senseHint) == "same" {
			return true
		}
	}
	return false
}

// pieces says whether a straight piece is spoken of: plainly, or by what it is
// between.
func (s *scene) pieces() bool {
	spoken := s.hint("piece") || s.hint("between") && (s.has(senseFitting) || s.onlyNineties() || s.unlikeBends() || (s.elbows() || s.says("fittings")) && !s.hasRole(Set))
	return spoken && !s.asksSet && (!s.linesApart() || s.onlyNineties())
}

// linesApart says whether it is told how far apart two lines are, whatever else is
// between fittings: the pipes are 4 apart on centers.
func (s *scene) linesApart() bool {
	for j := range s.elements {
		e := &s.elements[j]
		if !slices.Contains([]string{"pipes", "lines", "pipes are", "tubos", "líneas", "lineas"}, e.text) {
			continue
		}
		k := j + 1
		for k < len(s.elements) && (s.elements[k].term.is(senseLink) || s.elements[k].term.is(senseFiller) || s.elements[k].term.is(senseArticle) || s.elements[k].term.is(senseAt) || s.looksAhead(k)) {
			k++
		}
		if k < len(s.elements) && isPlainLength(s.elements[k].quantity) && s.looksAhead(k-1) {
			return true
		}
		if k+1 < len(s.elements) && isPlainLength(s.elements[k].quantity) && (strings.HasPrefix(meant(s.elements[k+1].term, senseRole), string(Spacing)) || onCenters(s.elements[k+1])) {
			return true
		}
	}
	return false
}

// elbows says whether elbows are spoken of, and of no angle.
func (s *scene) elbows() bool {
	ells := anyOf(s.elements, func(e *element) bool {
		return slices.Contains([]string{"ell", "ells", "els", "elbow", "elbows", "codo", "codos"}, e.text)
	})
	return ells && !anyOf(s.elements, func(e *element) bool {
		return e.quantity != nil && (e.quantity.plural || e.quantity.unit == degree || usualAngle(e.quantity) >= geometry.SixteenthBend && slices.Contains(geometry.Bends(), usualAngle(e.quantity)))
	})
}

// multiplies says whether a multiplier is asked for, and not a job to be
// figured by the book's.
func (s *scene) multiplies() bool {
	return s.hint("multiplier") && !s.has(senseHandbook) && !s.has(senseMaterial)
}

// trims says whether an elbow is to be cut down, and not a piece in a check, a
// fit or at a mark.
func (s *scene) trims() bool { return s.trimmed }

func (s *scene) saysTrim() bool {
	down := s.hint("trim") || s.welded && (s.hint("cutdown") || s.has(senseFromA) || s.weldToAngle() || s.oddWeld())
	return down && !s.hasRole(Set) && !s.hint("check") && !s.hint("fit") && !s.hint("around") && !s.names(StickOut) && !s.names(GapNow)
}

// marks says whether a pipe that stands is to be cut off: what is to be trimmed
// where a set is said is no elbow.
func (s *scene) marks() bool {
	return (s.hint("mark") || s.hint("trim") && s.hasRole(Set) && !s.welded) && !s.twoLines
}

// isWeld says whether a butt weld is spoken of: by its name, or by the radius of
// an elbow, since no other kind goes by long and short radius.
func isWeld(e *element) bool {
	return meant(e.term, senseJoint) == "butt-weld" || e.term.is(senseSweep) && !strings.HasSuffix(e.text, "sweep") && !strings.HasSuffix(e.text, "turn")
}

// oddWeld says whether a weld bend of an angle that none is sold in is spoken
// of: such a one is cut down.
func (s *scene) oddWeld() bool {
	return s.welded && (s.has(senseBend) || s.says("weld")) && !s.hasRole(Set) && anyOf(s.elements, func(e *element) bool {
		return e.quantity != nil && e.quantity.unit == degree && usualAngle(e.quantity) != geometry.QuarterBend && usualAngle(e.quantity) != geometry.EighthBend
	})
}

// afterNinety says whether "90 to" or "90 into a" stands before element i.
func (s *scene) afterNinety(i int) bool {
	to := false
	for i--; i >= 0; i-- {
		e := &s.elements[i]
		switch {
		case e.quantity != nil:
			return to && e.quantity.number == 90
		case e.term.is(senseTo):
			to = true
		case !e.term.is(senseArticle) && !e.term.is(senseFiller):
			return false
		}
	}
	return false
}

// weldToAngle says whether a weld 90 is to become another angle: a weld 90 to 47.
func (s *scene) weldToAngle() bool {
	weld := false
	for i := range s.elements {
		e := &s.elements[i]
		weld = weld || isWeld(e)
		if weld && e.quantity != nil && e.quantity.number < 90 && s.afterNinety(i) {
			return true
		}
	}
	return false
}

// count is how many words name a role.
func (s *scene) count(r Role) int {
	n := 0
	for i := range s.elements {
		if s.elements[i].term.names(r) {
			n++
		}
	}
	return n
}

// asked says whether the word at j is what a question asks for: what set,
// where's the low invert.
func (s *scene) asked(j int) bool {
	behind := j + 1
	if behind < len(s.elements) && s.elements[behind].mark == "=" {
		behind++
	}
	if behind < len(s.elements) && s.elements[behind].mark == "?" {
		return true
	}
	for j--; j >= 0; j-- {
		switch t := s.elements[j].term; {
		case t.is(senseAsk):
			return true
		case t.is(senseFiller) || t.is(senseArticle) || t.is(senseLink) || t.is(senseMine):
		default:
			return false
		}
	}
	return false
}

// namesAny says whether a word names a role, other than that something is
// wanted.
func (s *scene) namesAny() bool {
	return anyOf(s.elements, func(e *element) bool {
		role := meant(e.term, senseRole)
		return role != "" && !strings.HasPrefix(role, "wanted")
	})
}

// first is the place of the first term with a meaning, or -1.
func (s *scene) first(what sense) int {
	return slices.IndexFunc(s.elements, func(e element) bool { return e.term.is(what) })
}

// claimant is the word that names a role, or -1.
func (s *scene) claimant(i int, r Role) int {
	best, cost := -1, 3.5
	for j := range s.elements {
		e := &s.elements[j]
		if !e.term.names(r) {
			continue
		}
		if c := s.between(i, j); c < cost {
			best, cost = j, c
		}
	}
	return best
}

// onlyNineties says whether every angle that is plainly one is a 90: a straight
// piece between two tees or ells rather than an offset.
func (s *scene) onlyNineties() bool {
	found := false
	for i := range s.elements {
		e := &s.elements[i]
		if e.quantity == nil {
			continue
		}
		if a, cost := s.angleOf(i, e.quantity); cost <= 1 {
			if a != geometry.QuarterBend {
				return false
			}
			found = true
		}
	}
	return found
}

// scenes lays out a statement in every way that its numbers can be cut up,
// the way they look first.
func scenes(text string, in []element) []*scene {
	out := []*scene{newScene(text, in, 0)}
	for i := range in {
		e := &in[i]
		if e.quantity == nil {
			continue
		}
		for _, parts := range e.quantity.broken {
			replaced := slices.Clone(in[:i])
			for _, q := range parts {
				replaced = append(replaced, element{quantity: q, text: q.text, begin: q.begin, end: q.end})
			}
			replaced = append(replaced, in[i+1:]...)
			s := newScene(text, replaced, 1)
			s.cutting = cutting(e.quantity)
			if e.quantity.unit == foot && s.falls() && i+1 < len(in) && in[i+1].term.is(senseMaterial) {
				s.cutting = 0.2 // 40 feet 4 inch pvc
			}
			s.second = i + 1
			out = append(out, s)
		}
		if len(out) > mostScenes {
			break
		}
	}
	return out
}

// cutting is the cost of a number cut up otherwise than it looks: little where it
// holds the word "in", 7 in 3/4 copper.
func cutting(q *quantity) float64 {
	if q.weak && strings.Contains(q.text, " in ") {
		return 0.3
	}
	return 1
}

// mostScenes bounds the ways that are tried: one number cut up at a time, in a
// statement with a dozen of them at most.
const mostScenes = 12
