package telegram

import "time"

// Memory is what outlives the process. It is declared here and joined to the
// store by whoever calls [Serve].
type Memory interface {
	// Update runs fn in one transaction: all that it did is on the disk when
	// Update returns nil, and nothing of it otherwise. fn may run again.
	Update(fn func(Tx) error) error
}

// Tx is one transaction of a [Memory].
type Tx interface {
	// Answer has the conversation answer, with what it remembers of this person.
	// Nothing in the answer means that nothing is to be said. An error (or a panic) says that
	// what is remembered may be half-written: nothing of the transaction is kept,
	// the question is tried once more, and then put in quarantine.
	Answer(Question) (Answer, error)

	// Done says whether the update of this name was handled before, and
	// MarkDone that it now is.
	Done(id string) bool
	MarkDone(id string)

	// Queue puts a message at the end of the outbox and returns its number.
	// Outbox returns what waits there, in order, and StrikeOff takes out.
	Queue(chat int64, payload []byte) uint64
	Outbox() []Entry
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

	Pressed string // the data of a button that was pressed, in place of Text
}

// Answer is what the conversation has to say.
type Answer struct {
	Text   string
	Files  []File // to go after it
	Board  *Board // the cut list, where it has changed or was asked for
	Listed bool   // Text says no more than what the board shows
}

// File goes with an answer.
type File struct {
	Name    string `json:"name"`
	Content []byte `json:"content"`
	Picture bool   `json:"picture,omitempty"` // to be shown
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
