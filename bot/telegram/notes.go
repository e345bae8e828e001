package telegram

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"runtime/debug"
	"slices"
	"sync"
	"time"

	"dogleg/bot/telegram/wire"
)

// Ear hears what is said in a recording. It is joined to an engine by whoever
// calls [Serve].
type Ear interface {
	// Hear reads a recording and says what to make of it. An error is a fault of
	// ours or of the machine; a recording that is no speech, or can't be read, is
	// none. It ends, with an error, when the context does. It is called by as many
	// goroutines as there are [Config].Hearers.
	Hear(ctx context.Context, recording io.Reader) (Heard, error)
}

// Heard is what was made of a recording.
type Heard struct {
	// Words are answered as if they were written; none where it isn't sure what
	// was said.
	Words string
	// Say is said before that answer, or instead of it: what was heard, or what
	// may have been.
	Say string
	// Choices are the likely readings, where it isn't sure.
	Choices []string
}

// note is a recording that is yet to be heard, and whose question it is; or words
// that are yet to be answered, until it is known whether their writer is an admin. It
// is kept in the outbox, inside a letter that says where the answer goes.
type note struct {
	File string    `json:"file,omitempty"`
	User string    `json:"user"`
	Name string    `json:"name,omitempty"`
	When time.Time `json:"when"`

	Language string `json:"language,omitempty"` // that their Telegram speaks

	About  int64  `json:"about,omitempty"` // the message of ours that it replies to
	Asked  string `json:"asked,omitempty"`
	Member int64  `json:"member,omitempty"` // who asked

	admin   bool
	mishaps int
}

// The limits of what is heard.
const (
	mostSeconds = 60
	longLine    = 3 // notes that wait for each hearer, from which on it is said that it takes a while
	mostWaiting = 5 // notes of one user
)

// noteDown queues a recording to be heard, and returns what is to be said at
// once, if anything.
func (s *service) noteDown(tx Tx, m *wire.Message, w *work) string {
	r := m.SaidIn()
	if r.Seconds > mostSeconds || r.Bytes > wire.MostBytes {
		return tooLongNote.in(m.From.Speaks())
	}
	if own := s.notes.of(m.Sender()); own+w.notesOf(m.Sender()) >= mostWaiting {
		return fmt.Sprintf(manyNotes.in(m.From.Speaks()), mostWaiting)
	}
	l := answerTo(m, s.Now())
	l.Note = &note{File: r.File, User: m.Sender(), Name: m.Name(), When: m.When(), About: s.self.About(m), Language: m.From.Speaks()}
	l.number = tx.Queue(l.Chat, l.pack())
	w.notes = append(w.notes, l)
	if ahead := s.notes.waiting() + len(w.notes) - 1; ahead >= longLine*s.Hearers {
		return fmt.Sprintf(slowNote.in(m.From.Speaks()), ahead)
	}
	return ""
}

// notesOf counts a user's notes in this transaction.
func (w *work) notesOf(user string) int { return countOf(w.notes, user) }

func countOf(line []letter, user string) (n int) {
	for _, l := range line {
		if l.Note.User == user {
			n++
		}
	}
	return n
}

// notes are the recordings to be heard, so many at once as there are hearers:
// hearing takes a processor, and text goes first. Of those that wait, the one goes
// first whose user was heard longest ago. Of one user one is heard at a time, so
// that they are answered in order.
type notes struct {
	*service

	mu      sync.Mutex
	line    []letter        // those that are being heard among them
	hearing map[string]bool // users
	heard   map[string]int  // when who was heard last, counted in notes; none is never
	turns   int
	changed chan struct{}
}

func newNotes(s *service) *notes {
	return &notes{service: s, hearing: map[string]bool{}, heard: map[string]int{}, changed: make(chan struct{}, 1)}
}

func (n *notes) add(letters ...letter) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.line = append(n.line, letters...)
	n.Health.Unheard.Add(int64(len(letters)))
	if len(letters) > 0 {
		signal(n.changed)
	}
}

// waiting counts the notes in the line, those that are being heard among them.
func (n *notes) waiting() int {
	n.mu.Lock()
	defer n.mu.Unlock()
	return len(n.line)
}

// of counts the notes of a user that wait.
func (n *notes) of(user string) int {
	n.mu.Lock()
	defer n.mu.Unlock()
	return countOf(n.line, user)
}

// next is the note whose turn it is, if there is one and somebody to hear it. It
// is being heard from then on until it is done.
func (n *notes) next() (letter, bool) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if len(n.line) == 0 {
		clear(n.heard) // nobody has waited
	}
	waiting := slices.DeleteFunc(slices.Clone(n.line), func(l letter) bool { return n.hearing[l.Note.User] })
	if len(waiting) == 0 || len(n.hearing) >= n.Hearers {
		return letter{}, false
	}
	first := slices.MinFunc(waiting, func(a, b letter) int {
		return cmp.Compare(n.heard[a.Note.User], n.heard[b.Note.User])
	})
	n.hearing[first.Note.User] = true
	return first, true
}

// done takes a note out of the line.
func (n *notes) done(l letter) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.turns++
	n.heard[l.Note.User] = n.turns
	delete(n.hearing, l.Note.User)
	n.line = slices.DeleteFunc(n.line, func(other letter) bool { return other.number == l.number })
	n.Health.Unheard.Add(-1)
	signal(n.changed)
}

// start hears notes until the context ends or the returned function is called,
// which waits until nothing is being heard. It may be called twice.
func (n *notes) start(ctx context.Context) (stop func()) {
	ctx, cancel := context.WithCancel(ctx)
	over := make(chan struct{})
	go func() {
		defer close(over)
		n.handOut(ctx)
	}()
	return func() { cancel(); <-over }
}

// handOut has the notes heard in their turn.
func (n *notes) handOut(ctx context.Context) {
	var hearers sync.WaitGroup
	defer hearers.Wait()
	for ctx.Err() == nil {
		if l, ok := n.next(); ok {
			hearers.Go(func() { n.work(ctx, l) })
			continue
		}
		select {
		case <-n.changed:
		case <-ctx.Done():
		}
	}
}

// work hears a note and answers it.
func (n *notes) work(ctx context.Context, l letter) {
	heard := n.hear(ctx, l)
	if ctx.Err() != nil { // it stays in the outbox
		return
	}
	n.conclude(ctx, l, heard)
	n.done(l)
}

// hear fetches and hears one note. Where that can't be done it says so.
func (n *notes) hear(ctx context.Context, l letter) Heard {
	if n.Ear == nil { // noted by a run that had one
		return Heard{Say: cantListen.in(l.Note.Language)}
	}
	deaths, end := n.Begin(fmt.Sprintf("recording %d", l.number))
	defer end()
	if deaths >= mostDeaths {
		n.Log.Error("a recording is not heard: the process died over it", "chat", l.Chat, "times", deaths)
		return Heard{Say: lostNote.in(l.Note.Language)}
	}
	ctx, cancel := context.WithTimeout(ctx, n.Timing.Hear)
	defer cancel()
	defer n.showTyping(ctx, l)()
	for failures := 0; ; failures++ {
		heard, err := n.fetchAndHear(ctx, l)
		switch verdict := wire.VerdictOn(err); {
		case err == nil:
			return heard
		case verdict == wire.Undeliverable || verdict == wire.Hopeless || failures == 3 || ctx.Err() != nil:
			n.Log.Warn("a recording was not heard", "chat", l.Chat, "error", err)
			return Heard{Say: lostNote.in(l.Note.Language)}
		default:
			n.pause(ctx, n.patience(err, failures))
		}
	}
}

// fetchAndHear hears the recording while it arrives. A panic is an error.
func (n *notes) fetchAndHear(ctx context.Context, l letter) (heard Heard, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v\n%s", p, debug.Stack())
		}
	}()
	file, err := n.client.Fetch(ctx, l.Note.File)
	if err != nil {
		return Heard{}, err
	}
	defer file.Close()
	return n.Ear.Hear(ctx, file)
}

// showTyping shows that something is done, until the returned function is
// called.
func (n *notes) showTyping(ctx context.Context, l letter) (stop func()) {
	ctx, cancel := context.WithCancel(ctx)
	over := make(chan struct{})
	go func() {
		defer close(over)
		for again := true; again; again = n.pause(ctx, n.Timing.Typing) {
			n.client.Typing(ctx, l.Chat, l.Thread)
		}
	}()
	return func() { cancel(); <-over }
}

// conclude answers a note that was heard, and strikes it off, in one
// transaction. The conversation gets two tries, the disk as many as it takes.
func (n *notes) conclude(ctx context.Context, l letter, heard Heard) {
	for failures := 0; ; {
		done := work{}
		err := n.Memory.Update(func(tx Tx) error {
			done = work{}
			deaths, end := n.Begin(fmt.Sprintf("words of recording %d", l.number))
			defer end()
			if deaths >= mostDeaths {
				l.Note.mishaps = max(l.Note.mishaps, 2)
			}
			return n.reply(tx, l, heard, &done)
		})
		var m *mishap
		switch {
		case err == nil:
			n.Health.Commits.Add(1)
			n.deliver(done)
			return
		case errors.As(err, &m):
			l.Note.mishaps++
			n.Log.Error("answering a recording went wrong", "chat", l.Chat, "error", m)
		default:
			n.Log.Error("the answer to a recording can't be kept", "error", err)
			if !n.pause(ctx, n.patience(err, failures)) {
				return
			}
			failures++
		}
	}
}

// reply writes the answer to a note.
func (n *notes) reply(tx Tx, l letter, heard Heard, w *work) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = &mishap{what: fmt.Sprintf("panic: %v\n%s", p, debug.Stack())}
		}
	}()
	a := Answer{Text: heard.Say}
	switch {
	case l.Note.mishaps > 2: // not even saying so went well
		a.Text = ""
	case l.Note.mishaps > 1:
		a.Text = wentWrong.in(l.Note.Language)
	case heard.Words != "":
		said := a.Text
		a, err = tx.Answer(Question{
			Chat: l.Chat, User: l.Note.User, Name: l.Note.Name, Text: heard.Words, When: l.Note.When, ID: l.Question,
			Admin: l.Note.admin, About: l.Note.About, Language: l.Note.Language,
		})
		if err != nil {
			return &mishap{what: err.Error()}
		}
		if said != "" {
			a.Text = said + "\n" + a.Text
		}
	}
	for _, c := range heard.Choices {
		a.Buttons = append(a.Buttons, []Button{{Label: c, Says: c}})
	}
	tx.StrikeOff(l.number)
	to := l
	to.Note, to.Echo, to.Plain = nil, heard.Words != "" && heard.Say != "", heard.Words == ""
	w.writeTo(tx, to, a)
	w.boardFor(tx, to, Answer{Board: a.Board})
	if err := tx.Err(); err != nil {
		return &mishap{what: err.Error()}
	}
	return nil
}
