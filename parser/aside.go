package parser

import (
	"math"
	"slices"
	"strings"

	"dogleg/geometry"
)

// Some numbers are told along the way, and have no part in what is asked: how far
// apart the joists stand, how long a stick of pipe is.

// withoutAsides drops what is told along the way.
func withoutAsides(in []element) []element {
	for i := 0; i < len(in); i++ {
		if n := asideAt(in[i:]); n > 0 {
			in = append(slices.Clone(in[:i]), in[i+n:]...)
			i--
		}
	}
	return in
}

// asideAt is how many elements an aside takes that a run begins with; 0 if none
// does.
func asideAt(run []element) int {
	switch {
	case isFraming(run[0]):
		n := 1
		for n < len(run) && (run[n].term.is("link") || run[n].term.is("at") || run[n].term.is("filler")) {
			n++
		}
		if n+1 < len(run) && isPlainLength(run[n].quantity) && onCenters(run[n+1]) {
			return n + 2 // joists are 16 on center
		}
	case isPlainLength(run[0].quantity) && len(run) > 2 && onCenters(run[1]) && isFraming(run[2]):
		return 3 // 16 on center joists
	case run[0].text == "times" && len(run) > 1 && isMultiplier(run[1].quantity, 2):
		return 2 // the set times 1.41
	case isMultiplier(run[0].quantity, 3):
		return 1 // he always used 1.414
	case isPlainLength(run[0].quantity) && len(run) > 1 && run[1].text == "sleeve":
		return 2
	case isPlainLength(run[0].quantity) && run[0].quantity.unit == foot && len(run) > 1 && isStick(run[1]):
		return 2 // 10 ft sticks
	}
	return 0
}

// isFraming says whether a word names what a house is framed of, at even
// distances.
func isFraming(e element) bool {
	switch e.text {
	case "joist", "joists", "stud", "studs", "rafter", "rafters", "truss", "trusses", "vigas", "viguetas":
		return true
	}
	return false
}

// isMultiplier says whether a number is one that books print, in so many decimals
// or more, to make the travel of the set or the run.
func isMultiplier(q *quantity, atLeast int) bool {
	if q == nil || q.unit != noUnit || !strings.Contains(q.text, ".") {
		return false
	}
	_, decimals, _ := strings.Cut(strings.TrimSpace(q.text), ".")
	return len(decimals) >= atLeast && slices.ContainsFunc(geometry.Bends(), func(a geometry.Angle) bool {
		travel := 1 / math.Sin(a.Radians())
		run := 1 / math.Tan(a.Radians())
		return math.Abs(q.number-travel) < 0.005 || math.Abs(q.number-run) < 0.005
	})
}

func onCenters(e element) bool { return Method(meant(e, "method")) == Centers }

// isStick says whether a word names a length of pipe as it is sold.
func isStick(e element) bool {
	switch e.text {
	case "stick", "sticks", "sticks of", "stick of", "lengths of", "joints of":
		return true
	}
	return false
}
