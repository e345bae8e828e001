package store

import (
	"encoding/json"
	"net/url"
)

// Export returns all that is kept for the person as one JSON object: each note
// and each list under its name. It shows whatever there is, so that what a later
// version keeps is in it as well. What the crew shares is not the person's.
func (p *Person) Export() json.RawMessage { return p.export(p.tx.contents(p.bucket())) }

// ExportWithGiven is the same with what this person gave to the others in the chat:
// takeoffs in the crew's book, pieces on a list.
func (p *Person) ExportWithGiven() json.RawMessage {
	all := p.tx.contents(p.bucket())
	if set := p.setForCrew(); len(set) > 0 {
		all["crew_takeoffs"] = set
	}
	if added := p.addedToLists(); len(added) > 0 {
		all["pieces_on_the_crews_list"] = added
	}
	return p.export(all)
}

func (p *Person) export(all map[string]any) json.RawMessage {
	text, err := json.Marshal(all)
	p.tx.fail(err)
	return text
}

// setForCrew are the takeoffs in the book of the chat that this person set.
func (p *Person) setForCrew() (theirs []Takeoff) {
	for _, t := range p.CrewTakeoffs() {
		if t.Setter == p.key.user() && t.Setter != "" {
			theirs = append(theirs, t)
		}
	}
	return theirs
}

// addedToLists are the pieces that this person put on lists of others in the chat.
func (p *Person) addedToLists() (theirs []Cut) {
	p.eachAdded(func(_ *Person, c Cut) { theirs = append(theirs, c) })
	return theirs
}

// eachAdded does something with each of these pieces, and whose list it is on.
func (p *Person) eachAdded(do func(on *Person, c Cut)) {
	for _, key := range p.tx.PeopleIn(p.key.Chat()) {
		on := p.tx.Person(key)
		for _, c := range on.Cuts() {
			if c.Setter != "" && url.PathEscape(c.Setter) == p.key.user() {
				do(on, c)
			}
		}
	}
}

// contents is what a bucket holds, by name. The lists in it keep their order.
func (tx *Tx) contents(b *bucket) map[string]any {
	all := map[string]any{}
	tx.walk(b, func(k, v []byte) {
		if v == nil {
			if list := tx.listed(b.Bucket(k)); len(list) > 0 {
				all[string(k)] = list
			}
			return
		}
		all[string(k)] = shown(v)
	})
	return all
}

func (tx *Tx) listed(b *bucket) []any {
	var list []any
	tx.walk(b, func(k, v []byte) {
		if v == nil {
			list = append(list, tx.listed(b.Bucket(k)))
			return
		}
		list = append(list, shown(v))
	})
	return list
}

func (tx *Tx) walk(b *bucket, fn func(k, v []byte)) {
	if tx.err != nil {
		return
	}
	for k, v := range b.all() {
		fn(k, v)
	}
}

// shown is a value as JSON shows it. All that this program writes is JSON; what
// isn't is shown as text.
func shown(v []byte) any {
	if json.Valid(v) {
		return json.RawMessage(v)
	}
	return string(v)
}
