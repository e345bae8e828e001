package store

import (
	"encoding/json"
)

// Export returns all that is kept for the person as one JSON object: each note
// and each list under its name. It shows whatever there is, so that what a later
// version keeps is in it as well. What the crew shares is not the person's.
func (p *Person) Export() json.RawMessage {
	text, err := json.Marshal(p.tx.contents(p.bucket()))
	p.tx.fail(err)
	return text
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
