package read

import (
	"strings"

	"dogleg/parser/measure"
	"dogleg/parser/words"
)

// aside is what a message says that is no part of what it asks and stays as it was
// written: the name of a job, the user's own name for a maker's line of fittings.
type aside struct {
	at   int // the token that it belongs to
	text string
	line bool // of fittings: "the grey ones"
}

// mostNameTokens is how many words and marks the name in front of an ask may have.
const mostNameTokens = 6

// setAside takes the names out of a message: "laundry: 12 set", "call it laundry" behind
// an ask, "the grey ones".
func (m *message) setAside() {
	var out []measure.Token
	for i := 0; i < len(m.tokens); {
		t := &m.tokens[i]
		lineBegins := i == 0 || m.tokens[i-1].Type == measure.NewLine
		n, keep := 0, aside{at: len(out)}
		switch {
		case lineBegins && m.nameEnds(i) > i:
			n = m.nameEnds(i) + 1 - i
			keep.text = m.span(i, i+n-1)
		case t.Type == measure.Word || t.Type == measure.Article:
			if n = m.lineOfFittings(i); n > 0 {
				keep.text, keep.line = strings.ToLower(m.span(i, i+n)), true
				keep.at = max(0, len(out)-1)
			} else if n = m.calledSo(i); n > 0 && len(out) > 0 {
				keep.text = m.span(i+m.phraseOf(i, "verb"), i+n)
				keep.at = len(out) - 1
			} else {
				n = 0
			}
		}
		if n == 0 {
			out = append(out, *t)
			i++
			continue
		}
		m.asides = append(m.asides, keep)
		i += n
	}
	if len(out) > 0 { // a message that is all name asks nothing by itself
		m.tokens = out
	}
}

// nameEnds is the place of the mark behind a name that begins with token i; i where
// there is no name. A word of the trade is none.
func (m *message) nameEnds(i int) int {
	if m.tokens[i].Number() {
		return i
	}
	for k := i; k < min(len(m.tokens)-1, i+mostNameTokens+1); k++ {
		t, next := &m.tokens[k], &m.tokens[k+1]
		switch {
		case t.Type == measure.Colon, t.Type == measure.Dash && !t.Glued && !next.Glued:
			if next.Type == measure.NewLine {
				return i
			}
			return k
		case t.Type == measure.NewLine, t.Text == ",", t.Text == ";", t.Text == "?":
			return i
		}
		if term := words.Find(t.Text); term != nil && !ofNames(term) {
			return i
		}
	}
	return i
}

// ofNames says whether a word of the vocabulary may stand in a name.
func ofNames(t *words.Term) bool {
	return t.Is("filler") || t.Is("link") || t.Is("article") || t.Is("obstacle")
}

// phraseOf is how many tokens the phrase at token i takes that has a sense; 0 where none
// does.
func (m *message) phraseOf(i int, sense string) int {
	if it := m.itemFrom(i); it.has(sense) {
		return it.to - it.from
	}
	return 0
}

// calledSo is how many tokens "call it laundry" takes that begins at token i, to the end
// of its line, behind a number; 0 where it doesn't stand there. A number behind it is
// what somebody settles on: call it 18-7/8.
func (m *message) calledSo(i int) int {
	n := m.phraseOf(i, "verb")
	if n == 0 || m.itemFromMeans(i, "verb") != "name" || i+n >= len(m.tokens) || m.tokens[i+n].Number() {
		return 0
	}
	behind := false
	for k := i - 1; k >= 0 && m.tokens[k].Type != measure.NewLine; k-- {
		behind = behind || m.tokens[k].Number()
	}
	if !behind {
		return 0
	}
	end := i + n
	for end < len(m.tokens) && m.tokens[end].Type != measure.NewLine {
		end++
	}
	return end - i
}

func (m *message) itemFromMeans(i int, sense string) string {
	it := m.itemFrom(i)
	return it.means(sense)
}

// lineOfFittings is how many tokens a user's name for a maker's line of fittings takes
// that begins at token i: the grey ones. It is 0 where none does.
func (m *message) lineOfFittings(i int) int {
	if m.phraseOf(i, "line-begins") == 0 {
		return 0
	}
	for _, n := range []int{3, 4} {
		if i+n <= len(m.tokens) && m.phraseOf(i+n-1, "line-ends") > 0 && !m.tokens[i+1].Number() {
			return n
		}
	}
	return 0
}

// named gives an ask the names that stand in its stretch.
func (b *builder) namedIn(st *stretch) {
	for _, x := range b.m.asides {
		switch {
		case x.at < st.from || x.at >= st.to:
		case x.line:
			b.a.Line = x.text
		default:
			b.a.Name = x.text
		}
	}
}
