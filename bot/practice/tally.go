package practice

// Tally is how many problems of one kind were asked, and how many of them were
// right at the first try.
type Tally struct {
	Kind         Kind
	Right, Asked int
}

// Tallies are those of the kinds that were asked so far, the easiest first.
func (t *Training) Tallies() []Tally {
	var all []Tally
	for _, k := range Kinds() {
		if c := t.Cards[k]; c.Asked > 0 {
			all = append(all, Tally{k, c.Right, c.Asked})
		}
	}
	return all
}

// Tallies are those of the kinds in an exam, the easiest first. A question that
// the time was too short for counts as asked; one that came after the exam was left
// was never asked.
func (e *Exam) Tallies() []Tally {
	var all []Tally
	for _, k := range Kinds() {
		tally := Tally{Kind: k}
		for i, p := range e.Problems {
			if p.Kind != k || e.Left() && i >= len(e.Questions) {
				continue
			}
			tally.Asked++
			if i < len(e.Questions) && e.Questions[i].Mark.Right {
				tally.Right++
			}
		}
		if tally.Asked > 0 {
			all = append(all, tally)
		}
	}
	return all
}
