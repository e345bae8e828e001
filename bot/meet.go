package bot

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dogleg/bot/cutlist"
	"dogleg/bot/training"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// meet does what a phrase means where the talk stands; a number may stand behind some.
func (t *turn) meet(s parser.Statement, o order) part {
	number := 0
	if len(o.numbers) > 0 {
		number = int(o.numbers[0])
	}
	switch o.phrase {
	case greet, firstHelp:
		return t.greet(s)
	case howLong:
		return t.howLong(s)
	case tellWhy:
		return t.whyIt(s, number)
	case tellMore:
		return t.more(s, number)
	case showSettings:
		return t.showSettings(s)
	case doneWhich:
		return t.withList(s, cutlist.Order{Act: cutlist.Which})
	case shareIt:
		return t.share(s)
	case sayNo:
		return t.no(s)
	case measuring:
		return t.howToMeasure(s, o.language)
	case giveHint:
		return t.hint(s)
	case giveCommand:
		words := append(strings.Fields(o.words), "", "")
		s.Command = &parser.Command{Verb: parser.Verb(words[0]), Object: words[1], Value: words[2], Language: o.language}
		return t.command(s)
	case forgetTheirs:
		s.Command = &parser.Command{Verb: parser.Forget, Object: "takeoff " + strconv.Itoa(number), Language: o.language}
		return t.command(s)
	}
	return t.refuse(s, errFault)
}

// greet is said to those who come new, or ask what there is: what this does, with
// examples to tap, and how to send a voice note. More tells the rest.
func (t *turn) greet(s parser.Statement) part {
	o := phrasing(t)
	t.talk.More, t.talk.Noticed = moreHelp, true
	p := said(s, true, wording.Greeting(o))
	p.buttons = append(examples(o), []Button{
		{Label: t.say(wording.HelpButton), Says: t.say(wording.MoreWord)},
		{Label: t.say(wording.SettingsButton), Says: t.say(wording.SettingsWord)},
	})
	return p
}

// help is all that can be asked.
func (t *turn) help(s parser.Statement) part {
	t.talk.More = ""
	return said(s, true, wording.Help(phrasing(t)))
}

// howLong says the cut again to who asks how long to cut; who has none yet is
// shown how to ask for one.
func (t *turn) howLong(s parser.Statement) part {
	if j, ok := t.job(int(t.talk.Job)); ok && t.talk.Job != 0 && !t.talk.Unfigured {
		p := said(s, true, j.Reply)
		p.about = j.Number
		return p
	}
	return t.greet(s)
}

// showSettings lists what is set and how each is changed, with a button for each.
func (t *turn) showSettings(s parser.Statement) part {
	o := phrasing(t)
	rows := wording.Settings(wording.Set{
		Metric: t.settings.Metric, ThirtySeconds: o.Division > 16, Language: t.settings.Language,
		Handbook: t.settings.Handbook, Draw: t.settings.Draw, Talk: t.settings.Talk, Learn: t.settings.Learn, Speaks: t.conversation.Speaks, Code: t.settings.Code,
	}, o)
	var lines, says []string
	for _, r := range rows {
		lines = append(lines, r.Is+": "+r.Says)
		says = append(says, r.Says)
	}
	p := said(s, true, t.say(wording.SettingsAre)+"\n"+strings.Join(lines, "\n"))
	for pair := range slices.Chunk(says, 2) {
		p.buttons = append(p.buttons, slices.Concat(each(pair)...))
	}
	return p
}

// share gives the last ask as one types it, for another chat.
func (t *turn) share(s parser.Statement) part {
	if t.talk.Ask == nil {
		return t.tell(s, false, wording.NothingToShare)
	}
	typed := wording.TypedIn(*t.talk.Ask, t.options(t.talk.Language))
	p := t.tell(s, true, wording.ShareThis, "ask", typed)
	p.buttons = [][]Button{{{Label: t.say(wording.ShareButton), Share: typed}}}
	p.about = t.talk.Job
	return p
}

// no drops the question that waits. Where nothing does, nothing is dropped.
func (t *turn) no(s parser.Statement) part {
	if len(t.waiting) > 0 {
		t.waiting, t.asked = nil, nil
		return t.tell(s, true, wording.Canceled)
	}
	if t.talk.Job == 0 {
		return t.tell(s, true, wording.NothingWaits)
	}
	p := t.tell(s, true, wording.WhatIsWrong)
	p.buttons = [][]Button{{
		{Label: t.say(wording.UndoButton), Says: "undo"},
		{Label: t.say(wording.WhyButton), Says: "why"},
	}}
	return p
}

// hint names the next step of the problem that waits; else it shows how to ask.
func (t *turn) hint(s parser.Statement) part {
	if p, ok := t.inProblem(s, (*training.Room).Hint); ok {
		return p
	}
	return t.greet(s)
}

// sumsButtons leads from the sums to every step.
func (t *turn) sumsButtons(p part, number int) part {
	says := t.say(wording.MoreWord)
	if number != 0 {
		says += " " + strconv.Itoa(number)
	}
	p.buttons = [][]Button{{{Label: t.say(wording.StepsAllButton), Says: says}}}
	t.inTraining(func(r *training.Room) {
		p.buttons = append(taught(r.RuleButtons(number)), p.buttons...)
	})
	return p
}

// numberAlone is a number as a tape gives it, with nothing beside it: 12, 12-5/8,
// 45s.
var numberAlone = regexp.MustCompile(`^\d+(?:[.,]\d+|[ -]\d+/\d+|/\d+)?(?:"|''|s)?$`)

// bareNumber is the number that a statement consists of, without a unit.
func bareNumber(s parser.Statement) (string, bool) {
	text := strings.TrimRight(strings.TrimSpace(s.Text), ".?")
	if s.Command != nil || s.Ask != nil && s.Ask.FollowUp || !numberAlone.MatchString(text) {
		return "", false
	}
	return strings.Trim(text, `"'s`), true
}

// whatNumber asks what a number is that comes alone.
func (t *turn) whatNumber(s parser.Statement, number string) part {
	set, same := "set "+number+" 45s", "same but "+number
	if t.options(t.talk.Language).Language == parser.Spanish {
		set, same = "desvío "+number+" codos de 45", "igual pero "+number
	}
	if isBend(number) {
		set = t.say(wording.BendExample, "bend", number)
	}
	if t.talk.Ask == nil {
		p := t.tell(s, false, wording.WhatNumber, "number", number)
		p.buttons = each([]string{set, t.say(wording.PieceExample, "number", number)})
		return p
	}
	p := t.tell(s, false, wording.WhatNumberNow, "number", number)
	p.buttons = each([]string{same, set})
	return p
}

// isBend says whether a number is what a bend is called by.
func isBend(number string) bool {
	return slices.Contains([]string{"90", "60", "45", "22", "22-1/2", "22.5", "30", "72"}, number)
}
