package store

import (
	"slices"
	"time"
)

// How long ids of handled messages are kept: an id goes when it is older than
// SeenFor and at least SeenKept newer ones came after it. The server that
// repeats messages keeps them for 24 hours; the number guards against a clock
// that was wrong for a while.
const (
	SeenFor  = 48 * time.Hour
	SeenKept = 5000
)

// KeptQuarantined is how many messages that could not be handled are kept; the
// oldest go first.
const KeptQuarantined = 500

// Done says whether the message with this id was handled before. Ids are
// compared, never ordered: a server may begin again with lower ones. Where
// several bots or servers use one file, their names belong in the id.
func (tx *Tx) Done(id string) bool {
	return tx.root.Bucket(seenBucket).Get([]byte(id)) != nil
}

// MarkDone notes that the message with this id is handled.
func (tx *Tx) MarkDone(id string) {
	if tx.err != nil || tx.Done(id) {
		return
	}
	tx.put(tx.root.Bucket(seenBucket), []byte(id), tx.now)
	order := tx.root.Bucket(seenOrderBucket)
	if n, ok := tx.next(order); ok {
		tx.put(order, number(n), id)
		tx.forgetSeen(n)
	}
}

// forgetSeen takes away ids that are old enough; newest is the number of the
// newest.
func (tx *Tx) forgetSeen(newest uint64) {
	seen, order := tx.root.Bucket(seenBucket), tx.root.Bucket(seenOrderBucket)
	for {
		oldest, _ := order.first()
		key := slices.Clone(oldest) // the order is about to change
		if tx.err != nil || newest-numberOf(key) < SeenKept {
			return
		}
		var id string
		var when time.Time
		if !tx.get(order, key, &id) || !tx.get(seen, []byte(id), &when) || tx.now.Sub(when) <= SeenFor {
			return
		}
		tx.remove(seen, []byte(id))
		tx.remove(order, key)
	}
}

// Source says which stream of messages a cursor is in: ids of one bot at one
// server mean nothing to another.
type Source struct {
	Bot    int64
	Server string // base address of its interface
}

// cursor is what is kept of a [Source].
type cursor struct {
	Source Source
	At     int64
}

// Cursor returns where to read on in a stream. It is false if nothing was kept
// under this name, or only for another source.
func (tx *Tx) Cursor(name string, source Source) (at int64, ok bool) {
	var c cursor
	ok = tx.get(tx.root.Bucket(cursorsBucket), []byte(name), &c) && c.Source == source
	if !ok {
		return 0, false
	}
	return c.At, true
}

// SetCursor keeps where to read on.
func (tx *Tx) SetCursor(name string, source Source, at int64) {
	tx.put(tx.root.Bucket(cursorsBucket), []byte(name), cursor{source, at})
}

// Quarantined is a message that could not be handled.
type Quarantined struct {
	ID   string
	When time.Time
	Raw  []byte // as it came
}

// Quarantine puts a message aside as it came, for a person to look at.
func (tx *Tx) Quarantine(id string, raw []byte) {
	b := tx.root.Bucket(quarantineBucket)
	n, ok := tx.next(b)
	if !ok {
		return
	}
	tx.put(b, number(n), Quarantined{ID: id, When: tx.now, Raw: raw})
	if n > KeptQuarantined {
		tx.remove(b, number(n-KeptQuarantined))
	}
}

// Quarantined returns the messages that were put aside, the oldest first.
func (tx *Tx) Quarantined() []Quarantined {
	var all []Quarantined
	for _, v := range tx.root.Bucket(quarantineBucket).all() {
		var q Quarantined
		if tx.decode(v, &q) {
			all = append(all, q)
		}
	}
	return all
}
