package store_test

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"dogleg/store"

	"github.com/google/go-cmp/cmp"
)

// TestForgottenLeaveNoTrace scans the bytes of the file after somebody is
// forgotten and the file compacted: neither their number nor their words are in
// it, whether written as they are or in base64. What others keep still is.
func TestForgottenLeaveNoTrace(t *testing.T) {
	const user, name, words = "70911342", "Danuta", "seventeen light past the newel"
	path := filepath.Join(t.TempDir(), "juniper.db")
	db := open(t, path)
	alone, group, other := store.ChatOf("telegram", user), store.ChatOf("telegram", "-1207"), store.ChatOf("telegram", "-9")
	sam := group.Person("8")
	set := sixteenths("pvc-dwv", "45", "2", "", 18)
	update(t, db, func(tx *store.Tx) {
		for _, chat := range []store.Chat{alone, group, other} {
			p := tx.Person(chat.Person(user))
			for n := range 30 {
				p.AddJob(store.Job{Asked: fmt.Sprint(words, n), Reply: strings.Repeat(words, 20)})
			}
			p.SetNote(store.State, []byte(`{"Said":"`+words+`"}`))
			p.SetTakeoff(sixteenths("pvc-dwv", "45", "2", words, 18))
		}
		set.By = name
		tx.Person(alone.Person(user)).SetCrewTakeoff(set)
		tx.Person(other.Person(user)).SetCrewTakeoff(set)
		tx.Quarantine("telegram 1", []byte(`{"message":{"from":{"id":`+user+`},"text":"`+words+`"}}`))
		tx.Quarantine("telegram 2", []byte(`{"message":{"from":{"id":1`+user+`},"text":"Sam's"}}`))
		tx.Person(sam).AddJob(store.Job{Asked: "Sam's own job"})
	})
	entry := store.Entry{}
	update(t, db, func(tx *store.Tx) { entry = tx.Queue(alone, []byte(words)) })
	update(t, db, func(tx *store.Tx) { tx.Person(group.Person(user)).Forget(name) })
	update(t, db, func(tx *store.Tx) { tx.StrikeOff(entry) }) // sent
	if !db.Forgotten() || !bytes.Contains(read(t, path), []byte(words)) {
		t.Fatal("before it is compacted, nothing tells that it should be: the test proves nothing")
	}
	if err := db.Compact(t.Context()); err != nil {
		t.Fatal(err)
	}
	content := read(t, path)
	for _, trace := range []string{words, name, user + `,`, user + `"`, "/" + user} {
		for _, form := range forms(trace) {
			if at := bytes.Index(content, []byte(form)); at >= 0 {
				t.Errorf("%q is in the file as %q, in %q", trace, form, content[max(0, at-60):at+len(form)+20])
			}
		}
	}
	if db.Forgotten() {
		t.Error("it is to be compacted still")
	}
	view(t, db, func(tx *store.Tx) {
		if diff := cmp.Diff([]store.Key{sam}, tx.People()); diff != "" {
			t.Errorf("people (-want +got):\n%s", diff)
		}
		if jobs := tx.Person(sam).Jobs(); len(jobs) != 1 {
			t.Errorf("Sam's jobs: %v", jobs)
		}
		if kept := tx.Person(other.Person("8")).CrewTakeoffs(); len(kept) != 1 || kept[0].By != "" || kept[0].Length != set.Length {
			t.Errorf("what was measured for the other crew: %v", kept)
		}
		if q := tx.Quarantined(); len(q) != 1 || q[0].ID != "telegram 2" {
			t.Errorf("in quarantine: %v", q)
		}
	})
}

// forms are how a text may stand in the file: as it is, and inside of base64
// with each of the three ways it may fall on its groups of three bytes.
func forms(text string) []string {
	all := []string{text}
	for shift := range 3 {
		encoded := base64.StdEncoding.EncodeToString([]byte(strings.Repeat(" ", shift) + text))
		if len(encoded) > 16 {
			all = append(all, encoded[4:len(encoded)-4])
		}
	}
	return all
}

// TestForgottenInTheTransactionThatWrote: who writes and is forgotten in one
// transaction, as where their messages come together, leaves no page behind that
// nobody knows of.
func TestForgottenInTheTransactionThatWrote(t *testing.T) {
	db := fresh(t)
	fill := func(tx *store.Tx) {
		p := tx.Person(dana)
		for range 5 { // too much of each to stand beside the other
			p.AddJob(store.Job{Asked: strings.Repeat("12 set 45s ", 100)})
			p.AddCut(store.Cut{Length: 12, Name: strings.Repeat("laundry ", 100)})
			p.SetExchange(store.Exchange{Question: 1, Answer: 2})
		}
		p.SetTakeoff(sixteenths("pvc-dwv", "45", "2", strings.Repeat("grey ", 100), 18))
	}
	update(t, db, fill)
	update(t, db, func(tx *store.Tx) {
		fill(tx)
		tx.Person(dana).SetNote(store.State, []byte(`{}`))
		tx.Person(dana).Forget("")
	})
	if err := db.Check(); err != nil {
		t.Error(err)
	}
}

// What an earlier version said to others of who set a takeoff was kept with their jobs:
// the name goes, what was said stays.
func TestForgottenAreUnnamedInOldJobs(t *testing.T) {
	db := fresh(t)
	group := store.ChatOf("telegram", "-1207")
	takeoff := sixteenths("pvc-dwv", "45", "2", "", 18)
	takeoff.By = `Da "D" na`
	update(t, db, func(tx *store.Tx) {
		tx.Person(group.Person("7")).SetCrewTakeoff(takeoff)
		sam := tx.Person(group.Person("8"))
		sam.AddJob(store.Job{Reply: `Takeoff 1-1/8 each, the crew's, set by Da "D" na, 3 Nov`, Steps: `la cuadrilla, lo puso Da "D" na, 3 Nov`})
		sam.SetNote(store.State, []byte(`{"Steps":"the crew's, set by Da \"D\" na, 3 Nov"}`))
		sam.AddCut(store.Cut{Length: 12, Setter: "7", Name: "kitchen"})
	})
	update(t, db, func(tx *store.Tx) { tx.Person(group.Person("7")).Forget("") })
	view(t, db, func(tx *store.Tx) {
		sam := tx.Person(group.Person("8"))
		job, _ := sam.Job(1)
		if job.Reply != "Takeoff 1-1/8 each, the crew's, 3 Nov" || job.Steps != "la cuadrilla, 3 Nov" {
			t.Errorf("the job is %+v", job)
		}
		if got := string(sam.Note(store.State)); got != `{"Steps":"the crew's, 3 Nov"}` {
			t.Errorf("the talk stands at %s", got)
		}
		if cuts := sam.Cuts(); len(cuts) != 1 || cuts[0].Setter != "" || cuts[0].Name != "kitchen" {
			t.Errorf("the list is %+v", cuts)
		}
	})
	if err := db.Check(); err != nil {
		t.Error(err)
	}
}
