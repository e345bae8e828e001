package read

import (
	"slices"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser/ask"
	"dogleg/parser/measure"
)

// Command reads a message that tells to do something with what was answered, in words
// of the vocabulary and no others that ask: explain, job 3, call it laundry. It is nil
// where the message is none. What people say in words of their own is for the weights.
func Command(text string) *ask.Command {
	m, ok := prepare(text, Said{})
	if !ok {
		return nil
	}
	at := slices.IndexFunc(m.items, func(it item) bool { return it.has("verb") })
	if at < 0 || m.figuresIn(m.items[:at]) > 0 || slices.ContainsFunc(m.items[:at], func(it item) bool { return it.has("material") }) {
		return nil
	}
	it := &m.items[at]
	if slices.ContainsFunc(m.repaired, func(i int) bool { return i >= it.from && i < it.to }) && !quietAround(m.items, at) {
		return nil // "que hora es" is no hola
	}
	told := strings.Fields(it.means("verb"))
	c := &ask.Command{Verb: ask.Verb(told[0]), Language: ask.Language(it.term.Language)}
	if !m.tells(c, told[1:], m.items[:at], m.items[at+1:]) {
		return nil
	}
	return c
}

// object is what stands behind a verb, as it was written.
func (m *message) object(rest []item) string {
	if len(rest) == 0 {
		return ""
	}
	return m.span(rest[0].from, len(m.tokens))
}

// tells takes over what stands behind a verb; it is false where that asks for something.
func (m *message) tells(c *ask.Command, values []string, before, rest []item) bool {
	switch c.Verb {
	case ask.NameJob:
		c.Object = m.object(rest)
		return c.Object != ""
	case ask.Setting:
		c.Object, c.Value = values[0], values[1]
		return m.figuresIn(rest) <= 1 // the plans are metric: the shift is 425 mm
	case ask.Forget:
		c.Object, c.Number = m.object(rest), m.firstWhole(rest)
		return len(before) <= 1
	case ask.Practice:
		c.Object, c.Angle = m.topic(rest)
		return true
	case ask.Glossary:
		c.Object = m.object(rest)
		c.Angle = m.bendAlone(rest)
		return c.Angle != 0 || len(rest) <= mostWords && m.figuresIn(rest) == 0
	case ask.Rule:
		numbers, ok := m.wholes(rest)
		if !ok || len(numbers) > 2 {
			return false
		}
		numbers = append(numbers, 0, 0)
		c.Step, c.Number = numbers[0], numbers[1]
		return true
	case ask.Explain, ask.Jobs, ask.Help, ask.Greet, ask.AllCautions, ask.Takeoffs, ask.ForgetMe, ask.Export, ask.Draw, ask.Undo,
		ask.Thanks, ask.Cancel, ask.Exam, ask.Skip, ask.Stop, ask.Score:
	}
	if c.Factor = m.multiplierIn(rest); c.Factor != 0 && c.Verb == ask.Explain {
		return true
	}
	c.Factor, c.Number = 0, m.firstWhole(rest)
	numbered := len(values) > 0 // a word that tells only with a number: job 3
	return quiet(before) && quiet(rest) && (m.figuresIn(rest) == 0 || m.figuresIn(rest) == 1 && c.Number > 0) && !(numbered && c.Number == 0)
}

// mostWords is how many words a term of the glossary may have, with what is said
// around it: "center to center mean?"
const mostWords = 4

// figures are the measures in some items, each read the longest way.
func (m *message) figures(in []item) []measure.Measure {
	var out []measure.Measure
	if len(in) == 0 {
		return nil
	}
	for i := in[0].from; i < in[len(in)-1].to; i++ {
		if all := m.measures[i]; len(all) > 0 && m.tokens[i].Number() {
			out = append(out, all[0])
			i = all[0].To - 1
		}
	}
	return out
}

func (m *message) figuresIn(in []item) int { return len(m.figures(in)) }

// firstWhole is the first number that counts something; 0 where there is none.
func (m *message) firstWhole(in []item) int {
	for _, x := range m.figures(in) {
		if counts(&x) {
			return int(x.Number)
		}
	}
	return 0
}

func counts(x *measure.Measure) bool {
	return x.Whole && x.Unit == measure.NoUnit && !x.Plural && x.Number < 1e6
}

// wholes are the numbers that items count by; ok is false where they hold anything
// else that asks for something.
func (m *message) wholes(in []item) (numbers []int, ok bool) {
	for _, x := range m.figures(in) {
		if !counts(&x) {
			return nil, false
		}
		numbers = append(numbers, int(x.Number))
	}
	return numbers, quiet(in)
}

// topic is what is to be practiced: the kind or the figure that is named, and the bend.
func (m *message) topic(in []item) (object string, angle geometry.Angle) {
	for i := range in {
		for _, sense := range []string{"hint", "role", "want"} {
			value, _, _ := strings.Cut(in[i].means(sense), " ")
			if object == "" {
				object = value
			}
		}
	}
	if all := m.figures(in); len(all) > 0 {
		angle = geometry.Angle(all[0].Number)
	}
	return object, angle
}

// bendAlone is the angle of the one bend that items are about: "45?", "1/8 bend",
// "22½". It is 0 where they are about anything else.
func (m *message) bendAlone(in []item) geometry.Angle {
	all := m.figures(in)
	if len(all) != 1 {
		return 0
	}
	for i := range in {
		it := &in[i]
		inFigure := it.from >= all[0].From && it.to <= all[0].To
		if !inFigure && !it.has("bend") && it.text != "?" && it.text != "." {
			return 0
		}
	}
	if all[0].Number < 11 && all[0].Unit == measure.NoUnit && all[0].Form != measure.Fraction {
		return 0
	}
	a := geometry.Angle(angleOf(&all[0]))
	if !slices.Contains(geometry.Bends(), a) {
		return 0
	}
	return a
}

// multiplierIn is the one number of a question why: it has decimals, as books print a
// multiplier. It is 0 if there is none.
func (m *message) multiplierIn(in []item) float64 {
	all := m.figures(in)
	if len(all) != 1 || all[0].Unit != measure.NoUnit || !strings.Contains(all[0].Text, ".") {
		return 0
	}
	return all[0].Number
}

// quietAround says whether nothing stands around an item but words that mean nothing.
func quietAround(in []item, at int) bool {
	for i := range in {
		it := &in[i]
		if i != at && it.term == nil && strings.ContainsFunc(it.text, isLetter) || i != at && it.term != nil && !it.has("filler") && !it.has("article") {
			return false
		}
	}
	return true
}

func isLetter(r rune) bool { return r >= 'a' && r <= 'z' || r > 127 }

// askingSenses are those of words that ask for something.
var askingSenses = []string{"material", "method", "bend", "hint", "role"}

// quiet says whether the words of items ask for nothing.
func quiet(in []item) bool {
	for i := range in {
		it := &in[i]
		for _, sense := range askingSenses {
			if it.has(sense) && !(it.has("verb") && (sense == "hint" || sense == "role")) {
				return false
			}
		}
	}
	return true
}

// Answer reads a bare answer to a question: "45" to which angle, "2 pvc" to which pipe,
// "threaded" to which joint. It says false where the text is no answer to it.
func Answer(text string, wanted ask.Role) (ask.Ask, bool) {
	m, ok := prepare(text, Said{Wanted: wanted})
	if !ok {
		return ask.Ask{}, false
	}
	for r := range m.told {
		if r != wanted {
			return ask.Ask{}, false // another figure is told
		}
	}
	if slices.ContainsFunc(m.items, func(it item) bool { return strings.HasPrefix(it.means("hint"), "same") }) {
		return ask.Ask{}, false // it changes what was asked last: same but 14
	}
	p := &step{}
	figures := 0
	for i := 0; i < len(m.tokens); {
		it := &m.items[m.itemAt[i]]
		if x := m.longest(i); x != nil {
			l, ok := m.answering(x, wanted)
			if figures++; !ok || figures > 1 {
				return ask.Ask{}, false
			}
			if l.part != none {
				p = &step{before: p, measure: x, label: l}
			}
			i = x.To
			continue
		}
		if it.from == i && isFact(it) {
			p = &step{before: p, fact: m.itemAt[i] + 1}
		}
		i++
	}
	p = &step{before: p, ending: &ending{to: len(m.tokens), saying: unstated, change: true}}
	a := m.ask(&stretches(p)[0])
	a.Kind, a.FollowUp, a.Want = ask.Unstated, true, ask.Bare
	return *a, !a.Empty()
}

// PipeAlone reads a message that only says of a pipe what it is made of, how it is joined
// or what it is for: in pvc, no hub. It says false where the message holds anything else.
func PipeAlone(text string) (ask.Ask, bool) {
	m, ok := prepare(text, Said{Wanted: ask.PipeOf})
	told := func(it item) bool { return it.has("material") || it.has("joint") || it.has("use") }
	if !ok || !slices.ContainsFunc(m.items, told) || slices.ContainsFunc(m.items, func(it item) bool {
		return !told(it) && it.text != "in" && !it.has("article") && m.tokens[it.from].Type != measure.Comma
	}) {
		return ask.Ask{}, false
	}
	return Answer(text, ask.PipeOf)
}

// OnlyAnswers says whether a text is a figure and nothing else, but for the name of what
// was asked: takeoff 15 mm.
func OnlyAnswers(text string, wanted ask.Role) bool {
	m, ok := prepare(text, Said{Wanted: wanted})
	return ok && !slices.ContainsFunc(m.items, func(it item) bool {
		return !it.number && !it.has("unit") && it.role() != wanted && m.tokens[it.from].Type == measure.Word
	})
}

// longest is the longest measure that begins with token i, nil where none does. Figures
// are run together only where they can be nothing else.
func (m *message) longest(i int) *measure.Measure {
	t := &m.tokens[i]
	if len(m.measures[i]) == 0 || !(t.Number() || t.Type == measure.Nominal || t.Type == measure.Article && m.measures[i][0].To > i+1) {
		return nil
	}
	for k := range m.measures[i] {
		if x := &m.measures[i][k]; x.Form != measure.Run {
			return x
		}
	}
	return &m.measures[i][0]
}

// answering is what the figure of an answer is to what was asked.
func (m *message) answering(x *measure.Measure, wanted ask.Role) (label, bool) {
	p := byRole[wanted]
	switch wanted {
	case ask.AngleOf, ask.FittingOf:
		p = angle
	case ask.PipeOf, ask.SizeOf:
		p = size
	case ask.JointOf:
		return label{}, false
	}
	if p == size && m.before(x.From).has("scheduled") {
		p = schedule
	}
	for _, l := range m.labels(x) {
		switch {
		case l.part != p, l.scale == inMillimeters, l.method != 0:
		case p == size && !sold(m, l.size):
		case p == angle && x.Number > 90 && x.Unit == measure.NoUnit:
		default:
			return l, true
		}
	}
	if p == size && x.Unit == measure.NoUnit { // 22 beside copper
		if mm := millimeters(x.Number); sold(m, mm) {
			return label{part: size, size: mm}, true
		}
	}
	return label{}, false
}

// sold says whether there is a pipe of a size in the material that a message names.
func sold(m *message, s catalog.Size) bool {
	for i := range m.items {
		if v := m.items[i].means("material"); v != "" {
			return catalog.Sold(catalog.Material(v), s)
		}
	}
	return catalog.Sold("", s)
}
