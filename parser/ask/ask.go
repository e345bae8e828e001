package ask

import (
	"math"
	"slices"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
)

// Kind is what is asked for. Its value is the word in the JSON record.
type Kind string

// The kinds of ask.
const (
	Unstated   Kind = "" // only a change to the last ask, or an answer to a question
	Offset     Kind = "offset"
	Fit        Kind = "fit"
	Piece      Kind = "piece"
	Mark       Kind = "mark"
	Parallel   Kind = "parallel"
	Around     Kind = "around"
	Fall       Kind = "fall"
	Trim       Kind = "trim"
	Sum        Kind = "sum"
	Multiplier Kind = "multiplier"
	Takeoff    Kind = "takeoff"
	Check      Kind = "check"
	Corner     Kind = "corner" // a turn made of two bends
	Miter      Kind = "miter"  // a turn made of pipe alone
	Saddle     Kind = "saddle" // a pipe's end cut to sit on another pipe
	Wrap       Kind = "wrap"   // a turn as an arc on the pipe
	Riser      Kind = "riser"  // a line marked from one tape
	Doglegs    Kind = "line"   // two offsets in one line
)

// Role is what a figure is for. Its value is the key in the JSON record.
type Role string

// The roles of lengths. The first group is shared by what is given and what is
// figured; the second only says how something was measured.
const (
	Bare           Role = "" // a number that no word claims
	Set            Role = "set"
	Roll           Role = "roll"
	Rise           Role = "rise"
	Run            Role = "run"
	Travel         Role = "travel"
	Cut            Role = "cut"
	EndGap         Role = "end_gap"
	Spacing        Role = "spacing"
	Stagger        Role = "stagger"
	Drop           Role = "fall"   // how much a graded line comes down
	Long           Role = "length" // of a graded line
	Start          Role = "start"  // before an obstacle, to the first bend's center
	Clearance      Role = "clearance"
	Reach          Role = "reach" // how far an obstacle sticks out past the pipe's centerline
	MarkAt         Role = "mark"
	Total          Role = "sum"
	CenterToCenter Role = "center_to_center"
	TakeoffOf      Role = "takeoff"
	TrimOff        Role = "trim"        // what comes off a pipe that is there; negative: what is lacking
	PipeLength     Role = "pipe_length" // of hub-and-spigot: laying length and the part in the hub

	Face     Role = "face"         // of a fitting, from its center
	Depth    Role = "depth"        // of a socket, or thread makeup
	Room     Role = "room"         // clear length along the line for the whole offset
	StickOut Role = "stick_out"    // how far a standing end sticks out
	GapNow   Role = "gap_now"      // clear gap between the standing ends as they are
	Overlap  Role = "overlap"      // how far the standing ends overlap
	Reading  Role = "reading"      // of a tape, from a common reference
	Upper    Role = "upper_invert" // invert elevation at the high end
	Lower    Role = "lower_invert"
	Radius   Role = "radius"   // of a bend's centerline
	JointGap Role = "gap"      // left at each joint: weld root, no-hub stop
	DryFit   Role = "dry_fit"  // center to center that a dry fit showed
	Obstacle Role = "obstacle" // length of an obstacle along the line

	Least       Role = "smallest_set" // that two fittings can make
	Spigot      Role = "spigot"       // of a street fitting: from its center to the end of its spigot
	Inlet       Role = "inlet"        // of a branch fitting: from its center to the stop where the flow comes in
	Outlet      Role = "outlet"       // and to the one where it goes out
	CutOut      Role = "cut_out"      // of a run, to set a branch fitting in
	FarEnd      Role = "far_end"      // along the first line to where the far pipe ends
	FarSet      Role = "far_set"      // across the first line to where the far pipe ends
	Leg         Role = "leg"          // from a corner to the first bend's center
	OtherLeg    Role = "other_leg"    // from a corner to the second bend's center
	StopAt      Role = "stop"         // from a corner to where the first pipe stops
	OtherStopAt Role = "other_stop"   // from a corner to where the second pipe stops
	Diagonal    Role = "diagonal"     // from a corner square to the piece across it
	Place       Role = "place"        // of what stands in the travel: from the first center to its own
	Laying      Role = "laying"       // of what stands in the travel: from the end of one pipe in it to that of the other
	FirstPiece  Role = "first_piece"  // before what stands in the travel
	SecondPiece Role = "second_piece" // behind it
	Straight    Role = "straight"     // between two offsets in one line, center to center
	Arc         Role = "arc"          // along the wall
	Girth       Role = "girth"        // all the way around the pipe
	Cutback     Role = "cutback"      // how much longer a mitered end is at the back than at the throat
	EndPiece    Role = "end_piece"    // of a mitered turn, along its centerline
	MiddlePiece Role = "middle_piece"
	Fishmouth   Role = "fishmouth" // how deep a pipe's end is cut to sit on another

	// The roles of what is not a length.
	AngleOf   Role = "angle"
	RollAngle Role = "roll_angle" // from plumb
	Grade     Role = "grade"
	LineCount Role = "lines"
	SizeOf    Role = "size"
	PipeOf    Role = "pipe" // material and size
	JointOf   Role = "joint"
	FittingOf Role = "fitting"
	UnitOf    Role = "unit" // of the bare numbers
)

// Method is how the tape was laid. The empty Method is center to center.
type Method string

// The methods.
const (
	Centers          Method = "center-to-center"
	OutsideToOutside Method = "outside-to-outside"
	InsideToInside   Method = "inside-to-inside"
	OutsideToInside  Method = "outside-to-inside" // outside of the one to the inner side of the other: the same side of both
	CenterToOutside  Method = "center-to-outside" // center of the one to the far side of the other
	CenterToInside   Method = "center-to-inside"  // center of the one to the near side of the other
	BackToBack       Method = "back-to-back"
	FaceToFace       Method = "face-to-face"
	CenterToFace     Method = "center-to-face" // center of the one to the facing face of the other
	EndToCenter      Method = "end-to-center"
	EndToEnd         Method = "end-to-end"
)

// Measure is one length as it was given.
type Measure struct {
	Role   Role
	Length geometry.Length
	Method Method // how the tape was laid; empty is center to center, or does not apply
	Text   string // as written: 12-5/8, 238 mm
	Bare   bool   // no word claimed it: it got its role by where it stands
	Apart  bool   // it is the difference of two readings, which Text has as they were written

	Readings [2]geometry.Length // of which it is the difference, the larger first
}

// End is what was said of one end of the piece, where the ends differ, or of
// both.
type End struct {
	Fitting catalog.Fitting // zero: not said
	Size    catalog.Size    // empty: that of the pipe
	Takeoff geometry.Length // zero: not said
	Face    geometry.Length // center to face, zero: not said
	Depth   geometry.Length // how far the pipe goes in, zero: not said
	Spigot  geometry.Length `json:",omitzero"` // of a street fitting, center to spigot end; zero: not said
	Inlet   geometry.Length `json:",omitzero"` // of a branch fitting, center to stop; zero: not said
	Outlet  geometry.Length `json:",omitzero"`
}

// Of is what was said of one side of the fitting there, 0 where nothing was.
func (e End) Of(s catalog.Side) geometry.Length {
	switch s {
	case catalog.Spigot:
		return e.Spigot
	case catalog.Inlet:
		return e.Inlet
	case catalog.Outlet:
		return e.Outlet
	}
	return e.Takeoff
}

// Ask is what was understood of one thing asked. A zero field was not said.
//
// It holds only what the words say; what is assumed, looked up or missing is
// for the package that figures. It is kept as JSON with every job and read with
// every message, so what was not said takes no room there.
type Ask struct {
	Kind     Kind
	Language Language       `json:",omitzero"` // empty where no word is of any: figures, names of pipes
	Name     string         `json:",omitzero"` // of the job: "laundry"
	Want     Role           `json:",omitzero"` // what is asked for, where the words say it: "what set?"
	Method   Method         `json:",omitzero"` // how the tape was laid for a measure said before: "that was outside to outside"
	Measures []Measure      `json:",omitzero"` // in the order given
	Angle    geometry.Angle `json:",omitzero"`
	Pipe     catalog.Pipe   `json:",omitzero"`
	Ends     [2]End         `json:",omitzero"` // both alike unless the words say otherwise
	Grade    geometry.Slope `json:",omitzero"`
	Lines    int            `json:",omitzero"`
	Lie      Lie            `json:",omitzero"` // of parallel lines: how they lie beside each other, looking along them
	Rack     []RackLine     `json:",omitzero"` // of kind Parallel: the lines in order, where they differ or are covered
	LineOne  LineOne        `json:",omitzero"` // which of parallel lines is the first
	Through  Barrier        `json:",omitzero"` // what the pipe goes through
	Carries  Load           `json:",omitzero"` // what the pipe carries, or is made of, that cautions hang on
	Sum      *Arithmetic    `json:",omitzero"` // of kind Sum
	Inline   []Inline       `json:",omitzero"` // what stands in the travel, in order
	Pieces   int            `json:",omitzero"` // that a mitered turn is made of
	Stations []Station      `json:",omitzero"` // of kind Riser, in order

	Rolling     bool   `json:",omitzero"` // "rolling": there is a roll and a rise, even where one is not said yet
	FollowUp    bool   `json:",omitzero"` // changes the last ask: "same but 14"
	Handbook    bool   `json:",omitzero"` // "by the book"
	ComeBack    bool   `json:",omitzero"` // around: back to the old line
	Sensitivity bool   `json:",omitzero"` // "how far out if the set is off 1/8"
	Store       bool   `json:",omitzero"` // takeoff: set as the user's own, not looked up
	Crew        bool   `json:",omitzero"` // takeoff: for everyone in this chat
	Line        string `json:",omitzero"` // takeoff: the user's name for the maker's line: "the grey ones"

	Repairs []Repair `json:",omitzero"` // words read otherwise than written
	Taken   []Taken  `json:",omitzero"` // which of two readings was taken
}

// Inline is something that stands in the travel, between two pieces of pipe.
type Inline struct {
	Fitting catalog.Fitting
	Laying  geometry.Length // from the end of one pipe in it to that of the other, zero: not said
	Place   geometry.Length // from the first fitting's center to its own, zero: in the middle of what is left
}

// Station is a fitting on a line that is marked from one tape.
type Station struct {
	Fitting catalog.Fitting // zero: a plain end of pipe
	Reading geometry.Length // of its center
	Below   geometry.Length // what it takes of the pipe below it, zero: not said
	Above   geometry.Length // and above it
}

// RackLine is one of parallel lines that aren't alike, or are covered.
type RackLine struct {
	Size       catalog.Size    `json:",omitzero"` // empty: that of the pipe
	Insulation geometry.Length `json:",omitzero"` // how thick, all round; zero: bare
	Takeoff    geometry.Length `json:",omitzero"` // at both ends, zero: not said
}

// LineOne says which of parallel lines is the first. Its value is the word in the
// JSON record.
type LineOne string

// The first lines.
const (
	Away   LineOne = ""       // the one on the side that the lines step away from
	Toward LineOne = "toward" // the one on the side that they step toward
)

// Lie is how parallel lines lie beside each other, looking along them. Its value
// is the word in the JSON record.
type Lie string

// The ways of lying.
const (
	SideBySide Lie = "side by side"
	OneAbove   Lie = "one above the other"
)

// Load is what a pipe carries, or an old pipe is made of, where cautions hang on
// it. Its value is the word in the JSON record.
type Load string

// The loads.
const (
	FuelGas        Load = "gas"
	MedicalGas     Load = "medical gas"
	CompressedAir  Load = "compressed air"
	Water          Load = "water"
	Vent           Load = "vent"
	DrainWater     Load = "drain"
	AsbestosCement Load = "asbestos cement" // the pipe itself
	LeadPipe       Load = "lead"            // the pipe itself
)

// Barrier is what a pipe goes through, where cautions hang on it.
type Barrier string

// The barriers.
const (
	Masonry Barrier = "masonry" // concrete, block, brick, clay
	Joist   Barrier = "joist"   // joist, stud or beam
)

// Language is the language of a message.
type Language string

// The languages.
const (
	English Language = "en"
	Spanish Language = "es"
)

// Repair is a word that was read otherwise than written: a typing error with
// one trade word near it.
type Repair struct{ Wrote, Read string }

// Taken says which of two readings was taken: "7-5/8 as the set, since there
// is no 5/8 PVC".
type Taken struct {
	Text string // the words at issue: "7 5/8"
	Read string // how they were taken: "set 7-5/8"
	Not  string // the other reading: "set 7, 5/8 pipe"
}

// Length returns the first length given for a role, however it was measured.
func (a Ask) Length(r Role) (geometry.Length, bool) {
	for _, m := range a.Measures {
		if m.Role == r {
			return m.Length, true
		}
	}
	return 0, false
}

// All returns the measures given for a role, in order.
func (a Ask) All(r Role) []Measure {
	var all []Measure
	for _, m := range a.Measures {
		if m.Role == r {
			all = append(all, m)
		}
	}
	return all
}

// Verb is a thing to do with what was already answered, or with the
// conversation itself.
type Verb string

// The verbs.
const (
	Explain     Verb = "explain"
	Rule        Verb = "rule" // behind a step of what was explained
	Jobs        Verb = "jobs"
	Help        Verb = "help"
	Greet       Verb = "start"
	AllCautions Verb = "cautions"
	NameJob     Verb = "name"
	Takeoffs    Verb = "takeoffs" // list the user's own
	Forget      Verb = "forget"   // a takeoff or a job
	ForgetMe    Verb = "forget-me"
	Export      Verb = "export" // all that is kept of the user
	Draw        Verb = "draw"
	Undo        Verb = "undo"
	Setting     Verb = "setting" // handbook on, metric, spanish
	Thanks      Verb = "thanks"
	Cancel      Verb = "cancel"
	Practice    Verb = "practice" // one problem after the other
	Exam        Verb = "exam"
	Skip        Verb = "skip" // a problem
	Stop        Verb = "stop" // practicing
	Score       Verb = "score"
	Glossary    Verb = "glossary" // what a word means
)

// Command is a verb with what it is about.
type Command struct {
	Language Language
	Verb     Verb
	Object   string // "laundry", "handbook"; to practice, a role or a kind: "cut", "rolling"
	Value    string // "on", "off"
	Number   int    // of a job in the list; 0: the last

	Factor float64        // to explain: a multiplier, 1.414
	Step   int            // whose rule is asked for
	Angle  geometry.Angle // to practice; of the bend whose meaning is asked for
}

// Statement is one thing said in a message: exactly one of Ask, Command and
// Misunderstanding is set.
type Statement struct {
	Text             string // the part of the message it came from
	Ask              *Ask
	Command          *Command
	Misunderstanding *Misunderstanding
}

// SaysAs says whether two asks come to the same figures: kick over 6, by "kick" a
// set and by "over" one too.
func (a *Ask) SaysAs(other *Ask) bool {
	same := func(m, n Measure) bool { return m.Role == n.Role && m.Length == n.Length && m.Method == n.Method }
	return a.Kind == other.Kind && slices.EqualFunc(a.Measures, other.Measures, same) && a.Angle == other.Angle && a.Pipe == other.Pipe &&
		a.Ends == other.Ends && math.Abs(float64(a.Grade-other.Grade)) < 1e-9 && a.Lines == other.Lines && a.Pieces == other.Pieces &&
		slices.Equal(a.Rack, other.Rack) && a.LineOne == other.LineOne && slices.Equal(a.Inline, other.Inline) && slices.Equal(a.Stations, other.Stations)
}

// Empty says whether nothing of the trade was read at all.
func (a *Ask) Empty() bool {
	return a.Kind == Unstated && len(a.Measures) == 0 && a.Angle == 0 && a.Pipe == (catalog.Pipe{}) &&
		a.Grade == 0 && a.Lines == 0 && a.Ends == [2]End{} && !a.Handbook && !a.Sensitivity && !a.ComeBack && a.Want == "" && a.Method == ""
}

// Near says whether two lengths in inches, or two sums of them, are the same to who
// labels messages: within 0.021 in, less than the 1/32 in that heavy and light are
// worth and more than half a millimeter rounded away, or 1 in 100,000.
func Near(a, b float64) bool { return math.Abs(a-b) <= 0.021+1e-5*math.Abs(a) }

// SameSize says whether two sizes may be one: people mean DN100 and 100 mm alike by
// "100", and so do those who label.
func SameSize(a, b catalog.Size) bool {
	return inMillimeters(a) == inMillimeters(b)
}

func inMillimeters(s catalog.Size) string {
	if dn, ok := strings.CutPrefix(string(s), "DN"); ok {
		return dn + " mm"
	}
	return string(s)
}
