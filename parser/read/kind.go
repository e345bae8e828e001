package read

import "dogleg/parser/ask"

// sorts of what a stretch of a message says.
type saying uint8

const (
	unstated saying = iota // only a change
	offset
	fit
	piece
	mark
	parallel
	around
	falling
	trim
	multiplier
	takeoffOf
	check
	sum
	command
	withdrawn
	talk
	elsewhere
	either // two readings of it are as good
	sayingCount
)

// bits is a set of parts.
type bits uint64

func of(all ...part) bits {
	var b bits
	for _, p := range all {
		b |= 1 << p
	}
	return b
}

func (b bits) has(p part) bool { return b>>p&1 != 0 }

var (
	steps  = of(set, roll, rise, apartSet, apartRoll, apartRise)
	bends  = of(angle, takeoff, face, depth, gap, radius)
	pipes  = of(size, schedule)
	common = bends | pipes
)

// sayings says of each what kind of ask it is and which parts it may hold. Who may
// hold none of them holds no number.
var sayings = [sayingCount]struct {
	kind ask.Kind
	name string
	may  bits
}{
	unstated:   {ask.Unstated, "change", ^bits(0) &^ of(term, off)},
	offset:     {ask.Offset, "offset", common | steps | of(run, travel, cut, endGap, centerToCenter)},
	fit:        {ask.Fit, "fit", common | steps | of(run, travel, room, gapNow, endGap)},
	piece:      {ask.Piece, "piece", common | of(centerToCenter, cut, reading)},
	mark:       {ask.Mark, "mark", common | steps | of(gapNow, overlap, stickOut, reading, run, travel, centerToCenter, markAt, length, endGap, room)},
	parallel:   {ask.Parallel, "parallel", common | steps | of(lines, spacing, stagger, run, travel)},
	around:     {ask.Around, "around", common | of(reach, clearance, obstacle, start, set, run)},
	falling:    {ask.Fall, "fall", pipes | of(grade, fall, apartFall, length, upper, lower, set, angle)},
	trim:       {ask.Trim, "trim", common},
	multiplier: {ask.Multiplier, "multiplier", of(angle)},
	takeoffOf:  {ask.Takeoff, "takeoff", common},
	check:      {ask.Check, "check", common | steps | of(dryFit, cut, travel, run, endGap, centerToCenter, fall, length, grade, trimOff, gapNow, spacing, lines, stagger)},
	sum:        {ask.Sum, "sum", of(term, off)},
	command:    {ask.Unstated, "command", 0},
	withdrawn:  {ask.Unstated, "withdrawn", 0},
	talk:       {ask.Unstated, "talk", 0},
	elsewhere:  {ask.Unstated, "elsewhere", 0},
	either:     {ask.Unstated, "two readings", 0},
}

// ofKind finds the saying of a kind of ask.
func ofKind(k ask.Kind) saying {
	for s := offset; s <= sum; s++ {
		if sayings[s].kind == k {
			return s
		}
	}
	return unstated
}

// verbs are what a command may be.
var verbs = []ask.Verb{
	ask.Explain, ask.Jobs, ask.Help, ask.Greet, ask.AllCautions, ask.NameJob, ask.Takeoffs, ask.Forget, ask.ForgetMe, ask.Export, ask.Draw,
	ask.Undo, ask.Setting, ask.Thanks, ask.Cancel, ask.Practice, ask.Exam, ask.Skip, ask.Stop, ask.Score, ask.Glossary,
	"add", "list", "done", "drop", "share", "first", "second", "repeat", "mark", "metric", "inches",
}
