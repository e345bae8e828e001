package bot

import (
	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// command carries out a command.
func (t *turn) command(s parser.Statement) part {
	switch s.Command.Verb {
	case parser.Explain:
		if s.Command.Factor != 0 {
			return t.why(s)
		}
		return t.explain(s)
	case parser.Rule:
		return t.rule(s)
	case parser.Jobs:
		return t.jobs(s)
	case parser.Help, parser.Greet:
		t.speak(s)
		return t.greet(s)
	case parser.AllCautions:
		return t.cautions(s)
	case parser.NameJob:
		return t.name(s)
	case parser.Takeoffs:
		return t.takeoffs(s)
	case parser.Forget:
		return t.forget(s)
	case parser.ForgetMe:
		return t.forgetAll(s)
	case parser.Export:
		return t.exportData(s)
	case parser.Draw:
		return t.draw(s)
	case parser.Undo:
		return t.undo(s)
	case parser.Setting:
		return t.set(s)
	case parser.Thanks:
		return t.tell(s, true, wording.Welcome)
	case parser.Cancel:
		return t.cancel(s)
	case parser.Practice:
		return t.practice(s)
	case parser.Exam:
		return t.exam(s)
	case parser.Skip:
		return t.skip(s)
	case parser.Stop:
		return t.stop(s)
	case parser.Score:
		return t.score(s)
	case parser.Glossary:
		return t.glossary(s)
	}
	return t.refuse(s, errFault)
}

// cautions gives all the cautions that belong to the last answer.
func (t *turn) cautions(s parser.Statement) part {
	if t.talk.Shown == nil {
		return said(s, true, wording.AllCautions(nil, t.options(t.talk.Language)))
	}
	answer, err := figure.Solve(*t.talk.Shown, t.figuring())
	if err != nil {
		return t.refuse(s, err)
	}
	p := said(s, true, wording.AllCautions(answer, t.options(t.talk.Language)))
	p.about = t.talk.Job
	return p
}

// cancel drops the question that waits.
func (t *turn) cancel(s parser.Statement) part {
	if len(t.waiting)+len(t.asked) == 0 && t.talk.Practice.Posed != nil {
		return t.stop(s)
	}
	if len(t.waiting)+len(t.asked) == 0 {
		return t.tell(s, true, wording.NothingToCancel)
	}
	t.waiting, t.asked = nil, nil
	return t.tell(s, true, wording.Canceled)
}
