package telegram

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"time"
)

// mostUpdates is how many updates one poll brings at most, by the Bot API.
const mostUpdates = 100

// receive polls until the context ends. It returns the offset that the server
// has not been told yet, 0 if there is none.
func (s *service) receive(ctx context.Context) (unconfirmed int64, err error) {
	var offset int64
	startingOffset := func() error {
		return s.Memory.Update(func(tx Tx) error {
			offset, _ = tx.Cursor(s.source())
			return nil
		})
	}
	if !s.insist(ctx, "where to go on can't be read", startingOffset) {
		return 0, nil
	}
	for failures := 0; s.outbox.room(ctx); {
		asked := time.Now()
		batch, err := s.client.getUpdates(ctx, offset, mostUpdates, s.Timing.Poll, s.Timing.PollEnds)
		switch {
		case ctx.Err() != nil:
			return unconfirmed, nil
		case verdictOn(err) == hopeless:
			return unconfirmed, unknownToken(err)
		case err != nil:
			s.noteFailedPoll(ctx, err)
			s.pause(ctx, s.patience(err, failures))
			failures++
			continue
		}
		failures, unconfirmed = 0, 0
		s.Health.Polls.Add(1)
		s.Health.Receiving.Store(true)
		s.Health.LastPoll.Store(s.Now().Unix())
		last, fresh := s.take(ctx, batch)
		if last != 0 {
			offset, unconfirmed = last+1, last+1
		}
		if !fresh { // to ask again at once would spin, and the server punishes it
			s.pause(ctx, s.Timing.Breath-time.Since(asked))
		}
	}
	return unconfirmed, nil
}

func (s *service) noteFailedPoll(ctx context.Context, err error) {
	s.Health.Receiving.Store(false)
	var r *refusal
	switch {
	case webhookIsSet(err):
		s.leaveWebhook(ctx)
	case errors.As(err, &r) && r.Code == 409:
		s.Health.Rivals.Add(1)
		s.Log.Error("another process polls with this token", "error", err)
	default:
		s.Log.Warn("poll failed", "error", err)
	}
}

func (s *service) source() Source { return Source{Bot: s.self.ID, Base: s.Base} }

// patience is how long to wait after a failed call: as long as told, else
// longer with every failure, and not in step with others that failed with us.
func (s *service) patience(err error, failures int) time.Duration {
	var r *refusal
	if errors.As(err, &r) {
		switch {
		case r.RetryAfter > 0:
			return r.RetryAfter
		case r.Code == 409:
			return s.Timing.Rival
		}
	}
	wait := min(s.Timing.Retry<<min(failures, 16), s.Timing.RetryMax)
	return wait/2 + rand.N(wait/2+1)
}

// take answers a batch and returns the number of the last update in it, and
// whether any was not known before. It returns only when the answers are on
// the disk, or with 0 when the run ends first or no update in the batch had a
// number.
//
// The last update is the last received, which need not have the highest
// number.
func (s *service) take(ctx context.Context, batch []json.RawMessage) (last int64, fresh bool) {
	var list []*received
	for _, raw := range batch {
		r := decode(raw)
		list = append(list, r)
		if r.id != 0 {
			last = r.id
		}
	}
	if len(list) == 0 {
		return 0, false
	}
	done, kept := s.keep(ctx, list, last)
	if !kept {
		return 0, false
	}
	return last, done.handled > 0
}

// keep answers updates and is true when the answers are on the disk, false if
// the run ended first. A last that is not 0 moves the place to read on behind it.
func (s *service) keep(ctx context.Context, list []*received, last int64) (done work, kept bool) {
	s.findAdmins(ctx, list)
	for failures := 0; ; {
		done, err := s.commit(list, last)
		var m *mishap
		switch {
		case err == nil:
			return done, true
		case errors.As(err, &m):
			m.update.mishaps++
			s.Log.Error("answering went wrong", "update", m.update.id, "error", m)
		default:
			s.Log.Error("the answers can't be kept", "error", err)
			if !s.pause(ctx, s.patience(err, failures)) {
				return work{}, false
			}
			failures++
		}
	}
}

// commit answers a batch in one transaction, and hands on what came of it once
// it is on the disk.
func (s *service) commit(list []*received, last int64) (done work, err error) {
	sent := s.outbox.takeSent()
	err = s.Memory.Update(func(tx Tx) error {
		done = work{}
		for _, r := range list {
			if err := s.handle(tx, r, &done); err != nil {
				return err
			}
		}
		strikeOff(tx, sent)
		if last != 0 {
			tx.SetCursor(s.source(), last+1)
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
	questions                      []question
	toasts                         []toast
	moves                          []move
	offers                         []offer
	handled, repeated, quarantined int64
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
	for _, o := range w.offers {
		s.offer(s.outbox.sending, o)
	}
}

// findAdmins asks the server of those who want to set something for everyone in
// a group whether they are admins of it. Who writes in the group's own name is.
func (s *service) findAdmins(ctx context.Context, list []*received) {
	for _, r := range list {
		m := r.update.Message
		if m == nil || m.private() || r.bad != nil {
			continue
		}
		words, ours := s.self.heard(m)
		switch {
		case !ours || !s.Memory.ForAdmins(words):
		case m.As != nil:
			r.admin = m.As.ID == m.Chat.ID
		case m.From != nil:
			admin, err := s.client.isAdmin(ctx, m.Chat.ID, m.From.ID)
			if err != nil {
				s.Log.Warn("it can't be found out who is an admin", "chat", m.Chat.ID, "error", err)
			}
			r.admin = admin
		}
	}
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
	if err := s.answer(tx, r, w); err != nil {
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

// confirm tells the server what has arrived, as the next poll would have.
func (s *service) confirm(offset int64) {
	if _, err := s.client.getUpdates(context.Background(), offset, 1, 0, s.Timing.Toast); err != nil {
		s.Log.Warn("the last updates could not be confirmed; they will come again and be known", "error", err)
	}
}
