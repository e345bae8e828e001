package telegram

import "sync/atomic"

// Health counts what happens, for whoever watches over the bot. It is safe to
// read at any time.
type Health struct {
	LastPoll    atomic.Int64 // Unix seconds of the last poll that succeeded
	Polls       atomic.Int64
	Updates     atomic.Int64 // handled, those put in quarantine among them
	Repeated    atomic.Int64 // delivered again although handled before
	Quarantined atomic.Int64
	Commits     atomic.Int64
	TooMuch     atomic.Int64 // not answered, being beyond a budget
	Rivals      atomic.Int64 // polls ended because another process polls

	Unsent  atomic.Int64 // in the outbox now
	Sent    atomic.Int64
	Retried atomic.Int64 // sends that failed and are tried again
	TooMany atomic.Int64 // sends refused because there were too many
	Dropped atomic.Int64 // messages given up: blocked, or refused for good
}
