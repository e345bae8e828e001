package store_test

import (
	"path/filepath"
	"testing"

	"dogleg/store"

	"github.com/google/go-cmp/cmp"
	"go.etcd.io/bbolt"
)

func TestCrewSharesABook(t *testing.T) {
	db := fresh(t)
	sam := dana.Chat().Person("8")
	elsewhere := store.ChatOf("telegram", "99").Person("7")
	set := sixteenths("pvc-dwv", "45", "2", "", 18)
	set.By, set.Setter = "Dana", "7"
	update(t, db, func(tx *store.Tx) {
		tx.Person(dana).SetCrewTakeoff(set)
		tx.Person(sam).SetTakeoff(sixteenths("pvc-dwv", "45", "2", "", 20))
	})
	view(t, db, func(tx *store.Tx) {
		if diff := cmp.Diff([]store.Takeoff{set}, tx.Person(sam).CrewTakeoffs()); diff != "" {
			t.Errorf("what Sam finds in the crew's book (-want +got):\n%s", diff)
		}
		if got := tx.Person(sam).Takeoffs(); len(got) != 1 || got[0].Length != 20.0/16 {
			t.Errorf("Sam's own: %v", got)
		}
		if got := tx.Person(elsewhere).CrewTakeoffs(); len(got) != 0 {
			t.Errorf("the book reached another chat: %v", got)
		}
		if got := tx.Person(dana).Takeoffs(); len(got) != 0 {
			t.Errorf("the crew's takeoff is in Dana's own book as well: %v", got)
		}
	})
	update(t, db, func(tx *store.Tx) {
		if tx.Person(elsewhere).ForgetCrewTakeoff(set) || !tx.Person(sam).ForgetCrewTakeoff(set) {
			t.Error("the crew's takeoff can be forgotten by the crew, and by nobody else")
		}
	})
}

// A file from before crews had books is brought up to date.
func TestFileWithoutCrewsIsBroughtUpToDate(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	update(t, db, func(tx *store.Tx) { tx.Person(dana).AddJob(store.Job{Name: "laundry"}) })
	err = db.Tamper(func(tx *bbolt.Tx) error {
		if err := tx.DeleteBucket([]byte("crews")); err != nil {
			return err
		}
		return tx.Bucket([]byte("meta")).Put([]byte("version"), []byte{0, 0, 0, 0, 0, 0, 0, 1})
	})
	if err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	db = open(t, path)
	update(t, db, func(tx *store.Tx) {
		p := tx.Person(dana)
		p.SetCrewTakeoff(sixteenths("pvc-dwv", "45", "2", "", 18))
		if len(p.Jobs()) != 1 || len(p.CrewTakeoffs()) != 1 {
			t.Error("a job was lost on the way, or the crew has no book")
		}
	})
}
