package store

import (
	"bytes"
	"fmt"
	"time"

	"dogleg/catalog"
	"dogleg/geometry"
)

// This file is the cut list: the pieces that are to be sawn, each struck off
// when it is. A crew's is kept by the one who stands for all in a chat.

// KeptCuts is how many pieces a list may hold.
const KeptCuts = 500

// Cut is a piece on a cut list. It holds what was said when it was added, so
// that a catalog corrected later changes no piece that may be cut already.
type Cut struct {
	Number   uint64    // given by AddCut
	When     time.Time // it was added
	Message  int64     `json:",omitempty"` // by which message of the chat, 0 where it was none
	Setter   string    `json:",omitempty"` // by which user, on a list that several share
	Length   geometry.Length
	Metric   bool            `json:",omitempty"` // asked in millimeters
	About    bool            // it rests on a takeoff that nobody has checked
	Band     geometry.Length // and may be out by so much, either way
	System   string          // catalog.System.ID, empty where no pipe was named
	Size     catalog.Size
	Fittings [2]string // catalog.Fitting.Key, at its ends; empty where there is none
	Name     string    // "laundry", may be empty
	Floor    string    // in words, "second floor", may be empty
	Done     time.Time // when it was struck off, zero while it is open
}

// AddCut puts a piece at the end of the list and returns its number, 0 where
// the list is full. Numbers are given once, until the list is cleared.
func (p *Person) AddCut(c Cut) uint64 {
	if c.Length <= 0 {
		p.tx.fail(fmt.Errorf("a piece of %v", c.Length))
	}
	b := p.madePart(cutsBucket)
	if p.tx.err != nil || len(p.Cuts()) >= KeptCuts {
		return 0
	}
	n, ok := p.tx.next(b)
	if !ok {
		return 0
	}
	c.Number = n
	p.tx.put(b, number(n), c)
	return n
}

// Cuts returns the pieces on the list, by their numbers.
func (p *Person) Cuts() []Cut {
	var cuts []Cut
	for _, v := range p.part(cutsBucket).all() {
		var cut Cut
		if p.tx.decode(v, &cut) {
			cuts = append(cuts, cut)
		}
	}
	return cuts
}

// ChangeCut puts a piece in the place of the one with its number. It is false
// if there is none.
func (p *Person) ChangeCut(c Cut) bool {
	b := p.part(cutsBucket)
	if b == nil || b.Get(number(c.Number)) == nil {
		return false
	}
	p.tx.put(b, number(c.Number), c)
	return p.tx.err == nil
}

// DropCut takes a piece off the list. It is false if there was none.
func (p *Person) DropCut(n uint64) bool { return p.tx.remove(p.part(cutsBucket), number(n)) }

// ClearCuts takes the whole list away. The next one counts from 1 again.
func (p *Person) ClearCuts() {
	if p.tx.err == nil && p.part(cutsBucket) != nil {
		p.tx.fail(p.bucket().DeleteBucket(cutsBucket))
	}
}

// moveCuts gives the list of a person who has another key now to that key,
// unless a list was begun there.
func (tx *Tx) moveCuts(from, to *Person) {
	if cuts := from.part(cutsBucket); cuts != nil && to.part(cutsBucket) == nil {
		copyBucket(tx, cuts, to.madePart(cutsBucket))
	}
}

// cuts: each piece stands under its own number and has a length, no number is
// ahead of the count, and the list is no longer than it may be.
func (c *check) cuts(p *Person) {
	b, kept := p.part(cutsBucket), 0
	for k, v := range b.all() {
		kept++
		var cut Cut
		where := fmt.Sprintf("%s: piece %d", p.key, numberOf(k))
		if !c.read(where, v, &cut) {
			continue
		}
		if !bytes.Equal(k, number(cut.Number)) || cut.Number > b.Sequence() || cut.Length <= 0 {
			c.wrong("%s: wrong number %d of %d, or no length", where, cut.Number, b.Sequence())
		}
	}
	if kept > KeptCuts {
		c.wrong("%s: %d pieces on the list", p.key, kept)
	}
}
