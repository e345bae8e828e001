package bot

import (
	"cmp"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"dogleg/bot/figure"
	"dogleg/bot/training"
	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/store"
)

// keep puts an answer on the list of jobs, in the place of the one it answers
// anew if it does, and returns its number.
func (t *turn) keep(j job, a *figure.Answer, text, read string) uint64 {
	ask, err := json.Marshal(j.ask)
	if err != nil {
		t.conversation.log().Error("an ask can't be kept", "error", err)
		ask = nil // the job is still worth keeping: what was said is in it
	}
	kept := store.Job{
		Number:  j.number,
		When:    t.message.When,
		Name:    wording.ShortName(j.name),
		Asked:   j.asked,
		Ask:     ask,
		Figure:  wording.First(a, t.options(j.ask.Language)),
		Summary: read,
		Reply:   text,
		Whole:   t.talk.Whole,
		Sums:    t.talk.Sums,
		Steps:   t.talk.Steps,
	}
	if j.number != 0 && t.memory.ChangeJob(kept) {
		return j.number
	}
	number := t.memory.AddJob(kept)
	t.noteDeed(deed{Did: keptJob, Job: number})
	return number
}

// askedBy is what a job asked; nil where another version kept it: it can still
// be read, not changed.
func askedBy(j store.Job) *parser.Ask {
	ask := new(parser.Ask)
	if json.Unmarshal(j.Ask, ask) != nil {
		return nil
	}
	return ask
}

// job finds a job; number 0 is the last one.
func (t *turn) job(number int) (store.Job, bool) {
	if number < 0 {
		return store.Job{}, false
	}
	return t.memory.Job(uint64(number))
}

// listed is how many jobs are listed at once: what a phone shows without much
// scrolling.
const listed = 15

// jobs lists the last jobs, the newest at the bottom, next to the thumb; or
// says again what was said of one.
func (t *turn) jobs(s parser.Statement) part {
	if n := s.Command.Number; n != 0 {
		j, ok := t.job(n)
		if !ok {
			return t.tell(s, false, wording.NoSuchJob, "number", strconv.Itoa(n))
		}
		p := said(s, true, j.Reply)
		p.about = j.Number
		return p
	}
	jobs := t.memory.Jobs()
	if len(jobs) == 0 {
		return t.tell(s, true, wording.NoJobs)
	}
	return said(s, true, t.jobLines(jobs))
}

// jobLines are the last of some jobs, each on a line, and how many more there
// are.
func (t *turn) jobLines(jobs []store.Job) string {
	var lines []string
	if earlier := len(jobs) - listed; earlier > 0 {
		lines = append(lines, t.say(wording.EarlierJobs, "number", strconv.Itoa(earlier)))
		jobs = jobs[earlier:]
	}
	for _, j := range jobs {
		lines = append(lines, jobLine(j))
	}
	return strings.Join(lines, "\n")
}

// jobLine is one job on the list: "3. laundry: Cut 14-3/4 in (set 12, two 45s,
// 2 PVC DWV)".
func jobLine(j store.Job) string {
	name := ""
	if j.Name != "" {
		name = j.Name + ": "
	}
	return fmt.Sprintf("%d. %s%s (%s)", j.Number, name, j.Figure, j.Summary)
}

// name names a job.
func (t *turn) name(s parser.Statement) part {
	name := wording.ShortName(s.Command.Object)
	if name == "" {
		return t.tell(s, false, wording.CallItWhat)
	}
	j, ok := t.job(s.Command.Number)
	if !ok {
		return t.tell(s, false, wording.NoJobToName)
	}
	t.noteDeed(deed{Did: namedJob, Jobs: []store.Job{{Number: j.Number, Name: j.Name}}})
	j.Name = name
	t.memory.ChangeJob(j)
	if j.Number == t.talk.Job {
		t.talk.Name = name
	}
	return said(s, true, jobLine(j))
}

// takeAway takes a job off the list. Where it was the one that is talked about,
// that is now the one before it.
func (t *turn) takeAway(number uint64) {
	last, _ := t.job(0)
	if t.memory.DropJob(number) && (t.talk.Job == number || last.Number == number) {
		t.waiting, t.asked = nil, nil
		t.backTo()
	}
}

// backTo makes the last job on the list the one that is talked about.
func (t *turn) backTo() {
	t.talk.Ask, t.talk.Shown, t.talk.told, t.talk.Name, t.talk.Job = nil, nil, told{}, "", 0
	t.talk.Cuts, t.talk.Unfigured = nil, false
	if last, ok := t.job(0); ok {
		t.takeUp(last)
	}
}

// takeUp makes a job the one that is talked about.
func (t *turn) takeUp(j store.Job) {
	ask := askedBy(j)
	if ask == nil {
		return
	}
	if t.message.Theirs { // what another called it is theirs, and goes when they are forgotten
		ask.Name, j.Name = "", ""
	}
	t.talk.Ask, t.talk.Shown = ask, ask
	t.talk.told, t.talk.Name, t.talk.Job = toldOf(j), j.Name, j.Number
}

// told is all that there is to say of an answer beside what was said first.
type told struct {
	Whole string `json:",omitzero"` // all of it, with sources and second figures
	Sums  string `json:",omitzero"` // how it was figured, in short
	Steps string `json:",omitzero"` // and step by step
}

// toldOf is what was told of a job; one that was kept before there was a short
// answer has all of it in its reply.
func toldOf(j store.Job) told { return told{cmp.Or(j.Whole, j.Reply), j.Sums, j.Steps} }

// toldOfLast is what there is to say of the last answer, or of a job by its
// number; problem is why there is none.
func (t *turn) toldOfLast(s parser.Statement, number int) (all told, about uint64, problem *part) {
	if number == 0 {
		return t.talk.told, t.talk.Job, nil
	}
	j, ok := t.job(number)
	if !ok {
		p := t.tell(s, false, wording.NoSuchJob, "number", strconv.Itoa(number))
		return told{}, 0, &p
	}
	return toldOf(j), j.Number, nil
}

// explain repeats how the last answer was figured, or that of a job by number:
// the sums, and more gives every step.
func (t *turn) explain(s parser.Statement) part {
	if s.Command.Number == 0 {
		if p, ok := t.inProblem(s, (*training.Room).Explain); ok {
			return p
		}
	}
	all, about, problem := t.toldOfLast(s, s.Command.Number)
	switch {
	case problem != nil:
		return *problem
	case all.Steps == "":
		return t.tell(s, false, wording.NothingToExplain)
	case all.Sums == "" || all.Sums == all.Steps:
		p := said(s, true, all.Steps)
		p.about = about
		return t.whyASteps(p, s.Command.Number)
	}
	p := said(s, true, all.Sums)
	p.about = about
	t.talk.More = moreSteps
	return t.sumsButtons(p, s.Command.Number)
}

// whyIt says all that there is to say of the last answer, or of a job.
func (t *turn) whyIt(s parser.Statement, number int) part {
	all, about, problem := t.toldOfLast(s, number)
	switch {
	case problem != nil:
		return *problem
	case all.Whole == "":
		return t.tell(s, false, wording.NothingToExplain)
	}
	p := said(s, true, all.Whole)
	p.about = about
	t.talk.More = moreSteps
	return p
}

// What more gives after one reply and another.
const (
	moreWhole = "whole" // of an answer
	moreSteps = "steps"
	moreHelp  = "help"
)

// more goes on where the last reply was cut short, or tells the steps of a job.
func (t *turn) more(s parser.Statement, number int) part {
	if number == 0 {
		if p, ok := t.inProblem(s, (*training.Room).More); ok {
			return p
		}
	}
	switch {
	case number == 0 && t.talk.More == moreHelp:
		return t.help(s)
	case number == 0 && t.talk.More == moreWhole:
		return t.whyIt(s, 0)
	}
	all, about, problem := t.toldOfLast(s, number)
	switch {
	case problem != nil:
		return *problem
	case all.Steps == "":
		return t.help(s)
	}
	p := said(s, true, all.Steps)
	p.about = about
	return t.whyASteps(p, number)
}
