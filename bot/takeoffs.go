package bot

import (
	"cmp"
	"errors"
	"strings"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
	"dogleg/store"
)

// setsTakeoff says whether an ask gives a takeoff to keep: "takeoff 2 pvc 45 is
// 1-1/8", or only "takeoff 1-1/8", which means the fittings of the last job; or
// a dry fit of known pipe from which one follows.
func setsTakeoff(a parser.Ask) bool {
	gives := false
	for _, end := range a.Ends {
		gives = gives || end.Takeoff > 0 || end.Face > 0 || end.Spigot > 0 || end.Inlet > 0 || end.Outlet > 0
	}
	switch a.Kind {
	case parser.Takeoff:
		return gives || a.Store
	case parser.Unstated:
		return gives && changesNothing(a) && !namesFitting(a)
	case parser.Check, parser.Piece:
		return showsTakeoff(a)
	case parser.Offset, parser.Fit, parser.Mark, parser.Parallel, parser.Around,
		parser.Fall, parser.Trim, parser.Sum, parser.Multiplier,
		parser.Corner, parser.Miter, parser.Saddle, parser.Wrap, parser.Riser, parser.Doglegs:
	}
	return false
}

// showsTakeoff says whether an ask tells what a dry fit of a known cut came to,
// in pipe that it names, and nothing else: that shows what the fittings take,
// and asks for nothing.
func showsTakeoff(a parser.Ask) bool {
	came := parser.DryFit
	if a.Kind == parser.Piece {
		came = parser.CenterToCenter
	}
	return len(a.Measures) == 2 && len(a.All(came)) == 1 && len(a.All(parser.Cut)) == 1 &&
		namesFitting(a) && namesPipe(a) && a.Pipe.Size != "" && a.Want == parser.Bare && !a.FollowUp
}

func namesFitting(a parser.Ask) bool {
	return a.Angle != 0 || a.Ends[0].Fitting.Shape != "" || a.Ends[1].Fitting.Shape != ""
}

func namesPipe(a parser.Ask) bool { return a.Pipe.Material != "" || a.Pipe.Joint != "" }

// keepTakeoff keeps a takeoff as the person's own, or the crew's, for that
// fitting in that pipe, and answers the last job again if it uses it. Package
// figure says what is to be kept, and questions what the fitting can't have.
func (t *turn) keepTakeoff(s parser.Statement, ask parser.Ask) part {
	if !namesFitting(ask) && t.talk.Ask != nil {
		ask = t.follows(ask, *t.talk.Ask)
	}
	k := kept{Kind: ask.Kind, Last: !namesFitting(ask)}
	ask.Kind, ask.Store, ask.FollowUp = parser.Takeoff, true, false
	if last := k.Last; last || !namesPipe(ask) {
		p, ok := t.place()
		switch {
		case !ok && last && t.talk.Ask == nil:
			return t.tell(s, false, wording.TakeoffOfWhat)
		case !ok && last, ok && last && p.alike() && twoTakeoffs(ask):
			return t.followUp(s) // for this piece alone: the pipe isn't known, or both can't be the fitting's own
		case ok && last && !p.alike() && !twoTakeoffs(ask):
			return t.tell(s, false, wording.TakeoffOfWhichEnd, "first", p.fittings[0].Key(), "second", p.fittings[1].Key())
		case ok:
			ask = p.complete(ask)
		}
	}
	if twoTakeoffs(ask) && oneFitting(ask) {
		return t.tell(s, false, wording.TwoTakeoffs, "fitting", nameOf(ask),
			"first", t.tape(stated(ask.Ends[0]), ask.Pipe.Size), "second", t.tape(stated(ask.Ends[1]), ask.Pipe.Size))
	}
	k.Ask = ask
	return t.enter(s, k)
}

// kept is a takeoff, or one for each of two fittings, that was just kept.
type kept struct {
	Ask  parser.Ask      // that gave it
	Kind parser.Kind     // as it was worded: a dry fit is a check
	Last bool            // it is for the fittings of the last job
	Own  []store.Takeoff // as kept
}

// enter keeps what an ask gives.
func (t *turn) enter(s parser.Statement, k kept) part {
	t.talk.Language = cmp.Or(k.Ask.Language, t.talk.Language)
	ask, err := t.settled(k.Ask)
	var answer *figure.Answer
	if err == nil {
		k.Ask = ask
		answer, err = t.questioned(k.Ask)
	}
	if err != nil {
		t.failed(job{ask: k.Ask, asked: s.Text}, err)
		return t.refuse(s, err)
	}
	before, done := "", deed{Did: keptTakeoff}
	for _, own := range answer.Own {
		o, old, line := t.keepOwn(own)
		k.Own, before = append(k.Own, o), before+line
		done.Crew, done.Before = own.Crew, append(done.Before, old...)
	}
	done.Kept = k.Own
	text := wording.Reply(answer, t.options(k.Ask.Language)) + t.lessDepth(k.Ask, answer) + before
	p := part{statement: s, text: text, record: wording.NewRecord(s, answer, nil, text), answered: true}
	if k.Kind == parser.Check || k.Kind == parser.Piece {
		p.record.Kind = k.Kind
	}
	p = t.again(p, answer.Own, k.Last, &done)
	t.noteDeed(done)
	t.talk.Kept = &k
	return p
}

// movesTakeoff says whether an ask only says more of the pipe of a takeoff that
// was just kept: "schedule 40", after it was taken as DWV. Another material or
// size is another pipe.
func (t *turn) movesTakeoff(a parser.Ask) bool {
	if t.talk.Kept == nil || a.Kind != parser.Unstated || a.Want != parser.Bare || a.Handbook || a.Sensitivity {
		return false
	}
	said, was := a.Pipe, t.talk.Kept.Ask.Pipe
	same := (said.Material == "" || said.Material == was.Material) && (said.Size == "" || said.Size == was.Size)
	a.Pipe = catalog.Pipe{}
	return same && (said.Joint != "" || said.Use != "" || said.Schedule != "") &&
		changesNothing(a) && a.Ends == [2]parser.End{}
}

// moveTakeoff puts what was just kept under another pipe. Where it can't be
// there it stays.
func (t *turn) moveTakeoff(s parser.Statement) part {
	before := *t.talk.Kept
	set, forget := t.memory.SetTakeoff, t.memory.ForgetTakeoff
	if before.Ask.Crew {
		set, forget = t.memory.SetCrewTakeoff, t.memory.ForgetCrewTakeoff
	}
	for _, o := range before.Own {
		forget(o)
	}
	k := kept{Kind: before.Kind, Last: before.Last}
	k.Ask = before.Ask
	k.Ask.Pipe.Use, k.Ask.Pipe.Joint = "", "" // taken for granted, or taken back
	k.Ask = k.Ask.With(*s.Ask)
	k.Ask.Kind, k.Ask.Ends = parser.Takeoff, before.Ask.Ends // the fitting in the hand is the same
	p := t.enter(s, k)
	if !p.answered {
		for _, o := range before.Own {
			set(o)
		}
	}
	return p
}

// questioned solves an ask for a takeoff to be kept. One that its fitting can't
// have is refused once; said once more, it is taken.
func (t *turn) questioned(ask parser.Ask) (*figure.Answer, error) {
	settings := t.figuring()
	settings.StandsBy, t.talk.Doubted = t.talk.Doubted, figure.OwnTakeoff{}
	answer, err := figure.Solve(ask, settings)
	var impossible *figure.Impossible
	if errors.As(err, &impossible) && (impossible.Cause == figure.BadTakeoff || impossible.Cause == figure.NotMeasured) {
		d := impossible.Doubted
		t.talk.Doubted = figure.OwnTakeoff{System: impossible.System.ID, Fitting: d.Fitting.Key(), Size: d.Size, Length: d.Length}
	}
	return answer, err
}

// twoTakeoffs says whether an ask gives the two ends unlike takeoffs.
func twoTakeoffs(a parser.Ask) bool {
	first, second := a.Ends[0], a.Ends[1]
	return stated(first) != 0 && stated(second) != 0 &&
		(first.Takeoff != second.Takeoff || first.Face != second.Face || first.Depth != second.Depth)
}

// stated is what an end gives of its fitting: the takeoff, or the face.
func stated(e parser.End) geometry.Length { return cmp.Or(e.Takeoff, e.Face) }

// oneFitting says whether an ask names no more than one fitting.
func oneFitting(a parser.Ask) bool {
	first, second := a.Ends[0].Fitting, a.Ends[1].Fitting
	return first == second || first.Shape == "" || second.Shape == ""
}

// nameOf is the key of the fitting that an ask names.
func nameOf(a parser.Ask) string {
	for _, e := range a.Ends {
		if e.Fitting.Shape != "" {
			return e.Fitting.Key()
		}
	}
	return catalog.BendOf(a.Angle).Key()
}

// keepOwn keeps one takeoff. It returns which was there before, if any, and says
// in a line of its own where that takes its place.
func (t *turn) keepOwn(own figure.Stored) (o store.Takeoff, before []entry, line string) {
	kept, set := t.memory.Takeoffs(), t.memory.SetTakeoff
	if own.Crew {
		kept, set = t.memory.CrewTakeoffs(), t.memory.SetCrewTakeoff
	}
	o = t.stored(own)
	for _, old := range kept {
		if figure.SameLine(old.Line, o.Line) {
			o.Line = old.Line // "grey ones" are "the grey ones"
		}
	}
	set(o)
	for _, old := range kept {
		if store.CompareTakeoffs(old, o) == 0 {
			before = []entry{{old, own.Crew}}
			if old.Length != o.Length {
				line = "\n" + t.say(wording.InPlaceOf, "length", t.tape(old.Length, old.Size), "when", t.day(old.When))
			}
		}
	}
	return o, before, line
}

// again answers the last job anew if it takes one of these takeoffs. Where they
// were measured for that job, they go before what it said of its ends, and they
// settle what its pipe is: that of the fitting in the hand. What the job was is
// noted with what was done.
func (t *turn) again(kept part, own []figure.Stored, last bool, done *deed) part {
	if t.talk.Ask == nil {
		return kept
	}
	ask := *t.talk.Ask
	if last && len(own) > 0 {
		ask = withoutEnds(ask)
		ask.Pipe = pipeOf(own[0].System, own[0].Takeoff.Size)
	}
	answer, err := figure.Solve(ask, t.figuring())
	if err != nil || !uses(answer, own) {
		return kept
	}
	j := job{ask: ask, asked: kept.statement.Text, name: t.talk.Name, number: t.talk.Job, again: !t.talk.Unfigured}
	if before, ok := t.job(int(j.number)); ok && j.number != 0 {
		j.asked = before.Asked
		done.Jobs = []store.Job{before}
	}
	t.waiting = nil
	p := t.figure(kept.statement, j)
	p.buttons = t.undoPlainly(p.buttons)
	p.text = kept.text + "\n\n" + p.text
	p.record.Reply = p.text
	return p
}

// uses says whether an answer rests on one of these takeoffs.
func uses(a *figure.Answer, own []figure.Stored) bool {
	for _, end := range a.Ends {
		for _, o := range own {
			if end.Takeoff.Evidence == catalog.Own && a.System.ID == o.System.ID && end.Takeoff.Measured.Crew == o.Crew &&
				end.Fitting == o.Takeoff.Fitting && end.Takeoff.Size == o.Takeoff.Size {
				return true
			}
		}
	}
	return false
}

// stored is a takeoff in the form the memory keeps.
func (t *turn) stored(o figure.Stored) store.Takeoff {
	by := ""
	if o.Crew {
		by = t.message.From
	}
	return store.Takeoff{
		System:  o.System.ID,
		Fitting: o.Takeoff.Fitting.Key(),
		Size:    o.Takeoff.Size,
		Line:    o.Line,
		Length:  o.Takeoff.Length,
		How:     o.How,
		When:    t.message.When,
		By:      by,
	}
}

// lessDepth says how far the pipe was taken to go in, where a takeoff was made
// of a face.
func (t *turn) lessDepth(ask parser.Ask, a *figure.Answer) string {
	end := ask.Ends[0]
	if end.Face == 0 || end.Takeoff != 0 || len(a.Own) == 0 {
		return ""
	}
	source := t.say(wording.AsYouSaid)
	own := a.Own[0]
	if _, said := ask.Length(parser.Depth); end.Depth == 0 && !said {
		depth, _ := own.System.Insertion(own.Takeoff.Size)
		source = depth.Source
	}
	return "\n" + t.say(wording.FaceLessDepth,
		"face", t.tape(end.Face, own.Takeoff.Size), "depth", t.tape(own.Takeoff.Insertion, own.Takeoff.Size), "source", source)
}

// tape writes a length of a fitting in a size as this person's tape shows it.
func (t *turn) tape(l geometry.Length, size catalog.Size) string {
	if t.metric() || size.Metric() {
		return strings.Replace(l.Metric(1), ".0 ", " ", 1)
	}
	return l.Tape(max(t.settings.Division, geometry.ThirtySeconds)).String()
}
