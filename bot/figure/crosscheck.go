package figure

import (
	"dogleg/geometry"
	"dogleg/parser"
)

// apart is how much two measurements of one thing may differ before it is
// said: 1/8 in, what a tape laid twice by hand shows. Common practice.
const apart = geometry.Inch / 8

// hairline absorbs the last bits of floating point where lengths are compared
// with a limit; no tape shows it.
const hairline = 1e-9 * geometry.Inch

// crosscheck notes two measurements of one thing that are more than 1/8 in
// apart. The first is used; the answer says both before anything else.
func (w *work) crosscheck(role parser.Role, first, second parser.Measure, as [2]geometry.Length) {
	off := as[1] - as[0]
	if off < 0 {
		off = -off
	}
	if off <= apart+hairline {
		return
	}
	w.answer.Unequal = append(w.answer.Unequal, Disagreement{
		Role: role, First: first, Second: second, As: as, Apart: off,
	})
}

// crosscheckFigured compares what was measured with what the other
// measurements make of it.
func (w *work) crosscheckFigured(role parser.Role, figured geometry.Length) {
	measured, ok := w.given.of(role)
	if !ok {
		return
	}
	first := w.ask.All(role)[0]
	w.crosscheck(role, first, parser.Measure{Role: role, Length: figured}, [2]geometry.Length{measured, figured})
}

// centered brings the measures of a role to center to center, cross-checks
// them and returns the first; ok is false where there is none.
func (w *work) centered(role parser.Role) (l geometry.Length, ok bool, err error) {
	if l, ok = w.given.of(role); ok {
		return l, true, nil
	}
	all := w.ask.All(role)
	for i, m := range all {
		c, err := w.toCenters(m)
		if err != nil {
			return 0, false, err
		}
		if i == 0 {
			l = c
			w.given.put(role, c)
			w.measured(m, c)
			continue
		}
		w.crosscheck(role, all[0], m, [2]geometry.Length{l, c})
	}
	return l, len(all) > 0, nil
}
