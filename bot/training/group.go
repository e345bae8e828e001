package training

import (
	"math/rand/v2"

	"dogleg/bot/practice"
)

// Group is what a chat of several people keeps together: one problem, for
// whoever is first. The score stays each one's own.
type Group struct {
	Seed   uint64            `json:",omitempty"`
	Number int               `json:",omitempty"` // of the problem, from 1
	Posed  *practice.Problem `json:",omitempty"` // nil when somebody had it
}

// poseToGroup poses a problem to everyone in the chat, in the place of one that
// waits.
func (r *Room) poseToGroup(f practice.Focus) Reply {
	g := r.Group
	if g.Seed == 0 {
		g.Seed = r.Talk.Seed()
	}
	g.Number++
	p, err := r.State.Pick(f, rand.New(rand.NewPCG(g.Seed, uint64(g.Number))))
	if err != nil {
		return r.noSuchBend()
	}
	g.Posed = &p
	return Reply{Text: Problem(p, r.options()) + "\n" + r.say("first one has it"), Answered: true, Posed: true}
}

// markInGroup marks a reply to the problem that waits for everyone. The first
// right one has it; a wrong one is for the ears of the one who sent it.
func (r *Room) markInGroup(reply practice.Said) Reply {
	g := r.Group
	r.State.Name = r.From // for the results of the group
	out := practice.Outcome{Problem: *g.Posed, Mark: g.Posed.Mark(reply, r.Talk.Figuring().Handbook)}
	if r.State.Tried != g.Number {
		r.State.Count(out.Problem.Kind, out.Mark.Right)
		r.State.Tried = g.Number
	}
	out.Again = !out.Mark.Right
	told := Reply{Text: Marked(out, r.options()), Answered: true, Private: out.Again}
	if out.Again {
		return told
	}
	g.Posed = nil
	if r.From != "" {
		told.Text = r.From + ": " + told.Text
	}
	return told
}

// closeInGroup tells the group the answer that nobody had.
func (r *Room) closeInGroup() Reply {
	g := r.Group
	if g.Posed == nil {
		return r.tell(false, "no problem")
	}
	p := *g.Posed
	g.Posed = nil
	out := practice.Outcome{Problem: p, Mark: practice.Mark{Key: p.ByTheBook(r.Talk.Figuring().Handbook)}}
	return Reply{Text: Marked(out, r.options()), Answered: true}
}
