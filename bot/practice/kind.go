package practice

import (
	"slices"
	"sync"

	"dogleg/geometry"
	"dogleg/parser"
)

// Kind is a kind of problem.
type Kind string

// The kinds of problem, each with what is given and what is wanted.
const (
	Travel    Kind = "travel"     // set and bends: travel
	Cut       Kind = "cut"        // set, bends and takeoffs: cut
	EndGap    Kind = "end gap"    // set, bends and takeoffs: how far apart the standing ends are
	Rolling   Kind = "rolling"    // roll, rise, bends and takeoffs: cut
	Piece     Kind = "piece"      // center to center, two fittings and their takeoffs: cut
	Stagger   Kind = "stagger"    // spacing and bends: how much sooner the next line's bend starts
	Fall      Kind = "fall"       // length and grade: fall
	Trimming  Kind = "trim"       // set, bends and what the dry fit showed: what to trim
	Marking   Kind = "mark"       // set, bends, takeoffs and the gap as it is: how far back to cut the standing pipe
	Branch    Kind = "branch"     // set, a wye and a 45 with their takeoffs: cut
	TwoAngles Kind = "two angles" // set, two bends that differ and their takeoffs: cut
)

// Kinds returns all kinds, the easiest first.
func Kinds() []Kind {
	return []Kind{Travel, Cut, EndGap, Piece, Fall, Trimming, Marking, Rolling, Branch, TwoAngles, Stagger}
}

// Turns says whether a problem of this kind is about one angle.
func (k Kind) Turns() bool {
	switch k {
	case Travel, Cut, EndGap, Rolling, Stagger, Trimming, Marking:
		return true
	case Piece, Fall, Branch, TwoAngles:
	}
	return false
}

// wanted is the role of what is asked for.
func (k Kind) wanted() parser.Role {
	switch k {
	case Travel:
		return parser.Travel
	case Cut, Rolling, Piece, Branch, TwoAngles:
		return parser.Cut
	case Trimming:
		return parser.TrimOff
	case Marking:
		return parser.MarkAt
	case EndGap:
		return parser.EndGap
	case Stagger:
		return parser.Stagger
	case Fall:
		return parser.Drop
	}
	return parser.Bare
}

// Angles returns the bends there are problems about, the gentlest first.
func Angles() []geometry.Angle { return slices.Clone(angles()) }

var angles = sync.OnceValue(func() []geometry.Angle {
	var angles []geometry.Angle
	for _, l := range lines() {
		for _, a := range l.bends {
			if !slices.Contains(angles, a) {
				angles = append(angles, a)
			}
		}
	}
	slices.Sort(angles)
	return angles
})

// Focus is what an apprentice wants to practice; what is zero may be any.
type Focus struct {
	Kind  Kind
	Angle geometry.Angle
}

// kinds are the kinds that a focus lets through.
func (f Focus) kinds() []Kind {
	var kinds []Kind
	for _, k := range Kinds() {
		if (f.Kind == "" || f.Kind == k) && (f.Angle == 0 || k.Turns()) {
			kinds = append(kinds, k)
		}
	}
	return kinds
}
