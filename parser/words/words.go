// Package words is the vocabulary of the trade: what words and phrases may mean,
// in English and Spanish.
//
// It is data. A row of a file in vocabulary/ names a word or phrase, its meanings
// and its language; a synonym is a row, a second language is rows. What a word
// does mean in a message is not decided here: a meaning is something that the
// reader may take it for, and weighs.
package words

import (
	"embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// files are the tables. The first line of each names its columns. Of two meanings of
// one sense that a word has, that in the file whose name comes first goes first.
//
//go:embed vocabulary/*.csv
var files embed.FS

// Plain lists words of everyday English that look like a slip of one of the
// trade's and are none.
//
//go:embed vocabulary/plain.txt
var Plain string

// Term is a word or phrase with its meanings.
type Term struct {
	Text     string   // with one blank between words
	Words    []string // the same, apart
	Language string   // en, es
	Meanings []Meaning
}

// Meaning is one meaning of a term: the sense "role" with the value "set".
type Meaning struct{ Sense, Value string }

// Means returns the value of the first meaning of a sense that the term has.
func (t *Term) Means(sense string) (string, bool) {
	if t == nil {
		return "", false
	}
	for _, m := range t.Meanings {
		if m.Sense == sense {
			return m.Value, true
		}
	}
	return "", false
}

// Is says whether the term has a meaning of a sense.
func (t *Term) Is(sense string) bool {
	_, ok := t.Means(sense)
	return ok
}

// book is the vocabulary, made for looking up.
type book struct {
	phrases map[string][]*Term // by first word, the longest phrase first
}

var open = sync.OnceValue(func() *book {
	b, err := read()
	if err != nil {
		panic(err) // the files are embedded and tested
	}
	return b
})

func read() (*book, error) {
	b := &book{phrases: make(map[string][]*Term, 2000)}
	add := func(phrase, means, language string) error {
		t := b.entry(phrase, language)
		for part := range strings.SplitSeq(means, ";") {
			sense, value, _ := strings.Cut(strings.TrimSpace(part), " ")
			if x := (Meaning{sense, value}); !slices.Contains(t.Meanings, x) {
				t.Meanings = append(t.Meanings, x)
			}
		}
		return nil
	}
	entries, err := files.ReadDir("vocabulary")
	if err != nil {
		return nil, err
	}
	for _, e := range entries {
		if err := rowsOf("vocabulary/"+e.Name(), add); err != nil {
			return nil, fmt.Errorf("%s: %w", e.Name(), err)
		}
	}
	for _, terms := range b.phrases {
		slices.SortStableFunc(terms, func(x, y *Term) int { return len(y.Words) - len(x.Words) })
	}
	return b, nil
}

// rowsOf gives the rows of a table, one after the other: a word or phrase, its meanings
// parted by semicolons, its language. It ends with the first error.
func rowsOf(name string, do func(phrase, means, language string) error) error {
	f, err := files.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	rows := csv.NewReader(f)
	rows.ReuseRecord = true
	for heading := true; ; heading = false {
		row, err := rows.Read()
		switch {
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return err
		case heading:
			continue
		}
		if err := do(row[0], row[1], row[2]); err != nil {
			return fmt.Errorf("%s: %w", row[0], err)
		}
	}
}

// entry is the term of a phrase. Two rows for the same words make one term.
func (b *book) entry(phrase, language string) *Term {
	first, _, _ := strings.Cut(phrase, " ")
	for _, t := range b.phrases[first] {
		if t.Text == phrase {
			return t
		}
	}
	t := &Term{Text: phrase, Words: strings.Fields(phrase), Language: language}
	b.phrases[first] = append(b.phrases[first], t)
	return t
}

// Beginning lists the terms whose first word is the given one, the longest first.
func Beginning(word string) []*Term { return open().phrases[word] }

// Find is the term of one word, or nil.
func Find(word string) *Term {
	terms := open().phrases[word]
	if n := len(terms); n > 0 && len(terms[n-1].Words) == 1 {
		return terms[n-1]
	}
	return nil
}

// Number is the value of a number word, and whether it is a plural: forties.
func Number(word string) (n int, plural, ok bool) {
	value, ok := Find(word).Means("number")
	if !ok {
		return 0, false, false
	}
	first, rest, _ := strings.Cut(value, " ")
	n, err := strconv.Atoi(first)
	return n, rest == "plural", err == nil
}

// Part is what a fraction word divides by: 8 for eighths.
func Part(word string) (int, bool) {
	value, ok := Find(word).Means("fraction")
	if !ok {
		return 0, false
	}
	first, _, _ := strings.Cut(value, " ")
	n, err := strconv.Atoi(first)
	return n, err == nil
}

// Unit is the unit that a word names: inch, foot, mm, cm, m, degree, percent.
func Unit(word string) (string, bool) {
	value, ok := Find(word).Means("unit")
	first, _, _ := strings.Cut(value, " ")
	return first, ok
}
