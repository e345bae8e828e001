package wire

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf16"
)

// Account is the bot itself, as getMe tells.
type Account struct {
	ID       int64  `json:"id"`
	Username string `json:"username"`
}

// Command is one that stands in the menu, and what it says in the words of the
// conversation.
type Command struct {
	Name        string `json:"command"`
	Description string `json:"description"`
	words       string
}

// Commands are the menu of the bot.
var Commands = []Command{
	{"help", "What to write", "help"},
	{"list", "The cut list", "list"},
	{"add", "The last answer to the cut list", "add"},
	{"done", "Check a piece off: /done 2", "done"},
	{"sticks", "Which sticks to cut it from", "sticks"},
	{"jobs", "What was figured lately", "jobs"},
	{"explain", "How the last one was figured, step by step", "explain"},
	{"start", "Begin", "start"},
}

// Heard says whether a message is for us, and what it says without our name
// and without the slash of a command.
func (a Account) Heard(m *Message) (words string, ours bool) {
	text, entities := m.Words()
	words, called := a.withoutName(text, entities)
	words, ordered, others := a.withoutSlash(words)
	switch {
	case others || !m.FromPerson():
		return "", false
	case m.Private():
		return words, true
	}
	return words, called || ordered || a.repliedTo(m)
}

// FromPerson is false for other bots and ourselves, for what is written by way
// of a bot, and for what a channel forwards by itself. Who writes in the name
// of a chat is a person, although From then is a bot that stands for all of
// them.
func (m *Message) FromPerson() bool {
	switch {
	case m.Via != nil || m.Forwarded:
		return false
	case m.As != nil:
		return true
	}
	return m.From == nil || !m.From.IsBot
}

// repliedTo says whether the message replies to one of ours. In a topic every
// message "replies" to the one that opened it; that is not meant.
func (a Account) repliedTo(m *Message) bool {
	r := m.ReplyTo
	return r != nil && r.From != nil && r.From.ID == a.ID && !(m.InTopic && r.ID == m.Thread)
}

// About is the message of ours that a message replies to, 0 if there is none.
func (a Account) About(m *Message) int64 {
	if !a.repliedTo(m) {
		return 0
	}
	return m.ReplyTo.ID
}

// withoutName takes our name out of a text. It looks at the entities, not at
// the text: @dogleg_bot2 is somebody else.
func (a Account) withoutName(text string, entities []entity) (rest string, called bool) {
	units := utf16.Encode([]rune(text))
	for _, e := range slices.Backward(entities) {
		if e.Offset < 0 || e.Length <= 0 || e.Length > len(units)-e.Offset {
			continue
		}
		if end := e.Offset + e.Length; a.named(e, units[e.Offset:end]) {
			units = slices.Delete(units, e.Offset, end)
			called = true
		}
	}
	return strings.TrimSpace(string(utf16.Decode(units))), called
}

func (a Account) named(e entity, units []uint16) bool {
	switch e.Type {
	case "mention":
		return strings.EqualFold(string(utf16.Decode(units)), "@"+a.Username)
	case "text_mention":
		return e.User != nil && e.User.ID == a.ID
	}
	return false
}

// withoutSlash turns a command into plain words: "/explain@dogleg_bot last"
// into "explain last". It is ordered if it names us or is one of our own, and
// others' if it names another bot.
func (a Account) withoutSlash(text string) (words string, ordered, others bool) {
	if len(text) < 2 || text[0] != '/' || !unicode.IsLetter(rune(text[1])) {
		return text, false, false
	}
	head, rest := text[1:], ""
	if end := strings.IndexFunc(head, unicode.IsSpace); end >= 0 {
		head, rest = head[:end], strings.TrimSpace(head[end:])
	}
	name, bot, named := strings.Cut(head, "@")
	if named && !strings.EqualFold(bot, a.Username) {
		return "", false, true
	}
	for _, c := range Commands {
		if strings.EqualFold(c.Name, name) {
			if c.Name == "start" { // what follows it is for machines
				rest = ""
			}
			return strings.TrimSpace(c.words + " " + rest), true, false
		}
	}
	return strings.TrimSpace(strings.ReplaceAll(name, "_", " ") + " " + rest), named, false
}
