package bot

import (
	"slices"

	"dogleg/store"
)

// Forgetful is a memory that is gone with the process: for one message on the
// command line, and for trying things out. The zero value is empty and ready.
type Forgetful struct {
	notes    map[store.Note][]byte
	takeoffs []store.Takeoff
	jobs     []store.Job
	numbered uint64
}

// Note returns a note.
func (f *Forgetful) Note(n store.Note) []byte { return f.notes[n] }

// SetNote keeps a note.
func (f *Forgetful) SetNote(n store.Note, text []byte) {
	if f.notes == nil {
		f.notes = map[store.Note][]byte{}
	}
	f.notes[n] = slices.Clone(text)
}

// Takeoffs returns the takeoffs.
func (f *Forgetful) Takeoffs() []store.Takeoff { return slices.Clone(f.takeoffs) }

// SetTakeoff keeps a takeoff.
func (f *Forgetful) SetTakeoff(t store.Takeoff) {
	f.ForgetTakeoff(t)
	f.takeoffs = append(f.takeoffs, t)
}

// ForgetTakeoff forgets a takeoff.
func (f *Forgetful) ForgetTakeoff(t store.Takeoff) bool {
	before := len(f.takeoffs)
	f.takeoffs = slices.DeleteFunc(f.takeoffs, func(kept store.Takeoff) bool {
		return kept.System == t.System && kept.Fitting == t.Fitting && kept.Size == t.Size && kept.Line == t.Line
	})
	return len(f.takeoffs) < before
}

// Jobs returns the jobs.
func (f *Forgetful) Jobs() []store.Job { return slices.Clone(f.jobs) }

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

// Forget forgets all.
func (f *Forgetful) Forget() { *f = Forgetful{} }
