package hearing

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Figures writes what was said in tape figures: "twelve and five eighths set
// forty fives inch and a half pvc" is "12-5/8 set 45s 1-1/2 pvc". Number words
// run on where figures have an end, as in "forty fives half inch copper".
func Figures(said string) string { return manner{}.write(said) }

// manner is how number words are taken that can be taken two ways.
type manner struct {
	parted bool // two thirty eight is 2 and 38, and not 238 as millimeters are said
	apart  bool // thirty two inch is 30, and 2 inch
	sounds bool // to three quarters is 2-3/4
}

// manners are all of them, the likeliest first.
var manners = []manner{{}, {parted: true}, {apart: true}, {sounds: true}}

// writings are the ways to write what was said in figures, the likeliest first.
func writings(said string) (all []string) {
	for _, m := range manners {
		if text := m.write(said); !slices.Contains(all, text) {
			all = append(all, text)
		}
	}
	return all
}

func (m manner) write(said string) string {
	w := writer{manner: m, words: strings.Fields(said)}
	for w.at < len(w.words) {
		w.next()
	}
	return strings.Join(w.out, " ")
}

// writer goes through the words; at is the next one.
type writer struct {
	manner
	words []string
	at    int
	out   []string
}

// next writes one number or one word.
func (w *writer) next() {
	if w.inch() {
		return
	}
	from := w.at
	if w.word(0) == "thirty" && w.word(1) == "second" && strings.HasPrefix(w.word(2), "bend") {
		w.out, w.at = append(w.out, "thirty"), w.at+1
		return
	}
	n, ok := w.whole()
	switch {
	case !ok:
		w.other()
	case w.plural():
		w.out = append(w.out, fmt.Sprintf("%ds", n))
	case w.decimal(n):
	case w.fraction(strconv.Itoa(n) + "-"):
	default:
		if parts, ok := w.countedParts(n); ok { // five eighths
			w.out = append(w.out, fmt.Sprintf("%d/%d", n, parts))
			return
		}
		if w.words[from] == "one" && w.at == from+1 && !slices.Contains(measured, w.word(0)) {
			w.out = append(w.out, "one") // the other one
			return
		}
		w.out = append(w.out, strconv.Itoa(n))
	}
}

// measured are the words behind a one that counts or measures.
var measured = strings.Fields("inch foot feet minus plus times degree degrees percent pvc abs copper no cast steel black")

// word is the word n places on, or none.
func (w *writer) word(n int) string {
	if w.at+n < len(w.words) {
		return w.words[w.at+n]
	}
	return ""
}

// inch writes "inch and a half" as what it measures, and a bare inch behind the
// bends, the size that nobody counts, as 1 in.
func (w *writer) inch() bool {
	from := w.at
	if w.word(0) == "an" || w.word(0) == "one" {
		w.at++
	}
	if w.word(0) == "inch" && w.word(1) == "and" {
		w.at++
		if w.fraction("1-") {
			return true
		}
	}
	w.at = from
	bare := from == 0 || slices.Contains(beforeSizes, w.words[from-1])
	if w.word(0) == "inch" && (from > 0 && (bends[w.words[from-1]] || w.plural()) || bare && slices.Contains(materials, w.word(1))) {
		w.at++
		w.out = append(w.out, "1", "in")
		return true
	}
	return false
}

// beforeSizes are words that a bare inch follows if what pipe is made of stands
// behind it.
var beforeSizes = strings.Fields("so okay uh um on in of with for got need my center centers and")

// bends are words of them that a bare inch follows.
var bends = map[string]bool{
	"elbows": true, "elbow": true, "ells": true, "ell": true, "bends": true, "bend": true, "degrees": true, "degree": true,
}

// whole reads a whole number: thirty, thirty six, forty fives, two hundred
// eight, twelve hundred and fifty, a thousand.
func (w *writer) whole() (n int, ok bool) {
	from := w.at
	if next := w.word(1); w.word(0) == "a" && (next == "hundred" || next == "thousand") {
		w.at++
		n, ok = 1, true
	} else if w.word(0) == "hundred" {
		n, ok = 1, true
	} else if n, ok = w.underHundred(); !ok {
		return 0, false
	}
	if w.at > from && w.plural() {
		return n, true
	}
	thousands := 0
	if w.word(0) == "thousand" {
		w.at++
		thousands, n = 1000*n, 0
		before := w.at
		if rest, also := w.rest(); also && w.word(0) != "hundred" {
			return thousands + rest, true
		}
		w.at = before
		if n, ok = w.underHundred(); !ok {
			return thousands, true
		}
	}
	if w.word(0) == "hundred" {
		w.at++
		rest, _ := w.rest()
		return thousands + 100*n + rest, true
	}
	if thousands == 0 && !w.parted && w.at == from+1 && n > 0 && n < 10 {
		if rest, also := w.runOn(); also {
			return 100*n + rest, true
		}
	}
	return thousands + n, true
}

// rest reads what follows hundreds or thousands: eight, and eight, but not the
// top of a fraction, nor bends.
func (w *writer) rest() (n int, ok bool) {
	from := w.at
	if w.word(0) == "and" {
		w.at++
	}
	if w.topOfFraction() {
		w.at = from
		return 0, false
	}
	if n, ok = w.underHundred(); !ok || w.plural() {
		w.at = from
		return 0, false
	}
	return n, true
}

// runOn reads the tens that follow hundreds whose name is left out.
func (w *writer) runOn() (n int, ok bool) {
	from := w.at
	if w.word(0) == "thirty" && strings.HasPrefix(w.word(1), "second") {
		return 0, false
	}
	if n, ok = w.underHundred(); !ok || n < 10 || w.plural() || w.topOfFraction() || w.word(0) == "and" || bends[w.word(0)] {
		w.at = from
		return 0, false
	}
	return n, true
}

func (w *writer) underHundred() (n int, ok bool) {
	word := w.word(0)
	if n, ok = figures[word]; word == "oh" && (w.at == 0 || figures[w.words[w.at-1]] == 0) {
		return 0, false // a figure only behind another: one oh five
	}
	if !ok {
		if n, ok = w.soundsLike(); !ok {
			if n, ok = digits(word); !ok {
				return 0, false
			}
			w.at++
			return n, true
		}
	}
	w.at++
	if n < 20 || w.plural() {
		return n, true
	}
	ones, ok := figures[w.word(0)]
	if ok && ones > 0 && ones < 10 && (slices.Contains(plurals, w.word(0)) || !w.topOfFraction() && !(w.apart && w.ofASize())) {
		w.at++
		return n + ones, true
	}
	return n, true
}

// digits reads a number that stands in figures already.
func digits(word string) (n int, ok bool) {
	n, err := strconv.Atoi(word)
	return n, err == nil && n >= 0
}

// soundsLike reads a word that sounds like a number where only that makes
// sense: in front of a unit, or of and with a fraction.
func (w *writer) soundsLike() (n int, ok bool) {
	if n, ok = homophones[w.word(0)]; !ok {
		return nearly[w.word(0)], nearly[w.word(0)] > 0 && w.word(1) == "inch" && w.word(2) != "and"
	}
	named := func(at int) bool { return fractions[strings.TrimSuffix(w.word(at), "s")] > 0 }
	switch next := w.word(1); next {
	case "and":
		return n, named(3)
	case "inch", "inches", "foot", "feet":
		return n, w.word(2) != "and" // to inch and a half
	default:
		return n, w.sounds && figures[next] > 0 && named(2)
	}
}

// nearly are words that sound nearly like a number; where one stands in front of
// a unit, it is offered as that, and never answered.
var nearly = map[string]int{"far": 4, "floor": 4, "tear": 2, "tier": 2, "chew": 2, "want": 1, "wan": 1, "tin": 10, "sick": 6, "sticks": 6}

var homophones = map[string]int{"to": 2, "too": 2, "for": 4, "ate": 8, "won": 1}

// ofASize says that the next word is the size of a pipe: inch stands behind it,
// or what pipe is made of, with a fraction between at most.
func (w *writer) ofASize() bool {
	n := 1
	if _, named := fractions[strings.TrimSuffix(w.word(3), "s")]; w.word(1) == "and" && named {
		n = 4
	}
	return w.word(n) == "inch" || slices.Contains(materials, w.word(n))
}

var materials = strings.Fields("pvc abs copper no cast black galvanized steel cpvc stainless threaded screwed grooved")

// plural says that the word before was one of bends: no fraction belongs to it.
func (w *writer) plural() bool { return w.at > 0 && slices.Contains(plurals, w.words[w.at-1]) }

// topOfFraction says that the next word counts the parts of a fraction: the
// five of "twenty five eighths" is read as twenty and five eighths, since 25/8
// is on no tape.
func (w *writer) topOfFraction() bool {
	_, ok := w.parts(1)
	return ok
}

// parts reads the name of a fraction n places on: eighths are 8.
func (w *writer) parts(n int) (int, bool) {
	parts, ok := fractions[strings.TrimSuffix(w.word(n), "s")]
	words := 1
	if w.word(n) == "thirty" && strings.TrimSuffix(w.word(n+1), "s") == "second" {
		parts, ok, words = 32, true, 2
	}
	if ok && n == 0 {
		w.at += words
	}
	return parts, ok
}

// countedParts reads the name of the parts that were counted: five eighths, but
// not fourteen, eighth bends.
func (w *writer) countedParts(n int) (int, bool) {
	if parts := fractions[w.word(0)]; parts > 0 && (n >= parts || n > 1 && strings.HasPrefix(w.word(1), "bend")) {
		return 0, false
	}
	return w.parts(0)
}

// fraction reads the fraction behind a whole number, and writes both: "and a
// half", "and three eighths", "three eighths", "and a halfs".
func (w *writer) fraction(whole string) bool {
	n := 0
	if w.word(0) == "and" {
		n++
	}
	top, ok := figures[w.word(n)]
	if article := w.word(n); n > 0 && (article == "a" || article == "an") {
		top, ok = 1, true
	}
	parts, named := w.parts(n + 1)
	if !ok || !named || top >= parts || n == 0 && strings.HasPrefix(w.word(2), "bend") {
		return false
	}
	w.at += n + 1
	w.parts(0)
	plural := ""
	if last := w.words[w.at-1]; top == 1 && strings.HasSuffix(last, "s") {
		plural = "s"
	}
	w.out = append(w.out, fmt.Sprintf("%s%d/%d%s", whole, top, parts, plural))
	return true
}

// decimal reads what follows a point, digit by digit.
func (w *writer) decimal(whole int) bool {
	if w.word(0) != "point" {
		return false
	}
	n, digits := 1, ""
	for d, ok := figures[w.word(n)]; ok && d < 10; d, ok = figures[w.word(n)] {
		digits += strconv.Itoa(d)
		n++
	}
	if digits == "" {
		return false
	}
	w.at += n
	w.out = append(w.out, fmt.Sprintf("%d.%s", whole, digits))
	return true
}

// other writes a word that begins no number. A half and a quarter may stand
// alone: "half inch copper", "a quarter per foot".
func (w *writer) other() {
	word := w.word(0)
	w.at++
	switch {
	case (word == "half" || word == "quarter" || word == "eighth") && !slices.Contains(leans, w.word(0)):
		w.dropArticle()
		w.out = append(w.out, fmt.Sprintf("1/%d", fractions[word]))
	case word == "uh" || word == "um" || word == "er": // said while thinking
	case word == "inches" || word == "inch":
		w.out = append(w.out, "in")
	case word == "foot" || word == "feet":
		w.out = append(w.out, "ft")
	case signs[word] != "" && w.numberNext():
		w.out = append(w.out, signs[word])
	default:
		w.out = append(w.out, word)
	}
}

// leans are the words behind a part by which a figure is missed: an eighth over
// ten.
var leans = strings.Fields("over under past shy short")

// numberNext says whether the next word is one of a number.
func (w *writer) numberNext() bool {
	_, ok := figures[w.word(0)]
	_, parts := fractions[w.word(0)]
	_, written := digits(w.word(0))
	return ok || parts || written || w.word(0) == "a" || w.word(0) == "an"
}

func (w *writer) dropArticle() {
	if last := len(w.out) - 1; last >= 0 && (w.out[last] == "a" || w.out[last] == "an") {
		w.out = w.out[:last]
	}
}

// The words of numbers. The plurals are of bends: forty fives, nineties.
var (
	figures = map[string]int{
		"zero": 0, "oh": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
		"nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15,
		"sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40,
		"fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
		"fives": 5, "twos": 2, "thirties": 30, "sixties": 60, "nineties": 90,
	}
	signs     = map[string]string{"plus": "+", "minus": "-", "times": "x"}
	plurals   = []string{"fives", "twos", "thirties", "sixties", "nineties"}
	fractions = map[string]int{
		"half": 2, "halve": 2, "quarter": 4, "fourth": 4, "eighth": 8, "sixteenth": 16, "third": 3,
	}
)
