package bot

import (
	"encoding/json"
	"time"

	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/store"
)

// Message is what a person wrote, or said to an ear that wrote it down.
type Message struct {
	Text     string
	When     time.Time       // where the person is
	From     string          // what the others in the chat call them, may be empty
	Language parser.Language // that they speak where they write, as far as that is known

	User string // who that is in the chat, where there are others; may be empty

	// Pressed is what a button holds that was pressed, in place of Text.
	Pressed string

	// Group is what a chat of several people keeps together; nil where a person
	// is alone with the bot. Admin says that the person may set what is for all
	// of them.
	Group Memory
	Admin bool

	// Mates are the memories of all in the chat, where there are several: for the
	// results of their practice. Nil is nobody.
	Mates func() []Memory

	// About is the job that the message of the bot is about which the message
	// replies to; nil where it replies to none. A job of somebody else's has no
	// number.
	About *store.Job

	// Unknown says that the message replies to one of the bot's that is about no
	// job, or about one that nobody knows any more. Theirs says that it was said to
	// somebody else.
	Unknown, Theirs bool

	// ID is the number of the message in its chat, 0 where it has none. Edited says
	// that it was answered before, in other words.
	ID     int64
	Edited bool

	// Replaces are the numbers of the jobs that came of this message before it
	// was edited.
	Replaces []uint64

	// Overheard says that nobody spoke to the bot. It then answers only what is
	// plainly asked, and is silent otherwise.
	Overheard bool
}

// Reply is what goes back.
type Reply struct {
	Text       string
	Records    []wording.Record // one for each thing said, in order
	Understood bool             // all of it was answered
	Aloud      string           // its beginning for the ear, in English words, where that was asked for
	Files      []File           // that go with it
	Aside      []File           // pictures of what Text says already, for who can show them
	Board      *Board           // the cut list, where it was asked for or has changed
	Listed     bool             // Text says no more than what the board shows
	Buttons    [][]Button       // in rows, for what people do next
	Jobs       []uint64         // the numbers of the jobs that were kept
	About      []uint64         // and of those that it is about without making them
	Private    bool             // better told to this person alone, where others read along
	Fault      bool             // something of ours failed; the memory may be half-written
}

// Button is one that stands under a reply, or under the cut list.
type Button struct {
	Label string

	// One of these: words said by the one whose answer it stands under; or what
	// comes back as [Message].Pressed, whoever presses it, of at most 64 bytes;
	// or a text for another chat.
	Says, Press, Share string
}

// Memory is what the bot remembers of one person. *store.Person is one, inside
// a transaction; [Forgetful] is one that lasts as long as the process.
type Memory interface {
	// Note returns a note, nil if there is none; SetNote keeps one, and nil
	// takes it away.
	Note(store.Note) []byte
	SetNote(store.Note, []byte)

	// Takeoffs are the person's own, in the order of store.CompareTakeoffs. A
	// new one takes the place of an old one for
	// the same system, fitting, size and line; by these one is forgotten, and
	// false says that there was none.
	Takeoffs() []store.Takeoff
	SetTakeoff(store.Takeoff)
	ForgetTakeoff(store.Takeoff) bool

	// The crew's takeoffs serve everyone in the chat, and work alike.
	CrewTakeoffs() []store.Takeoff
	SetCrewTakeoff(store.Takeoff)
	ForgetCrewTakeoff(store.Takeoff) bool

	// Jobs are the jobs kept, the oldest first. AddJob numbers a new one; the
	// others find a job by its number, and false says that there is none. To Job
	// number 0 is the last.
	Jobs() []store.Job
	Job(number uint64) (store.Job, bool)
	AddJob(store.Job) uint64
	ChangeJob(store.Job) bool
	DropJob(number uint64) bool

	// Cuts are the pieces on the cut list, by their numbers. AddCut numbers a
	// new one, 0 where the list is full; the others find a piece by its number,
	// and false says that there is none. ClearCuts begins a new list.
	Cuts() []store.Cut
	AddCut(store.Cut) uint64
	ChangeCut(store.Cut) bool
	DropCut(number uint64) bool
	ClearCuts()

	// Export is all of the person's as JSON. Forget takes it away, in other chats
	// too, and their name off what they set for the crew.
	Export() json.RawMessage
	Forget(name string)
}

var (
	_ Memory = (*store.Person)(nil)
	_ Memory = (*Forgetful)(nil)
)
