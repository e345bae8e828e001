package catalog

import (
	"cmp"
	"slices"

	"dogleg/geometry"
)

// System is one way of making a line: a material, its joint and its use, with
// one table of sizes and fittings. "PVC DWV" and "PVC schedule 40" are two
// systems.
type System struct {
	ID       string // "pvc-dwv"
	Name     string // as it is read back: "PVC DWV"
	Material Material
	Joint    Joint
	Use      Use // empty where one pattern of fitting serves all uses
	Schedule string
	Metric   bool
	Declared string // where who makes a fitting declares its lengths, by what; empty where a table could have them
}

// Dimensions are those of a pipe of one size.
type Dimensions struct {
	Outside  geometry.Length // outside diameter
	Wall     geometry.Length // zero where unknown
	Evidence Evidence
	Source   string
}

// Allowance is a gap left at each joint, or what a saw takes.
type Allowance struct {
	Length   geometry.Length
	Least    geometry.Length // of a usual gap: the narrow end of what is usual, zero where that is not known
	Evidence Evidence
	Source   string
}

// Depth is how far a pipe goes into a fitting.
type Depth struct {
	Length   geometry.Length
	Evidence Evidence
	Source   string
}

// Systems lists every system, those of one material together, the likeliest of
// them first.
func Systems() []System {
	var all []System
	for _, e := range loaded().systems {
		all = append(all, e.System)
	}
	return all
}

// SystemByID finds a system by its ID; false if there is none.
func SystemByID(id string) (System, bool) {
	e := loaded().system(id)
	return e.System, e.ID != ""
}

// Sizes lists the sizes of the system, the smallest first.
func (s System) Sizes() []Size { return slices.Clone(loaded().system(s.ID).sizes) }

// HasSize says whether the system is sold in that size, as far as is known
// here.
func (s System) HasSize(size Size) bool {
	return slices.Contains(loaded().system(s.ID).sizes, s.NameOf(size))
}

// NameOf is the system's own name of a size that may be said by another: DN100 is
// what is sold by its outside, 110 mm. A size that it does not have stays as it is.
func (s System) NameOf(size Size) Size { return loaded().at(s.ID, size).size }

// Fittings lists the fittings that exist in the system, whether or not a
// takeoff is known for them.
func (s System) Fittings() []Fitting { return slices.Clone(loaded().system(s.ID).fittings) }

// Has says whether a fitting exists in the system. What butt weld calls a
// long-radius elbow is its regular one.
func (s System) Has(f Fitting) bool {
	return slices.Contains(loaded().system(s.ID).fittingKeys, s.named(f).Key())
}

// named is the fitting as the tables name it.
func (s System) named(f Fitting) Fitting {
	if s.Joint == ButtWeld && f.Sweep == Long {
		f.Sweep = Regular
	}
	return f
}

// Bends lists the angles of the regular bends that exist in the system, the
// sharpest first.
func (s System) Bends() []geometry.Angle {
	var angles []geometry.Angle
	for _, f := range loaded().system(s.ID).fittings {
		if f == BendOf(f.Angle) {
			angles = append(angles, f.Angle)
		}
	}
	slices.SortFunc(angles, func(a, b geometry.Angle) int { return cmp.Compare(b, a) })
	return angles
}

// Gap is what is left open at each joint, apart from the takeoff: the root gap
// of a weld, the stop in a no-hub sleeve, nothing in a socket.
func (s System) Gap() Allowance { return loaded().system(s.ID).gap }

// TakeoffMeans says in words from where to where the takeoff of this system
// runs: "center to the stop in the socket".
func (s System) TakeoffMeans() string { return loaded().system(s.ID).means }

// Dimensions are those of the pipe in a size; false if there is no such size.
// If the system's schedule is not said and the size is made in several, the
// wall is zero.
func (s System) Dimensions(size Size) (Dimensions, bool) {
	var d Dimensions
	found := false
	for _, p := range loaded().pipes[loaded().at(s.ID, size)] {
		switch {
		case !s.takes(p.schedule):
		case found:
			d.Wall = 0
		default:
			d, found = p.Dimensions, true
		}
	}
	return d, found
}

// Insertion is how far a pipe goes into a fitting of the system: the depth of
// the socket or hub, the thread makeup, nothing where pipes butt. It is false
// where that is not known.
func (s System) Insertion(size Size) (Depth, bool) {
	if !s.HasSize(size) {
		return Depth{}, false
	}
	switch s.Joint {
	case Thread:
		t, ok := ThreadOf(size)
		return Depth{t.Makeup, t.MakeupEvidence, t.MakeupSource}, ok
	case ButtWeld, NoHub, Fusion:
		return Depth{0, Published, "the ends butt: nothing goes in"}, true
	case Solvent, Solder, SocketWeld, Hub, Crimp, PushFit:
	}
	d, ok := loaded().depths[loaded().at(s.ID, size)]
	if !ok || !s.takes(d.schedule) {
		return Depth{}, false
	}
	return d.Depth, true
}

// takes says whether a row of the tables that is for one schedule is for this
// system. A row without a schedule is for all; a system without one takes all.
func (s System) takes(schedule string) bool {
	return schedule == "" || s.Schedule == "" || s.Schedule == schedule
}
