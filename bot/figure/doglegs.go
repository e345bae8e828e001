package figure

import (
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// doglegs figures two offsets in one line, with the straight between them: the
// piece of each, the piece between, and how far the line comes over in all. The
// first end is the bends of the first offset, the second end those of the second.
// What was said of one alone holds for both.
func (w *work) doglegs() error {
	sets := w.ask.All(parser.Set)
	if len(sets) != 2 {
		return &Missing{Wanted: parser.Set}
	}
	var offsets [2]geometry.Offset
	for i, m := range sets {
		set, err := w.toCenters(m)
		if err != nil {
			return err
		}
		w.measured(m, set)
		a := w.bendsOf(i)
		if a == 0 {
			return w.missingAngle()
		}
		if offsets[i], err = geometry.SetAngle(set, a); err != nil {
			return err
		}
	}
	w.answer.Angle = offsets[0].Angle
	j, err := w.joinIn2()
	if err != nil {
		return err
	}
	w.use(j)
	if j.tooRough() {
		_ = w.measureFirst(j)
		return &Missing{Wanted: parser.TakeoffOf}
	}
	straight, err := w.straightBetween(offsets)
	if err != nil {
		return err
	}
	return w.doglegPieces(offsets, straight, j)
}

// bendsOf is what the bends of one of the two offsets turn.
func (w *work) bendsOf(which int) geometry.Angle {
	for _, i := range []int{which, 1 - which} {
		if f := w.ask.Ends[i].Fitting; f.Angle != 0 {
			return f.Angle
		}
	}
	return w.ask.Angle
}

// joinIn2 finds the takeoffs of the bends of both offsets.
func (w *work) joinIn2() (joint, error) {
	if err := w.pipeIfNeeded(); err != nil {
		return joint{}, err
	}
	return w.joinIn(w.answer.System, [2]catalog.Fitting{w.fittingAt(0, w.bendsOf(0)), w.fittingAt(1, w.bendsOf(1))})
}

// straightBetween is from the center of the first offset's second bend to that of
// the second one's first: said, or what the whole leaves.
func (w *work) straightBetween(o [2]geometry.Offset) (geometry.Length, error) {
	straight, ok, err := w.centered(parser.Straight)
	if ok || err != nil {
		return straight, err
	}
	whole, ok, err := w.centered(parser.CenterToCenter)
	if err != nil {
		return 0, err
	}
	if !ok {
		return 0, &Missing{Wanted: parser.Straight}
	}
	straight = whole - o[0].Run - o[1].Run
	w.add(RuleStraight, length(parser.Straight, straight), length(parser.CenterToCenter, whole), less(parser.Run, o[0].Run), less(parser.Run, o[1].Run))
	if straight <= 0 {
		return 0, &Impossible{Cause: TooShort, Subject: string(parser.Straight)}
	}
	return straight, nil
}

// doglegPieces figures the three pieces and lays the line out.
func (w *work) doglegPieces(o [2]geometry.Offset, straight geometry.Length, j joint) error {
	gap := j.gap.Length
	taken := [2]geometry.Length{j.ends[0].Takeoff.Length + gap, j.ends[1].Takeoff.Length + gap}
	f := j.faces()
	if o[0].Travel < 2*f[0]-hairline || o[1].Travel < 2*f[1]-hairline || straight < f[0]+f[1]-hairline {
		return &Impossible{Cause: TooShort, Subject: string(parser.Cut)}
	}
	cuts := []geometry.Length{o[0].Travel - 2*taken[0], straight - taken[0] - taken[1], o[1].Travel - 2*taken[1]}
	for _, c := range cuts {
		if c <= hairline {
			return &Impossible{Cause: TooShort, Subject: string(parser.Cut)}
		}
	}
	w.answer.Pieces = cuts
	over := o[0].Set + o[1].Set
	if w.ask.ComeBack {
		over = o[0].Set - o[1].Set
	}
	w.answer.Main = parser.FirstPiece
	w.figured(parser.FirstPiece, cuts[0])
	w.figured(parser.Straight, straight)
	w.figured(parser.Run, o[0].Run+straight+o[1].Run)
	w.figured(parser.Set, max(over, -over))
	terms := []Quantity{length(parser.Straight, straight), less(parser.TakeoffOf, taken[0]-gap), less(parser.TakeoffOf, taken[1]-gap)}
	w.add(RuleBetween, length(parser.Cut, cuts[1]), lessGaps(terms, gap)...)
	for _, which := range []int{1, 0} { // the first offset's piece is said first, and explained last
		role, offset := [2]parser.Role{parser.FirstPiece, parser.Cut}[which], o[which]
		w.multiply(RuleSetToTravel, length(parser.Set, offset.Set), 1/offset.Angle.Sin(), length(parser.Travel, offset.Travel))
		terms := []Quantity{length(parser.Travel, offset.Travel), {Role: parser.TakeoffOf, Length: taken[which] - gap, Minus: true, Times: 2}}
		w.add(RuleCut, length(role, cuts[2*which]), lessGaps(terms, gap)...)
	}
	return w.walkedDoglegs(o, cuts, taken, straight, over)
}

func (w *work) walkedDoglegs(o [2]geometry.Offset, cuts []geometry.Length, taken [2]geometry.Length, straight, over geometry.Length) error {
	walker := walk.From(walk.Point{})
	side := geometry.Angle(1)
	for i, offset := range o {
		if i == 1 {
			walker.Forward(taken[0])
			walker.Forward(cuts[1])
			walker.Forward(taken[1])
			if w.ask.ComeBack {
				side = -1
			}
		}
		walker.Turn(side*offset.Angle, walk.Up)
		walker.Forward(taken[i])
		walker.Forward(cuts[2*i])
		walker.Forward(taken[i])
		walker.Turn(-side*offset.Angle, walk.Up)
	}
	return w.landed(walker.Path(), walk.Point{X: o[0].Run + straight + o[1].Run, Y: over})
}
