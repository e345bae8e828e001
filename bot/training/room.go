package training

import (
	"math/rand/v2"
	"time"

	"dogleg/bot/figure"
	"dogleg/bot/practice"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// State is an apprentice's training with what its problems are drawn by.
// Numbers drawn are counted, not kept: the same seed and count draw the same
// problem, so that a restart in between makes no difference.
type State struct {
	practice.Training
	Seed  uint64 `json:",omitempty"`
	Drawn uint64 `json:",omitempty"`
	Tried int    `json:",omitempty"` // the last problem of the group that was tried

	Leaving bool `json:",omitempty"` // was asked whether the exam is to be dropped
	Hinted  int  `json:",omitempty"` // steps of the problem that waits that were named
	Told    bool `json:",omitempty"` // its steps were; more gives the rules behind them
	Beside  bool `json:",omitempty"` // something else was answered since it was last talked about

	Name string `json:",omitempty"` // that those in a group know the person by
}

// fresh forgets what was said of a problem that is no longer the one that waits.
func (s *State) fresh() { s.Hinted, s.Told, s.Beside = 0, false, false }

// Talk is the conversation that a training is part of.
type Talk interface {
	// Options are how to speak to the person.
	Options() wording.Options

	// Speak goes on in a language; none leaves it as it is.
	Speak(parser.Language)

	// Figuring is what has to be known of the person to figure for them.
	Figuring() figure.Settings

	// Seed is what chance begins with. It may be another with every message.
	Seed() uint64

	// Asked is what a job asked, and its number; job 0 is what was answered last,
	// of any kind. It is nil where there is nothing, and known is false where
	// there is no job of that number.
	Asked(job int) (ask *parser.Ask, number uint64, known bool)
}

// Room is one message on its way through the training.
type Room struct {
	Talk  Talk
	State *State
	Group *Group    // nil where the person is alone with the bot
	When  time.Time // of the message

	// Mates are the trainings of all in the chat that the person trains in.
	Mates func() []State

	From string // what the others in the chat call the person, may be empty
}

// Reply is what the training answers.
type Reply struct {
	Text     string
	Answered bool       // it carries out what was said
	Private  bool       // for this person alone, where others read along
	Posed    bool       // a problem was posed: a bare figure is the answer to it
	Buttons  [][]Button // in rows
	Aside    []Picture  // of what the text says
	Files    []Picture  // that were asked for
	About    uint64     // the job that it is about, 0 if there is none
	Err      error      // a fault of ours, in place of all else
}

// Button says something in one's place.
type Button struct{ Label, Says string }

// options are how to speak to the person.
func (r *Room) options() wording.Options { return r.Talk.Options() }

// say words a sentence of the training.
func (r *Room) say(key string, pairs ...string) string {
	return sentences.Say(key, r.options(), pairs...)
}

// tell is a reply of one sentence.
func (r *Room) tell(answered bool, key string, pairs ...string) Reply {
	return Reply{Text: r.say(key, pairs...), Answered: answered}
}

// chance is where the next problem is drawn from. The first draw seeds it.
func (r *Room) chance() practice.Source {
	if r.State.Seed == 0 {
		r.State.Seed = r.Talk.Seed()
	}
	r.State.Drawn++
	return rand.New(rand.NewPCG(r.State.Seed, r.State.Drawn))
}

// posed is the problem that waits, for the group or for the person; nil where none
// does.
func (r *Room) posed() *practice.Problem {
	if r.Group != nil {
		return r.Group.Posed
	}
	return r.State.Posed
}
