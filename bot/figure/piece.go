package figure

import (
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// piece figures a piece of pipe on a straight line between two fittings: the
// distance between their centers less a takeoff and a gap at each end, or the
// distance from the cut. Face to face, an insertion at each end is added and
// no takeoff is needed.
func (w *work) piece() error {
	if m, ok := w.faceToFace(); ok {
		return w.pieceBetweenFaces(m)
	}
	centers, ok, err := w.centerToCenter()
	if err != nil {
		return err
	}
	if !ok && !w.has(parser.Cut) {
		return &Missing{Wanted: parser.CenterToCenter}
	}
	j, err := w.joinPiece()
	if err != nil {
		return err
	}
	w.use(j)
	if !ok {
		return w.centersFromCut(j)
	}
	return w.pieceBetween(centers, j)
}

// joinPiece finds what stands at the ends; which fittings is asked before
// which pipe, since no cut can be guessed without.
func (w *work) joinPiece() (joint, error) {
	f := w.fittingsOfPiece()
	if !w.takeoffsSaid() && (f[0] == catalog.Fitting{} || f[1] == catalog.Fitting{}) {
		return joint{}, &Missing{Wanted: parser.FittingOf, Options: []string{"90", "45", "tee"}}
	}
	if err := w.pipeIfNeeded(); err != nil {
		return joint{}, err
	}
	return w.joinIn(w.answer.System, f)
}

// fittingsOfPiece are the fittings at the two ends; one that was said stands
// for both.
func (w *work) fittingsOfPiece() [2]catalog.Fitting {
	f := [2]catalog.Fitting{w.ask.Ends[0].Fitting, w.ask.Ends[1].Fitting}
	for end := range f {
		if (f[end] == catalog.Fitting{}) {
			f[end] = w.ask.Ends[1-end].Fitting
		}
		if (f[end] == catalog.Fitting{}) && w.ask.Angle != 0 {
			f[end] = catalog.BendOf(w.ask.Angle)
		}
		if f[end].Shape == "" && f[end].Angle != 0 {
			f[end].Shape = catalog.Bend
		}
	}
	return f
}

// centerToCenter is the distance that was measured, by any name that a
// straight piece's has.
func (w *work) centerToCenter() (geometry.Length, bool, error) {
	for _, role := range []parser.Role{parser.CenterToCenter, parser.Travel, parser.Long} {
		l, ok, err := w.centered(role)
		if ok && role != parser.CenterToCenter {
			w.given.put(parser.CenterToCenter, l)
		}
		if ok || err != nil {
			return l, ok, err
		}
	}
	return 0, false, nil
}

func (w *work) pieceBetween(centers geometry.Length, j joint) error {
	least := j.least()
	if centers < least-hairline || centers <= j.lost() {
		return &Impossible{
			Cause: Collide, Subject: j.ends[0].Fitting.Key(), Smallest: least,
			Takeoff: largestTakeoff(centers, j),
		}
	}
	cut, err := geometry.Cut(centers, j.taken())
	if err != nil {
		return err
	}
	w.answer.Main = parser.Cut
	w.figured(parser.Cut, cut)
	w.pipeLength(cut)
	w.figured(parser.CenterToCenter, centers)
	if w.limitKnown(j) {
		w.answer.Limit = &Limit{Touching: least, Cut: least - j.lost()}
	}
	terms := append([]Quantity{length(parser.CenterToCenter, centers)}, takenTerms(j, true)...)
	w.add(RuleCut, length(parser.Cut, cut), terms...)
	w.siteSteps(length(parser.Cut, cut))
	w.assume(func(s catalog.System) geometry.Length { return w.straightCutIn(s, centers) })
	return w.walkedStraight(centers, cut, j)
}

// straightCutIn is the cut that the piece would be in another system, 0 where
// nobody knows.
func (w *work) straightCutIn(s catalog.System, centers geometry.Length) geometry.Length {
	j, err := w.joinIn(s, w.fittingsOfPiece())
	if err != nil {
		return 0
	}
	return max(0, centers-j.lost())
}

// centersFromCut figures how far apart the centers come with a piece at hand.
func (w *work) centersFromCut(j joint) error {
	cut, ok, err := w.centered(parser.Cut)
	if err != nil {
		return err
	}
	if !ok {
		return &Missing{Wanted: parser.CenterToCenter}
	}
	centers, err := geometry.Centers(cut, j.taken())
	if err != nil {
		return err
	}
	if cut < j.least()-j.lost()-hairline {
		return &Impossible{Cause: Collide, Subject: j.ends[0].Fitting.Key(), Smallest: j.least()}
	}
	w.answer.Main = parser.CenterToCenter
	w.figured(parser.CenterToCenter, centers)
	w.figured(parser.Cut, cut)
	terms := append([]Quantity{length(parser.Cut, cut)}, takenTerms(j, false)...)
	w.add(RuleFromCut, length(parser.CenterToCenter, centers), terms...)
	return w.walkedStraight(centers, cut, j)
}

func (w *work) faceToFace() (parser.Measure, bool) {
	for _, m := range w.ask.Measures {
		if m.Method == parser.FaceToFace && (m.Role == parser.CenterToCenter || m.Role == parser.Travel || m.Role == parser.Long) {
			return m, true
		}
	}
	return parser.Measure{}, false
}

// pieceBetweenFaces adds an insertion at each end, less the gaps (Modern
// Plumbing, 2015, p. 327: 4 ft 6 in face to face, 3/4 at each end, is 4 ft
// 7-1/2).
func (w *work) pieceBetweenFaces(m parser.Measure) error {
	depths, err := w.depths()
	if err != nil {
		return err
	}
	gap := w.gapIn(w.answer.System)
	w.answer.Gap = gap
	j := joint{gap: gap}
	if !j.sureGap() {
		w.answer.Provisional, w.answer.Band, w.answer.TakesOff = true, j.band(), j.band()
	}
	cut := m.Length + depths[0] + depths[1] - 2*gap.Length
	if cut <= 0 {
		return &Impossible{Cause: TooShort, Subject: string(parser.Cut)}
	}
	w.answer.Main = parser.Cut
	w.figured(parser.Cut, cut)
	w.step(Step{Name: StepMeasure, Rule: RuleTape, Result: length(m.Role, m.Length)})
	terms := []Quantity{length(m.Role, m.Length), length(parser.Depth, depths[0]), length(parser.Depth, depths[1])}
	if gap.Length != 0 {
		terms = append(terms, Quantity{Role: parser.JointGap, Length: gap.Length, Minus: true, Times: 2})
	}
	w.add(RuleFaces, length(parser.Cut, cut), terms...)
	w.siteSteps(length(parser.Cut, cut))
	return w.walkedBetweenFaces(m.Length, cut, depths, gap.Length)
}

// depths is how far the pipe goes in at each end. A cut that rests on a depth
// which is only recalled is provisional.
func (w *work) depths() ([2]geometry.Length, error) {
	var depths [2]geometry.Length
	for end := range depths {
		if w.ask.Ends[end].Depth == 0 && !w.has(parser.Depth) {
			if err := w.pipe(); err != nil {
				return depths, err
			}
		}
		d, ok := w.depthAt(w.answer.System, end)
		if !ok {
			return depths, &Missing{Wanted: parser.Depth}
		}
		w.answer.Depths[end], depths[end] = d, d.Length
		w.answer.Provisional = w.answer.Provisional || !d.Evidence.Sure()
	}
	return depths, nil
}
