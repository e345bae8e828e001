package figure

import (
	"dogleg/catalog"
	"dogleg/geometry"
)

// Settings are a user's own: what their tape shows, which multipliers they
// are marked by, and the takeoffs they have measured.
type Settings struct {
	Division geometry.Division // of their tape; 0 is sixteenths
	Metric   bool              // answers in millimeters first
	Code     Code              // that drains are laid by; of none, no least grade is cited
	Handbook HandbookSet       // how travel and run are figured
	Takeoffs []OwnTakeoff      // of several for one fitting the last counts: the crew's first, the oldest first
	StandsBy OwnTakeoff        // a takeoff that was questioned and that the user stands by
}

// HandbookSet is a set of rounded multipliers.
type HandbookSet string

// The sets: correctly rounded to that many decimals. Exact is full precision.
const (
	ExactFigures  HandbookSet = ""
	TwoDecimals   HandbookSet = "two decimals"
	ThreeDecimals HandbookSet = "three decimals"
)

// OwnTakeoff is a takeoff that the user measured, for one fitting in one size
// of one system.
type OwnTakeoff struct {
	System  string // catalog.System.ID
	Fitting string // catalog.Fitting.Key
	Size    catalog.Size
	Line    string // the user's own name for the maker's line, may be empty
	Length  geometry.Length
	How     string // how it was measured
	When    string // day, as it is cited: "3 Nov"
	By      string // who set it, in a crew's book
	Crew    bool   // it is the crew's, not the user's own
}
