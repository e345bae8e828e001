package wording

import (
	_ "embed"
	"encoding/csv"
	"strings"
	"sync"

	"dogleg/bot/figure"
)

// cautionsCSV has one row per caution: its name, its sentence in each language,
// and what is said of it in few words. What stands behind a caution is kept where it is decided, in
// [figure.Authorities].
//
//go:embed cautions.csv
var cautionsCSV string

// cautionWords are what is said of a caution, in full and in few words.
type cautionWords struct{ full, brief sentence }

// cautionSentences are the rows of cautions.csv by the caution's name.
var cautionSentences = sync.OnceValue(func() map[figure.Caution]cautionWords {
	rows, err := csv.NewReader(strings.NewReader(cautionsCSV)).ReadAll()
	if err != nil {
		panic("wording: cautions.csv: " + err.Error()) // embedded, and read by every test
	}
	table := make(map[figure.Caution]cautionWords, len(rows))
	for _, row := range rows[1:] {
		table[figure.Caution(row[0])] = cautionWords{
			full: sentence{english: row[1], spanish: row[2]}, brief: sentence{english: row[3], spanish: row[4]},
		}
	}
	return table
})

// cautions words cautions, one line each.
func (o Options) cautions(of []figure.Caution) []string {
	var lines []string
	for _, c := range of {
		lines = append(lines, cautionSentences()[c].full.in(o.Language))
	}
	return lines
}

// AllCautions words every caution of an answer with what stands behind it,
// and who decides.
func AllCautions(a *figure.Answer, o Options) string {
	if a == nil || len(a.Cautions) == 0 {
		return o.say("no cautions") + "\n" + o.say("notice")
	}
	behind := map[figure.Caution]string{}
	for _, authority := range figure.Authorities() {
		behind[authority.Caution] = authority.Behind
	}
	var lines []string
	for i, line := range o.cautions(a.Cautions) {
		lines = append(lines, "· "+line+" ("+o.source(behind[a.Cautions[i]])+")")
	}
	return whole(append(lines, o.say("notice")))
}
