package bot

import (
	"cmp"
	"reflect"
	"strconv"
	"strings"

	"dogleg/bot/figure"
	"dogleg/bot/training"
	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/store"
)

// group is what a chat of several people keeps together.
type group struct {
	training.Group
	Board *boardOptions `json:",omitempty"` // of the cut list

	HearsAll bool `json:",omitempty"` // answered although nobody speaks to the bot
}

// group takes up what the chat keeps; nil where a person is alone with the
// bot.
func (t *turn) group() *group {
	if t.message.Group == nil {
		return nil
	}
	g := new(group)
	t.recallFrom(t.message.Group, store.State, g)
	return g
}

func (t *turn) keepGroup(g *group) { t.noteIn(t.message.Group, store.State, g) }

// trainee is the conversation as the training needs it.
type trainee struct{ *turn }

func (t trainee) Options() wording.Options { return phrasing(t.turn) }

func (t trainee) Speak(l parser.Language) { t.talk.Language = cmp.Or(l, t.talk.Language) }

func (t trainee) Figuring() figure.Settings { return t.figuring() }

// Seed is the conversation's own where that is set, or else the time of the
// message.
func (t trainee) Seed() uint64 {
	return cmp.Or(t.conversation.Seed, uint64(t.message.When.UnixNano()))
}

// Asked is what a job asked. What was answered last is a job only where it is the
// piece of work that is talked about.
func (t trainee) Asked(job int) (ask *parser.Ask, number uint64, known bool) {
	if job != 0 {
		j, known := t.job(job)
		if !known {
			return nil, 0, false
		}
		return askedBy(j), j.Number, true
	}
	if shown := t.talk.Shown; t.talk.Ask != nil && shown != nil && reflect.DeepEqual(*t.talk.Ask, *shown) {
		number = t.talk.Job
	}
	return t.talk.Shown, number, true
}

// inTraining does something in the training, and keeps what it changed of the group.
func (t *turn) inTraining(do func(*training.Room)) {
	r := training.Room{Talk: trainee{t}, State: &t.talk.Practice, When: t.message.When, From: t.message.From, Mates: t.mates}
	g := t.group()
	if g == nil {
		do(&r)
		return
	}
	before := g.Group
	r.Group = &g.Group
	do(&r)
	if g.Group != before {
		t.keepGroup(g)
	}
}

// mates are the trainings of all in the chat.
func (t *turn) mates() []training.State {
	if t.message.Mates == nil {
		return nil
	}
	var all []training.State
	for _, memory := range t.message.Mates() {
		var theirs talk
		t.recallFrom(memory, store.State, &theirs)
		all = append(all, theirs.Practice)
	}
	return all
}

// trains is what is done for a verb of the training.
func trains(do func(*training.Room, parser.Statement) training.Reply) func(*turn, parser.Statement) part {
	return func(t *turn, s parser.Statement) part {
		var reply training.Reply
		t.inTraining(func(r *training.Room) { reply = do(r, s) })
		return t.trained(s, reply)
	}
}

// trained is a part that the training answered.
func (t *turn) trained(s parser.Statement, reply training.Reply) part {
	if reply.Err != nil {
		return t.refuse(s, errFault)
	}
	if reply.Posed {
		t.waiting = nil // a bare figure is for the problem now
	}
	p := said(s, reply.Answered, reply.Text)
	p.private, p.about, p.buttons = reply.Private, reply.About, taught(reply.Buttons)
	p.aside, p.files = t.trainingFiles(reply.Aside), t.trainingFiles(reply.Files)
	return p
}

func (t *turn) trainingFiles(pictures []training.Picture) []File {
	var files []File
	for _, picture := range pictures {
		r := recipe{Of: dish(picture.Of), Options: picture.Options, trainingRecipe: picture.Recipe}
		files = append(files, t.toBePainted(r, picture.Name, !strings.HasSuffix(picture.Name, ".pdf"))...)
	}
	return files
}

// taught are buttons of the training as the conversation has them.
func taught(rows [][]training.Button) [][]Button {
	var all [][]Button
	for _, row := range rows {
		var buttons []Button
		for _, b := range row {
			buttons = append(buttons, Button{Label: b.Label, Says: b.Says})
		}
		all = append(all, buttons)
	}
	return all
}

// mark takes the statements of a message for the answer to the problem that waits;
// ok is false if they are none.
func (t *turn) mark(text string) (p part, ok bool) {
	t.inTraining(func(r *training.Room) {
		s, reply, isReply := r.Mark(text)
		if ok = isReply; ok {
			p = t.trained(s, reply)
		}
	})
	return p, ok
}

// inProblem does what helps in the problem that waits; ok is false where none does,
// or something else was talked about since.
func (t *turn) inProblem(s parser.Statement, help func(*training.Room) (training.Reply, bool)) (p part, ok bool) {
	t.inTraining(func(r *training.Room) {
		reply, waits := help(r)
		if ok = waits; ok {
			p = t.trained(s, reply)
		}
	})
	return p, ok
}

// ofClass answers what a trainer says of a class: a sheet for it, its results.
func (t *turn) ofClass(text string) (p part, ok bool) {
	return t.inProblem(parser.Statement{Text: text}, func(r *training.Room) (training.Reply, bool) { return r.Words(text) })
}

// rule says the rule behind a step of what was answered last, or of a job by
// its number.
func (t *turn) rule(s parser.Statement) (p part) {
	if _, _, known := (trainee{t}).Asked(s.Command.Number); !known {
		return t.tell(s, false, wording.NoSuchJob, "number", strconv.Itoa(s.Command.Number))
	}
	t.inTraining(func(r *training.Room) {
		if reply, ok := r.Rule(s); ok {
			p = t.trained(s, reply)
		} else {
			p = t.tell(s, false, wording.NothingToExplain)
		}
	})
	return p
}

// whyASteps adds to an explanation how to ask for the rule behind a step, and a
// button for each step that was figured.
func (t *turn) whyASteps(p part, number int) part {
	t.inTraining(func(r *training.Room) {
		if text, buttons := r.WhyAStep(number); text != "" {
			p.text += "\n" + text
			p.record.Reply = p.text
			p.buttons = taught(buttons)
		}
	})
	return p
}
