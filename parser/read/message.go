package read

import (
	"math"
	"slices"
	"strings"

	"dogleg/parser/ask"
	"dogleg/parser/measure"
	"dogleg/parser/words"
)

// Said is what was said before a message: the last ask, as changed since, and what
// was asked back.
type Said struct {
	Last   *ask.Ask // nil: nothing yet
	Wanted ask.Role // what was asked back, if anything
	Metric bool     // the person's setting
}

// message is a message made ready for reading: its tokens, the phrases that they
// make, and the measures that may begin with each.
type message struct {
	text     string
	said     Said
	tokens   []measure.Token
	items    []item // the phrases, one behind the other, over all tokens
	itemAt   []int  // of each token
	measures [][]measure.Measure
	numbers  int               // how many there are
	told     map[ask.Role]bool // the parts that its words name
	hints    hints
	repairs  []ask.Repair
	repaired []int // the tokens that were repaired
	ways     []way // the items that tell how the tape was laid, once they are looked for
	asides   []aside
}

// item is a phrase of the vocabulary in a message, or a token that is none.
type item struct {
	from, to int
	term     *words.Term // nil: not in the vocabulary
	text     string
	number   bool     // a number, or a part of one
	signs    []uint32 // what it stands for in features
}

// hints are facts of a whole message.
type hints struct {
	metric      bool // a metric unit or size is said
	centimeters bool // of the message, or of what it changes
	percent     bool // a fall in percent is told, there or here
	perMeter    bool // a fall for each meter is told
	inches      bool // inches are said, or a fraction of one
	more, less  bool // than it was
}

const (
	mostTokens   = 400
	longestText  = 4096
	mostSegments = 40
)

// TooLong says whether a text is too long to be a message about pipe.
func TooLong(text string) bool {
	return len(text) > longestText || len(measure.Tokens(text)) > mostTokens
}

// prepare makes a message ready; ok is false where it is too long to be one.
func prepare(text string, said Said) (m *message, ok bool) {
	if len(text) > longestText {
		return nil, false
	}
	m = &message{text: text, said: said, tokens: measure.Tokens(text)}
	if len(m.tokens) > mostTokens || len(m.tokens) == 0 {
		return nil, false
	}
	m.setAside()
	m.repair()
	m.phrases()
	m.count()
	m.hints.centimeters, m.hints.percent = toldInCentimeters(said.Last), toldInPercent(said.Last)
	for i := range m.items {
		it := &m.items[i]
		m.hints.more = m.hints.more || it.has("more") || it.means("operator") == "plus"
		m.hints.less = m.hints.less || it.has("less") || it.means("operator") == "minus"
	}
	m.measures = make([][]measure.Measure, len(m.tokens))
	for i := range m.tokens {
		m.measures[i] = measure.At(text, m.tokens, i)
		m.hints.perMeter = m.hints.perMeter || m.tokens[i].Type == measure.PerMeter
		for _, x := range m.measures[i] {
			m.hints.centimeters = m.hints.centimeters || x.Unit == measure.CM
			m.hints.percent = m.hints.percent || x.Form == measure.Percentage
			m.hints.metric = m.hints.metric || x.Metric() || x.Unit == measure.NominalDia
			m.hints.inches = m.hints.inches || x.Unit == measure.InchUnit && !x.Weak || x.Form == measure.Mixed || x.Unit == measure.FootUnit
		}
	}
	return m, true
}

// toldInCentimeters says whether a length of an ask was told in centimeters. A change of it
// may give another without a unit.
func toldInCentimeters(a *ask.Ask) bool {
	return a != nil && slices.ContainsFunc(a.Measures, func(x ask.Measure) bool {
		tokens := measure.Tokens(x.Text)
		if len(tokens) == 0 {
			return false
		}
		return slices.ContainsFunc(measure.At(x.Text, tokens, 0), func(y measure.Measure) bool { return y.Unit == measure.CM })
	})
}

// toldInPercent says whether the fall of an ask comes to twentieths of a percent, as it does
// where it was told so.
func toldInPercent(a *ask.Ask) bool {
	if a == nil || a.Grade == 0 {
		return false
	}
	parts := a.Grade.InchesPerFoot() / 12 * 100 * 20
	return math.Abs(parts-math.Round(parts)) < 1e-6
}

// repair puts the one word of the vocabulary that is near a misspelt one in its
// place.
func (m *message) repair() {
	repairs := 0
	for i := range m.tokens {
		t := &m.tokens[i]
		if t.Type != measure.Word || len(words.Beginning(t.Text)) > 0 || words.Inside(t.Text) || repairs >= 40 {
			continue
		}
		repairs++
		near := words.Nearest(t.Text)
		if len(near) != 1 {
			continue
		}
		m.repairs = append(m.repairs, ask.Repair{Wrote: t.Text, Read: near[0]})
		m.repaired = append(m.repaired, i)
		t.Text = near[0]
		t.Type = measure.TypeOf(t.Text)
	}
}

// phrases cuts the tokens into phrases of the vocabulary, the longest first.
func (m *message) phrases() {
	m.itemAt = make([]int, len(m.tokens))
	for i := 0; i < len(m.tokens); {
		it := m.itemFrom(i)
		for k := it.from; k < it.to; k++ {
			m.itemAt[k] = len(m.items)
		}
		m.items = append(m.items, it)
		i = it.to
	}
}

func (m *message) itemFrom(i int) item {
	t := &m.tokens[i]
	it := item{from: i, to: i + 1, text: t.Text, number: t.Number()}
	for _, term := range words.Beginning(t.Text) {
		if n := m.phraseLength(i, term.Words); n > 0 {
			it.to, it.term, it.text = i+n, term, term.Text
			if n > 1 {
				it.number = false
			}
			return it
		}
	}
	return it
}

// phraseLength is how many tokens a phrase takes that begins with token i, with the
// dashes, slashes and dots between its words; 0 if it does not stand there.
func (m *message) phraseLength(i int, phrase []string) int {
	found := 0
	for k := i; k < len(m.tokens); k++ {
		t := &m.tokens[k]
		switch {
		case t.Text == phrase[found]:
			if found++; found == len(phrase) {
				return k + 1 - i
			}
		case found > 0 && (t.Type == measure.Dash || t.Text == "/" || t.Text == "."):
		default:
			return 0
		}
	}
	return 0
}

// before is the item that ends where token i begins, nil at the start.
func (m *message) before(i int) *item {
	if i == 0 {
		return nil
	}
	return &m.items[m.itemAt[i-1]]
}

// after is the item that begins with token i or holds it, nil at the end.
func (m *message) after(i int) *item {
	if i >= len(m.tokens) {
		return nil
	}
	return &m.items[m.itemAt[i]]
}

// has says whether an item has a sense.
func (it *item) has(sense string) bool { return it != nil && it.term.Is(sense) }

// means is the value of an item's sense.
func (it *item) means(sense string) string {
	if it == nil {
		return ""
	}
	v, _ := it.term.Means(sense)
	return v
}

// role is the part that an item names, or none.
func (it *item) role() ask.Role {
	role, _, _ := strings.Cut(it.means("role"), " ")
	return ask.Role(role)
}

// span is the text of some tokens.
func (m *message) span(from, to int) string {
	if from >= to {
		return ""
	}
	return strings.TrimSpace(m.text[m.tokens[from].Begin:m.tokens[to-1].End])
}

// takenBack says whether a message is withdrawn behind all that a path takes of it.
func (m *message) takenBack(p *step) bool {
	used := 0 // the token behind the last one taken
	for ; p != nil; p = p.before {
		switch {
		case p.measure != nil && p.label.part != none:
			used = max(used, p.measure.To)
		case p.fact > 0:
			used = max(used, m.items[p.fact-1].to)
		}
	}
	return slices.ContainsFunc(m.items, func(it item) bool { return it.from >= used && it.has("withdrawn") })
}
