package storetest

import (
	"errors"
	"strconv"
	"testing"
	"time"

	"dogleg/store"

	"github.com/google/go-cmp/cmp"
)

func errorRollsBackAll(t *testing.T, db *store.DB) {
	leak := errors.New("a leak")
	err := db.Update(func(tx *store.Tx) error {
		Everything(tx)
		return leak
	})
	if !errors.Is(err, leak) {
		t.Errorf("Update: %v, want the error of the function", err)
	}
	Nothing(t, db)
}

func panicRollsBackAllAndGoesOnUp(t *testing.T, db *store.DB) {
	func() {
		defer func() {
			if got := recover(); got != "burst" {
				t.Errorf("recovered %v, want the panic of the function", got)
			}
		}()
		_ = db.Update(func(tx *store.Tx) error {
			Everything(tx)
			panic("burst")
		})
	}()
	Nothing(t, db)
	update(t, db, Everything) // and the database still works
}

func failedWriteRollsBackAll(t *testing.T, db *store.DB) {
	err := db.Update(func(tx *store.Tx) error {
		Everything(tx)
		tx.MarkDone("") // bbolt has no empty keys
		if tx.Err() == nil {
			t.Error("the transaction does not say that it failed")
		}
		Everything(tx)
		return nil
	})
	if err == nil {
		t.Error("Update lost the error of a write")
	}
	Nothing(t, db)
}

func viewWritesNothing(t *testing.T, db *store.DB) {
	if err := db.View(func(tx *store.Tx) error { Everything(tx); return nil }); err == nil {
		t.Error("View took a write without an error")
	}
	Nothing(t, db)
}

func idsMayFall(t *testing.T, db *store.DB) {
	update(t, db, func(tx *store.Tx) { tx.MarkDone("727334708") })
	update(t, db, func(tx *store.Tx) {
		if !tx.Done("727334708") {
			t.Error("a handled message is not known")
		}
		if tx.Done("117314199") {
			t.Error("a lower id counts as handled")
		}
		tx.MarkDone("117314199")
		tx.MarkDone("117314199") // twice is once
		if !tx.Done("117314199") {
			t.Error("the lower id was not marked")
		}
	})
}

func seenIDsAreForgottenInTheEnd(t *testing.T, db *store.DB) {
	mark := func(from, n int) {
		update(t, db, func(tx *store.Tx) {
			for i := from; i < from+n; i++ {
				tx.MarkDone(strconv.Itoa(i))
			}
		})
	}
	known := func(from, to int) (n int) {
		view(t, db, func(tx *store.Tx) {
			for i := from; i < to; i++ {
				if tx.Done(strconv.Itoa(i)) {
					n++
				}
			}
		})
		return n
	}

	mark(0, 10)
	clock := noon.Add(store.SeenFor + time.Second)
	db.Now = func() time.Time { return clock }
	mark(10, store.SeenKept-1)
	if got := known(0, 10); got != 1 { // 0 to 8 are old and have 5000 newer
		t.Errorf("%d of the 10 oldest are known, want the last one", got)
	}
	mark(10+store.SeenKept-1, 3000)
	if got, want := known(10, 10+store.SeenKept+2999), store.SeenKept+2999; got != want {
		t.Errorf("%d ids are known, want all %d of this hour, however many", got, want)
	}
	if got := known(0, 10); got != 0 {
		t.Errorf("%d of the 10 oldest are still known", got)
	}
}

func cursorOfAnotherServerIsNotOurs(t *testing.T, db *store.DB) {
	source := store.Source{Bot: 4711, Server: "https://api.example.org"}
	update(t, db, func(tx *store.Tx) { tx.SetCursor("getUpdates", source, 727334709) })
	view(t, db, func(tx *store.Tx) {
		if at, ok := tx.Cursor("getUpdates", source); !ok || at != 727334709 {
			t.Errorf("cursor %d %v, want 727334709", at, ok)
		}
		for _, other := range []store.Source{
			{Bot: 4712, Server: source.Server},
			{Bot: source.Bot, Server: "http://127.0.0.1:8081"},
		} {
			if at, ok := tx.Cursor("getUpdates", other); ok || at != 0 {
				t.Errorf("cursor for %v: %d, want none", other, at)
			}
		}
		if _, ok := tx.Cursor("webhook", source); ok {
			t.Error("a cursor of another name")
		}
	})
}

func quarantineKeepsTheLast(t *testing.T, db *store.DB) {
	update(t, db, func(tx *store.Tx) {
		for i := range store.KeptQuarantined + 3 {
			tx.Quarantine(strconv.Itoa(i), []byte{0xff, byte(i)})
		}
		kept := tx.Quarantined()
		if len(kept) != store.KeptQuarantined {
			t.Fatalf("%d kept, want %d", len(kept), store.KeptQuarantined)
		}
		want := store.Quarantined{ID: "3", When: noon, Raw: []byte{0xff, 3}}
		if diff := cmp.Diff(want, kept[0]); diff != "" {
			t.Errorf("oldest (-want +got):\n%s", diff)
		}
	})
}
