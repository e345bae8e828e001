package parser

import "strings"

// kind works out what is asked for, from what was given and from the words
// that name a kind.
func (b *builder) kind() {
	a, s := b.ask, b.scene
	b.want()
	switch {
	case s.hint("multiplier") && a.Angle != 0:
		a.Kind = Multiplier
	case b.isTakeoff():
		a.Kind = Takeoff
		a.Store = b.gives(TakeoffOf) || b.gives(Face)
	case b.gives(DryFit):
		a.Kind = Check
	case b.gives(Reach) || b.gives(Clearance) && !b.gives(GapNow) || s.hint("around") && b.gives(Obstacle):
		a.Kind = Around
	case a.Lines > 0 || b.gives(Spacing) || s.hint("parallel") && b.stepped():
		a.Kind = Parallel
	case s.hint("trim") && a.Angle != 0 && !b.gives(Set):
		a.Kind = Trim
	case b.isFall():
		a.Kind = Fall
	case b.gives(StickOut) || b.gives(GapNow) || b.gives(Overlap) || b.gives(Reading) || s.hint("mark") && b.stepped():
		a.Kind = Mark
	case b.gives(CenterToCenter) || s.hint("piece") && b.gives(Long):
		a.Kind = Piece
	case b.isFit():
		a.Kind = Fit
	case b.stepped() || b.gives(Cut) && a.Angle != 0:
		a.Kind = Offset
	}
	b.rest()
}

// rest settles what depends on the kind.
func (b *builder) rest() {
	a := b.ask
	if a.Kind == Trim || a.Kind == Fall || a.Kind == Multiplier {
		b.angleOnly()
	}
	if a.Kind == Fit && a.Want == AngleOf {
		a.Want = ""
	}
	if a.Want == Role(a.Kind) || a.Kind == Fall && a.Want == Drop {
		a.Want = ""
	}
	if b.scene.hint("same") || a.Kind == Unstated && b.scene.has("with") {
		a.FollowUp = true
	}
	if a.Kind == Unstated {
		a.FollowUp = true
	}
}

// angleOnly drops the ends where fittings have none.
func (b *builder) angleOnly() {
	if b.ask.Kind == Trim && len(b.angles) > 1 {
		b.ask.Angle = b.angles[len(b.angles)-1] // "cut a 90 down to 37"
		b.ask.Ends = [2]End{}
	}
}

func (b *builder) gives(r Role) bool { _, ok := b.ask.Length(r); return ok }

// stepped says whether the ask holds the step of an offset, or a part of it.
func (b *builder) stepped() bool {
	for _, r := range []Role{Set, Roll, Rise, Run, Travel} {
		if b.gives(r) {
			return true
		}
	}
	return false
}

func (b *builder) isTakeoff() bool {
	s, a := b.scene, b.ask
	if b.stepped() || b.gives(CenterToCenter) || b.gives(Cut) || b.gives(DryFit) || s.hint("same") {
		return false
	}
	asked := s.hint("lookup") || s.names(TakeoffOf) || s.names("makeup")
	given := b.gives(TakeoffOf) || b.gives(Face)
	about := a.Angle != 0 || a.Pipe.Size != "" || a.Pipe.Material != "" || a.Ends[0].Fitting.Shape != ""
	return asked && !given && about || given && (about || s.has("mine"))
}

// names says whether some word names a role, whether or not it claims a number.
func (s *scene) names(r Role) bool {
	for _, e := range s.elements {
		value, _ := e.term.means("role")
		if role, _, _ := strings.Cut(value, " "); Role(role) == r {
			return true
		}
	}
	return false
}

func (b *builder) isFall() bool {
	a := b.ask
	if b.gives(Upper) || b.gives(Lower) {
		return true
	}
	if b.gives(Set) || b.gives(Roll) {
		return false
	}
	return b.gives(Drop) || a.Grade != 0 && b.gives(Long) || b.scene.hint("fall") && (a.Grade != 0 || b.gives(Long))
}

func (b *builder) isFit() bool {
	if b.ask.Angle != 0 && !b.gives(Room) {
		return false
	}
	if b.gives(Room) && (b.gives(Set) || b.gives(Roll)) {
		return true
	}
	across := b.gives(Set) || b.gives(Roll) && b.gives(Rise)
	return across && (b.gives(Run) || b.scene.hint("fit")) && !b.gives(Travel)
}

// want works out which figure is asked for, where the words say so: a word
// that names a figure and has no number.
func (b *builder) want() {
	if b.ask.Want != "" {
		return
	}
	asks := b.scene.has("ask") || strings.Contains(b.scene.text, "?")
	for j, e := range b.scene.elements {
		value, ok := e.term.means("role")
		if !ok || b.claimed(j) {
			continue
		}
		role, how, _ := strings.Cut(value, " ")
		if strings.Contains(how, "soft") && !asks {
			continue
		}
		switch r := b.scene.roleHere(Role(role), how, 0, j); r {
		case Set, Run, Travel, Cut, EndGap, Drop, Grade, Long, Stagger, MarkAt, Start, Clearance, Lower, Upper:
			if !b.gives(r) {
				b.ask.Want = r
				return
			}
		}
	}
}

func (b *builder) claimed(j int) bool {
	for _, l := range b.labels {
		if l.term == j {
			return true
		}
	}
	return false
}
