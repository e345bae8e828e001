package bot

import (
	"dogleg/bot/figure"
	"dogleg/bot/training"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// commands is what is done for each verb.
var commands = map[parser.Verb]func(*turn, parser.Statement) part{
	parser.Explain: func(t *turn, s parser.Statement) part {
		if s.Command.Factor != 0 {
			return trains((*training.Room).Why)(t, s)
		}
		return t.explain(s)
	},
	parser.Help:        (*turn).greetIn,
	parser.Greet:       (*turn).greetIn,
	parser.Thanks:      func(t *turn, s parser.Statement) part { return t.tell(s, true, wording.Welcome) },
	parser.Rule:        (*turn).rule,
	parser.Jobs:        (*turn).jobs,
	parser.AllCautions: (*turn).cautions,
	parser.NameJob:     (*turn).name,
	parser.Takeoffs:    (*turn).takeoffs,
	parser.Forget:      (*turn).forget,
	parser.ForgetMe:    (*turn).forgetAll,
	parser.Export:      (*turn).exportData,
	parser.Draw:        (*turn).draw,
	parser.Undo:        (*turn).undo,
	parser.Setting:     (*turn).set,
	parser.Cancel:      (*turn).cancel,
	parser.Practice:    trains((*training.Room).Practice),
	parser.Exam:        trains((*training.Room).Exam),
	parser.Skip:        trains((*training.Room).Skip),
	parser.Stop:        trains((*training.Room).Stop),
	parser.Score:       trains((*training.Room).Score),
	parser.Glossary:    trains((*training.Room).Glossary),
}

// command carries out a command.
func (t *turn) command(s parser.Statement) part {
	if do, ok := commands[s.Command.Verb]; ok {
		return do(t, s)
	}
	return t.refuse(s, errFault)
}

// speak goes on in the language of a command.
func (t *turn) speak(s parser.Statement) { (trainee{t}).Speak(s.Command.Language) }

// greetIn greets in the language of a command.
func (t *turn) greetIn(s parser.Statement) part {
	t.speak(s)
	return t.greet(s)
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
		return trains((*training.Room).Stop)(t, s)
	}
	if len(t.waiting)+len(t.asked) == 0 {
		return t.tell(s, true, wording.NothingToCancel)
	}
	t.waiting, t.asked = nil, nil
	return t.tell(s, true, wording.Canceled)
}
