package store

import (
	"bytes"
	"encoding/json"
	"net/url"
	"regexp"
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
