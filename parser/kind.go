package parser

import (
	"slices"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
)

// kind works out what is asked for, from what was given and from the words
// that name a kind.
func (b *builder) kind() {
	a, s := b.ask, b.scene
	switch {
	case s.multiplies() && !b.stepped():
		a.Kind = Multiplier
	case b.isTrim():
		a.Kind = Trim
	case b.isTakeoff():
		a.Kind = Takeoff
		a.Store = b.gives(TakeoffOf) || b.gives(Face)
	case b.gives(DryFit), s.hint("check") && !b.stepped() && !b.gives(Cut) && !b.gives(CenterToCenter) && a.Angle != 0:
		a.Kind = Check
	case b.gives(Reach) || b.gives(Clearance) && !b.gives(GapNow) || s.hint("around") && b.gives(Obstacle):
		a.Kind = Around
	case a.Lines <= 2 && b.gives(Spacing) && !b.stepped() && a.Angle != 0 && !s.hint("parallel"):
		b.spacingIsSet() // the two lines to be joined
	case a.Lines == 2 && b.stepped() && !b.gives(Spacing) && !s.hint("parallel"):
		a.Kind, a.Lines = Offset, 0
	case a.Lines > 0 || b.gives(Spacing) || s.hint("parallel") && b.stepped():
		a.Kind = Parallel
	case b.isFall():
		a.Kind = Fall
	case s.hint("fit") && b.gives(Room) && b.stepped():
		a.Kind = Fit
	case b.gives(StickOut) || b.gives(GapNow) || b.gives(Overlap) || b.gives(Reading) || s.marks() && b.stepped():
		a.Kind = Mark
	case b.gives(CenterToCenter) || s.pieces() && (b.gives(Long) || !b.stepped() && a.Ends[0].Fitting.Shape != ""):
		a.Kind = Piece
	case b.isFit():
		a.Kind = Fit
	case b.stepped() || (b.gives(Cut) || b.gives(EndGap)) && a.Angle != 0:
		a.Kind = Offset
	case a.Angle != 0 && a.Pipe.Size != "" && !s.hint("same") || s.hint("rolling") && a.Angle != 0:
		a.Kind = Offset // nothing says how far it steps: that is asked for
	case s.marks() && len(s.elements) <= fewWords && !s.names(TakeoffOf) && len(a.Measures) == 0 && a.Angle == 0 && a.Pipe == (catalog.Pipe{}):
		a.Kind, a.FollowUp = Mark, true // where do I mark it
	}
	b.fromWall()
	b.want()
	b.rest()
}

// fewWords is how many a question about the last piece has at most. A longer message
// that has nothing to figure is about something else.
const fewWords = 8

// fromWall drops a reach that was measured from a wall: what counts is how far
// the obstacle sticks out past the pipe's centerline, and that is asked for.
func (b *builder) fromWall() {
	if b.ask.Kind == Around && b.scene.has(senseFromWall) {
		b.ask.Measures = slices.DeleteFunc(b.ask.Measures, func(m Measure) bool { return m.Role == Reach })
	}
}

// spacingIsSet reads the distance between the two lines that an offset joins.
func (b *builder) spacingIsSet() {
	b.ask.Kind, b.ask.Lines = Offset, 0
	for i, m := range b.ask.Measures {
		if m.Role == Spacing {
			b.ask.Measures[i].Role = Set
		}
	}
}

// rest settles what depends on the kind.
func (b *builder) rest() {
	a := b.ask
	b.ofKind()
	if b.changesLast() || a.Kind == Check && len(a.Measures) == 1 && a.Angle == 0 && a.Pipe.Size == "" || a.Kind == Unstated && b.scene.has(senseWith) {
		a.FollowUp = true
	}
	if a.Kind == Unstated {
		a.FollowUp = true
	}
}

// changesLast says whether words say that the last ask is to be changed. What is whole
// by itself is none of its changes where they may mean another thing: same elevation,
// told me to try, no room here.
func (b *builder) changesLast() bool {
	switch s := b.scene; {
	case s.plainlyCorrects(), s.hint("same") && (s.opensWithSame() || !s.onlyWeaklySame()):
		return true
	case s.hint("same"), b.correctsLast():
		return !b.whole()
	}
	return false
}

// whole says whether an ask has all that a new one needs: the step, the angle and the
// pipe.
func (b *builder) whole() bool {
	step := b.gives(Set) || b.gives(Travel) || b.gives(Roll) && b.gives(Rise)
	return step && b.ask.Angle != 0 && b.ask.Pipe.Size != "" && b.ask.Pipe.Material != ""
}

// plainlyCorrects says whether a message begins by taking something back, and not just
// with the word no: no room here.
func (s *scene) plainlyCorrects() bool {
	in := s.elements
	return len(in) > 1 && in[0].term.is(senseCorrection) && (in[0].text != "no" || in[1].mark == "," || in[1].quantity != nil)
}

// onlyWeaklySame says whether each word for "the same" is one that says so of other
// things too: the same elevation.
func (s *scene) onlyWeaklySame() bool {
	return !anyOf(s.elements, func(e *element) bool { return e.text != "try" && meant(e.term, senseHint) == "same" })
}

// correctsLast says whether a message begins by taking something back.
func (b *builder) correctsLast() bool {
	return len(b.scene.elements) > 0 && b.scene.elements[0].term.is(senseCorrection) || b.scene.has(senseNot) && len(b.ask.Measures) == 1
}

// ofKind keeps of the fittings and the angle what the kind has a use for.
func (b *builder) ofKind() {
	a := b.ask
	switch a.Kind {
	case Trim:
		b.trimAngle()
	case Takeoff:
		a.Ends[1].Fitting = catalog.Fitting{}
		if f := a.Ends[0].Fitting; f.Shape != "" && f.Shape != catalog.Bend {
			a.Angle = 0
		}
	case Piece:
		b.pieceEnds()
	case Multiplier:
		a.Ends = [2]End{}
	case Unstated, Offset, Fit, Mark, Parallel, Around, Fall, Sum, Check, Corner, Miter, Saddle, Wrap, Riser, Doglegs:
	}
	if (a.Kind == Piece || a.Kind == Offset) && a.Want == Long {
		a.Want = Cut
	}
}

// trimAngle is the angle to cut an elbow down to: of "a 90 to 37", the 37.
func (b *builder) trimAngle() {
	a := b.ask
	stock := a.Ends[0].Fitting
	a.Ends = [2]End{}
	for _, angle := range b.angles {
		if angle != geometry.QuarterBend {
			a.Angle = angle
		}
	}
	if len(b.angles) == 1 && b.angles[0] == geometry.QuarterBend {
		a.Angle = 0
	}
	if b.scene.has(senseSweep) {
		stock.Shape, stock.Angle = catalog.Bend, geometry.QuarterBend
		if stock.Sweep == catalog.Regular {
			stock.Sweep = b.scene.sweep()
		}
		a.Ends[0].Fitting = stock
	}
}

// sweep is the first sweep that words name.
func (s *scene) sweep() catalog.Sweep {
	value := meant(s.elements[s.first(senseSweep)].term, senseSweep)
	way, _, _ := strings.Cut(value, " ")
	return catalog.Sweep(way)
}

// pieceEnds lists the fittings of a straight piece, which turns through
// nothing unless both are one bend.
func (b *builder) pieceEnds() {
	a := b.ask
	b.plainElls()
	oneEnd := false
	for _, m := range a.All(CenterToCenter) {
		oneEnd = oneEnd || m.Method == EndToCenter
	}
	if oneEnd {
		if a.Ends[0].Fitting.Shape == "" && a.Angle != 0 {
			a.Ends[0].Fitting = catalog.BendOf(a.Angle)
		}
		a.Ends[1].Fitting = catalog.Fitting{}
		a.Angle = 0
	}
	if a.Ends[0].Fitting != a.Ends[1].Fitting {
		a.Angle = 0
	}
}

// plainElls takes elbows of no angle for 90s, which is what an ell on a straight
// piece is (common practice). From face to face no angle counts.
func (b *builder) plainElls() {
	a := b.ask
	centers := slices.ContainsFunc(a.All(CenterToCenter), func(m Measure) bool { return m.Method == "" || m.Method == Centers })
	if a.Angle == 0 && a.Ends == [2]End{} && centers && b.scene.elbows() {
		a.Angle = geometry.QuarterBend
	}
}

// isTrim says whether an elbow is to be cut to an angle that none is sold in.
func (b *builder) isTrim() bool {
	s, a := b.scene, b.ask
	if b.stepped() {
		return false
	}
	if s.trims() && (a.Angle != 0 || s.has(senseBend)) {
		return true
	}
	odd := a.Angle != 0 && a.Angle != geometry.QuarterBend && a.Angle != geometry.EighthBend && (s.says("cut") || !slices.Contains(geometry.Bends(), a.Angle))
	return a.Pipe.Joint == catalog.ButtWeld && (odd || len(b.angles) > 1 && b.angles[0] != b.angles[1]) && len(a.Measures) == 0
}

func (b *builder) gives(r Role) bool { _, ok := b.ask.Length(r); return ok }

// stepped says whether the ask holds the step of an offset, or a part of it.
func (b *builder) stepped() bool {
	return slices.ContainsFunc([]Role{Set, Roll, Rise, Run, Travel}, b.gives)
}

func (b *builder) isTakeoff() bool {
	s, a := b.scene, b.ask
	if b.stepped() || b.gives(CenterToCenter) || b.gives(Spacing) || b.gives(Cut) || b.gives(EndGap) || b.gives(DryFit) || s.hint("same") {
		return false
	}
	asked := s.hint("lookup") || b.ask.Method == EndToCenter && a.Angle != 0 && len(a.Measures) == 0 || s.names(TakeoffOf) || s.names("makeup") || s.hasRole(Face) && len(a.Measures) == 0
	given := b.gives(TakeoffOf) || b.gives(Face)
	about := a.Angle != 0 || a.Pipe.Size != "" || a.Pipe.Material != "" || a.Ends[0].Fitting.Shape != ""
	return asked && !given && about || given && about
}

// names says whether some word names a role, whether or not it claims a number.
func (s *scene) names(r Role) bool {
	return s.count(r) > 0
}

func (b *builder) isFall() bool {
	a := b.ask
	if b.gives(Upper) || b.gives(Lower) {
		return true
	}
	if b.gives(Set) || b.gives(Roll) {
		return false
	}
	return b.gives(Drop) || a.Grade != 0 && !b.gives(Run) && !b.gives(Travel) || b.scene.falls() && (a.Grade != 0 || b.gives(Long))
}

func (b *builder) isFit() bool {
	if b.gives(Room) {
		return b.stepped() || b.scene.hint("fit")
	}
	if b.ask.Angle != 0 {
		return false
	}
	across := b.gives(Set) || b.gives(Roll) && b.gives(Rise)
	return across && (b.gives(Run) || b.scene.hint("fit")) && !b.gives(Travel)
}

// want works out which figure is asked for, where the words say so: a word
// that names a figure and has no number.
func (b *builder) want() {
	if b.gives(b.ask.Want) {
		b.ask.Want = "" // cut length 11-3/4: it is given
	}
	if b.ask.Want != "" {
		return
	}
	if b.scene.asks && b.ask.Angle == 0 && b.scene.has(senseAngle) {
		b.ask.Want = AngleOf
		return
	}
	for j := range b.scene.elements {
		e := &b.scene.elements[j]
		if !e.term.is(senseRole) || b.claimed(j) {
			continue
		}
		role, how := e.term.role, e.term.how
		itself := b.ask.Kind == Fall && role == Drop || b.ask.Kind == Trim && role == TakeoffOf
		if strings.Contains(how, "soft") && !b.scene.asks && !itself || strings.HasSuffix(how, "piece") {
			continue
		}
		r := b.scene.roleHere(role, how, 0, j)
		if b.scene.multiplies() {
			r = role
		}
		switch r {
		case Set, Run, Travel, Cut, EndGap, Drop, Grade, Long, Stagger, MarkAt, Start, Clearance, Lower, Upper, TakeoffOf:
			if !b.gives(r) {
				b.ask.Want = r
				return
			}
		}
	}
}
