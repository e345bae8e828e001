package storetest

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"dogleg/store"

	"github.com/google/go-cmp/cmp"
)

// This file is about the database as a whole: who sees what while others write.

func viewSeesWhatWasThere(t *testing.T, db *store.DB) {
	// A file that has to grow waits for who reads it; this one is large enough.
	update(t, db, func(tx *store.Tx) { tx.Queue(upstairs, make([]byte, 1<<18)) })
	update(t, db, func(tx *store.Tx) { tx.StrikeOff(tx.Outbox()...) })
	update(t, db, func(tx *store.Tx) { tx.Queue(upstairs, []byte("before")) })
	began, written := make(chan bool), make(chan bool)
	var reading sync.WaitGroup
	reading.Go(func() {
		err := db.View(func(tx *store.Tx) error {
			close(began)
			<-written
			if got := len(tx.Outbox()); got != 1 {
				t.Errorf("%d wait in a view that began when 1 did", got)
			}
			return nil
		})
		if err != nil {
			t.Error(err)
		}
	})
	<-began
	update(t, db, func(tx *store.Tx) { tx.Queue(upstairs, []byte("meanwhile")) })
	close(written)
	reading.Wait()
	view(t, db, func(tx *store.Tx) {
		if got := len(tx.Outbox()); got != 2 {
			t.Errorf("%d wait after the second was queued", got)
		}
	})
}

// Every writer sees what those before it wrote, so that no number is given twice.
func writersFollowOneAnother(t *testing.T, db *store.DB) {
	const writers, each = 4, 15
	var writing sync.WaitGroup
	for range writers {
		writing.Go(func() {
			for range each {
				err := db.Update(func(tx *store.Tx) error {
					n := tx.Person(dana).AddJob(store.Job{})
					tx.Queue(upstairs, fmt.Append(nil, n))
					return nil
				})
				if err != nil {
					t.Error(err)
				}
			}
		})
	}
	writing.Wait()
	view(t, db, func(tx *store.Tx) {
		box := tx.Outbox()
		if len(box) != writers*each {
			t.Errorf("%d replies, want %d", len(box), writers*each)
		}
		for i, e := range box {
			if want := fmt.Sprint(i + 1); string(e.Payload) != want {
				t.Fatalf("reply %s is to job %s", want, e.Payload)
			}
		}
	})
}

func backupWhileWriting(t *testing.T, db *store.DB) {
	update(t, db, func(tx *store.Tx) { tx.Person(dana).AddJob(store.Job{Name: "laundry"}) })
	var writing sync.WaitGroup
	writing.Go(func() {
		for range 100 {
			err := db.Update(func(tx *store.Tx) error {
				n := tx.Person(dana).AddJob(store.Job{})
				tx.Queue(upstairs, []byte{byte(n)})
				return nil
			})
			if err != nil {
				t.Error(err)
			}
		}
	})
	var during bytes.Buffer
	err := db.Backup(&during)
	writing.Wait()
	if err != nil {
		t.Fatal(err)
	}
	view(t, opened(t, during.Bytes()), func(tx *store.Tx) {
		jobs := tx.Person(dana).Jobs()
		if len(jobs) == 0 || jobs[0].Name != "laundry" {
			t.Errorf("the copy has jobs %v, want laundry first", jobs)
		}
		if got, want := len(tx.Outbox()), len(jobs)-1; got != want {
			t.Errorf("the copy has %d in the outbox beside %d jobs: torn", got, want)
		}
	})
	var after bytes.Buffer
	if err := db.Backup(&after); err != nil {
		t.Fatal(err)
	}
	if hash(t, opened(t, after.Bytes())) != hash(t, db) {
		t.Error("the copy of a database at rest is not what is in it")
	}
}

// opened is what is in a backup.
func opened(t *testing.T, backup []byte) *store.DB {
	t.Helper()
	path := filepath.Join(t.TempDir(), "backup.db")
	if err := os.WriteFile(path, backup, 0o600); err != nil {
		t.Fatal(err)
	}
	db, err := store.Open(path)
	if err != nil {
		t.Fatalf("a backup can't be opened: %v", err)
	}
	t.Cleanup(func() {
		if err := errors.Join(db.Check(), db.Close()); err != nil {
			t.Error(err)
		}
	})
	return db
}

func hash(t *testing.T, db *store.DB) string {
	t.Helper()
	sum, err := db.Hash()
	if err != nil {
		t.Fatal(err)
	}
	return sum
}

func compactWhileWriting(t *testing.T, db *store.DB) {
	const writers, each = 4, 25
	var writing sync.WaitGroup
	for writer := range writers {
		writing.Go(func() {
			for range each {
				err := db.Update(func(tx *store.Tx) error {
					tx.Person(upstairs.Person(fmt.Sprint(writer))).AddJob(store.Job{Asked: strings.Repeat("x", 3000)})
					return nil
				})
				if err != nil {
					t.Error(err)
				}
			}
		})
	}
	for range 5 {
		if err := db.Compact(t.Context()); err != nil {
			t.Error(err)
		}
	}
	writing.Wait()
	view(t, db, func(tx *store.Tx) {
		for writer := range writers {
			jobs := tx.Person(upstairs.Person(fmt.Sprint(writer))).Jobs()
			if len(jobs) != each || jobs[each-1].Number != each {
				t.Errorf("writer %d: %d jobs", writer, len(jobs))
			}
		}
	})
}

// Whatever was written changes the hash, and nothing else does.
func hashIsOfWhatIsKept(t *testing.T, db *store.DB) {
	view(t, db, func(*store.Tx) {})
	seen := map[string]string{hash(t, db): "nothing"}
	box := store.Entry{}
	for _, written := range []struct {
		what string
		fn   func(*store.Tx)
	}{
		{"everything", Everything},
		{"a reply", func(tx *store.Tx) { box = tx.Queue(upstairs, []byte("x")) }},
		{"the number of a reply that was sent", func(tx *store.Tx) { tx.StrikeOff(box) }},
		{"an empty note", func(tx *store.Tx) { tx.Person(dana).SetNote(store.State, []byte{}) }},
		{"a moved chat", func(tx *store.Tx) { tx.MoveChat(upstairs, store.ChatOf("telegram", "-9")) }},
		{"the forgotten", func(tx *store.Tx) { tx.Person(dana).Forget("Dana") }},
	} {
		update(t, db, written.fn)
		sum := hash(t, db)
		if before, twice := seen[sum]; twice {
			t.Errorf("%s has the same hash as %s", written.what, before)
		}
		seen[sum] = written.what
	}
	before := hash(t, db)
	if err := db.Compact(t.Context()); err != nil {
		t.Fatal(err)
	}
	update(t, db, func(*store.Tx) {})
	if hash(t, db) != before {
		t.Error("the hash changed, and nothing was written")
	}
}

func outboxKeepsItsOrder(t *testing.T, db *store.DB) {
	down := store.ChatOf("telegram", "1208")
	update(t, db, func(tx *store.Tx) {
		for i := range 300 { // enough for the numbers to need two bytes
			tx.Queue([]store.Chat{upstairs, down}[i%2], fmt.Append(nil, i))
		}
	})
	var queued []store.Entry
	view(t, db, func(tx *store.Tx) { queued = tx.Outbox() })
	if len(queued) != 300 {
		t.Fatalf("%d entries, want 300", len(queued))
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

// What a user keeps is gone in every chat; what they measured for a crew stays, and
// so does what others keep.
func forgottenAreGoneEverywhere(t *testing.T, db *store.DB) {
	alone, group := store.ChatOf("telegram", "70911342"), store.ChatOf("telegram", "-1207")
	sam := group.Person("8")
	update(t, db, func(tx *store.Tx) {
		for _, chat := range []store.Chat{alone, group} {
			p := tx.Person(chat.Person("70911342"))
			p.AddJob(store.Job{Asked: "17 rolling"})
			p.SetCrewTakeoff(sixteenths("pvc-dwv", "45", "2", "", 18))
		}
		tx.Quarantine("telegram 1", []byte(`{"from":{"id":70911342}}`))
		tx.Quarantine("telegram 2", []byte(`{"from":{"id":170911342}}`))
		tx.Person(sam).AddJob(store.Job{Asked: "Sam's own job"})
	})
	if db.Forgotten() {
		t.Error("nobody was forgotten yet")
	}
	update(t, db, func(tx *store.Tx) { tx.Person(group.Person("70911342")).Forget("") })
	if !db.Forgotten() {
		t.Error("nothing tells that it should be compacted")
	}
	view(t, db, func(tx *store.Tx) {
		if diff := cmp.Diff([]store.Key{sam}, tx.People()); diff != "" {
			t.Errorf("people (-want +got):\n%s", diff)
		}
		if kept := tx.Person(sam).CrewTakeoffs(); len(kept) != 1 || kept[0].Setter != "" {
			t.Errorf("the crew's book: %v", kept)
		}
		if kept := tx.Person(alone.Person("8")).CrewTakeoffs(); len(kept) != 0 {
			t.Errorf("the book of a chat of theirs alone: %v", kept)
		}
		if q := tx.Quarantined(); len(q) != 1 || q[0].ID != "telegram 2" {
			t.Errorf("in quarantine: %v", q)
		}
	})
	if err := db.Compact(t.Context()); err != nil || db.Forgotten() {
		t.Errorf("compacted: %v; it is to be compacted still: %v", err, db.Forgotten())
	}
}
