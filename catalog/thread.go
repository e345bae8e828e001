package catalog

import "dogleg/geometry"

// PipeThread is the taper pipe thread of ASME B1.20.1 in one size.
type PipeThread struct {
	Size      Size
	PerInch   float64
	HandTight geometry.Length // L1: engagement by hand
	Effective geometry.Length // L2: usable thread
	Wrench    geometry.Length // L3: what a wrench adds
	Evidence  Evidence        // of these lengths
	Source    string

	// Makeup is how far the pipe goes into a fitting, made up tight. Tables of
	// it disagree by up to 1/8 in; OtherMakeup is what a second one has.
	Makeup         geometry.Length
	MakeupEvidence Evidence
	MakeupSource   string
	OtherMakeup    geometry.Length
	OtherSource    string
}

// Turn is how far one turn takes the pipe in.
func (t PipeThread) Turn() geometry.Length { return geometry.Inch / geometry.Length(t.PerInch) }

// ThreadOf is the thread of a size; false where none is known.
func ThreadOf(size Size) (PipeThread, bool) {
	t, ok := loaded().threads[size]
	return t, ok
}
