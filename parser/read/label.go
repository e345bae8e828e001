package read

import (
	"math"
	"strconv"
	"strings"
	"sync"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser/ask"
	"dogleg/parser/measure"
)

// part is what a number is for in what is asked: a role of the ask, or one of those
// that only a reading knows.
type part uint8

// The parts. A row of parts says what each means.
const (
	none part = iota
	set
	roll
	rise
	run
	travel
	cut
	endGap
	room
	gapNow
	overlap
	stickOut
	reading
	centerToCenter
	reach
	clearance
	obstacle
	start
	lines
	spacing
	stagger
	length
	fall
	grade
	upper
	lower
	dryFit
	takeoff
	face
	depth
	gap
	radius
	markAt
	trimOff
	angle
	size
	schedule
	term     // of a sum
	off      // a term of a sum that is taken off
	apartSet // one of two readings whose difference is the set
	apartRoll
	apartRise
	apartFall // one of two levels whose difference is the fall
	leg
	otherLeg
	stop
	otherStop
	spigot
	inlet
	outlet
	straight
	laying
	place
	station // a reading of a riser's tape
	pieces
	partCount
)

// sort is what sort of value a part has.
type sort uint8

const (
	noValue sort = iota
	aLength
	anAngle
	aGrade
	aCount
	aSize
	aSchedule
	aTerm
)

// parts says of each part what role it is in an ask and what it can be.
var parts = [partCount]struct {
	role ask.Role
	sort sort
}{
	none: {"", noValue}, set: {ask.Set, aLength}, roll: {ask.Roll, aLength}, rise: {ask.Rise, aLength}, run: {ask.Run, aLength},
	travel: {ask.Travel, aLength}, cut: {ask.Cut, aLength}, endGap: {ask.EndGap, aLength}, room: {ask.Room, aLength},
	gapNow: {ask.GapNow, aLength}, overlap: {ask.Overlap, aLength}, stickOut: {ask.StickOut, aLength}, reading: {ask.Reading, aLength},
	centerToCenter: {ask.CenterToCenter, aLength}, reach: {ask.Reach, aLength}, clearance: {ask.Clearance, aLength},
	obstacle: {ask.Obstacle, aLength}, start: {ask.Start, aLength}, lines: {ask.LineCount, aCount}, spacing: {ask.Spacing, aLength},
	stagger: {ask.Stagger, aLength}, length: {ask.Long, aLength}, fall: {ask.Drop, aLength}, grade: {ask.Grade, aGrade},
	upper: {ask.Upper, aLength}, lower: {ask.Lower, aLength}, dryFit: {ask.DryFit, aLength}, takeoff: {ask.TakeoffOf, aLength},
	face: {ask.Face, aLength}, depth: {ask.Depth, aLength}, gap: {ask.JointGap, aLength}, radius: {ask.Radius, aLength},
	markAt: {ask.MarkAt, aLength}, trimOff: {ask.TrimOff, aLength},
	angle: {ask.AngleOf, anAngle}, size: {ask.SizeOf, aSize}, schedule: {ask.PipeOf, aSchedule}, term: {ask.Total, aTerm}, off: {ask.Total, aTerm},
	apartSet: {ask.Set, aLength}, apartRoll: {ask.Roll, aLength}, apartRise: {ask.Rise, aLength}, apartFall: {ask.Drop, aLength},
	leg: {ask.Leg, aLength}, otherLeg: {ask.OtherLeg, aLength}, stop: {ask.StopAt, aLength}, otherStop: {ask.OtherStopAt, aLength},
	spigot: {ask.Spigot, aLength}, inlet: {ask.Inlet, aLength}, outlet: {ask.Outlet, aLength}, straight: {ask.Straight, aLength},
	laying: {ask.Laying, aLength}, place: {ask.Place, aLength}, station: {ask.Reading, aLength}, pieces: {"pieces", aCount},
}

// apart says whether a part is one of two readings whose difference counts.
func (p part) apart() bool { return p >= apartSet && p <= apartFall }

// byRole finds the part of a role.
var byRole = func() map[ask.Role]part {
	all := map[ask.Role]part{}
	for p := partCount - 1; p > none; p-- {
		if !p.apart() {
			all[parts[p].role] = p
		}
	}
	return all
}()

// scale is the unit that a bare number is taken to be in.
type scale uint8

const (
	asSaid scale = iota // a unit is said, or none is needed
	inInches
	inMillimeters
	inCentimeters // where the message, or what it changes, has some
	inMeters
	inFeet
	inPercent             // a fall, where the message or what it changes has one in percent
	inMillimetersPerMeter // a fall, where the message has one of those
)

const scaleCount = int(inMillimetersPerMeter) + 1

// label is a part that a measure may take, with the value that it has there.
type label struct {
	part   part
	scale  scale
	method uint8 // 1 + the place among the message's ways of laying the tape; 0: none
	by     reckoning
	said   float64 // what the number itself says, where the value is reckoned with it
	value  float64
	size   catalog.Size
}

// methodParts are those that a tape can be laid to in several ways.
var methodParts = [partCount]bool{set: true, roll: true, rise: true, centerToCenter: true, spacing: true, dryFit: true, run: true, travel: true, length: true}

// labels lists what a measure may be.
func (m *message) labels(x *measure.Measure) []label {
	out := []label{{part: none}}
	for p := set; p < partCount; p++ {
		switch parts[p].sort {
		case aLength:
			out = m.lengths(out, p, x)
		case anAngle:
			if a := angleOf(x); a > 0 {
				out = append(out, label{part: p, value: a})
			}
		case aGrade:
			out = gradeLabels(m, out, p, x)
		case aCount:
			if x.Whole && x.Unit == measure.NoUnit && !x.Plural && x.Number >= 2 && x.Number <= 40 {
				out = append(out, label{part: p, value: x.Number})
			}
		case aSize:
			out = sizeLabels(out, x)
		case aSchedule:
			if x.Whole && x.Unit == measure.NoUnit && m.before(x.From).has("scheduled") {
				out = append(out, label{part: p, value: x.Number})
			}
		case aTerm:
			out = m.lengths(out, p, x)
		}
	}
	return out
}

// mostPercent is the steepest fall that a bare number tells in percent.
const mostPercent = 10

// gradeLabels are the ways in which a measure may be a fall: a bare number is one of inches for
// each foot, or of what another is told in.
func gradeLabels(m *message, out []label, p part, x *measure.Measure) []label {
	if g, ok := gradeOf(x); ok {
		out = append(out, label{part: p, value: g})
	}
	if x.Unit != measure.NoUnit || x.Plural || x.Number <= 0 {
		return out
	}
	if m.hints.percent && x.Number <= mostPercent {
		out = append(out, label{part: p, scale: inPercent, value: x.Number / 100 * 12})
	}
	if m.hints.perMeter && x.Whole && x.Number <= mostPercent*10 {
		out = append(out, label{part: p, scale: inMillimetersPerMeter, value: x.Number / 1000 * 12})
	}
	return out
}

// lengths are the ways in which a measure may be a length for a part: a bare number
// in the units that it may be in, and laid in each way that the message tells.
func (m *message) lengths(out []label, p part, x *measure.Measure) []label {
	if !mayMeasure(x, p) {
		return out
	}
	if x.Unit != measure.NoUnit {
		return m.laid(out, label{part: p, value: x.Inches()})
	}
	out = m.laid(out, label{part: p, scale: inInches, value: x.Number})
	if x.Form == measure.Mixed && m.hints.centimeters && math.Mod(x.Number*2, 1) == 0 {
		return m.laid(out, label{part: p, scale: inCentimeters, value: x.Number / 2.54}) // 24 y medio
	}
	if x.Form == measure.Mixed || x.Form == measure.Fraction {
		return out
	}
	if x.Number >= 2 || p == gap && x.Number >= 0.5 || x.Number == 0 {
		out = m.laid(out, label{part: p, scale: inMillimeters, value: x.Number / 25.4})
	}
	if m.hints.centimeters {
		out = m.laid(out, label{part: p, scale: inCentimeters, value: x.Number / 2.54})
	}
	switch p {
	case upper, lower:
		out = append(out, label{part: p, scale: inFeet, value: x.Number * 12}, label{part: p, scale: inMeters, value: x.Number * 1000 / 25.4})
	case length:
		out = append(out, label{part: p, scale: inMeters, value: x.Number * 1000 / 25.4}, label{part: p, scale: inFeet, value: x.Number * 12})
	}
	return out
}

// mayMeasure says whether a measure may be a length for a part at all: nothing is so long,
// but a gap and a reading of a tape, and in the plural only the spacing of lines is told.
func mayMeasure(x *measure.Measure, p part) bool {
	switch {
	case !x.Length(), x.Number < 0:
		return false
	case x.Plural:
		return x.Number > 0 && p == spacing && namesNoBend(x)
	}
	return x.Number > 0 || p == gapNow || p == station
}

// laid adds a label, and the same for each way of laying the tape that is told.
func (m *message) laid(out []label, l label) []label {
	out = reckonedWith(m, append(out, l), l)
	if !methodParts[l.part] {
		return out
	}
	for i := range m.methods() {
		l.method = uint8(i + 1)
		out = append(out, l)
	}
	return out
}

// way is a way of laying the tape that a message tells, and where.
type way struct {
	from, to int // tokens
	method   ask.Method
}

// methods lists the ways of laying the tape that are told: in one phrase, or by the
// side of the one pipe and the side of the other.
func (m *message) methods() []way {
	if m.ways != nil {
		return m.ways
	}
	m.ways = []way{}
	last := -1
	for i := range m.items {
		it := &m.items[i]
		if v := ask.Method(it.means("method")); v != "" && v != ask.Centers {
			m.ways = append(m.ways, way{it.from, it.to, v})
		}
		if !it.has("side") {
			continue
		}
		if last >= 0 && it.from-m.items[last].to <= 12 {
			for _, v := range sides(m.items[last].means("side"), it.means("side")) {
				m.ways = append(m.ways, way{m.items[last].from, it.to, v})
			}
		}
		last = i
	}
	if len(m.ways) > 6 {
		m.ways = m.ways[:6]
	}
	return m.ways
}

// sides are the ways in which a tape lies from one side to another.
func sides(a, b string) []ask.Method {
	if a > b {
		a, b = b, a
	}
	return sidesOf[[2]string{a, b}]
}

var sidesOf = map[[2]string][]ask.Method{
	{"outside", "outside"}: {ask.OutsideToOutside},
	{"inside", "inside"}:   {ask.InsideToInside},
	{"inside", "outside"}:  {ask.OutsideToInside},
	{"same", "same"}:       {ask.OutsideToInside},
	{"edge", "edge"}:       {ask.OutsideToInside, ask.OutsideToOutside, ask.InsideToInside},
	{"back", "back"}:       {ask.BackToBack, ask.OutsideToInside, ask.OutsideToOutside},
	{"center", "outside"}:  {ask.CenterToOutside},
	{"center", "inside"}:   {ask.CenterToInside},
	{"center", "edge"}:     {ask.CenterToOutside, ask.CenterToInside},
	{"center", "end"}:      {ask.EndToCenter},
	{"center", "face"}:     {ask.CenterToFace},
	{"end", "end"}:         {ask.EndToEnd},
	{"face", "face"}:       {ask.FaceToFace},
}

// angleOf is what a bend of that name turns a line through; 0 where it is none. A
// number over 90 may be the angle that is left between the pipes.
func angleOf(x *measure.Measure) float64 {
	switch x.Unit {
	case measure.NoUnit, measure.Degrees, measure.TurnPart:
	default:
		return 0
	}
	v := x.Number
	if x.Form == measure.Fraction && x.Unit == measure.NoUnit {
		return partOfATurn(v)
	}
	if v > 90 && v < 180 && bendsSold()[geometry.Angle(180-v)] {
		v = 180 - v
	}
	if v <= 0 || v > 90 {
		return 0
	}
	return named(v)
}

// bendsSold are the bends that any pipe has.
var bendsSold = sync.OnceValue(func() map[geometry.Angle]bool {
	all := map[geometry.Angle]bool{}
	for _, s := range catalog.Systems() {
		for _, a := range s.Bends() {
			all[a] = true
		}
	}
	return all
})

// partOfATurn is the bend that is called by its part of a turn, as those of cast iron
// are: 1/8s, a 1/6. It is 0 where none is.
func partOfATurn(v float64) float64 {
	for _, parts := range []float64{4, 5, 6, 8, 16} {
		if math.Abs(v*parts-1) < 1e-9 {
			return 360 / parts
		}
	}
	return 0
}

// named is the angle that the trade means by a number: a 22 is 22-1/2, an 11 11-1/4.
func named(v float64) float64 {
	switch v {
	case 22, 23:
		return 22.5
	case 11, 11.2, 11.3:
		return 11.25
	case 5:
		return 5.625
	}
	return v
}

// gradeOf is a slope in inches for each foot.
func gradeOf(x *measure.Measure) (float64, bool) {
	switch x.Unit {
	case measure.PerFootOf:
		return x.Number, true
	case measure.NoUnit, measure.InchUnit:
		return x.Number, x.Number > 0 && x.Number <= 3 && !x.Plural
	}
	return 0, false
}

// namesNoBend says whether a bare number in the plural is that of no bend that is sold: the
// 12s of lines on 12s, the 110s of three 110s.
func namesNoBend(x *measure.Measure) bool {
	return x.Whole && x.Unit == measure.NoUnit && x.Number >= 2 && !bendsSold()[geometry.Angle(named(x.Number))]
}

// leastPlural is the least metric size that is told in the plural.
const leastPlural = 15

// sizeLabels are the pipe sizes that a measure may be.
func sizeLabels(out []label, x *measure.Measure) []label {
	switch {
	case x.Number <= 0:
		return out
	case x.Plural && x.Number >= leastPlural && namesNoBend(x):
		return append(out, label{part: size, scale: inMillimeters, size: millimeters(x.Number)})
	case x.Plural:
		return out
	}
	switch x.Unit {
	case measure.NominalDia:
		return append(out, label{part: size, size: catalog.Size("DN" + x.Text[strings.IndexAny(x.Text, "0123456789"):])})
	case measure.MM, measure.CM:
		return append(out, label{part: size, size: millimeters(x.Inches() * 25.4)})
	case measure.NoUnit, measure.InchUnit:
	default:
		return out
	}
	tape := geometry.Length(x.Number).Tape(geometry.ThirtySeconds)
	if x.Number <= 72 && math.Abs((tape.Length()-geometry.Length(x.Number)).Inches()) < 1e-9 && math.Mod(x.Number*8, 1) == 0 {
		out = append(out, label{part: size, scale: inInches, size: catalog.Size(tape.String())})
	}
	if x.Unit == measure.NoUnit && x.Number >= 6 && x.Number <= 1200 && (x.Whole || x.Form == measure.Plain || x.Form == measure.CommaPoint) {
		out = append(out, label{part: size, scale: inMillimeters, size: millimeters(x.Number)})
	}
	return out
}

// millimeters is the name of a metric size.
func millimeters(v float64) catalog.Size {
	return catalog.Size(strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) + " mm")
}
