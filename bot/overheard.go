package bot

import (
	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/store"
)

// overhear answers what nobody said to the bot: figures that are plainly asked for,
// and nothing else. A word about the list, a bare number or a yes is for somebody
// else.
func (t *turn) overhear(text string) []part {
	if _, ok := readOrder(text); ok {
		return nil
	}
	statements := Read(text, parser.Said{})
	if !plainlyAsked(statements) {
		return nil
	}
	return t.each(statements)
}

// plainlyAsked says whether a message that nobody addressed to the bot asks it
// something all the same: each statement is work to be figured, whole by itself.
func plainlyAsked(statements []parser.Statement) bool {
	for _, s := range statements {
		if _, ordered := readOrder(s.Text); ordered || s.Ask == nil || setsTakeoff(*s.Ask) || s.Ask.FollowUp || s.Ask.Kind == parser.Unstated || !isWork(s.Ask.Kind) {
			return false
		}
	}
	return true
}

// ForAdmins says whether a message sets something for everyone in a group.
func ForAdmins(text string) bool {
	c := parser.CommandIn(text)
	return c != nil && c.Verb == parser.Setting && c.Object == "hearing"
}

// HearsAll says whether a group wants to be answered although nobody speaks to
// the bot.
func HearsAll(groups Memory) bool {
	var g group
	t := &turn{conversation: new(Conversation)}
	t.recallFrom(groups, store.State, &g)
	return g.HearsAll
}

// setHearing sets whether the group is answered always, or only where somebody
// speaks to the bot. That is for an admin to say.
func (t *turn) setHearing(s parser.Statement, all bool) part {
	g := t.group()
	switch {
	case g == nil:
		return t.tell(s, false, wording.OnlyInGroups)
	case !t.message.Admin:
		return t.tell(s, false, wording.OnlyForAdmins)
	}
	g.HearsAll = all
	t.keepGroup(g)
	return t.tell(s, true, choose(all, wording.HearingAll, wording.HearingNamed))
}
