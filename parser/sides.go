package parser

import (
	"slices"
	"strings"
)

// sides finds the ways a tape is laid that are said at length: "from the
// outside of one pipe to the outside of the other", "inside edge to inside
// edge". All that stands between becomes one term for the method.
func sides(in []element) []element {
	for i, e := range in {
		first := sideOf(e)
		if first == "" {
			continue
		}
		for j := i + 2; j < len(in) && j <= i+9; j++ {
			second := sideOf(in[j])
			if second != "" && joinedSides(first, second, in[i+1:j]) {
				rest := in[j+1:]
				from := afterSide(rest) + bendOf(in[j], rest[afterSide(rest):])
				fittings := append(fittingsOf(in[i:j]), fittingsOf(rest[:from])...)
				method := element{term: methodTerm(first, second, namesBend(fittings)), text: in[j].text, begin: e.begin, end: in[j+from].end}
				for k := range fittings {
					fittings[k].begin, fittings[k].end = e.begin, e.begin // before the method, as they stand now
				}
				out := append(append(slices.Clone(in[:i]), fittings...), method)
				return append(out, sides(rest[from:])...)
			}
			if in[j].quantity != nil && in[j].text != "one" && in[j].text != "2" && !bendWithSide(in[i:j+1]) {
				break
			}
		}
	}
	return in
}

// sideOf is the side of a pipe that an element names, empty if it names none. A
// word that nobody knows may name one: only its second coming tells, skin to
// skin.
func sideOf(e element) string {
	if side, ok := e.term.means(senseSide); ok {
		return side
	}
	switch e.text {
	case "top", "bottom", "front", "rear":
		return e.text
	}
	if e.word != "" && e.term == nil && e.quantity == nil && len(e.word) > 2 {
		return unknownSide + e.word
	}
	return ""
}

// unknownSide is put before a word that may name a side.
const unknownSide = "? "

func strange(side string) bool { return strings.HasPrefix(side, unknownSide) }

// fittingsOf keeps of the words around two sides those that name a fitting: from
// the center of the tee to the center of the 90.
func fittingsOf(in []element) []element {
	return slices.DeleteFunc(slices.Clone(in), func(e element) bool {
		return !e.term.is(senseFitting) && (e.quantity == nil || e.text == "one" || e.text == "2")
	})
}

// afterSide is where the words end that say whose side the second is: of the
// right pipe, of the other.
func afterSide(in []element) int {
	for i := range in {
		e := &in[i]
		switch {
		case e.term.is(senseFiller), e.term.is(senseArticle), e.term.is(sensePipe), e.term.is(senseOtherEnd), e.text == "of",
			e.text == "left", e.text == "right", e.text == "one":
		default:
			return i
		}
	}
	return len(in)
}

// bendOf is how many elements name the bend whose side it is: center of the 90.
func bendOf(side element, rest []element) int {
	if !ofSomething(side) {
		return 0
	}
	for i, e := range rest {
		switch {
		case isBendNumber(e.quantity):
			return i + 1
		case !e.term.is(senseArticle) && e.text != "the" && !e.term.is(senseBend):
			return 0
		}
	}
	return 0
}

// ofSomething says whether a side ends in "of", so that what it is of follows.
func ofSomething(side element) bool { return strings.HasSuffix(side.text, " of") }

// bendWithSide says whether a run that begins with a side ends with the bend whose
// side it is: center of one 90.
func bendWithSide(run []element) bool {
	if !ofSomething(run[0]) || !isBendNumber(run[len(run)-1].quantity) {
		return false
	}
	return !anyOf(run[1:len(run)-1], func(e *element) bool {
		return !e.term.is(senseArticle) && !e.term.is(senseFiller) && !e.term.is(senseBend) && e.text != "one"
	})
}

func isBendNumber(q *quantity) bool {
	return q != nil && q.unit == noUnit && !q.plural && slices.Contains([]float64{22, 22.5, 45, 60, 90}, q.number)
}

// joinedSides says whether what stands between two sides makes a way of
// measuring of them: "to", or for plain sides a dash. A strange one has to come
// twice.
func joinedSides(first, second string, between []element) bool {
	if strange(first) && first != second {
		return false
	}
	for _, e := range between {
		if e.term.is(senseTo) || e.text == "2" && len(between) == 1 {
			return true // outside 2 outside
		}
		if plainSide(first) && (e.text == "a" || e.mark == "-" || e.mark == "/") {
			return true
		}
	}
	return false
}

// plainSide says whether a side can be no other thing: top and bottom may be
// fittings.
func plainSide(side string) bool {
	switch side {
	case "top", "bottom", "front", "rear":
		return false
	}
	return !strange(side)
}

// namesBend says whether one of the fittings is a bend of some angle.
func namesBend(fittings []element) bool {
	return anyOf(fittings, func(e *element) bool { return isBendNumber(e.quantity) })
}

// methodTerm is the way of measuring that two sides make. Where they are of bends
// and not of pipes, what was measured is the piece between these.
func methodTerm(first, second string, ofBends bool) *term {
	methods := map[string]Method{
		"outside outside": OutsideToOutside, "inside inside": InsideToInside,
		"outside inside": OutsideToInside, "inside outside": OutsideToInside,
		"center outside": CenterToOutside, "outside center": CenterToOutside,
		"center inside": CenterToInside, "inside center": CenterToInside,
		"same same": OutsideToInside, "top top": OutsideToInside, "bottom bottom": OutsideToInside,
		"front front": OutsideToInside, "rear rear": OutsideToInside, "back back": BackToBack, "center center": Centers, "face face": FaceToFace,
		"center face": CenterToFace, "face center": CenterToFace,
		"end center": EndToCenter, "center end": EndToCenter, "end end": EndToEnd,
	}
	method, ok := methods[first+" "+second]
	if !ok {
		return termOf("", English, meaning{senseSide, second})
	}
	t := termOf("", English, meaning{senseMethod, string(method)})
	if ofBends {
		t.add(meaning{senseHint, "piece"})
	}
	return t
}
