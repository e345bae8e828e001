package bot

import (
	"regexp"
	"strings"

	"dogleg/bot/training"
	"dogleg/parser"
	"dogleg/parser/words"
)

// Read reads a message, with what the pipe carries and goes through where it is
// told anywhere in the words of an ask.
func Read(text string, said parser.Said) []parser.Statement {
	if word, language, ok := asksMeaning(text); ok {
		return []parser.Statement{{Text: text, Command: &parser.Command{Verb: parser.Glossary, Object: word, Language: language}}}
	}
	return enriched(text, parser.Read(text, said))
}

// inSpanish are letters that no English word has.
const inSpanish = "áéíóúñüÁÉÍÓÚÑÜ¿¡"

// enriched adds to statements what their words say besides: what the pipe carries,
// and that they are Spanish where only Spanish is written so.
func enriched(text string, statements []parser.Statement) []parser.Statement {
	for _, s := range statements {
		words := s.Text
		if len(statements) == 1 {
			words = text
		}
		if s.Ask != nil {
			if strings.ContainsAny(s.Text, inSpanish) {
				s.Ask.Language = parser.Spanish
			}
			carried(s.Ask, words)
			notForKeeping(s.Ask)
		}
		if s.Misunderstanding != nil {
			carried(&s.Misunderstanding.Read, words)
			for _, reading := range s.Misunderstanding.Readings {
				for i := range reading {
					carried(&reading[i], words)
				}
			}
		}
	}
	return statements
}

// meaningOf is how the meaning of a word is asked for. With "the" in front of it,
// it is the figure of the last job that is asked for, and not the word.
var meaningOf = regexp.MustCompile(`(?i)^\s*(?:(what\s+is|what's|whats|what\s+are|what\s+does)|(qu[eé]\s+(?:es|son|significa)))\s+(?:an?\s+|un\s+|una\s+)?([^\d]*?(?:\b(?:45|90))?)(?:\s+means?)?\s*\?*\s*$`)

// asksMeaning says whether a message asks what a word of the glossary means, and
// which. The word is read as a word and nothing else: it changes no job.
func asksMeaning(text string) (word string, l parser.Language, ok bool) {
	found := meaningOf.FindStringSubmatch(strings.TrimLeft(text, "¿ "))
	if found == nil {
		return "", "", false
	}
	l = parser.English
	if found[2] != "" {
		l = parser.Spanish
	}
	word = strings.TrimSpace(found[3])
	if _, known := training.Word(word); !known || word == "45" || word == "90" || strings.HasPrefix(strings.ToLower(word), "the ") {
		return "", "", false
	}
	return word, l, true
}

// notForKeeping makes an ask for a way around of one that is taken for a takeoff
// to keep: a reach has nothing to do with a fitting, and what was measured before
// is not to be written over by a takeoff that was said for this piece.
func notForKeeping(ask *parser.Ask) {
	_, reaches := ask.Length(parser.Reach)
	if ask.Kind == parser.Takeoff && reaches {
		ask.Kind, ask.Store = parser.Around, false
	}
}

// loads and barriers are what the words of cautions mean to an ask.
var (
	loads = map[string]parser.Load{
		"gas": parser.FuelGas, "medical gas": parser.MedicalGas, "compressed air": parser.CompressedAir,
		"water": parser.Water, "vent": parser.Vent, "drain": parser.DrainWater,
		"asbestos cement": parser.AsbestosCement, "lead": parser.LeadPipe,
	}
	barriers = map[string]parser.Barrier{"masonry": parser.Masonry, "joist": parser.Joist}
)

// carried puts into an ask what its words say, unless that is there: of several
// the first.
func carried(ask *parser.Ask, text string) {
	for _, word := range words.Carried(text) {
		if load, ok := loads[word]; ok && ask.Carries == "" {
			ask.Carries = load
		}
		if barrier, ok := barriers[word]; ok && ask.Through == "" {
			ask.Through = barrier
		}
	}
}
