package store

import (
	"encoding/json"
	"time"
)

// KeptJobs is how many jobs are kept for a person where nothing else is set
// ([DB.Keep]); the oldest go first.
const KeptJobs = 200

// Job is one thing that was figured, and what was said about it then.
type Job struct {
	Number  uint64 // given by AddJob
	When    time.Time
	Name    string // "laundry", may be empty
	Asked   string // the words
	Ask     json.RawMessage
	Figure  string // the one number, as it was said: "Cut 14-3/4 in"
	Summary string // what was understood, in one line
	Reply   string // what was said
	Whole   string `json:",omitempty"` // all that there is to say of it
	Sums    string `json:",omitempty"` // how it was figured, in short
	Steps   string // how it was figured
}

// AddJob adds a job as the last one and returns its number. Numbers are given
// once: that of a dropped job doesn't come again.
func (p *Person) AddJob(j Job) uint64 {
	b := p.madePart(jobsBucket)
	n, ok := p.tx.next(b)
	if !ok {
		return 0
	}
	j.Number = n
	p.tx.put(b, number(n), j)
	p.trimJobs(b)
	return n
}

// trimJobs drops the oldest jobs beyond those that are kept. They are counted,
// which reads a page for every few of them, only where the first number is so far
// behind the last that there may be too many.
func (p *Person) trimJobs(b *bucket) {
	oldest, _ := b.first()
	if p.tx.err != nil || b.Sequence()-numberOf(oldest) < uint64(p.tx.keep) {
		return
	}
	var numbers []uint64
	for k := range b.all() {
		numbers = append(numbers, numberOf(k))
	}
	for len(numbers) > p.tx.keep {
		p.DropJob(numbers[0])
		numbers = numbers[1:]
	}
}

// Jobs returns the jobs kept, the oldest first.
func (p *Person) Jobs() []Job {
	var jobs []Job
	for _, v := range p.part(jobsBucket).all() {
		var j Job
		if p.tx.decode(v, &j) {
			jobs = append(jobs, j)
		}
	}
	return jobs
}

// Job returns the job with this number; 0 is the last. It is false if there is
// none.
func (p *Person) Job(n uint64) (Job, bool) {
	b := p.part(jobsBucket)
	if b == nil {
		return Job{}, false
	}
	key := number(n)
	if n == 0 {
		key, _ = b.last()
	}
	var j Job
	ok := p.tx.get(b, key, &j)
	return j, ok
}

// ChangeJob puts a job in the place of the one with its number. It is false if
// there is none.
func (p *Person) ChangeJob(j Job) bool {
	b := p.part(jobsBucket)
	if b == nil || b.Get(number(j.Number)) == nil {
		return false
	}
	p.tx.put(b, number(j.Number), j)
	return p.tx.err == nil
}

// DropJob takes a job away. It is false if there was none.
func (p *Person) DropJob(n uint64) bool { return p.tx.remove(p.part(jobsBucket), number(n)) }
