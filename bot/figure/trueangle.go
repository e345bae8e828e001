package figure

import (
	"errors"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// WithinTape is why a stock bend may serve for a true angle: what it would
// change is no more than a tape by hand may be off.
const WithinTape = "within the tape's error"

// stockBend looks for the bend of this pipe that two measured lengths may mean:
// one that changes neither by more than the 1/8 in that a tape by hand may be
// off. It is named beside the true angle, with what it would change; the
// figures stay by what was given. Only where the angle is that bend's to the
// hair is there nothing to tell apart. Without one the bends around the angle
// are named.
func (w *work) stockBend(o solved) (solved, error) {
	bends, err := w.stock()
	if err != nil {
		return o, err
	}
	for _, a := range bends {
		bend, err := geometry.SetAngle(o.Set, a)
		if err != nil || !w.byTape(o.Offset, bend) || w.wants(parser.AngleOf, parser.Travel, parser.Run) {
			continue
		}
		o.bend, w.answer.Stock = a, a
		if within(bend.Run, o.Run, 0) && within(bend.Travel, o.Travel, 0) {
			o.Offset, o.stock = bend, true
			w.answer.Angle = a
			return o, nil
		}
		w.answer.Bends = append(w.answer.Bends, Choice{
			Angle: a, Run: bend.Run, Travel: bend.Travel, Spare: o.Run - bend.Run, Why: WithinTape,
			Fits: bend.Run <= o.Run+hairline,
		})
		return o, nil
	}
	w.aroundAngle(o, bends)
	return o, nil
}

// stock are the bends of the pipe, or of the trade where no pipe was said.
func (w *work) stock() ([]geometry.Angle, error) {
	var missing *Missing
	if err := w.pipeIfNeeded(); err != nil && !errors.As(err, &missing) {
		return nil, err
	}
	if bends := w.answer.System.Bends(); len(bends) > 0 {
		return bends, nil
	}
	return geometry.Bends(), nil
}

// byTape says whether a bend agrees with what was measured of an offset, as near
// as a tape by hand.
func (w *work) byTape(o, bend geometry.Offset) bool {
	_, hasRun := w.given.of(parser.Run)
	_, hasTravel := w.given.of(parser.Travel)
	return (!hasRun || within(o.Run, bend.Run, apart)) && (!hasTravel || within(o.Travel, bend.Travel, apart))
}

func within(a, b, by geometry.Length) bool {
	return a-b <= by+hairline && b-a <= by+hairline
}

// aroundAngle lists the bends next to a true angle, with the run each needs.
func (w *work) aroundAngle(o solved, bends []geometry.Angle) {
	for _, a := range nearestBends(o.Angle, bends) {
		if bend, err := geometry.SetAngle(o.Set, a); err == nil {
			w.answer.Bends = append(w.answer.Bends, Choice{
				Angle: a, Run: bend.Run, Travel: bend.Travel,
				Fits: bend.Run <= o.Run+hairline, Spare: o.Run - bend.Run,
			})
		}
	}
}

// nearestBends are the bend just sharper and the bend just flatter than an
// angle, of bends listed the sharpest first.
func nearestBends(a geometry.Angle, bends []geometry.Angle) []geometry.Angle {
	var near []geometry.Angle
	for _, b := range bends {
		switch {
		case b >= a:
			near = []geometry.Angle{b}
		case b < a:
			return append(near, b)
		}
	}
	return near
}

// noBendFor turns "no such bend" at a true angle into what would fit: the
// bends of this system around it.
func (w *work) noBendFor(o solved, err error) error {
	var impossible *Impossible
	if o.from != parser.Bare || !errors.As(err, &impossible) || impossible.Cause != NoSuchFitting {
		return err
	}
	bends := nearestBends(o.Angle, w.answer.System.Bends())
	return &Impossible{Cause: NoFit, Subject: catalog.AngleName(o.Angle), Bends: bends, Near: bendNames(bends)}
}
