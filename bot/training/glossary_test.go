package training_test

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"dogleg/bot/training"
	"dogleg/bot/wording"
	"dogleg/parser"
)

func glossaryRows(t *testing.T) [][]string {
	t.Helper()
	f, err := os.Open("glossary.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// Three lines of a phone are 120 letters; and no word stands in two rows.
func TestMeaningsAreShort(t *testing.T) {
	seen := map[string]bool{}
	for _, row := range glossaryRows(t) {
		for _, meaning := range row[2:] {
			if n := utf8.RuneCountInString(meaning); n > 120 || n < 20 {
				t.Errorf("%s: %d letters: %s", row[0], n, meaning)
			}
		}
		for w := range strings.SplitSeq(row[0], "|") {
			if seen[w] {
				t.Errorf("%s is in two rows", w)
			}
			seen[w] = true
		}
	}
	if len(seen) < 50 {
		t.Errorf("only %d words", len(seen))
	}
}

// What a reply calls its figures is in the glossary.
func TestTheWordsOfAReplyAreExplained(t *testing.T) {
	for _, word := range []string{
		"set", "true set", "roll", "rise", "run", "travel", "cut", "takeoff", "end gap", "center to center", "stagger",
		"spacing", "fall", "grade", "invert", "reach", "clearance", "room", "heavy", "light", "handbook", "dry fit",
		"street", "hub", "face", "depth", "multiplier", "rolling offset", "dogleg", "trim", "mark",
	} {
		text, ok := training.Meaning(word, wording.Options{})
		if !ok || strings.Count(text, "\n") > 2 {
			t.Errorf("%s: %q", word, text)
		}
	}
}

func TestMeaning(t *testing.T) {
	for _, test := range []struct {
		question string
		language parser.Language
		want     string
	}{
		{"takeoff?", "", "Takeoff: What a fitting takes up: from its center to where the pipe stops inside. Comes off at each end."},
		{"true set mean", "", "True set: The set of a rolling offset, measured on the slant: the root of roll squared and rise squared."},
		{"Takeoffs", "", "Takeoff: What a fitting takes up: from its center to where the pipe stops inside. Comes off at each end."},
		{"descuento?", parser.Spanish, "Descuento: Lo que ocupa una conexión: de su centro a donde topa el tubo. Se quita en cada punta."},
	} {
		if got, ok := training.Meaning(test.question, wording.Options{Language: test.language}); !ok || got != test.want {
			t.Errorf("%q means %q, %v; want %q", test.question, got, ok, test.want)
		}
	}
	if got, ok := training.Meaning("flux capacitor", wording.Options{}); ok {
		t.Errorf("means %q", got)
	}
}

// Every word in the list is one that can be asked for.
func TestGlossaryListsItsWords(t *testing.T) {
	for _, l := range []parser.Language{parser.English, parser.Spanish} {
		o := wording.Options{Language: l}
		_, list, _ := strings.Cut(training.Glossary(o), "\n")
		words := strings.Split(list, ", ")
		if len(words) != len(glossaryRows(t)) {
			t.Errorf("%s: %d words listed of %d", l, len(words), len(glossaryRows(t)))
		}
		for _, w := range words {
			if _, ok := training.Meaning(w, o); !ok {
				t.Errorf("%s: no meaning of %q", l, w)
			}
		}
	}
}
