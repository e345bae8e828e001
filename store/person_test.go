package store_test

import (
	"testing"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/store"

	"github.com/google/go-cmp/cmp"
)

// sixteenths is a takeoff measured with a tape on one fitting.
func sixteenths(system, fitting string, size catalog.Size, line string, n int) store.Takeoff {
	return store.Takeoff{
		System: system, Fitting: fitting, Size: size, Line: line,
		Length: geometry.Length(n) / 16, How: "center to stop", When: noon,
	}
}

func TestKeysKeepPeopleApart(t *testing.T) {
	keys := map[store.Key]string{}
	for _, who := range [][3]string{
		{"telegram", "12", "7"},
		{"telegram", "1", "27"},
		{"telegram", "12/7", ""},
		{"telegram", "", "12/7"},
		{"telegram/12", "7", ""},
		{"terminal", "12", "7"},
		{"telegram", "12", "7%2F"},
		{"telegram", "12", "7/"},
	} {
		key := store.ChatOf(who[0], who[1]).Person(who[2])
		if before, twice := keys[key]; twice {
			t.Errorf("%v and %v share the key %s", who, before, key)
		}
		keys[key] = who[0] + " " + who[1] + " " + who[2]
		if got, want := key.Chat(), store.ChatOf(who[0], who[1]); got != want {
			t.Errorf("chat of %s: %s, want %s", key, got, want)
		}
	}
}

func TestNothingReachesAnother(t *testing.T) {
	db := fresh(t)
	sam := upstairs.Person("8")
	update(t, db, func(tx *store.Tx) {
		p := tx.Person(dana)
		p.AddJob(store.Job{Name: "laundry"})
		p.SetTakeoff(sixteenths("pvc-dwv", "45", "2", "", 18))
		p.SetNote(store.Settings, []byte("metric"))
		tx.Person(sam).SetNote(store.State, []byte("x"))
	})
	view(t, db, func(tx *store.Tx) {
		p := tx.Person(sam)
		if len(p.Jobs()) != 0 || len(p.Takeoffs()) != 0 || p.Note(store.Settings) != nil {
			t.Error("one person's things reached another")
		}
		if diff := cmp.Diff([]store.Key{dana, sam}, tx.People()); diff != "" {
			t.Errorf("people (-want +got):\n%s", diff)
		}
	})
	update(t, db, func(tx *store.Tx) { tx.Person(dana).Forget("") })
	view(t, db, func(tx *store.Tx) {
		if diff := cmp.Diff([]store.Key{sam}, tx.People()); diff != "" {
			t.Errorf("people after one is forgotten (-want +got):\n%s", diff)
		}
	})
}

func TestTakeoffsAreKeptByFittingAndPipe(t *testing.T) {
	db := fresh(t)
	update(t, db, func(tx *store.Tx) {
		p := tx.Person(dana)
		p.SetTakeoff(sixteenths("pvc-dwv", "45", "2", "", 18))
		p.SetTakeoff(sixteenths("pvc-dwv", "45", "2", "the grey ones", 20))
		p.SetTakeoff(sixteenths("pvc-dwv", "street 45", "1-1/2", "", 9))
		p.SetTakeoff(sixteenths("pvc-dwv", "45", "2", "", 17)) // measured again
		if !p.ForgetTakeoff(store.Takeoff{System: "pvc-dwv", Fitting: "street 45", Size: "1-1/2"}) {
			t.Error("a takeoff that is there was not forgotten")
		}
		if p.ForgetTakeoff(store.Takeoff{System: "abs-dwv", Fitting: "45", Size: "2"}) {
			t.Error("a takeoff that is not there was forgotten")
		}
	})
	view(t, db, func(tx *store.Tx) {
		want := []store.Takeoff{
			sixteenths("pvc-dwv", "45", "2", "", 17),
			sixteenths("pvc-dwv", "45", "2", "the grey ones", 20),
		}
		if diff := cmp.Diff(want, tx.Person(dana).Takeoffs()); diff != "" {
			t.Errorf("takeoffs (-want +got):\n%s", diff)
		}
	})
}

func TestTakeoffOfNothingIsRefused(t *testing.T) {
	db := fresh(t)
	err := db.Update(func(tx *store.Tx) error {
		p := tx.Person(dana)
		p.AddJob(store.Job{Name: "laundry"})
		p.SetTakeoff(sixteenths("pvc-dwv", "45", "2", "", 0))
		return nil
	})
	if err == nil {
		t.Error("a takeoff of 0 was kept")
	}
	view(t, db, func(tx *store.Tx) {
		if jobs := tx.Person(dana).Jobs(); len(jobs) != 0 {
			t.Errorf("a refused write left %v behind", jobs)
		}
	})
}

func TestJobsAreNumberedOnce(t *testing.T) {
	db := fresh(t)
	update(t, db, func(tx *store.Tx) {
		p := tx.Person(dana)
		for _, name := range []string{"laundry", "bath", "kitchen"} {
			p.AddJob(store.Job{Name: name, When: noon, Ask: []byte(`{}`)})
		}
		p.DropJob(3)
		if n := p.AddJob(store.Job{Name: "attic", Ask: []byte(`{}`)}); n != 4 {
			t.Errorf("the job after a dropped 3 got number %d, want 4", n)
		}
		if !p.ChangeJob(store.Job{Number: 2, Name: "upstairs bath", Ask: []byte(`{}`)}) {
			t.Error("job 2 could not be changed")
		}
		if p.ChangeJob(store.Job{Number: 3, Name: "back again"}) || p.DropJob(3) {
			t.Error("a dropped job came back")
		}
	})
	view(t, db, func(tx *store.Tx) {
		want := []store.Job{
			{Number: 1, Name: "laundry", When: noon, Ask: []byte(`{}`)},
			{Number: 2, Name: "upstairs bath", Ask: []byte(`{}`)},
			{Number: 4, Name: "attic", Ask: []byte(`{}`)},
		}
		p := tx.Person(dana)
		if diff := cmp.Diff(want, p.Jobs()); diff != "" {
			t.Errorf("jobs (-want +got):\n%s", diff)
		}
		if last, ok := p.Job(0); !ok || last.Number != 4 {
			t.Errorf("last job: %v %v, want 4", last.Number, ok)
		}
		if _, ok := p.Job(3); ok {
			t.Error("job 3 is still there")
		}
	})
}

func TestOldJobsGoFirst(t *testing.T) {
	db := fresh(t)
	update(t, db, func(tx *store.Tx) {
		for range store.KeptJobs + 7 {
			tx.Person(dana).AddJob(store.Job{})
		}
		jobs := tx.Person(dana).Jobs()
		if len(jobs) != store.KeptJobs || jobs[0].Number != 8 || jobs[len(jobs)-1].Number != store.KeptJobs+7 {
			t.Errorf("%d jobs kept, from %d: want the last %d", len(jobs), jobs[0].Number, store.KeptJobs)
		}
	})
}

func TestNotesOutliveTheTransaction(t *testing.T) {
	db := fresh(t)
	note := []byte("size?")
	update(t, db, func(tx *store.Tx) {
		p := tx.Person(dana)
		p.SetNote(store.Question, note)
		note[0] = 'X' // the caller's bytes are the caller's
		p.SetNote(store.State, []byte("said"))
		p.SetNote(store.State, nil)
		p.SetNote(store.Settings, nil) // was never there
	})
	var got []byte
	view(t, db, func(tx *store.Tx) {
		got = tx.Person(dana).Note(store.Question)
		if s := tx.Person(dana).Note(store.State); s != nil {
			t.Errorf("a note that was taken away: %q", s)
		}
	})
	if string(got) != "size?" {
		t.Errorf("note %q, want size?", got)
	}
}

func TestMoveChat(t *testing.T) {
	db := fresh(t)
	crew, grown := store.ChatOf("telegram", "-55"), store.ChatOf("telegram", "-100900")
	lookalike := store.ChatOf("telegram", "-550")
	update(t, db, func(tx *store.Tx) {
		p := tx.Person(crew.Person("7"))
		p.SetTakeoff(sixteenths("copper", "90", "3/4", "", 5))
		p.SetCrewTakeoff(sixteenths("copper", "45", "3/4", "", 3))
		tx.Person(lookalike.Person("7")).SetCrewTakeoff(sixteenths("copper", "45", "1", "", 4))
		p.AddJob(store.Job{Name: "riser"})
		p.DropJob(1)
		p.SetNote(store.Settings, []byte("metric"))
		tx.Person(crew.Person("8")).SetNote(store.State, []byte("old"))
		tx.Person(grown.Person("8")).SetNote(store.State, []byte("new"))
		tx.Person(lookalike.Person("7")).SetNote(store.State, []byte("stays"))
		tx.Queue(crew, []byte("a"))
		tx.Queue(lookalike, []byte("b"))
		tx.Queue(crew, []byte("c"))
		tx.MoveChat(crew, grown)
	})
	update(t, db, func(tx *store.Tx) {
		p := tx.Person(grown.Person("7"))
		if len(p.Takeoffs()) != 1 || string(p.Note(store.Settings)) != "metric" {
			t.Error("takeoffs or settings were lost in the move")
		}
		if got := p.CrewTakeoffs(); len(got) != 1 || got[0].Size != "3/4" {
			t.Errorf("the crew's takeoffs after the move: %v", got)
		}
		if got := tx.Person(crew.Person("7")).CrewTakeoffs(); len(got) != 0 {
			t.Errorf("the crew's takeoffs stayed behind: %v", got)
		}
		if n := p.AddJob(store.Job{}); n != 2 {
			t.Errorf("numbering began again at %d", n)
		}
		if got := string(tx.Person(grown.Person("8")).Note(store.State)); got != "new" {
			t.Errorf("what was kept under the new name became %q", got)
		}
		want := []store.Key{grown.Person("7"), grown.Person("8"), lookalike.Person("7")}
		if diff := cmp.Diff(want, tx.People()); diff != "" {
			t.Errorf("people (-want +got):\n%s", diff)
		}
		var sent []string
		for _, e := range tx.Outbox() {
			sent = append(sent, string(e.Chat)+" "+string(e.Payload))
		}
		if diff := cmp.Diff([]string{"telegram/-100900 a", "telegram/-550 b", "telegram/-100900 c"}, sent); diff != "" {
			t.Errorf("outbox (-want +got):\n%s", diff)
		}
	})
}
