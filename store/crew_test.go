package store_test

import (
	"path/filepath"
	"testing"

	"dogleg/store"
)

// A file from before crews had books is brought up to date.
func TestFileWithoutCrewsIsBroughtUpToDate(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	update(t, db, func(tx *store.Tx) { tx.Person(dana).AddJob(store.Job{Name: "laundry"}) })
	older(t, db, 1, "crews")
	db = open(t, path)
	update(t, db, func(tx *store.Tx) {
		p := tx.Person(dana)
		p.SetCrewTakeoff(sixteenths("pvc-dwv", "45", "2", "", 18))
		if len(p.Jobs()) != 1 || len(p.CrewTakeoffs()) != 1 {
			t.Error("a job was lost on the way, or the crew has no book")
		}
	})
}
