package bot

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// buttonsUnder are the buttons under an answer that was kept as a job: what
// people do next, and what the pipe or a fitting may be instead.
func (t *turn) buttonsUnder(job uint64, a *figure.Answer) [][]Button {
	if job == 0 {
		return nil
	}
	ask := a.Ask
	o, number := t.options(ask.Language), strconv.FormatUint(job, 10)
	button := func(label wording.Phrase, says string) Button {
		return Button{Label: wording.Say(label, o), Says: says + " " + number}
	}
	keep := []Button{
		{Label: wording.Say(wording.ShareButton, o), Share: wording.TypedIn(ask, o)},
		button(wording.UndoButton, "undo"),
	}
	if len(t.talk.Cuts) > 0 { // else there is nothing to saw
		keep = append([]Button{button(wording.AddButton, "add job")}, keep...)
	}
	otherwise := slices.DeleteFunc(wording.Otherwise(a, o), func(name string) bool {
		s, ok := systemNamed(name)
		return ok && !toldApart(s, a.Ask.Pipe, a.Size)
	})
	return append([][]Button{
		{
			button(wording.WhyButton, "why"),
			button(wording.StepsButton, "explain"),
			button(wording.DrawButton, "draw"),
		},
		keep,
	}, inRows(otherwise)...)
}

// undoPlainly makes the button that takes back the job take back what was done
// last: a takeoff that was kept, with which the job was answered again.
func (t *turn) undoPlainly(rows [][]Button) [][]Button {
	label := t.say(wording.UndoButton)
	for _, row := range rows {
		for i, b := range row {
			if b.Label == label {
				row[i].Says = "undo"
			}
		}
	}
	return rows
}

// examples are buttons that ask what a newcomer may ask.
func examples(o wording.Options) [][]Button {
	var rows [][]Button
	for _, e := range wording.Examples(o) {
		rows = append(rows, []Button{{Label: e.Ask + ": " + e.Gives, Says: e.Ask}})
	}
	return rows
}

// choices are what can be tapped under a refusal or a question: the readings of
// what can be read in two ways, what a word may have been, the answers that would
// be good, or what works instead.
func choices(err error, o wording.Options) [][]Button {
	var unread *parser.Misunderstanding
	var missing *figure.Missing
	var impossible *figure.Impossible
	switch {
	case errors.As(err, &unread):
		return unreadChoices(unread, o)
	case errors.As(err, &missing):
		return inRows(wording.GoodAnswers(missing.Wanted, missing.Options, o))
	case errors.As(err, &impossible):
		return inRows(wording.Instead(impossible, o))
	}
	return nil
}

func unreadChoices(m *parser.Misunderstanding, o wording.Options) [][]Button {
	switch {
	case len(m.Readings)+len(m.Commands) > 0:
		return each(wording.Readings(m, o))
	case m.Subject != "" && len(wording.Near(m)) > 0 && strings.Contains(m.Text, m.Subject):
		var again []string
		near := wording.Near(m)
		for _, near := range near[:min(len(near), mostChoices)] {
			again = append(again, strings.Replace(m.Text, m.Subject, near, 1))
		}
		return each(again)
	case m.Wanted != parser.Bare:
		return inRows(wording.GoodAnswers(m.Wanted, m.Near, o))
	case m.Trouble == parser.Unclaimed && strings.Contains(m.Text, m.Subject):
		var again []string
		for _, role := range []string{"set ", "run ", "travel "} {
			again = append(again, strings.Replace(m.Text, m.Subject, role+m.Subject, 1))
		}
		return each(again)
	}
	return nil
}

// mostInARow is how many buttons side by side can be read on a phone.
const mostInARow = 4

// mostChoices is how many are offered of one kind: what a screen holds.
const mostChoices = 4

// inRows are buttons for short answers, some side by side.
func inRows(texts []string) [][]Button {
	var rows [][]Button
	for some := range slices.Chunk(texts[:min(len(texts), 2*mostInARow)], mostInARow) {
		rows = append(rows, slices.Concat(each(some)...))
	}
	return rows
}

// tappable gives a reply that is no answer something to tap: examples, and what
// else there is.
func (t *turn) tappable(r Reply) Reply {
	if r.Understood || len(r.Buttons) > 0 || r.Text == "" {
		return r
	}
	r.Buttons = append(examples(phrasing(t))[:1], []Button{{Label: t.say(wording.HelpButton), Says: t.say(wording.HelpWord)}})
	return r
}

// each has a button for each text, which says just that.
func each(texts []string) [][]Button {
	var rows [][]Button
	for _, text := range texts {
		rows = append(rows, []Button{{Label: text, Says: text}})
	}
	return rows
}
