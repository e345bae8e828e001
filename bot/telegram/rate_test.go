package telegram

import (
	"slices"
	"testing"
	"time"

	"dogleg/bot/telegram/wire"

	"pgregory.net/rapid"
)

// moments draws when messages come to be ready, with gaps and crowds.
func moments(t *rapid.T) []time.Time {
	gap := rapid.OneOf(rapid.Just(0), rapid.IntRange(0, 3000), rapid.IntRange(0, 90000))
	now := time.Date(2026, 3, 2, 7, 0, 0, 0, time.UTC)
	var all []time.Time
	for _, ms := range rapid.SliceOfN(gap, 60, 150).Draw(t, "gaps in ms") {
		now = now.Add(time.Duration(ms) * time.Millisecond)
		all = append(all, now)
	}
	return all
}

// busiest counts the most messages in any stretch of a length.
func busiest(sent []time.Time, stretch time.Duration) (most int) {
	slices.SortFunc(sent, time.Time.Compare)
	from := 0
	for to := range sent {
		for sent[to].Sub(sent[from]) >= stretch {
			from++
		}
		most = max(most, to-from+1)
	}
	return most
}

// What is set for all chats is kept, whatever it is: so many in a second, and the
// burst before it. What holds in one chat stays as it is.
func TestPaceOfAllIsWhatWasSet(t *testing.T) {
	for _, perSecond := range []int{1, 4, UsualRate, FreeRate, 200, PaidRate} {
		pace := PaceOf(perSecond)
		m := newMeters(pace)
		now := time.Date(2026, 3, 2, 7, 0, 0, 0, time.UTC)
		var sent []time.Time
		for range 3 * perSecond {
			sent = append(sent, m.place(now))
		}
		burst := min(perSecond, 5) // goes at once, and the others one after the other
		last := slices.MaxFunc(sent, time.Time.Compare).Sub(now).Round(time.Microsecond)
		if want := time.Duration(3*perSecond-burst) * time.Second / time.Duration(perSecond); last != want.Round(time.Microsecond) {
			t.Errorf("%d a second: 3 seconds' worth is sent after %v, want %v", perSecond, last, want)
		}
		if n := busiest(sent, time.Second); n > perSecond+burst {
			t.Errorf("%d a second: %d in one", perSecond, n)
		}
		if pace.Private != realPace.Private || pace.Group != realPace.Group {
			t.Errorf("%d a second: in one chat %+v, %+v", perSecond, pace.Private, pace.Group)
		}
	}
}

// Calls that take a quarter of a second each must not hold back the pace.
func TestEnoughCallsAtOnceForThePace(t *testing.T) {
	for perSecond, want := range map[int]int{UsualRate: 32, FreeRate: 32, 400: 100, PaidRate: 250} {
		if got := (Config{Pace: PaceOf(perSecond)}).withDefaults().Senders; got != want {
			t.Errorf("%d a second: %d at once, want %d", perSecond, got, want)
		}
	}
}

// The limits are those of Telegram's FAQ, "My bot is hitting limits": one a
// second in a chat, where short bursts may pass; 20 a minute in a group; about
// 30 a second in all.
func TestPaceKeepsWithinTheLimits(t *testing.T) {
	for _, c := range []struct {
		name    string
		next    func(*meters, time.Time) time.Time
		stretch time.Duration
		most    int
	}{
		{"group", func(m *meters, now time.Time) time.Time { return m.forChat(-40, now) }, time.Minute, 20},
		{"private", func(m *meters, now time.Time) time.Time { return m.forChat(12, now) }, 10 * time.Second, 3 + 10},
		{"all", func(m *meters, now time.Time) time.Time { return m.place(now) }, time.Second, 30},
	} {
		t.Run(c.name, rapid.MakeCheck(func(t *rapid.T) {
			m := newMeters(realPace)
			var sent []time.Time
			for _, ready := range moments(t) {
				at := c.next(m, ready)
				if at.Before(ready) {
					t.Fatalf("may go at %v, before it is ready at %v", at, ready)
				}
				sent = append(sent, at)
			}
			if n := busiest(sent, c.stretch); n > c.most {
				t.Fatalf("%d in %v, %d allowed", n, c.stretch, c.most)
			}
		}))
	}
}

func TestQuietChatNeedNotWait(t *testing.T) {
	m := newMeters(realPace)
	now := time.Date(2026, 3, 2, 7, 0, 0, 0, time.UTC)
	for range 10 {
		if at := m.forChat(12, now); at != now {
			t.Errorf("one message in two seconds waits %v", at.Sub(now))
		}
		now = now.Add(2 * time.Second)
	}
}

// Three chats refused in a row are taken to be meant for all. But that lasts a quarter
// of a second, whatever the chats have to wait, then one message tries in each, and
// the first that goes through ends it.
func TestFloodInManyChatsIsMeantForAll(t *testing.T) {
	m := newMeters(realPace)
	now := time.Date(2026, 3, 2, 7, 0, 0, 0, time.UTC)
	m.tooMany(1, now)
	m.tooMany(1, now)
	m.tooMany(2, now)
	if at := m.next(now); at != now {
		t.Errorf("two chats stop all for %v", at.Sub(now))
	}
	m.passed()
	m.tooMany(3, now)
	if at := m.next(now); at != now {
		t.Errorf("a success between doesn't count: all wait %v", at.Sub(now))
	}
	m.tooMany(1, now)
	m.tooMany(2, now)
	for n := range 5 {
		at := m.place(now)
		if want := now.Add(time.Duration(n+1) * time.Second / 4); at != want {
			t.Errorf("message %d tries after %v, want %v", n, at.Sub(now), want.Sub(now))
		}
	}
	m.passed()
	if at := m.next(now.Add(6 * time.Second)); at != now.Add(6*time.Second) {
		t.Errorf("all wait %v although one went through", at.Sub(now))
	}
}

// place takes the next place among all as a single message does that is ready then.
func (m *meters) place(now time.Time) time.Time {
	at := m.next(now)
	m.take(at)
	return at
}

// Of those who wait for a place among all that one goes first whose chat has used the
// fewest lately; and nobody waits for ever.
func TestWhoWritesLittleGoesFirst(t *testing.T) {
	m := newMeters(realPace)
	now := time.Date(2026, 3, 2, 7, 0, 0, 0, time.UTC)
	var flood []*waiter
	for range 5 {
		for group := range int64(20) {
			m.forChat(-100-group, now)
			flood = append(flood, m.queue(-100-group, now))
		}
	}
	m.forChat(12, now)
	bystander := m.queue(12, now)
	ahead := 0
	for at := now; m.first() != bystander; at = at.Add(time.Second / UsualRate) {
		if _, taken := m.try(m.first(), at.Add(time.Hour)); !taken {
			t.Fatal("nobody goes")
		}
		ahead++
	}
	if ahead > 20 {
		t.Errorf("%d messages go ahead of one who asks once", ahead)
	}
	m.leave(bystander)
	later := now.Add(time.Minute)
	m.forChat(13, later)
	m.queue(13, later)
	if first := m.first(); !slices.Contains(flood, first) {
		t.Error("whoever comes goes ahead of those who have waited for a minute")
	}
}

func TestMetersForgetChatsAtRest(t *testing.T) {
	m := newMeters(realPace)
	now := time.Date(2026, 3, 2, 7, 0, 0, 0, time.UTC)
	for chat := range int64(10 * mostMeters) {
		m.forChat(chat+1, now)
		now = now.Add(10 * time.Millisecond)
	}
	if len(m.chats) > mostMeters {
		t.Errorf("%d chats metered, want at most %d", len(m.chats), mostMeters)
	}
}

// An answer that takes long counts as several, but never as so many that the next
// messages of who asks little are not answered.
func TestLongAnswersCountAsSeveral(t *testing.T) {
	at := time.Date(2026, 3, 2, 7, 0, 0, 0, time.UTC)
	asks := func(takes time.Duration) (answered int) {
		b := newBudgets(realBudget)
		for range 100 {
			m := &wire.Message{From: &wire.Person{ID: 12}, Chat: wire.Chat{ID: 12, Type: "private"}, Date: at.Unix()}
			if b.admit(m) != admitted {
				continue
			}
			answered++
			b.worked("12", takes, at)
		}
		return answered
	}
	for takes, want := range map[time.Duration]int{
		time.Millisecond: 40, 14 * time.Millisecond: 40, 15 * time.Millisecond: 20, 30 * time.Millisecond: 14, time.Hour: 14,
	} {
		if got := asks(takes); got != want {
			t.Errorf("of 100 that take %v each %d are answered, want %d", takes, got, want)
		}
	}
	b := newBudgets(realBudget)
	m := &wire.Message{From: &wire.Person{ID: 12}, Chat: wire.Chat{ID: 12, Type: "private"}, Date: at.Unix()}
	for range 14 {
		b.admit(m)
		b.worked("12", time.Hour, at)
	}
	m.Date = at.Add(3 * time.Second).Unix()
	if b.admit(m) != admitted {
		t.Error("one who used up the budget has to wait for longer than a place takes")
	}
}
