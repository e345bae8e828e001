package bot

import (
	"errors"
	"slices"
	"strconv"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// buttonsUnder are the buttons under an answer that was kept as a job: what
// people do next.
func (t *turn) buttonsUnder(job uint64, ask parser.Ask) [][]Button {
	if job == 0 {
		return nil
	}
	o, number := t.options(ask.Language), strconv.FormatUint(job, 10)
	button := func(label wording.Phrase, says string) Button {
		return Button{Label: wording.Say(label, o), Says: says + " " + number}
	}
	return [][]Button{
		{
			button(wording.StepsButton, "explain"),
			button(wording.DrawButton, "draw"),
			button(wording.AddButton, "add job"),
		},
		{
			{Label: wording.Say(wording.ShareButton, o), Share: wording.Typed(ask)},
			button(wording.UndoButton, "undo"),
		},
	}
}

// examples are buttons that ask what a newcomer may ask.
func examples() [][]Button { return each(wording.Examples()) }

// choices are buttons for the readings of a message that can be read in two
// ways, and for the units that its bare numbers may have.
func choices(err error) [][]Button {
	if missing := (*figure.Missing)(nil); errors.As(err, &missing) && missing.Wanted == parser.UnitOf {
		return [][]Button{slices.Concat(each(missing.Options)...)}
	}
	var m *parser.Misunderstanding
	if !errors.As(err, &m) {
		return nil
	}
	var readings []string
	for _, r := range m.Readings {
		if line := wording.Typed(r); !slices.Contains(readings, line) {
			readings = append(readings, line)
		}
	}
	return each(readings)
}

// each has a button for each text, which says just that.
func each(texts []string) [][]Button {
	var rows [][]Button
	for _, text := range texts {
		rows = append(rows, []Button{{Label: text, Says: text}})
	}
	return rows
}
