package bot

import (
	_ "embed"
	"encoding/csv"
	"strings"
	"sync"

	"dogleg/parser"
)

// phrase is what a whole message means that is no measurement.
type phrase string

// The phrases.
const (
	greet        phrase = "greet"
	firstHelp    phrase = "first help"
	howLong      phrase = "how long"
	tellWhy      phrase = "why"
	tellMore     phrase = "more"
	showSettings phrase = "settings"
	giveCommand  phrase = "command"
	forgetTheirs phrase = "forget takeoff"
	doneWhich    phrase = "done which"
	shareIt      phrase = "share"
	sayNo        phrase = "no"
	giveHint     phrase = "hint"
	measuring    phrase = "measuring" // how a takeoff is measured
)

// phrasesCSV has a row for each whole message that means something by itself and
// is no measurement: its words, the language that they are of (none where they are
// of any), and what is to be done.
//
//go:embed phrases.csv
var phrasesCSV string

// languages are those of phrases.csv.
var languages = map[string]parser.Language{"": "", "en": parser.English, "es": parser.Spanish}

// phrases are the rows of phrases.csv by their words.
var phrases = sync.OnceValue(func() map[string]order {
	rows, err := csv.NewReader(strings.NewReader(phrasesCSV)).ReadAll()
	if err != nil {
		panic("bot: phrases.csv: " + err.Error()) // embedded, and read by every test
	}
	table := make(map[string]order, len(rows))
	for _, row := range rows[1:] {
		does, words, _ := strings.Cut(row[2], ":")
		table[row[0]] = order{phrase: phrase(does), words: words, language: languages[row[1]]}
	}
	return table
})

// longestPhrase is as long as a message may be to be looked for among the phrases.
const longestPhrase = 40

// readPhrase reads a whole message that means something by itself.
func readPhrase(text string) (order, bool) {
	if len(text) > longestPhrase {
		return order{}, false
	}
	words := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	o, ok := phrases()[words]
	if !ok {
		o, ok = phrases()[strings.TrimSpace(strings.Trim(words, "¿?¡!.,"))]
	}
	return o, ok && words != ""
}
