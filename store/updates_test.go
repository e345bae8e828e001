package store_test

import (
	"fmt"
	"testing"

	"dogleg/store"
)

func TestOutboxOutlivesRestartInOrder(t *testing.T) {
	path := t.TempDir() + "/juniper.db"
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	down := store.ChatOf("telegram", "1208")
	update(t, db, func(tx *store.Tx) {
		for i := range 300 { // enough for the numbers to need two bytes
			tx.Queue([]store.Chat{upstairs, down}[i%2], fmt.Append(nil, i))
		}
	})
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	db = open(t, path)
	var queued []store.Entry
	view(t, db, func(tx *store.Tx) { queued = tx.Outbox() })
	if len(queued) != 300 {
		t.Fatalf("%d entries after a restart, want 300", len(queued))
	}
	for i, e := range queued {
		if string(e.Payload) != fmt.Sprint(i) || e.Chat != []store.Chat{upstairs, down}[i%2] {
			t.Fatalf("entry %d: %+v", i, e)
		}
	}
}
