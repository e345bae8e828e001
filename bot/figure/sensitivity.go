package figure

import (
	"dogleg/geometry"
	"dogleg/parser"
)

// angleSlip is the slip of an angle that is shown: a degree, which a sprung joint
// easily has. Common practice.
const angleSlip = 1 * geometry.Degree

// slips are the slips of the tape, and of the takeoff at each end, that are shown,
// with their names. Common practice.
type slips struct {
	tape, takeoff     geometry.Length
	tapeOf, takeoffOf string
}

var (
	inchSlips   = slips{geometry.Inch / 8, geometry.Inch / 16, "1/8 in", "1/16 in"}
	metricSlips = slips{3 * geometry.Millimeter, 2 * geometry.Millimeter, "3 mm", "2 mm"}
)

// slips are those on this tape.
func (w *work) slips() slips {
	if w.settings.Metric {
		return metricSlips
	}
	return inchSlips
}

// throws notes how far one sloppy measurement throws the cut and the line.
func (w *work) throws(o solved) {
	slip := w.slips()
	if w.answer.Rolling {
		w.rollThrows(o, slip)
	} else if t, err := o.SetOff(slip.tape); err == nil {
		w.thrown("set", slip.tapeOf, t)
	}
	if t, err := o.AngleOff(angleSlip); err == nil {
		w.thrown("angle", "1 degree", t)
	}
	if !o.pieced {
		return
	}
	if t, err := o.TakeoffOff(slip.takeoff); err == nil {
		w.thrown("takeoff", slip.takeoffOf, t)
	}
}

// rollThrows are those of roll and of rise: each moves the true set only by
// its part along it.
func (w *work) rollThrows(o solved, slip slips) {
	for what, by := range o.rollingSlips(slip.tape) {
		if by == 0 {
			continue
		}
		if t, err := o.SetOff(by); err == nil {
			w.thrown([]string{string(parser.Roll), string(parser.Rise)}[what], slip.tapeOf, t)
		}
	}
}

func (o solved) rollingSlips(slip geometry.Length) [2]geometry.Length {
	roll, _ := o.rolling.RollOff(slip) // a rolling offset has a true set
	rise, _ := o.rolling.RiseOff(slip)
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
