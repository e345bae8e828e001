package bot

import (
	"regexp"
	"slices"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/store"
)

// namesCode is how a person says which code they lay drains by.
var namesCode = regexp.MustCompile(`(?i)^\s*(?:code|c[oó]digo)\s+(?:is\s+|es\s+)?(.+?)\s*$`)

// codeSaid sets the code that the person names: "code IPC". A code's bare name
// does so too, where it was asked for and none is set.
func (t *turn) codeSaid(text string) (part, bool) {
	name, bare := text, true
	if found := namesCode.FindStringSubmatch(text); found != nil {
		name, bare = found[1], false
	}
	code, ok := figure.CodeNamed(name)
	if !ok || bare && (code == figure.NoCode || !t.settings.Coded || t.settings.Code != figure.NoCode) {
		return part{}, false
	}
	before := t.settings
	t.settings.Code, t.settings.Coded = code, true
	t.note(store.Settings, t.settings)
	t.noteDeed(deed{Did: changedSet, Settings: &before, Says: settingNow("code", before)})
	s := parser.Statement{Text: text}
	return drainBy(t, t.tell(s, true, settingNow("code", t.settings), "code", string(code))), true
}

// drainBy answers the last drain anew, under what was said, by the code that was set.
func drainBy(t *turn, said part) part {
	if t.talk.Ask == nil || t.talk.Job == 0 || t.settings.Code == figure.NoCode {
		return said
	}
	j, ok := t.job(int(t.talk.Job))
	a, err := figure.Solve(*t.talk.Ask, t.figuring())
	if !ok || err != nil || !a.Drain {
		return said
	}
	p := t.figure(said.statement, job{ask: *t.talk.Ask, asked: j.Asked, name: t.talk.Name, number: j.Number, again: true})
	p.text = said.text + "\n\n" + p.text
	p.record.Reply = p.text
	p.buttons = t.undoPlainly(p.buttons)
	return p
}

// asksCode says whether it will be asked under an answer which code drains are laid by.
func asksCode(t *turn, a *figure.Answer) bool {
	return a.Drain && !t.settings.Coded && t.conversation.Code == figure.NoCode && !t.message.Overheard
}

// askCode asks, once, under the first answer to a drain that has a grade, which
// code the person lays drains by. It goes on without.
func (t *turn) askCode(p part, a *figure.Answer) part {
	if !asksCode(t, a) {
		return p
	}
	t.settings.Coded = true
	t.note(store.Settings, t.settings)
	p.text += "\n" + t.say(wording.CodeWhich)
	p.record.Reply = p.text
	var row []Button
	for _, c := range figure.Codes() {
		row = append(row, Button{Label: string(c), Says: "code " + string(c)})
	}
	row = append(row, Button{Label: t.say(wording.NoCodeButton), Says: "code none"})
	for pair := range slices.Chunk(row, 2) {
		p.buttons = append(p.buttons, pair)
	}
	return p
}
