package bot

import (
	"log/slog"
	"slices"
	"time"

	"dogleg/parser"
)

// Answering tells what would be made of a message, and keeps nothing: it is for
// who has to choose between messages, as the ear does.
type Answering struct{}

// Read reads a message as the conversation does.
func (Answering) Read(text string, said parser.Said) []parser.Statement { return Read(text, said) }

// Keeps says whether a message, with what was read in it, changes what is kept of
// a person: takeoffs, the cut list, names of jobs, settings, what is forgotten.
func (Answering) Keeps(text string, statements []parser.Statement) bool {
	_, order := readOrder(text)
	return order || slices.ContainsFunc(statements, func(s parser.Statement) bool {
		if s.Ask != nil {
			return s.Ask.Store || setsTakeoff(*s.Ask)
		}
		return s.Command != nil && !slices.Contains(changeNothing, s.Command.Verb)
	})
}

// changeNothing are the things to do that leave what is kept as it is.
var changeNothing = []parser.Verb{
	parser.Explain, parser.Rule, parser.Jobs, parser.Help, parser.Greet, parser.AllCautions, parser.Takeoffs,
	parser.Draw, parser.Thanks, parser.Practice, parser.Exam, parser.Skip, parser.Stop, parser.Score, parser.Glossary,
}

// Figures says whether a message is answered with figures.
func (Answering) Figures(text string) bool {
	c := Conversation{Log: slog.New(slog.DiscardHandler)}
	return c.Handle(Message{Text: text, When: time.Now()}, new(Forgetful)).Understood
}
