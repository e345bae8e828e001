package telegram

import (
	"context"
	"errors"
	"sync"
	"time"

	"dogleg/bot/telegram/wire"
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
	lag     int // how many messages may be sent and not struck off
	easel   easel

	mu       sync.Mutex
	lines    map[int64]*line
	moved    map[int64]int64 // chats that have another number
	unsent   int             // bytes
	held     int             // of them, in memory
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
		lag:    lagAt(s.Pace.All),
		easel:  newEasel(),
		lines:  map[int64]*line{},
		moved:  map[int64]int64{},
		freed:  make(chan struct{}, 1),
		strike: make(chan struct{}, 1),

		caughtUp: make(chan struct{}),
	}
	o.open, o.shut = context.WithCancel(context.Background())
	o.striker.Go(o.strikeOff)
	return o
}

// line is what waits for one chat.
type line struct {
	waiting []unsent
	bytes   int
	told    bool // that it has grown too long, since it was last short
}

// unsent is a letter in its line. Where much is held in memory already, it is only on
// the disk.
type unsent struct {
	number uint64
	bytes  int
	board  boardStep
	whole  *letter
}

// restore takes up what an earlier run left unsent.
func (o *outbox) restore() error {
	var letters []letter // with nothing in them but what the line has to know
	var sizes []int
	var notes, asking []letter
	var unread []uint64
	err := o.Memory.View(func(tx Tx) error {
		letters, sizes, notes, asking, unread = nil, nil, nil, nil, nil
		for e := range tx.Waiting() {
			l, err := unpack(e)
			switch {
			case err != nil:
				o.Log.Error("a message in the outbox can't be read and is given up", "number", e.Number, "error", err)
				unread = append(unread, e.Number)
			case l.Note != nil && l.Note.Asked != "":
				asking = append(asking, l)
			case l.Note != nil:
				notes = append(notes, l)
			default:
				letters = append(letters, letter{Chat: l.Chat, Board: l.Board, number: l.number})
				sizes = append(sizes, len(e.Payload))
			}
		}
		return nil
	})
	if err == nil { // and find out whether the disk takes anything: else all would be sent again
		err = o.Memory.Update(func(tx Tx) error { tx.StrikeOff(unread...); return nil })
	}
	if err != nil {
		return err
	}
	o.mu.Lock()
	for i, l := range letters {
		o.lineUp(l.Chat, unsent{number: l.number, bytes: sizes[i], board: l.Board})
	}
	o.mu.Unlock()
	o.notes.add(notes...)
	o.admins.add(asking...)
	return nil
}

// add puts messages at the end of their chats' lines.
func (o *outbox) add(letters ...letter) {
	o.mu.Lock()
	defer o.mu.Unlock()
	for _, l := range letters {
		u := unsent{number: l.number, bytes: l.bytes, board: l.Board}
		if o.held+u.bytes <= o.Held {
			u.whole = &l
			o.held += u.bytes
		}
		o.lineUp(l.Chat, u)
	}
}

// lineUp puts one message at the end of a line. The lock is held.
func (o *outbox) lineUp(chat int64, u unsent) {
	its := o.lines[chat]
	if its == nil {
		its = new(line)
		o.lines[chat] = its
		o.senders.Go(func() { o.work(chat) })
	}
	its.waiting = append(its.waiting, u)
	its.bytes += u.bytes
	o.unsent += u.bytes
	o.Health.Unsent.Add(1)
}

// admit says whether a chat's line has room for another answer.
func (o *outbox) admit(chat int64) admission {
	o.mu.Lock()
	defer o.mu.Unlock()
	its := o.lines[chat]
	switch {
	case its == nil || its.bytes < o.Line/2:
		if its != nil {
			its.told = false
		}
		return admitted
	case its.bytes < o.Line && !its.told:
		return admitted
	case its.told:
		return tooMuch
	}
	its.told = true
	return tooMany
}

// room waits until less is unsent than the window holds. It is false if the
// context ended first.
func (o *outbox) room(ctx context.Context) bool {
	for {
		o.mu.Lock()
		room := o.unsent <= o.Window
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
		first, ok := o.first(chat)
		if !ok {
			return
		}
		l, ok := o.letter(chat, first)
		if !ok || !o.overtaken(chat, l) && !o.deliverLetter(&l) {
			return
		}
		o.done(chat, l)
	}
}

// letter is what is to be sent, read from the disk where it isn't held. It is not ok
// if the run ended first.
func (o *outbox) letter(chat int64, u unsent) (l letter, ok bool) {
	if u.whole != nil {
		l = *u.whole
	} else {
		ok = o.insist(o.sending, "the outbox can't be read", func() error {
			return o.Memory.View(func(tx Tx) (err error) {
				e, waits := tx.Waits(u.number)
				if waits {
					l, err = unpack(e)
				}
				if !waits || err != nil { // somebody took it out, or it can't be read any more
					o.Log.Error("a message in the outbox is gone, or can't be read, and is given up", "number", u.number, "error", err)
					l = letter{Chat: chat, number: u.number, given: true}
				}
				return nil
			})
		})
		if !ok {
			return l, false
		}
	}
	o.mu.Lock()
	defer o.mu.Unlock()
	if to, ok := o.moved[chat]; ok {
		l.Chat = to
	}
	return l, true
}

// exchange is what a letter that was sent is to what it answers. An edit by a later
// letter is of a whole answer only, so that parts go with it.
func (l letter) exchange() Exchange {
	e := Exchange{Chat: l.Chat, User: l.User, Question: l.Question, Answer: l.sent, More: l.More || !l.Whole}
	if l.Pressed {
		e.Question, e.About, e.More = l.sent, l.About, false
	}
	return e
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
func (o *outbox) first(chat int64) (unsent, bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	its := o.lines[chat]
	if len(its.waiting) == 0 {
		delete(o.lines, chat)
		return unsent{}, false
	}
	return its.waiting[0], true
}

// done takes the head off a line and notes that it is to be struck off.
func (o *outbox) done(chat int64, l letter) {
	o.mu.Lock()
	defer o.mu.Unlock()
	its := o.lines[chat]
	gone := its.waiting[0]
	its.waiting[0] = unsent{} // which lets go of the letter
	its.waiting = its.waiting[1:]
	its.bytes -= gone.bytes
	o.unsent -= gone.bytes
	if gone.whole != nil {
		o.held -= gone.bytes
	}
	o.sent = append(o.sent, sent{l.number, l.exchange()})
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
	var r *wire.Refusal
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
// eight at Telegram's, and never more than a few hundred: as long as the disk keeps
// up nobody waits.
func lagAt(all Rate) int {
	const fewest, most, behind = 8, 256, time.Second / 4
	return max(fewest, min(int(behind/all.Every), most))
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
