package bot

import (
	"cmp"
	"errors"
	"fmt"
	"log/slog"
	"runtime/debug"
	"strings"

	"dogleg/bot/cutlist"
	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// Conversation talks with people, one message at a time. It keeps nothing of
// them: that is what the memory is for. The zero value is ready, and may be used
// by several goroutines as long as each has a memory of its own.
type Conversation struct {
	// Log hears of our own faults; nil is slog's default. It is never told what
	// anyone wrote.
	Log *slog.Logger

	// Handbook, Metric and Code, where set, go before the person's own settings:
	// they are for the flags of a command line.
	Handbook figure.HandbookSet
	Metric   bool
	Code     figure.Code

	// Watch, where it is set, is called when a message comes, and what it returns
	// with the reply.
	Watch func() func(Reply)

	// Speaks says that replies can be said aloud, to those who want that; see
	// [Reply].Aloud.
	Speaks bool

	// Seed, where it is not 0, makes the problems of those who begin to
	// practice; else the time of their message does.
	Seed uint64
}

// Handle answers one message. It never panics: whatever goes wrong below
// becomes a plain sentence, and a line in the log.
func (c *Conversation) Handle(m Message, memory Memory) (reply Reply) {
	if c.Watch != nil {
		done := c.Watch()
		defer func() { done(reply) }()
	}
	defer func() {
		if fault := recover(); fault != nil {
			c.report(fault)
			reply = Reply{Text: wording.Refusal(errFault, wording.Options{}), Fault: true}
		}
	}()
	t := c.begin(m, memory)
	undone := t.list.HandBack()
	var parts []part
	if m.Pressed != "" {
		parts = []part{t.ofList(parser.Statement{Text: m.Pressed}, t.list.Pressed(m.Pressed))}
	} else {
		parts = t.hear(m.Text)
	}
	if m.Overheard && len(parts) == 0 {
		return Reply{}
	}
	if n := len(parts); n > 0 {
		parts[n-1] = parts[n-1].with(t.list.Stale()).with(t.list.AsBefore(undone))
	}
	reply = joined(parts)
	reply.Aloud = t.aloud(parts)
	if t.list.Touched || t.list.Showing {
		reply.Board = t.board()
		reply.Listed = t.list.Listing == len(parts)
	}
	if !m.Overheard {
		reply = t.tappable(reply)
	}
	t.end()
	reply.Fault = t.faulted
	return reply
}

// turn is one message on its way through the conversation.
type turn struct {
	conversation *Conversation
	memory       Memory
	message      Message
	settings     settings
	talk         talk
	list         *cutlist.List
	waiting      []question     // asked before this message
	offered      [][]parser.Ask // the readings that were offered before it
	asked        []question     // asked by this reply
	forgotten    bool           // the person asked to be: nothing is to be kept
	faulted      bool           // a statement met a fault of ours
}

// part is the answer to one statement.
type part struct {
	statement parser.Statement
	heading   string // what it answers, where that isn't the statement itself
	text      string
	record    wording.Record
	answered  bool
	job       uint64 // that was kept of it, 0 if none was
	about     uint64 // the job that it is about without making one, 0 if there is none
	buttons   [][]Button
	files     []File
	aloud     string
	aside     []File // pictures of what the text says
	private   bool   // for this person alone, where that can be
}

// hear answers all that a message says. A word about the cut list stands for
// itself. Else a bare answer to the question that waits is looked for first; the
// rest of the page is one statement at a time.
func (t *turn) hear(text string) []part {
	if t.message.Overheard {
		return t.overhear(text)
	}
	if p, ok := t.settleForgetting(text); ok {
		return []part{p}
	}
	if t.message.About == nil && !t.message.Theirs {
		if parts := t.settleUnit(text); len(parts) > 0 {
			return parts
		}
	}
	for _, word := range []func(string) (part, bool){t.codeSaid, t.inAnotherUnit, t.ofClass} {
		if p, ok := word(text); ok {
			return []part{p}
		}
	}
	if p, ok := systemSaid(t, text); ok {
		return []part{p}
	}
	if p, ok := t.list.SettleClearing(isYes(text), t.talk.Clearing != "" && declines(text)); ok {
		return []part{t.ofList(parser.Statement{Text: text}, p)}
	}
	if order, ok := orderIn(text, func() []parser.Statement { return Read(text, t.said()) }); ok {
		return []part{t.safely(parser.Statement{Text: text}, func(s parser.Statement) part { return t.obey(s, order) })}
	}
	if parts := t.takeOffered(text); len(parts) > 0 {
		return parts
	}
	statements := Read(text, t.said())
	if t.message.About == nil && !t.message.Theirs { // else the reply is no answer to what was asked of this person
		if parts := t.settle(text, statements); len(parts) > 0 {
			return parts
		}
	}
	if statements[0].Command == nil {
		if p, ok := t.mark(text); ok {
			return []part{p}
		}
	}
	return t.each(statements)
}

// each answers statements one by one.
func (t *turn) each(statements []parser.Statement) (parts []part) {
	for _, s := range statements {
		parts = append(parts, t.safely(s, t.respond))
	}
	return parts
}

// said is what a message follows on.
func (t *turn) said() parser.Said {
	said := parser.Said{Last: t.talk.Ask, Metric: t.metric()}
	if len(t.waiting) > 0 {
		q := t.waiting[len(t.waiting)-1]
		said.Last, said.Wanted = &q.Ask, q.Wanted
	}
	return said
}

// respond answers one statement.
func (t *turn) respond(s parser.Statement) part {
	if order, ok := orderIn(s.Text, func() []parser.Statement { return []parser.Statement{s} }); ok {
		return t.obey(s, order)
	}
	if t.aboutUnknown() && t.goesOn(s) {
		return t.tell(s, false, wording.AboutWhich)
	}
	if number, ok := bareNumber(s); ok {
		return t.whatNumber(s, number)
	}
	moves := s.Ask != nil && t.movesTakeoff(*s.Ask)
	if s.Ask != nil && !moves {
		t.talk.Kept = nil
	}
	switch {
	case moves:
		return t.moveTakeoff(s)
	case s.Ask != nil && setsTakeoff(*s.Ask):
		return t.keepTakeoff(s, *s.Ask)
	case s.Ask != nil && (s.Ask.FollowUp || s.Ask.Kind == parser.Unstated || t.placesLast(s)):
		return t.followUp(s)
	case s.Ask != nil:
		t.waiting = nil // a whole new ask drops the question
		return t.figure(s, job{ask: *s.Ask, asked: s.Text, name: s.Ask.Name})
	case s.Command != nil:
		return t.command(s)
	case s.Misunderstanding != nil:
		return t.misunderstood(s)
	}
	return t.refuse(s, errFault)
}

// figure answers an ask: Solve, then Reply.
func (t *turn) figure(s parser.Statement, j job) part {
	ask, err := t.settled(j.ask)
	var answer *figure.Answer
	if err == nil {
		j.ask = ask
		answer, err = figure.Solve(j.ask, t.figuring())
	}
	if err != nil {
		t.failed(j, err)
		return t.refuse(s, err)
	}
	speaking := t.speaking(j.ask.Language)
	speaking.FirstTime = speaking.FirstTime && !asksCode(t, answer) // the question says as much, and the notice comes under the next
	text := t.brief(answer, speaking)
	p := part{statement: s, text: text, record: wording.NewRecord(s, answer, nil, text), answered: true}
	p.job = t.remember(j, answer, text, p.record.Read, speaking)
	p.buttons = t.buttonsUnder(p.job, answer)
	p = t.askCode(p, answer)
	t.askMeasure(j, answer)
	if p.job != 0 && t.settings.Draw {
		p.files = t.picture(answer, p.job)
	}
	if o := t.options(j.ask.Language); t.talks() && o.Language != parser.Spanish { // which the voice doesn't speak
		p.aloud = wording.Spoken(answer, o)
	}
	return t.relist(j, p)
}

// refuse answers with why there is no answer.
func (t *turn) refuse(s parser.Statement, err error) part {
	o := t.options(t.talk.Language)
	text := wording.Refusal(err, o)
	t.talk.Whole, t.talk.More = wording.WholeRefusal(err, o), moreWhole
	return part{
		statement: s, text: text, record: wording.NewRecord(s, nil, err, text),
		buttons: choices(err, o), aloud: t.forEar(text, o), aside: t.whatToMeasure(err),
	}
}

func (t *turn) misunderstood(s parser.Statement) part {
	m := s.Misunderstanding
	if ask, ok := t.oneReading(m); ok {
		s.Ask, s.Misunderstanding = &ask, nil
		return t.respond(s)
	}
	m = t.inUnits(m)
	s.Misunderstanding = m
	if len(m.Readings) == 1 && len(m.Readings[0]) == 1 && t.says(s.Text, m.Readings[0]) {
		return t.takeReading(s, m.Readings[0][0]) // there is nothing to ask about
	}
	t.talk.Offered = append(t.talk.Offered, m.Readings...)
	if m.Read.Language != "" {
		t.talk.Language = m.Read.Language
	}
	if m.Wanted != parser.Bare {
		t.ask(job{ask: m.Read, asked: s.Text, name: m.Read.Name}, m.Wanted)
	}
	t.keepUnread(s.Text)
	return t.refuse(s, m)
}

// takeOffered takes a message that is one of the readings that were offered: it
// was asked about, and is asked no more.
func (t *turn) takeOffered(text string) (parts []part) {
	offered := t.talk.Offered
	t.offered, t.talk.Offered = offered, nil
	for _, asks := range offered {
		if !t.says(text, asks) {
			continue
		}
		for _, ask := range asks {
			s := parser.Statement{Text: wording.TypedIn(ask, t.options(t.talk.Language))}
			parts = append(parts, t.safely(s, func(s parser.Statement) part { return t.takeReading(s, ask) }))
		}
		return parts
	}
	return nil
}

func (t *turn) takeReading(s parser.Statement, ask parser.Ask) part {
	s.Ask, s.Misunderstanding = &ask, nil
	return t.respond(s)
}

// says says whether a text is a reading as it is offered, but for commas and
// capitals.
func (t *turn) says(text string, reading []parser.Ask) bool {
	bare := func(s string) string {
		return strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return r == ',' || r == ' ' || r == '.' || r == ';' }), " ")
	}
	words := bare(text)
	return words == bare(wording.TypedAll(reading, wording.Options{})) || words == bare(wording.TypedAll(reading, t.options(t.talk.Language)))
}

// errFault is an error that is ours, worded as such.
var errFault = errors.New("bot: a fault")

// safely answers a statement, and makes of a panic a plain sentence, so that
// the other statements of the message are still answered.
func (t *turn) safely(s parser.Statement, answer func(parser.Statement) part) (p part) {
	defer func() {
		if fault := recover(); fault != nil {
			t.conversation.report(fault)
			t.faulted = true
			p = t.refuse(s, errFault)
		}
	}()
	return answer(s)
}

// report logs a fault with where it was, but not what was written.
func (c *Conversation) report(fault any) {
	c.log().Error("a message could not be answered", "fault", fmt.Sprint(fault), "stack", string(debug.Stack()))
}

func (c *Conversation) log() *slog.Logger {
	if c.Log == nil {
		return slog.Default()
	}
	return c.Log
}

// with is a part with more lines at its end.
func (p part) with(lines []string) part {
	if len(lines) > 0 {
		p.text += "\n" + strings.Join(lines, "\n")
		p.record.Reply = p.text
	}
	return p
}

// said is a part that is no answer to an ask: it carries out a command, or says
// what is lacking.
func said(s parser.Statement, answered bool, text string) part {
	p := part{statement: s, text: text, record: wording.NewRecord(s, nil, nil, text), answered: answered}
	p.record.Understood = answered
	return p
}

// say words a phrase of the conversation for this person.
func (t *turn) say(p wording.Phrase, pairs ...string) string {
	return wording.Say(p, phrasing(t), pairs...)
}

// phrasing are the options for what answers no ask: its examples are for the tape of
// who set millimeters, or asked in them last.
func phrasing(t *turn) wording.Options {
	o := t.options(t.talk.Language)
	o.Metric = o.Metric || t.talk.Shown != nil && t.talk.Shown.Metric() || t.talk.Ask != nil && t.talk.Ask.Metric()
	return o
}

// tell is said, of a phrase.
func (t *turn) tell(s parser.Statement, answered bool, p wording.Phrase, pairs ...string) part {
	return said(s, answered, t.say(p, pairs...))
}

// joined makes one reply of the parts, each under what it answers if there are
// several.
func joined(parts []part) Reply {
	r := Reply{Understood: true}
	var texts []string
	for i, p := range parts {
		r.Records = append(r.Records, p.record)
		r.Understood = r.Understood && p.answered
		r.Private = r.Private || p.private
		r.Files = append(r.Files, p.files...)
		r.Aside = append(r.Aside, p.aside...)
		if p.job != 0 {
			r.Jobs = append(r.Jobs, p.job)
		} else if p.about != 0 {
			r.About = append(r.About, p.about)
		}
		if len(parts) == 1 {
			r.Buttons = p.buttons
		}
		text := p.text
		heading := cmp.Or(p.heading, strings.TrimSpace(p.statement.Text))
		if len(parts) > 1 && heading != "" {
			text = fmt.Sprintf("%d) %s\n%s", i+1, heading, text)
		}
		texts = append(texts, text)
	}
	r.Text = strings.Join(texts, "\n\n")
	return r
}
