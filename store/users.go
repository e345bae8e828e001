package store

import (
	"encoding/json"
	"iter"
	"slices"
	"strings"
)

// This file is the index of users: in which chats each keeps something, or has set
// something in the crew's book. People stand in the order of their chats, so that
// without it all of them would have to be looked through for one who asks what is
// kept of them, or to be forgotten.

// usersBucket holds keys of people by [Key.byUser]. One whose person and takeoffs
// are gone may still stand there.
var usersBucket = []byte("users")

// byUser is the key with the user before the chat.
func (k Key) byUser() []byte {
	_, chat, _ := strings.Cut(string(k.Chat()), "/")
	return []byte(k.allOfUser() + chat)
}

// allOfUser is how all begin that the user of a key has in the index.
func (k Key) allOfUser() string { return k.transport() + "/" + k.user() + "/" }

// transport is that of the key's chat, as it stands in the key.
func (k Key) transport() string {
	transport, _, _ := strings.Cut(string(k), "/")
	return transport
}

// user is who the key is of, as it stands in the key.
func (k Key) user() string { return string(k)[strings.LastIndexByte(string(k), '/')+1:] }

// setter is the key of who set a takeoff in the book of a chat; false if nobody
// knows.
func (t Takeoff) setter(chat Chat) (Key, bool) {
	return Key(string(chat) + "/" + t.Setter), t.Setter != ""
}

// enter puts a key into the index.
func (tx *Tx) enter(k Key) {
	if tx.err == nil {
		tx.fail(enter(tx.root, k))
	}
}

func enter(root *bucket, k Key) error {
	users, place := root.Bucket(usersBucket), k.byUser()
	if users.Get(place) != nil {
		return nil
	}
	return users.Put(place, []byte(k))
}

// leave takes a key out of the index.
func (tx *Tx) leave(k Key) { tx.remove(tx.root.Bucket(usersBucket), k.byUser()) }

// places are the keys of a user in the index.
func (tx *Tx) places(who Key) []Key {
	var keys []Key
	prefix := who.allOfUser()
	for place, k := range tx.root.Bucket(usersBucket).from([]byte(prefix)) {
		if !strings.HasPrefix(string(place), prefix) {
			break
		}
		keys = append(keys, Key(k))
	}
	return keys
}

// Everywhere lists the keys under which the user of a key keeps something, or has
// given something to the others in the chat, in whatever chat of the transport, in the
// order of the keys.
func (tx *Tx) Everywhere(who Key) []Key {
	keys := slices.DeleteFunc(tx.places(who), func(k Key) bool {
		p := tx.Person(k)
		return p.bucket() == nil && len(p.setForCrew())+len(p.addedToLists()) == 0
	})
	slices.Sort(keys)
	return keys
}

// indexUsers makes the index of a file that has none.
func indexUsers(root *bucket) error {
	if _, err := root.Make(usersBucket); err != nil {
		return err
	}
	for k := range root.Bucket(peopleBucket).all() {
		if err := enter(root, Key(k)); err != nil {
			return err
		}
	}
	for k := range setters(root) {
		if err := enter(root, k); err != nil {
			return err
		}
	}
	return nil
}

// setters are the keys of those who set a takeoff in the book of a crew, one for
// each. A takeoff that can't be read is for Check to tell of.
func setters(root *bucket) iter.Seq[Key] {
	return func(yield func(Key) bool) {
		crews := root.Bucket(crewsBucket)
		for chat := range crews.all() {
			for _, v := range crews.Bucket(chat).Bucket(takeoffsBucket).all() {
				var t Takeoff
				if json.Unmarshal(v, &t) != nil {
					continue
				}
				if k, known := t.setter(Chat(chat)); known && !yield(k) {
					return
				}
			}
		}
	}
}

// users: whoever keeps something, and whoever set something for a crew, is found,
// and nobody under another's name.
func (c *check) users() {
	for place, k := range c.tx.root.Bucket(usersBucket).all() {
		if string(Key(k).byUser()) != string(place) {
			c.wrong("users: %q leads to %q", place, k)
		}
	}
	for k := range setters(c.tx.root) {
		c.indexed(k)
	}
}

func (c *check) indexed(k Key) {
	if c.tx.root.Bucket(usersBucket).Get(k.byUser()) == nil {
		c.wrong("%s is not found among the users", k)
	}
}
