package store

import (
	"bytes"
	"encoding/json"
	"net/url"
	"regexp"
	"strings"
)

// Forget takes away all that is kept of the person, in every chat of the
// transport: what they keep, their name in the books and on the lists that crews share
// (what they measured stays there: pipe may be cut to it), and in what was said to
// others of takeoffs that they set, the book of a chat that is theirs alone, and
// messages put in quarantine in which their number stands. A name is what old entries
// in the book of this chat know them by; it may be empty.
//
// Messages to them that wait in the outbox stay until they are sent. The bytes
// stay in the file until [DB.Compact].
func (p *Person) Forget(name string) {
	if p.tx.err != nil {
		return
	}
	who, people := p.key.user(), p.tx.root.Bucket(peopleBucket)
	places := p.tx.places(p.key)
	names := map[string]bool{name: true}
	for _, key := range places {
		if people.Bucket([]byte(key)) != nil {
			p.tx.fail(people.DeleteBucket([]byte(key)))
		}
		p.tx.disown(key.Chat(), names, func(t Takeoff) bool { return t.Setter == who && who != "" })
		p.tx.Person(key).eachAdded(func(on *Person, c Cut) {
			c.Setter = ""
			on.ChangeCut(c)
		})
		p.tx.leave(key)
	}
	p.tx.disown(p.key.Chat(), names, func(t Takeoff) bool { return t.Setter == "" && t.By == name && name != "" })
	delete(names, "")
	for _, key := range append(places, p.key) {
		p.tx.unname(key.Chat(), names)
	}
	p.tx.forgetAlone(p.key)
	p.tx.forgetQuarantined(who)
	p.tx.put(p.tx.root.Bucket(metaBucket), forgottenKey, p.tx.now)
}

// saidBefore is how earlier versions wrote who set a takeoff, in the jobs of others and
// in where their talk stands, in each language. Now no name is kept there.
var saidBefore = []string{", set by ", ", lo puso "}

// unname takes names out of what was said to the people in a chat.
func (tx *Tx) unname(chat Chat, names map[string]bool) {
	var pairs []string
	for name := range names {
		quoted, err := json.Marshal(name) // as it stands in what is kept
		if err != nil {
			continue
		}
		for _, said := range saidBefore {
			pairs = append(pairs, said+string(quoted[1:len(quoted)-1])+",", ",")
		}
	}
	if len(pairs) == 0 || tx.err != nil {
		return
	}
	without := strings.NewReplacer(pairs...)
	for _, key := range tx.PeopleIn(chat) {
		p := tx.Person(key)
		tx.rewrite(p.part(jobsBucket), without)
		if text := p.Note(State); text != nil {
			if plain := without.Replace(string(text)); plain != string(text) {
				p.SetNote(State, []byte(plain))
			}
		}
	}
}

// rewrite replaces in all values of a bucket.
func (tx *Tx) rewrite(b *bucket, with *strings.Replacer) {
	changed := map[string]string{}
	tx.walk(b, func(k, v []byte) {
		if plain := with.Replace(string(v)); plain != string(v) {
			changed[string(k)] = plain
		}
	})
	for k, plain := range changed {
		tx.fail(b.Put([]byte(k), []byte(plain)))
	}
}

// disown takes who set them off those takeoffs in the book of a chat that are
// theirs, and notes their names.
func (tx *Tx) disown(chat Chat, names map[string]bool, theirs func(Takeoff) bool) {
	for _, t := range tx.takeoffs(tx.crew(chat)) {
		if theirs(t) {
			names[t.By] = true
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
