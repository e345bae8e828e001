package telegram

import "sync"

// mostAnswered is for how many questions it is remembered which message
// answered them.
const mostAnswered = 4096

// answered remembers what was asked where, and which message answered it, so
// that an edited question gets an edited answer. It is safe for use by several
// goroutines.
type answered struct {
	mu    sync.Mutex
	of    map[place]*exchange
	order []place // the oldest first
}

// place is one message.
type place struct{ chat, message int64 }

type question struct {
	at    place
	words string
}

type exchange struct {
	words  string
	answer int64 // the message, 0 until it is sent
}

func newAnswered() *answered { return &answered{of: map[place]*exchange{}} }

// asked remembers the words of a question.
func (a *answered) asked(q question) {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.exchange(q.at).words = q.words
}

// by remembers the message that answered a question.
func (a *answered) by(question place, answer int64) {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.exchange(question).answer = answer
}

// same says whether the question was asked in these words already.
func (a *answered) same(at place, words string) bool {
	a.mu.Lock()
	defer a.mu.Unlock()
	e := a.of[at]
	return e != nil && e.words == words
}

// answer is the message that answered a question, 0 if none is known.
func (a *answered) answer(question place) int64 {
	a.mu.Lock()
	defer a.mu.Unlock()
	if e := a.of[question]; e != nil {
		return e.answer
	}
	return 0
}

// exchange finds or begins one and forgets the oldest. The lock is held.
func (a *answered) exchange(at place) *exchange {
	if e := a.of[at]; e != nil {
		return e
	}
	if len(a.order) == mostAnswered {
		delete(a.of, a.order[0])
		a.order = a.order[1:]
	}
	e := new(exchange)
	a.of[at] = e
	a.order = append(a.order, at)
	return e
}
