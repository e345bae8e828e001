package bot

import (
	"slices"
	"strconv"
	"strings"

	"dogleg/bot/cutlist"
	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/store"
)

// did is what a message did to what is kept.
type did string

// What can be taken back, beside what was done to the list ([cutlist.Did]).
const (
	keptJob     did = "job"     // a job was answered
	keptTakeoff did = "takeoff" // a takeoff was kept
	forgot      did = "forgot"  // takeoffs were forgotten
	changedSet  did = "setting"
	namedJob    did = "named"
	droppedJob  did = "dropped"
)

// deed is one thing that was done to what is kept, with what it takes to take it
// back.
type deed struct {
	Did      did
	Job      uint64          `json:",omitempty"` // that was answered
	Jobs     []store.Job     `json:",omitempty"` // as they were
	Kept     []store.Takeoff `json:",omitempty"` // that were kept
	Before   []entry         `json:",omitempty"` // takeoffs that were there instead
	Crew     bool            `json:",omitempty"` // what was kept is the crew's
	Cuts     []store.Cut     `json:",omitempty"` // pieces as they were, or that were added
	Settings *settings       `json:",omitempty"` // as they were
	Says     wording.Phrase  `json:",omitempty"` // what such a setting is said to be
}

// mostDeeds is how many can be taken back, one after the other.
const mostDeeds = 10

// noteDeed remembers a deed, without the names of others: what is kept of it here
// would stay when they ask to be forgotten.
func (t *turn) noteDeed(d deed) {
	d.Kept, d.Before, d.Cuts = slices.Clone(d.Kept), slices.Clone(d.Before), slices.Clone(d.Cuts)
	for i := range d.Kept {
		d.Kept[i].By, d.Kept[i].Setter = "", ""
	}
	for i := range d.Before {
		d.Before[i].By, d.Before[i].Setter = "", ""
	}
	for i := range d.Cuts {
		d.Cuts[i].Setter = ""
	}
	deeds := append(t.talk.Deeds, d)
	t.talk.Deeds = slices.Clone(deeds[max(0, len(deeds)-mostDeeds):])
}

// undo takes back the last thing that changed something, and says what; or the
// job of a number.
func (t *turn) undo(s parser.Statement) part {
	if n := s.Command.Number; n != 0 {
		return t.drop(s, n)
	}
	for n := len(t.talk.Deeds); n > 0; n = len(t.talk.Deeds) {
		d := t.talk.Deeds[n-1]
		t.talk.Deeds = t.talk.Deeds[:n-1]
		if p, ok := t.takeBack(s, d); ok {
			return p
		}
	}
	return t.drop(s, 0)
}

// takeBack takes a deed back. It is false where there is nothing left of it.
func (t *turn) takeBack(s parser.Statement, d deed) (part, bool) {
	switch d.Did {
	case keptJob:
		j, ok := t.job(int(d.Job))
		if !ok {
			return part{}, false
		}
		t.takeAway(j.Number)
		return t.tell(s, true, wording.Dropped, "what", jobLine(j)), true
	case keptTakeoff, forgot:
		return t.takeBackTakeoffs(s, d), true
	case did(cutlist.AddedPieces), did(cutlist.DidPieces), did(cutlist.ClearedList):
		return t.takeBackPieces(s, d)
	case changedSet:
		t.settings = *d.Settings
		t.note(store.Settings, t.settings)
		return t.tell(s, true, wording.SetBack, "what", t.say(d.Says, "code", string(d.Settings.Code))), true
	case namedJob:
		return t.nameBack(s, d)
	case droppedJob:
		return t.jobsBack(s, d), true
	}
	return part{}, false
}

// takeBackTakeoffs forgets the takeoffs that were kept, and has those again that
// were there before. The job that was answered with them is what it was.
func (t *turn) takeBackTakeoffs(s parser.Statement, d deed) part {
	var lines []string
	for _, o := range d.Kept {
		if d.Crew {
			t.memory.ForgetCrewTakeoff(o)
		} else {
			t.memory.ForgetTakeoff(o)
		}
		lines = append(lines, t.say(wording.Forgotten, "what", t.takeoffLine(entry{o, d.Crew})))
	}
	for _, e := range d.Before {
		if e.Crew {
			t.memory.SetCrewTakeoff(e.Takeoff)
		} else {
			t.memory.SetTakeoff(e.Takeoff)
		}
		lines = append(lines, t.say(wording.KeptAgain, "what", t.takeoffLine(e)))
	}
	t.talk.Kept = nil
	p := said(s, true, strings.Join(lines, "\n"))
	for _, j := range d.Jobs {
		if t.memory.ChangeJob(j) {
			t.takeUp(j)
			p.text += "\n\n" + j.Reply
			p.about = j.Number
		}
	}
	p.record.Reply = p.text
	return p
}

// nameBack gives a job the name that it had.
func (t *turn) nameBack(s parser.Statement, d deed) (part, bool) {
	j, ok := t.job(int(d.Jobs[0].Number))
	if !ok {
		return part{}, false
	}
	j.Name = d.Jobs[0].Name
	t.memory.ChangeJob(j)
	if j.Number == t.talk.Job {
		t.talk.Name = j.Name
	}
	return said(s, true, t.say(wording.AsItWas)+"\n"+jobLine(j)), true
}

// jobsBack puts jobs on the list again that were dropped. They are numbered anew.
func (t *turn) jobsBack(s parser.Statement, d deed) part {
	lines := []string{t.say(wording.AsItWas)}
	for _, j := range d.Jobs {
		j.Number = t.memory.AddJob(j)
		t.takeUp(j)
		lines = append(lines, jobLine(j))
	}
	return said(s, true, strings.Join(lines, "\n"))
}

// drop drops a job by its number, 0 for the last. The one before it is then what
// a change changes.
func (t *turn) drop(s parser.Statement, number int) part {
	j, ok := t.job(number)
	switch {
	case !ok && number != 0:
		return t.tell(s, false, wording.NoSuchJob, "number", strconv.Itoa(number))
	case !ok:
		return t.tell(s, false, wording.NothingToUndo)
	}
	t.takeAway(j.Number)
	t.noteDeed(deed{Did: droppedJob, Jobs: []store.Job{j}})
	return t.tell(s, true, wording.Dropped, "what", jobLine(j))
}

// settingNow is what a setting is, as the phrase that says so.
func settingNow(object string, s settings) wording.Phrase {
	switch object {
	case "talk":
		return choose(s.Talk, wording.TalkOn, wording.TalkOff)
	case "metric":
		return choose(s.Metric, wording.MetricOn, wording.MetricOff)
	case "handbook":
		return handbookPhrase(s.Handbook)
	case "code":
		return choose(s.Code == figure.NoCode, wording.CodeNone, wording.CodeSet)
	case "division":
		return choose(s.Division > 16, wording.InThirtySeconds, wording.InSixteenths)
	case "draw":
		return choose(s.Draw, wording.DrawAlways, wording.DrawAsked)
	}
	return choose(s.Language != "", wording.LanguageSet, wording.LanguageAsWritten)
}
