package telegram

import (
	"encoding/json"
	"iter"
	"time"
)

// Memory is what outlives the process. It is declared here and joined to the
// store by whoever calls [Serve].
type Memory interface {
	// Update runs fn in one transaction: all that it did is on the disk when
	// Update returns nil, and nothing of it otherwise. fn may run again.
	Update(fn func(Tx) error) error

	// View runs fn in a transaction that only reads, and waits for nobody.
	View(fn func(Tx) error) error

	// ForAdmins says whether words set something for everyone in a group, which
	// is for its admins to do.
	ForAdmins(words string) bool
}

// Tx is one transaction of a [Memory].
type Tx interface {
	// Answer has the conversation answer, with what it remembers of this person.
	// The zero Answer means that nothing is to be said. An error (or a panic) says that
	// what is remembered may be half-written: nothing of the transaction is kept,
	// the question is tried once more, and then put in quarantine.
	Answer(Question) (Answer, error)

	// Glance answers and keeps nothing of it.
	Glance(Question) (Answer, error)

	// HearsAll says whether a group wants to be answered although nobody speaks
	// to us.
	HearsAll(chat int64) bool

	// Answered keeps which message answered which, and Answering finds it: 0 if
	// none is known.
	Answered(Exchange)
	Answering(chat int64, user string, question int64) (answer int64)

	// Done says whether the update of this name was handled before, and
	// MarkDone that it now is.
	Done(id string) bool
	MarkDone(id string)

	// Queue puts a message at the end of the outbox and returns its number.
	// Waiting is what waits there, in order, one by one; Waits finds one by its
	// number, false if it waits no more; and StrikeOff takes out.
	Queue(chat int64, payload []byte) uint64
	Waiting() iter.Seq[Entry]
	Waits(number uint64) (Entry, bool)
	StrikeOff(numbers ...uint64)

	// Cursor is where to read on in a stream of updates; false if nothing is
	// known of this one.
	Cursor(Source) (offset int64, ok bool)
	SetCursor(Source, int64)

	// Quarantine puts an update aside as it came.
	Quarantine(id string, raw []byte)

	// Board is the message that shows a chat's cut list: 0 if none does, OnItsWay
	// if it is queued. SetBoard keeps it. One in another chat is none.
	Board(chat int64) (message int64)
	SetBoard(chat, message int64)

	// MoveChat gives all that is kept for a chat to its new number.
	MoveChat(from, to int64)

	// Err is the first error that the transaction met.
	Err() error
}

// Question is a message as the conversation needs it.
type Question struct {
	Chat int64
	User string // who asks, in this chat
	Name string // what the others in the chat call them, may be empty
	Text string
	When time.Time

	Language string // that their Telegram speaks, such as es-MX; may be empty

	Pressed string // the data of a button that was pressed by anyone, in place of Text

	ID        int64 // the message that asks, 0 if it is none, such as a button
	Edited    bool  // it was answered before, in other words
	About     int64 // the message of ours that it replies to, 0 if none
	Admin     bool  // who asks may set what is for everyone in the group
	Overheard bool  // nobody speaks to us
}

// Answer is what the conversation has to say.
type Answer struct {
	Text    string
	Aloud   string // said too, where something here can speak
	Buttons [][]Button
	Files   []File
	Board   *Board   // the cut list, where it has changed or was asked for
	Listed  bool     // Text says no more than what the board shows
	Private bool     // better told to this person alone
	About   []uint64 // the numbers of the jobs that it is about
}

// Button is one that stands under an answer, or under the cut list.
type Button struct {
	Label string `json:"label"`

	// One of these: words said by the one whose answer it stands under; or what
	// [Question].Pressed brings back, whoever presses it, of at most 64 bytes; or
	// a text for another chat.
	Says  string `json:"says,omitempty"`
	Press string `json:"press,omitempty"`
	Share string `json:"share,omitempty"`
}

// File is a file that goes with an answer.
type File struct {
	Name    string `json:"name"`
	Content []byte `json:"content"`
	Picture bool   `json:"picture,omitempty"` // to be shown, not only handed over

	Recipe json.RawMessage `json:"recipe,omitempty"` // what [Config].Paint makes the content of, when it is sent
}

// Exchange is a message of somebody's and ours that answers it. What a button brings
// about answers no message, and is its own question.
type Exchange struct {
	Chat             int64
	User             string
	Question, Answer int64
	More             bool     // it goes with the answer: another part of it, or a file
	About            []uint64 // of what a button brought about: the jobs
}

// Entry is one message in the outbox.
type Entry struct {
	Number  uint64
	Chat    int64
	Payload []byte
}

// Source is a stream of updates: numbers of one bot at one server mean nothing
// to another.
type Source struct {
	Bot  int64
	Base string
}
