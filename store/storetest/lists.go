package storetest

import (
	"errors"
	"testing"
	"time"

	"dogleg/geometry"
	"dogleg/store"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

func crewSharesABook(t *testing.T, db *store.DB) {
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

func cutListKeepsItsNumbers(t *testing.T, db *store.DB) {
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

func cutListIsWholeOrNot(t *testing.T, db *store.DB) {
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

func cutListIsFull(t *testing.T, db *store.DB) {
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
func cutListMovesWithTheChat(t *testing.T, db *store.DB) {
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

// What is written is what is read, whatever the piece.
func pieceReadsBack(t *testing.T, db *store.DB) {
	c := piece(1.0 / 3)
	c.About, c.Band, c.When = true, 0.1, noon.Add(time.Nanosecond)
	update(t, db, func(tx *store.Tx) { tx.Person(dana).AddCut(c) })
	view(t, db, func(tx *store.Tx) {
		if diff := cmp.Diff(c, tx.Person(dana).Cuts()[0], cmpopts.IgnoreFields(store.Cut{}, "Number")); diff != "" {
			t.Error(diff)
		}
	})
}
