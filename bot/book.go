package bot

import (
	"fmt"
	"strings"

	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/store"
)

// entry is a takeoff on the list: the person's own, or the crew's.
type entry struct {
	store.Takeoff
	Crew bool
}

// list are the takeoffs as they are listed: the person's own and then the
// crew's.
func (t *turn) takeoffList() []entry {
	var all []entry
	for _, o := range t.memory.Takeoffs() {
		all = append(all, entry{o, false})
	}
	for _, o := range t.memory.CrewTakeoffs() {
		all = append(all, entry{o, true})
	}
	return all
}

// takeoffs lists the person's own and the crew's, or hands the own ones over
// as a table.
func (t *turn) takeoffs(s parser.Statement) part {
	words := strings.ToLower(s.Text)
	if strings.Contains(words, "export") || strings.Contains(words, "csv") {
		return t.table(s)
	}
	all := t.takeoffList()
	if len(all) == 0 {
		return t.tell(s, true, wording.NoTakeoffs)
	}
	var lines []string
	crews := false
	for i, o := range all {
		if o.Crew && !crews {
			lines, crews = append(lines, t.say(wording.CrewTakeoffs)), true
		}
		lines = append(lines, fmt.Sprintf("%d. %s", i+1, t.takeoffLine(o)))
	}
	return said(s, true, strings.Join(append(lines, t.say(wording.HowToForget)), "\n"))
}

// table writes the person's own takeoffs as CSV.
func (t *turn) table(s parser.Statement) part {
	own := t.memory.Takeoffs()
	if len(own) == 0 {
		return t.tell(s, true, wording.NoTakeoffs)
	}
	var text strings.Builder
	if err := store.WriteTakeoffs(&text, own); err != nil {
		return t.refuse(s, err)
	}
	return said(s, true, strings.TrimSpace(text.String()))
}

// takeoffLine is "45, 2 PVC DWV: 1-1/8, center to stop, 3 Nov"; of the crew's
// it says who set it.
func (t *turn) takeoffLine(o entry) string {
	by := ""
	if o.Crew && o.By != "" {
		by = t.say(wording.SetBy, "by", o.By)
	}
	parts := []string{fmt.Sprintf("%s, %s %s: %s", o.Fitting, o.Size, systemName(o.System), t.tape(o.Length, o.Size))}
	for _, more := range []string{o.Line, wording.Term(o.How, t.options(t.talk.Language)), by, t.day(o.When)} {
		if more != "" {
			parts = append(parts, more)
		}
	}
	return strings.Join(parts, ", ")
}
