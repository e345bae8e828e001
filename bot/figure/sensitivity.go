package figure

import (
	"dogleg/geometry"
	"dogleg/parser"
)

// The slips that are shown: 1/8 in of tape, 1/16 in of takeoff at each end,
// and a degree, which a sprung joint easily has. Common practice.
const (
	tapeSlip    = geometry.Inch / 8
	takeoffSlip = geometry.Inch / 16
	angleSlip   = 1 * geometry.Degree
)

// throws notes how far one sloppy measurement throws the cut and the line.
func (w *work) throws(o solved) {
	if w.answer.Rolling {
		w.rollThrows(o)
	} else if t, err := o.SetOff(tapeSlip); err == nil {
		w.thrown("set", "1/8 in", t)
	}
	if t, err := o.AngleOff(angleSlip); err == nil {
		w.thrown("angle", "1 degree", t)
	}
	if !o.pieced {
		return
	}
	if t, err := o.TakeoffOff(takeoffSlip); err == nil {
		w.thrown("takeoff", "1/16 in", t)
	}
}

// rollThrows are those of roll and of rise: each moves the true set only by
// its part along it.
func (w *work) rollThrows(o solved) {
	for what, by := range o.rollingSlips() {
		if by == 0 {
			continue
		}
		if t, err := o.SetOff(by); err == nil {
			w.thrown([]string{string(parser.Roll), string(parser.Rise)}[what], "1/8 in", t)
		}
	}
}

func (o solved) rollingSlips() [2]geometry.Length {
	roll, _ := o.rolling.RollOff(tapeSlip) // a rolling offset has a true set
	rise, _ := o.rolling.RiseOff(tapeSlip)
	return [2]geometry.Length{roll, rise}
}

// mostThrows is how many measurements are looked at: roll and rise, angle, takeoff.
const mostThrows = 4

func (w *work) thrown(what, off string, t geometry.Throw) {
	if w.answer.Throws == nil {
		w.answer.Throws = make([]Throw, 0, mostThrows)
	}
	w.answer.Throws = append(w.answer.Throws, Throw{What: what, Off: off, Cut: t.Cut, Set: t.Set, Run: t.Run})
}
