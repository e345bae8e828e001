package wording

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"
)

// Options are how one user wants to be spoken to.
type Options struct {
	Language  parser.Language   // empty is English
	Division  geometry.Division // of their tape; 0 is sixteenths
	Metric    bool              // millimeters instead of inches
	Inches    bool              // inches, whatever was asked in
	FirstTime bool              // add the notice that is given once a conversation
	terse     bool              // read back in as few words as can be
	ToldToday []figure.Caution  // those of every day that were told today, of whatever job
}

// For are the options to speak of an ask with: who asks in millimeters is
// answered in millimeters.
func (o Options) For(ask parser.Ask) Options {
	o.Metric = !o.Inches && (o.Metric || ask.Metric())
	return o
}

// sentence is one sentence in every language. Words in braces are filled in.
type sentence struct{ english, spanish string }

func (s sentence) in(l parser.Language) string {
	if l == parser.Spanish {
		return s.spanish
	}
	return s.english
}

// say fills in a sentence of the table: pairs are the names in braces, each
// with what takes its place. Where one is told otherwise by a metric tape, its row
// is the key with "metric" behind it. A test reads this package's source and holds
// every key that it names against the table.
func (o Options) say(key string, pairs ...string) string {
	text, _ := o.said(key, pairs...)
	return text
}

// Sentences are those of a room of the conversation, by their keys: English, and
// Spanish. Words in braces are filled in.
type Sentences map[string][2]string

// Say fills in a sentence: pairs are the names in braces, each with what takes its
// place.
func (all Sentences) Say(key string, o Options, pairs ...string) string {
	text, _ := all.Said(key, o)
	return filled(text, pairs)
}

// Said is Say for keys that come from data, with nothing to fill in: ok is false where
// there is no such sentence.
func (all Sentences) Said(key string, o Options) (text string, ok bool) {
	s, ok := all[key]
	if metric, differs := all[key+" metric"]; differs && o.Metric {
		s, ok = metric, true
	}
	return cited(sentence{s[0], s[1]}.in(o.Language), o), ok
}

// filled is a sentence with what takes the place of the names in it.
func filled(sentence string, pairs []string) string {
	if !strings.Contains(sentence, "{") {
		return sentence // most have nothing to fill in
	}
	var b strings.Builder
	b.Grow(len(sentence) + lengths(pairs))
	for {
		before, rest, open := strings.Cut(sentence, "{")
		name, after, closed := strings.Cut(rest, "}")
		b.WriteString(before)
		if !open || !closed {
			return b.String()
		}
		b.WriteString(value(pairs, name))
		sentence = after
	}
}

// lengths is how long strings are together.
func lengths(all []string) int {
	n := 0
	for _, s := range all {
		n += len(s)
	}
	return n
}

// value is what stands for a name among pairs of them; a name that has none
// stays as it is.
func value(pairs []string, name string) string {
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i] == name {
			return pairs[i+1]
		}
	}
	return "{" + name + "}"
}

// said is say for keys that come from data: ok is false where the table has
// no such row.
func (o Options) said(key string, pairs ...string) (string, bool) {
	s, ok := sentences()[key]
	if o.Metric {
		if metric, differs := sentences()[key+" metric"]; differs {
			s, ok = metric, true
		}
	}
	return filled(cited(s.in(o.Language), o), pairs), ok
}

// cited is a sentence with those in it that it only names: "Try: {=example offset}".
func cited(sentence string, o Options) string {
	for {
		before, rest, open := strings.Cut(sentence, "{=")
		key, after, closed := strings.Cut(rest, "}")
		if !open || !closed {
			return sentence
		}
		sentence = before + o.say(key) + after
	}
}

// or joins choices: "a", "a or b", "a, b or c".
func (o Options) or(choices []string) string { return o.list(choices, o.say("or")) }

// And joins things as [Options.and] does, for other packages.
func And(things []string, o Options) string { return o.and(things) }

// Capital starts a line with a capital letter.
func Capital(s string) string { return capital(s) }

// and joins things: "a", "a and b", "a, b and c".
func (o Options) and(things []string) string { return o.list(things, o.say("and")) }

func (o Options) list(items []string, last string) string {
	if len(items) < 2 {
		return strings.Join(items, "")
	}
	head, tail := items[:len(items)-1], items[len(items)-1]
	return strings.Join(head, ", ") + " " + last + " " + tail
}

// capital starts a line with a capital letter.
func capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	upper := unicode.ToUpper(first)
	if size == 0 || upper == first {
		return s
	}
	return string(upper) + s[size:]
}
