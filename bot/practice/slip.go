package practice

import (
	"math"
	"slices"

	"dogleg/geometry"
)

// Slip is a usual slip.
type Slip string

// The slips that every problem tells apart from its answer and from each other.
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
	NotThere     Slip = "left what is there" // the gap as it is was not taken off
)

// The slips that are rarer, or near another one in some problems; they are named
// where nothing commoner is met as closely.
const (
	FourTakeoffs  Slip = "takeoffs twice"
	ThreeTakeoffs Slip = "three takeoffs"
	AddedOne      Slip = "one added" // one off, and the other not: of two alike
	SameTakeoff   Slip = "same takeoff"
	TakeoffFirst  Slip = "takeoff first" // before the multiplier
	OtherBend     Slip = "other bend"    // its multiplier
	OnePlace      Slip = "one decimal"
	SetAlone      Slip = "set alone" // for the cut
	RunAlone      Slip = "run alone"
	EndsForCut    Slip = "ends for cut"
	CutForEnds    Slip = "cut for ends"
	NoRoot        Slip = "no root"
	Subtracted    Slip = "squares subtracted"
	Difference    Slip = "roll less rise"
	Averaged      Slip = "averaged"
	TwelfthTwice  Slip = "twelve twice"
	DoubleFall    Slip = "double"
	HalfFall      Slip = "half"
	SineForStep   Slip = "sine" // of half the angle, instead of the tangent
	TravelForStep Slip = "travel multiplier"
	OffTheSet     Slip = "off the set" // instead of the spacing
	BothEnds      Slip = "both ends"   // what is to be trimmed, at each of them
	TapeStart     Slip = "tape's start"
	Parts         Slip = "parts"    // of an inch: tenths or eighths for sixteenths
	Decimals      Slip = "decimals" // sixteenths written as decimals
	Close         Slip = "close"    // rounded on the way
)

// slipped is a figure that a slip leads to.
type slipped struct {
	slip   Slip
	sheet  sheet
	figure geometry.Length
	bend   geometry.Angle // whose multiplier it has, of [OtherBend]
	rare   bool
}

// slips lists what a problem comes to by each of some slips. One that leads to the
// right answer all the same, or to nothing that can be cut, is not on it; of two
// that fill in the same sheet, the first is.
func (p Problem) slips(candidates []slipped) []slipped {
	var list []slipped
	right := p.Figure()
	for _, c := range candidates {
		if c.figure > 0 && !same(c.figure, right) && !alreadyIn(list, c.sheet) {
			list = append(list, c)
		}
	}
	return list
}

func alreadyIn(list []slipped, filled sheet) bool {
	alike := func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }
	return slices.ContainsFunc(list, func(s slipped) bool {
		return alike(s.sheet.base, filled.base) && alike(s.sheet.multiplier, filled.multiplier) &&
			alike(s.sheet.ends, filled.ends) && alike(s.sheet.there, filled.there)
	})
}

// same says whether two figures are one but for the last binary places.
func same(a, b geometry.Length) bool { return math.Abs((a - b).Inches()) < 1e-9 }

// common are the commonest slips that a problem of this kind gives room for.
func (p Problem) common() []slipped {
	list := make([]slipped, 0, mostSlips)
	add := func(slip Slip, s sheet) { list = append(list, slipped{slip: slip, sheet: s, figure: s.result()}) }
	if p.Kind != Piece {
		divided := p.sheet()
		divided.multiplier = 1 / divided.multiplier
		add(Divided, divided)
	}
	p.takeoffSlips(add)
	p.multiplierSlips(add)
	p.rollSlips(add)
	switch p.Kind {
	case Fall:
		long := p.sheet()
		long.base *= 12
		add(InchesLong, long)
	case Marking:
		whole := p.sheet()
		whole.there = 0
		add(NotThere, whole)
	case Travel, Cut, EndGap, Rolling, Piece, Stagger, Trimming, Branch, TwoAngles:
	}
	return list
}

// mostSlips is more than there are in one problem.
const mostSlips = 64

// candidates are all slips that a problem of this kind gives room for, the
// commonest first.
func (p Problem) candidates() []slipped {
	list := p.common()
	add := func(slip Slip, s sheet) {
		list = append(list, slipped{slip: slip, sheet: s, figure: s.result(), rare: true})
	}
	p.rareTakeoffSlips(add)
	p.otherFigures(add)
	p.rareRollSlips(add)
	p.rareKindSlips(add)
	p.tapeSlips(add)
	return append(list, p.otherBends()...)
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

// multiplierSlips are those of the multiplier. The one that is left out comes first:
// on 45s it is the same as the run's.
func (p Problem) multiplierSlips(add func(Slip, sheet)) {
	right := p.sheet()
	sine, cosine := math.Sincos(p.Angle().Degrees() * math.Pi / 180)
	with := func(slip Slip, multiplier float64) {
		s := right
		s.multiplier = multiplier
		add(slip, s)
	}
	switch p.Kind {
	case Travel, Cut, Rolling, Trimming, Branch, TwoAngles:
		with(NoMultiplier, 1)
		with(RunForTravel, cosine/sine)
		with(Cosine, 1/cosine)
		with(TwoPlaces, math.Round(right.multiplier*100)/100)
	case EndGap, Marking:
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

// Usual is a slip and what a problem comes to by it.
type Usual struct {
	Slip   Slip
	Figure geometry.Length
	Bend   geometry.Angle // whose multiplier it has, of [OtherBend]
}

// UsualSlips are the commonest slips in a problem, each once.
func (p Problem) UsualSlips() []Usual {
	var usual []Usual
	for _, s := range p.slips(p.common()) {
		if s.slip != TwoPlaces && !slices.ContainsFunc(usual, func(u Usual) bool { return u.Slip == s.slip }) {
			usual = append(usual, Usual{s.slip, s.figure, s.bend})
		}
	}
	return usual
}

// rareTakeoffSlips are those with a takeoff too many, a wrong one, or at the wrong
// time.
func (p Problem) rareTakeoffSlips(add func(Slip, sheet)) {
	right := p.sheet()
	if right.ends == 0 {
		return
	}
	sign := math.Copysign(1, right.ends)
	with := func(slip Slip, ends float64) {
		s := right
		s.ends = ends
		add(slip, s)
	}
	with(FourTakeoffs, 2*right.ends)
	for _, t := range p.Takeoffs {
		with(ThreeTakeoffs, right.ends+sign*t.Inches())
		with(AddedOne, -sign*t.Inches())
		with(SameTakeoff, 2*sign*t.Inches())
	}
	first := right
	first.base, first.ends = right.base+right.ends, 0
	if p.Kind != Piece {
		add(TakeoffFirst, first)
	}
}

// otherFigures are figures of the same problem, sent in place of the one that was
// asked for.
func (p Problem) otherFigures(add func(Slip, sheet)) {
	right := p.sheet()
	sine, cosine := math.Sincos(p.Angle().Degrees() * math.Pi / 180)
	both := math.Abs(right.ends)
	with := func(slip Slip, multiplier, ends float64) {
		add(slip, sheet{base: right.base, multiplier: multiplier, ends: ends})
	}
	switch p.Kind {
	case Cut, Rolling, Branch, TwoAngles:
		with(SetAlone, 1, 0)
		with(RunAlone, cosine/sine, 0)
		with(EndsForCut, cosine/sine, both)
	case EndGap, Marking:
		with(SetAlone, 1, 0)
		with(CutForEnds, 1/sine, -both)
	case Travel, Piece, Stagger, Fall, Trimming:
	}
}

func (p Problem) rareRollSlips(add func(Slip, sheet)) {
	if p.Kind != Rolling {
		return
	}
	with := func(slip Slip, base float64) {
		s := p.sheet()
		s.base = base
		add(slip, s)
	}
	roll, rise := p.Roll.Inches(), p.Rise.Inches()
	with(NoRoot, roll*roll+rise*rise)
	with(Subtracted, math.Sqrt(math.Abs(roll*roll-rise*rise)))
	with(Difference, math.Abs(roll-rise))
	with(Averaged, (roll+rise)/2)
}

// rareKindSlips are those of one kind alone.
func (p Problem) rareKindSlips(add func(Slip, sheet)) {
	times := func(slip Slip, factor float64) {
		s := p.sheet()
		s.base *= factor
		add(slip, s)
	}
	switch p.Kind {
	case Fall:
		times(TwelfthTwice, 1./12)
		times(DoubleFall, 2)
		times(HalfFall, 1./2)
	case Stagger:
		half := p.Angle().Degrees() / 2 * math.Pi / 180
		sine, travel, set := p.sheet(), p.sheet(), p.sheet()
		sine.multiplier = math.Sin(half)
		add(SineForStep, sine)
		travel.multiplier = 1 / math.Sin(2*half)
		add(TravelForStep, travel)
		set.base = p.Set.Inches()
		add(OffTheSet, set)
	case Trimming:
		times(BothEnds, 2)
	case Travel, Cut, EndGap, Rolling, Piece, Marking, Branch, TwoAngles:
	}
	if p.Kind != Fall && p.Kind != Piece && p.Kind != Stagger {
		one := p.sheet()
		one.multiplier = math.Round(one.multiplier*10) / 10
		add(OnePlace, one)
	}
}

// tapeStarts are how far out a tape reads that is held at a later mark than its
// end: at the 1, or at 10 or 100 mm.
func (p Problem) tapeStarts() []geometry.Length {
	if p.Metric {
		return []geometry.Length{10 * geometry.Millimeter, 100 * geometry.Millimeter}
	}
	return []geometry.Length{geometry.Inch}
}

// tapeSlips are those of the tape: held at a later mark than its end, or read in
// other parts of an inch.
func (p Problem) tapeSlips(add func(Slip, sheet)) {
	to := func(slip Slip, figure float64) {
		s := p.sheet()
		s.there += p.Figure().Inches() - figure
		add(slip, s)
	}
	for _, start := range p.tapeStarts() {
		to(TapeStart, (p.Figure() + start).Inches())
		to(TapeStart, (p.Figure() - start).Inches())
	}
	if p.Metric {
		return
	}
	whole, rest := math.Modf(p.Figure().Inches())
	for _, parts := range []float64{math.Round(rest * 10), math.Floor(rest * 10), math.Round(rest * 8)} {
		to(Parts, whole+parts/16)
	}
}

// usualBends are those whose multipliers an apprentice knows by heart.
var usualBends = []geometry.Angle{22.5, 30, 45, 60}

// otherBends are figures by the multiplier of another bend.
func (p Problem) otherBends() []slipped {
	if p.Angle() == 0 {
		return nil
	}
	var list []slipped
	for _, bend := range usualBends {
		if bend == p.Angle() {
			continue
		}
		s := p.sheet()
		s.multiplier = p.Kind.multiplier(bend)
		list = append(list, slipped{slip: OtherBend, sheet: s, figure: s.result(), bend: bend, rare: true})
	}
	return list
}

// fromDecimals says whether a reply in decimals has the sixteenths of the right one
// behind its point: 24.8 or 24.08 for 24-8/16.
func (p Problem) fromDecimals(reply geometry.Length) bool {
	mark := math.Round(p.Figure().Inches() * 16)
	whole, sixteenths := math.Floor(mark/16), math.Mod(mark, 16)
	if sixteenths == 0 || p.Metric {
		return false
	}
	tenths := whole + sixteenths/10
	if sixteenths > 9 {
		tenths = whole + sixteenths/100
	}
	return same(reply, geometry.Length(tenths)) || same(reply, geometry.Length(whole+sixteenths/100))
}
