package storetest

import (
	"fmt"
	"maps"
	"slices"

	"dogleg/store"

	"pgregory.net/rapid"
)

// Anything writes something at random, and sometimes nothing: whatever there is to
// write, for few enough people that they meet again.
func Anything(t *rapid.T, tx *store.Tx) {
	chat := rapid.SampledFrom(anyChats).Draw(t, "chat")
	user := rapid.SampledFrom([]string{"", "7", "8"}).Draw(t, "user")
	what := rapid.SampledFrom(slices.Sorted(maps.Keys(writes))).Draw(t, "what")
	writes[what](tx, tx.Person(chat.Person(user)), chat, rapid.IntRange(1, 12).Draw(t, "number"))
}

var anyChats = []store.Chat{store.ChatOf("telegram", "7"), store.ChatOf("telegram", "-1207"), store.ChatOf("telegram", "-9")}

// writes are what Anything may do for a person in a chat, with a number between 1
// and 12.
var writes = map[string]func(tx *store.Tx, p *store.Person, chat store.Chat, n int){
	"add a job": func(_ *store.Tx, p *store.Person, _ store.Chat, n int) {
		p.AddJob(store.Job{Name: "laundry", Asked: fmt.Sprint(n, " set 45s"), When: noon})
	},
	"drop a job":   func(_ *store.Tx, p *store.Person, _ store.Chat, n int) { p.DropJob(uint64(n)) },
	"change a job": func(_ *store.Tx, p *store.Person, _ store.Chat, n int) { p.ChangeJob(store.Job{Number: uint64(n)}) },
	"set a takeoff": func(_ *store.Tx, p *store.Person, _ store.Chat, n int) {
		p.SetTakeoff(sixteenths("pvc-dwv", "45", "2", fmt.Sprint(n%3), n))
	},
	"forget a takeoff": func(_ *store.Tx, p *store.Person, _ store.Chat, n int) {
		p.ForgetTakeoff(sixteenths("pvc-dwv", "45", "2", fmt.Sprint(n%3), n))
	},
	"set the crew's takeoff": func(_ *store.Tx, p *store.Person, _ store.Chat, n int) {
		p.SetCrewTakeoff(sixteenths("pvc-dwv", "45", "2", fmt.Sprint(n%3), n))
	},
	"forget the crew's takeoff": func(_ *store.Tx, p *store.Person, _ store.Chat, n int) {
		p.ForgetCrewTakeoff(sixteenths("pvc-dwv", "45", "2", fmt.Sprint(n%3), n))
	},
	"add a piece":    func(_ *store.Tx, p *store.Person, _ store.Chat, n int) { p.AddCut(piece(float64(n))) },
	"drop a piece":   func(_ *store.Tx, p *store.Person, _ store.Chat, n int) { p.DropCut(uint64(n)) },
	"clear the list": func(_ *store.Tx, p *store.Person, _ store.Chat, _ int) { p.ClearCuts() },
	"answer": func(_ *store.Tx, p *store.Person, _ store.Chat, n int) {
		p.SetExchange(store.Exchange{Question: int64(n), Answer: int64(n + n%2)})
	},
	"note": func(_ *store.Tx, p *store.Person, _ store.Chat, n int) {
		p.SetNote(store.State, slices.Repeat([]byte("x"), (n-1)*100))
	},
	"take a note away": func(_ *store.Tx, p *store.Person, _ store.Chat, _ int) { p.SetNote(store.State, nil) },
	"handle a message": func(tx *store.Tx, _ *store.Person, chat store.Chat, n int) {
		tx.Queue(chat, fmt.Append(nil, n))
		tx.MarkDone(fmt.Sprint(n))
		tx.SetCursor("getUpdates", store.Source{Bot: 1}, int64(n))
	},
	"send": func(tx *store.Tx, _ *store.Person, _ store.Chat, n int) {
		tx.StrikeOff(tx.Outbox()[:min(n, len(tx.Outbox()))]...)
	},
	"put aside": func(tx *store.Tx, _ *store.Person, _ store.Chat, n int) {
		tx.Quarantine(fmt.Sprint(n), fmt.Append(nil, `{"from":{"id":`, n, `}}`))
	},
	"move the chat": func(tx *store.Tx, _ *store.Person, chat store.Chat, n int) {
		tx.MoveChat(chat, anyChats[n%len(anyChats)])
	},
	"forget": func(_ *store.Tx, p *store.Person, _ store.Chat, _ int) { p.Forget("Dana") },
}
