package bot

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"

	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/store"
)

// KeptUnread is how many messages that were not understood are kept of one
// person; the oldest go first.
const KeptUnread = 100

// learn takes or gives back a person's consent that what could not be
// understood is kept. Taken back, what was kept goes at once.
func (t *turn) learn(s parser.Statement, may bool) part {
	if s.Command.Language != "" {
		t.talk.Language = s.Command.Language
	}
	t.settings.Learn = may
	t.note(store.Settings, t.settings)
	if !may {
		t.memory.SetNote(store.Unread, nil)
		return t.tell(s, true, wording.NotLearning)
	}
	return t.tell(s, true, wording.Learning)
}

// keepUnread keeps a statement that was not understood, of one who consented.
// It is kept with the person, so that it goes when they do, but holds neither
// them nor others: see masked.
func (t *turn) keepUnread(text string) {
	if !t.settings.Learn || t.message.Overheard {
		return
	}
	kept := append(Unread(t.memory), masked(text, t.message.From))
	t.note(store.Unread, kept[max(0, len(kept)-KeptUnread):])
}

// Unread are the messages of one person that were not understood, the oldest
// first, as far as they consented to their being kept.
func Unread(m interface{ Note(store.Note) []byte }) (texts []string) {
	_ = json.Unmarshal(m.Note(store.Unread), &texts) // none where there is no note
	return texts
}

// What is no measure, and may lead to a person: addresses of mail and of pages,
// names of accounts, and numbers as they are dialed. Of measures none has so many
// digits, or such groups of them.
var (
	addresses = regexp.MustCompile(`(?i)\b[\w.+-]+@[\w-]+(?:\.[\w-]+)+|\b(?:https?://|www\.)\S+|@\w+`)
	dialed    = regexp.MustCompile(`(?:\+\d{1,3}[ .-]?)?\(?\d{2,4}\)?(?:[ .-]?\d{3,4}){1,3}\b|\+?\d{6,}`)
)

// masked is a text without what may lead to a person. Measures stay: they are
// what is to be learned from.
func masked(text, from string) string {
	text = addresses.ReplaceAllString(text, "@")
	text = dialed.ReplaceAllStringFunc(text, func(number string) string {
		if digits(number) < 6 {
			return number
		}
		return "#"
	})
	for name := range strings.FieldsSeq(from) {
		if len(name) > 2 {
			text = regexp.MustCompile(`(?i)\b`+regexp.QuoteMeta(name)+`\b`).ReplaceAllString(text, "@")
		}
	}
	return text
}

func digits(s string) (n int) {
	for _, r := range s {
		if r >= '0' && r <= '9' {
			n++
		}
	}
	return n
}

// Corpus is a list of messages in the form of the files in testdata/asks: sorted,
// so that their order tells nothing of who wrote them, and each once.
func Corpus(texts []string) string {
	var page strings.Builder
	slices.Sort(texts)
	for _, text := range slices.Compact(texts) {
		page.WriteString(strings.ReplaceAll(strings.TrimSpace(text), "\n", `\n`) + "\n\n")
	}
	return page.String()
}
