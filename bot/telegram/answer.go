package telegram

import (
	"cmp"
	"fmt"
	"runtime/debug"
	"time"
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
	case u.Message != nil:
		return s.reply(tx, r, u.Message, w)
	case u.Edited != nil:
		return s.correct(tx, r, u.Edited, w)
	case u.Button != nil:
		return s.press(tx, r, u.Button, w)
	case u.Standing != nil:
		s.Log.Info("our standing in a chat changed", "chat", u.Standing.Chat.ID, "status", u.Standing.New.Status)
	}
	return nil
}

func (w *work) movedChat(tx Tx, from, to int64) {
	tx.MoveChat(from, to)
	w.moves = append(w.moves, move{from, to})
}

// What is said without asking the conversation.
const (
	cantListen = "I can't listen to recordings here. Type it the way you'd say it: 12 set 45s 1-1/2 pvc"
	cantSee    = "I only read words. Type what the tape says: 12 set 45s 1-1/2 pvc"
	wentWrong  = "Something went wrong here, and nothing was figured. Try it once more in other words."
)

func (s *service) reply(tx Tx, r *received, m *message, w *work) (err error) {
	words, ours := s.self.heard(m)
	if !ours {
		return nil
	}
	text, answer := "", Answer{}
	switch written, _ := m.words(); {
	case !s.within(r, m):
		if r.admitted == tooMany {
			text = tooManySaid(m)
		}
	case r.mishaps > 1:
		text = wentWrong
	case words != "":
		answer, err = s.ask(tx, m, words)
	case s.Ear != nil && m.saidIn() != nil:
		text = s.noteDown(tx, m, w)
	case written != "": // nothing but our name
		answer, err = s.ask(tx, m, "help")
	case m.spoken != spoken{}:
		text = cantListen
	case m.shown != shown{} && m.Album == "":
		text = cantSee
	}
	answer.Text = cmp.Or(answer.Text, text)
	w.write(tx, m, answer, false, s.Now())
	w.questions = append(w.questions, question{place{m.Chat.ID, m.ID}, words})
	return err
}

// correct answers a message that was edited. One whose words are the same was
// edited in some way that doesn't matter.
func (s *service) correct(tx Tx, r *received, m *message, w *work) (err error) {
	at := place{m.Chat.ID, m.ID}
	words, ours := s.self.heard(m)
	if !ours || words == "" || s.answered.same(at, words) {
		return nil
	}
	if !s.within(r, m) {
		return nil // its first words were answered, or the notice was given then
	}
	answer := Answer{Text: wentWrong}
	if r.mishaps < 2 {
		answer, err = s.ask(tx, m, words)
	}
	w.write(tx, m, answer, true, s.Now())
	w.questions = append(w.questions, question{at, words})
	return err
}

// within says whether a message is to be answered, by the budget. It is taken
// off that once, however often the transaction is tried.
func (s *service) within(r *received, m *message) bool {
	if !r.metered {
		r.metered, r.admitted = true, s.budgets.admit(m)
		if r.admitted != admitted {
			s.Health.TooMuch.Add(1)
		}
	}
	return r.admitted == admitted
}

func (s *service) ask(tx Tx, m *message, words string) (Answer, error) {
	return tx.Answer(Question{Chat: m.Chat.ID, User: m.sender(), Name: m.name(), Text: words, When: m.when()})
}

// write queues an answer to a message, in as many parts as its length needs. The
// cut list, where the answer says no more than it shows, goes in its place.
func (w *work) write(tx Tx, m *message, a Answer, correction bool, now time.Time) {
	to := m.answered(now)
	to.Correction = correction
	if w.boardFor(tx, to, a) {
		a.Text = "" // the list says it all
	}
	w.writeTo(tx, to, a)
}

// answered is a letter that answers a message, without its text.
func (m *message) answered(now time.Time) letter {
	l := letter{Chat: m.Chat.ID, Question: m.ID, Reply: !m.private(), Written: now}
	if m.InTopic {
		l.Thread = m.Thread
	}
	return l
}

// writeTo queues an answer in letters like this one.
func (w *work) writeTo(tx Tx, to letter, a Answer) {
	parts := split(a.Text, longestPart)
	for i, part := range parts {
		l := to
		l.Whole, l.Text, l.Echo = len(parts) == 1, part, to.Echo && i == 0
		w.queue(tx, l)
	}
	for i := range a.Files {
		to.File = &a.Files[i]
		w.queue(tx, to)
	}
}

func (w *work) queue(tx Tx, l letter) {
	l.number = tx.Queue(l.Chat, l.pack())
	w.letters = append(w.letters, l)
}
