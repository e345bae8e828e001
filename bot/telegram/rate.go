package telegram

import (
	"context"
	"slices"
	"sync"
	"time"
)

// Pace says how fast messages may go out.
type Pace struct {
	Private Rate // in one private chat
	Group   Rate // in one group
	All     Rate // over all chats
}

// Rate lets a burst go at once, and after it one message each interval.
type Rate struct {
	Every time.Duration
	Burst int
}

// PaceOf keeps within what Telegram's FAQ ("My bot is hitting limits") asks for
// in a chat, and lets so many messages a second go out over all chats, at least
// one, with a burst of up to five before. In a chat that is one a second, short
// bursts aside; in a group 20 a minute (5, and 15 more in the minute after).
func PaceOf(perSecond int) Pace {
	return Pace{
		Private: Rate{Every: time.Second, Burst: 3},
		Group:   Rate{Every: 4 * time.Second, Burst: 5},
		All:     Rate{Every: time.Second / time.Duration(perSecond), Burst: min(perSecond, 5)},
	}
}

// What goes out over all chats in a second.
const (
	// UsualRate keeps within the FAQ's limit: 5, and 25 more in the second after.
	UsualRate = 25
	// FreeRate is that limit, about which Telegram lets through for nothing.
	FreeRate = 30
	// PaidRate is the most that it lets through at all, for a fee of 0.1 Telegram
	// Stars a message, by the Bot API's allow_paid_broadcast.
	PaidRate = 1000
)

var realPace = PaceOf(UsualRate)

// bucket meters one rate.
type bucket struct {
	Rate
	full time.Time // when nothing of the burst is used any more
}

// next is when the next place is.
func (b *bucket) next(now time.Time) time.Time {
	full := b.full
	if full.Before(now) {
		full = now
	}
	if at := full.Add(-time.Duration(b.Burst-1) * b.Every); at.After(now) {
		return at
	}
	return now
}

// reserve takes the next place and says when it is.
func (b *bucket) reserve(now time.Time) time.Time {
	at := b.next(now)
	if b.full.Before(now) {
		b.full = now
	}
	b.full = b.full.Add(b.Every)
	return at
}

// used is how many places are taken and not recovered.
func (b *bucket) used(now time.Time) float64 {
	if b.Every <= 0 || b.full.Before(now) {
		return 0
	}
	return float64(b.full.Sub(now)) / float64(b.Every)
}

// meters keeps the pace of every chat. It is safe for use by several
// goroutines.
type meters struct {
	mu      sync.Mutex
	pace    Pace
	all     bucket
	chats   map[int64]*bucket
	flooded map[int64]bool // chats refused for too many since one was not
	resume  time.Time      // while all are held: when the next may try
	waiters []*waiter      // for a place among all
}

// waiter is a message that waits for a place among all chats. Of several that one
// goes first whose time it is, and each place that its chat has used lately counts
// as if it had come a second later: who asks something now and then need not wait
// behind those who write a lot.
type waiter struct {
	due  time.Time
	turn chan struct{} // it may be the first now, or go sooner
}

// mostMeters is how many chats are metered before those at rest are forgotten.
const mostMeters = 1024

// generalFlood is how many chats must be refused in a row, for too many
// messages, before it is taken to be meant for all. Then one message tries in each
// probe's time, until one goes through: what the server asks for is asked of the chat.
const (
	generalFlood = 3
	probe        = time.Second / 4
)

func newMeters(p Pace) *meters {
	return &meters{pace: p, all: bucket{Rate: p.All}, chats: map[int64]*bucket{}, flooded: map[int64]bool{}}
}

// forChat takes the next place in a chat and says when it is.
func (m *meters) forChat(chat int64, now time.Time) time.Time {
	m.mu.Lock()
	defer m.mu.Unlock()
	b := m.chats[chat]
	if b == nil {
		m.tidy(now)
		b = &bucket{Rate: m.pace.Private}
		if chat < 0 { // groups and channels have negative numbers
			b.Rate = m.pace.Group
		}
		m.chats[chat] = b
	}
	return b.reserve(now)
}

// forAll waits for a place among all chats and takes it. The error is the context's,
// if that ended first.
func (m *meters) forAll(ctx context.Context, chat int64) error {
	w := m.queue(chat, time.Now())
	for {
		wait, taken := m.try(w, time.Now())
		if taken {
			return nil
		}
		timer := time.NewTimer(wait)
		select {
		case <-timer.C:
		case <-w.turn:
		case <-ctx.Done():
		}
		timer.Stop()
		if ctx.Err() != nil {
			m.leave(w)
			return ctx.Err()
		}
	}
}

// queue lets a message of a chat wait for a place.
func (m *meters) queue(chat int64, now time.Time) *waiter {
	m.mu.Lock()
	defer m.mu.Unlock()
	used := 0.0
	if b := m.chats[chat]; b != nil {
		used = b.used(now)
	}
	w := &waiter{now.Add(time.Duration(used * float64(time.Second))), make(chan struct{}, 1)}
	m.waiters = append(m.waiters, w)
	return w
}

// try takes a place if there is one now and this waiter is the first. Else it says how
// long to wait, or until it is told.
func (m *meters) try(w *waiter, now time.Time) (wait time.Duration, taken bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.first() != w {
		return time.Hour, false
	}
	if at := m.next(now); at.After(now) {
		return at.Sub(now), false
	}
	m.take(now)
	m.remove(w)
	return 0, true
}

// next is when there is a place for the first. The lock is held.
func (m *meters) next(now time.Time) time.Time {
	if len(m.flooded) >= generalFlood && now.Before(m.resume) {
		now = m.resume
	}
	return m.all.next(now)
}

// take takes a place. The lock is held.
func (m *meters) take(now time.Time) {
	m.all.reserve(now)
	m.resume = now.Add(probe)
}

// first is who goes next. The lock is held.
func (m *meters) first() *waiter {
	if len(m.waiters) == 0 {
		return nil
	}
	return slices.MinFunc(m.waiters, func(a, b *waiter) int { return a.due.Compare(b.due) })
}

func (m *meters) leave(w *waiter) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.remove(w)
}

// remove takes a waiter out, and tells the next. The lock is held.
func (m *meters) remove(w *waiter) {
	m.waiters = slices.DeleteFunc(m.waiters, func(other *waiter) bool { return other == w })
	m.wake()
}

// wake has the first look whether it may go. The lock is held.
func (m *meters) wake() {
	if w := m.first(); w != nil {
		signal(w.turn)
	}
}

// tooMany notes that a chat was refused.
func (m *meters) tooMany(chat int64, now time.Time) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.flooded[chat] = true
	m.resume = now.Add(probe)
}

// passed notes that a message went through.
func (m *meters) passed() {
	m.mu.Lock()
	defer m.mu.Unlock()
	if len(m.flooded) > 0 {
		clear(m.flooded)
		m.wake()
	}
}

// tidy forgets chats at rest. The lock is held.
func (m *meters) tidy(now time.Time) {
	if len(m.chats) < mostMeters {
		return
	}
	for chat, b := range m.chats {
		if b.full.Before(now) {
			delete(m.chats, chat)
		}
	}
}
