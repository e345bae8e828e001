package store_test

import (
	"compress/gzip"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"testing"

	"dogleg/geometry"
	"dogleg/store"

	"github.com/google/go-cmp/cmp"
)

// piece is a piece of the laundry stack.
func piece(inches float64) store.Cut {
	return store.Cut{
		When: noon, Length: geometry.Length(inches), System: "pvc-dwv", Size: "2",
		Fittings: [2]string{"45", "45"}, Name: "laundry", Floor: "second floor",
	}
}

// A file that the version before cut lists wrote, kept in testdata as it was
// written, comes up to date with all that is in it.
func TestFileWithoutCutListsIsBroughtUpToDate(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	unpack(t, "testdata/version-2.db.gz", path)
	db := open(t, path)
	if got, today := db.Version(), fresh(t).Version(); got != today {
		t.Errorf("version %d, want %d", got, today)
	}
	update(t, db, func(tx *store.Tx) {
		p := tx.Person(dana)
		laundry := store.Job{
			Number: 1, When: noon, Name: "laundry", Asked: "set 10-3/8 45s 2 pvc dwv",
			Ask: json.RawMessage(`{"Kind":"offset"}`), Figure: "Cut about 11-11/16 in",
			Summary: "set 10-3/8, two 45s, 2 PVC DWV", Reply: "Cut about 11-11/16 in", Steps: "1. Set",
		}
		if diff := cmp.Diff([]store.Job{laundry}, p.Jobs()); diff != "" {
			t.Errorf("jobs (-want +got):\n%s", diff)
		}
		own, crews := p.Takeoffs(), p.CrewTakeoffs()
		if len(own) != 1 || own[0].Length != 18.0/16 || len(crews) != 1 || crews[0].By != "Dana" {
			t.Errorf("takeoffs: %v, the crew's %v", own, crews)
		}
		if got := string(p.Note(store.State)); got != `{"Noticed":true}` {
			t.Errorf("state: %s", got)
		}
		at, ok := tx.Cursor("telegram updates", store.Source{Bot: 7, Server: "http://127.0.0.1"})
		if box := tx.Outbox(); at != 1207 || !ok || !tx.Done("update 1") || len(box) != 1 || len(tx.Quarantined()) != 1 {
			t.Errorf("cursor %d, outbox %v", at, box)
		}
		if got := p.AddJob(store.Job{When: noon}); got != 3 {
			t.Errorf("the next job has the number %d", got)
		}
		if got := p.AddCut(piece(10)); got != 1 {
			t.Errorf("the first piece has the number %d", got)
		}
	})
}

func unpack(t *testing.T, packed, path string) {
	t.Helper()
	from, err := os.Open(packed)
	if err != nil {
		t.Fatal(err)
	}
	defer from.Close()
	r, err := gzip.NewReader(from)
	if err != nil {
		t.Fatal(err)
	}
	content, err := io.ReadAll(r)
	if err == nil {
		err = os.WriteFile(path, content, 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
}
