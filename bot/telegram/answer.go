package telegram

import (
	"fmt"
	"runtime/debug"
	"strconv"
	"time"

	"dogleg/bot/telegram/wire"
)

// answer does what the update asks for. What goes wrong meanwhile, an error of
// the conversation, a panic, or a record of this person that can't be read, is
// this update's mishap.
func (s *service) answer(tx Tx, r *received, w *work) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = &mishap{r, fmt.Sprintf("panic: %v\n%s", p, debug.Stack())}
		}
	}()
	if r.mishaps > 2 { // not even saying so went well
		return nil
	}
	if r.bad == nil {
		worked := working()
		defer func() { s.charge(r, worked()) }()
		err = s.turn(tx, r, w)
	}
	if err == nil {
		err = tx.Err()
	}
	if err != nil {
		return &mishap{r, err.Error()}
	}
	return nil
}

// turn is one turn of the talk: one update in, at most one answer out.
func (s *service) turn(tx Tx, r *received, w *work) error {
	switch u := r.update; {
	case u.Message != nil && u.Message.MovedTo != 0:
		w.movedChat(tx, u.Message.Chat.ID, u.Message.MovedTo)
	case u.Message != nil && u.Message.MovedFrom != 0:
		w.movedChat(tx, u.Message.MovedFrom, u.Message.Chat.ID)
	case u.Button != nil:
		return s.press(tx, r, u.Button, w)
	case u.Inline != nil:
		return s.look(tx, r, u.Inline, w)
	case u.Message != nil:
		return s.reply(tx, r, u.Message, w)
	case u.Edited != nil:
		return s.correct(tx, r, u.Edited, w)
	case u.Standing != nil:
		s.Log.Info("our standing in a chat changed", "chat", u.Standing.Chat.ID, "status", u.Standing.New.Status)
	}
	return nil
}

func (w *work) movedChat(tx Tx, from, to int64) {
	tx.MoveChat(from, to)
	w.moves = append(w.moves, move{from, to})
}

func (s *service) reply(tx Tx, r *received, m *wire.Message, w *work) (err error) {
	words, ours := s.self.Heard(m)
	if !ours {
		return s.overhear(tx, r, m, words, w)
	}
	var a Answer
	switch written, _ := m.Words(); {
	case !s.within(r, m):
		if r.admitted == tooMany {
			a.Text = tooManyMessages.in(m.From.Speaks())
		}
	case r.mishaps > 1:
		a.Text = wentWrong.in(m.From.Speaks())
	case words != "":
		a, err = s.said(tx, m, words, w)
	case s.Ear != nil && m.SaidIn() != nil:
		a.Text = s.noteDown(tx, m, w)
	case written != "": // nothing but our name
		a, err = tx.Answer(s.question(m, "help"))
	case m.Spoken != wire.Spoken{}:
		a.Text = cantListen.in(m.From.Speaks())
	case m.Shown != wire.Shown{} && s.albums.first(m, r.id):
		a.Text = cantSee.in(m.From.Speaks())
	}
	w.write(tx, m, a, 0, false, s.Now())
	w.questions = append(w.questions, question{place{m.Chat.ID, m.ID}, words})
	return err
}

// said answers what somebody wrote, now, or when it is known whether they may set what
// is for everyone.
func (s *service) said(tx Tx, m *wire.Message, words string, w *work) (Answer, error) {
	admin, known := s.maySet(m, words)
	if !known {
		s.findOut(tx, m, words, w)
		return Answer{}, nil
	}
	q := s.question(m, words)
	q.Admin = admin
	return tx.Answer(q)
}

// overhear answers what nobody said to us, in a group that wants it.
func (s *service) overhear(tx Tx, r *received, m *wire.Message, words string, w *work) error {
	if words == "" || m.Private() || !m.FromPerson() || r.mishaps > 0 || m.ReplyTo != nil && !m.InTopic || !tx.HearsAll(m.Chat.ID) {
		return nil
	}
	if !s.within(r, m) {
		return nil
	}
	q := s.question(m, words)
	q.Overheard = true
	a, err := tx.Answer(q)
	if a.Text != "" {
		w.write(tx, m, a, 0, false, s.Now())
		w.questions = append(w.questions, question{place{m.Chat.ID, m.ID}, words})
	}
	return err
}

// correct answers a message that was edited. One whose words are the same was
// edited in some way that doesn't matter.
func (s *service) correct(tx Tx, r *received, m *wire.Message, w *work) (err error) {
	at := place{m.Chat.ID, m.ID}
	words, ours := s.self.Heard(m)
	if !ours || words == "" || s.answered.same(at, words) {
		return nil
	}
	if !s.within(r, m) {
		return nil // its first words were answered, or the notice was given then
	}
	before := tx.Answering(m.Chat.ID, m.Sender(), m.ID)
	a := Answer{Text: wentWrong.in(m.From.Speaks())}
	if r.mishaps < 2 {
		q := s.question(m, words)
		q.Edited = true
		a, err = tx.Answer(q)
	}
	w.write(tx, m, a, before, true, s.Now())
	w.questions = append(w.questions, question{at, words})
	return err
}

// within says whether a message is to be answered, by the budget.
func (s *service) within(r *received, m *wire.Message) bool {
	return s.metered(r, func() admission {
		if a := s.budgets.admit(m); a != admitted {
			return a
		}
		return s.outbox.admit(m.Chat.ID)
	})
}

// charge takes off the budget of who asked what the answer took, once.
func (s *service) charge(r *received, took time.Duration) {
	if r.charged {
		return
	}
	r.charged = true
	switch u := r.update; {
	case u.Message != nil:
		s.budgets.worked(u.Message.Sender(), took, u.Message.When())
	case u.Edited != nil:
		s.budgets.worked(u.Edited.Sender(), took, u.Edited.When())
	case u.Button != nil && u.Button.From != nil:
		s.budgets.worked(strconv.FormatInt(u.Button.From.ID, 10), took, s.Now())
	}
}

// metered takes an update off a budget once, however often the transaction is
// tried, and says whether it is within it.
func (s *service) metered(r *received, admit func() admission) bool {
	if !r.metered {
		r.metered, r.admitted = true, admit()
		if r.admitted != admitted {
			s.Health.TooMuch.Add(1)
		}
	}
	return r.admitted == admitted
}

// question is a message as the conversation needs it.
func (s *service) question(m *wire.Message, words string) Question {
	q := Question{
		Chat: m.Chat.ID, User: m.Sender(), Name: m.Name(), Text: words, When: m.When(),
		ID: m.ID, Language: m.From.Speaks(),
	}
	q.About = s.self.About(m)
	return q
}

// write queues an answer to a message, in as many parts as its length needs. The
// cut list, where the answer says no more than it shows, goes in its place. A
// correction changes the message that answered before, where one is known.
func (w *work) write(tx Tx, m *wire.Message, a Answer, before int64, correction bool, now time.Time) {
	to := answerTo(m, now)
	to.Correction, to.Before = correction, before
	if w.boardFor(tx, to, a) {
		a.Text = "" // the list says it all
	}
	w.writeTo(tx, to, a)
}

// answerTo is a letter that answers a message, without its text.
func answerTo(m *wire.Message, now time.Time) letter {
	l := letter{Chat: m.Chat.ID, Question: m.ID, User: m.Sender(), Reply: !m.Private(), Written: now}
	if m.InTopic {
		l.Thread = m.Thread
	}
	return l
}

// writeTo queues an answer in letters like this one: in as many parts as its
// length needs, then its files. Where the text is short enough it stands under
// the first file, so that one message is answered by one.
func (w *work) writeTo(tx Tx, to letter, a Answer) {
	to = to.inPrivate(a)
	if to.Pressed {
		to.About = a.About
	}
	parts := wire.Split(a.Text, wire.LongestPart)
	var letters []letter
	for i, part := range parts {
		l := to
		l.Whole, l.Text, l.Echo = len(parts) == 1, part, to.Echo && i == 0
		letters = append(letters, l)
	}
	for i := range a.Files {
		if i == 0 && len(letters) == 1 && wire.Fitting(letters[0].Text, wire.LongestCaption) == len(letters[0].Text) {
			letters[0].File = &a.Files[0]
			continue
		}
		l := to
		l.File, l.More = &a.Files[i], true
		letters = append(letters, l)
	}
	for i, l := range letters {
		if i == max(len(parts)-1, 0) { // under the last of the text
			l.Buttons = a.Buttons
		}
		w.queue(tx, l)
	}
	if a.Aloud != "" {
		to.Aloud, to.More = a.Aloud, true
		w.queue(tx, to)
	}
}

func (w *work) queue(tx Tx, l letter) {
	payload := l.pack()
	l.bytes = len(payload)
	l.number = tx.Queue(l.Chat, payload)
	w.letters = append(w.letters, l)
	w.bytes += l.bytes
}

// inPrivate sends what is for one person alone to their own chat with us. Where
// that isn't open, it goes where the question was asked.
func (l letter) inPrivate(a Answer) letter {
	user, err := strconv.ParseInt(l.User, 10, 64)
	if !a.Private || err != nil || user <= 0 || user == l.Chat {
		return l
	}
	l.Asked = &origin{Chat: l.Chat, Thread: l.Thread, Question: l.Question}
	l.Chat, l.Thread, l.Question, l.Reply = user, 0, 0, false
	return l
}
