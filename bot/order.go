package bot

import (
	_ "embed"
	"encoding/csv"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"dogleg/bot/cutlist"
	"dogleg/parser"
)

// act is something to be done with the jobs, or with the cut list ([cutlist.Act]).
type act string

// The acts with the jobs.
const (
	findJobs   act = "jobs"
	reuseJob   act = "reuse"
	renameJob  act = "rename"
	removeJob  act = "remove"
	removeWhat act = "remove what"
)

// order is an act, what it is to be done with and the language it was said in.
type order struct {
	act      act    // none where it is a phrase
	phrase   phrase // none where it is an act
	numbers  []uint64
	all      bool   // in place of numbers
	words    string // as they were written
	language parser.Language
}

// taking says what may follow the words of an opening.
type taking string

// What may follow.
const (
	nothing taking = "nothing"
	aState  taking = "state"         // of the list, or nothing
	numbers taking = "numbers"       // at least one, and nothing else
	oneAnd  taking = "one and words" // a number and then words
	aStock  taking = "stock"         // a stock length, a saw, a pipe, or nothing
	aName   taking = "name"          // or nothing
	aSearch taking = "search"
	oneOnly taking = "one"
)

// opening is how an order begins.
type opening struct {
	words    *regexp.Regexp
	takes    taking
	act      act
	phrase   phrase
	language parser.Language
}

// ordersCSV has the words of the cut list and of the jobs, as an expression, with
// their language, what may follow them and what is to be done; behind "phrase:" is
// a phrase that a number may follow. They are read here and not by the
// parser, for what follows them is a name or a number of a piece and never a
// measure, and they are taken only as a whole message or a whole statement: a
// drop of 3 in over a length stays a fall.
//
//go:embed orders.csv
var ordersCSV string

// openings are the rows of orders.csv, in order. They are made when a message first
// begins with a word.
var openings = sync.OnceValue(func() []opening {
	rows, err := csv.NewReader(strings.NewReader(ordersCSV)).ReadAll()
	if err != nil {
		panic("bot: orders.csv: " + err.Error()) // embedded, and read by every test
	}
	var all []opening
	for _, row := range rows[1:] {
		o := opening{
			words: regexp.MustCompile(`^(?i:` + row[0] + `)(?:[\s,:]+|$)`), language: languages[row[1]],
			takes: taking(row[2]), act: act(row[3]),
		}
		if name, ok := strings.CutPrefix(row[3], "phrase:"); ok {
			o.act, o.phrase = "", phrase(name)
		}
		all = append(all, o)
	}
	return all
})

// readOrder reads a message, or a statement of one, as an order.
func readOrder(text string) (order, bool) {
	text = strings.TrimRight(strings.TrimSpace(text), ".")
	if text != "" && text[0] >= '0' && text[0] <= '9' { // no opening begins so, and most messages do
		return order{}, false
	}
	if o, ok := readPhrase(text); ok {
		return o, true
	}
	for _, o := range openings() {
		head := o.words.FindString(text)
		if head == "" {
			continue
		}
		if order, ok := o.read(strings.TrimSpace(text[len(head):])); ok {
			return order, true
		}
	}
	return order{}, false
}

// orderIn reads a text as an order, unless the words behind its opening are those of an
// ask: on the Juniper Street job, and the drain goes over 9-7/16. Statements are those
// read in it.
func orderIn(text string, statements func() []parser.Statement) (order, bool) {
	o, ok := readOrder(text)
	if inWords := o.phrase == "" && len(o.numbers) == 0 && !o.all; ok && inWords && slices.ContainsFunc(statements(), asksWhole) {
		return order{}, false
	}
	return o, ok
}

// asksWhole says whether a statement asks for a figure, whole by itself.
func asksWhole(s parser.Statement) bool {
	return s.Ask != nil && !s.Ask.FollowUp && s.Ask.Kind != parser.Unstated
}

// read reads what follows an opening.
func (o opening) read(rest string) (order, bool) {
	read := order{act: o.act, phrase: o.phrase, words: rest, language: o.language}
	ok := true
	switch o.takes {
	case nothing:
		ok = rest == ""
	case aState:
		if rest != "" {
			read.words, ok = strings.CutPrefix(rest, cutlist.AsItWas)
		}
	case numbers:
		read.numbers, read.all, ok = pieceNumbers(rest)
	case oneAnd:
		number, name, _ := strings.Cut(rest, " ")
		read.numbers, _, ok = pieceNumbers(number)
		read.words = strings.TrimLeft(strings.TrimSpace(name), ":, ")
	case oneOnly:
		read.numbers, read.all, ok = pieceNumbers(rest)
		ok = ok && len(read.numbers) == 1
	case aSearch:
		ok = rest != "" && !isNumber(rest)
	case aName:
		read.words, ok = nameToAdd(rest)
	case aStock:
		ok = cutlist.IsStock(rest) || startsWithFigure(rest) // "sticks out 3" is a measure
	}
	return read, ok
}

func isNumber(text string) bool {
	_, err := strconv.Atoi(strings.Trim(text, "#? "))
	return err == nil
}

// mostNumbers is how many numbers one order may name.
const mostNumbers = 100

// pieceNumbers reads "2", "2, 3 and 5", "#2", "all".
func pieceNumbers(text string) (numbers []uint64, all, ok bool) {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' })
	if len(words) == 1 && slices.Contains([]string{"all", "todo", "todos", "todas"}, words[0]) {
		return nil, true, true
	}
	for _, w := range words {
		if w == "and" || w == "y" {
			continue
		}
		n, err := strconv.ParseUint(strings.TrimPrefix(w, "#"), 10, 32)
		if err != nil {
			return nil, false, false
		}
		numbers = append(numbers, n)
	}
	return numbers, false, len(numbers) > 0 && len(numbers) <= mostNumbers
}

// beforeName are words between "add" and the name: "add it to the list as
// laundry".
var beforeName = regexp.MustCompile(`^(?i:(?:it|that|this|esto|eso|lo)?\s*(?:to the (?:cut )?list|to list|a la lista)?\s*(?:as|called|como)?)(?:[\s,:]+|$)`)

// nameToAdd reads what follows "add". It is none of ours where a figure does:
// "add 1/4 to 12", "add a quarter" is arithmetic.
func nameToAdd(rest string) (string, bool) {
	name := strings.TrimSpace(strings.TrimPrefix(rest, beforeName.FindString(rest)))
	first, after, _ := strings.Cut(name, " ")
	if slices.Contains([]string{"a", "an", "the", "un", "una", "otro", "another"}, strings.ToLower(first)) {
		first, _, _ = strings.Cut(after, " ")
	}
	return name, !startsWithFigure(first) && !slices.Contains([]string{"these", "up", "those", "together"}, strings.ToLower(first))
}

// startsWithFigure says whether a word is a number, in figures or in words.
func startsWithFigure(word string) bool {
	if word == "" {
		return false
	}
	if word[0] >= '0' && word[0] <= '9' {
		return true
	}
	_, isLength := parser.Answer(word, parser.Cut)
	return isLength
}
