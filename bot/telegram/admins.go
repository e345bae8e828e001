package telegram

import (
	"context"
	"sync"
	"time"

	"dogleg/bot/telegram/wire"
)

// admins are who may set something for everyone in a group, as far as the server
// said so lately. It is asked beside everything else: who wants to set something is
// noted in the outbox, and answered when it is known. It is safe for use by several
// goroutines.
type admins struct {
	*service
	ctx    context.Context
	asking sync.WaitGroup
	lines  chan struct{} // one for each question under way

	mu      sync.Mutex
	known   map[member]standing
	waiting map[member][]letter
}

// member is a person in a group.
type member struct{ chat, user int64 }

// standing is what the server said of a member, and when.
type standing struct {
	admin bool
	said  time.Time
}

const (
	adminFor    = time.Minute // what the server said is believed so long
	mostAsking  = 4           // questions under way
	mostMembers = 1024        // of whom it is remembered
)

// whoIsAdmin is said where the server doesn't say.
var whoIsAdmin = saying{
	"I couldn't find out whether you are an admin here, so nothing is changed. Say it again in a minute.",
	"No pude averiguar si eres administrador aquí, así que no se cambió nada. Dilo otra vez en un minuto.",
}

func newAdmins(ctx context.Context, s *service) *admins {
	return &admins{
		service: s, ctx: ctx, lines: make(chan struct{}, mostAsking),
		known: map[member]standing{}, waiting: map[member][]letter{},
	}
}

// is says whether a member is an admin, as far as that is known.
func (a *admins) is(m member) (admin, known bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	s, known := a.known[m]
	return s.admin, known && time.Since(s.said) < adminFor
}

// add has those answered who want to set something, each when it is known whether
// they may. Of one member the server is asked once for all that they want.
func (a *admins) add(letters ...letter) {
	a.mu.Lock()
	defer a.mu.Unlock()
	for _, l := range letters {
		m := member{l.Chat, l.Note.Member}
		_, asked := a.waiting[m]
		a.waiting[m] = append(a.waiting[m], l)
		if !asked {
			a.asking.Go(func() { a.ask(m) })
		}
	}
}

// ask asks the server and answers all that wait for it. What is not answered when the
// run ends is at the next start.
func (a *admins) ask(m member) {
	select {
	case a.lines <- struct{}{}:
	case <-a.ctx.Done():
		return
	}
	admin, err := a.client.IsAdmin(a.ctx, m.chat, m.user)
	<-a.lines
	if a.ctx.Err() != nil {
		return
	}
	if err != nil {
		a.Log.Warn("it can't be found out who is an admin", "chat", m.chat, "error", err)
	}
	for _, l := range a.learn(m, admin, err) {
		heard := Heard{Words: l.Note.Asked}
		if err != nil {
			heard = Heard{Say: whoIsAdmin.in(l.Note.Language)}
		}
		l.Note.admin = admin
		a.notes.conclude(a.ctx, l, heard)
	}
}

// learn remembers what the server said, and hands over those who waited for it.
func (a *admins) learn(m member, admin bool, err error) []letter {
	a.mu.Lock()
	defer a.mu.Unlock()
	if len(a.known) >= mostMembers {
		clear(a.known)
	}
	if err == nil {
		a.known[m] = standing{admin, time.Now()}
	}
	all := a.waiting[m]
	delete(a.waiting, m)
	return all
}

// maySet says whether who wrote a message may set what it sets for everyone in a
// group, as far as that is known; of one that sets nothing it is known. Who writes in
// the group's own name may.
func (s *service) maySet(m *wire.Message, words string) (admin, known bool) {
	switch {
	case m.Private() || !s.Memory.ForAdmins(words):
		return false, true
	case m.As != nil || m.From == nil:
		return m.As != nil && m.As.ID == m.Chat.ID, true
	}
	return s.admins.is(member{m.Chat.ID, m.From.ID})
}

// findOut notes that somebody wants to set something, to be answered when it is known
// whether they may.
func (s *service) findOut(tx Tx, m *wire.Message, words string, w *work) {
	l := answerTo(m, s.Now())
	l.Note = &note{Asked: words, Member: m.From.ID, User: m.Sender(), Name: m.Name(), When: m.When(), Language: m.From.Speaks()}
	l.number = tx.Queue(l.Chat, l.pack())
	w.asking = append(w.asking, l)
}
