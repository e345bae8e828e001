// Package aloud says a typed message as a person on a site would say it:
// "9-3/8 set 45s 2 abs" is "nine and three eighths set forty fives two a b s".
//
// The ear's language model is built from the corpus of typed messages by way of
// this package, and the tests speak with it. It knows how figures and the
// trade's abbreviations are said; it knows nothing of what a message means, so
// of "7 1/2" it cannot tell whether the 7 and the half belong together, and
// takes it that they do. It speaks English only.
//
// There is more than one way to say most figures. Who calls decides by a
// [Chooser] which one is taken; [Plainly] takes the plainest each time.
package aloud

import (
	"regexp"
	"strconv"
	"strings"
)

// Chooser picks one of n ways to say a thing, by a number from 0 to n-1. The
// first way is the plainest, and the ways come in the order of how common they
// are.
type Chooser func(n int) int

// Plainly takes the plainest way each time.
func Plainly(int) int { return 0 }

// The parts that a message is cut into, each with its way of being said. The
// first pattern that fits is taken.
var parts = regexp.MustCompile(strings.Join([]string{
	`(?P<bends>\d+(?:-\d+/\d+|\.5)?)'?s\b`,
	`(?P<feet>\d+) ?(?:'|′|ft\b\.?|feet|foot) ?-? ?(?P<inches>\d+(?:[- ]\d+/\d+)?|\d+/\d+)? ?(?:"|″|in\b\.?|inches|inch)?`,
	`(?P<number>\d+-\d+/\d+|\d+ \d+/\d+|\d+/\d+|\d*\.\d+|\d+)(?P<mark>[°"″%]| ?(?:deg|degs|degrees)\b\.?| ?(?:mm|cm|m)\b| ?(?:in\.|in\b|inch\b|inches\b))?`,
	`(?P<word>[cofi]/[cofil]\b|outside/outside|o\.c\.|w/|[\pL][\pL'’]*(?:-[\pL]+)*\.?)`,
	`(?P<sign>[-+*x×÷/=])`,
}, "|"))

// Say says one line of a message. What is only for the eye, such as commas, is
// left out.
func Say(text string, choose Chooser) string {
	text = plainText.Replace(strings.ToLower(text))
	var said []string
	for _, m := range parts.FindAllStringSubmatch(text, -1) {
		said = append(said, choose.part(m)...)
	}
	return strings.Join(said, " ")
}

// plainText takes apart what phones write in one character.
var plainText = strings.NewReplacer(
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"’", "'", "”", `"`, "“", `"`, "–", "-", "—", " - ", "⁄", "/", "''", `"`, "&", "and", "-inch", " inch",
)

func (choose Chooser) part(m []string) []string {
	get := func(name string) string { return m[parts.SubexpIndex(name)] }
	switch {
	case get("bends") != "":
		return choose.bends(get("bends"))
	case get("feet") != "":
		return choose.feet(get("feet"), get("inches"))
	case get("number") != "":
		return choose.number(get("number"), strings.Trim(get("mark"), " ."))
	case get("word") != "":
		return words(get("word"))
	}
	return strings.Fields(signs[get("sign")])
}

func (choose Chooser) feet(feet, inches string) []string {
	unit := []string{"foot", "feet"}[choose(2)]
	said := append(Whole(feet), unit)
	if inches != "" {
		said = append(said, choose.measure(inches)...)
	}
	return said
}

// bends says more than one of a bend: 45s, 22-1/2s.
func (choose Chooser) bends(number string) []string {
	said := choose.measure(strings.Replace(number, ".5", "-1/2", 1))
	last := len(said) - 1
	said[last] = choose.pluralOf(said[last])
	return said
}

// number says a figure with what stands at it: 1-1/2", 37°, 2%.
func (choose Chooser) number(number, mark string) []string {
	said := choose.measure(number)
	unit := mark
	switch mark {
	case "":
		return said
	case `"`, "″", "in", "inch", "inches":
		if number == "1" && choose(3) == 2 {
			return []string{"an", "inch"}
		}
		unit = []string{"inch", "inches"}[choose(2)]
	case "°", "deg", "degs", "degrees":
		unit = []string{"degree", "degrees"}[choose(2)]
	case "mm":
		unit = []string{"millimeters", "mil", "millimeter", "mils"}[choose(4)]
	case "cm":
		unit = "centimeters"
	case "m":
		unit = "meters"
	case "%":
		unit = "percent"
	}
	return append(said, unit)
}

// measure says a number: 9-3/8, 7 1/2, 5/16, 22.5, 14.
func (choose Chooser) measure(number string) []string {
	whole, fraction, mixed := strings.Cut(strings.Replace(number, " ", "-", 1), "-")
	switch {
	case mixed:
		return append(Whole(whole), choose.and(fraction)...)
	case strings.Contains(number, "/"):
		return choose.fraction(number)
	case strings.Contains(number, "."):
		return decimal(number)
	}
	return choose.whole(number)
}

// whole says a whole number: two hundred thirty eight, two hundred and thirty
// eight, two thirty eight.
func (choose Chooser) whole(digits string) []string {
	n, err := strconv.Atoi(digits)
	hundreds, rest := n/100, n%100
	if err != nil || n < 100 || n > 9999 || rest == 0 || hundreds%10 == 0 {
		return Whole(digits)
	}
	switch choose(3) {
	case 1:
		return append(append(cardinal(hundreds*100), "and"), cardinal(rest)...)
	case 2:
		if rest >= 10 && hundreds < 20 {
			return append(cardinal(hundreds), cardinal(rest)...)
		}
	}
	return Whole(digits)
}

// and says the fraction behind whole inches: "and three eighths", "and a half",
// "and one half", "three eighths".
func (choose Chooser) and(fraction string) []string {
	top, bottom, _ := strings.Cut(fraction, "/")
	if top == "1" {
		article := "a"
		if bottom == "8" {
			article = "an"
		}
		ways := [][]string{{"and", article}, {"and", "one"}, {"one"}}
		return append(ways[choose(3)], partOf(bottom, false))
	}
	said := choose.fraction(fraction)
	if choose(4) != 3 {
		said = append([]string{"and"}, said...)
	}
	return said
}

// fraction says a fraction that stands alone.
func (choose Chooser) fraction(fraction string) []string {
	top, bottom, _ := strings.Cut(fraction, "/")
	if top == "1" && bottom == "2" {
		return []string{"half"}
	}
	return append(Whole(top), partOf(bottom, top != "1"))
}

func partOf(bottom string, plural bool) string {
	name, known := parted[bottom]
	switch {
	case !known:
		return "over " + strings.Join(Whole(bottom), " ")
	case bottom == "2" && plural:
		return "halves"
	case plural:
		return name + "s"
	}
	return name
}

var parted = map[string]string{
	"2": "half", "3": "third", "4": "quarter", "5": "fifth", "6": "sixth", "8": "eighth",
	"10": "tenth", "12": "twelfth", "16": "sixteenth", "32": "thirty second",
}

func decimal(number string) []string {
	whole, digits, _ := strings.Cut(number, ".")
	var said []string
	if whole != "" {
		said = Whole(whole)
	}
	said = append(said, "point")
	for _, d := range digits {
		said = append(said, under20[d-'0'])
	}
	return said
}

var (
	under20 = strings.Fields("zero one two three four five six seven eight nine ten eleven twelve " +
		"thirteen fourteen fifteen sixteen seventeen eighteen nineteen")
	tens = strings.Fields("- - twenty thirty forty fifty sixty seventy eighty ninety")
)

// Whole says a whole number, up to 9,999; a longer one digit by digit.
func Whole(digits string) []string {
	n, err := strconv.Atoi(digits)
	switch {
	case err != nil || n > 9999:
		var said []string
		for _, d := range digits {
			said = append(said, under20[d-'0'])
		}
		return said
	case n < 20:
		return []string{under20[n]}
	}
	return cardinal(n)
}

func cardinal(n int) []string {
	rest := func(head []string, n int) []string {
		if n == 0 {
			return head
		}
		return append(head, cardinal(n)...)
	}
	switch {
	case n < 20:
		return []string{under20[n]}
	case n < 100:
		return rest([]string{tens[n/10]}, n%10)
	case n < 1000:
		return rest([]string{under20[n/100], "hundred"}, n%100)
	}
	return rest([]string{under20[n/1000], "thousand"}, n%1000)
}

// pluralOf says more than one of a bend: forty fives, nineties, twenty two and
// a halfs, for which nobody says halves but a book.
func (choose Chooser) pluralOf(word string) string {
	switch {
	case word == "half":
		return []string{"halfs", "halves"}[choose(2)]
	case strings.HasSuffix(word, "s"):
		return word
	case strings.HasSuffix(word, "y"):
		return strings.TrimSuffix(word, "y") + "ies"
	case strings.HasSuffix(word, "x"):
		return word + "es"
	}
	return word + "s"
}

// words says a word, or what an abbreviation stands for.
func words(written string) []string {
	word := strings.TrimSuffix(written, ".")
	if long, ok := abbreviations[word]; ok {
		return strings.Fields(long)
	}
	return strings.Fields(strings.ReplaceAll(word, "-", " "))
}

// abbreviations are said in full.
var abbreviations = map[string]string{
	"w": "with", "w/": "with", "c-c": "center to center", "c/c": "center to center", "cc": "center to center",
	"ctc": "center to center", "oc": "on center", "o.c": "on center", "c/l": "center line", "o/o": "outside to outside", "i/i": "inside to inside",
	"f/f": "face to face", "outside/outside": "outside to outside", "o-o": "outside to outside", "i-i": "inside to inside",
	"f-f": "face to face", "ft": "foot", "in": "in", "sch": "schedule", "sched": "schedule", "cu": "copper",
	"galv": "galvanized", "ci": "cast iron", "bw": "butt weld", "buttweld": "butt weld", "sw": "socket weld",
	"lr": "long radius", "sr": "short radius", "el": "ell", "els": "ells", "elbo": "elbow", "deg": "degrees",
	"pls": "please", "plz": "please", "thru": "through", "n": "and", "st": "street", "std": "standard",
	"san": "sanitary", "ctr": "center", "centre": "center", "centres": "centers", "mm": "millimeters",
	"cm": "centimeters", "nohub": "no hub", "ok": "okay",
	"standoff": "stand off", "xh": "extra heavy", "takeout": "take out", "makeup": "make up", "centerline": "center line",
	"centerlines": "center lines", "setback": "set back", "horiz": "horizontal", "vert": "vertical", "approx": "about",
	"gal": "galvanized", "thanx": "thanks", "thx": "thanks", "ty": "thanks", "info": "info", "diff": "difference",
}

var signs = map[string]string{
	"-": "minus", "+": "plus", "*": "times", "x": "by", "×": "times", "÷": "divided by", "/": "divided by", "=": "is",
}
