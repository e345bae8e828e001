// Package storetest says what any [store.DB] must do, whatever is under it: one
// file, or a copy whose changes go to other machines before they count.
//
// [Test] holds a DB against all of it. The tests are of behaviour only, and nothing
// in them knows of a file, a journal or a lease; what those must do is for the tests
// of whoever has them. Most are about one rule each and read as an example of it.
// The last does random things to the DB and to plain maps, and compares.
//
// [LikeTheModel] is that last one with restarts in between, for who can restart what
// is under a DB. [Anything] writes at random, whatever it may be: for who compares
// one copy with another and needs no model.
package storetest

import (
	"testing"
	"time"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/store"
)

// Test fails where a DB breaks the contract. open returns a new and empty one for
// each rule, and closes it when the test that it is given ends. Its clock is set
// by the rules.
func Test(t *testing.T, open func(t *testing.T) *store.DB) {
	for _, rule := range rules {
		t.Run(rule.name, func(t *testing.T) {
			db := open(t)
			db.Now = func() time.Time { return noon }
			rule.holds(t, db)
			if err := db.Check(); err != nil {
				t.Errorf("check after the test: %v", err)
			}
		})
	}
}

var rules = []struct {
	name  string
	holds func(*testing.T, *store.DB)
}{
	// Transactions.
	{"an error rolls back all", errorRollsBackAll},
	{"a panic rolls back all and goes on up", panicRollsBackAllAndGoesOnUp},
	{"a failed write rolls back all", failedWriteRollsBackAll},
	{"a view writes nothing", viewWritesNothing},
	{"a view sees what was there when it began", viewSeesWhatWasThere},
	{"writers follow one another", writersFollowOneAnother},
	{"a backup is whole while others write", backupWhileWriting},
	{"compacting is seen by nobody", compactWhileWriting},
	{"the hash is of what is kept", hashIsOfWhatIsKept},

	// Messages.
	{"ids may fall", idsMayFall},
	{"seen ids are forgotten in the end", seenIDsAreForgottenInTheEnd},
	{"a cursor of another server is not ours", cursorOfAnotherServerIsNotOurs},
	{"the outbox keeps its order", outboxKeepsItsOrder},
	{"the quarantine keeps the last", quarantineKeepsTheLast},

	// People.
	{"nothing reaches another", nothingReachesAnother},
	{"takeoffs are kept by fitting and pipe", takeoffsAreKeptByFittingAndPipe},
	{"a takeoff of nothing is refused", takeoffOfNothingIsRefused},
	{"jobs are numbered once", jobsAreNumberedOnce},
	{"old jobs go first", oldJobsGoFirst},
	{"as many jobs are kept as is set", asManyJobsAreKeptAsIsSet},
	{"notes outlive the transaction", notesOutliveTheTransaction},
	{"exchanges are found both ways", exchanges},
	{"an export is all that is kept", exportIsAllThatIsKept},
	{"the forgotten are gone everywhere", forgottenAreGoneEverywhere},
	{"a chat moves with all it keeps", moveChat},

	// Lists.
	{"a crew shares a book", crewSharesABook},
	{"a cut list keeps its numbers", cutListKeepsItsNumbers},
	{"a cut list is whole or not", cutListIsWholeOrNot},
	{"a cut list is full", cutListIsFull},
	{"a cut list moves with the chat", cutListMovesWithTheChat},
	{"a piece reads back", pieceReadsBack},

	// All of it.
	{"it is like the model", func(t *testing.T, db *store.DB) { LikeTheModel(t, db, nil) }},
}

// noon is when the tests happen: the first day on Juniper Street.
var noon = time.Date(2026, time.November, 3, 12, 0, 0, 0, time.UTC)

var (
	upstairs = store.ChatOf("telegram", "1207")
	dana     = upstairs.Person("7")
)

// sixteenths is a takeoff measured with a tape on one fitting.
func sixteenths(system, fitting string, size catalog.Size, line string, n int) store.Takeoff {
	return store.Takeoff{
		System: system, Fitting: fitting, Size: size, Line: line,
		Length: geometry.Length(n) / 16, How: "center to stop", When: noon,
	}
}

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

func update(t *testing.T, db *store.DB, fn func(*store.Tx)) {
	t.Helper()
	if err := db.Update(func(tx *store.Tx) error { fn(tx); return nil }); err != nil {
		t.Fatalf("Update: %v", err)
	}
}

func view(t *testing.T, db *store.DB, fn func(*store.Tx)) {
	t.Helper()
	if err := db.View(func(tx *store.Tx) error { fn(tx); return nil }); err != nil {
		t.Fatalf("View: %v", err)
	}
}

// Everything writes one of each kind: what one incoming message leaves behind.
func Everything(tx *store.Tx) {
	p := tx.Person(dana)
	p.AddJob(store.Job{Name: "laundry"})
	p.SetTakeoff(sixteenths("pvc-dwv", "45", "2", "", 18))
	p.SetCrewTakeoff(sixteenths("pvc-dwv", "45", "2", "", 19))
	p.AddCut(piece(14.75))
	p.SetExchange(store.Exchange{Question: 11, Answer: 12, Jobs: []uint64{1}})
	p.SetNote(store.Question, []byte("size?"))
	tx.Queue(upstairs, []byte("Cut 14-3/4 in"))
	tx.MarkDone("727334708")
	tx.SetCursor("getUpdates", store.Source{Bot: 1}, 727334709)
	tx.Quarantine("727334707", []byte("{"))
}

// Nothing fails the test if anything of Everything is there.
func Nothing(t *testing.T, db *store.DB) {
	t.Helper()
	view(t, db, func(tx *store.Tx) {
		_, cursor := tx.Cursor("getUpdates", store.Source{Bot: 1})
		crew := tx.Person(dana).CrewTakeoffs()
		if len(tx.People())+len(crew)+len(tx.Outbox())+len(tx.Quarantined()) != 0 || tx.Done("727334708") || cursor {
			t.Error("a transaction that did not end well left something behind")
		}
	})
}
