package bot

import (
	"dogleg/bot/figure"
	"dogleg/parser"
)

// question is a question that was asked, with all that is known without its
// answer. Two pieces of one message may each lack something; a bare answer then
// goes to every question that it can answer.
type question struct {
	Ask    parser.Ask
	Wanted parser.Role
	Asked  string // the words so far
	Name   string // of the job
	Bare   bool   `json:",omitzero"` // it goes with an answer: only a bare figure answers it
}

// ask keeps a question until it is answered or dropped.
func (t *turn) ask(j job, wanted parser.Role) {
	t.asked = append(t.asked, question{Ask: j.ask, Wanted: wanted, Asked: j.asked, Name: j.name})
}

// settle reads a message as a bare answer to what waits. It returns nothing if
// it is none. The statements are those of the text.
func (t *turn) settle(text string, statements []parser.Statement) []part {
	if len(t.waiting) == 0 {
		return nil
	}
	if standsAlone(statements[0]) {
		return nil
	}
	var parts []part
	var open []question
	for _, q := range t.waiting {
		answer, ok := parser.Answer(text, q.Wanted)
		if !ok || q.Wanted == parser.UnitOf || q.Bare && !parser.OnlyAnswers(text, q.Wanted) {
			open = append(open, q)
			continue
		}
		s := parser.Statement{Text: text, Ask: &answer}
		p := t.safely(s, func(s parser.Statement) part { return t.complete(s, q) })
		p.heading = q.Asked
		parts = append(parts, p)
	}
	t.waiting = open
	return parts
}

// askMeasure asks for the fitting's own measure with an answer that lacks it: a
// bare figure will do.
func (t *turn) askMeasure(j job, a *figure.Answer) {
	if a.Unmeasured != nil && a.Unmeasured.Declared && !t.message.Overheard {
		t.asked = append(t.asked, question{Ask: j.ask, Wanted: parser.TakeoffOf, Asked: j.asked, Name: j.name, Bare: true})
	}
}

// complete answers what was asked before, now that the fact is there.
func (t *turn) complete(s parser.Statement, q question) part {
	return t.figureWhole(s, q.Ask.With(t.follows(*s.Ask, q.Ask)), q)
}

// figureWhole answers what was asked before, with all that is said of it now.
func (t *turn) figureWhole(s parser.Statement, ask parser.Ask, q question) part {
	if setsTakeoff(ask) {
		return t.keepTakeoff(s, ask)
	}
	return t.figure(s, job{ask: ask, asked: q.Asked + "; " + s.Text, name: q.Name})
}

// standsAlone says whether a statement means something by itself although it
// may hold no more than one figure: "explain 3", "multiplier for 45".
func standsAlone(s parser.Statement) bool {
	if s.Ask == nil {
		return s.Command != nil
	}
	return s.Ask.Kind == parser.Multiplier || s.Ask.Kind == parser.Takeoff
}
