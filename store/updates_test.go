package store_test

import (
	"errors"
	"fmt"
	"strconv"
	"testing"
	"time"

	"dogleg/store"

	"github.com/google/go-cmp/cmp"
)

// everything writes one of each kind: what one incoming message leaves behind.
func everything(tx *store.Tx) {
	p := tx.Person(dana)
	p.AddJob(store.Job{Name: "laundry"})
	p.SetTakeoff(sixteenths("pvc-dwv", "45", "2", "", 18))
	p.SetCrewTakeoff(sixteenths("pvc-dwv", "45", "2", "", 19))
	p.AddCut(piece(14.75))
	p.SetNote(store.Question, []byte("size?"))
	tx.Queue(upstairs, []byte("Cut 14-3/4 in"))
	tx.MarkDone("727334708")
	tx.SetCursor("getUpdates", store.Source{Bot: 1}, 727334709)
	tx.Quarantine("727334707", []byte("{"))
}

// nothing fails the test if anything of everything is there.
func nothing(t *testing.T, db *store.DB) {
	t.Helper()
	view(t, db, func(tx *store.Tx) {
		_, cursor := tx.Cursor("getUpdates", store.Source{Bot: 1})
		crew := tx.Person(dana).CrewTakeoffs()
		if len(tx.People())+len(crew)+len(tx.Outbox())+len(tx.Quarantined()) != 0 || tx.Done("727334708") || cursor {
			t.Error("a transaction that did not end well left something behind")
		}
	})
}

func TestErrorRollsBackAll(t *testing.T) {
	db := fresh(t)
	leak := errors.New("a leak")
	err := db.Update(func(tx *store.Tx) error {
		everything(tx)
		return leak
	})
	if !errors.Is(err, leak) {
		t.Errorf("Update: %v, want the error of the function", err)
	}
	nothing(t, db)
}

func TestPanicRollsBackAllAndGoesOnUp(t *testing.T) {
	db := fresh(t)
	func() {
		defer func() {
			if got := recover(); got != "burst" {
				t.Errorf("recovered %v, want the panic of the function", got)
			}
		}()
		_ = db.Update(func(tx *store.Tx) error {
			everything(tx)
			panic("burst")
		})
	}()
	nothing(t, db)
	update(t, db, everything) // and the database still works
}

func TestFailedWriteRollsBackAll(t *testing.T) {
	db := fresh(t)
	err := db.Update(func(tx *store.Tx) error {
		everything(tx)
		tx.MarkDone("") // bbolt has no empty keys
		if tx.Err() == nil {
			t.Error("the transaction does not say that it failed")
		}
		everything(tx)
		return nil
	})
	if err == nil {
		t.Error("Update lost the error of a write")
	}
	nothing(t, db)
}

func TestViewWritesNothing(t *testing.T) {
	db := fresh(t)
	if err := db.View(func(tx *store.Tx) error { everything(tx); return nil }); err == nil {
		t.Error("View took a write without an error")
	}
	nothing(t, db)
}

func TestIDsMayFall(t *testing.T) {
	db := fresh(t)
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

func TestSeenIDsAreForgottenInTheEnd(t *testing.T) {
	db := fresh(t)
	db.WithoutSync()
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

func TestCursorOfAnotherServerIsNotOurs(t *testing.T) {
	db := fresh(t)
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

func TestOutboxOutlivesRestartInOrder(t *testing.T) {
	path := t.TempDir() + "/juniper.db"
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	db.Now = func() time.Time { return noon }
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
		want := store.Entry{
			Number: e.Number, Chat: []store.Chat{upstairs, down}[i%2],
			Queued: noon, Payload: fmt.Append(nil, i),
		}
		if diff := cmp.Diff(want, e); diff != "" {
			t.Fatalf("entry %d (-want +got):\n%s", i, diff)
		}
	}
	update(t, db, func(tx *store.Tx) {
		tx.StrikeOff(queued...)
		last := tx.Queue(upstairs, []byte("after"))
		tx.StrikeOff(queued...) // a late sender strikes off once more
		if got := tx.Outbox(); len(got) != 1 || got[0].Number != last.Number {
			t.Errorf("outbox %v, want the last entry alone", got)
		}
	})
}

func TestQuarantineKeepsTheLast(t *testing.T) {
	db := fresh(t)
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
