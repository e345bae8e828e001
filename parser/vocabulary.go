package parser

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/alecthomas/participle/v2/lexer"

	lexicon "dogleg/parser/words"
)

// The vocabulary is data: one row a word or phrase, with what it means and in
// which language. A synonym is a row; a second language is rows. The meanings
// that a row may name are those of [sense].

// term is a word or phrase of the vocabulary with its meanings.
type term struct {
	text     string // with one blank between words
	words    []string
	language Language
	meanings []meaning
	senses   senseSet // of the meanings

	role Role   // that the first of these names, if one does: set
	how  string // and what its row says of it besides: soft
}

// meaning is one meaning of a term: "role set", "material steel".
type meaning struct {
	what  sense
	value string
}

// termOf makes a term that is no row of the vocabulary.
func termOf(text string, l Language, means ...meaning) *term {
	t := &term{text: text, words: strings.Fields(text), language: l}
	for _, m := range means {
		t.add(m)
	}
	return t
}

// add gives a term one more meaning.
func (t *term) add(m meaning) {
	if m.what == senseRole && !t.is(senseRole) {
		role, how, _ := strings.Cut(m.value, " ")
		t.role, t.how = Role(role), how
	}
	t.meanings = append(t.meanings, m)
	t.senses.add(m.what)
}

// means returns the value of a meaning that the term has.
func (t *term) means(what sense) (string, bool) {
	if !t.is(what) {
		return "", false
	}
	for _, m := range t.meanings {
		if m.what == what {
			return m.value, true
		}
	}
	return "", false
}

// names says whether the term names a role.
func (t *term) names(r Role) bool { return t.is(senseRole) && t.role == r }

// is says whether the term has a meaning.
func (t *term) is(what sense) bool { return t != nil && t.senses.has(what) }

// vocabulary is the whole of it, made for looking up.
type vocabulary struct {
	phrases map[string][]*term         // by first word, longest phrase first
	types   map[string]lexer.TokenType // of number words, units, articles
	numbers map[string]int             // twelve
	parts   map[string]int             // eighths
	units   map[string]string          // inches: inch
}

var words = sync.OnceValue(func() *vocabulary {
	v, err := readVocabulary()
	if err != nil {
		panic(err) // the files are embedded and tested; this cannot happen at a user's
	}
	return v
})

func readVocabulary() (*vocabulary, error) {
	v := &vocabulary{
		phrases: make(map[string][]*term, 2000), types: map[string]lexer.TokenType{},
		numbers: map[string]int{}, parts: map[string]int{}, units: map[string]string{},
	}
	err := lexicon.EachRow(func(phrase, means, language string) error { return v.add(phrase, means, Language(language)) })
	if err != nil {
		return nil, err
	}
	v.arrange()
	return v, nil
}

// add files one row where it will be looked up. Two rows for the same words
// make one term with the meanings of both.
func (v *vocabulary) add(phrase, means string, language Language) error {
	t := v.entry(phrase, language)
	for part := range strings.SplitSeq(means, ";") {
		name, value, _ := strings.Cut(strings.TrimSpace(part), " ")
		what, ok := senses[name]
		if !ok {
			return fmt.Errorf("no such meaning: %s", name)
		}
		t.add(meaning{what, value})
		if err := v.addToken(phrase, what, value); err != nil {
			return err
		}
	}
	return nil
}

func (v *vocabulary) entry(phrase string, language Language) *term {
	first, _, _ := strings.Cut(phrase, " ")
	for _, t := range v.phrases[first] {
		if t.text == phrase {
			return t
		}
	}
	t := termOf(phrase, language)
	v.phrases[first] = append(v.phrases[first], t)
	return t
}

// addToken gives a word its token type, for the words that the grammar knows.
func (v *vocabulary) addToken(word string, what sense, value string) (err error) {
	first, _, _ := strings.Cut(value, " ")
	switch {
	case what == senseNumber:
		v.numbers[word], err = strconv.Atoi(first)
		v.types[word] = numberType(v.numbers[word])
		if strings.HasSuffix(value, "plural") && v.numbers[word] >= 20 {
			v.types[word] = teenToken // sixties: no digit can follow it
		}
	case what == senseFraction:
		v.types[word] = fractionWordToken
		v.parts[word], err = strconv.Atoi(first)
	case what == senseUnit:
		v.units[word] = first
		v.types[word] = unitTypes[first]
	case what == senseAnd:
		v.types[word] = andToken
	case what == senseArticle:
		v.types[word] = articleToken
	case what == sensePlural:
		v.types[word] = pluralToken
	}
	return err
}

// numberType says where a number word may stand: forty five, but not forty ten.
func numberType(n int) lexer.TokenType {
	switch {
	case n < 10:
		return digitToken
	case n < 20:
		return teenToken
	case n < 100:
		return tenToken
	}
	return hundredToken
}

var unitTypes = map[string]lexer.TokenType{
	"inch": inchToken, "foot": footToken, "mm": metricToken, "cm": metricToken, "m": metricToken,
	"degree": degreeToken, "percent": percentToken,
}

// arrange puts the longest phrases first.
func (v *vocabulary) arrange() {
	for _, terms := range v.phrases {
		if len(terms) > 1 {
			slices.SortStableFunc(terms, func(a, b *term) int { return len(b.words) - len(a.words) })
		}
	}
}

// longest finds the longest phrase that the words begin with.
func (v *vocabulary) longest(said []string) *term {
	if len(said) == 0 {
		return nil
	}
	for _, t := range v.phrases[said[0]] {
		if len(t.words) <= len(said) && slices.Equal(t.words, said[:len(t.words)]) {
			return t
		}
	}
	return nil
}
