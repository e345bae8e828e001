package main

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dogleg/bot/voice/aloud"
)

// sentence makes one sentence of words whose sound is known.
func (s *sampler) sentence() []string {
	for {
		if words := s.anySentence(); s.sounds.knows(spelled(words)) {
			return words
		}
	}
}

// spelled are words without their marks.
func spelled(words []string) []string {
	plain := make([]string, len(words))
	for i, w := range words {
		plain[i] = strings.TrimLeft(w, marks)
	}
	return plain
}

// anySentence makes one sentence. How often each kind comes is a judgement: most
// of what the ear hears are requests.
func (s *sampler) anySentence() []string {
	switch at := s.Float64(); {
	case at < 0.09:
		return s.chatter()
	case at < 0.11:
		return strings.Fields(s.one(s.phrases))
	case at < 0.15:
		return s.bare()
	case at < 0.24:
		return s.figures()
	}
	words := s.request()
	if s.chance(0.06) {
		at := s.IntN(len(words) + 1)
		words = slices.Insert(words, at, s.talkWord())
	}
	return words
}

func (s *sampler) one(of []string) string    { return of[s.IntN(len(of))] }
func (s *sampler) chance(share float64) bool { return s.Float64() < share }

// choose picks a way to say something, each way half as often as the one before.
func (s *sampler) choose(n int) int {
	i := 0
	for i < n-1 && s.chance(0.4) {
		i++
	}
	return i
}

// chatter is everyday talk, with a number in it here and there.
func (s *sampler) chatter() []string {
	var words []string
	for range 1 + s.IntN(10) {
		if s.chance(0.15) {
			words = append(words, s.figures()...)
		} else {
			words = append(words, s.talkWord())
		}
	}
	return words
}

// talkWord is an everyday word. They come about as often as in life: the
// thousandth commonest a thousandth as often as the first (Zipf's law).
func (s *sampler) talkWord() string {
	n := float64(len(s.talk))
	return s.talk[int(math.Pow(n, s.Float64()))-1]
}

// bare is the answer to a question that was asked back.
func (s *sampler) bare() []string {
	text := s.length()
	switch s.IntN(6) {
	case 0:
		text = s.size(s.one(unitMarks)) + " " + s.material()
	case 1:
		text = s.bend() + "s"
	case 2:
		text = s.length() + `"`
	case 4:
		text = "in " + s.size(s.one(unitMarks))
	case 3:
		text = s.one([]string{"same but ", "make it ", "takeoff is ", "with ", "set ", "now "}) + s.length()
	}
	return s.aloud(text, s.choose)
}

// figures are numbers read out, as of a phone, a door or a year. They follow
// each other otherwise than in a request: with words of their own in the model,
// "one eight" is not drawn to "one eighth", nor "seven nine two" to "seventy".
func (s *sampler) figures() []string {
	words := s.pairs()
	if s.chance(0.6) {
		words = s.digits()
	}
	for i, w := range words {
		words[i] = readOut + w
	}
	return words
}

// digits are figures read one by one; a zero is more often an oh.
func (s *sampler) digits() (words []string) {
	for range 1 + s.IntN(8) {
		if s.chance(0.07) {
			words = append(words, "oh")
		} else {
			words = append(words, aloud.Whole(fmt.Sprint(s.IntN(10)))...)
		}
	}
	return words
}

// pairs are figures read by twos, as of a year, now and then with a single one
// or a whole number of three.
func (s *sampler) pairs() (words []string) {
	for range 1 + s.IntN(3) {
		least, past := 10, 100
		switch at := s.Float64(); {
		case at < 0.05:
			least, past = 100, 1000
		case at < 0.35:
			least, past = 0, 10
		}
		words = append(words, aloud.Whole(fmt.Sprint(least+s.IntN(past-least)))...)
	}
	return words
}

// The places of a message where another figure or material can stand. First
// what must stay as it is: schedules, grades.
var places = regexp.MustCompile(`(?i)` + strings.Join([]string{
	`(?P<stays>(?:schedule|sch|sched|type|no\.?) ?\d+|\d+/\d+ (?:per|a|to the) f(?:oo)?t|\d+ in \d+|\d+(?:\.\d+)? ?(?:%|percent|pct)|\d+\.\d+ ?m\b)`,
	`(?P<metric>\d+)(?P<mm> ?(?:mm|mil|mill|millimet(?:er|re)s?)\b)`,
	`(?P<count>\d+)(?P<things> (?:parallel )?(?:lines|pipes|runs)\b)`,
	`(?P<long>\d+)(?P<feet> ?(?:ft|foot|feet)\b(?: ?\d+)?(?:[- ]\d+/\d+)?|')`,
	`(?P<bend>(?:\d+-\d+/\d+|22 1/2|11 1/4|\d+(?:\.5)?)(?P<s>'?s\b|°| ?deg(?:ree)?s?\b| (?:elbow|ell|bend)s?\b)|\b(?:45|90|22-1/2)\b)`,
	`(?P<pipe>(?P<size>\d+-\d+/\d+|\d+ \d+/\d+|\d+/\d+|\d+)(?P<unit>"| ?in\.?| ?inch)? (?P<of>` + materials + `))`,
	`(?P<material>\b` + materials + `)`,
	`(?P<length>\d+' ?\d*(?:-\d+/\d+)?"?|\d+-\d+/\d+|\d+ \d+/\d+|\d+/\d+|\d+)(?P<inches>"|in\b\.?|inch(?:es)?)?`,
}, "|"))

const materials = `(?:cpvc|pvc|abs|copper|no hub|cast iron|black iron|galv(?:anized)?|steel)\b`

// request is a message of the corpus, or one made of pieces of them, with other
// figures and words in it.
func (s *sampler) request() []string {
	if s.pieces != nil && s.chance(inPieces) {
		return s.filled(s.pieces.sentence(s))
	}
	return s.filled(s.template(s.messages[s.IntN(len(s.messages))]))
}

// inPieces is the share of requests that are made of pieces; chosen on writers
// who were held back.
const inPieces = 0.5

// template is a message as it is said, with the kind of a figure in its place.
func (s *sampler) template(m message) []string {
	text := places.ReplaceAllStringFunc(m.text, func(found string) string {
		part := places.FindStringSubmatch(found)
		return s.kind(found, func(name string) string { return part[places.SubexpIndex(name)] }, m.stated)
	})
	return s.spoken(s.reworded(s.aloud(text, s.choose)))
}

// A kind of figure, in a word that nobody says.
const (
	aLength   = "zzlength"
	aMeasure  = "zzmeasure" // with its unit
	aMetric   = "zzmetric"
	aCount    = "zzcount"
	someFeet  = "zzfeet"
	aBend     = "zzbend"
	someBends = "zzbends"
	aSize     = "zzsize"
	aBareSize = "zzbaresize"
	aMaterial = "zzmaterial"
)

// filled puts figures in the places of their kinds.
func (s *sampler) filled(template []string) (said []string) {
	for _, w := range template {
		base, ending, _ := strings.Cut(w, "'")
		text := ""
		switch base {
		case aLength:
			text = s.length()
		case aMeasure:
			text = s.length() + `"`
		case aMetric:
			text = s.millimeters()
		case aCount:
			text = fmt.Sprint(2 + s.IntN(5))
		case someFeet:
			text = s.feet()
		case aBend:
			text = s.bend()
		case someBends:
			text = s.bend() + "s"
		case aSize:
			text = s.size(`"`)
		case aBareSize:
			text = s.size("")
		case aMaterial:
			text = s.material()
		default:
			said = append(said, w)
			continue
		}
		said = append(said, s.aloud(text, s.choose)...)
		if ending != "" {
			said[len(said)-1] += "'" + ending
		}
	}
	return said
}

// kind is what stands in a place of a message, if it measures anything.
func (s *sampler) kind(found string, get func(string) string, stated map[string]bool) string {
	measures := func(figure string) bool {
		return stated == nil || stated[figure] || stated[strings.Replace(figure, " ", "-", 1)]
	}
	sized := map[bool]string{true: aBareSize, false: aSize}
	switch {
	case get("stays") != "":
		return found
	case get("metric") != "":
		return aMetric + " " + get("mm")
	case get("count") != "":
		return aCount + get("things")
	case get("long") != "":
		return someFeet
	case get("bend") != "" && !measures(strings.TrimRight(found, "'s° degrlbown")) && stated != nil && len(found) > 2:
		return found
	case strings.TrimLeft(get("s"), "'") == "s":
		return someBends
	case get("bend") != "":
		return aBend + " " + strings.Replace(get("s"), "°", " degrees", 1)
	case get("pipe") != "":
		return sized[get("unit") == ""] + " " + aMaterial
	case get("material") != "":
		return aMaterial
	case !measures(get("length")):
		return found
	}
	return s.lengthKind(get("length"), get("inches") != "", stated != nil)
}

// lengthKind is the kind of a length, by its figure.
func (s *sampler) lengthKind(length string, unit, ofPeople bool) string {
	n, err := strconv.Atoi(length)
	switch {
	case err == nil && n > 110:
		return aMetric
	case unit && ofPeople && s.chance(0.15):
		return aSize // a size without what it's of
	case unit:
		return aMeasure
	}
	return aLength
}

// millimeters are a length on a metric tape: most of them round.
func (s *sampler) millimeters() string {
	n := 20 * math.Exp(s.Float64()*math.Log(150))
	step := []float64{1, 1, 5, 5, 10, 10, 50}[s.IntN(7)]
	return fmt.Sprint(int(max(1, math.Round(n/step)) * step))
}

// reworded puts now and then another phrase of the same meaning.
func (s *sampler) reworded(words []string) []string {
	var said []string
	for i := 0; i < len(words); {
		n, phrase := s.phraseAt(words[i:])
		switch {
		case n == 0:
			said, i = append(said, words[i]), i+1
			continue
		case s.chance(0.12):
			phrase = s.one(s.synonyms[phrase])
		}
		said, i = append(said, strings.Fields(phrase)...), i+n
	}
	return said
}

// phraseAt is the longest phrase with synonyms that the words begin with.
func (s *sampler) phraseAt(words []string) (n int, phrase string) {
	for n := min(s.longest, len(words)); n > 0; n-- {
		if phrase := strings.Join(words[:n], " "); s.synonyms[phrase] != nil {
			return n, phrase
		}
	}
	return 0, ""
}

// length is a measure off the tape: most of them under two feet, most of them
// with a fraction.
func (s *sampler) length() string {
	inches := int(math.Exp(s.Float64() * math.Log(49)))
	if s.chance(0.06) {
		inches = 48 + s.IntN(90)
	}
	whole := fmt.Sprint(inches)
	switch {
	case s.chance(0.06):
		whole = fmt.Sprintf("%d' %d", 1+s.IntN(12), 1+s.IntN(11))
	case s.chance(0.02):
		return fmt.Sprintf("%d-1/2 ft", 1+s.IntN(9))
	case s.chance(0.02):
		return fmt.Sprintf("%d ft", 1+s.IntN(12))
	}
	parts := []int{1, 2, 2, 4, 4, 8, 8, 8, 16, 16}[s.IntN(10)]
	if parts == 1 {
		return whole
	}
	fraction := fmt.Sprintf("%d/%d", 1+2*s.IntN(parts/2), parts)
	if s.chance(0.04) {
		return fraction
	}
	return whole + "-" + fraction
}

// feet is the length of a line, or a measure in feet and inches.
func (s *sampler) feet() string {
	feet := int(math.Exp(s.Float64() * math.Log(100)))
	switch {
	case s.chance(0.3):
		return fmt.Sprintf("%d ft %s", feet, s.length())
	case s.chance(0.1):
		return fmt.Sprintf("%d-1/2 ft", feet)
	}
	return fmt.Sprintf("%d ft", feet)
}

func (s *sampler) bend() string {
	return s.one([]string{"45", "45", "45", "45", "45", "45", "22-1/2", "22-1/2", "22", "22", "60", "60", "90", "90", "30", "11-1/4", "72"})
}

var unitMarks = []string{"", `"`}

// size is a pipe size as people say it. An inch and a half is also "one and a
// half".
func (s *sampler) size(unit string) string {
	size := s.one([]string{"1/2", "3/4", "3/4", "1", "1-1/4", "1-1/2", "1-1/2", "1-1/2", "2", "2", "2", "2", "2-1/2", "3", "3", "3", "4", "4", "4", "5", "6", "6", "8", "10", "12"})
	fraction, inchAnd := strings.CutPrefix(size, "1-")
	if inchAnd && s.chance(0.6) {
		half := map[string]string{"1/4": "a quarter", "1/2": "a half"}[fraction]
		return s.one([]string{"inch and ", "inch and ", "an inch and "}) + half
	}
	if unit == "" && s.chance(0.4) {
		unit = `"`
	}
	if unit != "" {
		return size + " inch"
	}
	return size
}

func (s *sampler) material() string {
	if s.chance(0.2) {
		return s.one(s.materials)
	}
	return s.one([]string{"pvc", "pvc", "pvc", "abs", "abs", "copper", "copper", "no hub", "cast iron", "black iron", "galvanized", "steel", "cpvc"})
}
