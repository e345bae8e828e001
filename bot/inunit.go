package bot

import (
	"regexp"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// otherUnit asks for the last answer in a unit: "in inches?", "en milímetros".
var otherUnit = regexp.MustCompile(`(?i)^\s*¿?\s*(?:(?:and|y|what is (?:that|it)|what's that|whats that|say it|show me)\s+)?(?:in|en)\s+(?:(inches|pulgadas)|(mm|millimet(?:er|re)s|mil[ií]metros))\s*\??\s*$`)

// inAnotherUnit tells the figures of the last answer in the unit that is asked for,
// and changes nothing.
func (t *turn) inAnotherUnit(text string) (part, bool) {
	found := otherUnit.FindStringSubmatch(text)
	if found == nil || t.talk.Shown == nil {
		return part{}, false
	}
	s := parser.Statement{Text: text}
	answer, err := figure.Solve(*t.talk.Shown, t.figuring())
	if err != nil {
		return t.refuse(s, err), true
	}
	o := t.options(t.talk.Shown.Language)
	o.Metric, o.Inches = found[2] != "", found[1] != ""
	p := said(s, true, wording.Figures(answer, o))
	p.about = t.talk.Job
	return p, true
}
