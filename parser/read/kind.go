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
	corner
	line
	miter
	saddle
	wrap
	riser
	sayingCount
)

// asks says whether it asks for a figure, or changes what was asked.
func (y saying) asks() bool { return y <= sum || y >= corner && y < sayingCount }

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
	unlike = of(spigot, inlet, outlet) // ends of a fitting that differ
	inside = of(laying, place)         // of what stands in the travel
)

// sayings says of each what kind of ask it is and which parts it may hold. Who may
// hold none of them holds no number.
var sayings = [sayingCount]struct {
	kind ask.Kind
	name string
	may  bits
}{
	unstated:   {ask.Unstated, "change", ^bits(0) &^ of(term, off)},
	offset:     {ask.Offset, "offset", common | unlike | inside | steps | of(run, travel, cut, endGap, centerToCenter)},
	fit:        {ask.Fit, "fit", common | steps | of(run, travel, room, gapNow, endGap)},
	piece:      {ask.Piece, "piece", common | unlike | inside | of(centerToCenter, cut, reading)},
	mark:       {ask.Mark, "mark", common | unlike | steps | of(gapNow, overlap, stickOut, reading, run, travel, centerToCenter, markAt, length, endGap, room)},
	parallel:   {ask.Parallel, "parallel", common | steps | of(lines, spacing, stagger, run, travel)},
	around:     {ask.Around, "around", common | of(reach, clearance, obstacle, start, set, run)},
	falling:    {ask.Fall, "fall", pipes | of(grade, fall, apartFall, length, upper, lower, set, angle)},
	trim:       {ask.Trim, "trim", common},
	multiplier: {ask.Multiplier, "multiplier", of(angle)},
	takeoffOf:  {ask.Takeoff, "takeoff", common | unlike | of(laying)},
	check:      {ask.Check, "check", common | steps | of(dryFit, cut, travel, run, endGap, centerToCenter, fall, length, grade, trimOff, gapNow, spacing, lines, stagger)},
	sum:        {ask.Sum, "sum", of(term, off)},
	command:    {ask.Unstated, "command", 0},
	withdrawn:  {ask.Unstated, "withdrawn", 0},
	talk:       {ask.Unstated, "talk", 0},
	elsewhere:  {ask.Unstated, "elsewhere", 0},
	either:     {ask.Unstated, string(ask.TwoReadings), 0},
	corner:     {ask.Corner, "corner", common | unlike | of(leg, otherLeg, stop, otherStop, travel, cut, centerToCenter)},
	line:       {ask.Doglegs, "line", common | unlike | of(set, straight, centerToCenter)},
	miter:      {ask.Miter, "miter", pipes | of(angle, radius, pieces, gap)},
	saddle:     {ask.Saddle, "saddle", pipes | of(angle, gap)},
	wrap:       {ask.Wrap, "wrap", pipes | of(angle, roll, rise)},
	riser:      {ask.Riser, "riser", pipes | unlike | of(angle, takeoff, face, depth, gap, station)},
}

// mostAngles is how many angles a saying may hold that may hold more than two: a
// corner its turn and two bends, a riser those of its fittings.
var mostAngles = [sayingCount]int8{corner: 3, line: 4, riser: mostBends}

const (
	usualAngles = 2
	mostBends   = 8
)

// mayHoldInline are those in whose travel something may stand.
var mayHoldInline = [sayingCount]bool{unstated: true, offset: true, piece: true}

// ofKind finds the saying of a kind of ask.
func ofKind(k ask.Kind) saying {
	for y := offset; y < sayingCount; y++ {
		if y.asks() && sayings[y].kind == k {
			return y
		}
	}
	return unstated
}

// verbs are what a command may be.
var verbs = [verbCount]ask.Verb{
	ask.Explain, ask.Jobs, ask.Help, ask.Greet, ask.AllCautions, ask.NameJob, ask.Takeoffs, ask.Forget, ask.ForgetMe, ask.Export, ask.Draw,
	ask.Undo, ask.Setting, ask.Thanks, ask.Cancel, ask.Practice, ask.Exam, ask.Skip, ask.Stop, ask.Score, ask.Glossary,
	"add", "list", "done", "drop", "share", "first", "second", "repeat", "mark", "metric", "inches",
}

const verbCount = 32
