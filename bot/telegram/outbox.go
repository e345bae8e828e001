package telegram

import (
	"context"
	"errors"
	"sync"
	"time"
)

// outbox sends what the outbox on the disk holds. Each chat with something to
// be sent has a line, and each line a goroutine that lasts until the line is
// empty; waiting in one costs the others nothing.
type outbox struct {
	*service
	sending context.Context // ends when nothing more may be sent
	stop    context.CancelCauseFunc
	meters  *meters
	slots   chan struct{} // one for each request in flight
	senders sync.WaitGroup
	striker sync.WaitGroup
	share   int // what one line counts for at most, of the window
	lag     int // how many messages may be sent and not struck off

	mu       sync.Mutex
	lines    map[int64][]letter
	moved    map[int64]int64 // chats that have another number
	unsent   int             // counted against the window
	sent     []sent          // and not struck off yet
	striking int             // of them, being struck off now
	stuck    bool            // the disk took nothing when it was last tried
	caughtUp chan struct{}   // closed, and another in its place, when something was struck off

	freed  chan struct{}   // something was sent
	strike chan struct{}   // there is something to strike off
	open   context.Context // ends when the outbox is closed
	shut   context.CancelFunc
}

func newOutbox(sending context.Context, s *service, stop context.CancelCauseFunc) *outbox {
	o := &outbox{
		service: s, sending: sending, stop: stop,
		meters: newMeters(s.Pace),
		slots:  make(chan struct{}, s.Senders),
		share:  max(1, s.Window/8),
		lag:    lagAt(s.Pace.All, s.Window),
		lines:  map[int64][]letter{},
		moved:  map[int64]int64{},
		freed:  make(chan struct{}, 1),
		strike: make(chan struct{}, 1),

		caughtUp: make(chan struct{}),
	}
	o.open, o.shut = context.WithCancel(context.Background())
	o.striker.Go(o.strikeOff)
	return o
}

// restore takes up what an earlier run left unsent.
func (o *outbox) restore() error {
	var letters, notes []letter
	err := o.Memory.Update(func(tx Tx) error {
		letters, notes = nil, nil
		for _, e := range tx.Outbox() {
			l, err := unpack(e)
			if err != nil {
				o.Log.Error("a message in the outbox can't be read and is given up", "number", e.Number, "error", err)
				tx.StrikeOff(e.Number)
				continue
			}
			if l.Note != nil {
				notes = append(notes, l)
				continue
			}
			letters = append(letters, l)
		}
		return nil
	})
	if err == nil {
		o.add(letters...)
		o.notes.add(notes...)
	}
	return err
}

// add puts messages at the end of their chats' lines.
func (o *outbox) add(letters ...letter) {
	o.mu.Lock()
	defer o.mu.Unlock()
	for _, l := range letters {
		line, going := o.lines[l.Chat]
		o.lines[l.Chat] = append(line, l)
		o.Health.Unsent.Add(1)
		if len(line) < o.share {
			o.unsent++
		}
		if !going {
			o.senders.Go(func() { o.work(l.Chat) })
		}
	}
}

// room waits until less is unsent than the window holds. It is false if the
// context ended first.
func (o *outbox) room(ctx context.Context) bool {
	for {
		o.mu.Lock()
		room := o.unsent < o.Window
		o.mu.Unlock()
		if room {
			return ctx.Err() == nil
		}
		select {
		case <-o.freed:
		case <-ctx.Done():
			return false
		}
	}
}

// work sends a line until it is empty.
func (o *outbox) work(chat int64) {
	for {
		l, ok := o.first(chat)
		if !ok || !o.overtaken(chat, l) && !o.deliverLetter(&l) {
			return
		}
		o.done(chat, l)
	}
}

// sent is a letter that is to be struck off.
type sent struct {
	number uint64
	Exchange
}

// strikeOff takes what was sent off the disk, and keeps which message answered
// which.
func strikeOff(tx Tx, all []sent) {
	numbers := make([]uint64, len(all))
	for i, s := range all {
		numbers[i] = s.number
		if s.Answer != 0 {
			tx.Answered(s.Exchange)
		}
	}
	tx.StrikeOff(numbers...)
}

// first is the message at the head of a line. The line ends with its last.
func (o *outbox) first(chat int64) (letter, bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	line := o.lines[chat]
	if len(line) == 0 {
		delete(o.lines, chat)
		return letter{}, false
	}
	l := line[0]
	if to, ok := o.moved[chat]; ok {
		l.Chat = to
	}
	return l, true
}

// done takes the head off a line and notes that it is to be struck off.
func (o *outbox) done(chat int64, l letter) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.lines[chat] = o.lines[chat][1:]
	if len(o.lines[chat]) < o.share {
		o.unsent--
	}
	o.sent = append(o.sent, sent{l.number, Exchange{l.Chat, l.User, l.Question, l.sent}})
	o.Health.Unsent.Add(-1)
	signal(o.freed)
	signal(o.strike)
}

func signal(c chan struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}

// move sends to a chat's new number whatever stands in its line.
func (o *outbox) move(from, to int64) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.moved[from] = to
}

// takeSent hands over what is to be struck off, to be given back where that
// fails.
func (o *outbox) takeSent() []sent {
	o.mu.Lock()
	defer o.mu.Unlock()
	all := o.sent
	o.sent = nil
	o.striking += len(all)
	return all
}

// struck notes that what was handed over is off the disk.
func (o *outbox) struck(all []sent) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.striking -= len(all)
	o.stuck = false
	close(o.caughtUp)
	o.caughtUp = make(chan struct{})
}

// movedTo is the number that a refusal names, from now on that of the chat, on
// the disk too.
func (o *outbox) movedTo(chat int64, err error) int64 {
	var r *refusal
	if !errors.As(err, &r) {
		return chat
	}
	err = o.Memory.Update(func(tx Tx) error {
		tx.MoveChat(chat, r.MovedTo)
		return nil
	})
	if err != nil { // the next message there will try again
		o.Log.Error("a chat's new number can't be kept", "chat", chat, "error", err)
	}
	o.move(chat, r.MovedTo)
	return r.MovedTo
}

// lagAt is how many messages may be sent and not struck off: those are sent
// again after a crash. It is what a pace lets through in a quarter of a second,
// eight at Telegram's, and never more than may be unsent: as long as the disk keeps
// up nobody waits.
func lagAt(all Rate, window int) int {
	const fewest, behind = 8, time.Second / 4
	return max(fewest, min(int(behind/all.Every), window))
}

// sendersAt is how many requests may be in flight at once, so that a pace is kept
// where each takes a quarter of a second.
func sendersAt(all Rate) int {
	const fewest, most, takes = 32, 256, time.Second / 4
	return max(fewest, min(int(takes/all.Every), most))
}

// abreast waits until the disk has caught up with what was sent; as long as it
// takes nothing, nothing is sent.
func (o *outbox) abreast(ctx context.Context) error {
	for ctx.Err() == nil {
		o.mu.Lock()
		behind, caughtUp := o.stuck || len(o.sent)+o.striking >= o.lag, o.caughtUp
		o.mu.Unlock()
		if !behind {
			return nil
		}
		select {
		case <-caughtUp:
		case <-ctx.Done():
		}
	}
	return ctx.Err()
}

func (o *outbox) giveBack(all []sent) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.sent = append(all, o.sent...)
	o.striking -= len(all)
	o.stuck = true
}

// strikeOff takes what was sent out of the outbox on the disk, one lull's worth
// at a time. Batches that come in do the same in passing;
// alone, they would leave it all to be sent again after a crash in a quiet
// hour.
func (o *outbox) strikeOff() {
	failures, wait := 0, o.Timing.Strike
	for o.open.Err() == nil {
		select {
		case <-o.strike:
			o.lull(wait)
		case <-o.open.Done():
		}
		if err := o.flush(); err != nil {
			wait = o.patience(err, failures)
			failures++
			signal(o.strike)
			continue
		}
		failures, wait = 0, o.Timing.Strike
	}
	_ = o.flush() // logged; what stays is sent again
}

// lull waits until nothing was sent for a while. Where something always is, it
// waits for no more than five such whiles, or half of what may be unstruck: a
// commit for each message would keep the disk from what comes in.
func (o *outbox) lull(while time.Duration) {
	for range 5 {
		before := o.unstruck()
		o.pause(o.open, while)
		now := o.unstruck()
		if now <= before || now >= o.lag/2 {
			return
		}
	}
}

// unstruck is how many messages were sent and wait to be struck off.
func (o *outbox) unstruck() int {
	o.mu.Lock()
	defer o.mu.Unlock()
	return len(o.sent)
}

func (o *outbox) flush() error {
	all := o.takeSent()
	if len(all) == 0 {
		return nil
	}
	err := o.Memory.Update(func(tx Tx) error {
		strikeOff(tx, all)
		return nil
	})
	if err != nil {
		o.giveBack(all)
		o.Log.Error("what was sent can't be struck off", "error", err)
		return err
	}
	o.struck(all)
	o.Health.Commits.Add(1)
	return nil
}

// close waits until every line is empty or nothing more may be sent, and
// strikes off the rest.
func (o *outbox) close() {
	o.senders.Wait()
	o.shut()
	o.striker.Wait()
}
