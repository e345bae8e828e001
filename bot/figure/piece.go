package figure

import (
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// piece figures a piece of pipe on a straight line between two fittings: the
// distance between their centers less a takeoff and a gap at each end, or the
// distance from the cut. Face to face, an insertion at each end is added and
// no takeoff is needed.
func (w *work) piece() error {
	if m, ok := w.laidBy(parser.FaceToFace); ok {
		return w.pieceBetweenFaces(m)
	}
	if m, ok := w.laidBy(parser.EndToEnd); ok {
		return w.pieceEndToEnd(m)
	}
	if m, ok := w.laidBy(parser.EndToCenter); ok {
		return w.pieceFromOneFitting(m)
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
	switch {
	case !ok && j.tooRough():
		return w.measureFirst(j)
	case !ok:
		return w.centersFromCut(j)
	case j.tooRough():
		_ = w.measureFirst(j)
		w.answer.Main = parser.CenterToCenter
		w.figured(parser.CenterToCenter, centers)
		w.assume(func(s catalog.System) geometry.Length { return w.straightCutIn(s, centers) })
		return nil
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
	w.doubts(j.ends, j.lost(), centers)
	w.reduced()
	w.answer.Main = parser.Cut
	w.figured(parser.Cut, cut)
	w.pipeLength(cut)
	w.figured(parser.CenterToCenter, centers)
	if w.limitKnown(j) {
		w.answer.Limit = &Limit{Touching: least, Cut: least - j.lost()}
	}
	terms := append([]Quantity{length(parser.CenterToCenter, centers)}, takenTerms(j, true)...)
	w.add(RuleCut, length(parser.Cut, cut), terms...)
	w.sawnSteps(cut)
	w.assume(func(s catalog.System) geometry.Length { return w.straightCutIn(s, centers) })
	if err := w.walkedStraight(centers, cut, j); err != nil {
		return err
	}
	return w.inline(centers, cut, j)
}

// sawnSteps end a straight piece: of hub-and-spigot pipe the part in the hub is
// added before the saw.
func (w *work) sawnSteps(cut geometry.Length) {
	long := w.sawn(cut)
	if long.Role != parser.Cut {
		w.add(RulePipeLength, long, length(parser.Cut, cut), length(parser.Depth, long.Length-cut))
	}
	w.siteSteps(long)
}

// straightCutIn is the cut that the piece would be in another system, 0 where
// nobody knows.
func (w *work) straightCutIn(s catalog.System, centers geometry.Length) geometry.Length {
	j, err := w.joinIn(s, w.fittingsOfPiece())
	if err != nil || j.tooRough() {
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

// laidBy is the length of a piece that was measured with the tape laid in a
// way.
func (w *work) laidBy(way parser.Method) (parser.Measure, bool) {
	for _, m := range w.ask.Measures {
		if m.Method == way && (m.Role == parser.CenterToCenter || m.Role == parser.Travel || m.Role == parser.Long) {
			return m, true
		}
	}
	return parser.Measure{}, false
}

// pieceEndToEnd is a piece that was measured itself: no takeoff enters.
func (w *work) pieceEndToEnd(m parser.Measure) error {
	for end, f := range w.fittingsOfPiece() {
		w.answer.Ends[end].Fitting = f
	}
	if err := w.pipeIfNeeded(); err != nil {
		return err
	}
	w.answer.Main = parser.Cut
	w.figured(parser.Cut, m.Length)
	w.step(Step{Name: StepMeasure, Rule: RuleTape, Result: length(parser.Cut, m.Length)})
	w.siteSteps(length(parser.Cut, m.Length))
	walker := walk.From(walk.Point{})
	walker.Forward(m.Length)
	return w.landed(walker.Path(), walk.Point{X: m.Length})
}

// pieceFromOneFitting is a piece from the center of a fitting to its own plain
// end: one takeoff and one gap come off. Of hub-and-spigot pipe the plain end
// goes into the fitting's hub.
func (w *work) pieceFromOneFitting(m parser.Measure) error {
	f := w.fittingsOfPiece()[0]
	if (f == catalog.Fitting{}) && w.ask.Ends[0].Takeoff == 0 {
		return &Missing{Wanted: parser.FittingOf, Options: []string{"90", "45", "tee"}}
	}
	if err := w.pipeIfNeeded(); err != nil {
		return err
	}
	t, err := w.takeoffIn(w.answer.System, 0, f)
	if err != nil {
		return err
	}
	j := joint{gap: w.gapIn(w.answer.System)}
	j.ends[0] = End{Fitting: f, Takeoff: t}
	taken := geometry.Ends{Takeoffs: [2]geometry.Length{t.Length}, Gaps: [2]geometry.Length{j.gap.Length}}
	cut, err := geometry.Cut(m.Length, taken)
	if err != nil {
		return err
	}
	if j.tooRough() {
		_ = w.measureFirst(j)
		w.answer.Main = m.Role
		w.figured(m.Role, m.Length)
		return nil
	}
	w.answer.Ends, w.answer.Gap = j.ends, j.gap
	if !t.Evidence.Sure() || !j.sureGap() {
		w.answer.Provisional = true
		w.answer.Band, w.answer.TakesOff = t.Band+j.gapBand()/2, 2*t.Band+j.gapBand()/2
	}
	w.answer.Main = parser.Cut
	w.figured(parser.Cut, cut)
	w.pipeLength(cut)
	w.step(Step{Name: StepMeasure, Rule: RuleTape, Result: length(m.Role, m.Length)})
	terms := []Quantity{length(m.Role, m.Length), less(parser.TakeoffOf, t.Length)}
	if j.gap.Length != 0 {
		terms = append(terms, less(parser.JointGap, j.gap.Length))
	}
	w.add(RuleEndToCenter, length(parser.Cut, cut), terms...)
	w.sawnSteps(cut)
	walker := walk.From(walk.Point{})
	walker.Forward(t.Length + j.gap.Length)
	walker.Forward(cut)
	return w.landed(walker.Path(), walk.Point{X: m.Length})
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
	if longer := j.gapBand() + w.depthBand(); longer > 0 || !j.sureGap() {
		w.answer.Provisional, w.answer.Band, w.answer.TakesOff = true, longer, longer
	}
	if w.answer.System.Joint == catalog.Hub {
		return w.pieceBetweenHubs(m, depths, gap.Length)
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

// pieceBetweenHubs is a piece of hub-and-spigot pipe from the face of the one
// fitting's hub to the end of the other's spigot. It is laid by what goes into
// that hub, and sawn longer by its own, where the spigot rests. Between two hubs
// a piece without one is sawn as long.
func (w *work) pieceBetweenHubs(m parser.Measure, depths [2]geometry.Length, gap geometry.Length) error {
	cut := m.Length + depths[0] - 2*gap
	if cut <= 0 {
		return &Impossible{Cause: TooShort, Subject: string(parser.Cut)}
	}
	w.answer.Main = parser.Cut
	w.figured(parser.Cut, cut)
	w.figured(parser.PipeLength, cut+depths[1])
	w.step(Step{Name: StepMeasure, Rule: RuleTape, Result: length(m.Role, m.Length)})
	terms := []Quantity{length(m.Role, m.Length), length(parser.Depth, depths[0])}
	if gap != 0 {
		terms = append(terms, Quantity{Role: parser.JointGap, Length: gap, Minus: true, Times: 2})
	}
	w.add(RuleHubFace, length(parser.Cut, cut), terms...)
	w.sawnSteps(cut)
	return w.walkedBetweenFaces(m.Length, cut, [2]geometry.Length{depths[0], 0}, gap)
}

// shallow is how much deeper a socket may be than a depth that is only recalled:
// the tables give the least. Common practice.
const shallow = geometry.Inch / 8

// depthBand is how much longer a piece may have to be whose depths are recalled.
func (w *work) depthBand() geometry.Length {
	var longer geometry.Length
	for _, d := range w.answer.Depths {
		if !d.Evidence.Sure() {
			longer += shallow
		}
	}
	return longer
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
