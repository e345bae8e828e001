package cutlist

import (
	"time"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/store"
)

// Memory is where the pieces of a list are kept, by their numbers. AddCut numbers
// a new one, 0 where the list is full; the others find a piece by its number, and
// false says that there is none. ClearCuts begins a new list.
type Memory interface {
	Cuts() []store.Cut
	AddCut(store.Cut) uint64
	ChangeCut(store.Cut) bool
	DropCut(number uint64) bool
	ClearCuts()
}

// Talk is what the list needs of the conversation that it is a part of.
type Talk interface {
	// Options are how this person is spoken to.
	Options() wording.Options

	// LastJob is what was answered last: it may have no number, and no ask. JobOf
	// finds one by its number.
	LastJob() Job
	JobOf(number int) (Job, bool)

	// Lost says that a message is about an answer that nobody knows any more.
	Lost() bool

	// Solve figures an ask with what this person set and measured.
	Solve(parser.Ask) (*figure.Answer, error)

	// Code is the code that this person goes by; empty where none was named.
	Code() string

	// Note remembers what was done, so that it can be taken back.
	Note(Deed)
}

// Job is an answer that pieces may come of.
type Job struct {
	Number uint64
	Name   string
	Ask    *parser.Ask // nil where none can be figured
	Failed bool        // the ask got no answer
}

// Deed is what was done to pieces: those that were added, or as they were before.
type Deed struct {
	Did  Did
	Cuts []store.Cut
}

// Did is what a message did to the list.
type Did string

// What can be taken back.
const (
	AddedPieces Did = "added"   // pieces were put on the list
	DidPieces   Did = "pieces"  // pieces were checked off, opened again or dropped
	ClearedList Did = "cleared" // a new list was begun
)

// Message is what the list has to know of a message.
type Message struct {
	When     time.Time
	ID       int64  // its number in its chat, 0 where it has none
	User     string // who wrote it
	Shared   bool   // the list is one of several people
	Edited   bool   // it was answered before, in other words
	Replaces []uint64
}

// State is where the talk about a list stands between two messages.
type State struct {
	Cuts     []store.Cut `json:",omitzero"` // the pieces of the last answer
	Added    []added     `json:",omitzero"` // which jobs are on the list
	Handled  []handled   `json:",omitzero"` // what was last done to its pieces
	Clearing string      `json:",omitzero"` // the list as it was when it was asked whether to clear it
}

// List is a cut list while one message is answered.
type List struct {
	Talk    Talk
	Kept    Memory
	Message Message
	State   *State

	Touched bool // the list has changed
	Showing bool // it was asked for
	Listing int  // replies that say no more than what it shows

	corrected int // jobs of the edited message that others took the place of
}

// Part is what is said of a list.
type Part struct {
	Text     string
	Answered bool
	About    uint64 // the job that it is about, 0 if there is none
	Buttons  [][]Button
	Files    []File
	Aside    []File // pictures of what the text says
}

// Button is one under what is said: it says words, or brings back what is pressed.
type Button struct{ Label, Says, Press string }

// File is a file that goes with what is said: a table with its content, or a
// picture or a sheet of paper with the recipe that it is made of.
type File struct {
	Name    string
	Content []byte
	Picture bool
	Recipe  *Recipe
}

// said is a part that is words alone.
func said(answered bool, text string) Part { return Part{Text: text, Answered: answered} }

// say words a sentence of the list for this person.
func (l *List) say(key string, pairs ...string) string { return Say(l.Talk.Options(), key, pairs...) }

// tell is said, of a sentence of the list.
func (l *List) tell(answered bool, key string, pairs ...string) Part {
	return said(answered, l.say(key, wording.InShort(pairs)...))
}
