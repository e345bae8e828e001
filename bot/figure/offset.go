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
	from    parser.Role // that the multipliers start from; Bare where two lengths gave the angle
	rolling geometry.Rolling

	back   bool // figured backward, from a cut
	pieced bool // a piece was figured; the rest holds
	joint  joint
	cut    geometry.Length
	endGap geometry.Length
}

// lost is what the two ends take together.
func (o solved) lost() geometry.Length { return o.joint.lost() }

// offset figures a simple or a rolling offset: the triangle from any two of
// its parts, then the piece.
func (w *work) offset() error {
	if w.isFit() {
		return w.fit()
	}
	o, err := w.triangle()
	if err != nil {
		return err
	}
	w.answer.Angle = o.Angle
	w.answer.Main = w.mainOfTriangle(o)
	if o.from == parser.Bare {
		if o, err = w.standardBend(o); err != nil {
			return err
		}
	}
	if err := w.pieceOf(&o); err != nil {
		w.withoutPiece(o)
		if w.enoughWithoutPiece(o, err) {
			w.forgetPiece()
			w.explain(o)
			return nil
		}
		return err
	}
	w.withPiece(o)
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
	w.answer.Provisional, w.answer.Band, w.answer.Limit = false, 0, nil
}

// triangle finds the offset from what was given, in the order of what is
// surest: with an angle the set, travel, run; then the cut or the end gap with
// their takeoffs; without an angle two lengths.
func (w *work) triangle() (solved, error) {
	set, hasSet, err := w.set()
	if err != nil {
		return solved{}, err
	}
	run, hasRun, err := w.centered(parser.Run)
	if err != nil {
		return solved{}, err
	}
	travel, hasTravel, err := w.centered(parser.Travel)
	if err != nil {
		return solved{}, err
	}
	o := solved{rolling: w.rolling}
	a := w.asked
	switch {
	case a != 0 && hasSet:
		o.from = parser.Set
		o.Offset, err = geometry.SetAngle(set, a)
	case a != 0 && hasTravel:
		o.from = parser.Travel
		o.Offset, err = geometry.TravelAngle(travel, a)
	case a != 0 && hasRun:
		o.from = parser.Run
		o.Offset, err = geometry.RunAngle(run, a)
	case a == 0 && hasSet && hasRun:
		o.Offset, err = geometry.SetRun(set, run)
	case a == 0 && hasSet && hasTravel:
		o.Offset, err = geometry.SetTravel(set, travel)
	case a == 0 && hasRun && hasTravel:
		o.Offset, err = geometry.RunTravel(run, travel)
	default:
		return w.fromPiece(set, run, hasSet, hasRun)
	}
	if err == nil {
		w.crosscheckTriangle(o.Offset)
	}
	return o, err
}

// crosscheckTriangle compares what else was measured with what was figured.
func (w *work) crosscheckTriangle(o geometry.Offset) {
	w.crosscheckFigured(parser.Run, o.Run)
	w.crosscheckFigured(parser.Travel, o.Travel)
}

// fromPiece finds the offset from a cut, or from an end gap, and the takeoffs.
func (w *work) fromPiece(set, run geometry.Length, hasSet, hasRun bool) (o solved, err error) {
	o.rolling = w.rolling
	a := w.asked
	cut, hasCut, err := w.centered(parser.Cut)
	if err != nil {
		return o, err
	}
	if hasCut && (a != 0 || hasSet || hasRun) {
		return w.fromCut(o, cut, set, run, hasSet)
	}
	gap, hasGap, err := w.endGap()
	if err != nil {
		return o, err
	}
	if a == 0 || !hasGap {
		return o, w.missingOfOffset()
	}
	j, err := w.join(a)
	if err != nil {
		return o, err
	}
	o.from = parser.Run
	run, err = geometry.RunOf(gap, j.taken())
	if err != nil {
		return o, err
	}
	w.step(Step{Name: StepAdd, Rule: RuleFromEndGap, Result: Quantity{Role: parser.Run, Length: run},
		Terms: append([]Quantity{{Role: parser.EndGap, Length: gap}}, takenTerms(j, true)...)})
	o.Offset, err = geometry.RunAngle(run, a)
	return o, err
}

func (w *work) fromCut(o solved, cut, set, run geometry.Length, hasSet bool) (solved, error) {
	j, err := w.join(w.asked)
	if err != nil {
		return o, err
	}
	travel, err := geometry.Centers(cut, j.taken())
	if err != nil {
		return o, err
	}
	w.step(Step{Name: StepAdd, Rule: RuleFromCut, Result: Quantity{Role: parser.Travel, Length: travel},
		Terms: append([]Quantity{{Role: parser.Cut, Length: cut}}, takenTerms(j, false)...)})
	o.back = true
	switch {
	case w.asked != 0:
		o.from = parser.Travel
		o.Offset, err = geometry.TravelAngle(travel, w.asked)
	case hasSet:
		o.Offset, err = geometry.SetTravel(set, travel)
	default:
		o.Offset, err = geometry.RunTravel(run, travel)
	}
	return o, err
}

// endGap is the room along the line that was measured, by either name.
func (w *work) endGap() (geometry.Length, bool, error) {
	if l, ok, err := w.centered(parser.EndGap); ok || err != nil {
		return l, ok, err
	}
	return w.centered(parser.Room)
}

// missingOfOffset asks for the one fact that helps most: the angle, then the
// pipe, then the set.
func (w *work) missingOfOffset() error {
	if w.asked == 0 {
		return w.missingAngle()
	}
	if !w.takeoffsSaid() {
		if err := w.pipe(); err != nil {
			return err
		}
	}
	return &Missing{Wanted: parser.Set}
}

func (w *work) missingAngle() error {
	bends := []geometry.Angle{geometry.EighthBend, geometry.SixteenthBend, geometry.SixthBend, geometry.QuarterBend}
	if err := w.pipe(); err == nil && len(w.answer.System.Bends()) > 0 {
		bends = w.answer.System.Bends()
	}
	return &Missing{Wanted: parser.AngleOf, Options: bendNames(bends)}
}

// set is the set, or the true set of roll and rise. One of the two alone is a
// set that is level or plumb; one of them beside a set leaves the other leg. A
// set that is shorter than the rise cannot be the true one: it is the roll.
func (w *work) set() (geometry.Length, bool, error) {
	set, hasSet, err := w.centered(parser.Set)
	if err != nil {
		return 0, false, err
	}
	roll, hasRoll, err := w.centered(parser.Roll)
	if err != nil {
		return 0, false, err
	}
	rise, hasRise, err := w.centered(parser.Rise)
	switch {
	case err != nil:
		return 0, false, err
	case hasRoll && hasRise:
		return w.trueSet(geometry.Rolling{Roll: roll, Rise: rise})
	case hasSet && hasRise && set <= rise:
		return w.trueSet(geometry.Rolling{Roll: set, Rise: rise})
	case hasSet && hasRoll:
		return w.otherLeg(set, roll, parser.Rise)
	case hasSet && hasRise:
		return w.otherLeg(set, rise, parser.Roll)
	case hasSet:
		return set, true, nil
	}
	return roll + rise, hasRoll || hasRise, nil
}

func (w *work) trueSet(r geometry.Rolling) (geometry.Length, bool, error) {
	set, err := r.TrueSet()
	if err != nil {
		return 0, false, err
	}
	w.roll(r)
	if w.has(parser.Roll) {
		w.crosscheckFigured(parser.Set, set)
	}
	w.step(Step{Name: StepRoot, Rule: RuleTrueSet, Result: Quantity{Role: parser.Set, Length: set},
		Terms: []Quantity{{Role: parser.Roll, Length: r.Roll}, {Role: parser.Rise, Length: r.Rise}}})
	w.step(Step{Name: StepTangent, Rule: RuleRollAngle, Result: Quantity{Role: parser.RollAngle, Angle: w.answer.RollAngle},
		Terms: []Quantity{{Role: parser.Roll, Length: r.Roll}, {Role: parser.Rise, Length: r.Rise}}})
	return set, true, nil
}

// otherLeg finds the roll or the rise that goes with a true set and the other.
func (w *work) otherLeg(set, leg geometry.Length, other parser.Role) (geometry.Length, bool, error) {
	o, err := geometry.SetTravel(leg, set)
	if err != nil {
		return 0, false, &geometry.Problem{Reason: geometry.TravelTooShort, What: "set", Value: set.Inches()}
	}
	r := geometry.Rolling{Roll: leg, Rise: o.Run}
	if other == parser.Roll {
		r = geometry.Rolling{Roll: o.Run, Rise: leg}
	}
	w.roll(r)
	return set, true, nil
}

func (w *work) roll(r geometry.Rolling) {
	w.rolling = r
	w.answer.Rolling = true
	w.answer.RollAngle, _ = r.FromPlumb() // r has a set: it was just figured
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

// pieceOf figures the piece of an offset: its takeoffs, the cut and the end
// gap, or why there is none.
func (w *work) pieceOf(o *solved) error {
	if err := w.likeEnds(o.Angle); err != nil {
		return err
	}
	j, err := w.join(o.Angle)
	if err != nil {
		return w.noBendFor(*o, err)
	}
	w.use(j)
	if o.from == parser.Bare {
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
	if o.endGap, err = geometry.EndGap(o.Run, j.taken()); err != nil {
		return err
	}
	o.pieced = true
	return nil
}

// likeEnds refuses two bends of unlike angle: the far line would not run
// parallel to the first.
func (w *work) likeEnds(a geometry.Angle) error {
	for end := range 2 {
		f := w.fittingAt(end, a)
		if f.Shape == catalog.Bend && f.Angle != a {
			return &Impossible{Cause: AnglesDiffer, Subject: catalog.AngleName(w.fittingAt(0, a).Angle) + ", " + catalog.AngleName(w.fittingAt(1, a).Angle)}
		}
	}
	return nil
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

// enoughWithoutPiece says whether the triangle answers what was asked, though
// no piece could be figured.
func (w *work) enoughWithoutPiece(o solved, err error) bool {
	var missing *Missing
	if w.wants(parser.Set, parser.Run, parser.Travel, parser.AngleOf, parser.RollAngle) {
		return true
	}
	return o.from == parser.Bare && errors.As(err, &missing)
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

// withPiece puts the piece into the answer, and the triangle behind it.
func (w *work) withPiece(o solved) {
	w.answer.Main = parser.Cut
	switch {
	case w.ask.Want != parser.Bare:
		w.answer.Main = w.ask.Want
	case o.back:
		w.answer.Main = parser.Set
	}
	w.figured(parser.Cut, o.cut)
	w.pipeLength(o.cut)
	w.figured(parser.EndGap, o.endGap)
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
	return nil
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
	w.crosscheckFigured(parser.EndGap, o.endGap)
	return nil
}

// cutIn is the cut that the offset would make in another system, 0 where
// nobody knows.
func (w *work) cutIn(s catalog.System, o solved) geometry.Length {
	j, err := w.joinIn(s, [2]catalog.Fitting{w.fittingAt(0, o.Angle), w.fittingAt(1, o.Angle)})
	if err != nil {
		return 0
	}
	return max(0, o.Travel-j.lost())
}

// assume says what was taken that no word said, and what each other reading
// would make of the cut. It makes the cut provisional if one is more than
// 1/16 in off.
func (w *work) assume(cutIn func(catalog.System) geometry.Length) {
	if len(w.others) == 0 {
		return
	}
	took := w.answer.System
	a := Assumption{What: parser.PipeOf, Took: cmp.Or(string(took.Use), took.Name)}
	ours := cutIn(took)
	for _, s := range w.others {
		if s.Joint != took.Joint {
			a.What, a.Took = parser.JointOf, string(took.Joint)
		}
		cut := cutIn(s)
		a.Instead = append(a.Instead, Alternative{Name: s.Name, Cut: cut})
		if cut != 0 && !within(cut, ours, geometry.Inch/16) {
			w.answer.Provisional = true
		}
	}
	w.answer.Assumed = append(w.answer.Assumed, a)
}
