package read

import (
	"strings"

	"dogleg/geometry"
	"dogleg/parser/ask"
	"dogleg/parser/measure"
)

// Figures reads a message that is figures and nothing else, with signs or words
// between them that add, take off, multiply or divide: 12-5/8 + 3/4, 7 ft 2 minus 3 ft,
// 425 mm. It is nil where the message holds anything else. One figure alone is a sum of
// one term.
func Figures(text string) *ask.Ask {
	m, ok := prepare(text, Said{})
	if !ok || len(m.asides) > 0 {
		return nil
	}
	r := figureReader{m: m}
	for r.at < len(m.tokens) {
		if !r.next() {
			return nil
		}
	}
	if len(r.sum.Terms) == 0 || r.op != 0 || r.ended && len(r.sum.Terms) == 1 {
		return nil
	}
	a := &ask.Ask{Kind: ask.Sum, Sum: &r.sum}
	if r.worded {
		a.Language = r.language
	}
	return a
}

// figureReader goes through a message of figures.
type figureReader struct {
	m        *message
	at       int // the next token
	sum      ask.Arithmetic
	op       ask.Operator // that waits for its second term
	ended    bool         // by an equals sign
	worded   bool
	language ask.Language
}

// next reads a figure, or a sign between two; false where neither stands there.
func (r *figureReader) next() bool {
	t := &r.m.tokens[r.at]
	last := r.at == len(r.m.tokens)-1
	switch {
	case last && (t.Text == "=" || t.Text == "?" || t.Text == "."):
		r.ended = t.Text == "="
		r.at++
		return len(r.sum.Terms) > 0
	case len(r.sum.Terms) == 0 || r.op != 0:
		if x := r.m.figureAt(r.at); x != nil {
			return r.term(x)
		}
		return len(r.sum.Terms) == 0 && r.op == 0 && r.sign() // add a quarter
	}
	return r.sign()
}

// figureAt is the measure that begins with token i and takes most, nil where none does:
// an article counts where it is one: a quarter. A dash between spaces takes off.
func (m *message) figureAt(i int) *measure.Measure {
	for k := range m.measures[i] {
		if x := &m.measures[i][k]; x.Length() && !x.Plural && x.Form != measure.Softly && x.Form != measure.Heard && x.Form != measure.Run && x.Form != measure.Colons && !strings.Contains(x.Text, " - ") {
			return x
		}
	}
	return nil
}

// term takes a figure. Beside × and ÷ one without a unit and a fraction is a plain number.
func (r *figureReader) term(x *measure.Measure) bool {
	t := ask.Term{Length: geometry.Length(x.Inches()), Text: strings.TrimSpace(x.Text)}
	if (r.op == ask.Times || r.op == ask.Divide) && x.Unit == measure.NoUnit {
		t = ask.Term{Number: x.Number, Plain: true, Text: t.Text}
	}
	if r.op != 0 && len(r.sum.Terms) > 0 {
		r.sum.Operators = append(r.sum.Operators, r.op)
	}
	r.sum.Terms = append(r.sum.Terms, t)
	r.op, r.at = 0, x.To
	return true
}

// signs are what the marks between figures do with them.
var signs = map[string]ask.Operator{"+": ask.Plus, "-": ask.Minus, "–": ask.Minus, "−": ask.Minus, "/": ask.Divide, "x": ask.Times, "*": ask.Times, "×": ask.Times, "÷": ask.Divide}

// toldSigns are what words between figures do with them.
var toldSigns = map[string]ask.Operator{"plus": ask.Plus, "minus": ask.Minus, "times": ask.Times, "divide": ask.Divide}

func (r *figureReader) sign() bool {
	it := &r.m.items[r.m.itemAt[r.at]]
	if into := it.means("into"); into != "" && it.from == r.at {
		r.sum.InMetric = into == "mm"
		r.at, r.worded, r.language = it.to, true, ask.Language(it.term.Language)
		return true
	}
	if op := signs[it.text]; op != 0 {
		r.op, r.at = op, it.to
		return true
	}
	if op := toldSigns[it.means("operator")]; op != 0 && it.from == r.at {
		r.op, r.at, r.worded, r.language = op, it.to, true, ask.Language(it.term.Language)
		return true
	}
	return false
}
