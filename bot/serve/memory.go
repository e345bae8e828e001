package serve

import (
	"encoding/json"
	"errors"
	"iter"
	"slices"
	"strconv"
	"strings"

	"dogleg/bot"
	"dogleg/bot/telegram"
	"dogleg/parser"
	"dogleg/store"
)

// updates names the place in Telegram's stream of updates.
const updates = "telegram updates"

// Memory joins the Telegram transport to the store and to the conversation.
type Memory struct {
	DB           *store.DB
	Conversation *bot.Conversation
}

// Update runs fn in one transaction of the store.
func (m Memory) Update(fn func(telegram.Tx) error) error {
	return m.DB.Update(func(tx *store.Tx) error { return fn(transaction{tx, m.Conversation}) })
}

// View runs fn in a transaction that only reads.
func (m Memory) View(fn func(telegram.Tx) error) error {
	return m.DB.View(func(tx *store.Tx) error { return fn(transaction{tx, m.Conversation}) })
}

// transaction is one transaction of the store as the transport sees it. The
// methods that look alike in both are the store's own.
type transaction struct {
	*store.Tx
	conversation *bot.Conversation
}

// ChatOf is a chat of Telegram's by its number.
func ChatOf(number int64) store.Chat {
	return store.ChatOf("telegram", strconv.FormatInt(number, 10))
}

// everyone is the person under whom a chat keeps what is all its people's. No
// one in Telegram has an empty name.
const everyone = ""

// ForAdmins says whether words are for a group's admins to say.
func (Memory) ForAdmins(words string) bool { return bot.ForAdmins(words) }

// ErrFault ends what can't go on: the cause is in the log.
var ErrFault = errors.New("the message could not be answered, and nothing of it was kept; dogleg check says whether the database is whole")

// Answer has the conversation answer. After a fault of ours nothing is kept.
func (t transaction) Answer(q telegram.Question) (telegram.Answer, error) {
	person := t.Person(ChatOf(q.Chat).Person(q.User))
	m := bot.Message{
		Text: q.Text, Pressed: q.Pressed, When: q.When, From: q.Name, User: q.User, Group: t.group(q.Chat),
		Admin: q.Admin, Overheard: q.Overheard, ID: q.ID, Edited: q.Edited, Language: languageOf(q.Language),
	}
	if m.Group != nil {
		m.Mates = func() []bot.Memory { return t.mates(q.Chat) }
	}
	m.About, m.Theirs = t.about(q)
	m.Unknown = q.About != 0 && m.About == nil
	exchange, _ := person.Exchange(q.ID)
	if q.Edited {
		m.Replaces = exchange.Jobs
	}
	reply := t.conversation.Handle(m, person)
	if reply.Fault {
		return telegram.Answer{}, ErrFault
	}
	if q.ID != 0 && reply.Text != "" && !forgets(person) {
		exchange.Question, exchange.Jobs, exchange.About = q.ID, reply.Jobs, reply.About
		person.SetExchange(exchange)
	}
	return AnswerOf(reply), nil
}

// languageOf is the language of ours that a code such as es-MX is of.
func languageOf(code string) parser.Language {
	if strings.HasPrefix(code, "es") {
		return parser.Spanish
	}
	return ""
}

// forgets says whether a person keeps nothing now: they asked to be forgotten,
// and nothing is to be kept of that either.
func forgets(p *store.Person) bool { return p.Note(store.State) == nil }

// Glance answers with what a person has set, and keeps nothing.
func (t transaction) Glance(q telegram.Question) (telegram.Answer, error) {
	person, memory := t.Person(ChatOf(q.Chat).Person(q.User)), new(bot.Forgetful)
	memory.SetNote(store.Settings, person.Note(store.Settings))
	for _, o := range person.Takeoffs() {
		memory.SetTakeoff(o)
	}
	reply := t.conversation.Handle(bot.Message{Text: q.Text, When: q.When}, memory)
	if reply.Fault {
		return telegram.Answer{}, ErrFault
	}
	return AnswerOf(reply), nil
}

// HearsAll says whether a group wants to be answered always.
func (t transaction) HearsAll(chat int64) bool {
	group := t.group(chat)
	return group != nil && bot.HearsAll(group)
}

// group is what a chat of several people keeps together, nil for a chat with
// one: groups have negative numbers, people their own.
func (t transaction) group(chat int64) bot.Memory {
	if chat >= 0 {
		return nil
	}
	return t.Person(ChatOf(chat).Person(everyone))
}

// mates are all who keep something in a chat.
func (t transaction) mates(chat int64) []bot.Memory {
	var all []bot.Memory
	for _, key := range t.PeopleIn(ChatOf(chat)) {
		all = append(all, t.Person(key))
	}
	return all
}

// about is the job that the message of ours is about which a question replies to, and
// whether that was said to another in the chat; nil if there is none.
func (t transaction) about(q telegram.Question) (job *store.Job, theirs bool) {
	if q.About == 0 {
		return nil, false
	}
	own := ChatOf(q.Chat).Person(q.User)
	for _, key := range append([]store.Key{own}, t.PeopleIn(ChatOf(q.Chat))...) {
		person := t.Person(key)
		exchange, ok := person.ExchangeBy(q.About)
		if !ok {
			continue
		}
		theirs = key != own
		jobs := append(exchange.About, exchange.Jobs...)
		if len(jobs) == 0 {
			return nil, theirs
		}
		j, ok := person.Job(jobs[len(jobs)-1])
		if !ok {
			return nil, theirs
		}
		if theirs {
			j.Number = 0
		}
		return &j, theirs
	}
	return nil, true
}

// mostMore is how many messages of an answer are known beside the first.
const mostMore = 20

// Answered keeps which message answered which, as long as anything is known of
// the question.
func (t transaction) Answered(e telegram.Exchange) {
	person := t.Person(ChatOf(e.Chat).Person(e.User))
	kept, ok := person.Exchange(e.Question)
	switch {
	case ok && e.More && len(kept.More) >= mostMore:
		return
	case ok && e.More:
		kept.More = append(kept.More, e.Answer)
	case ok:
		kept.Answer = e.Answer
	case e.Question == e.Answer && len(e.About) > 0 && !forgets(person):
		kept = store.Exchange{Question: e.Question, Answer: e.Answer, About: e.About}
	default:
		return
	}
	person.SetExchange(kept)
}

// Answering is the message that answered a question, 0 if none is known.
func (t transaction) Answering(chat int64, user string, question int64) int64 {
	kept, _ := t.Person(ChatOf(chat).Person(user)).Exchange(question)
	return kept.Answer
}

// AnswerOf is a reply in the terms of the transport.
func AnswerOf(r bot.Reply) telegram.Answer {
	a := telegram.Answer{Text: r.Text, Aloud: r.Aloud, Buttons: buttonsOf(r.Buttons), Listed: r.Listed, Private: r.Private, About: append(r.Jobs, r.About...)}
	for _, f := range slices.Concat(r.Files, r.Aside) {
		a.Files = append(a.Files, telegram.File(f))
	}
	if b := r.Board; b != nil {
		a.Board = &telegram.Board{Text: b.Text, Buttons: buttonsOf(b.Buttons), Anew: b.Anew, Moved: b.Moved}
	}
	return a
}

func buttonsOf(rows [][]bot.Button) [][]telegram.Button {
	var all [][]telegram.Button
	for _, row := range rows {
		var buttons []telegram.Button
		for _, b := range row {
			buttons = append(buttons, telegram.Button(b))
		}
		all = append(all, buttons)
	}
	return all
}

// board is which message shows the cut list. A group that has become another
// has no such message there.
type board struct{ Chat, Message int64 }

// lister keeps a chat's cut list: everyone in a group, else the one person.
func (t transaction) lister(chat int64) *store.Person {
	if chat < 0 {
		return t.Person(ChatOf(chat).Person(everyone))
	}
	return t.Person(ChatOf(chat).Person(strconv.FormatInt(chat, 10)))
}

// Board is the message that shows the chat's cut list.
func (t transaction) Board(chat int64) int64 {
	var b board
	if json.Unmarshal(t.lister(chat).Note(store.Board), &b) != nil || b.Chat != chat {
		return 0
	}
	return b.Message
}

// SetBoard keeps it.
func (t transaction) SetBoard(chat, message int64) {
	text, err := json.Marshal(board{chat, message})
	if err == nil {
		t.lister(chat).SetNote(store.Board, text)
	}
}

// Queue puts a message at the end of the outbox.
func (t transaction) Queue(chat int64, payload []byte) uint64 {
	return t.Tx.Queue(ChatOf(chat), payload).Number
}

// Waiting is what waits to be sent to Telegram.
func (t transaction) Waiting() iter.Seq[telegram.Entry] {
	return func(yield func(telegram.Entry) bool) {
		for e := range t.Tx.Waiting() {
			entry, ok := entryOf(e)
			if (ok || e.Chat == "") && !yield(entry) { // of one that can't be read nobody knows whose it is
				return
			}
		}
	}
}

// Waits finds a message that waits to be sent there.
func (t transaction) Waits(number uint64) (telegram.Entry, bool) {
	e, ok := t.Entry(number)
	if !ok {
		return telegram.Entry{}, false
	}
	return entryOf(e)
}

func entryOf(e store.Entry) (telegram.Entry, bool) {
	chat, ok := NumberOf(e.Chat)
	return telegram.Entry{Number: e.Number, Chat: chat, Payload: e.Payload}, ok
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
func (t transaction) MoveChat(from, to int64) { t.Tx.MoveChat(ChatOf(from), ChatOf(to)) }

// NumberOf reads back what ChatOf wrote.
func NumberOf(c store.Chat) (int64, bool) {
	name, ok := strings.CutPrefix(string(c), string(store.ChatOf("telegram", "")))
	number, err := strconv.ParseInt(name, 10, 64)
	return number, ok && err == nil
}
