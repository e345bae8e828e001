package figure

import (
	"cmp"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// cutIn is the cut that the offset would make in another system, 0 where
// nobody knows.
func (w *work) cutIn(s catalog.System, o solved) geometry.Length {
	j, err := w.joinIn(s, [2]catalog.Fitting{w.fittingAt(0, o.turn()), w.fittingAt(1, o.turn())})
	if err != nil || j.tooRough() {
		return 0
	}
	return max(0, o.Travel-j.lost())
}

// assume says what was taken that no word said, and what each other reading
// would make of the cut. It makes the cut provisional if one is more than
// 1/16 in off. Where all make the same cut, as with takeoffs that were said,
// nothing hangs on it and nothing is said.
func (w *work) assume(cutIn func(catalog.System) geometry.Length) {
	if len(w.others) == 0 {
		return
	}
	took := w.answer.System
	a := Assumption{What: parser.PipeOf, Took: cmp.Or(string(took.Use), took.Name)}
	ours, same := cutIn(took), true
	for _, s := range w.others {
		if s.Joint != took.Joint {
			a.What, a.Took = parser.JointOf, string(took.Joint)
		}
		cut := cutIn(s)
		same = same && cut != 0 && within(cut, ours, 0)
		a.Instead = append(a.Instead, Alternative{Name: s.Name, Cut: cut})
		if cut != 0 && !within(cut, ours, geometry.Inch/16) {
			w.answer.Provisional = true
		}
	}
	if !same {
		w.answer.Assumed = append(w.answer.Assumed, a)
	}
}
