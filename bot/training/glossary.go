package training

import (
	_ "embed"
	"encoding/csv"
	"slices"
	"strings"
	"sync"

	"dogleg/bot/wording"
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
	english, spanish []string  // what it goes by
	meaning          [2]string // English, Spanish
}

func (e entry) name(l parser.Language) string {
	if l == parser.Spanish {
		return e.spanish[0]
	}
	return e.english[0]
}

func (e entry) means(l parser.Language) string {
	if l == parser.Spanish {
		return e.meaning[1]
	}
	return e.meaning[0]
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
			[2]string{row[2], row[3]},
		})
	}
	return entries
})

// Meaning says what a word of the trade means; ok is false if it is not in the
// glossary. The words around it that make a question of it don't matter: "a
// takeoff mean?".
func Meaning(question string, o wording.Options) (text string, ok bool) {
	e, ok := asked(question)
	if !ok {
		return "", false
	}
	return wording.Capital(e.name(o.Language)) + ": " + e.means(o.Language), true
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
// picture; empty if it is not in the glossary.
func Name(word string, o wording.Options) string {
	e, ok := lookUp(word)
	if !ok {
		return ""
	}
	return wording.Capital(e.name(o.Language))
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
func Glossary(o wording.Options) string {
	var names []string
	for _, e := range glossary() {
		names = append(names, e.name(o.Language))
	}
	slices.Sort(names)
	return sentences.Say("glossary", o, "words", strings.Join(names, ", "))
}

// NotInGlossary says that a word is not in it.
func NotInGlossary(o wording.Options) string { return sentences.Say("not in glossary", o) }

// Glossary says what a word means, or lists the words.
func (r *Room) Glossary(s parser.Statement) Reply {
	r.Talk.Speak(s.Command.Language)
	o := r.options()
	if angle := s.Command.Angle; angle != 0 {
		return Reply{Text: wording.Bend(angle, o), Answered: true, Aside: r.triangleOfBend(angle)}
	}
	if s.Command.Object == "" {
		return Reply{Text: Glossary(o), Answered: true}
	}
	if text, ok := Meaning(s.Command.Object, o); ok {
		return Reply{Text: text, Answered: true, Aside: r.pictureOf(s.Command.Object)}
	}
	return Reply{Text: NotInGlossary(o)}
}

// Why explains where a multiplier comes from.
func (r *Room) Why(s parser.Statement) Reply {
	r.Talk.Speak(s.Command.Language)
	text, ok := wording.WhyMultiplier(s.Command.Factor, r.options())
	return Reply{Text: text, Answered: ok, Aside: r.triangleOf(s.Command.Factor)}
}
