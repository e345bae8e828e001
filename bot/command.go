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
		return t.explain(s)
	case parser.Jobs:
		return t.jobs(s)
	case parser.Help:
		return said(s, true, help)
	case parser.Greet:
		return said(s, true, Greeting())
	case parser.AllCautions:
		return t.cautions(s)
	case parser.NameJob:
		return t.name(s)
	case parser.Takeoffs:
		return t.takeoffs(s)
	case parser.Forget:
		return t.forget(s)
	case parser.Draw:
		return said(s, false, noDrawing)
	case parser.Undo:
		return t.undo(s)
	case parser.Setting:
		return t.set(s)
	case parser.Thanks:
		return said(s, true, welcome)
	case parser.Cancel:
		return t.cancel(s)
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
	return said(s, true, wording.AllCautions(answer, t.options(t.talk.Language)))
}

// cancel drops the question that waits.
func (t *turn) cancel(s parser.Statement) part {
	if len(t.waiting)+len(t.asked) == 0 {
		return said(s, true, nothingToCancel)
	}
	t.waiting, t.asked = nil, nil
	return said(s, true, canceled)
}
