package wording

import (
	"cmp"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dogleg/bot/figure"
	"dogleg/parser"
)

// Spoken is an answer for the ear: the number, what was understood and how to
// turn the fitting, with numbers in words. The rest is for the eye.
func Spoken(a *figure.Answer, o Options) string {
	if a == nil {
		return o.say("went wrong")
	}
	o = o.For(a.Ask)
	lines := spoken(slices.Concat(
		o.unequal(a),
		[]string{o.first(a)}, o.measureFirst(a), []string{capital(o.sized(a, o.read(a.Ask, a.System, a.Size)))},
		o.misread(a.Ask),
		o.roll(a),
		o.leaveLong(a),
	))
	return Ear(strings.Join(lines, ". "), o)
}

// sized adds the unit that nobody writes behind a size of pipe and a voice needs:
// "2 PVC" is "2-inch PVC".
func (o Options) sized(a *figure.Answer, read string) string {
	size := string(cmp.Or(a.Size, a.Ask.Pipe.Size))
	if o.Language == parser.Spanish || !strings.HasSuffix(anyNumber.FindString(size), size) {
		return read
	}
	before, pipe, found := strings.Cut(read, ", "+size+" ")
	if !found {
		return read
	}
	return before + ", " + size + "-inch " + pipe
}

// What is printed and has to be said otherwise: 5' 2-15/16", 14-3/4 in, heavy
// after a figure, 14-3/4, 15/16, 25.85, 45.
var (
	wholeFeet     = regexp.MustCompile(` \((-?\d+)' 0"\)`)
	feetAndInches = regexp.MustCompile(` \((-?\d+)' ([^"]+)"\)`)
	withInches    = regexp.MustCompile(`[\d/-]+ (?:in|pulg)\b(?: \d)?`)
	leanOfFigure  = regexp.MustCompile(`(\d|inch|inches|pulgadas?) (heavy|light|un pelo más|un pelo menos)( \pL)?`)
	inMeters      = regexp.MustCompile(`(\d) m\b`)
	anyNumber     = regexp.MustCompile(`(\d+)-(\d+)/(\d+)|(\d+)/(\d+)|(\d+)\.(\d+)|\d+`)
)

// Ear spells out the numbers and marks of a printed line, so that a voice
// reads it as a person would: "Cut 14-3/4 in heavy" is "Cut fourteen and three
// quarters, heavy".
func Ear(text string, o Options) string {
	text = wholeFeet.ReplaceAllString(text, o.say("ear whole feet", "feet", "$1"))
	text = feetAndInches.ReplaceAllString(text, o.say("ear feet", "feet", "$1", "inches", "$2"))
	text = inMeters.ReplaceAllString(text, "$1 "+o.say("ear meters"))
	text = withInches.ReplaceAllStringFunc(text, o.earInches)
	text = leanOfFigure.ReplaceAllStringFunc(text, earLean)
	text = strings.NewReplacer(
		"±", o.say("ear plus or minus")+" ", "°", " "+o.say("ear degrees"), " · ", ", ", "×", o.say("ear times"),
		"%", " "+o.say("ear percent"), " - ", " "+o.say("ear minus")+" ", " + ", " "+o.say("ear plus")+" ", " ÷ ", " "+o.say("ear divided by")+" ", "\n", ". ", " mm", " "+o.say("ear millimeters"), `"`, "", "..", ".",
	).Replace(text)
	return o.earNumbers(text)
}

// earInches drops the unit after a fraction, as people do, and spells it out
// after a whole number. "1 in 96" is no length and stays.
func (o Options) earInches(printed string) string {
	number, unit, _ := strings.Cut(printed, " ")
	switch {
	case strings.Contains(unit, " "):
		return printed
	case strings.Contains(number, "/"):
		return number
	case number == "1":
		return number + " " + o.say("ear inch")
	}
	return number + " " + o.say("ear inches")
}

// earLean sets heavy and light off with commas.
func earLean(printed string) string {
	m := leanOfFigure.FindStringSubmatch(printed)
	if m[3] != "" {
		return m[1] + ", " + m[2] + "," + m[3]
	}
	return m[1] + ", " + m[2]
}

func (o Options) earNumbers(text string) string {
	var b strings.Builder
	last := 0
	for _, at := range anyNumber.FindAllStringIndex(text, -1) {
		b.WriteString(text[last:at[0]])
		words := o.spell(text[at[0]:at[1]])
		last = at[1]
		if pluralFollows(text[last:]) && o.Language != parser.Spanish {
			words, last = plural(words), last+1
		}
		b.WriteString(words)
	}
	return b.String() + text[last:]
}

// pluralFollows tells whether a number is a plural: the s of 45s.
func pluralFollows(rest string) bool {
	return strings.HasPrefix(rest, "s") && (len(rest) == 1 || strings.ContainsAny(rest[1:2], " ,.:;?"))
}

func plural(words string) string {
	if before, ok := strings.CutSuffix(words, "y"); ok {
		return before + "ies"
	}
	if strings.HasSuffix(words, "x") {
		return words + "es"
	}
	return words + "s"
}

// spell writes one printed number in words.
func (o Options) spell(number string) string {
	whole, fraction, mixed := strings.Cut(number, "-")
	switch {
	case mixed:
		return o.spell(whole) + " " + o.say("and") + " " + o.fraction(fraction)
	case strings.Contains(number, "/"):
		return o.fraction(number)
	case strings.Contains(number, "."):
		return o.decimal(number)
	}
	n, err := strconv.Atoi(number)
	if err != nil || n > mostSpelled {
		return number
	}
	return Cardinal(n, o.Language)
}

func (o Options) decimal(number string) string {
	whole, digits, _ := strings.Cut(number, ".")
	words := []string{o.spell(whole), o.say("ear point")}
	for _, d := range digits {
		words = append(words, Cardinal(int(d-'0'), o.Language))
	}
	return strings.Join(words, " ")
}

func (o Options) fraction(f string) string {
	top, bottom, _ := strings.Cut(f, "/")
	n, err := strconv.Atoi(top)
	if err != nil {
		return f
	}
	if n == 1 {
		if text, ok := o.said("one over " + bottom); ok {
			return text
		}
	}
	if text, ok := o.said("parts of "+bottom, "number", Cardinal(n, o.Language)); ok {
		return text
	}
	return f
}
