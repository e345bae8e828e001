package bot

import (
	"cmp"

	"dogleg/bot/wording"
	"dogleg/parser"
)

// howToMeasure explains how a takeoff is measured, in the language of the question.
func (t *turn) howToMeasure(s parser.Statement, l parser.Language) part {
	t.talk.Language = cmp.Or(l, t.talk.Language)
	return t.tell(s, true, wording.HowToMeasure)
}
