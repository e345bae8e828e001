package parser

import (
	"math"
	"slices"
	"strings"

	"dogleg/geometry"
)

// Some numbers are told along the way, and have no part in what is asked: how far
// apart the joists stand, how long a stick of pipe is, what one's teacher
// multiplied by.

// withoutFraming drops how far apart what a house is framed of stands, in whose
// place no other number of the trade can be meant.
func withoutFraming(in []element) []element {
	for i := 0; i < len(in); i++ {
		if n := framingAt(in[i:]); n > 0 {
			in = append(slices.Clone(in[:i]), in[i+n:]...)
			i--
		}
	}
	return in
}

// withoutCameOut drops "came out" behind the travel or the run: that's no dry fit, but
// where it is told what was wanted.
func withoutCameOut(in []element) []element {
	if anyOf(in, func(e *element) bool { return isWanted(e) || e.text == "dry" }) {
		return in
	}
	for i := 1; i < len(in); i++ {
		role := Role(meant(in[i-1].term, senseRole))
		if strings.HasPrefix(in[i].text, "came out") && (role == Travel || role == Run) {
			return append(slices.Clone(in[:i]), in[i+1:]...)
		}
	}
	return in
}

// withoutTimes drops what o'clock it is, and which floor or year: the parts of a
// number that it looks like are no lengths.
func withoutTimes(in []element) []element {
	for i := 0; i < len(in); i++ {
		n := 0
		switch {
		case i > 0 && tellsTime(in[i-1].text) && isClock(in[i:]):
			n = 3
		case isOrdinal(in[i:]):
			n = 1
		default:
			continue
		}
		in = append(slices.Clone(in[:i]), in[i+n:]...)
		i--
	}
	return in
}

// tellsTime says whether a word goes before a time of day.
func tellsTime(word string) bool {
	return slices.Contains([]string{"at", "by", "till", "until", "til", "around", "before", "after", "since", "a las", "las"}, strings.ToLower(word))
}

// isClock says whether a run begins with a time of day: 2:30.
func isClock(run []element) bool {
	if len(run) < 3 || run[1].mark != ":" || run[0].end != run[1].begin || run[1].end != run[2].begin {
		return false
	}
	hour, minute := run[0].quantity, run[2].quantity
	return isWhole(hour) && isWhole(minute) && hour.number < 24 && len(run[2].text) == 2 && isDigit(run[2].text[0]) && minute.number < 60
}

// isOrdinal says whether a run begins with which one something is, and no part of
// an inch: third floor.
func isOrdinal(run []element) bool {
	if len(run) < 2 || run[0].quantity == nil || run[0].quantity.parts == 0 || !strings.HasSuffix(run[0].text, "h") && !strings.EqualFold(run[0].text, "third") {
		return false // a quarter is none
	}
	return slices.Contains([]string{"floor", "story", "level", "year", "piso", "nivel"}, strings.ToLower(run[1].text))
}

// framingAt is how many elements it takes, where a run begins with it; else 0.
func framingAt(run []element) int {
	switch {
	case isFraming(run[0].text):
		n := 1
		for n < len(run) && (run[n].term.is(senseLink) || run[n].term.is(senseAt) || run[n].term.is(senseFiller)) {
			n++
		}
		if n+1 < len(run) && isPlainLength(run[n].quantity) && onCenters(run[n+1]) {
			return n + 2 // joists are 16 on center
		}
	case isPlainLength(run[0].quantity) && len(run) > 2 && onCenters(run[1]) && isFraming(run[2].text):
		return 3 // 16 on center joists
	}
	return 0
}

// asideLabel takes the number for one told along the way. It costs more than a word
// that claims the number outright: takeoff 1.155, fall over a 10 ft stick.
func (s *scene) asideLabel(i int, q *quantity) (label, bool) {
	l := label{role: Bare, term: -1, count: true}
	before, next := "", ""
	if i > 0 {
		before = s.elements[i-1].text
	}
	if i+1 < len(s.elements) {
		next = s.elements[i+1].text
	}
	switch {
	case before == "times" && isMultiplier(q, 2), (before == "used" || s.hint("multiplier") && !s.names(TakeoffOf)) && isMultiplier(q, 3):
		l.cost = 0.1 // the set times 1.41, he always used 1.414, is it 2.613 for 22-1/2
	case q.whole && q.unit == noUnit && isAddress(before) && s.opensPlace(i-1):
		l.cost = 0.1 // apartment 14
	case q.whole && q.unit == noUnit && countsElse(next):
		l.cost = 0.1 // 40 minutes
	case q.isLength() && next == "sleeve":
		l.cost = 0.1
	case q.unit == foot && isStick(next):
		l.cost = 0.5 // 10 ft sticks
	default:
		return label{}, false
	}
	return l, true
}

// opensPlace says whether the word at i tells where somebody is, and is no thing that a
// tape was read from or that is moved: at the beginning, behind a mark, or after in.
func (s *scene) opensPlace(i int) bool {
	if i == 0 {
		return true
	}
	before := &s.elements[i-1]
	return before.mark != "" || slices.Contains([]string{"in", "at", "for", "on", "by", "en"}, before.text)
}

// isFraming says whether a word names what a house is framed of, at even
// distances.
func isFraming(word string) bool {
	switch word {
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

func onCenters(e element) bool { return Method(meant(e.term, senseMethod)) == Centers }

// isAddress says whether a word goes before the number of a place.
func isAddress(word string) bool {
	switch strings.ToLower(word) {
	case "apartment", "apt", "unit", "suite", "lot", "building", "bldg", "riser", "departamento", "edificio":
		return true
	}
	return false
}

// countsElse says whether a word is for what no tape measures: time, people, money.
func countsElse(word string) bool {
	return slices.Contains([]string{
		"minute", "minutes", "hour", "hours", "hrs", "day", "days", "week", "weeks", "month", "months", "year", "years",
		"mile", "miles", "guys", "people", "men", "bucks", "dollars", "am", "pm",
		"minutos", "horas", "dias", "días", "semanas", "personas",
	}, strings.ToLower(word))
}

// isStick says whether a word names a length of pipe as it is sold.
func isStick(word string) bool {
	switch word {
	case "stick", "sticks", "sticks of", "stick of", "lengths of", "joints of":
		return true
	}
	return false
}
