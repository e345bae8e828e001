package main

import (
	"strconv"
	"strings"

	"dogleg/bot"
	"dogleg/bot/telegram"
	"dogleg/store"
)

// updates names the place in Telegram's stream of updates.
const updates = "telegram updates"

// memory joins the Telegram transport to the store and to the conversation.
type memory struct {
	db           *store.DB
	conversation *bot.Conversation
}

// Update runs fn in one transaction of the store.
func (m memory) Update(fn func(telegram.Tx) error) error {
	return m.db.Update(func(tx *store.Tx) error { return fn(transaction{tx, m.conversation}) })
}

// transaction is one transaction of the store as the transport sees it. The
// methods that look alike in both are the store's own.
type transaction struct {
	*store.Tx
	conversation *bot.Conversation
}

func chatOf(number int64) store.Chat {
	return store.ChatOf("telegram", strconv.FormatInt(number, 10))
}

// everyone is the person under whom a chat keeps what is all its people's. No
// one in Telegram has an empty name.
const everyone = ""

// Answer has the conversation answer. After a fault of ours nothing is kept.
func (t transaction) Answer(q telegram.Question) (telegram.Answer, error) {
	person := t.Person(chatOf(q.Chat).Person(q.User))
	m := bot.Message{Text: q.Text, When: q.When, From: q.Name}
	if q.Chat < 0 { // groups have negative numbers, people their own
		m.Group = t.Person(chatOf(q.Chat).Person(everyone))
	}
	reply := t.conversation.Handle(m, person)
	if reply.Fault {
		return telegram.Answer{}, errFault
	}
	a := telegram.Answer{Text: reply.Text}
	for _, f := range reply.Files {
		a.Files = append(a.Files, telegram.File{Name: f.Name, Content: f.Content})
	}
	return a, nil
}

// Queue puts a message at the end of the outbox.
func (t transaction) Queue(chat int64, payload []byte) uint64 {
	return t.Tx.Queue(chatOf(chat), payload).Number
}

// Outbox returns what waits to be sent to Telegram.
func (t transaction) Outbox() []telegram.Entry {
	var entries []telegram.Entry
	for _, e := range t.Tx.Outbox() {
		if chat, ok := numberOf(e.Chat); ok {
			entries = append(entries, telegram.Entry{Number: e.Number, Chat: chat, Payload: e.Payload})
		}
	}
	return entries
}

// StrikeOff takes entries out of the outbox.
func (t transaction) StrikeOff(numbers ...uint64) {
	for _, n := range numbers {
		t.Tx.StrikeOff(store.Entry{Number: n})
	}
}

// Cursor is where to read on.
func (t transaction) Cursor(s telegram.Source) (int64, bool) {
	return t.Tx.Cursor(updates, store.Source{Bot: s.Bot, Server: s.Base})
}

// SetCursor keeps where to read on.
func (t transaction) SetCursor(s telegram.Source, at int64) {
	t.Tx.SetCursor(updates, store.Source{Bot: s.Bot, Server: s.Base}, at)
}

// MoveChat gives what is kept for a chat to its new number.
func (t transaction) MoveChat(from, to int64) { t.Tx.MoveChat(chatOf(from), chatOf(to)) }

// numberOf reads back what chatOf wrote.
func numberOf(c store.Chat) (int64, bool) {
	name, ok := strings.CutPrefix(string(c), string(store.ChatOf("telegram", "")))
	number, err := strconv.ParseInt(name, 10, 64)
	return number, ok && err == nil
}
