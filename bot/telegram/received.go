package telegram

import (
	"encoding/json"

	"dogleg/bot/telegram/wire"
)

// received is one update of a batch as it came, and what it was found to be.
type received struct {
	raw     json.RawMessage
	id      int64 // 0 if not even that could be read
	update  wire.Update
	bad     error // why it can't be handled
	mishaps int   // times that answering it went wrong

	charged  bool // what answering it took was taken off a budget
	metered  bool // whether it is within the budget was found out
	admitted admission
}

// receive reads one update by itself.
func receive(raw json.RawMessage) *received {
	r := &received{raw: raw}
	r.update, r.id, r.bad = wire.Decode(raw)
	return r
}
