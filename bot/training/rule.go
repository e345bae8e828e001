package training

import (
	"cmp"
	"slices"
	"strconv"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// Rule says the rule behind a step of what was answered last, or of a job by
// its number; ok is false where there is nothing to explain.
func (r *Room) Rule(s parser.Statement) (reply Reply, ok bool) {
	r.Talk.Speak(s.Command.Language)
	ask, number, _ := r.Talk.Asked(s.Command.Number)
	if ask == nil {
		return Reply{}, false
	}
	answer, err := figure.Solve(*ask, r.Talk.Figuring())
	if err != nil {
		return Reply{Err: err}, true
	}
	text, answered := wording.Rule(answer, s.Command.Step, r.options())
	return Reply{Text: text, Answered: answered, About: cmp.Or(uint64(s.Command.Number), number)}, true
}

// WhyAStep says how to ask for the rule behind a step of a job, or of what was
// answered last, and has a button for each step that was figured; empty where none
// was.
func (r *Room) WhyAStep(job int) (text string, buttons [][]Button) {
	figured := r.figured(job)
	if len(figured) == 0 {
		return "", nil
	}
	first := strconv.Itoa(figured[0])
	if job != 0 {
		first = r.say("step of job", "step", first, "job", strconv.Itoa(job))
	}
	return r.say("why a step", "number", first), r.RuleButtons(job)
}

// figured are the numbers of the steps of a job that are arithmetic.
func (r *Room) figured(job int) []int {
	ask, _, _ := r.Talk.Asked(job)
	if ask == nil {
		return nil
	}
	answer, err := figure.Solve(*ask, r.Talk.Figuring())
	if err != nil {
		return nil
	}
	return wording.Figured(answer)
}

// mostInARow is how many buttons side by side can be read on a phone.
const mostInARow = 4

// RuleButtons ask for the rules behind steps. Of the last answer they name its
// job, if it is one, so that they still mean it when others follow.
func (r *Room) RuleButtons(job int) [][]Button {
	number := uint64(job)
	if job == 0 {
		_, number, _ = r.Talk.Asked(0)
	}
	var row []Button
	for _, n := range r.figured(job) {
		says := "rule " + strconv.Itoa(n)
		if number != 0 {
			says += " of job " + strconv.FormatUint(number, 10)
		}
		row = append(row, Button{Label: r.say("rule button", "number", strconv.Itoa(n)), Says: says})
	}
	return slices.Collect(slices.Chunk(row, mostInARow))
}
