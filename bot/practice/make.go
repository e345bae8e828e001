package practice

import (
	"errors"
	"math"
	"slices"
	"sync"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Source is where chance comes from; *rand.Rand is one.
type Source interface {
	IntN(n int) int // from 0 up to, but not n, which is more than 0
}

// ErrNoSuchBend says that no pipe here turns by that angle.
var ErrNoSuchBend = errors.New("practice: no such bend")

// mostTries is how often a problem is made anew until it is sound. About one in
// two is.
const mostTries = 1000

// Make makes a sound problem of a kind; angle 0 is any bend. The error is
// [ErrNoSuchBend].
func Make(k Kind, angle geometry.Angle, chance Source) (Problem, error) {
	return made(k, angle, chance, func(p Problem) Problem { return p })
}

// made is Make of problems told in a unit.
func made(k Kind, angle geometry.Angle, chance Source, told func(Problem) Problem) (Problem, error) {
	if angle != 0 && !slices.Contains(Angles(), angle) {
		return Problem{}, ErrNoSuchBend
	}
	for range mostTries {
		if p := told(draw(k, angle, chance)); p.sound() {
			return p, nil
		}
	}
	return Problem{}, ErrNoSuchBend
}

// line is one size of a system of pipe that problems are about.
type line struct {
	system catalog.System
	size   catalog.Size
	bends  []geometry.Angle // that an offset can be made with
}

// lines are the pipe of the problems: sizes that an apprentice meets, joined
// without a gap, so that a takeoff is all there is to take off.
var lines = sync.OnceValue(func() []line {
	var all []line
	for _, s := range catalog.Systems() {
		if s.Metric || s.Gap().Length != 0 || s.Joint == catalog.Hub {
			continue
		}
		for _, size := range s.Sizes() {
			l := line{system: s, size: size}
			l.bends = l.offsetBends()
			if slices.Contains(usualSizes, size) && len(l.bends) > 0 {
				all = append(all, l)
			}
		}
	}
	return all
})

var usualSizes = []catalog.Size{"1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "3", "4"}

// offsetBends are the bends that an offset can be made with. A 90 is none here:
// its run is nothing.
func (l line) offsetBends() []geometry.Angle {
	var angles []geometry.Angle
	for _, a := range l.system.Bends() {
		if _, ok := l.takeoff(catalog.BendOf(a)); ok && a < geometry.QuarterBend && a > 10 {
			angles = append(angles, a)
		}
	}
	return angles
}

// takeoff is that of a fitting on the tape. The pattern in the catalog may be
// off; for a problem it only has to be of the right size.
func (l line) takeoff(f catalog.Fitting) (geometry.Length, bool) {
	if !l.system.Has(f) {
		return 0, false
	}
	t, ok := l.system.Takeoff(f, l.size)
	if f.Shape == catalog.Tee && t.Evidence == catalog.Derived {
		return 0, false // as a 90: what a problem is posed with stands in a table
	}
	onTape := t.Length.Tape(geometry.Sixteenths).Length()
	return onTape, ok && onTape > 0
}

// draw draws a problem by lot; whether it is sound remains to be seen.
func draw(k Kind, angle geometry.Angle, chance Source) Problem {
	choices := lines()
	if angle == 0 && k.Turns() {
		// 45s as often as on site, but every bend in its turn.
		bends := append(Angles(), geometry.EighthBend)
		angle = bends[chance.IntN(len(bends))]
	}
	if fits := k.fits(); fits != nil {
		choices = slices.DeleteFunc(slices.Clone(choices), func(l line) bool { return !fits(l) })
	}
	if angle != 0 {
		choices = slices.DeleteFunc(slices.Clone(choices), func(l line) bool { return !slices.Contains(l.bends, angle) })
	}
	l := choices[chance.IntN(len(choices))]
	p := Problem{Kind: k, System: l.system.ID, Size: l.size}
	switch k {
	case Piece:
		p.drawPiece(l, chance)
	case Fall:
		p.drawFall(chance)
	case Branch:
		p.drawBranch(l, chance)
	case TwoAngles:
		p.drawTwoAngles(l, chance)
	case Travel, Cut, EndGap, Rolling, Stagger, Trimming, Marking:
		p.drawOffset(l, catalog.BendOf(angle), chance)
	}
	return p
}

// fits says which pipe a kind is about; nil is any.
func (k Kind) fits() func(line) bool {
	switch k {
	case Fall:
		return func(l line) bool { return l.system.Use == catalog.DWV }
	case Branch:
		return func(l line) bool { return l.system.Use == catalog.DWV && slices.Contains(l.bends, geometry.EighthBend) }
	case TwoAngles:
		return func(l line) bool { return len(l.bends) > 1 }
	case Travel, Cut, EndGap, Rolling, Piece, Stagger, Trimming, Marking:
	}
	return nil
}

func (p *Problem) drawOffset(l line, bend catalog.Fitting, chance Source) {
	p.Fittings = [2]catalog.Fitting{bend, bend}
	if p.Kind == Cut || p.Kind == EndGap || p.Kind == Rolling || p.Kind == Marking {
		t, _ := l.takeoff(bend)
		p.Takeoffs = [2]geometry.Length{t, t}
	}
	// The travel stays under 4 ft, whatever the bend.
	longest := min(30, int(48*bend.Angle.Sin()))
	switch {
	case p.Kind == Rolling:
		p.Roll, p.Rise = eighths(2, longest*2/3, chance), eighths(2, longest*2/3, chance)
	default:
		p.Set = eighths(2, longest, chance)
	}
	switch p.Kind {
	case Stagger:
		p.Spacing = eighths(4, 24, chance)
	case Trimming:
		p.Dry = p.Set + eighths(1, 3, chance)
		p.System, p.Size = "", "" // of whatever pipe
	case Marking:
		p.Apart = eighths(1, 24, chance)
	case Travel, Cut, EndGap, Rolling, Piece, Fall, Branch, TwoAngles:
	}
}

// drawBranch draws a line that leaves a wye and is turned back by a 45. The wye's
// takeoff is made up, of the size that one has: from once to one and a half times
// the pipe's outside. None is in the catalog.
func (p *Problem) drawBranch(l line, chance Source) {
	bend := catalog.BendOf(geometry.EighthBend)
	p.Fittings = [2]catalog.Fitting{{Shape: catalog.Wye}, bend}
	t, _ := l.takeoff(bend)
	d, _ := l.system.Dimensions(l.size)
	sixteenths := int(d.Outside.Inches() * 16)
	p.Takeoffs = [2]geometry.Length{geometry.Length(sixteenths+chance.IntN(sixteenths/2+1)) / 16, t}
	p.Set = eighths(4, 30, chance)
}

// drawTwoAngles draws an offset with two bends that differ: the travel goes by the
// first, and each has a takeoff of its own.
func (p *Problem) drawTwoAngles(l line, chance Source) {
	first := chance.IntN(len(l.bends))
	second := (first + 1 + chance.IntN(len(l.bends)-1)) % len(l.bends)
	for end, n := range []int{first, second} {
		p.Fittings[end] = catalog.BendOf(l.bends[n])
		p.Takeoffs[end], _ = l.takeoff(p.Fittings[end])
	}
	p.Set = eighths(2, min(30, int(48*p.Fittings[0].Angle.Sin())), chance)
}

func (p *Problem) drawPiece(l line, chance Source) {
	p.Centers = eighths(8, 60, chance)
	choices := []catalog.Fitting{
		catalog.BendOf(geometry.QuarterBend), catalog.BendOf(geometry.EighthBend), {Shape: catalog.Tee}, {Shape: catalog.SanitaryTee},
	}
	choices = slices.DeleteFunc(choices, func(f catalog.Fitting) bool { _, ok := l.takeoff(f); return !ok })
	for end := range p.Fittings {
		p.Fittings[end] = choices[chance.IntN(len(choices))]
		p.Takeoffs[end], _ = l.takeoff(p.Fittings[end])
	}
}

// drawFall draws a drain of whole feet, at a grade that its size may have: 1/8
// per foot only from 3 in up (IPC Table 704.1).
func (p *Problem) drawFall(chance Source) {
	p.Long = geometry.Length(12 * (6 + chance.IntN(75)))
	grades := []geometry.Slope{geometry.InchPerFoot / 4, geometry.InchPerFoot / 2}
	if p.Size == "3" || p.Size == "4" {
		grades = append(grades, geometry.InchPerFoot/8)
	}
	p.Grade = grades[chance.IntN(len(grades))]
}

// inMillimeters is a problem as a metric tape would have it: lengths on five
// millimeters, takeoffs on one, a drain in whole meters at a grade that is one in
// so many.
func (p Problem) inMillimeters() Problem {
	on := func(l geometry.Length, mark float64) geometry.Length {
		return geometry.Length(math.Round(l.Millimeters()/mark)*mark) * geometry.Millimeter
	}
	for _, l := range []*geometry.Length{&p.Set, &p.Roll, &p.Rise, &p.Centers, &p.Spacing, &p.Dry, &p.Apart} {
		*l = on(*l, 5)
	}
	for end := range p.Takeoffs {
		p.Takeoffs[end] = on(p.Takeoffs[end], 1)
	}
	p.Long = on(p.Long, 1000)
	switch perFoot := p.Grade.InchesPerFoot(); {
	case perFoot == 0:
	case perFoot > 0.3:
		p.Grade = geometry.OneIn(40)
	case perFoot > 0.2:
		p.Grade = geometry.OneIn(60)
	default:
		p.Grade = geometry.OneIn(80)
	}
	p.Metric = true
	return p.ofMetricPipe()
}

// metricPipe are systems of metric pipe that problems are told of, with the size that
// stands for one in inches: what is sold beside it, common practice.
var metricPipe = []struct {
	system string
	sizes  map[catalog.Size]catalog.Size
}{
	{"copper-metric", map[catalog.Size]catalog.Size{
		"1/2": "15 mm", "3/4": "22 mm", "1": "28 mm", "1-1/4": "35 mm", "1-1/2": "42 mm", "2": "54 mm",
	}},
	{"pvc-soil-solvent", map[catalog.Size]catalog.Size{
		"1-1/4": "40 mm", "1-1/2": "50 mm", "2": "63 mm", "3": "90 mm", "4": "110 mm",
	}},
	{"pvc-metric", map[catalog.Size]catalog.Size{
		"1/2": "20 mm", "3/4": "25 mm", "1": "32 mm", "1-1/4": "40 mm", "1-1/2": "50 mm", "2": "63 mm", "3": "90 mm", "4": "110 mm",
	}},
}

// ofMetricPipe is a problem of metric pipe, where some has all its fittings: of one of
// the same material before any other. Takeoffs stay what the problem says.
func (p Problem) ofMetricPipe() Problem {
	was, _ := catalog.SystemByID(p.System)
	for _, alike := range []bool{true, false} {
		for _, m := range metricPipe {
			s, ok := catalog.SystemByID(m.system)
			size := m.sizes[p.Size]
			if !ok || size == "" || (s.Material == was.Material) != alike || !s.HasSize(size) || s.Use == catalog.Pressure && p.Kind == Fall {
				continue
			}
			has := func(f catalog.Fitting) bool { return f.Shape == "" || s.Has(f) }
			if has(p.Fittings[0]) && has(p.Fittings[1]) {
				p.System, p.Size = s.ID, size
				return p
			}
		}
	}
	return p
}

// eighths draws a length from one number of inches to another, on an eighth.
func eighths(from, to int, chance Source) geometry.Length {
	return geometry.Length(from) + geometry.Length(chance.IntN(8*(to-from)+1))/8
}

// How far figures have to lie apart so that a reply within the tolerance of
// one can't be within that of another.
const (
	fromRight = geometry.Inch * 3 / 8
	fromSlip  = geometry.Inch * 3 / 16
)

// sound says whether a problem can be posed: it can be built, both ways to its
// answer agree, and no slip hides behind the right answer or another slip.
func (p Problem) sound() bool {
	answer, err := figure.Solve(p.Ask(), figure.Settings{})
	if err != nil || answer.System.ID != p.System {
		return false
	}
	if _, clears := answer.Length(parser.Cut); !clears && answer.Unmeasured == nil && p.Kind.Turns() && p.Kind != Trimming {
		return false
	}
	figured, ok := answer.Length(p.Wanted())
	if !ok || !same(figured, p.Figure()) || figured < smallest(p.Kind) {
		return false
	}
	return p.telling() && !p.misleading()
}

// misleading says whether a problem could be taken for another: a piece
// between two 45s reads as the set of an offset, center to center; and with
// roll and rise alike nobody can tell which of them was forgotten.
func (p Problem) misleading() bool {
	eighth := catalog.BendOf(geometry.EighthBend)
	return p.Kind == Piece && p.Fittings == [2]catalog.Fitting{eighth, eighth} ||
		p.Kind == Rolling && p.Roll == p.Rise
}

// smallest is the smallest answer that is asked for.
func smallest(k Kind) geometry.Length {
	switch k {
	case Stagger, Fall:
		return geometry.Inch / 2
	case Trimming, Marking:
		return geometry.Inch
	case Travel, Cut, EndGap, Rolling, Piece, Branch, TwoAngles:
	}
	return 2 * geometry.Inch
}

// telling says whether each of the commonest slips can be told from the right answer
// and from every other of them. Two-place multipliers need not: where they make no difference
// on the tape, they are right.
func (p Problem) telling() bool {
	slips := slices.DeleteFunc(p.slips(p.common()), func(s slipped) bool { return s.slip == TwoPlaces })
	for i, s := range slips {
		if apart(s.figure, p.Figure()) < fromRight {
			return false
		}
		for _, other := range slips[:i] {
			if other.slip != s.slip && apart(s.figure, other.figure) < fromSlip {
				return false
			}
		}
	}
	return true
}

func apart(a, b geometry.Length) geometry.Length {
	return geometry.Length(math.Abs((a - b).Inches()))
}
