package bot

import (
	"strings"

	"dogleg/bot/wording"
	"dogleg/parser"
)

// The most that is said to the ear: who listens can't look back.
const (
	mostSaid      = 3 // things asked in one message
	mostSaidLines = 3 // of why there is no answer
)

// talks says whether replies are said too: the person asked for that, and
// something here can speak.
func (t *turn) talks() bool { return t.settings.Talk && t.conversation.Speaks }

// aloud is what a reply says to the ear.
func (t *turn) aloud(parts []part) string {
	var said []string
	for _, p := range parts {
		if p.aloud != "" && len(said) < mostSaid {
			said = append(said, sentence(p.aloud))
		}
	}
	return strings.Join(said, " ")
}

// sentence ends a text, so that the voice draws breath behind it.
func sentence(text string) string {
	if strings.HasSuffix(text, ".") || strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

// forEar is the beginning of a text for the eye, worded for the ear. The voice
// speaks English only.
func (t *turn) forEar(text string, o wording.Options) string {
	if !t.talks() || o.Language == parser.Spanish {
		return ""
	}
	lines := strings.Split(text, "\n")
	return wording.Ear(strings.Join(lines[:min(mostSaidLines, len(lines))], "\n"), o)
}

// setTalk sets whether answers are said too.
func (t *turn) setTalk(s parser.Statement, on bool) part {
	if on && !t.conversation.Speaks {
		return t.tell(s, false, wording.CantTalk)
	}
	t.settings.Talk = on
	p := t.tell(s, true, choose(on, wording.TalkOn, wording.TalkOff))
	p.aloud = t.forEar(p.text, t.options(t.talk.Language))
	return p
}
