package figure

import (
	"fmt"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Missing says that one more fact is needed before anything can be cut, with
// as much of the answer as could be figured without it.
type Missing struct {
	Wanted  parser.Role
	Of      parser.Role // what it is wanted of, where that isn't the whole: AngleOf of a TakeoffOf
	Options []string    // what would be a good answer: "threaded", "butt-weld"
	Partly  *Answer     // figures that need no more: travel and run. May be nil.
}

// Error is for logs; people read wording.
func (m *Missing) Error() string { return fmt.Sprintf("figure: %s is missing", m.Wanted) }

// Cause is why something can't be built.
type Cause string

// The causes.
const (
	Collide        Cause = "fittings collide"     // the hubs would overlap
	NoSuchSize     Cause = "no such size"         // in this system; Near lists those around it
	NoSuchFitting  Cause = "no such fitting"      // no 22-1/2 in threaded malleable; Near lists what there is
	NoTakeoff      Cause = "no takeoff known"     // neither a table nor the user has one
	BadGeometry    Cause = "bad geometry"         // Problem says which
	BadTakeoff     Cause = "takeoff out of range" // not what this fitting's geometry allows; see Doubted
	NotMeasured    Cause = "not measured"         // a takeoff to be kept that is just what the table has; Subject says of what: TakeoffOf, Face, Depth or MeasuredFace
	NotLanding     Cause = "walk does not land"   // our own check failed: nothing is answered
	NoFit          Cause = "no bend fits"
	TooShort       Cause = "too short"        // a piece of negative length
	AirPlastic     Cause = "air in plastic"   // no plastic pipe may carry compressed air; Behind says by what
	Overgiven      Cause = "figures disagree" // set, run and travel that these bends can't all make; Subject is the side at fault, Near the bend
	TurnDiffers    Cause = "turn differs"     // the two bends don't make the corner; Turns has what they make, and what was wanted
	CornerTooTight Cause = "corner too tight" // hubs would overlap; Smallest is the least leg
	PieceCount     Cause = "piece count"      // a mitered turn is figured of two to five pieces
	BranchLarger   Cause = "branch larger"    // a pipe can't sit on a smaller one; Near has that
	LinesOverlap   Cause = "lines overlap"    // neighbors on a rack; Subject is the second's number, Smallest how far apart their centers must be
	AnglesDiffer   Cause = "angles differ"    // the two bends: the far line would not run parallel
)

// Impossible says that what was asked can't be built, why, and what would
// work instead.
type Impossible struct {
	Cause      Cause
	Problem    *geometry.Problem // of BadGeometry
	Fitting    catalog.Fitting   // of NoTakeoff: what is to be measured, in Size; zero where it isn't one
	Size       catalog.Size
	Subject    string             // the size, the fitting or the figure at fault
	Near       []string           // sizes or fittings that there are
	Smallest   geometry.Length    // set that works with these fittings, hubs touching, to be rounded up
	Takeoff    geometry.Length    // the largest takeoff that would work
	Bends      []geometry.Angle   // other bends that clear at this set
	Street     geometry.Length    // center to spigot end of a street fitting that makes this set, straight into the other; 0 where none is made
	StreetSets [2]geometry.Length // the least and the most that one makes; one and the same where it was measured, zero where none is made
	Turns      [2]geometry.Angle  // of TurnDiffers
	Behind     string             // what stands behind a refusal
	Partly     *Answer            // what was figured before it failed
	System     catalog.System
	Doubted    catalog.Takeoff    // of BadTakeoff and NotMeasured: what was given
	Between    [2]geometry.Length // of BadTakeoff: the least and the most that this fitting can take; zero where face and depth contradict each other
	Lengths    [2]geometry.Length // of Overgiven: what was given, and what the rest makes of it
}

// Error is for logs; people read wording.
func (i *Impossible) Error() string { return fmt.Sprintf("figure: %s %s", i.Cause, i.Subject) }
