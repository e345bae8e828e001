package wording_test

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"dogleg/bot/wording"
	"dogleg/catalog"
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
		text, ok := wording.Meaning(word, wording.Options{})
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
		if got, ok := wording.Meaning(test.question, wording.Options{Language: test.language}); !ok || got != test.want {
			t.Errorf("%q means %q, %v; want %q", test.question, got, ok, test.want)
		}
	}
	if got, ok := wording.Meaning("flux capacitor", wording.Options{}); ok {
		t.Errorf("means %q", got)
	}
}

// Every word in the list is one that can be asked for.
func TestGlossaryListsItsWords(t *testing.T) {
	for _, l := range []parser.Language{parser.English, parser.Spanish} {
		o := wording.Options{Language: l}
		_, list, _ := strings.Cut(wording.Glossary(o), "\n")
		words := strings.Split(list, ", ")
		if len(words) != len(glossaryRows(t)) {
			t.Errorf("%s: %d words listed of %d", l, len(words), len(glossaryRows(t)))
		}
		for _, w := range words {
			if _, ok := wording.Meaning(w, o); !ok {
				t.Errorf("%s: no meaning of %q", l, w)
			}
		}
	}
}

// Whatever a reply calls a figure, a fitting, a joint or a way of laying the
// tape has an entry.
func TestWhatAReplyCallsThingsIsExplained(t *testing.T) {
	plain := map[string]bool{ // words of everybody
		"result": true, "number of lines": true, "size": true, "that figure": true, "roll angle, from plumb": true,
		"gap at each joint": true, "obstacle length": true, "joint": true, "unit": true,
	}
	ask := func(what, word string) {
		if plain[word] || word == "" {
			return
		}
		if _, ok := wording.Meaning(word, wording.Options{}); !ok {
			t.Errorf("%s is called %q, which has no entry", what, word)
		}
	}
	for _, role := range constants(t, "../../parser/ask", "Role") {
		ask("role "+role, wording.RoleName(parser.Role(role), wording.Options{}))
	}
	for _, method := range constants(t, "../../parser/ask", "Method") {
		ask("method", strings.ReplaceAll(method, "-", " "))
	}
	for _, s := range catalog.Systems() {
		ask("joint", string(s.Joint))
		for _, f := range s.Fittings() {
			ask("fitting", string(f.Shape))
		}
	}
}
