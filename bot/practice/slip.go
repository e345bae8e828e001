package practice

import (
	"math"
	"slices"

	"dogleg/geometry"
)

// Slip is a usual slip.
type Slip string

// The slips.
const (
	NoSlip Slip = ""

	Divided      Slip = "divided"               // instead of multiplied
	OneTakeoff   Slip = "one takeoff"           // forgot the other
	NoTakeoff    Slip = "no takeoff"            // forgot both
	AddedEnds    Slip = "added the takeoffs"    // instead of taken off
	TookOffEnds  Slip = "took the takeoffs off" // instead of added
	Cosine       Slip = "cosine's multiplier"   // of the run instead of the set
	RunForTravel Slip = "run for travel"
	TravelForRun Slip = "travel for run"
	NoMultiplier Slip = "no multiplier"
	RollAndRise  Slip = "roll and rise added" // instead of the root
	RollAlone    Slip = "roll alone"
	RiseAlone    Slip = "rise alone"
	InchesLong   Slip = "inches for feet"
	WholeAngle   Slip = "whole angle" // its tangent, instead of half the angle's
	TwoPlaces    Slip = "two decimals"
)

// slipped is a figure that a slip leads to.
type slipped struct {
	slip   Slip
	sheet  sheet
	figure geometry.Length
}

// slips lists what a problem comes to by each slip, the commonest first. One
// that leads to the right answer all the same, or to nothing that can be cut,
// is not on it; of two that fill in the same sheet, the first is.
func (p Problem) slips() []slipped {
	var list []slipped
	right := p.Figure()
	for _, c := range p.candidates() {
		if c.figure > 0 && !same(c.figure, right) && !alreadyIn(list, c.sheet) {
			list = append(list, c)
		}
	}
	return list
}

func alreadyIn(list []slipped, filled sheet) bool {
	return slices.ContainsFunc(list, func(s slipped) bool {
		return math.Abs(s.sheet.base-filled.base) < 1e-9 &&
			math.Abs(s.sheet.multiplier-filled.multiplier) < 1e-9 &&
			math.Abs(s.sheet.ends-filled.ends) < 1e-9
	})
}

// same says whether two figures are one but for the last binary places.
func same(a, b geometry.Length) bool { return math.Abs((a - b).Inches()) < 1e-9 }

func (p Problem) candidates() []slipped {
	var list []slipped
	add := func(slip Slip, s sheet) { list = append(list, slipped{slip, s, s.result()}) }
	if p.Kind != Piece {
		divided := p.sheet()
		divided.multiplier = 1 / divided.multiplier
		add(Divided, divided)
	}
	p.takeoffSlips(add)
	p.multiplierSlips(add)
	p.rollSlips(add)
	if p.Kind == Fall {
		long := p.sheet()
		long.base *= 12
		add(InchesLong, long)
	}
	return list
}

func (p Problem) takeoffSlips(add func(Slip, sheet)) {
	right := p.sheet()
	if right.ends == 0 {
		return
	}
	sign := math.Copysign(1, right.ends)
	for _, t := range p.Takeoffs {
		one := right
		one.ends = sign * t.Inches()
		add(OneTakeoff, one)
	}
	none, other := right, right
	none.ends, other.ends = 0, -right.ends
	add(NoTakeoff, none)
	if sign < 0 {
		add(AddedEnds, other)
	} else {
		add(TookOffEnds, other)
	}
}

func (p Problem) multiplierSlips(add func(Slip, sheet)) {
	right := p.sheet()
	sine, cosine := math.Sincos(p.Angle().Degrees() * math.Pi / 180)
	with := func(slip Slip, multiplier float64) {
		s := right
		s.multiplier = multiplier
		add(slip, s)
	}
	switch p.Kind {
	case Travel, Cut, Rolling:
		with(RunForTravel, cosine/sine)
		with(Cosine, 1/cosine)
		with(NoMultiplier, 1)
		with(TwoPlaces, math.Round(right.multiplier*100)/100)
	case EndGap:
		with(TravelForRun, 1/sine)
		with(NoMultiplier, 1)
		with(TwoPlaces, math.Round(right.multiplier*100)/100)
	case Stagger:
		with(WholeAngle, sine/cosine)
		with(NoMultiplier, 1)
	case Piece, Fall:
	}
}

func (p Problem) rollSlips(add func(Slip, sheet)) {
	if p.Kind != Rolling {
		return
	}
	with := func(slip Slip, base geometry.Length) {
		s := p.sheet()
		s.base = base.Inches()
		add(slip, s)
	}
	with(RollAndRise, p.Roll+p.Rise)
	with(RollAlone, p.Roll)
	with(RiseAlone, p.Rise)
}
