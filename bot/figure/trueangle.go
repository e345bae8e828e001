package figure

import (
	"errors"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// standardBend looks for the bend that two measured lengths mean: the one that
// takes the run within 1/8 in of what the tape says, as they are measured by
// hand. Without one the true angle stays, with the bends around it.
func (w *work) standardBend(o solved) (solved, error) {
	for _, a := range geometry.Bends() {
		bend, err := geometry.SetAngle(o.Set, a)
		if err != nil || !within(bend.Run, o.Run, apart) {
			continue
		}
		if w.wants(parser.AngleOf, parser.Travel, parser.Run) {
			break // what the tape says is asked for, to the hair
		}
		o.Offset, o.from = bend, parser.Set
		w.answer.Angle = a
		return o, nil
	}
	w.aroundAngle(o)
	return o, nil
}

func within(a, b, by geometry.Length) bool {
	return a-b <= by+hairline && b-a <= by+hairline
}

// aroundAngle lists the bends next to a true angle, with the run each needs.
func (w *work) aroundAngle(o solved) {
	for _, a := range nearestBends(o.Angle, geometry.Bends()) {
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
