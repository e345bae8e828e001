package store_test

import (
	"slices"
	"testing"

	"dogleg/store"
)

// The newest exchanges are found by their question and by their answer, the
// oldest are gone, and none goes with a chat to its new number.
func TestExchanges(t *testing.T) {
	db := fresh(t)
	group, moved := store.ChatOf("telegram", "-40"), store.ChatOf("telegram", "-10040")
	const asked = store.KeptExchanges + 20
	update(t, db, func(tx *store.Tx) {
		ada := tx.Person(group.Person("501"))
		for i := int64(1); i <= asked; i++ {
			ada.SetExchange(store.Exchange{Question: 2 * i, Jobs: []uint64{uint64(i)}})
			ada.SetExchange(store.Exchange{Question: 2 * i, Answer: 2*i + 1, Jobs: []uint64{uint64(i)}})
		}
		tx.Person(group.Person("502")).SetNote(store.Settings, []byte("{}"))
		tx.Person(store.ChatOf("telegram", "-400").Person("503")).SetNote(store.Settings, []byte("{}"))
	})
	update(t, db, func(tx *store.Tx) {
		ada := tx.Person(group.Person("501"))
		for i := int64(1); i <= asked; i++ {
			kept := i > asked-store.KeptExchanges
			e, ok := ada.ExchangeBy(2*i + 1)
			if ok != kept || kept && (e.Question != 2*i || !slices.Equal(e.Jobs, []uint64{uint64(i)})) {
				t.Fatalf("by answer %d: %+v, %v", 2*i+1, e, ok)
			}
			if _, ok := ada.Exchange(2 * i); ok != kept {
				t.Fatalf("question %d is kept: %v", 2*i, ok)
			}
		}
		if _, ok := ada.ExchangeBy(2 * asked); ok {
			t.Error("a question is taken for an answer")
		}
		if got := tx.PeopleIn(group); !slices.Equal(got, []store.Key{group.Person("501"), group.Person("502")}) {
			t.Errorf("in the group: %q", got)
		}
		tx.MoveChat(group, moved)
		if _, ok := tx.Person(moved.Person("501")).Exchange(2 * asked); ok {
			t.Error("a message of the old chat is known in the new one")
		}
	})
}
