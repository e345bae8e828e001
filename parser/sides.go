package parser

import "slices"

// sides finds the ways a tape is laid that are said at length: "from the
// outside of one pipe to the outside of the other", "inside edge to inside
// edge". All that stands between becomes one term for the method.
func sides(in []element) []element {
	for i, e := range in {
		first, ok := e.term.means("side")
		if !ok {
			continue
		}
		for j := i + 2; j < len(in) && j <= i+9; j++ {
			second, ok := in[j].term.means("side")
			if ok && joinedSides(in[i+1:j]) {
				method := element{term: methodTerm(first, second), text: second, begin: e.begin, end: in[j].end}
				out := append(slices.Clone(in[:i]), fittingsOf(in[i:j])...)
				rest := in[j+1:]
				from := afterSide(rest)
				out = append(append(out, method), fittingsOf(rest[:from])...)
				return append(out, sides(rest[from:])...)
			}
			if in[j].quantity != nil && in[j].text != "one" {
				break
			}
		}
	}
	return in
}

// fittingsOf keeps of the words around two sides those that name a fitting: from
// the center of the tee to the center of the 90.
func fittingsOf(in []element) []element {
	return slices.DeleteFunc(slices.Clone(in), func(e element) bool {
		return !e.term.is("fitting") && (e.quantity == nil || e.text == "one")
	})
}

// afterSide is where the words end that say whose side the second is: of the
// right pipe, of the other.
func afterSide(in []element) int {
	for i, e := range in {
		switch {
		case e.term.is("filler"), e.term.is("article"), e.term.is("pipe"), e.term.is("other-end"), e.text == "of",
			e.text == "left", e.text == "right", e.text == "one":
		default:
			return i
		}
	}
	return len(in)
}

// joinedSides says whether "to" stands between two sides.
func joinedSides(in []element) bool {
	for _, e := range in {
		if e.term.is("to") || e.text == "a" || e.mark == "-" || e.mark == "/" {
			return true
		}
	}
	return false
}

// methodTerm is the way of measuring that two sides make.
func methodTerm(first, second string) *term {
	methods := map[string]Method{
		"outside outside": OutsideToOutside, "inside inside": InsideToInside,
		"outside inside": OutsideToInside, "inside outside": OutsideToInside,
		"same same": OutsideToInside, "back back": BackToBack, "center center": Centers, "face face": FaceToFace,
		"end center": EndToCenter, "center end": EndToCenter, "end end": EndToEnd,
	}
	method, ok := methods[first+" "+second]
	if !ok {
		return &term{language: English, meanings: []meaning{{"side", second}}}
	}
	return &term{language: English, meanings: []meaning{{"method", string(method)}}}
}
