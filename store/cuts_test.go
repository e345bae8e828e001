package store_test

import (
	"compress/gzip"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"dogleg/geometry"
	"dogleg/store"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// piece is a piece of the laundry stack.
func piece(inches float64) store.Cut {
	return store.Cut{
		When: noon, Length: geometry.Length(inches), System: "pvc-dwv", Size: "2",
		Fittings: [2]string{"45", "45"}, Name: "laundry", Floor: "second floor",
	}
}

func numbered(c store.Cut, n uint64) store.Cut {
	c.Number = n
	return c
}

func TestCutListKeepsItsNumbers(t *testing.T) {
	db := fresh(t)
	update(t, db, func(tx *store.Tx) {
		p := tx.Person(dana)
		for i, want := range []uint64{1, 2, 3} {
			if got := p.AddCut(piece(float64(10 + i))); got != want {
				t.Errorf("piece %d got the number %d", want, got)
			}
		}
		done := numbered(piece(12), 3)
		done.Done = noon
		if !p.DropCut(2) || p.DropCut(2) || !p.ChangeCut(done) || p.ChangeCut(numbered(piece(1), 9)) {
			t.Error("a piece can be dropped once, and changed while it is there")
		}
		if got := p.AddCut(piece(13)); got != 4 {
			t.Errorf("the number of a dropped piece came again: %d", got)
		}
	})
	view(t, db, func(tx *store.Tx) {
		done := numbered(piece(12), 3)
		done.Done = noon
		want := []store.Cut{numbered(piece(10), 1), done, numbered(piece(13), 4)}
		if diff := cmp.Diff(want, tx.Person(dana).Cuts()); diff != "" {
			t.Errorf("the list (-want +got):\n%s", diff)
		}
	})
	update(t, db, func(tx *store.Tx) {
		p := tx.Person(dana)
		p.ClearCuts()
		p.ClearCuts()
		if len(p.Cuts()) != 0 || p.AddCut(piece(9)) != 1 {
			t.Error("a new list begins at 1")
		}
	})
}

func TestCutListIsWholeOrNot(t *testing.T) {
	db := fresh(t)
	burst := errors.New("pipe burst")
	err := db.Update(func(tx *store.Tx) error {
		tx.Person(dana).AddCut(piece(10))
		tx.Queue(upstairs, []byte("On the list"))
		return burst
	})
	if !errors.Is(err, burst) {
		t.Fatal(err)
	}
	err = db.Update(func(tx *store.Tx) error {
		tx.Person(dana).AddCut(piece(10))
		tx.Person(dana).AddCut(piece(0))
		return nil
	})
	if err == nil {
		t.Error("a piece of no length was kept")
	}
	view(t, db, func(tx *store.Tx) {
		if got := tx.Person(dana).Cuts(); len(got) != 0 || len(tx.Outbox()) != 0 {
			t.Errorf("half of it was kept: %v", got)
		}
	})
}

func TestCutListIsFull(t *testing.T) {
	db := fresh(t)
	update(t, db, func(tx *store.Tx) {
		p := tx.Person(dana)
		for range store.KeptCuts {
			if p.AddCut(piece(10)) == 0 {
				t.Fatal("full too soon")
			}
		}
		if got := p.AddCut(piece(10)); got != 0 || len(p.Cuts()) != store.KeptCuts {
			t.Errorf("one too many was kept as %d", got)
		}
	})
}

// A group that becomes another takes its list along, even where someone has
// spoken there before the news came.
func TestCutListMovesWithTheChat(t *testing.T) {
	db := fresh(t)
	to := store.ChatOf("telegram", "-1001207")
	crew, crewThere := upstairs.Person(""), to.Person("")
	update(t, db, func(tx *store.Tx) {
		tx.Person(crew).AddCut(piece(10))
		tx.Person(dana).AddCut(piece(11))
		tx.Person(crewThere).SetNote(store.State, []byte(`{}`))
	})
	update(t, db, func(tx *store.Tx) { tx.MoveChat(upstairs, to) })
	view(t, db, func(tx *store.Tx) {
		for key, want := range map[store.Key]geometry.Length{crewThere: 10, to.Person("7"): 11} {
			if got := tx.Person(key).Cuts(); len(got) != 1 || got[0].Length != want {
				t.Errorf("%s has %v", key, got)
			}
		}
		if got := tx.Person(crew).Cuts(); len(got) != 0 {
			t.Errorf("the old group still has %v", got)
		}
	})
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

// What is written is what is read, whatever the piece.
func TestPieceReadsBack(t *testing.T) {
	c := piece(1.0 / 3)
	c.About, c.Band, c.When = true, 0.1, noon.Add(time.Nanosecond)
	db := fresh(t)
	update(t, db, func(tx *store.Tx) { tx.Person(dana).AddCut(c) })
	view(t, db, func(tx *store.Tx) {
		if diff := cmp.Diff(c, tx.Person(dana).Cuts()[0], cmpopts.IgnoreFields(store.Cut{}, "Number")); diff != "" {
			t.Error(diff)
		}
	})
}
