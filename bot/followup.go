package bot

import (
	"regexp"
	"slices"

	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/parser"
)

// job is an ask on its way to be figured and kept.
type job struct {
	ask    parser.Ask
	asked  string // the words
	name   string
	number uint64 // of the job that it answers anew; 0 makes a new one
	again  bool   // it changes or repeats a job that was answered
	glance bool   // another look at the last job, not to be kept
}

// followUp changes the last ask: "same but 14". What comes of it is another
// piece, and so another job.
func (t *turn) followUp(s parser.Statement) part {
	change := *s.Ask
	if t.talk.Ask == nil {
		if change.FollowUp && !asksAnew(change) {
			return t.tell(s, false, wording.NothingToChange)
		}
		change.FollowUp = false
		return t.figure(s, job{ask: change, asked: s.Text, name: change.Name})
	}
	if change.Kind == parser.Mark && len(change.Measures) == 0 && t.talk.Ask.Kind != parser.Offset && t.talk.Ask.Kind != parser.Mark {
		change.Kind = parser.Unstated // where to cut a fall, or a piece, is told already
	}
	t.waiting, t.asked = nil, nil // what they ask about is what is being changed
	ask := t.talk.Ask.With(t.follows(change, *t.talk.Ask))
	ask.FollowUp = false
	return t.figure(s, job{ask: ask, asked: s.Text, name: change.Name, again: !t.talk.Unfigured, glance: onlyLooks(change)})
}

// aboutUnknown says whether a message replies to one that is about no job which can
// be found. What it goes on with is then no business of the last one: only a reply to
// what was asked of this very person is about that.
func (t *turn) aboutUnknown() bool {
	asked := len(t.waiting) > 0 || t.talk.Ask != nil && t.talk.Job == 0
	return t.message.Unknown && (t.message.Theirs || !asked)
}

// goesOn says whether a statement means what it says of the last job, and so nothing
// by itself.
func (t *turn) goesOn(s parser.Statement) bool {
	if a := s.Ask; a != nil {
		return a.FollowUp || a.Kind == parser.Unstated && !setsTakeoff(*a) || t.movesTakeoff(*a) || t.placesLast(s)
	}
	if s.Command == nil || s.Command.Number != 0 || s.Command.Factor != 0 {
		return false
	}
	switch s.Command.Verb {
	case parser.Explain, parser.Draw, parser.Undo, parser.NameJob, parser.Rule, parser.AllCautions:
		return true
	case parser.Jobs, parser.Help, parser.Greet, parser.Takeoffs, parser.Forget, parser.ForgetMe, parser.Export,
		parser.Setting, parser.Thanks, parser.Cancel, parser.Practice, parser.Exam, parser.Skip, parser.Stop,
		parser.Score, parser.Glossary:
	}
	return false
}

// placesLast says whether all that is told is where the pipes stand between which the
// last piece goes, and no other one: ends are 9 apart.
func (t *turn) placesLast(s parser.Statement) bool {
	a, last := *s.Ask, t.talk.Ask
	if last == nil || last.Kind != parser.Offset && last.Kind != parser.Mark || a.Kind != parser.Mark {
		return false
	}
	if a.Angle != 0 || a.Pipe != (catalog.Pipe{}) || a.Ends != [2]parser.End{} || len(a.Measures) == 0 || another.MatchString(s.Text) {
		return false
	}
	return !slices.ContainsFunc(a.Measures, func(m parser.Measure) bool {
		return !slices.Contains([]parser.Role{parser.GapNow, parser.Overlap, parser.StickOut, parser.Reading}, m.Role)
	})
}

// another is what tells one piece from the last.
var another = regexp.MustCompile(`(?i)\b(?:next|another|other one|new one|otro|otra|siguiente)\b`)

// asksAnew says whether a change says enough to be asked about as a new ask.
func asksAnew(change parser.Ask) bool {
	return change.Kind != parser.Unstated && len(change.Measures) > 0 && change.Angle != 0
}

// onlyLooks says whether a change leaves the piece as it is, and only wants
// something else told of it: the run, the handbook's figures.
func onlyLooks(change parser.Ask) bool {
	looks := change.Want != parser.Bare || change.Sensitivity || change.Handbook
	return looks && changesNothing(change) && change.Ends == [2]parser.End{}
}

// changesNothing says whether an ask has nothing in it to figure with, apart
// from what it says of the fittings at the ends.
func changesNothing(a parser.Ask) bool {
	return len(withoutEnds(a).Measures) == 0 && a.Angle == 0 && a.Pipe == (catalog.Pipe{}) &&
		a.Grade == 0 && a.Lines == 0 && a.Sum == nil && !a.ComeBack
}

// withoutEnds is an ask without what was measured of its fittings.
func withoutEnds(a parser.Ask) parser.Ask {
	a.Measures = slices.DeleteFunc(slices.Clone(a.Measures), func(m parser.Measure) bool {
		return m.Role == parser.TakeoffOf || m.Role == parser.Face || m.Role == parser.Depth
	})
	for i := range a.Ends {
		a.Ends[i].Takeoff, a.Ends[i].Face, a.Ends[i].Depth = 0, 0, 0
	}
	return a
}
