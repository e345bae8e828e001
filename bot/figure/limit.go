package figure

import (
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// limit notes how small the set can get with these ends: hubs touching, with
// the piece still filling both. A cut of zero is not the limit; hubs meet
// before that. Where it is not known how far the pipe goes in, nothing is
// said.
func (w *work) limit(a geometry.Angle, j joint) error {
	if !w.limitKnown(j) {
		return nil
	}
	set, err := smallestSet(a, j)
	if err != nil {
		return err
	}
	w.answer.Limit = &Limit{Touching: set, Cut: j.least() - j.lost()}
	return nil
}

func (w *work) limitKnown(j joint) bool {
	switch w.answer.System.Joint {
	case catalog.ButtWeld, catalog.NoHub, catalog.Fusion:
		return true
	case catalog.Solvent, catalog.Solder, catalog.Thread, catalog.SocketWeld, catalog.Hub, catalog.Crimp, catalog.PushFit:
	}
	return j.insertions() > 0
}

// smallestSet is the least set with these ends.
func smallestSet(a geometry.Angle, j joint) (geometry.Length, error) {
	zero, err := geometry.ZeroPipeSet(j.taken(), a)
	if err != nil {
		return 0, err
	}
	touching, err := geometry.TouchingSet(j.faces(), a)
	if err != nil {
		return 0, err
	}
	return max(zero, touching), nil
}

// collision says why the fittings of an offset don't clear each other and what
// would work: the smallest set with these, the largest takeoff for this set,
// other bends of the system, a street fitting.
func (w *work) collision(o solved) error {
	smallest, err := smallestSet(o.Angle, o.joint)
	if err != nil {
		return err
	}
	i := &Impossible{Cause: Collide, Subject: o.joint.ends[0].Fitting.Key(), Smallest: smallest}
	i.Takeoff = largestTakeoff(o.Travel, o.joint)
	i.Bends = w.clearing(o)
	i.Street, i.StreetSets = w.streetFor(o)
	return i
}

// largestTakeoff is the largest takeoff, of two alike, that clears; 0 where
// none does.
func largestTakeoff(travel geometry.Length, j joint) geometry.Length {
	in := [2]geometry.Length{j.ends[0].Takeoff.Insertion, j.ends[1].Takeoff.Insertion}
	if gaps := 2 * j.gap.Length; gaps > in[0]+in[1] {
		in = [2]geometry.Length{j.gap.Length, j.gap.Length}
	}
	t, err := geometry.LargestTakeoff(travel, in)
	if err != nil {
		return 0
	}
	return t
}

// clearing are the other bends of the system that clear at this set.
func (w *work) clearing(o solved) []geometry.Angle {
	var clear []geometry.Angle
	for _, a := range w.answer.System.Bends() {
		if a == o.Angle {
			continue
		}
		bend, err := geometry.SetAngle(o.Set, a)
		if err != nil {
			continue
		}
		if j, err := w.knownJoint(catalog.BendOf(a)); err == nil && bend.Travel >= j.least()-hairline && bend.Travel > j.lost() {
			clear = append(clear, a)
		}
	}
	return clear
}

// knownJoint is two fittings alike, by the user's own takeoffs or the
// catalog's: what the message says of one bend does not hold for another.
func (w *work) knownJoint(f catalog.Fitting) (joint, error) {
	s := w.answer.System
	j := joint{gap: w.gapIn(s)}
	if s.ID == "" {
		return j, &Missing{Wanted: parser.PipeOf}
	}
	for end := range j.ends {
		t, err := w.knownIn(s, end, f)
		if err != nil {
			return j, err
		}
		j.ends[end] = End{Fitting: f, Takeoff: t}
	}
	return j, nil
}
