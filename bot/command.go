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
	if p, ok := t.told(s); ok {
		return p
	}
	return t.refuse(s, errFault)
}

// told does what people tell in words of their own that orders.csv and phrases.csv don't
// have, as the words there do it; false where a verb is none of those.
func (t *turn) told(s parser.Statement) (part, bool) {
	c := s.Command
	o := order{language: c.Language}
	if c.Number > 0 {
		o.numbers = []uint64{uint64(c.Number)}
	}
	switch c.Verb {
	case "first", "second":
		return t.choose(s, c.Verb == "second"), true
	case "metric":
		s.Command = &parser.Command{Verb: parser.Setting, Object: "metric", Value: "on", Language: c.Language}
		return t.set(s), true
	case "inches":
		s.Command = &parser.Command{Verb: parser.Setting, Object: "metric", Value: "off", Language: c.Language}
		return t.set(s), true
	case "add", "list":
		o.act, o.numbers = act(c.Verb), nil
	case "done", "drop":
		o.act = act(c.Verb)
		if c.Number == 0 {
			o = order{phrase: doneWhich, language: c.Language}
		}
	case "share":
		o.phrase = shareIt
	case "repeat":
		o.phrase = howLong
	case parser.Explain, parser.Rule, parser.Jobs, parser.Help, parser.Greet, parser.AllCautions, parser.NameJob, parser.Takeoffs,
		parser.Forget, parser.ForgetMe, parser.Export, parser.Draw, parser.Undo, parser.Setting, parser.Thanks, parser.Cancel,
		parser.Practice, parser.Exam, parser.Skip, parser.Stop, parser.Score, parser.Glossary:
		return part{}, false
	default:
		return part{}, false
	}
	return t.obey(s, o), true
}

// choose takes the first or the second of the readings that were offered last.
func (t *turn) choose(s parser.Statement, second bool) part {
	i := 0
	if second {
		i = 1
	}
	if i >= len(t.offered) || len(t.offered[i]) != 1 {
		return t.refuse(s, &parser.Misunderstanding{Trouble: parser.NotFiguring, Text: s.Text})
	}
	a := t.offered[i][0]
	return t.takeReading(parser.Statement{Text: wording.TypedIn(a, t.options(t.talk.Language))}, a)
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
