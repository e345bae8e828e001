package figure

import (
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// Answer is what was figured for one ask, whole: words, steps, speech, picture
// and record are all made from it, and nothing else.
type Answer struct {
	Ask  parser.Ask  // as understood, after the user's settings were applied
	Kind parser.Kind // never Unstated
	Main parser.Role // the figure that is said first

	System catalog.System // the pipe, zero where no pipe matters
	Size   catalog.Size

	Lengths   []Length       // every length figured, in the order to be said
	Exact     []Length       // where Lengths are by a handbook's multipliers: the same at full precision
	Angle     geometry.Angle // that the fitting turns, zero where none matters
	Stock     geometry.Angle // the stock bend that serves for a true angle, zero where none does
	RollAngle geometry.Angle // of a rolling offset, from plumb; see Rolling
	Rolling   bool
	Grade     geometry.Slope // of kind fall, and where a line is graded

	FallOverRun geometry.Length // what a graded line comes down over the run of an offset in it

	Ends [2]End            // the takeoff at each end, where there is a piece to cut
	Gap  catalog.Allowance // left at each joint

	Sides      []End              // ends of a fitting that aren't alike, where they were figured with
	StreetSets [2]geometry.Length // the least and the most that a street fitting makes straight in the other; zero where none is made
	Branch     *Branch            // that the offset leaves, or ends in
	Unlike     *Unlike            // of two bends that differ
	From       catalog.Fitting    // that the far end is measured from, where it is from a fitting's center

	Pieces   []geometry.Length // where there is more than one to cut, in order
	Inline   []Inline          // what stands in the travel, in order
	LayingOf catalog.Fitting   // what stands in the travel, and nobody said how long it is
	Stations []Station         // of kind riser, from below
	Legs     [2]geometry.Angle // of kind corner: what each bend turns
	CutAngle geometry.Angle    // of kind miter: how far off square each end is cut
	Header   catalog.Size      // of kind saddle: that the branch sits on
	Strip    Strip             // a line to be wrapped around a pipe

	Depths [2]catalog.Depth // of a piece measured face to face: how far it goes in

	// Provisional says that the cut rests on something unsure, so that it is
	// only "about"; Band how far it may be out, either way: how much longer it
	// may have to be; and TakesOff how much longer than need be a cut is that is
	// left that long.
	Provisional bool
	Band        geometry.Length
	TakesOff    geometry.Length

	Unmeasured *Unmeasured // the fitting that is to be measured before there is a cut

	Assumed []Assumption    // what was taken that no word said
	NoLine  string          // the line of fittings that was named, where the user has measured none of it
	Doubts  []Doubt         // takeoffs that were said and look like something else
	Unequal []Disagreement  // measurements of one thing that disagree
	NoEnds  catalog.Fitting // whose other side nobody measured, so that where the standing pipes end is left out
	Reduced [2]catalog.Size // the sizes of two ends that no one piece fits, empty where it does
	HubNear bool            // of kind around: hubs come as near to the obstacle as the pipe

	Limit     *Limit     // how short this offset can be made
	Bends     []Choice   // of kind fit, the best first
	Lines     []Line     // of kind parallel, in order
	Factors   []Factor   // of kind multiplier
	Ordinates []Ordinate // of kind trim
	Sum       SumResult  // of kind sum
	Minimums  []Minimum  // of a graded line: the least grade for this size, by the code that was named
	Drain     bool       // a line whose grade a code has a least for

	Rack *Rack // of kind parallel: where the lines differ; nil where they are alike
	Bank Bank  // of kind parallel: how it lies against the step

	// Unstaggered is, of kind parallel, what the spacing closes up to on the
	// diagonals when all lines bend at the same place.
	Unstaggered geometry.Length

	Own      []Stored  // of kind takeoff: what is to be kept as the user's own
	Handbook *Handbook // figures by rounded multipliers
	Throws   []Throw   // how far a sloppy measurement throws it
	Findings []Finding // of kind check: what explains the difference

	Steps    []Step
	Cautions []Caution // the most pressing first
	Path     walk.Path // the pieces as they lie in space
}

// Length is one figured length.
type Length struct {
	Role   parser.Role
	Length geometry.Length
	Up     bool // a clearance: reads on the tape rounded up, never to the nearest
}

// Length returns the figured length of a role.
func (a *Answer) Length(r parser.Role) (geometry.Length, bool) {
	l, ok := a.Figured(r)
	return l.Length, ok
}

// Figured returns what was figured of a role: its length, and how that reads.
func (a *Answer) Figured(r parser.Role) (Length, bool) {
	for _, l := range a.Lengths {
		if l.Role == r {
			return l, true
		}
	}
	return Length{}, false
}

// End is one end of the piece: the fitting there and the takeoff used.
type End struct {
	Fitting catalog.Fitting
	Takeoff catalog.Takeoff
}

// Assumption is something taken that no word said: the joint of a steel pipe,
// the use of a PVC pipe. Instead lists what else it could be, each with the
// cut that it would make.
type Assumption struct {
	What    parser.Role // JointOf, PipeOf, FittingOf, …
	Took    string      // in words of the trade: "threaded"
	Instead []Alternative
}

// Alternative is another reading of what was assumed, with the cut it makes;
// zero where no takeoff is known for it.
type Alternative struct {
	Name string
	Cut  geometry.Length
}

// Disagreement is two measurements of one thing that are more than 1/8 apart.
type Disagreement struct {
	Role   parser.Role
	First  parser.Measure
	Second parser.Measure
	As     [2]geometry.Length // each brought to center to center
	Apart  geometry.Length
}

// Limit is how small the set can get with these fittings.
type Limit struct {
	Touching geometry.Length // set at which the two hubs touch; the piece still fills both
	Cut      geometry.Length // the piece there
}

// Choice is one bend that may suit the room there is.
type Choice struct {
	Angle  geometry.Angle
	Fits   bool
	Run    geometry.Length
	Travel geometry.Length
	Cut    geometry.Length
	EndGap geometry.Length
	Spare  geometry.Length // straight pipe left over; negative: how much is lacking
	Ends   [2]End
	Why    string          // why it can't be: "hubs collide", "too long for the room"; of the best, why it is
	Unsure bool            // rests on an unsure takeoff
	Band   geometry.Length // how far out the cut may be, either way
}

// Line is one of parallel lines.
type Line struct {
	Number  int
	Run     geometry.Length
	Travel  geometry.Length
	Cut     geometry.Length
	Start   geometry.Length // how much sooner (positive) its bend starts than line 1's
	HasCut  bool
	Spacing geometry.Length // from line 1

	// Of a rack: what the line is, how far its center lies from that of the line
	// before, how far its covering from that one's, and the line figured by itself.
	Size    catalog.Size
	Outside geometry.Length // of the pipe, 0 where it is not known
	Cover   geometry.Length // how thick it is covered
	Next    geometry.Length
	Clear   geometry.Length
	Alone   *Answer // nil where no pipe was said
}

// Rack says that parallel lines differ, or are covered.
type Rack struct {
	Clear  bool // what stays alike is the clear space between them; else the spacing of their centers
	Uneven bool // the staggers differ on the tape
}

// Factor is one multiplier of an angle.
type Factor struct {
	From, To parser.Role
	Exact    float64
	Printed  string // as handbooks print it, correctly rounded to three decimals or to the user's two
}

// Ordinate is one mark round a pipe that is cut off at an angle.
type Ordinate struct {
	Eighth int             // of the way round, 0 at the throat
	Arc    geometry.Length // from the throat, along the wall
	Back   geometry.Length // from the square line
}

// SumResult is the result of tape arithmetic.
type SumResult struct {
	Length geometry.Length
	Number float64 // where the result is a plain number
	Plain  bool
	Metric bool // wanted in millimeters
}

// Stored is a takeoff that the user asks to keep.
type Stored struct {
	System  catalog.System
	Takeoff catalog.Takeoff
	Line    string // the user's own name for the maker's line
	How     string // "center to stop", "face less depth", "dry fit"
	Crew    bool   // for the crew's book
}

// Handbook is what rounded multipliers make of the same ask.
type Handbook struct {
	Name       string  // "two decimals", "three decimals"
	Multiplier float64 // set to travel
	Travel     geometry.Length
	Run        geometry.Length
	Cut        geometry.Length
	EndGap     geometry.Length
	Differs    bool // on the user's tape
}

// Throw is how far one sloppy measurement throws the cut and the line.
type Throw struct {
	What string // "set", "angle", "takeoff"
	Off  string // "1/8 in", "1 degree"
	Cut  geometry.Length
	Set  geometry.Length
	Run  geometry.Length
}

// Finding is one thing that may explain what a dry fit showed.
type Finding struct {
	What parser.Role     // Set, TakeoffOf, AngleOf
	By   geometry.Length // how far out it would have to be
	Turn geometry.Angle  // for AngleOf
}

// StepName says what is done in a step.
type StepName string

// The steps, in the order they come on site.
const (
	StepMeasure  StepName = "measure"  // take Result as the tape gave it
	StepCheck    StepName = "check"    // measure again; Rule is the kind of ask, as of the other steps without figures
	StepChoose   StepName = "choose"   // the bend that turns Result
	StepConvert  StepName = "convert"  // Terms with signs make Result
	StepRoot     StepName = "root"     // Result is the root of the squares of Terms, with signs
	StepTangent  StepName = "tangent"  // the angle whose tangent is Terms[0] / Terms[1]
	StepMultiply StepName = "multiply" // Terms[0] × Factor is Result
	StepDivide   StepName = "divide"   // Terms[0] ÷ Factor is Result
	StepAdd      StepName = "add"      // Terms with signs make Result
	StepMark     StepName = "mark"     // put Result on the pipe
	StepDryFit   StepName = "dry fit"
	StepJoin     StepName = "join"
)

// Step is one step of the figuring, as data: the figures in Terms make Result
// by the arithmetic that Name says.
type Step struct {
	Name   StepName
	Result Quantity
	Terms  []Quantity
	Factor float64 // of StepMultiply and StepDivide
	Line   int     // of parallel lines that differ: which of them it is of; 0 is all
	Rule   string  // name of the rule behind it: "set to travel", "takeoff", "true set"
}

// Quantity is a named length in a step, or an angle.
type Quantity struct {
	Role   parser.Role
	Length geometry.Length
	Angle  geometry.Angle
	Minus  bool // taken off, in StepAdd, StepConvert and StepRoot
	Times  int  // how often it is taken; 0 is once
}

// Minimum is the least grade of a drain of this size by a code, and whether the
// line has it. 1/4 in per foot and 2 % are one minimum in print though they
// differ, so either passes.
type Minimum struct {
	Behind string // the code that prints it: "IPC Table 704.1"
	Grade  geometry.Slope
	Meets  bool

	Recalled bool // no table was seen
}
