package bot

import (
	"slices"
	"strings"

	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/parser"
)

// What a pipe was taken for is asked by the names of the systems, and each stands on a
// button: so a message that is such a name says what the pipe is.

// systemNamed is the system that a text names, and nothing else, in any language.
func systemNamed(text string) (catalog.System, bool) {
	text = strings.Trim(text, " \t\r\n.")
	all := catalog.Systems()
	i := slices.IndexFunc(all, func(s catalog.System) bool {
		return slices.ContainsFunc([]parser.Language{parser.English, parser.Spanish}, func(l parser.Language) bool {
			return strings.EqualFold(text, wording.Term(s.Name, wording.Options{Language: l}))
		})
	})
	if i < 0 {
		return catalog.System{}, false
	}
	return all[i], true
}

// materialNamed is the material that a text names, and nothing else.
func materialNamed(text string) (catalog.Material, bool) {
	text = strings.Trim(text, " \t\r\n.")
	for _, s := range catalog.Systems() {
		for _, l := range []parser.Language{parser.English, parser.Spanish} {
			if strings.EqualFold(text, wording.MaterialName(s.Material, wording.Options{Language: l})) {
				return s.Material, true
			}
		}
	}
	return "", false
}

// toldApart says whether the words of a pipe in some size can tell a system from all
// others.
func toldApart(s catalog.System, said catalog.Pipe, size catalog.Size) bool {
	matches := catalog.Match(pipeOf(s, size))
	return said.Material == s.Material && len(matches) > 0 && matches[0].ID == s.ID
}

// systemSaid takes a system's name for what the pipe is that the last ask, or the
// takeoff that was just kept, is about.
func systemSaid(t *turn, text string) (part, bool) {
	if m, ok := materialNamed(text); ok && t.talk.Ask != nil && t.talk.Unfigured && t.talk.Ask.Pipe.Material == "" {
		ask := parser.Ask{FollowUp: true, Language: t.talk.Ask.Language, Pipe: catalog.Pipe{Material: m}}
		return t.safely(parser.Statement{Text: text, Ask: &ask}, t.respond), true
	}
	s, ok := systemNamed(text)
	if !ok {
		return part{}, false
	}
	var about *parser.Ask
	switch {
	case t.talk.Kept != nil:
		about = &t.talk.Kept.Ask
	case t.talk.Ask != nil:
		about = t.talk.Ask
	}
	if about == nil || !toldApart(s, about.Pipe, about.Pipe.Size) {
		return part{}, false
	}
	ask := parser.Ask{FollowUp: true, Language: about.Language, Pipe: pipeOf(s, "")}
	return t.safely(parser.Statement{Text: text, Ask: &ask}, t.respond), true
}
