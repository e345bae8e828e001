package figure

import (
	"cmp"
	"errors"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// solved is an offset with what is built of it.
type solved struct {
	geometry.Offset
	bend    geometry.Angle // of the fittings, where that isn't the true angle
	from    parser.Role    // that the multipliers start from; Bare where two lengths gave the angle
	rolling geometry.Rolling

	stock  bool // the true angle is a stock bend's
	back   bool // figured backward, from a cut
	pieced bool // a piece was figured; the rest holds
	joint  joint
	cut    geometry.Length
	endGap geometry.Length

	standing *[2]geometry.Length // what the fittings take of the lines that stand, where that isn't what they take of the piece
}

// turn is what the fittings are made to turn.
func (o solved) turn() geometry.Angle { return cmp.Or(o.bend, o.Angle) }

// lost is what the two ends take together.
func (o solved) lost() geometry.Length { return o.joint.lost() }

// offset figures a simple or a rolling offset: the triangle from any two of
// its parts, then the piece.
func (w *work) offset() error {
	if w.isFit() {
		return w.fit()
	}
	w.inTheTravel()
	w.turnOfFirst()
	switch {
	case w.isLeast():
		return w.leastSet()
	case w.isStreetSet():
		return w.streetSet()
	case w.unlike():
		return w.unlikeOffset()
	}
	if w.asked == 0 && w.ask.Want == parser.Set && w.has(parser.Roll) && w.has(parser.Rise) {
		return w.trueSetAlone()
	}
	o, err := w.triangle()
	if err != nil {
		return err
	}
	w.answer.Angle = o.Angle
	w.answer.Main = w.mainOfTriangle(o)
	if o.from == parser.Bare {
		if o, err = w.stockBend(o); err != nil {
			return err
		}
	}
	if err := w.pieceOf(&o); err != nil {
		w.withoutPiece(o)
		if w.enoughWithoutPiece(o, err) {
			w.forgetPiece()
			if err := w.graded(o); err != nil {
				return err
			}
			w.explain(o)
			return nil
		}
		return err
	}
	w.withPiece(o)
	if err := w.graded(o); err != nil {
		return err
	}
	return w.built(o)
}

// isFit says whether a set and the room for it were given: the question is
// then which bend fits. An end gap is such a room where no angle was said.
func (w *work) isFit() bool {
	across := w.has(parser.Set) || w.has(parser.Roll) || w.has(parser.Rise)
	if !across || w.has(parser.Run) || w.has(parser.Travel) || w.has(parser.Cut) {
		return false
	}
	return w.has(parser.Room) || w.asked == 0 && w.has(parser.EndGap)
}

// forgetPiece takes back what was noted of a piece that can't be figured and
// was not asked for.
func (w *work) forgetPiece() {
	w.answer.Ends, w.answer.Gap = [2]End{}, catalog.Allowance{}
	w.answer.Provisional, w.answer.Limit = false, nil
	w.answer.Band, w.answer.TakesOff = 0, 0
}

// mainOfTriangle is the figure to say first where there is no piece.
func (w *work) mainOfTriangle(o solved) parser.Role {
	switch {
	case w.wants(parser.Set, parser.Run, parser.Travel, parser.AngleOf, parser.RollAngle):
		return w.ask.Want
	case o.from == parser.Bare:
		return parser.AngleOf
	case o.from == parser.Travel, o.from == parser.Run:
		return parser.Set
	}
	return parser.Travel
}

// pieceOf figures the piece of an offset: its takeoffs, the cut and the end
// gap, or why there is none.
func (w *work) pieceOf(o *solved) error {
	bend := o.turn()
	if err := w.likeEnds(bend); err != nil {
		return err
	}
	j, err := w.join(bend)
	if err != nil {
		return w.noBendFor(*o, err)
	}
	w.use(j)
	if j.tooRough() && !o.back {
		return w.measureFirst(j)
	}
	if o.from == parser.Bare && !o.stock {
		w.answer.Provisional = true // elbows trimmed by hand to an odd angle
	}
	o.joint = j
	if err := w.limit(o.Angle, j); err != nil {
		return err
	}
	if o.Travel < j.least()-hairline || o.Travel <= j.lost() {
		return w.collision(*o)
	}
	if o.cut, err = geometry.Cut(o.Travel, j.taken()); err != nil {
		return err
	}
	o.standing = w.standingEnds(j)
	if o.endGap, err = geometry.EndGap(o.Run, o.ofStanding()); err != nil {
		return err
	}
	o.pieced = true
	w.doubts(j.ends, j.lost(), o.Travel)
	w.reduced()
	return nil
}

// reduced notes that one piece can't sit in fittings of two sizes.
func (w *work) reduced() {
	if w.sizesDiffer() && !w.hasReducer() {
		w.answer.Reduced, w.answer.Provisional = [2]catalog.Size{w.sizeAt(0), w.sizeAt(1)}, true
	}
}

// likeEnds refuses two bends of unlike angle: the far line would not run
// parallel to the first.
func (w *work) likeEnds(a geometry.Angle) error {
	for end := range 2 {
		f := w.fittingAt(end, a)
		_, square := w.squareEnd()
		if f.Shape == catalog.Bend && f.Angle != a && !square {
			return &Impossible{Cause: AnglesDiffer, Subject: catalog.AngleName(w.fittingAt(0, a).Angle) + ", " + catalog.AngleName(w.fittingAt(1, a).Angle)}
		}
	}
	return nil
}

// enoughWithoutPiece says whether the triangle answers what was asked, though
// no piece could be figured.
func (w *work) enoughWithoutPiece(o solved, err error) bool {
	var missing *Missing
	if isUnmeasured(err) {
		w.assume(func(s catalog.System) geometry.Length { return w.cutIn(s, o) })
		return true
	}
	if w.wants(parser.Set, parser.Run, parser.Travel, parser.AngleOf, parser.RollAngle) {
		return true
	}
	var impossible *Impossible
	if w.answer.Kind == parser.Fit && errors.As(err, &impossible) && impossible.Cause == NoFit {
		return true // which bends come near is what was asked
	}
	return (o.from == parser.Bare && o.bend == 0 || w.answer.Kind == parser.Fit) && errors.As(err, &missing)
}

// withoutPiece puts the triangle into the answer.
func (w *work) withoutPiece(o solved) {
	w.figured(parser.Travel, o.Travel)
	w.figured(parser.Run, o.Run)
	w.figured(parser.Set, o.Set)
	if w.answer.Rolling {
		w.figured(parser.Roll, o.rolling.Roll)
		w.figured(parser.Rise, o.rolling.Rise)
	}
	w.throws(o)
	if o.from != parser.Bare {
		w.handbook(o)
		w.byHandbook(o)
	}
}

// pieceFirst puts the piece into the answer, first unless another figure is wanted.
func (w *work) pieceFirst(o solved) {
	w.answer.Main = parser.Cut
	switch {
	case w.ask.Want != parser.Bare:
		w.answer.Main = w.ask.Want
	case o.back:
		w.answer.Main = parser.Set
	}
	w.figured(parser.Cut, o.cut)
	w.pipeLength(o.cut)
}

// withPiece puts the piece into the answer, and the triangle behind it.
func (w *work) withPiece(o solved) {
	w.pieceFirst(o)
	w.endOf(o)
	w.withoutPiece(o)
	if w.answer.Main != parser.AngleOf && w.answer.Main != parser.RollAngle {
		if _, ok := w.answer.Length(w.answer.Main); !ok {
			w.answer.Main = parser.Cut
		}
	}
}

// byHandbook lets the handbook's figures stand where the user is marked by
// them; the exact ones go beside.
func (w *work) byHandbook(o solved) {
	if w.settings.Handbook == ExactFigures {
		return
	}
	h := w.answer.Handbook
	w.answer.Exact = append([]Length(nil), w.answer.Lengths...)
	book, _ := byTheBook(o.Offset, o.from, w.settings.Handbook)
	for i, l := range w.answer.Lengths {
		switch l.Role {
		case parser.Travel:
			w.answer.Lengths[i].Length = h.Travel
		case parser.Run:
			w.answer.Lengths[i].Length = h.Run
		case parser.Set:
			w.answer.Lengths[i].Length = book.Set
		case parser.Cut:
			w.answer.Lengths[i].Length = h.Cut
		case parser.EndGap:
			w.answer.Lengths[i].Length = h.EndGap
		case parser.PipeLength:
			w.answer.Lengths[i].Length += h.Cut - o.cut
		}
	}
}

// pipeLength adds, for hub and spigot, the part that goes into the hub: the
// cut is the laying length.
func (w *work) pipeLength(cut geometry.Length) {
	s := w.answer.System
	if s.Joint != catalog.Hub {
		return
	}
	if depth, ok := s.Insertion(w.answer.Size); ok {
		w.figured(parser.PipeLength, cut+depth.Length)
	}
}

// built checks the finished piece, and puts in what else there is to say.
func (w *work) built(o solved) error {
	if err := w.crosscheckPiece(o); err != nil {
		return err
	}
	if err := w.walked(o); err != nil {
		return err
	}
	w.assume(func(s catalog.System) geometry.Length { return w.cutIn(s, o) })
	w.explain(o)
	return w.inline(o.Travel, o.cut, o.joint)
}

// crosscheckPiece compares a cut or an end gap that was measured beside what
// was needed with the one figured.
func (w *work) crosscheckPiece(o solved) error {
	if _, _, err := w.centered(parser.Cut); err != nil {
		return err
	}
	w.crosscheckFigured(parser.Cut, o.cut)
	if _, _, err := w.centered(parser.EndGap); err != nil {
		return err
	}
	if w.answer.EndGapKnown() {
		w.crosscheckFigured(parser.EndGap, o.endGap)
	}
	return nil
}
