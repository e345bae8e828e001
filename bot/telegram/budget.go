package telegram

import (
	"strconv"
	"sync"
	"time"

	"dogleg/bot/telegram/wire"
)

// Budget says how many messages are answered before it is too many.
type Budget struct {
	User Rate // of one user, in all their chats
	Chat Rate // of all users in one group
	Look Rate // of one user who types behind our name: each letter asks
}

// realBudget is far above what people measure and send. A group's is what can
// be sent there anyway (see realPace): more would only make its line longer.
var realBudget = Budget{
	User: Rate{Every: 2 * time.Second, Burst: 40},
	Chat: Rate{Every: 4 * time.Second, Burst: 40},
	Look: Rate{Every: time.Second / 4, Burst: 100},
}

// budgets meters what users and groups ask. It goes by when a message was
// written, not by when it is read: what gathered while the bot was away is no
// flood. It is forgotten with the process. It is safe for use by several
// goroutines.
type budgets struct {
	mu  sync.Mutex
	of  Budget
	all map[string]*allowance
}

// allowance is what is left to one user or group.
type allowance struct {
	bucket
	told bool // that it is used up, since it was last whole
}

// mostAllowances is for how many it is kept before those at rest are forgotten.
const mostAllowances = 4096

func newBudgets(b Budget) *budgets { return &budgets{of: b, all: map[string]*allowance{}} }

// admission is what becomes of a message.
type admission int

const (
	admitted admission = iota
	tooMany            // say so
	tooMuch            // that was said before: say nothing
)

// admit takes a message off the budget of its user, and off that of its group.
func (b *budgets) admit(m *wire.Message) admission {
	b.mu.Lock()
	defer b.mu.Unlock()
	at := m.When()
	if !b.spend("user "+m.Sender(), b.of.User, at) {
		return b.tell("user " + m.Sender())
	}
	group := "chat " + strconv.FormatInt(m.Chat.ID, 10)
	if !m.Private() && !b.spend(group, b.of.Chat, at) {
		return b.tell(group)
	}
	return admitted
}

// admitPress takes a button that was pressed off the budget of who pressed it. A
// press has no time of its own.
func (b *budgets) admitPress(user int64, at time.Time) admission {
	return b.quietly("user "+strconv.FormatInt(user, 10), b.of.User, at)
}

// admitLook takes a letter that somebody typed behind our name off theirs.
func (b *budgets) admitLook(user int64, at time.Time) admission {
	return b.quietly("look "+strconv.FormatInt(user, 10), b.of.Look, at)
}

// quietly spends where there is no notice to be given: a button says each time
// that it is too much, and who types sees nothing offered.
func (b *budgets) quietly(whose string, r Rate, at time.Time) admission {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.spend(whose, r, at) {
		return admitted
	}
	return tooMuch
}

func (b *budgets) spend(whose string, r Rate, at time.Time) bool {
	a := b.all[whose]
	if a == nil {
		b.tidy(at)
		a = &allowance{bucket: bucket{Rate: r}}
		b.all[whose] = a
	}
	if !a.full.After(at) {
		a.told = false
	}
	return a.take(at)
}

func (b *budgets) tell(whose string) admission {
	a := b.all[whose]
	if a.told {
		return tooMuch
	}
	a.told = true
	return tooMany
}

// An ordinary answer costs a place of its user's budget, one that takes longer a place
// more for each such while. The while is more than twice what it takes to read a message,
// and the places are few, so that a slow machine does not silence who asks for little:
// a dozen messages at once are answered on any.
const (
	placeTakes = 15 * time.Millisecond
	mostPlaces = 2
)

// worked takes off a user's budget what an answer to a message of some time took of the
// processor beyond the first while.
func (b *budgets) worked(user string, took time.Duration, at time.Time) {
	b.mu.Lock()
	defer b.mu.Unlock()
	a, places := b.all["user "+user], min(int(took/placeTakes), mostPlaces)
	if a == nil || places == 0 {
		return
	}
	full := a.full.Add(time.Duration(places) * a.Every)
	if usedUp := at.Add(time.Duration(a.Burst) * a.Every); full.After(usedUp) {
		full = usedUp
	}
	if full.After(a.full) {
		a.full = full
	}
}

// take takes a place if there is one now. Time that goes backwards by more than
// the bucket holds is another clock: it begins anew.
func (b *bucket) take(now time.Time) bool {
	if b.full.Before(now) || b.full.Sub(now) > time.Duration(b.Burst+1)*b.Every {
		b.full = now
	}
	if b.full.Add(-time.Duration(b.Burst-1) * b.Every).After(now) {
		return false
	}
	b.full = b.full.Add(b.Every)
	return true
}

// tidy forgets those at rest. The lock is held.
func (b *budgets) tidy(now time.Time) {
	if len(b.all) < mostAllowances {
		return
	}
	for whose, a := range b.all {
		if a.full.Before(now) {
			delete(b.all, whose)
		}
	}
}
