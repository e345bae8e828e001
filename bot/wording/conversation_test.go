package wording_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// Help fits one phone screen.
func TestHelpFitsAScreen(t *testing.T) {
	for _, l := range []parser.Language{parser.English, parser.Spanish} {
		lines := strings.Split(wording.Help(wording.Options{Language: l}), "\n")
		if len(lines) > 20 || len(lines) < 10 {
			t.Errorf("%s: %d lines", l, len(lines))
		}
		for _, line := range lines {
			if n := utf8.RuneCountInString(line); n > 40 {
				t.Errorf("%s: %d characters: %q", l, n, line)
			}
		}
	}
}

func TestGreetingShowsTheExamples(t *testing.T) {
	for _, l := range []parser.Language{parser.English, parser.Spanish} {
		greeting := wording.Greeting(wording.Options{Language: l})
		for _, example := range wording.Examples() {
			if !strings.Contains(greeting, "\n"+example+"\n") {
				t.Errorf("%s: %q does not stand alone in\n%s", l, example, greeting)
			}
		}
	}
}

// What help and the greeting show can be sent as it stands, down to the blank
// line after which come the changes to an answer.
func TestExamplesAreAnswered(t *testing.T) {
	asks := wording.Examples()
	for _, l := range []parser.Language{parser.English, parser.Spanish} {
		whole, _, _ := strings.Cut(wording.Help(wording.Options{Language: l}), "\n\n")
		asks = append(asks, strings.Split(whole, "\n")...)
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
