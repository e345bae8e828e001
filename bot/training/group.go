package training

import (
	"math/rand/v2"

	"dogleg/bot/figure"
	"dogleg/bot/practice"
	"dogleg/geometry"
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
		return Reply{Text: NoSuchBend(r.options())}
	}
	g.Posed = &p
	return Reply{Text: Problem(p, r.options()) + "\n" + r.say("first one has it"), Answered: true, Posed: true}
}

// markInGroup marks a reply to the problem that waits for everyone. The first
// right one has it; a wrong one is for the ears of the one who sent it.
func (r *Room) markInGroup(length geometry.Length) Reply {
	g := r.Group
	out := practice.Outcome{Problem: *g.Posed, Mark: g.Posed.Mark(length, r.Talk.Figuring().Handbook)}
	if r.State.Tried != g.Number {
		r.State.Count(out.Problem.Kind, out.Mark.Right)
		r.State.Tried = g.Number
	}
	out.Again = !out.Mark.Right
	reply := Reply{Text: Marked(out, nil, r.options()), Answered: true, Private: out.Again}
	if out.Again {
		return reply
	}
	g.Posed = nil
	if r.From != "" {
		reply.Text = r.From + ": " + reply.Text
	}
	return reply
}

// closeInGroup tells the group the answer that nobody had.
func (r *Room) closeInGroup() Reply {
	g := r.Group
	if g.Posed == nil {
		return r.tell(false, "no problem")
	}
	p := *g.Posed
	g.Posed = nil
	answer, err := figure.Solve(p.Ask(), r.Talk.Figuring())
	if err != nil {
		return Reply{Err: err} // it was sound when it was posed
	}
	out := practice.Outcome{Problem: p, Mark: practice.Mark{Key: p.ByTheBook(r.Talk.Figuring().Handbook)}}
	return Reply{Text: Marked(out, answer, r.options()), Answered: true}
}
