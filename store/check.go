package store

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"go.etcd.io/bbolt"
)

// Check looks through the whole file and returns all that is wrong with it,
// joined: what stands on each page of others, and then what the pages
// hold. It changes nothing.
//
// Of a copy that isn't up to date yet ([OpenCopy]) only the pages are checked.
func (db *DB) Check() error {
	db.compacting.Lock() // the pages are those of the file that has the name
	defer db.compacting.Unlock()
	return db.look(func(root *bucket) error {
		if err := db.checkPages(root.bolt.Tx()); err != nil {
			return err // on broken pages the rest would only guess
		}
		if outdated(root) {
			return nil
		}
		c := &check{tx: &Tx{root: root}}
		if c.common() {
			c.people(c.tx.People())
		}
		return db.told(c.found)
	})
}

// told is what was found, with the name of the file.
func (db *DB) told(found []error) error {
	if err := errors.Join(found...); err != nil {
		return fmt.Errorf("%s: %w", db.path, err)
	}
	return nil
}

// CheckPages is the part of Check that has to come before anything is written: a look
// at every page. Of a million jobs it takes a fraction of a
// second, where Check takes many.
func (db *DB) CheckPages() error {
	db.compacting.Lock()
	defer db.compacting.Unlock()
	return db.look(func(root *bucket) error { return db.checkPages(root.bolt.Tx()) })
}

// atOnce is how many people CheckRecords looks through in one transaction.
const atOnce = 100

// CheckRecords is the other part of Check: what the pages hold. It may go on
// beside transactions that write, for none waits for it longer than for a few
// people, and no more than half of its time does it keep a processor busy. It ends
// early, with the context's error, when that does.
func (db *DB) CheckRecords(ctx context.Context) error {
	var people []Key
	found := db.checked(func(c *check) {
		if c.common() {
			people = c.tx.People()
		}
	})
	for lot := range slices.Chunk(people, atOnce) {
		if ctx.Err() != nil {
			break
		}
		began := time.Now()
		found = append(found, db.checked(func(c *check) { c.people(lot) })...)
		select {
		case <-time.After(time.Since(began)):
		case <-ctx.Done():
		}
	}
	if ctx.Err() != nil {
		found = append(found, ctx.Err())
	}
	return db.told(found)
}

// checked is what a part of the check finds.
func (db *DB) checked(part func(*check)) (found []error) {
	err := db.View(func(tx *Tx) error {
		c := &check{tx: tx}
		part(c)
		found = c.found
		return nil
	})
	if err != nil {
		found = append(found, err)
	}
	return found
}

// ErrDamaged: pages of the file make no sense.
var ErrDamaged = errors.New("the database is damaged")

func (db *DB) checkPages(tx *bbolt.Tx) error {
	if err := soundPages(db.path, tx, false); err != nil {
		return fmt.Errorf("%s: %w", db.path, err)
	}
	return nil
}

// check gathers what breaks an invariant.
type check struct {
	tx    *Tx
	found []error
}

func (c *check) wrong(format string, args ...any) {
	c.found = append(c.found, fmt.Errorf("store: "+format, args...))
}

// read decodes a value; it is false, and noted, if it can't be.
func (c *check) read(where string, value []byte, into any) bool {
	ok := c.tx.decode(value, into)
	if !ok {
		c.wrong("%s: %w", where, c.tx.err)
		c.tx.err = nil // go on to the next
	}
	return ok
}

// common: what is no single person's. It is false where the rest would only
// guess.
func (c *check) common() bool {
	c.schema()
	if len(c.found) > 0 {
		return false
	}
	c.crews()
	c.users()
	c.outbox()
	c.seen()
	c.others()
	for k := range c.tx.root.all() {
		if string(k) != string(peopleBucket) {
			c.seals(string(k), c.tx.root.Bucket(k))
		}
	}
	return true
}

// schema: the version is ours, and the top buckets are there and no others.
func (c *check) schema() {
	if err := readable(c.tx.root); err != nil {
		c.wrong("version: %w", err)
	}
	for _, what := range misplaced(c.tx.root) {
		c.wrong("%s", what)
	}
}

// misplaced is what a database of our version lacks at its top, and what is there
// and isn't ours.
func misplaced(root *bucket) (all []string) {
	known := map[string]bool{}
	for _, name := range topBuckets() {
		known[string(name)] = true
		if root.Bucket(name) == nil {
			all = append(all, fmt.Sprintf("bucket %s is missing", name))
		}
	}
	for k := range root.all() {
		if !known[string(k)] {
			all = append(all, fmt.Sprintf("unknown bucket %s", k))
		}
	}
	return all
}

// people: each keeps only what a person can keep. Whoever keeps nothing any more was
// forgotten meanwhile.
func (c *check) people(keys []Key) {
	for _, key := range keys {
		p := c.tx.Person(key)
		if p.bucket() == nil {
			if c.tx.root.Bucket(peopleBucket).Get([]byte(key)) != nil {
				c.wrong("%s is not a person", key)
			}
			continue
		}
		c.indexed(key)
		c.seals(string(key), p.bucket())
		for k, v := range p.bucket().all() {
			c.entry(key, p, string(k), v == nil)
		}
	}
}

// keptWhole are the entries of a person that are one value each.
var keptWhole = []string{string(Settings), string(Question), string(State), string(Board), string(Unread)}

// entry is one thing kept of a person: a bucket, or one value.
func (c *check) entry(key Key, p *Person, name string, bucket bool) {
	switch {
	case !bucket && slices.Contains(keptWhole, name):
	case !bucket:
		c.wrong("%s: unknown entry %q", key, name)
	case name == string(takeoffsBucket):
		c.takeoffs(string(key), p.part(takeoffsBucket))
	case name == string(exchangesBucket):
		c.exchanges(string(key), p)
	case name == string(answersBucket): // with the exchanges
	case name == string(jobsBucket):
		c.jobs(p)
	case name == string(cutsBucket):
		c.cuts(p)
	default:
		c.wrong("%s: unknown entry %q", key, name)
	}
}

// exchanges: each is under its question, and each answer leads to one of them.
func (c *check) exchanges(whose string, p *Person) {
	for k, v := range p.part(exchangesBucket).all() {
		var e Exchange
		if c.read(whose+": exchange", v, &e) && !bytes.Equal(k, messageKey(e.Question)) {
			c.wrong("%s: exchange %d is under another number", whose, e.Question)
		}
	}
	if answers := p.part(answersBucket); answers != nil {
		for k, v := range answers.all() {
			if p.part(exchangesBucket).Get(v) == nil {
				c.wrong("%s: answer %x is to no question", whose, k)
			}
		}
	}
}

// crews: a chat keeps takeoffs and nothing else.
func (c *check) crews() {
	crews := c.tx.root.Bucket(crewsBucket)
	for chat, v := range crews.all() {
		if v != nil {
			c.wrong("%s is not a crew", chat)
			continue
		}
		crew := crews.Bucket(chat)
		for k, v := range crew.all() {
			if !bytes.Equal(k, takeoffsBucket) || v != nil {
				c.wrong("crew %s: unknown entry %q", chat, k)
				continue
			}
			c.takeoffs("crew "+string(chat), crew.Bucket(k))
		}
	}
}

// takeoffs: each stands under its own key and has a length.
func (c *check) takeoffs(whose string, book *bucket) {
	for k, v := range book.all() {
		var t Takeoff
		where := fmt.Sprintf("%s: takeoff %s", whose, k)
		if c.read(where, v, &t) && (!bytes.Equal(k, t.key()) || t.Length <= 0) {
			c.wrong("%s: stands under a wrong key or has no length", where)
		}
	}
}

// jobs: each stands under its own number, and no number is ahead of the count.
func (c *check) jobs(p *Person) {
	b := p.part(jobsBucket)
	for k, v := range b.all() {
		var j Job
		where := fmt.Sprintf("%s: job %d", p.key, numberOf(k))
		if c.read(where, v, &j) && (!bytes.Equal(k, number(j.Number)) || j.Number > b.Sequence()) {
			c.wrong("%s: wrong number %d of %d", where, j.Number, b.Sequence())
		}
	}
}

// outbox: every entry can be read and has a chat.
func (c *check) outbox() {
	b := c.tx.root.Bucket(outboxBucket)
	for k, v := range b.all() {
		var e Entry
		where := fmt.Sprintf("outbox %d", numberOf(k))
		if c.read(where, v, &e) && (e.Chat == "" || numberOf(k) > b.Sequence()) {
			c.wrong("%s: no chat, or a number ahead of %d", where, b.Sequence())
		}
	}
}

// seen: the ids and their order say the same.
func (c *check) seen() {
	seen, ordered := c.tx.root.Bucket(seenBucket), map[string]bool{}
	for k, v := range c.tx.root.Bucket(seenOrderBucket).all() {
		var id string
		if !c.read(fmt.Sprintf("seen_order %d", numberOf(k)), v, &id) {
			continue
		}
		if ordered[id] || seen.Get([]byte(id)) == nil {
			c.wrong("seen_order %d: %q is there twice, or not seen", numberOf(k), id)
		}
		ordered[id] = true
	}
	for k, v := range seen.all() {
		var when time.Time
		if c.read(fmt.Sprintf("seen %q", k), v, &when) && !ordered[string(k)] {
			c.wrong("seen %q: has no place in the order", k)
		}
	}
}

// others: cursors and quarantined messages can be read.
func (c *check) others() {
	for k, v := range c.tx.root.Bucket(cursorsBucket).all() {
		c.read(fmt.Sprintf("cursor %q", k), v, new(cursor))
	}
	for k, v := range c.tx.root.Bucket(quarantineBucket).all() {
		c.read(fmt.Sprintf("quarantine %d", numberOf(k)), v, new(Quarantined))
	}
}
