package telegram

import (
	"context"
	"errors"
	"fmt"
	"time"
)

// receive answers what comes, by whichever way it does, until the context ends.
// It returns the offset that the server has not been told yet, 0 if there is
// none.
func (s *service) receive(ctx context.Context) (unconfirmed int64, err error) {
	switch {
	case s.Feed != nil:
		s.follow(ctx)
		return 0, nil
	case s.Webhook != nil:
		return 0, s.listen(ctx, s)
	}
	offset, ok := s.readOn(ctx, s.source())
	if !ok {
		return 0, nil
	}
	return s.poll(ctx, offset, s)
}

// readOn is where to read on in a stream of updates, 0 if that is not known. It
// is not ok if the context ended first.
func (s *service) readOn(ctx context.Context, in Source) (at int64, ok bool) {
	ok = s.insist(ctx, "where to go on can't be read", func() error {
		return s.Memory.Update(func(tx Tx) error {
			at, _ = tx.Cursor(in)
			return nil
		})
	})
	return at, ok
}

// room waits until less is unsent than the window holds.
func (s *service) room(ctx context.Context) bool { return s.outbox.room(ctx) }

// keep answers updates, and they are kept when the answers are on the disk.
func (s *service) keep(ctx context.Context, list []*received, on bookmark) (fresh, kept bool) {
	for failures := 0; ; {
		done, err := s.commit(list, on)
		var m *mishap
		switch {
		case err == nil:
			fresh = fresh || done.handled > 0
			s.atOnce = min(4*s.atOnce, mostUpdates)
			if list = list[done.taken:]; len(list) == 0 {
				return fresh, true
			}
		case errors.As(err, &m):
			m.update.mishaps++
			s.Log.Error("answering went wrong", "update", m.update.id, "error", m)
		default:
			s.Log.Error("the answers can't be kept", "error", err)
			if !s.pause(ctx, s.patience(err, failures)) {
				return false, false
			}
			failures++
		}
	}
}

// What is answered in one transaction: until so many bytes have come of it, or so
// long. Who comes behind it waits so much longer.
const (
	bytesAtOnce = 1 << 20
	timeAtOnce  = time.Second / 4
)

// commit answers as many of a batch as belong into one transaction, and hands on
// what came of it once it is on the disk. The bookmark is kept with the last of
// the batch. The first transaction of a run is of one update, and then they grow:
// if a batch was what ended the run before, as much of it as possible is behind us
// when it does so again.
func (s *service) commit(list []*received, on bookmark) (done work, err error) {
	sent := s.outbox.takeSent()
	err = s.Memory.Update(func(tx Tx) error {
		done = work{}
		for began := time.Now(); done.taken < len(list); {
			if err := s.handle(tx, list[done.taken], &done); err != nil {
				return err
			}
			if done.taken++; done.taken >= s.atOnce || done.bytes >= bytesAtOnce || time.Since(began) >= timeAtOnce {
				break
			}
		}
		strikeOff(tx, sent)
		if on != (bookmark{}) && done.taken == len(list) {
			tx.SetCursor(on.Source, on.at)
		}
		return nil
	})
	if err != nil {
		s.outbox.giveBack(sent)
		return work{}, err
	}
	s.outbox.struck(sent)
	s.Health.Commits.Add(1)
	s.deliver(done)
	return done, nil
}

// work is what came of a transaction that holds only once it is committed.
type work struct {
	letters                        []letter
	notes                          []letter
	asking                         []letter // for whom it is to be found out whether they are admins
	questions                      []question
	toasts                         []toast
	moves                          []move
	offers                         []offer
	handled, repeated, quarantined int64
	taken                          int // updates, of the batch
	bytes                          int // of the letters
}

type move struct{ from, to int64 }

func (s *service) deliver(w work) {
	s.Health.Updates.Add(w.handled)
	s.Health.Repeated.Add(w.repeated)
	s.Health.Quarantined.Add(w.quarantined)
	for _, q := range w.questions {
		s.answered.asked(q)
	}
	for _, m := range w.moves {
		s.outbox.move(m.from, m.to)
	}
	for _, t := range w.toasts {
		s.letGo(t)
	}
	s.outbox.add(w.letters...)
	s.notes.add(w.notes...)
	s.admins.add(w.asking...)
	for _, o := range w.offers {
		s.offer(s.outbox.sending, o)
	}
}

// mostDeaths is how many processes may die over something before it is set aside. The
// first may have died of what was beside it, or of something else at that moment, and
// so may the next: what is answered takes milliseconds, and three times is no accident.
const mostDeaths = 3

// survived answers an update, unless that was the death of those who tried.
func (s *service) survived(tx Tx, name string, r *received, w *work) error {
	if r.id == 0 {
		return s.answer(tx, r, w)
	}
	deaths, end := s.Begin(name)
	defer end()
	if deaths >= mostDeaths && r.mishaps < 2 {
		s.Log.Error("an update is set aside: the process died over it", "update", r.id, "times", deaths)
		r.mishaps = 2
	}
	return s.answer(tx, r, w)
}

// mishap is one update that could not be answered, through no fault of those
// beside it.
type mishap struct {
	update *received
	what   string
}

func (m *mishap) Error() string { return m.what }

// handle does all that an update brings about, unless it was done before.
func (s *service) handle(tx Tx, r *received, w *work) error {
	name := fmt.Sprintf("telegram %d %s %d", s.self.ID, s.Base, r.id)
	if r.id != 0 && tx.Done(name) {
		w.repeated++
		return nil
	}
	w.handled++
	if err := s.survived(tx, name, r, w); err != nil {
		return err
	}
	if r.bad != nil || r.mishaps > 1 {
		s.Log.Error("update put in quarantine", "update", r.id, "error", r.bad)
		tx.Quarantine(name, r.raw)
		w.quarantined++
	}
	if r.id != 0 {
		tx.MarkDone(name)
	}
	return nil
}
