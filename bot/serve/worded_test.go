//go:build voice

package serve

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dogleg/bot"
	"dogleg/bot/hearing"
	"dogleg/parser"
	"dogleg/parser/asks"
)

// worded is a request of a list, with what it means where it stands in its talk.
type worded struct {
	asks.Message
	said parser.Said
	want []asks.Facts
}

// wordedBy reads a list. A change is what it makes of the request before it.
func wordedBy(t *testing.T, path string) (all []worded) {
	t.Helper()
	messages, err := asks.Read(path)
	if err != nil {
		t.Fatal(err)
	}
	var last *parser.Ask
	for _, m := range messages {
		w := worded{Message: m, said: parser.Said{Last: last}}
		for _, e := range m.Want {
			a, err := e.Ask()
			if err != nil || a == nil || e.Mark == "!" || e.Mark == "/" {
				continue
			}
			changed := w.whole(*a)
			last = &changed
			w.want = append(w.want, asks.FactsOf(last))
		}
		all = append(all, w)
	}
	return all
}

func (w worded) whole(a parser.Ask) parser.Ask {
	if a.FollowUp && w.said.Last != nil {
		a = w.said.Last.With(a)
		a.FollowUp = false
	}
	return a
}

// means says whether a text, sent in its place, is understood as the request was
// meant; asksBack, whether it is asked back with that among the readings.
func (w worded) means(text string) (right, asksBack bool) {
	statements := bot.Read(text, w.said)
	if len(w.want) == 0 {
		return w.meansVerb(text, statements), false
	}
	var got []asks.Facts
	for _, s := range statements {
		if m := s.Misunderstanding; m != nil {
			for _, reading := range append(m.Readings, []parser.Ask{m.Read}) {
				asksBack = asksBack || slices.EqualFunc(w.want, reading, func(f asks.Facts, r parser.Ask) bool {
					return asks.Same(f, asks.FactsOf(new(w.whole(r)))) == ""
				})
			}
		}
		if s.Ask != nil {
			got = append(got, asks.FactsOf(new(w.whole(*s.Ask))))
		}
	}
	return slices.EqualFunc(w.want, got, func(a, b asks.Facts) bool { return asks.Same(a, b) == "" }), asksBack
}

// meansVerb says whether a text is the word to the bot that was meant, or asks for
// no figures where none were meant.
func (w worded) meansVerb(text string, statements []parser.Statement) bool {
	if w.Want[0].Mark != "/" {
		return !bot.Answering{}.Figures(text)
	}
	for _, s := range statements {
		if s.Command != nil && string(s.Command.Verb) == w.Want[0].What {
			return true
		}
	}
	return bot.Answering{}.Keeps(text, nil) && strings.Contains(text, "list")
}

// add counts an outcome of a worded request.
func (c *tally) addWorded(w worded, v hearing.Verdict) {
	c.notes++
	right, asksBack := w.means(v.Heard)
	if right && v.Heard != "" {
		c.first++
	}
	offered := v.Sure && asksBack || slices.ContainsFunc(v.Readings, func(r string) bool {
		right, _ := w.means(r)
		return right
	})
	switch {
	case v.Sure && right, w.Want[0].Mark == "!" && !(v.Sure && bot.Answering{}.Figures(v.Heard)):
		c.right++
	case offered:
		c.offered++
	case v.Sure && bot.Answering{}.Figures(v.Heard):
		c.wrong++
	}
}

// Requests worded by somebody who had no part in dogleg: only totals are told,
// so that the list stays unseen.
func TestWordedByOthers(t *testing.T) {
	path := os.Getenv("DOGLEG_WORDED")
	if path == "" {
		t.Skip("DOGLEG_WORDED names no list")
	}
	list := wordedBy(t, path)
	by := map[string]*tally{}
	for _, o := range measured(t, wordedClips(t, filepath.Join(os.Getenv("DOGLEG_CLIPS"), "worded"))) {
		for _, group := range []string{o.kind, o.kind + " " + o.voice} {
			if by[group] == nil {
				by[group] = &tally{}
			}
			by[group].addWorded(list[o.number], o.verdict)
		}
	}
	for _, group := range slices.Sorted(maps.Keys(by)) {
		t.Logf("%-14s %v", group, by[group])
	}
}
