package wording

import (
	_ "embed"
	"encoding/csv"
	"slices"
	"strings"
	"sync"

	"dogleg/parser"
)

// glossaryCSV has one row per word of the trade that dogleg uses: what it goes
// by in each language, the first being the one that dogleg says, and what it
// means. The meanings are our own words; three lines of a phone hold each.
//
//go:embed glossary.csv
var glossaryCSV string

// entry is a word with what it means.
type entry struct {
	english, spanish []string // what it goes by
	meaning          sentence
}

func (e entry) name(l parser.Language) string {
	if l == parser.Spanish {
		return e.spanish[0]
	}
	return e.english[0]
}

func (e entry) goesBy(word string) bool {
	return slices.Contains(e.english, word) || slices.Contains(e.spanish, word)
}

var glossary = sync.OnceValue(func() []entry {
	rows, err := csv.NewReader(strings.NewReader(glossaryCSV)).ReadAll()
	if err != nil {
		panic("wording: glossary.csv: " + err.Error()) // embedded, and read by every test
	}
	var entries []entry
	for _, row := range rows[1:] {
		entries = append(entries, entry{
			strings.Split(row[0], "|"), strings.Split(row[1], "|"),
			sentence{english: row[2], spanish: row[3]},
		})
	}
	return entries
})

// Meaning says what a word of the trade means; ok is false if it is not in the
// glossary. The words around it that make a question of it don't matter: "a
// takeoff mean?".
func Meaning(question string, o Options) (text string, ok bool) {
	e, ok := asked(question)
	if !ok {
		return "", false
	}
	return capital(e.name(o.Language)) + ": " + e.meaning.in(o.Language), true
}

// Word is the first English name of the word that is asked for; false if it is
// not in the glossary.
func Word(question string) (string, bool) {
	e, ok := asked(question)
	if !ok {
		return "", false
	}
	return e.english[0], true
}

// Name is what a word is called in one's own language, to stand over its
// picture.
func Name(word string, o Options) (string, bool) {
	e, ok := lookUp(word)
	if !ok {
		return "", false
	}
	return capital(e.name(o.Language)), true
}

// asked finds the word that a question is about.
func asked(question string) (entry, bool) {
	words := strings.FieldsFunc(strings.ToLower(question), func(r rune) bool { return strings.ContainsRune(" \t,.;:?¿\"'", r) })
	for {
		word := strings.Join(words, " ")
		for _, w := range []string{word, strings.TrimSuffix(word, "s")} {
			if e, ok := lookUp(w); ok {
				return e, true
			}
		}
		switch last := len(words) - 1; {
		case last < 1:
			return entry{}, false
		case slices.Contains(askingWords, words[last]):
			words = words[:last]
		case slices.Contains(askingWords, words[0]):
			words = words[1:]
		default:
			return entry{}, false
		}
	}
}

// askingWords may stand around a word that is asked for.
var askingWords = []string{"a", "an", "the", "mean", "means", "what", "is", "does", "un", "una", "el", "la"}

func lookUp(word string) (entry, bool) {
	for _, e := range glossary() {
		if e.goesBy(word) {
			return e, true
		}
	}
	return entry{}, false
}

// Glossary lists the words that are in the glossary.
func Glossary(o Options) string {
	var names []string
	for _, e := range glossary() {
		names = append(names, e.name(o.Language))
	}
	slices.Sort(names)
	return o.say("glossary", "words", strings.Join(names, ", "))
}

// NotInGlossary says that a word is not in it.
func NotInGlossary(o Options) string { return o.say("not in glossary") }
