package store

import (
	"net/url"
	"slices"
	"strings"
)

// Chat names a chat of one transport.
type Chat string

// ChatOf is the chat with this name in a transport: ChatOf("telegram", "1207").
// No two chats share a name, whatever the names hold.
func ChatOf(transport, name string) Chat {
	return Chat(url.PathEscape(transport) + "/" + url.PathEscape(name))
}

// Key names a person in a chat. The same person in another chat is another
// key: what is kept for a crew's group is not what they keep for themselves.
type Key string

// Person is the key of a user in this chat.
func (c Chat) Person(user string) Key { return Key(string(c) + "/" + url.PathEscape(user)) }

// Chat is the chat that the key is of.
func (k Key) Chat() Chat { return Chat(k[:max(0, strings.LastIndexByte(string(k), '/'))]) }

// Note names a text kept for a person that this package doesn't look into.
type Note string

// The notes.
const (
	Settings Note = "settings"
	Question Note = "question" // the one question that waits for its answer
	State    Note = "state"    // of the conversation
	Board    Note = "board"    // which message shows the cut list
	Unread   Note = "unread"   // what wasn't understood, of who consents
)

// Person is what one person keeps, inside one transaction.
type Person struct {
	tx  *Tx
	key Key
}

// Person returns the person with this key. One who has kept nothing yet is no
// different from any other.
func (tx *Tx) Person(key Key) *Person { return &Person{tx, key} }

// People lists the keys of all who keep something, in the order of the keys.
func (tx *Tx) People() []Key {
	var keys []Key
	for k := range tx.root.Bucket(peopleBucket).all() {
		keys = append(keys, Key(k))
	}
	return keys
}

// Note returns what is kept under a name, nil if nothing is.
func (p *Person) Note(n Note) []byte {
	b := p.bucket()
	if b == nil || p.tx.err != nil {
		return nil
	}
	return slices.Clone(b.Get([]byte(n)))
}

// SetNote keeps a text under a name; nil takes it away.
func (p *Person) SetNote(n Note, text []byte) {
	if text == nil {
		p.tx.remove(p.bucket(), []byte(n))
		return
	}
	if b := p.made(); b != nil {
		p.tx.fail(b.Put([]byte(n), slices.Clone(text)))
	}
}

// bucket is the person's own, nil if they keep nothing.
func (p *Person) bucket() *bucket {
	return p.tx.root.Bucket(peopleBucket).Bucket([]byte(p.key))
}

// made is the person's own, made if need be; nil after an error.
func (p *Person) made() *bucket {
	if p.tx.err == nil && p.bucket() == nil {
		p.tx.enter(p.key)
	}
	return p.tx.make(p.tx.root.Bucket(peopleBucket), []byte(p.key))
}

// part is a bucket in the person's own, nil if there is none.
func (p *Person) part(name []byte) *bucket {
	return p.bucket().Bucket(name)
}

// madePart is a bucket in the person's own, made if need be; nil after an
// error.
func (p *Person) madePart(name []byte) *bucket { return p.tx.make(p.made(), name) }

func (tx *Tx) make(in *bucket, name []byte) *bucket {
	if tx.err != nil || in == nil {
		return nil
	}
	b, err := in.Make(name)
	tx.fail(err)
	if err != nil {
		return nil
	}
	return b
}

// MoveChat renames a chat, as when a group gets a new id: the people in it,
// with all they keep, the crew's book, and what waits in the outbox for it. Who
// already keeps something under the new name stays as they are there, but gets
// the cut list if they have none. A chat that has the name already stays as it is.
func (tx *Tx) MoveChat(from, to Chat) {
	if from == to {
		return
	}
	people := tx.root.Bucket(peopleBucket)
	for _, key := range tx.PeopleIn(from) {
		moved := to + Chat(strings.TrimPrefix(string(key), string(from)))
		if people.Bucket([]byte(moved)) == nil {
			copyBucket(tx, people.Bucket([]byte(key)), tx.Person(Key(moved)).made())
			tx.Person(Key(moved)).dropExchanges()
		}
		tx.moveCuts(tx.Person(key), tx.Person(Key(moved)))
		tx.fail(people.DeleteBucket([]byte(key)))
		tx.leave(key)
	}
	tx.moveCrew(from, to)
	tx.readdress(from, to)
}

// copyBucket copies all that is in a bucket, and its numbering.
func copyBucket(tx *Tx, from, to *bucket) {
	if tx.err != nil {
		return
	}
	tx.fail(to.SetSequence(from.Sequence()))
	for k, v := range from.all() {
		switch {
		case tx.err != nil:
			return
		case v == nil:
			copyBucket(tx, from.Bucket(k), tx.make(to, k))
		default:
			tx.fail(to.Put(k, slices.Clone(v)))
		}
	}
}
