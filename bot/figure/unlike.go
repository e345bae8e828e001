package figure

import (
	"cmp"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// turnAt is what the fitting at an end turns the line through, 0 where nobody said,
// or where it stands square to the step: see [work.square].
func (w *work) turnAt(end int) geometry.Angle {
	f := w.ask.Ends[end].Fitting
	switch {
	case w.square(end):
		return 0
	case f.Shape == catalog.Bend:
		return cmp.Or(f.Angle, w.ask.Angle)
	case f.Shape == catalog.Wye:
		return cmp.Or(f.Angle, w.ask.Angle, branchAngle(f))
	}
	return w.ask.Angle
}

// square says whether the fitting at an end stands square to the step: a tee's
// or a combination's branch, or a 90 beside another bend. What it turns is then
// not what makes the step: the line at the other end is the one that the set is
// measured off, and the piece comes into the fitting square, whichever way that
// is rolled.
func (w *work) square(end int) bool {
	f := w.ask.Ends[end].Fitting
	switch {
	case f.Shape == catalog.Bend && f.Angle == geometry.QuarterBend:
		other := w.ask.Ends[1-end].Fitting
		return other.Shape == catalog.Bend && other.Angle != 0 && other.Angle != geometry.QuarterBend || other.Shape == catalog.Wye
	case f.Shape.BranchShape():
		return f.Shape != catalog.Wye
	}
	return false
}

// squareEnd is the end of which that holds, false where there is none.
func (w *work) squareEnd() (int, bool) {
	for end := range 2 {
		if w.answer.Kind == parser.Offset && w.square(end) {
			return end, true
		}
	}
	return 0, false
}

// turnOfFirst lets the offset leave the first line as the fitting there turns it:
// what is measured is measured off that line; where that stands square to the
// step, off the other line.
func (w *work) turnOfFirst() {
	first, second := w.turnAt(0), w.turnAt(1)
	_, square := w.squareEnd()
	if w.ask.Ends[0].Fitting == (catalog.Fitting{}) && w.ask.Angle == 0 || first == 0 {
		first = second // one fitting was named, for both
	}
	if square && first == 0 {
		first = geometry.QuarterBend
	}
	w.asked = cmp.Or(first, w.asked)
}

// unlike says whether an offset is made of two fittings that turn the line
// through unlike angles.
func (w *work) unlike() bool {
	second := w.turnAt(1)
	return w.asked != 0 && second != 0 && second != w.asked
}

// Unlike is how the far line of an offset runs whose two bends differ.
type Unlike struct {
	Turns [2]geometry.Angle // what each fitting turns
	Off   geometry.Angle    // how far the far line is out of parallel
	Away  bool              // it leads on away from the first line; else back toward it
}

// PerFoot is how far the far line leaves the first line's direction in a foot
// along it; 0 where it runs square to it.
func (u *Unlike) PerFoot() geometry.Length {
	if u.Off >= geometry.QuarterBend {
		return 0
	}
	return geometry.Foot * geometry.Length(u.Off.Tan())
}

// unlikeOffset figures an offset of two unlike bends: the triangle and the cut
// are as of any, by what the first bend turns; but the far line does not run
// parallel, and where its pipe ends is told along and across the first line.
func (w *work) unlikeOffset() error {
	if !w.stepped() && !w.has(parser.Cut) {
		return &Missing{Wanted: parser.Set} // how far the ends are apart makes no set here
	}
	o, err := w.triangle()
	if err != nil {
		return err
	}
	back := w.turnAt(1)
	off := o.Angle - back
	w.answer.Unlike = &Unlike{Turns: [2]geometry.Angle{o.Angle, back}, Off: max(off, -off), Away: off > 0}
	w.answer.Angle, w.answer.Main = o.Angle, w.mainOfTriangle(o)
	if err := w.unlikePiece(&o, back); err != nil {
		w.withoutPiece(o)
		if w.enoughWithoutPiece(o, err) {
			w.forgetPiece()
			w.explain(o)
			return nil
		}
		return err
	}
	return nil
}

func (w *work) unlikePiece(o *solved, back geometry.Angle) error {
	j, err := w.join(o.Angle)
	if err != nil {
		return err
	}
	w.use(j)
	if j.tooRough() && !o.back {
		return w.measureFirst(j)
	}
	o.joint = j
	if o.Travel < j.least()-hairline || o.Travel <= j.lost() {
		return w.collision(*o)
	}
	if o.cut, err = geometry.Cut(o.Travel, j.taken()); err != nil {
		return err
	}
	o.pieced = true
	w.doubts(j.ends, j.lost(), o.Travel)
	w.reduced()
	return w.unlikeAnswer(*o, back)
}

// unlikeAnswer puts the piece into the answer, and where the far pipe ends; and
// lays it all out.
func (w *work) unlikeAnswer(o solved, back geometry.Angle) error {
	w.pieceFirst(o)
	known := w.unlikeEnds(&o, back)
	w.withoutPiece(o)
	if _, ok := w.answer.Length(w.answer.Main); !ok {
		w.answer.Main = parser.Cut
	}
	w.explain(o)
	if !known {
		return nil
	}
	return w.walkedUnlike(o, back)
}

// unlikeEnds figures where the far pipe ends: along the first line from where
// that ends, and across it.
func (w *work) unlikeEnds(o *solved, back geometry.Angle) bool {
	for end, e := range o.joint.ends {
		if e.Fitting.Shape.BranchShape() {
			w.branch(*o, end)
			return false
		}
	}
	o.standing = w.standingEnds(o.joint)
	if f, unknown := w.endsUnknown(o.joint.ends); unknown && o.standing == nil {
		w.answer.NoEnds = f
		return false
	}
	taken := o.ofStanding()
	first, second := taken.Takeoffs[0]+taken.Gaps[0], taken.Takeoffs[1]+taken.Gaps[1]
	heading := o.Angle - back
	w.figured(parser.FarEnd, o.Run+first+second*geometry.Length(heading.Cos()))
	w.figured(parser.FarSet, o.Set+second*geometry.Length(heading.Sin()))
	return true
}

// unlikeSteps are those of where the far pipe ends.
func (w *work) unlikeSteps(o solved) {
	u := w.answer.Unlike
	along, ok := w.answer.Length(parser.FarEnd)
	across, _ := w.answer.Length(parser.FarSet)
	if u == nil || !ok || w.answer.Branch != nil {
		return
	}
	taken := o.ofStanding()
	first, second := taken.Takeoffs[0]+taken.Gaps[0], taken.Takeoffs[1]+taken.Gaps[1]
	heading := o.Angle - u.Turns[1]
	part := length(parser.TakeoffOf, second*geometry.Length(heading.Cos()))
	w.multiply(RuleFarAlong, length(parser.TakeoffOf, second), heading.Cos(), part)
	w.add(RuleFarEnd, length(parser.FarEnd, along), length(parser.Run, o.Run), length(parser.TakeoffOf, first), part)
	over := Quantity{Role: parser.TakeoffOf, Length: second * geometry.Length(u.Off.Sin()), Minus: heading < 0}
	w.multiply(RuleFarAcross, length(parser.TakeoffOf, second), u.Off.Sin(), length(parser.TakeoffOf, over.Length))
	w.add(RuleFarSet, length(parser.FarSet, across), length(parser.Set, o.Set), over)
}

// walkedUnlike lays the pieces out: they must land where the far pipe is said to
// end.
func (w *work) walkedUnlike(o solved, back geometry.Angle) error {
	taken, step := o.joint.taken(), o.across()
	along, _ := w.answer.Length(parser.FarEnd)
	across, _ := w.answer.Length(parser.FarSet)
	roll := geometry.Atan2(step.Rise, step.Roll)
	path := walk.Offset(walk.Pieces{
		Takeoffs: taken.Takeoffs, Gaps: taken.Gaps, Standing: o.standing,
		Cut: o.cut, Angle: o.Angle, Back: back, Roll: roll,
	})
	return w.landed(path, walk.Point{X: along, Y: across * geometry.Length(roll.Cos()), Z: across * geometry.Length(roll.Sin())})
}
