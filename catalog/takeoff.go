package catalog

import "dogleg/geometry"

// Evidence says how well a number is known. It decides whether a cut may be
// printed as it is, or only as "about".
type Evidence string

// The grades of evidence, the best first.
const (
	Own       Evidence = "own"       // the user measured it and entered it
	Said      Evidence = "said"      // given in this very message
	Published Evidence = "published" // seen in a published standard, handbook or textbook
	OpenData  Evidence = "open data" // seen in an open data set
	Memory    Evidence = "memory"    // recalled, not checked against the standard
	Derived   Evidence = "derived"   // from geometry: a rough first figure
)

// Sure says whether a cut that rests on this evidence may be printed without
// "about". Only what is published, seen in open data, or the user's own is.
func (e Evidence) Sure() bool {
	switch e {
	case Own, Said, Published, OpenData:
		return true
	case Memory, Derived:
	}
	return false
}

// Takeoff is the length from a fitting's center to where the end of the pipe
// comes to rest in it, with where the number comes from.
type Takeoff struct {
	Fitting   Fitting
	Size      Size
	Length    geometry.Length // center to the resting end of the pipe
	Insertion geometry.Length // how far the pipe goes in; center to face is Length + Insertion
	Band      geometry.Length // the fitting in the hand may differ by this much, either way
	Evidence  Evidence
	Source    string // what a reader is told: "ASME B16.9, center to face"
	Note      string
}

// CenterToFace is the takeoff and the depth the pipe goes in: where the hub
// ends. Two hubs touch when their centers are this far apart, added up.
func (t Takeoff) CenterToFace() geometry.Length { return t.Length + t.Insertion }
