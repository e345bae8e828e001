package hearing

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Written writes what was heard in tape figures: "twelve and five eighths set
// forty fives inch and a half pvc" is "12-5/8 set 45s 1-1/2 pvc". It is what is
// read for its meaning: number words run on where figures have an end, as in
// "forty fives half inch copper". What figures make no sense of stays in words.
func Written(words string) string {
	figures := inFigures(words)
	if _, ok := parsed(figures); !ok {
		return words
	}
	return figures
}

func inFigures(words string) string {
	w := writer{words: strings.Fields(words)}
	for w.at < len(w.words) {
		w.next()
	}
	return strings.Join(w.out, " ")
}

// writer goes through the words; at is the next one.
type writer struct {
	words []string
	at    int
	out   []string
}

// next writes one number or one word.
func (w *writer) next() {
	if w.inchAnd() {
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
		if parts, ok := w.parts(0); ok { // five eighths
			w.out = append(w.out, fmt.Sprintf("%d/%d", n, parts))
			return
		}
		w.out = append(w.out, strconv.Itoa(n))
	}
}

// word is the word n places on, or none.
func (w *writer) word(n int) string {
	if w.at+n < len(w.words) {
		return w.words[w.at+n]
	}
	return ""
}

// inchAnd writes "inch and a half" as what it measures.
func (w *writer) inchAnd() bool {
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
	return false
}

// whole reads a whole number: thirty, thirty six, forty fives, two hundred
// eight.
func (w *writer) whole() (n int, ok bool) {
	n, ok = w.underHundred()
	if ok && w.word(0) == "hundred" {
		w.at++
		rest, _ := w.underHundred()
		return 100*n + rest, true
	}
	return n, ok
}

func (w *writer) underHundred() (n int, ok bool) {
	n, ok = figures[w.word(0)]
	if !ok {
		return 0, false
	}
	w.at++
	if n < 20 || w.plural() {
		return n, true
	}
	ones, ok := figures[w.word(0)]
	if ok && ones > 0 && ones < 10 && (slices.Contains(plurals, w.word(0)) || !w.topOfFraction()) {
		w.at++
		return n + ones, true
	}
	return n, true
}

// plural says that the word before was one of bends: no fraction belongs to it.
func (w *writer) plural() bool { return slices.Contains(plurals, w.words[w.at-1]) }

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
	if !ok || !named || top >= parts {
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
	case word == "half" || word == "quarter" || word == "eighth":
		w.dropArticle()
		w.out = append(w.out, fmt.Sprintf("1/%d", fractions[word]))
	case word == "inches" || word == "inch":
		w.out = append(w.out, "in")
	case word == "foot" || word == "feet":
		w.out = append(w.out, "ft")
	case signs[word] != "":
		w.out = append(w.out, signs[word])
	default:
		w.out = append(w.out, word)
	}
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
