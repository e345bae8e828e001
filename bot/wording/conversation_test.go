package wording_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// Help fits one phone screen, and no line of it is broken.
func TestHelpFitsAScreen(t *testing.T) {
	for _, l := range []parser.Language{parser.English, parser.Spanish} {
		lines := strings.Split(wording.Help(wording.Options{Language: l}), "\n")
		if len(lines) > 20 || len(lines) < 10 {
			t.Errorf("%s: %d lines", l, len(lines))
		}
		for _, line := range lines {
			if n := utf8.RuneCountInString(line); n > wording.Columns {
				t.Errorf("%s: %d characters: %q", l, n, line)
			}
		}
	}
}

// The greeting is what it does, three examples with what each gives, and how to
// say one: no line that a phone breaks more than once.
func TestGreetingShowsTheExamples(t *testing.T) {
	for _, l := range []parser.Language{parser.English, parser.Spanish} {
		greeting := wording.Greeting(wording.Options{Language: l})
		for _, example := range wording.Examples(wording.Options{Language: l}) {
			if line := "\n" + example.Ask + ": " + example.Gives + "\n"; !strings.Contains(greeting, line) {
				t.Errorf("%s: %q does not stand alone in\n%s", l, line, greeting)
			}
		}
		if rows := wording.Wrapped(greeting); rows > 10 {
			t.Errorf("%s: the greeting takes %d rows", l, rows)
		}
	}
}

// What help and the greeting show can be sent as it stands, down to the blank
// line after which come the changes to an answer. Help says before each what it
// gives.
func TestExamplesAreAnswered(t *testing.T) {
	var asks []string
	for _, l := range []parser.Language{parser.English, parser.Spanish} {
		for _, e := range wording.Examples(wording.Options{Language: l}) {
			asks = append(asks, e.Ask)
		}
		whole, _, _ := strings.Cut(wording.Help(wording.Options{Language: l}), "\n\n")
		for line := range strings.Lines(whole) {
			_, ask, _ := strings.Cut(strings.TrimSpace(line), ": ")
			asks = append(asks, ask)
		}
	}
	for _, text := range asks {
		statements := parser.Parse(text)
		if len(statements) != 1 || statements[0].Ask == nil {
			t.Errorf("%q is not one ask: %+v", text, statements[0].Misunderstanding)
			continue
		}
		if _, err := figure.Solve(*statements[0].Ask, figure.Settings{}); err != nil {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// Every phrase is worded in both languages, no two alike.
func TestEveryPhraseIsWorded(t *testing.T) {
	for _, l := range []parser.Language{parser.English, parser.Spanish} {
		said := map[string]string{}
		for _, p := range constants(t, ".", "Phrase") {
			text := wording.Say(wording.Phrase(p), wording.Options{Language: l})
			if before, ok := said[text]; ok || text == "" {
				t.Errorf("%s: %s is worded %q, like %s", l, p, text, before)
			}
			said[text] = p
		}
	}
}

func TestSayFillsIn(t *testing.T) {
	got := wording.Say(wording.TakeoffOfWhichEnd, wording.Options{}, "first", "45", "second", "street 45")
	if want := "The ends differ: 45 and street 45. Say which one, like: takeoff 2 pvc 45 is 1-1/8"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
