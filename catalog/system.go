package catalog

import "dogleg/geometry"

// System is one way of making a line: a material, its joint and its use, with
// one table of sizes and fittings. "PVC DWV" and "PVC schedule 40" are two
// systems.
type System struct {
	ID       string // "pvc-dwv"
	Name     string // as it is read back: "PVC DWV"
	Material Material
	Joint    Joint
	Use      Use
	Schedule string
	Metric   bool
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
	Evidence Evidence
	Source   string
}
