package catalog

import (
	"slices"
	"strconv"
	"strings"

	"dogleg/geometry"
)

// Shape is the kind of a fitting.
type Shape string

// The shapes.
const (
	Bend        Shape = "bend" // any elbow; its angle says which
	Tee         Shape = "tee"
	SanitaryTee Shape = "sanitary tee"
	Wye         Shape = "wye"
	Combination Shape = "combination" // wye and 1/8 bend
	Coupling    Shape = "coupling"
	Union       Shape = "union"
	Cap         Shape = "cap"
	Valve       Shape = "valve"
	Reducer     Shape = "reducer"
	Flange      Shape = "flange"
	CleanoutTee Shape = "cleanout tee"
)

// Sweep is how wide a bend turns.
type Sweep string

// The sweeps. Regular is the fitting that comes when none is asked for; in
// butt weld that is the long-radius elbow.
const (
	Regular Sweep = ""
	Short   Sweep = "short" // short radius, short sweep
	Long    Sweep = "long"  // long radius, long sweep, long turn
)

// Fitting names a fitting, apart from its size and material.
type Fitting struct {
	Shape  Shape
	Angle  geometry.Angle // what a bend or a wye turns the line through
	Street bool           // one end goes straight into the next hub
	Sweep  Sweep
	Side   Side // which of its ends is measured, where one number doesn't do for all
}

// Side is one end of a fitting whose ends are unlike. Empty is the end that takes
// the piece: the hub of a street fitting, the branch of a wye or a tee.
type Side string

// The sides.
const (
	Spigot Side = "spigot" // of a street fitting: from its center to the end of its spigot
	Inlet  Side = "inlet"  // the end of a branch fitting's run where the flow comes in
	Outlet Side = "outlet" // and the one where it goes out
)

// At is the fitting, measured at one of its ends.
func (f Fitting) At(s Side) Fitting {
	f.Side = s
	return f
}

// BranchShape says whether a fitting of this shape sits in a run and lets a
// branch into it.
func (s Shape) BranchShape() bool {
	switch s {
	case Tee, SanitaryTee, Wye, Combination:
		return true
	case Bend, Coupling, Union, Cap, Valve, Reducer, Flange, CleanoutTee:
	}
	return false
}

// BendOf is the regular bend that turns the line through a.
func BendOf(a geometry.Angle) Fitting { return Fitting{Shape: Bend, Angle: a} }

// Key is the fitting's name in records, the store and catalog files: "45",
// "street 45", "22-1/2", "long 90", "wye"; of one of its ends "street 45 spigot",
// "wye inlet".
func (f Fitting) Key() string {
	name := string(f.Shape)
	if f.Shape == Bend {
		name = AngleName(f.Angle)
	}
	if f.Sweep != Regular {
		name = string(f.Sweep) + " " + name
	}
	if f.Street {
		name = "street " + name
	}
	if f.Side != "" {
		name += " " + string(f.Side)
	}
	return name
}

// FittingByKey reads back what [Fitting.Key] writes; false if it is no
// fitting's key. A bend that turns more than 90° or not at all is none. A wye
// comes back without its angle, which its key does not hold.
func FittingByKey(key string) (Fitting, bool) {
	var f Fitting
	key, f.Street = strings.CutPrefix(key, "street ")
	for _, side := range []Side{Spigot, Inlet, Outlet} {
		if rest, found := strings.CutSuffix(key, " "+string(side)); found {
			key, f.Side = rest, side
			break
		}
	}
	for _, sweep := range []Sweep{Short, Long} {
		if rest, found := strings.CutPrefix(key, string(sweep)+" "); found {
			key, f.Sweep = rest, sweep
			break
		}
	}
	if slices.Contains([]Shape{Tee, SanitaryTee, Wye, Combination, Coupling, Union, Cap, Valve, Reducer, Flange, CleanoutTee}, Shape(key)) {
		f.Shape = Shape(key)
		return f, true
	}
	turn, ok := parseMixed(key)
	f.Shape, f.Angle = Bend, geometry.Angle(turn)
	return f, ok && turn > 0 && f.Angle <= geometry.QuarterBend
}

// fractions are the angles that the trade writes with a fraction.
var fractions = map[geometry.Angle]string{
	67.5:                      "67-1/2",
	geometry.SixteenthBend:    "22-1/2",
	geometry.ThirtySecondBend: "11-1/4",
	geometry.SixtyFourthBend:  "5-5/8",
}

// AngleName writes an angle as the trade does: 45, 22-1/2, 11-1/4, 5-5/8; any
// other angle in decimals.
func AngleName(a geometry.Angle) string {
	if whole := int(a); geometry.Angle(whole) == a {
		return strconv.Itoa(whole) // as in decimals, and nearly every bend
	}
	if name, ok := fractions[a]; ok {
		return name
	}
	return strconv.FormatFloat(a.Degrees(), 'f', -1, 64)
}
