package bot

import (
	"encoding/json"
	"slices"

	"dogleg/store"
)

// Forgetful is a memory that is gone with the process: for one message on the
// command line, and for trying things out. The zero value is empty and ready.
type Forgetful struct {
	notes    map[store.Note][]byte
	takeoffs book
	crew     book
	jobs     []store.Job
	numbered uint64
	cuts     cuts
}

// Note returns a note.
func (f *Forgetful) Note(n store.Note) []byte { return f.notes[n] }

// SetNote keeps a note; nil takes it away.
func (f *Forgetful) SetNote(n store.Note, text []byte) {
	if text == nil {
		delete(f.notes, n)
		return
	}
	if f.notes == nil {
		f.notes = map[store.Note][]byte{}
	}
	f.notes[n] = slices.Clone(text)
}

// Takeoffs returns the takeoffs.
func (f *Forgetful) Takeoffs() []store.Takeoff { return slices.Clone(f.takeoffs) }

// SetTakeoff keeps a takeoff.
func (f *Forgetful) SetTakeoff(t store.Takeoff) { f.takeoffs.set(t) }

// ForgetTakeoff forgets a takeoff.
func (f *Forgetful) ForgetTakeoff(t store.Takeoff) bool { return f.takeoffs.forget(t) }

// CrewTakeoffs returns the crew's takeoffs.
func (f *Forgetful) CrewTakeoffs() []store.Takeoff { return slices.Clone(f.crew) }

// SetCrewTakeoff keeps one of them.
func (f *Forgetful) SetCrewTakeoff(t store.Takeoff) { f.crew.set(t) }

// ForgetCrewTakeoff forgets one of them.
func (f *Forgetful) ForgetCrewTakeoff(t store.Takeoff) bool { return f.crew.forget(t) }

// book holds takeoffs in the order of the store.
type book []store.Takeoff

func (b *book) set(t store.Takeoff) {
	at, found := slices.BinarySearchFunc(*b, t, store.CompareTakeoffs)
	if found {
		(*b)[at] = t
		return
	}
	*b = slices.Insert(*b, at, t)
}

func (b *book) forget(t store.Takeoff) bool {
	at, found := slices.BinarySearchFunc(*b, t, store.CompareTakeoffs)
	if found {
		*b = slices.Delete(*b, at, at+1)
	}
	return found
}

// Jobs returns the jobs.
func (f *Forgetful) Jobs() []store.Job { return slices.Clone(f.jobs) }

// Job finds a job; 0 is the last.
func (f *Forgetful) Job(number uint64) (store.Job, bool) {
	i := f.job(number)
	if number == 0 {
		i = len(f.jobs) - 1
	}
	if i < 0 {
		return store.Job{}, false
	}
	return f.jobs[i], true
}

// AddJob adds a job.
func (f *Forgetful) AddJob(j store.Job) uint64 {
	f.numbered++
	j.Number = f.numbered
	f.jobs = append(f.jobs, j)
	return j.Number
}

// ChangeJob changes a job.
func (f *Forgetful) ChangeJob(j store.Job) bool {
	i := f.job(j.Number)
	if i >= 0 {
		f.jobs[i] = j
	}
	return i >= 0
}

// DropJob drops a job.
func (f *Forgetful) DropJob(number uint64) bool {
	i := f.job(number)
	if i >= 0 {
		f.jobs = slices.Delete(f.jobs, i, i+1)
	}
	return i >= 0
}

func (f *Forgetful) job(number uint64) int {
	return slices.IndexFunc(f.jobs, func(j store.Job) bool { return j.Number == number })
}

// Export returns all but the crew's.
func (f *Forgetful) Export() json.RawMessage {
	all := map[string]any{}
	if len(f.takeoffs) > 0 {
		all["takeoffs"] = f.takeoffs
	}
	if len(f.jobs) > 0 {
		all["jobs"] = f.jobs
	}
	if len(f.cuts.list) > 0 {
		all["cuts"] = f.cuts.list
	}
	for name, text := range f.notes {
		all[string(name)] = json.RawMessage(text)
	}
	text, err := json.Marshal(all)
	if err != nil {
		panic(err) // a note that is no JSON: a fault of ours
	}
	return text
}

// Forget forgets all but the crew's, in which a name is taken out.
func (f *Forgetful) Forget(name string) {
	crew := f.crew
	for i := range crew {
		if crew[i].By == name {
			crew[i].By = ""
		}
	}
	*f = Forgetful{crew: crew}
}
