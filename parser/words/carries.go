package words

import (
	_ "embed"
	"encoding/csv"
	"strings"
	"sync"
	"unicode"
)

// carriesCSV names what a pipe carries, is made of or goes through, where
// cautions hang on it. It is looked up in the whole of a message, since it is
// told along the way as often as it is said of the pipe: "the water line".
//
//go:embed carries.csv
var carriesCSV string

// carried are the rows, by their words.
var carried = sync.OnceValue(func() map[string]string {
	rows, err := csv.NewReader(strings.NewReader(carriesCSV)).ReadAll()
	if err != nil {
		panic("words: carries.csv: " + err.Error()) // embedded, and read by every test
	}
	means := make(map[string]string, len(rows))
	for _, row := range rows[1:] {
		means[row[0]] = row[1]
	}
	return means
})

// longestCarried is how many words a row has at most.
const longestCarried = 3

// Carried lists what a text says that a pipe carries, is made of or goes
// through, in the order said, the longest words first: "medical gas" is no gas.
func Carried(text string) []string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
	var all []string
	for i := 0; i < len(words); {
		n := min(longestCarried, len(words)-i)
		for ; n > 0; n-- {
			if means, ok := carried()[strings.Join(words[i:i+n], " ")]; ok {
				all = append(all, means)
				break
			}
		}
		i += max(n, 1)
	}
	return all
}
