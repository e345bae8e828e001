package bot

import (
	"cmp"
	"slices"
	"strings"

	"dogleg/bot/wording"
	"dogleg/parser"
)

// howToMeasure explains how a takeoff is measured, in the language of the
// question.
func (t *turn) howToMeasure(s parser.Statement) part {
	if s.Ask != nil {
		t.talk.Language = cmp.Or(s.Ask.Language, t.talk.Language)
	} else if s.Command.Language != "" {
		t.talk.Language = s.Command.Language
	}
	return t.tell(s, true, wording.HowToMeasure)
}

// asksHowToMeasure says whether a statement is the question how a takeoff is
// measured. To the parser it only wants a takeoff, or lists them; the word
// makes the difference.
func asksHowToMeasure(s parser.Statement) bool {
	wants := s.Command != nil && s.Command.Verb == parser.Takeoffs
	if a := s.Ask; a != nil {
		wants = a.Want == parser.TakeoffOf && changesNothing(*a) && a.Ends == [2]parser.End{}
	}
	return wants && slices.ContainsFunc(strings.Fields(strings.ToLower(s.Text)), func(word string) bool {
		word = strings.Trim(word, "¿?.,")
		return slices.Contains([]string{"measure", "measuring", "mido", "mide", "medir", "mides", "medimos"}, word)
	})
}
