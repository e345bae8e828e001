package bot

import (
	"fmt"
	"strings"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
	"dogleg/store"
)

// setsTakeoff says whether an ask gives a takeoff to keep: "takeoff 2 pvc 45 is
// 1-1/8", or only "takeoff 1-1/8", which means the fittings of the last job.
func setsTakeoff(a parser.Ask) bool {
	gives := false
	for _, end := range a.Ends {
		gives = gives || end.Takeoff > 0 || end.Face > 0
	}
	switch a.Kind {
	case parser.Takeoff:
		return gives || a.Store
	case parser.Unstated:
		return gives && changesNothing(a) && !namesFitting(a) && a.Ends[0] == a.Ends[1]
	case parser.Offset, parser.Fit, parser.Piece, parser.Mark, parser.Parallel, parser.Around,
		parser.Fall, parser.Trim, parser.Sum, parser.Multiplier, parser.Check:
	}
	return false
}

func namesFitting(a parser.Ask) bool {
	return a.Angle != 0 || a.Ends[0].Fitting.Shape != "" || a.Ends[1].Fitting.Shape != ""
}

func namesPipe(a parser.Ask) bool { return a.Pipe.Material != "" || a.Pipe.Joint != "" }

// keepTakeoff keeps a takeoff as the person's own, for that fitting in that
// pipe, and answers the last job again if it uses it. Package figure says what
// is to be kept, and refuses what the fitting can't have.
func (t *turn) keepTakeoff(s parser.Statement, ask parser.Ask) part {
	ask.Kind, ask.Store, ask.FollowUp = parser.Takeoff, true, false
	last := !namesFitting(ask)
	if last || !namesPipe(ask) {
		p, ok := t.place()
		switch {
		case !ok && last && t.talk.Ask == nil:
			return t.tell(s, false, wording.TakeoffOfWhat)
		case !ok && last:
			return t.followUp(s) // the pipe isn't known: it is for this piece alone
		case ok && last && p.fittings[0] != p.fittings[1]:
			return t.tell(s, false, wording.TakeoffOfWhichEnd, "first", p.fittings[0].Key(), "second", p.fittings[1].Key())
		case ok:
			ask = p.complete(ask)
		}
	}
	answer, err := figure.Solve(ask, t.figuring())
	if err != nil {
		t.failed(job{ask: ask, asked: s.Text}, err)
		return t.refuse(s, err)
	}
	for _, own := range answer.Own {
		t.memory.SetTakeoff(t.stored(own))
	}
	text := wording.Reply(answer, t.options(ask.Language)) + t.lessDepth(ask, answer)
	kept := part{statement: s, text: text, record: wording.NewRecord(s, answer, nil, text), answered: true}
	return t.again(kept, answer.Own, last)
}

// place is the pipe and the fittings of the last job, as they were settled.
type place struct {
	pipe     catalog.Pipe
	fittings [2]catalog.Fitting
}

// place finds the last job's. It is false if there is no last job, or its pipe
// is not settled.
func (t *turn) place() (place, bool) {
	if t.talk.Ask == nil {
		return place{}, false
	}
	ask := *t.talk.Ask
	a, err := figure.Solve(ask, t.figuring())
	if err != nil {
		a = partly(err)
	}
	if a == nil || a.System.ID == "" {
		return place{}, false
	}
	p := place{pipe: pipeOf(a.System, a.Size)}
	for i, end := range a.Ends {
		p.fittings[i] = fittingOf(end.Fitting, ask.Ends[i].Fitting, ask.Angle)
	}
	return p, p.fittings[0].Shape != ""
}

// partly is what was figured before an error, if anything was.
func partly(err error) *figure.Answer {
	switch e := err.(type) {
	case *figure.Missing:
		return e.Partly
	case *figure.Impossible:
		return e.Partly
	}
	return nil
}

// pipeOf names a system so that no other is meant.
func pipeOf(s catalog.System, size catalog.Size) catalog.Pipe {
	return catalog.Pipe{Material: s.Material, Joint: s.Joint, Use: s.Use, Schedule: s.Schedule, Size: size}
}

// fittingOf is the fitting figured with, else the one that was said, else the
// bend of the angle that was said, else none.
func fittingOf(figured, said catalog.Fitting, angle geometry.Angle) catalog.Fitting {
	switch {
	case figured.Shape != "":
		return figured
	case said.Shape != "":
		return said
	case angle != 0:
		return catalog.BendOf(angle)
	}
	return catalog.Fitting{}
}

// complete puts in what an ask doesn't say.
func (p place) complete(ask parser.Ask) parser.Ask {
	if !namesFitting(ask) {
		ask.Angle = p.fittings[0].Angle
		for i := range ask.Ends {
			ask.Ends[i].Fitting = p.fittings[i]
		}
	}
	if !namesPipe(ask) {
		size := ask.Pipe.Size
		ask.Pipe = p.pipe
		if size != "" {
			ask.Pipe.Size = size
		}
	}
	return ask
}

// again answers the last job anew if it takes one of these takeoffs. Where they
// were measured for that job, they go before what it said of its ends, and they
// settle what its pipe is: that of the fitting in the hand.
func (t *turn) again(kept part, own []figure.Stored, last bool) part {
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
	j := job{ask: ask, asked: kept.statement.Text, name: t.talk.Name, number: t.talk.Job}
	if before, ok := t.job(int(j.number)); ok && j.number != 0 {
		j.asked = before.Asked
	}
	t.waiting = nil
	p := t.figure(kept.statement, j)
	p.text = kept.text + "\n\n" + p.text
	p.record.Reply = p.text
	return p
}

// uses says whether an answer rests on one of these takeoffs.
func uses(a *figure.Answer, own []figure.Stored) bool {
	for _, end := range a.Ends {
		for _, o := range own {
			if end.Takeoff.Evidence == catalog.Own && a.System.ID == o.System.ID &&
				end.Fitting == o.Takeoff.Fitting && end.Takeoff.Size == o.Takeoff.Size {
				return true
			}
		}
	}
	return false
}

// stored is a takeoff in the form the memory keeps.
func (t *turn) stored(o figure.Stored) store.Takeoff {
	return store.Takeoff{
		System:  o.System.ID,
		Fitting: o.Takeoff.Fitting.Key(),
		Size:    o.Takeoff.Size,
		Line:    o.Line,
		Length:  o.Takeoff.Length,
		How:     o.How,
		When:    t.message.When,
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
	if end.Depth == 0 {
		depth, _ := own.System.Insertion(own.Takeoff.Size)
		source = depth.Source
	}
	return "\n" + t.say(wording.FaceLessDepth,
		"face", t.tape(end.Face), "depth", t.tape(own.Takeoff.Insertion), "source", source)
}

// tape writes a length as this person's tape shows it.
func (t *turn) tape(l geometry.Length) string {
	if t.settings.Metric {
		return l.Metric(1)
	}
	return l.Tape(max(t.settings.Division, geometry.ThirtySeconds)).String()
}

// takeoffs lists the person's own.
func (t *turn) takeoffs(s parser.Statement) part {
	own := t.memory.Takeoffs()
	if len(own) == 0 {
		return t.tell(s, true, wording.NoTakeoffs)
	}
	var lines []string
	for i, o := range own {
		lines = append(lines, fmt.Sprintf("%d. %s", i+1, t.takeoffLine(o)))
	}
	return said(s, true, strings.Join(append(lines, t.say(wording.HowToForget)), "\n"))
}

// takeoffLine is "45, 2 PVC DWV: 1-1/8, center to stop, 3 Nov".
func (t *turn) takeoffLine(o store.Takeoff) string {
	parts := []string{fmt.Sprintf("%s, %s %s: %s", o.Fitting, o.Size, systemName(o.System), t.tape(o.Length))}
	for _, more := range []string{o.Line, o.How, o.When.Format(day)} {
		if more != "" {
			parts = append(parts, more)
		}
	}
	return strings.Join(parts, ", ")
}
