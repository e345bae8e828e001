package bot

import (
	"encoding/json"
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
	return said(s, ok, text)
}

// askOf is what a job by its number asked, or for 0 what was answered last; nil
// where there is none, or another version kept it.
func (t *turn) askOf(number int) *parser.Ask {
	if number == 0 {
		return t.talk.Shown
	}
	j, ok := t.job(number)
	ask := new(parser.Ask)
	if !ok || json.Unmarshal(j.Ask, ask) != nil {
		return nil
	}
	return ask
}

// whyAStep says how to ask for the rule behind a step, as a line of its own;
// nothing where no step has one.
func (t *turn) whyAStep(number int) string {
	ask := t.askOf(number)
	if ask == nil {
		return ""
	}
	answer, err := figure.Solve(*ask, t.figuring())
	if err != nil {
		return ""
	}
	figured := wording.Figured(answer)
	if len(figured) == 0 {
		return ""
	}
	which := strconv.Itoa(figured[0])
	if number != 0 {
		which = t.say(wording.StepOfJob, "step", which, "job", strconv.Itoa(number))
	}
	return "\n" + t.say(wording.WhyAStep, "number", which)
}
