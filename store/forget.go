package store

import (
	"bytes"
	"encoding/json"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"go.etcd.io/bbolt"
)

// Forget takes away all that is kept of the person, in every chat of the
// transport: what they keep, their name in the books that crews share (what they
// measured stays there: pipe may be cut to it), the book of a chat that is theirs
// alone, and messages put in quarantine in which their number stands. A name is
// what old entries in the book of this chat know them by; it may be empty.
//
// Messages to them that wait in the outbox stay until they are sent. The bytes
// stay in the file until [DB.Compact].
func (p *Person) Forget(name string) {
	if p.tx.err != nil {
		return
	}
	who, people := p.key.user(), p.tx.root.Bucket(peopleBucket)
	for _, key := range p.tx.places(p.key) {
		if people.Bucket([]byte(key)) != nil {
			p.tx.fail(people.DeleteBucket([]byte(key)))
		}
		p.tx.disown(key.Chat(), func(t Takeoff) bool { return t.Setter == who && who != "" })
		p.tx.leave(key)
	}
	p.tx.disown(p.key.Chat(), func(t Takeoff) bool { return t.Setter == "" && t.By == name && name != "" })
	p.tx.forgetAlone(p.key)
	p.tx.forgetQuarantined(who)
	p.tx.put(p.tx.root.Bucket(metaBucket), forgottenKey, p.tx.now)
}

// disown takes who set them off those takeoffs in the book of a chat that are
// theirs.
func (tx *Tx) disown(chat Chat, theirs func(Takeoff) bool) {
	for _, t := range tx.takeoffs(tx.crew(chat)) {
		if theirs(t) {
			t.By, t.Setter = "", ""
			tx.put(tx.crew(chat), t.key(), t)
		}
	}
}

// forgetAlone drops the book of the chat that a user is alone in.
func (tx *Tx) forgetAlone(who Key) {
	crews := tx.root.Bucket(crewsBucket)
	alone := []byte(who.transport() + "/" + who.user())
	if tx.err == nil && who.user() != "" && crews.Bucket(alone) != nil {
		tx.fail(crews.DeleteBucket(alone))
	}
}

// forgetQuarantined drops what was put aside of a user: of messages that could
// not be read nobody knows whose they are but by the number in them.
func (tx *Tx) forgetQuarantined(user string) {
	number, err := url.PathUnescape(user)
	if err != nil || number == "" {
		return
	}
	said := regexp.MustCompile(`(^|[^0-9])` + regexp.QuoteMeta(number) + `($|[^0-9])`)
	var theirs [][]byte
	b := tx.root.Bucket(quarantineBucket)
	tx.walk(b, func(k, v []byte) {
		var q Quarantined
		if json.Unmarshal(v, &q) == nil && said.Match(q.Raw) {
			theirs = append(theirs, bytes.Clone(k))
		}
	})
	for _, k := range theirs {
		tx.remove(b, k)
	}
}

// forgottenKey holds when somebody was forgotten last, until the file is
// compacted.
var forgottenKey = []byte("forgotten")

// Forgotten says whether somebody was forgotten whose bytes may still be in the
// file.
func (db *DB) Forgotten() (yes bool) {
	_ = db.look(func(root *bucket) error {
		yes = root.Bucket(metaBucket).Get(forgottenKey) != nil
		return nil
	})
	return yes
}

// Compact writes the file anew without what was deleted, and puts it in the
// place of the old one in one step, while the program goes on: transactions wait
// as long as it takes. Killed anywhere, one of the two files is there whole.
func (db *DB) Compact() error {
	db.swap.Lock()
	defer db.swap.Unlock()
	path := db.path
	fresh, err := draft(path, compacted(path)+"*", db.options, func(to *bbolt.DB) error { return bbolt.Compact(to, db.bolt, compactAtOnce) })
	if err != nil {
		return err
	}
	err = fresh.Update(func(tx *bbolt.Tx) error { return tx.Bucket(metaBucket).Delete(forgottenKey) })
	if err == nil {
		err = replace(fresh.Path(), path)
	}
	if err != nil {
		return discard(fresh, err)
	}
	old := db.bolt
	db.bolt = fresh // which holds the lock on the new file already
	return old.Close()
}

// compacted is how the name begins of what is to take the place of a file. Only
// who has the lock on that file makes such.
func compacted(path string) string { return "." + filepath.Base(path) + ".compacted-" }

// tidy takes away what a process left behind that was killed while it compacted.
// Who calls has the lock.
func tidy(path string) {
	files, _ := os.ReadDir(filepath.Dir(path)) // those that could be read
	for _, file := range files {
		if strings.HasPrefix(file.Name(), compacted(path)) {
			_ = os.Remove(filepath.Join(filepath.Dir(path), file.Name()))
		}
	}
}

// compactAtOnce is how many bytes are copied in one transaction.
const compactAtOnce = 1 << 20
