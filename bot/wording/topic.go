package wording

import (
	"encoding/csv"
	"strings"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
)

// What a topic of the conversation words its replies with: a table of sentences
// of its own, and lengths, fittings and lists of things as every reply writes
// them.

// ReadSentences reads sentences that are embedded as CSV: a heading, then a key, the
// English and the Spanish in each row; a line that begins with # says what follows. It
// panics where that is no such table, or has a key twice.
func ReadSentences(text string) Sentences {
	table := csv.NewReader(strings.NewReader(text))
	table.Comment = '#'
	rows, err := table.ReadAll()
	if err != nil {
		panic("wording: a table of sentences: " + err.Error()) // embedded, and read by every test
	}
	all := make(Sentences, len(rows))
	for _, row := range rows[1:] {
		if _, twice := all[row[0]]; twice {
			panic("wording: a sentence twice: " + row[0])
		}
		all[row[0]] = [2]string{row[1], row[2]}
	}
	return all
}

// Unsure says whether the cut of an answer is only about so, and to be left
// long.
func Unsure(a *figure.Answer) bool { return unsure(a) }

// CutLength is how long a piece is cut: "14-3/4 light", or of one that is only
// about so, which is left longer by its band, "about 17-1/16".
func CutLength(l geometry.Length, about bool, band geometry.Length, o Options) string {
	m := manner{about: about}
	if about {
		m.left = band
	}
	return o.bare(l, m)
}

// RoundedDown is the longest mark of the tape that is not over a length.
func RoundedDown(l geometry.Length, o Options) string { return o.roundedDown(l, "") }

// Stated is a length as somebody gave it, never rounded to the tape.
func Stated(l geometry.Length, o Options) string { return o.stated(l, "") }

// WithUnit is a length for a line of its own: "14-3/4 in heavy", "356 mm".
func WithUnit(l geometry.Length, o Options) string { return o.withUnit(l, exactly) }

// WholeFeet is a number of feet: "10 ft".
func WholeFeet(number int, o Options) string {
	return o.say("feet", "number", decimals(float64(number), 0))
}

// Decimals is a number with at most so many decimals and no idle zeros.
func Decimals(x float64, most int) string { return decimals(x, most) }

// FittingNames names more than one fitting: "45s", "tees".
func FittingNames(f catalog.Fitting, o Options) string { return o.fittings(f) }

// Commas joins what there is to say with commas; what is empty is left out.
func Commas(parts ...string) string { return strings.Join(spoken(parts), ", ") }

// OneMessage is lines as one message. Of one that is too long for that, the rest
// is left out, and it says so.
func OneMessage(lines []string) string { return whole(lines) }

// Notice is the notice that belongs under what is worked from.
func Notice(o Options) string { return o.say("notice") }

// longestName is the longest name of a job or a piece, in letters: what still
// leaves room for the cut on its line.
const longestName = 40

// ShortName is a name cut to the longest that is kept.
func ShortName(name string) string {
	letters := []rune(strings.TrimSpace(name))
	return strings.TrimSpace(string(letters[:min(len(letters), longestName)]))
}

// RoundedUp is the shortest mark of the tape that is not under a length, with its
// unit.
func RoundedUp(l geometry.Length, o Options) string { return o.roundedUp(l, " "+o.say("in")) }
