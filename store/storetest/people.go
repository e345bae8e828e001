package storetest

import (
	"bytes"
	"encoding/json"
	"slices"
	"testing"

	"dogleg/store"

	"github.com/google/go-cmp/cmp"
)

func nothingReachesAnother(t *testing.T, db *store.DB) {
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

func takeoffsAreKeptByFittingAndPipe(t *testing.T, db *store.DB) {
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

func takeoffOfNothingIsRefused(t *testing.T, db *store.DB) {
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

func jobsAreNumberedOnce(t *testing.T, db *store.DB) {
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

func oldJobsGoFirst(t *testing.T, db *store.DB) {
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

func notesOutliveTheTransaction(t *testing.T, db *store.DB) {
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

func moveChat(t *testing.T, db *store.DB) {
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
		tx.MoveChat(grown, grown)
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

// exportIsAllThatIsKept: the notes as they stand and the lists in order,
// and nothing of anyone else.
func exportIsAllThatIsKept(t *testing.T, db *store.DB) {
	update(t, db, func(tx *store.Tx) {
		p := tx.Person(dana)
		p.SetNote(store.Settings, []byte(`{"Metric":true}`))
		p.AddJob(store.Job{Asked: "12 set 45s", Name: "laundry"})
		p.AddJob(store.Job{Asked: "9 set 45s"})
		p.SetTakeoff(sixteenths("pvc-dwv", "45", "2", "the grey ones", 18))
		p.SetCrewTakeoff(sixteenths("abs-dwv", "45", "2", "everyone's", 18))
		tx.Person(upstairs.Person("8")).AddJob(store.Job{Asked: "somebody else's"})
	})
	var text json.RawMessage
	view(t, db, func(tx *store.Tx) { text = tx.Person(dana).Export() })
	var got struct {
		Settings struct{ Metric bool }
		Jobs     []store.Job
		Takeoffs []store.Takeoff
	}
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	if !got.Settings.Metric || len(got.Jobs) != 2 || got.Jobs[0].Name != "laundry" || got.Jobs[1].Asked != "9 set 45s" ||
		len(got.Takeoffs) != 1 || got.Takeoffs[0].Line != "the grey ones" {
		t.Errorf("exported: %s", text)
	}
	for _, foreign := range []string{"somebody else's", "everyone's"} {
		if bytes.Contains(text, []byte(foreign)) {
			t.Errorf("%q is in the export: %s", foreign, text)
		}
	}
	view(t, db, func(tx *store.Tx) { text = tx.Person(upstairs.Person("nobody")).Export() })
	if string(text) != "{}" {
		t.Errorf("of who keeps nothing: %s", text)
	}
}

func asManyJobsAreKeptAsIsSet(t *testing.T, db *store.DB) {
	add := func(n int) {
		update(t, db, func(tx *store.Tx) {
			for range n {
				tx.Person(dana).AddJob(store.Job{})
			}
		})
	}
	add(20)
	db.Keep = 5
	add(1)
	view(t, db, func(tx *store.Tx) {
		jobs := tx.Person(dana).Jobs()
		if len(jobs) != 5 || jobs[0].Number != 17 || jobs[4].Number != 21 {
			t.Errorf("kept: %v", jobs)
		}
	})
}

// The newest exchanges are found by their question and by their answer, the
// oldest are gone, and none goes with a chat to its new number.
func exchanges(t *testing.T, db *store.DB) {
	group, moved := store.ChatOf("telegram", "-40"), store.ChatOf("telegram", "-10040")
	const asked = store.KeptExchanges + 20
	update(t, db, func(tx *store.Tx) {
		ada := tx.Person(group.Person("501"))
		for i := int64(1); i <= asked; i++ {
			ada.SetExchange(store.Exchange{Question: 2 * i, Jobs: []uint64{uint64(i)}})
			ada.SetExchange(store.Exchange{Question: 2 * i, Answer: 2*i + 1, Jobs: []uint64{uint64(i)}})
		}
		tx.Person(group.Person("502")).SetNote(store.Settings, []byte("{}"))
		tx.Person(store.ChatOf("telegram", "-400").Person("503")).SetNote(store.Settings, []byte("{}"))
	})
	update(t, db, func(tx *store.Tx) {
		ada := tx.Person(group.Person("501"))
		for i := int64(1); i <= asked; i++ {
			kept := i > asked-store.KeptExchanges
			e, ok := ada.ExchangeBy(2*i + 1)
			if ok != kept || kept && (e.Question != 2*i || !slices.Equal(e.Jobs, []uint64{uint64(i)})) {
				t.Fatalf("by answer %d: %+v, %v", 2*i+1, e, ok)
			}
			if _, ok := ada.Exchange(2 * i); ok != kept {
				t.Fatalf("question %d is kept: %v", 2*i, ok)
			}
		}
		if _, ok := ada.ExchangeBy(2 * asked); ok {
			t.Error("a question is taken for an answer")
		}
		if got := tx.PeopleIn(group); !slices.Equal(got, []store.Key{group.Person("501"), group.Person("502")}) {
			t.Errorf("in the group: %q", got)
		}
		tx.MoveChat(group, moved)
		if _, ok := tx.Person(moved.Person("501")).Exchange(2 * asked); ok {
			t.Error("a message of the old chat is known in the new one")
		}
	})
}
