package telegram

import (
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

// reserve takes the next place and says when it is.
func (b *bucket) reserve(now time.Time) time.Time {
	if b.full.Before(now) {
		b.full = now
	}
	at := b.full.Add(-time.Duration(b.Burst-1) * b.Every)
	b.full = b.full.Add(b.Every)
	if at.Before(now) {
		return now
	}
	return at
}

// meters keeps the pace of every chat. It is safe for use by several
// goroutines.
type meters struct {
	mu      sync.Mutex
	pace    Pace
	all     bucket
	chats   map[int64]*bucket
	flooded map[int64]bool // chats refused for too many since one was not
	resume  time.Time      // all wait until then
}

// mostMeters is how many chats are metered before those at rest are forgotten.
const mostMeters = 1024

// generalFlood is how many chats must be refused in a row, for too many
// messages, before it is taken to be meant for all.
const generalFlood = 3

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

// forAll takes the next place among all chats and says when it is.
func (m *meters) forAll(now time.Time) time.Time {
	m.mu.Lock()
	defer m.mu.Unlock()
	if now.Before(m.resume) {
		now = m.resume
	}
	return m.all.reserve(now)
}

// tooMany notes that a chat was refused until a time.
func (m *meters) tooMany(chat int64, until time.Time) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.flooded[chat] = true
	if len(m.flooded) >= generalFlood && until.After(m.resume) {
		m.resume = until
	}
}

// passed notes that a message went through.
func (m *meters) passed() {
	m.mu.Lock()
	defer m.mu.Unlock()
	clear(m.flooded)
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
