package catalog

import (
	"math"

	"dogleg/geometry"
)

// A bend on a centerline radius r, with a straight end e beyond the curve, has
// its end at r·tan(a/2) + e from its center: the tangent from the corner to a
// circle in it. All the figures of this file come from that.

// derivation is a way to figure a bend that no table has.
type derivation string

const (
	byPattern derivation = "pattern" // from the size's own quarter and eighth bends
	roughly   derivation = "rough"   // from the outside diameter alone
)

// derive figures a regular bend in one way. It leaves the fitting, the size and
// the evidence to its caller.
func (s System) derive(way derivation, at end, f Fitting, size Size) (Takeoff, bool) {
	switch way {
	case byPattern:
		return s.fromPattern(at, f, size)
	case roughly:
		return s.rough(f, size)
	}
	return Takeoff{}, false
}

// fromPattern figures a bend from the quarter and the eighth bend of its size.
// Their two takeoffs fix r and e; the takeoff at another angle is then a
// weighted sum of both, and errors of theirs add up by the same weights. (That
// is why a sixteenth bend, which lies outside the two, has the wider band.)
func (s System) fromPattern(at end, f Fitting, size Size) (Takeoff, bool) {
	quarter, known := s.tabulated(at, BendOf(geometry.QuarterBend), size)
	eighth, knownToo := s.tabulated(at, BendOf(geometry.EighthBend), size)
	if !known || !knownToo {
		return Takeoff{}, false
	}
	tan, tanEighth := f.Angle.Half().Tan(), geometry.EighthBend.Half().Tan()
	weight := (tan - tanEighth) / (1 - tanEighth) // of the quarter bend, whose tangent is 1
	w, v := geometry.Length(weight), geometry.Length(1-weight)
	return Takeoff{
		Length: w*quarter.Length + v*eighth.Length,
		Band:   geometry.Length(math.Abs(weight))*quarter.Band + v*eighth.Band,
		Source: "from geometry: radius and straight end of the 1/4 and 1/8 bends, " + quarter.Source,
	}, true
}

// rough is a first figure for a bend of which nothing is known: on a
// centerline radius of one outside diameter, without a straight end. Half a
// diameter less of radius, and the throat has no radius left; half a diameter
// more, and it is a long-radius bend. That is the band.
func (s System) rough(f Fitting, size Size) (Takeoff, bool) {
	pipe, ok := s.Dimensions(size)
	if !ok {
		return Takeoff{}, false
	}
	t := pipe.Outside * geometry.Length(f.Angle.Half().Tan())
	return Takeoff{
		Length: t,
		Band:   t / 2,
		Source: "rough, from geometry: a bend on a centerline radius of one outside diameter; no standard's figure is at hand",
		Note:   loaded().system(s.ID).whyMissing,
	}, true
}
