package bot

import (
	"math/rand/v2"

	"dogleg/bot/figure"
	"dogleg/bot/practice"
	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/store"
)

// group is what a chat of several people keeps together: one problem, for
// whoever is first. The score stays each one's own.
type group struct {
	Seed   uint64            `json:",omitempty"`
	Number int               `json:",omitempty"` // of the problem, from 1
	Posed  *practice.Problem `json:",omitempty"` // nil when somebody had it
	Board  *boardOptions     `json:",omitempty"` // of the cut list

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

// poseToGroup poses a problem to everyone in the chat, in the place of one that
// waits.
func (t *turn) poseToGroup(s parser.Statement, g *group) part {
	if g.Seed == 0 {
		g.Seed = t.seed()
	}
	g.Number++
	p, err := t.talk.Practice.Pick(focus(s.Command), rand.New(rand.NewPCG(g.Seed, uint64(g.Number))))
	if err != nil {
		return said(s, false, wording.NoSuchBend(t.options(t.talk.Language)))
	}
	g.Posed = &p
	t.keepGroup(g)
	return said(s, true, wording.Problem(p, t.options(t.talk.Language))+"\n"+t.say(wording.FirstOneHasIt))
}

// markInGroup marks a reply to the problem that waits for everyone. The first
// right one has it; a wrong one is for the ears of the one who sent it.
func (t *turn) markInGroup(statements []parser.Statement, g *group) (part, bool) {
	if g.Posed == nil {
		return part{}, false
	}
	s, reply, ok := bareFigure(statements, *g.Posed)
	if !ok {
		return part{}, false
	}
	out := practice.Outcome{Problem: *g.Posed, Mark: g.Posed.Mark(reply, t.figuring().Handbook)}
	if tr := &t.talk.Practice; tr.Tried != g.Number {
		tr.Count(out.Problem.Kind, out.Mark.Right)
		tr.Tried = g.Number
	}
	out.Again = !out.Mark.Right
	p := said(s, true, wording.Marked(out, nil, t.options(t.talk.Language)))
	if out.Again {
		p.private = true
		return p, true
	}
	g.Posed = nil
	t.keepGroup(g)
	if t.message.From != "" {
		p.text = t.message.From + ": " + p.text
	}
	return p, true
}

// closeInGroup tells the group the answer that nobody had.
func (t *turn) closeInGroup(s parser.Statement, g *group) part {
	if g.Posed == nil {
		return t.tell(s, false, wording.NoProblem)
	}
	p := *g.Posed
	g.Posed = nil
	t.keepGroup(g)
	answer, err := figure.Solve(p.Ask(), t.figuring())
	if err != nil {
		return t.refuse(s, errFault) // it was sound when it was posed
	}
	out := practice.Outcome{Problem: p, Mark: practice.Mark{Key: p.ByTheBook(t.figuring().Handbook)}}
	return said(s, true, wording.Marked(out, answer, t.options(t.talk.Language)))
}
