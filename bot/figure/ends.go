package figure

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// This file finds the takeoff at each end: whose it is and where it comes
// from. What the message says wins over what the user has measured, the
// newest first; that wins over what is published; and that over what is only
// remembered or derived.

// joint is what stands at the two ends of a piece and what is left open there.
type joint struct {
	ends [2]End
	gap  catalog.Allowance
}

// taken is what the two ends take from the distance between their centers.
func (j joint) taken() geometry.Ends {
	return geometry.Ends{
		Takeoffs: [2]geometry.Length{j.ends[0].Takeoff.Length, j.ends[1].Takeoff.Length},
		Gaps:     [2]geometry.Length{j.gap.Length, j.gap.Length},
	}
}

// lost is taken as one length.
func (j joint) lost() geometry.Length {
	return j.ends[0].Takeoff.Length + j.ends[1].Takeoff.Length + 2*j.gap.Length
}

// faces are the two center-to-face lengths.
func (j joint) faces() [2]geometry.Length {
	return [2]geometry.Length{j.ends[0].Takeoff.CenterToFace(), j.ends[1].Takeoff.CenterToFace()}
}

// insertions is how far the piece goes in, at both ends together; 0 also
// where it is not known.
func (j joint) insertions() geometry.Length {
	return j.ends[0].Takeoff.Insertion + j.ends[1].Takeoff.Insertion
}

// least is how close the two centers can come: hubs touching, or, where a gap
// keeps the ends off, nothing left of the piece.
func (j joint) least() geometry.Length {
	f := j.faces()
	return max(f[0]+f[1], j.lost())
}

// sure says whether both takeoffs are.
func (j joint) sure() bool {
	return j.ends[0].Takeoff.Evidence.Sure() && j.ends[1].Takeoff.Evidence.Sure()
}

// sureGap says whether the gap is. None is.
func (j joint) sureGap() bool { return j.gap.Length == 0 || j.gap.Evidence.Sure() }

// band is how far out the two ends may be together, either way: their
// takeoffs, and a gap that may be narrower than is usual.
func (j joint) band() geometry.Length { return j.takeoffBand() + j.gapBand() }

// handsCut is how far out a cut may be, either way, to be left long and trimmed
// by hand: 1/4 in, two takeoffs of patterns that are recalled to 1/8. Common
// practice.
const handsCut = geometry.Inch / 4

// tooRough says whether the takeoffs are known so badly that no cut is to be
// made by them.
func (j joint) tooRough() bool { return j.takeoffBand() > handsCut+hairline }

// Unmeasured is a fitting whose takeoff is known too badly to cut by, and
// between what it may lie.
type Unmeasured struct {
	Fitting     catalog.Fitting
	Least, Most geometry.Length
	Declared    bool // nothing is known of it: its maker declares it
}

// unmeasured says that there is no cut before a fitting is measured. Where that
// leaves something to answer, it is in the answer; else the takeoff is missing.
type unmeasured struct{}

func (unmeasured) Error() string { return "figure: the takeoff is too rough to cut by" }

func isUnmeasured(err error) bool {
	var rough unmeasured
	return errors.As(err, &rough)
}

// measureFirst notes which fitting is to be measured, and takes back the piece.
func (w *work) measureFirst(j joint) error {
	worst := j.ends[0]
	if j.ends[1].Takeoff.Band > worst.Takeoff.Band {
		worst = j.ends[1]
	}
	w.forgetPiece()
	t := worst.Takeoff
	w.answer.Unmeasured = &Unmeasured{Fitting: worst.Fitting, Least: t.Length - t.Band, Most: t.Length + t.Band, Declared: t.Note == NoLength}
	return unmeasured{}
}

func (j joint) takeoffBand() geometry.Length {
	return j.ends[0].Takeoff.Band + j.ends[1].Takeoff.Band
}

// gapBand is how much narrower than figured the two gaps may be. They are
// figured at the wide end of what is usual.
func (j joint) gapBand() geometry.Length {
	if j.sureGap() || j.gap.Least == 0 {
		return 0
	}
	return 2 * (j.gap.Length - j.gap.Least)
}

// join finds what stands at the ends of an offset, or piece, whose bends turn
// by a. With both takeoffs said no pipe has to be.
func (w *work) join(a geometry.Angle) (joint, error) {
	if err := w.pipeIfNeeded(); err != nil {
		return joint{}, err
	}
	return w.joinIn(w.answer.System, [2]catalog.Fitting{w.fittingAt(0, a), w.fittingAt(1, a)})
}

// pipeIfNeeded settles the pipe; where both takeoffs were said it does so only
// as far as the words go and asks nothing.
func (w *work) pipeIfNeeded() error {
	if !w.takeoffsSaid() {
		return w.pipe()
	}
	var missing *Missing
	if err := w.pipe(); err != nil && !errors.As(err, &missing) {
		return err
	}
	return nil
}

// takeoffsSaid says whether the message holds all that is to be known of both
// ends.
func (w *work) takeoffsSaid() bool {
	for _, e := range w.ask.Ends {
		if e.Takeoff == 0 && (e.Face == 0 || e.Depth == 0) {
			return false
		}
	}
	return true
}

// fittingAt is the fitting at one end: what was said, or the bend of the
// offset's angle.
func (w *work) fittingAt(end int, a geometry.Angle) catalog.Fitting {
	f := w.ask.Ends[end].Fitting
	switch {
	case f.Shape == "":
		f.Shape, f.Angle = catalog.Bend, a
	case f.Shape == catalog.Bend && f.Angle == 0:
		f.Angle = a
	}
	return f
}

// joinIn finds the takeoffs of two fittings in a system, which may not be the
// one that was settled on.
func (w *work) joinIn(s catalog.System, fittings [2]catalog.Fitting) (joint, error) {
	j := joint{gap: w.gapIn(s)}
	for end, f := range fittings {
		if end == 1 && f == fittings[0] && w.endsAlike(s) {
			j.ends[1] = j.ends[0]
			break
		}
		t, err := w.takeoffIn(s, end, f)
		if err != nil {
			return joint{}, err
		}
		j.ends[end] = End{Fitting: f, Takeoff: t}
	}
	return j, nil
}

// endsAlike says whether one fitting has one takeoff at both ends: not where other
// things were said of them, nor where one is a hub and one a spigot.
func (w *work) endsAlike(s catalog.System) bool {
	return w.ask.Ends[0] == w.ask.Ends[1] && s.Joint != catalog.Hub
}

func (w *work) gapIn(s catalog.System) catalog.Allowance {
	if l, ok := w.ask.Length(parser.JointGap); ok {
		return catalog.Allowance{Length: l, Evidence: catalog.Said}
	}
	if s.ID == "" {
		return catalog.Allowance{}
	}
	return s.Gap()
}

// takeoffIn is the takeoff of a fitting at one end: said, own, or the
// catalog's.
func (w *work) takeoffIn(s catalog.System, end int, f catalog.Fitting) (catalog.Takeoff, error) {
	if t, ok, err := w.saidAt(s, end, f); ok || err != nil {
		return t, err
	}
	return w.knownIn(s, end, f)
}

// knownIn is the takeoff of a fitting as the user or the catalog knows it,
// whatever this message says of another.
func (w *work) knownIn(s catalog.System, end int, f catalog.Fitting) (catalog.Takeoff, error) {
	size := w.sizeAt(end)
	if _, ok := s.Dimensions(size); !ok {
		return catalog.Takeoff{}, w.noSizeAt(end)
	}
	if t, ok := w.ownIn(s, f, size); ok && !(s.Joint == catalog.Hub && end == 1) {
		return t, nil // of a hub-and-spigot fitting it is the hub that is measured
	}
	t, ok := s.Takeoff(f, size)
	if s.Joint == catalog.Hub && end == 1 {
		t, ok = s.SpigotTakeoff(f, size)
	}
	if !ok {
		t, ok = trimmed(s, f, size)
	}
	if !ok && s.Declared != "" && s.Has(f) {
		return catalog.Takeoff{Fitting: f, Size: size, Band: geometry.Foot, Evidence: catalog.Derived, Note: NoLength}, nil
	}
	if !ok {
		return t, noTakeoff(s, f, size)
	}
	return w.readable(w.withDepth(t, s, end)), nil
}

// NoLength is the note on a takeoff of which nothing is known, of a fitting whose
// lengths are declared by who makes it.
const NoLength = "no length"

// readable is a takeoff as it is printed. One that nobody has checked is told
// without heavy or light, so what is figured with is the mark that is told:
// who figures it again by hand, by that mark, comes to the same cut.
func (w *work) readable(t catalog.Takeoff) catalog.Takeoff {
	switch {
	case t.Evidence.Sure(), t.Note == TrimmedElbow: // that is cut to the very figure
	case w.settings.Metric:
		t.Length = geometry.Length(math.Round(t.Length.Millimeters())) * geometry.Millimeter
	default:
		t.Length = t.Length.Tape(w.settings.Division).Length()
	}
	return t
}

// saidAt is the takeoff that the message gives for an end, or makes of the
// face and the depth that it gives.
func (w *work) saidAt(s catalog.System, end int, f catalog.Fitting) (catalog.Takeoff, bool, error) {
	said := w.ask.Ends[end]
	t := catalog.Takeoff{Fitting: f, Size: w.sizeAt(end), Evidence: catalog.Said}
	if said.Takeoff == 0 && said.Face == 0 {
		return t, false, nil
	}
	depth, known := w.depthAt(s, end)
	t.Length, t.Insertion = said.Takeoff, depth.Length
	if said.Takeoff != 0 {
		return t, true, nil
	}
	if !known {
		return t, false, &Missing{Wanted: parser.Depth}
	}
	if !depth.Evidence.Sure() {
		t.Evidence, t.Source, t.Note = depth.Evidence, depth.Source+", depth recalled, unchecked", RecalledDepth
	}
	t.Length = said.Face - depth.Length
	if t.Length <= 0 {
		return t, false, &Impossible{Cause: BadTakeoff, Subject: f.Key(), System: s, Doubted: t}
	}
	return t, true, nil
}

// RecalledDepth is the note on a takeoff made of a face that was said and of a
// depth that is only recalled.
const RecalledDepth = "face said, depth recalled"

// depthAt is how far the pipe goes in at one end: as it was said, or by the
// catalog. It is false where that is not known.
func (w *work) depthAt(s catalog.System, end int) (catalog.Depth, bool) {
	said := w.ask.Ends[end].Depth
	if said == 0 {
		said, _ = w.ask.Length(parser.Depth)
	}
	if said != 0 {
		return catalog.Depth{Length: said, Evidence: catalog.Said}, true
	}
	l, ok := insertionOf(s, w.sizeAt(end))
	d, _ := s.Insertion(w.sizeAt(end))
	d.Length, d.Evidence = l, cmp.Or(d.Evidence, catalog.Published) // nothing goes into plain ends
	return d, ok
}

// insertionOf is how far a pipe goes in; nothing goes into a butt weld or a
// no-hub end.
func insertionOf(s catalog.System, size catalog.Size) (geometry.Length, bool) {
	switch s.Joint {
	case catalog.ButtWeld, catalog.NoHub, catalog.Fusion:
		return 0, true
	case catalog.Solvent, catalog.Solder, catalog.Thread, catalog.SocketWeld, catalog.Hub, catalog.Crimp, catalog.PushFit:
	}
	if s.ID == "" {
		return 0, false
	}
	d, ok := s.Insertion(size)
	return d.Length, ok
}

// withDepth puts the depth that was said in place of the table's. A thread
// that makes up further brings the pipe nearer to the center; in a socket the
// stop stays where it is.
func (w *work) withDepth(t catalog.Takeoff, s catalog.System, end int) catalog.Takeoff {
	depth := w.ask.Ends[end].Depth
	if depth == 0 {
		return t
	}
	if s.Joint == catalog.Thread && t.CenterToFace() > depth {
		t.Length = t.CenterToFace() - depth
	}
	t.Insertion = depth
	return t
}

// ownIn is the takeoff that the user, or else their crew, measured for this
// fitting, the newest, of the line that was named if one was. They are kept in
// that order, the best last.
func (w *work) ownIn(s catalog.System, f catalog.Fitting, size catalog.Size) (catalog.Takeoff, bool) {
	found, t := false, catalog.Takeoff{Fitting: f, Size: size, Evidence: catalog.Own}
	for _, own := range w.settings.Takeoffs {
		if own.System != s.ID || own.Fitting != f.Key() || own.Size != size {
			continue
		}
		if w.ask.Line != "" && !SameLine(own.Line, w.ask.Line) {
			continue
		}
		found = true
		t.Length = own.Length
		t.Measured = catalog.Measured{How: own.How, When: own.When, Line: own.Line, By: own.By, Crew: own.Crew}
	}
	t.Insertion, _ = insertionOf(s, size)
	return t, found
}

// SameLine says whether two names are of one line of fittings: "the grey
// ones", "grey ones".
func SameLine(a, b string) bool { return lineName(a) == lineName(b) }

func lineName(words string) string {
	name := strings.Join(strings.Fields(strings.ToLower(words)), " ")
	for _, article := range []string{"the ", "los ", "las "} {
		name = strings.TrimPrefix(name, article)
	}
	return name
}

// noLine is the line that was named, if none of the takeoffs at the ends is of
// it.
func (w *work) noLine(ends ...End) string {
	for _, e := range ends {
		if e.Takeoff.Evidence == catalog.Said || e.Takeoff.Evidence == catalog.Own && SameLine(e.Takeoff.Measured.Line, w.ask.Line) {
			return ""
		}
	}
	return w.ask.Line
}

// trimmed is the takeoff of a butt-weld elbow cut to an odd angle: the radius
// of the 90 that it is cut from, which is the 90's own takeoff, times the
// tangent of half the angle, and no surer than a cut by hand.
func trimmed(s catalog.System, f catalog.Fitting, size catalog.Size) (catalog.Takeoff, bool) {
	if s.Joint != catalog.ButtWeld || f.Shape != catalog.Bend || f.Street {
		return catalog.Takeoff{}, false
	}
	quarter, ok := s.Takeoff(catalog.Fitting{Shape: catalog.Bend, Angle: geometry.QuarterBend, Sweep: f.Sweep}, size)
	if !ok {
		return catalog.Takeoff{}, false
	}
	l, err := geometry.BendTakeoff(quarter.Length, f.Angle)
	if err != nil {
		return catalog.Takeoff{}, false
	}
	t := quarter
	t.Fitting, t.Length, t.Note = f, l, TrimmedElbow
	t.Evidence, t.Band = catalog.Derived, max(t.Band, byHand)
	return t, true
}

// byHand is how far an elbow that was marked, cut and beveled by hand may be
// from its takeoff, either way. Common practice.
const byHand = geometry.Inch / 8

// TrimmedElbow is the note on the takeoff of an elbow cut to an odd angle.
const TrimmedElbow = "cut from a 90"

// noTakeoff tells apart a fitting that is not made from one that nobody knows
// the takeoff of. Where none at all is known in this size, as of PEX, it is
// the takeoff that would help, whatever is made.
func noTakeoff(s catalog.System, f catalog.Fitting, size catalog.Size) error {
	bends := s.Bends()
	known := slices.ContainsFunc(bends, func(a geometry.Angle) bool {
		_, ok := s.Takeoff(catalog.BendOf(a), size)
		return ok
	})
	if known && !s.Has(f) {
		return &Impossible{Cause: NoSuchFitting, Subject: f.Key(), Near: bendNames(bends), System: s}
	}
	return &Impossible{Cause: NoTakeoff, Subject: string(size) + " " + f.Key(), System: s, Fitting: f, Size: size}
}

func bendNames(bends []geometry.Angle) []string {
	var all []string
	for _, a := range bends {
		all = append(all, catalog.AngleName(a))
	}
	return all
}

// hasBend says whether a system has the bends that are asked for, or can be
// made to: by a takeoff that was said, or an elbow that is trimmed.
func (w *work) hasBend(s catalog.System) bool {
	if w.asked == 0 || w.takeoffsSaid() || s.Joint == catalog.ButtWeld {
		return true
	}
	return s.Has(w.fittingAt(0, w.asked)) && s.Has(w.fittingAt(1, w.asked))
}

// use puts the ends into the answer.
func (w *work) use(j joint) {
	w.answer.Ends, w.answer.Gap = j.ends, j.gap
	if !j.sure() || !j.sureGap() {
		w.answer.Provisional = true
	}
	w.answer.Band, w.answer.TakesOff = j.band(), j.band()+j.takeoffBand()
	w.answer.NoLine = w.noLine(j.ends[:]...)
}
