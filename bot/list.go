package bot

import (
	"dogleg/bot/cutlist"
	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/geometry"
	"dogleg/parser"
	"dogleg/store"
)

// This file is where the cut list (package cutlist) and the conversation meet.

// Board is the cut list as one message that is kept up to date: its text, and a
// button for each piece that checks it off or opens it again. Whoever is at the
// saw and whoever measures look at the same one.
type Board struct {
	Text    string
	Buttons [][]Button // rows
	Anew    bool       // it was asked for: to be shown below, and no longer where it was
	Moved   string     // what is said where it was
}

// boardOptions are how the list of a group speaks.
type boardOptions struct {
	Language parser.Language
	Division geometry.Division
	Metric   bool
}

// listOf is the list that a message is about: the chat's own, where several people
// share one.
func (t *turn) listOf(m Message) *cutlist.List {
	l := &cutlist.List{
		Talk: listener{t}, Kept: t.memory, State: &t.talk.State,
		Message: cutlist.Message{When: m.When, ID: m.ID, User: m.User, Shared: m.Group != nil, Edited: m.Edited, Replaces: m.Replaces},
	}
	if m.Group != nil {
		l.Kept = m.Group
	}
	return l
}

// listener is what the list knows of the conversation.
type listener struct{ turn *turn }

func (c listener) Options() wording.Options { return c.turn.options(c.turn.talk.Language) }

func (c listener) LastJob() cutlist.Job {
	talk := &c.turn.talk
	return cutlist.Job{Number: talk.Job, Name: talk.Name, Ask: talk.Ask, Failed: talk.Unfigured}
}

func (c listener) JobOf(number int) (cutlist.Job, bool) {
	j, ok := c.turn.job(number)
	return cutlist.Job{Number: j.Number, Name: j.Name, Ask: askedBy(j)}, ok
}

func (c listener) Lost() bool { return c.turn.aboutUnknown() }

func (c listener) Solve(ask parser.Ask) (*figure.Answer, error) {
	return figure.Solve(ask, c.turn.figuring())
}

func (c listener) Code() string { return string(c.turn.figuring().Code) }

func (c listener) Note(d cutlist.Deed) { c.turn.noteDeed(deed{Did: did(d.Did), Cuts: d.Cuts}) }

// ofList is what the list says as an answer to a statement.
func (t *turn) ofList(s parser.Statement, l cutlist.Part) part {
	p := said(s, l.Answered, l.Text)
	p.about, p.buttons = l.About, buttonsOf(l.Buttons)
	p.files, p.aside = t.filesOf(l.Files), t.filesOf(l.Aside)
	return p
}

// buttonsOf are buttons of the list as the conversation has them.
func buttonsOf(rows [][]cutlist.Button) [][]Button {
	var buttons [][]Button
	for _, row := range rows {
		var made []Button
		for _, b := range row {
			made = append(made, Button{Label: b.Label, Says: b.Says, Press: b.Press})
		}
		buttons = append(buttons, made)
	}
	return buttons
}

func (t *turn) filesOf(listed []cutlist.File) []File {
	var files []File
	for _, f := range listed {
		if f.Recipe == nil {
			files = append(files, File{Name: f.Name, Content: f.Content})
			continue
		}
		r := recipe{Of: dish(f.Recipe.Of), Options: t.options(t.talk.Language), listRecipe: *f.Recipe, When: t.message.When}
		files = append(files, t.toBePainted(r, f.Name, f.Picture)...)
	}
	return files
}

// board is the list as it stands. In a group it speaks as it was last asked
// for, whoever changes it.
func (t *turn) board() *Board {
	o := t.options(t.talk.Language)
	if g := t.group(); g != nil {
		if t.list.Showing || g.Board == nil {
			g.Board = &boardOptions{o.Language, o.Division, o.Metric}
			t.keepGroup(g)
		}
		o = wording.Options{Language: g.Board.Language, Division: g.Board.Division, Metric: g.Board.Metric}
	}
	b := t.list.Board(o)
	return &Board{Text: b.Text, Buttons: buttonsOf(b.Buttons), Anew: b.Anew, Moved: b.Moved}
}

// relist has the list follow a job that was answered anew.
func (t *turn) relist(j job, p part) part {
	before := j.number
	if before == 0 && !j.glance {
		before = t.list.Before()
	}
	return p.with(t.list.Relist(before, t.talk.Job))
}

// takeBackPieces takes back what was done to the list.
func (t *turn) takeBackPieces(s parser.Statement, d deed) (part, bool) {
	if d.Did == did(cutlist.AddedPieces) {
		p, ok := t.list.TakeOffPieces(d.Cuts)
		return t.ofList(s, p), ok
	}
	return t.ofList(s, t.list.PutPiecesBack(cutlist.Deed{Did: cutlist.Did(d.Did), Cuts: d.Cuts})), true
}

// obey does what is to be done with the cut list or with the jobs.
func (t *turn) obey(s parser.Statement, o order) part {
	if o.language != "" && (o.language == parser.Spanish || o.phrase != "") {
		t.talk.Language = o.language
	}
	switch {
	case o.phrase != "":
		return t.meet(s, o)
	case cutlist.IsAct(string(o.act)):
		return t.withList(s, cutlist.Order{Act: cutlist.Act(o.act), Numbers: o.numbers, All: o.all, Words: o.words, Text: s.Text})
	}
	return t.withJobs(s, o)
}

// withList does something with the cut list.
func (t *turn) withList(s parser.Statement, o cutlist.Order) part {
	p, err := t.list.Obey(o)
	if err != nil {
		t.conversation.log().Error("the list can't be planned", "error", err)
		return t.refuse(s, errFault)
	}
	return t.ofList(s, p)
}

var _ cutlist.Memory = (*store.Person)(nil)
