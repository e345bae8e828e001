package storetest

import (
	"errors"
	"fmt"
	"maps"
	"net/url"
	"slices"
	"strings"
	"testing"
	"time"

	"dogleg/catalog"
	"dogleg/store"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// model is a store in plain maps: the second way to every result. It is of the
// people of one transport, which nobody else writes to.
type model struct {
	Transport string
	Jobs      map[store.Key][]store.Job
	Given     map[store.Key]uint64 // last job number given
	Takeoffs  map[store.Key]map[string]store.Takeoff
	Crews     map[store.Chat]map[string]store.Takeoff
	Notes     map[store.Key]map[store.Note]string
	Outbox    []store.Entry
	Before    uint64 // the number of the last entry that isn't the model's
	Queued    uint64 // that of its own last one
	Done      map[string]bool
	At        map[store.Source]int64
}

func newModel(transport string, queued uint64) *model {
	return &model{
		Transport: transport, Before: queued, Queued: queued,
		Jobs:     map[store.Key][]store.Job{},
		Given:    map[store.Key]uint64{},
		Takeoffs: map[store.Key]map[string]store.Takeoff{},
		Crews:    map[store.Chat]map[string]store.Takeoff{},
		Notes:    map[store.Key]map[store.Note]string{},
		Done:     map[string]bool{},
		At:       map[store.Source]int64{},
	}
}

func (m *model) clone() *model {
	c := newModel(m.Transport, m.Before)
	for k, v := range m.Jobs {
		c.Jobs[k] = slices.Clone(v)
	}
	for k, v := range m.Takeoffs {
		for name, takeoff := range v {
			c.setTakeoff(k, name, takeoff)
		}
	}
	for chat, book := range m.Crews {
		c.Crews[chat] = maps.Clone(book)
	}
	for k, v := range m.Notes {
		for n, text := range v {
			c.setNote(k, n, text)
		}
	}
	maps.Copy(c.Given, m.Given)
	maps.Copy(c.Done, m.Done)
	maps.Copy(c.At, m.At)
	c.Outbox, c.Queued = slices.Clone(m.Outbox), m.Queued
	return c
}

func (m *model) setTakeoff(k store.Key, name string, t store.Takeoff) {
	if m.Takeoffs[k] == nil {
		m.Takeoffs[k] = map[string]store.Takeoff{}
	}
	m.Takeoffs[k][name] = t
}

func (m *model) setNote(k store.Key, n store.Note, text string) {
	if m.Notes[k] == nil {
		m.Notes[k] = map[store.Note]string{}
	}
	m.Notes[k][n] = text
}

var chats = []string{"1207", "1208"}

// forget takes a user away, in every chat.
func (m *model) forget(user string) {
	for _, name := range chats {
		chat := store.ChatOf(m.Transport, name)
		key := chat.Person(user)
		delete(m.Jobs, key)
		delete(m.Given, key)
		delete(m.Takeoffs, key)
		delete(m.Notes, key)
		for name, t := range m.Crews[chat] {
			if t.Setter == url.PathEscape(user) {
				t.By, t.Setter = "", ""
				m.Crews[chat][name] = t
			}
		}
	}
}

// write does one random thing to both.
func (m *model) write(t *rapid.T, tx *store.Tx) {
	user := rapid.SampledFrom([]string{"7", "8/9"}).Draw(t, "user")
	key := store.ChatOf(m.Transport, rapid.SampledFrom(chats).Draw(t, "chat")).Person(user)
	p := tx.Person(key)
	switch rapid.SampledFrom([]string{
		"add job", "add job", "drop job", "change job", "set takeoff", "forget takeoff",
		"set crew takeoff", "forget crew takeoff", "note", "forget", "queue", "strike off", "mark", "cursor",
	}).Draw(t, "what") {
	case "add job":
		m.Given[key]++
		j := store.Job{Number: m.Given[key], Asked: rapid.StringN(0, 40, 200).Draw(t, "asked"), When: noon, Ask: []byte(`{}`)}
		m.Jobs[key] = append(m.Jobs[key], j)
		if len(m.Jobs[key]) > store.KeptJobs {
			m.Jobs[key] = m.Jobs[key][1:]
		}
		if n := p.AddJob(j); n != j.Number {
			t.Fatalf("job got number %d, want %d", n, j.Number)
		}
	case "drop job":
		n := rapid.Uint64Range(0, m.Given[key]+1).Draw(t, "number")
		kept := slices.DeleteFunc(slices.Clone(m.Jobs[key]), func(j store.Job) bool { return j.Number == n })
		if got, want := p.DropJob(n), len(kept) < len(m.Jobs[key]); got != want {
			t.Fatalf("DropJob(%d) = %v, want %v", n, got, want)
		}
		m.Jobs[key] = kept
	case "change job":
		j := store.Job{Number: rapid.Uint64Range(1, m.Given[key]+1).Draw(t, "number"), Name: "laundry", Ask: []byte(`{}`)}
		i := slices.IndexFunc(m.Jobs[key], func(old store.Job) bool { return old.Number == j.Number })
		if got := p.ChangeJob(j); got != (i >= 0) {
			t.Fatalf("ChangeJob(%d) = %v, want %v", j.Number, got, i >= 0)
		}
		if i >= 0 {
			m.Jobs[key] = slices.Clone(m.Jobs[key])
			m.Jobs[key][i] = j
		}
	case "set takeoff":
		takeoff, name := randomTakeoff(t)
		m.setTakeoff(key, name, takeoff)
		p.SetTakeoff(takeoff)
	case "forget takeoff":
		takeoff, name := randomTakeoff(t)
		_, want := m.Takeoffs[key][name]
		delete(m.Takeoffs[key], name)
		if got := p.ForgetTakeoff(takeoff); got != want {
			t.Fatalf("ForgetTakeoff(%s) = %v, want %v", name, got, want)
		}
	case "set crew takeoff":
		takeoff, name := randomTakeoff(t)
		takeoff.By, takeoff.Setter = "Dana", url.PathEscape(user)
		if m.Crews[key.Chat()] == nil {
			m.Crews[key.Chat()] = map[string]store.Takeoff{}
		}
		m.Crews[key.Chat()][name] = takeoff
		p.SetCrewTakeoff(takeoff)
	case "forget crew takeoff":
		takeoff, name := randomTakeoff(t)
		_, want := m.Crews[key.Chat()][name]
		delete(m.Crews[key.Chat()], name)
		if got := p.ForgetCrewTakeoff(takeoff); got != want {
			t.Fatalf("ForgetCrewTakeoff(%s) = %v, want %v", name, got, want)
		}
	case "note":
		n := rapid.SampledFrom([]store.Note{store.Settings, store.Question, store.State}).Draw(t, "note")
		text := rapid.StringN(0, 10, 40).Draw(t, "text")
		m.setNote(key, n, text)
		p.SetNote(n, []byte(text))
	case "forget":
		if rapid.IntRange(0, 9).Draw(t, "really") == 0 {
			m.forget(user)
			p.Forget("")
		}
	case "queue":
		m.Queued++
		e := store.Entry{Number: m.Queued, Chat: key.Chat(), Queued: noon, Payload: rapid.SliceOfN(rapid.Byte(), 1, 20).Draw(t, "payload")}
		m.Outbox = append(m.Outbox, e)
		if got := tx.Queue(e.Chat, e.Payload); got.Number != e.Number {
			t.Fatalf("entry got number %d, want %d", got.Number, e.Number)
		}
	case "strike off":
		n := rapid.Uint64Range(m.Before+1, m.Queued+1).Draw(t, "number")
		m.Outbox = slices.DeleteFunc(slices.Clone(m.Outbox), func(e store.Entry) bool { return e.Number == n })
		tx.StrikeOff(store.Entry{Number: n})
	case "mark":
		id := fmt.Sprintf("%s %d", m.Transport, rapid.IntRange(1, 60).Draw(t, "id"))
		if got := tx.Done(id); got != m.Done[id] {
			t.Fatalf("Done(%s) = %v, want %v", id, got, m.Done[id])
		}
		m.Done[id] = true
		tx.MarkDone(id)
	case "cursor":
		source := store.Source{Bot: 1}
		m.At[source] = rapid.Int64().Draw(t, "at")
		tx.SetCursor(m.Transport, source, m.At[source])
	}
}

// randomTakeoff draws from few enough that some meet again; name is what
// should tell them apart.
func randomTakeoff(t *rapid.T) (takeoff store.Takeoff, name string) {
	fitting := rapid.SampledFrom([]string{"45", "street 45", "22-1/2"}).Draw(t, "fitting")
	size := rapid.SampledFrom([]catalog.Size{"1-1/2", "2"}).Draw(t, "size")
	line := rapid.SampledFrom([]string{"", "the grey ones", "a/b"}).Draw(t, "line")
	n := rapid.IntRange(1, 80).Draw(t, "sixteenths")
	return sixteenths("pvc-dwv", fitting, size, line, n), fmt.Sprintf("%q %q %q", fitting, size, line)
}

func byName(takeoffs []store.Takeoff) map[string]store.Takeoff {
	named := map[string]store.Takeoff{}
	for _, t := range takeoffs {
		named[fmt.Sprintf("%q %q %q", t.Fitting, t.Size, t.Line)] = t
	}
	return named
}

// compare reads everything back.
func (m *model) compare(t *rapid.T, tx *store.Tx) {
	known := map[store.Key]bool{}
	for key := range m.Given {
		known[key] = true
	}
	for _, key := range tx.People() {
		if strings.HasPrefix(string(key), m.Transport+"/") {
			known[key] = true
		}
	}
	for chat, book := range m.Crews {
		got := byName(tx.Person(chat.Person("9")).CrewTakeoffs())
		if diff := cmp.Diff(book, got, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("crew's takeoffs in %s (-model +store):\n%s", chat, diff)
		}
	}
	for key := range known {
		p := tx.Person(key)
		if diff := cmp.Diff(m.Jobs[key], p.Jobs(), cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("jobs of %s (-model +store):\n%s", key, diff)
		}
		if !slices.IsSortedFunc(p.Takeoffs(), store.CompareTakeoffs) {
			t.Fatalf("takeoffs out of order: %v", p.Takeoffs())
		}
		got := byName(p.Takeoffs())
		if diff := cmp.Diff(m.Takeoffs[key], got, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("takeoffs of %s (-model +store):\n%s", key, diff)
		}
		for _, n := range []store.Note{store.Settings, store.Question, store.State} {
			if got, want := string(p.Note(n)), m.Notes[key][n]; got != want {
				t.Fatalf("note %s of %s: %q, want %q", n, key, got, want)
			}
		}
	}
	if diff := cmp.Diff(m.Outbox, m.own(tx.Outbox()), cmpopts.EquateEmpty()); diff != "" {
		t.Fatalf("outbox (-model +store):\n%s", diff)
	}
	for source, want := range m.At {
		if at, ok := tx.Cursor(m.Transport, source); !ok || at != want {
			t.Fatalf("cursor %d, want %d", at, want)
		}
	}
}

// own are the entries of the model's transport.
func (m *model) own(all []store.Entry) []store.Entry {
	return slices.DeleteFunc(all, func(e store.Entry) bool {
		return !strings.HasPrefix(string(e.Chat), m.Transport+"/")
	})
}

var errBurst = errors.New("pipe burst")

// update writes to both, or to neither: the model follows only once the commit has
// succeeded.
func (m *model) update(t *rapid.T, db *store.DB) *model {
	next := m.clone()
	steps := rapid.IntRange(1, 12).Draw(t, "steps")
	fails := rapid.IntRange(0, 4).Draw(t, "fails") == 0
	err := db.Update(func(tx *store.Tx) error {
		for range steps {
			next.write(t, tx)
		}
		if fails {
			return errBurst
		}
		return nil
	})
	switch {
	case fails && !errors.Is(err, errBurst):
		t.Fatalf("Update: %v, want the error of the function", err)
	case fails:
		return m
	case err != nil:
		t.Fatal(err)
	}
	return next
}

// lastNumber is the number of the last entry that was ever queued.
func lastNumber(t *rapid.T, db *store.DB) (n uint64) {
	err := db.Update(func(tx *store.Tx) error {
		e := tx.Queue(upstairs, nil)
		n = e.Number
		tx.StrikeOff(e)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// LikeTheModel does random things to a DB and to plain maps, in transactions some of
// which fail, and compares after each. restart, where it isn't nil, closes what is
// under the DB and gives it back as it is after that.
func LikeTheModel(t *testing.T, db *store.DB, restart func(*store.DB) *store.DB) {
	transports := 0
	rapid.Check(t, func(t *rapid.T) {
		transports++ // so that each begins with nothing, on the same DB
		m := newModel(fmt.Sprint("telegram", transports), lastNumber(t, db))
		acts := map[string]func(*rapid.T){
			"update": func(t *rapid.T) { m = m.update(t, db) },
			"": func(t *rapid.T) {
				if err := db.View(func(tx *store.Tx) error { m.compare(t, tx); return nil }); err != nil {
					t.Fatal(err)
				}
			},
		}
		if restart != nil {
			acts["restart"] = func(*rapid.T) {
				db = restart(db)
				db.Now = func() time.Time { return noon }
			}
		}
		t.Repeat(acts)
	})
}
