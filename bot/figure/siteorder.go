package figure

import (
	"cmp"
	"slices"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// inSiteOrder puts the steps in the order of the work: measure, check the
// measure, choose the bend, figure, mark, put it together dry, join. The order
// is that of S. E. Dibble, Elements of Plumbing, 1918, who has every measure
// taken before the first cut, and with the tape that the pipe is cut by.
//
// What a kind has put in already stays; what is only looked up or added up is
// not built, and has nothing to mark.
func (w *work) inSiteOrder() {
	slices.SortStableFunc(w.answer.Steps, measuresFirst)
	measures := w.measuring()
	if w.choosesBend() {
		chosen := Quantity{Role: parser.AngleOf, Angle: w.chosenBend()}
		w.insert(measures, Step{Name: StepChoose, Rule: string(w.answer.Kind), Result: chosen})
	}
	if measures > 0 {
		w.insert(measures, Step{Name: StepCheck, Rule: w.checkRule()})
	}
	w.marksOf()
}

// checkRule is the kind by whose words the measures are checked: lines that don't
// run parallel are not held against that.
func (w *work) checkRule() string {
	if w.answer.Unlike != nil || w.answer.From != (catalog.Fitting{}) && w.answer.From.Shape != catalog.Wye {
		return string(parser.Piece)
	}
	return string(w.answer.Kind)
}

// insert puts a step before another.
func (w *work) insert(at int, s Step) { w.answer.Steps = slices.Insert(w.answer.Steps, at, s) }

// measuresFirst orders two steps: those that measure come before the others.
func measuresFirst(a, b Step) int {
	switch measureA, measureB := a.Name == StepMeasure, b.Name == StepMeasure; {
	case measureA == measureB:
		return 0
	case measureA:
		return -1
	}
	return 1
}

// measuring is how many steps measure, where those stand first.
func (w *work) measuring() int {
	n := 0
	for n < len(w.answer.Steps) && w.answer.Steps[n].Name == StepMeasure {
		n++
	}
	return n
}

// choosesBend says whether there is a bend to choose: not where the fittings
// are on the pipe already, nor where the angle is what was figured.
func (w *work) choosesBend() bool {
	if w.answer.Angle == 0 {
		return false
	}
	switch w.answer.Kind {
	case parser.Offset, parser.Fit, parser.Mark, parser.Parallel, parser.Around, parser.Fall, parser.Trim:
		return w.answer.Unlike == nil && w.answer.From == (catalog.Fitting{}) && w.answer.Main != parser.AngleOf
	case parser.Unstated, parser.Piece, parser.Sum, parser.Multiplier, parser.Takeoff, parser.Check,
		parser.Corner, parser.Miter, parser.Saddle, parser.Wrap, parser.Riser, parser.Doglegs:
	}
	return false
}

// chosenBend is the angle of the bends that the steps go on with: where they
// were chosen for the room, the best of them.
func (w *work) chosenBend() geometry.Angle {
	if w.answer.Kind == parser.Fit && len(w.answer.Bends) > 0 {
		return w.answer.Bends[0].Angle
	}
	return cmp.Or(w.answer.Stock, w.answer.Angle)
}

// marked is what is marked of those kinds that are laid out without a cut.
var marked = map[parser.Kind]parser.Role{
	parser.Parallel: parser.Stagger, parser.Around: parser.Start,
	parser.Fall: parser.Drop, parser.Trim: parser.TakeoffOf,
}

// marksOf ends what is laid out without a cut of its own: the stagger of a
// bank, the first bend before an obstacle, the low end of a drain, an elbow to
// trim.
func (w *work) marksOf() {
	role, ok := marked[w.answer.Kind]
	if l, has := w.answer.Length(role); ok && has && w.answer.Main == role {
		w.siteSteps(length(role, l))
	}
}
