package bot

import (
	"cmp"
	"reflect"
	"slices"
	"strconv"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// rule says the rule behind a step of what was answered last, or of a job by
// its number.
func (t *turn) rule(s parser.Statement) part {
	t.speak(s)
	n := s.Command.Number
	if _, ok := t.job(n); n != 0 && !ok {
		return t.tell(s, false, wording.NoSuchJob, "number", strconv.Itoa(n))
	}
	ask := t.askOf(n)
	if ask == nil {
		return t.tell(s, false, wording.NothingToExplain)
	}
	answer, err := figure.Solve(*ask, t.figuring())
	if err != nil {
		return t.refuse(s, err)
	}
	text, ok := wording.Rule(answer, s.Command.Step, t.options(t.talk.Language))
	p := said(s, ok, text)
	p.about = cmp.Or(uint64(n), t.talk.Job)
	return p
}

// askOf is what a job by its number asked, or for 0 what was answered last; nil
// where there is none, or another version kept it.
func (t *turn) askOf(number int) *parser.Ask {
	if number == 0 {
		return t.talk.Shown
	}
	j, ok := t.job(number)
	if !ok {
		return nil
	}
	return askedBy(j)
}

// whyASteps adds to an explanation how to ask for the rule behind a step, and a
// button for each step that was figured.
func (t *turn) whyASteps(p part, number int) part {
	ask := t.askOf(number)
	if ask == nil {
		return p
	}
	answer, err := figure.Solve(*ask, t.figuring())
	if err != nil {
		return p
	}
	figured := wording.Figured(answer)
	if len(figured) == 0 {
		return p
	}
	first := strconv.Itoa(figured[0])
	if number != 0 {
		first = t.say(wording.StepOfJob, "step", first, "job", strconv.Itoa(number))
	}
	p.text += "\n" + t.say(wording.WhyAStep, "number", first)
	p.record.Reply = p.text
	p.buttons = t.ruleButtons(figured, number)
	return p
}

// mostInARow is how many buttons side by side can be read on a phone.
const mostInARow = 4

// ruleButtons ask for the rules behind steps. Of the last answer they name its
// job, if it is one, so that they still mean it when others follow.
func (t *turn) ruleButtons(steps []int, number int) [][]Button {
	if shown := t.talk.Shown; number == 0 && t.talk.Ask != nil && shown != nil && reflect.DeepEqual(*t.talk.Ask, *shown) {
		number = int(t.talk.Job)
	}
	var row []Button
	for _, n := range steps {
		says := "rule " + strconv.Itoa(n)
		if number != 0 {
			says += " of job " + strconv.Itoa(number)
		}
		row = append(row, Button{Label: t.say(wording.RuleButton, "number", strconv.Itoa(n)), Says: says})
	}
	return slices.Collect(slices.Chunk(row, mostInARow))
}
