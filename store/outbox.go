package store

import (
	"encoding/json"
	"iter"
	"slices"
	"time"
)

// Entry is a message that waits to be sent.
type Entry struct {
	Number  uint64 `json:"-"` // goes up for ever, within a chat as over all of them
	Chat    Chat
	Queued  time.Time
	Payload []byte // whatever its sender needs
}

// Queue puts a message at the end of the outbox.
func (tx *Tx) Queue(chat Chat, payload []byte) Entry {
	b := tx.root.Bucket(outboxBucket)
	n, ok := tx.next(b)
	if !ok {
		return Entry{}
	}
	e := Entry{Number: n, Chat: chat, Queued: tx.now, Payload: payload}
	tx.put(b, number(n), e)
	return e
}

// Outbox returns what waits, in the order it was queued, and so in order
// within each chat.
func (tx *Tx) Outbox() []Entry { return slices.Collect(tx.Waiting()) }

// Waiting is the same one by one, for who need not hold all of it. Nothing may be
// written in between. One that can't be read has its number and nothing else: it is to
// be struck off, and stops none of the others.
func (tx *Tx) Waiting() iter.Seq[Entry] {
	return func(yield func(Entry) bool) {
		for k, v := range tx.root.Bucket(outboxBucket).all() {
			e := Entry{}
			if json.Unmarshal(v, &e) != nil {
				e = Entry{}
			}
			e.Number = numberOf(k)
			if !yield(e) {
				return
			}
		}
	}
}

// Entry is one message that waits, by its number. It is false if it waits no more, or
// can't be read.
func (tx *Tx) Entry(n uint64) (e Entry, ok bool) {
	text := tx.root.Bucket(outboxBucket).Get(number(n))
	ok = text != nil && json.Unmarshal(text, &e) == nil
	e.Number = n
	return e, ok
}

// StrikeOff takes entries out that were sent, or are given up. One that is
// gone already does no harm.
func (tx *Tx) StrikeOff(entries ...Entry) {
	for _, e := range entries {
		tx.remove(tx.root.Bucket(outboxBucket), number(e.Number))
	}
}

// readdress sends to another chat what waits for this one.
func (tx *Tx) readdress(from, to Chat) {
	var theirs []uint64
	for e := range tx.Waiting() {
		if e.Chat == from {
			theirs = append(theirs, e.Number)
		}
	}
	for _, n := range theirs {
		if e, ok := tx.Entry(n); ok {
			e.Chat = to
			tx.put(tx.root.Bucket(outboxBucket), number(n), e)
		}
	}
}
