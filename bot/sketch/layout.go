package sketch

import (
	"math"
	"strings"
)

// The page, in points.
const (
	pageWide = 1080.0
	margin   = 36.0
	between  = 34.0  // one view and the next
	viewHigh = 480.0 // the most a view takes without its words, where it doesn't say
)

// laid is a drawing with every line and word at its place on a page.
func (d *Drawing) laid() page {
	r := newRuler()
	p := page{wide: pageWide, high: margin}
	p.paragraph(r, d.Title, titleSize, red)
	p.paragraph(r, d.Understood, smallSize, black)
	for _, v := range d.Views {
		p.high += between
		if v.Over != "" {
			p.paragraph(r, v.Over, smallSize, black)
			p.high += between / 2
		}
		p.view(r, v)
		if len(v.Caption) > 0 {
			p.high += between / 2
		}
		for _, line := range v.Caption {
			p.paragraph(r, line, smallSize, black)
		}
	}
	p.high += margin
	return p
}

// paragraph adds words below what is there.
func (p *page) paragraph(r ruler, text string, size float64, color ink) {
	for _, line := range r.wrapped(text, size, p.wide-2*margin) {
		p.high += size * lineHigh
		at := spot{margin, p.high - size*(lineHigh-1)*1.6}
		p.items = append(p.items, item{points: []spot{at}, text: line, size: size, ink: color})
	}
}

// view adds a view below what is there, in the middle.
func (p *page) view(r ruler, v View) {
	l := fitted(r, v, p.wide-2*margin)
	x := p.wide/2 - (l.bounds.left+l.bounds.right)/2
	y := p.high - l.bounds.top
	for _, i := range l.items {
		p.items = append(p.items, i.moved(x, y))
	}
	p.high += l.bounds.high()
}

// fitted lays a view out as large as it can be. How wide it gets with its words
// is known only when they stand, so it is tried, smaller each time.
func fitted(r ruler, v View, wide float64) *layout {
	high := v.high
	if high == 0 {
		high = viewHigh
	}
	real := v.bounds()
	scale := min((wide-2*hookWide)/max(real.wide(), 1e-6), high/max(real.high(), 1e-6)) // lines stick out
	l := laidOut(r, v, scale, setting{1, false}, wide)
	narrower := func(s setting) {
		if other := laidOut(r, v, scale, s, wide); other.bounds.wide() < l.bounds.wide() {
			l = other
		}
	}
	for range 10 {
		if l.bounds.wide() > wide {
			narrower(setting{1, true})
		}
		if l.bounds.wide() <= wide {
			return l
		}
		scale *= 0.88
		narrower(setting{1, false})
	}
	// The words alone are too wide: they have to be smaller, and find other places.
	for letters := 0.95; letters > 0.5 && l.bounds.wide() > wide; letters -= 0.05 {
		narrower(setting{letters, true})
	}
	return l
}

// bounds is the extent of what is drawn, in inches.
func (v View) bounds() box {
	inches := &layout{scale: 1}
	b := nothing()
	for _, band := range v.Bands {
		b = b.around(inches.spots(band.Points), band.Width.Inches()/2)
	}
	for _, c := range v.Circles {
		b = b.with(box{
			c.Center.X.Inches() - c.Radius.Inches(), -c.Center.Y.Inches() - c.Radius.Inches(),
			c.Center.X.Inches() + c.Radius.Inches(), -c.Center.Y.Inches() + c.Radius.Inches(),
		})
	}
	for _, line := range v.Lines {
		b = b.around(inches.spots(line.Points), 0)
	}
	return b
}

// layout is a view on its way to a page, at one scale. Its own origin is that of
// the view.
type layout struct {
	ruler ruler
	scale float64 // points to the inch
	setting
	wide   float64 // all there is
	items  []item
	bounds box
	solid  []stroke // that words should not lie on
	words  []box    // and not at all on each other
}

// setting is how words are set: by how much they and the rows of dimensions are
// smaller than usual, and whether those beside a thing are rather in narrow lines
// than in long ones.
type setting struct {
	letter float64
	narrow bool
}

// stroke is something straight with a width that is in the way of words: its
// corners, with a little around it.
type stroke struct {
	ends    [2]spot
	along   spot // its direction
	corners []spot
	within  box     // that holds them
	cost    float64 // of words that lie on it
}

// free is how much words keep off a stroke.
const free = 4.0

func strokeOf(from, to spot, half, cost float64) stroke {
	along := from.unit(to)
	ends := []spot{from.toward(along, -free), to.toward(along, free)}
	corners := outline(ends, half+free)
	return stroke{[2]spot{from, to}, along, corners, nothing().around(corners, 0), cost}
}

// What it costs to lie on the line of a dimension, which would read as if the
// words were of it, and on a line to the ends of one.
const (
	onDimension = 5000.0
	onWitness   = 70.0
	pastAnother = 400.0 // to stand beyond the line of another dimension
)

// hiding is what it costs to lie on anything else that is so wide to either side.
func hiding(half float64) float64 { return 60 + 6*min(half, 40) }

// meets says whether the stroke comes into a box. Two rectangles are apart where
// a line along a side of either parts them.
func (s stroke) meets(b box) bool {
	if !s.within.meets(b) {
		return false
	}
	sides := [4]spot{{b.left, b.top}, {b.right, b.top}, {b.right, b.bottom}, {b.left, b.bottom}}
	for _, axis := range [2]spot{s.along, {-s.along.y, s.along.x}} {
		low, high := shadow(s.corners, axis)
		from, to := shadow(sides[:], axis)
		if high < from || to < low {
			return false
		}
	}
	return true
}

// shadow is from where to where spots lie, measured in a direction.
func shadow(spots []spot, d spot) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range spots {
		at := p.x*d.x + p.y*d.y
		low, high = min(low, at), max(high, at)
	}
	return low, high
}

// laidOut lays a view out at one scale and one setting of words. Words come last:
// everything else stays where it is, they move.
func laidOut(r ruler, v View, scale float64, s setting, wide float64) *layout {
	l := &layout{ruler: r, scale: scale, setting: s, wide: wide, bounds: nothing()}
	for _, b := range v.Bands {
		l.band(b)
	}
	for _, c := range v.Circles {
		l.circle(c)
	}
	for _, h := range v.Hatches {
		l.hatch(h)
	}
	for _, line := range v.Lines {
		l.line(line)
	}
	var wanted, others []placing
	for _, label := range v.Labels {
		if label.away > 0 {
			wanted = append(wanted, l.label(label))
		} else {
			others = append(others, l.label(label))
		}
	}
	dimensions := l.dimensions(v.Dimensions)
	for _, a := range v.Arcs { // whose words have the fewest places
		wanted = append(wanted, l.arc(a))
	}
	wanted = append(wanted, dimensions...)
	for _, w := range append(wanted, others...) {
		if w.text != "" {
			w.size *= s.letter
			l.place(w)
		}
	}
	return l
}

// spot is where a point comes to lie.
func (l *layout) spot(p Point) spot {
	return spot{p.X.Inches() * l.scale, -p.Y.Inches() * l.scale}
}

func (l *layout) spots(points []Point) []spot {
	spots := make([]spot, len(points))
	for i, p := range points {
		spots[i] = l.spot(p)
	}
	return spots
}

// add puts an item down and keeps account of the room it takes.
func (l *layout) add(i item) {
	l.items = append(l.items, i)
	l.bounds = l.bounds.around(i.points, i.width/2)
}

// inTheWay notes that words should keep off a line, and what it costs if they
// don't.
func (l *layout) inTheWay(points []spot, half, cost float64) {
	for i := 1; i < len(points); i++ {
		l.solid = append(l.solid, strokeOf(points[i-1], points[i], half, cost))
	}
}

// placing is words that want a place: beside a spot, off it in a direction.
type placing struct {
	text  string
	at    spot
	off   spot    // direction
	gap   float64 // how far off it
	along spot    // a direction in which they may slide
	size  float64
	ink   ink
	close bool     // they mean nothing farther off
	keeps bool     // they don't stand past the line of another dimension, if there is room
	other *placing // where else they may stand, at a cost
}

// broken breaks words into lines where a reading in feet begins.
func broken(text string) []string { return strings.Split(strings.ReplaceAll(text, " (", "\n("), "\n") }

// block is words in lines, one under the other.
type block struct {
	lines      []string
	wide, high float64
}

func (l *layout) block(lines []string, size float64) block {
	b := block{lines: lines, high: size * (capHigh + descent + lineHigh*float64(len(lines)-1))}
	for _, line := range lines {
		b.wide = max(b.wide, l.ruler.wide(line, size))
	}
	return b
}

// shapes are the ways to set words, the better first: as they are, and in
// narrower lines where that saves much.
func (l *layout) shapes(p placing) []block {
	whole := l.block(broken(p.text), p.size)
	if whole.wide < 4.5*p.size {
		return []block{whole}
	}
	narrow := l.block(l.ruler.wrapped(p.text, p.size, 0.7*whole.wide), p.size)
	switch {
	case len(narrow.lines) == len(whole.lines):
		return []block{whole}
	case l.narrow && abs(p.off.x) > 0.3: // else they lie over or under it
		return []block{narrow, whole}
	}
	return []block{whole, narrow}
}

// place finds the place where words hide the least, the nearest of the best,
// and puts them there on a patch of white.
func (l *layout) place(p placing) {
	var best block
	var where box
	least := math.Inf(1)
	shapes := l.shapes(p)
	try := func(p placing, extra float64) {
		for step := 0; step < usualSteps || step < mostSteps && least >= onDimension; step++ {
			for lines, shape := range shapes {
				for _, slide := range []float64{0, 1, -1, 2, -2, 3, -3, 5, -5} {
					cost := extra + 25*float64(lines) + 10*float64(step) + 2*float64(step*step) + 12*abs(slide)
					if p.close {
						cost += 4*float64(step*step) + 12*abs(slide)
					}
					if cost >= least {
						continue
					}
					b := p.box(shape, further(step)*p.size, slide*0.6*p.size)
					if p.keeps && l.past(p, b) {
						cost += pastAnother
					}
					if cost += l.cost(b, least-cost); cost < least {
						best, where, least = shape, b, cost
					}
				}
			}
		}
	}
	for at, extra := &p, 0.0; at != nil; at, extra = at.other, extra+elsewhere {
		at.size = p.size
		try(*at, extra)
	}
	l.write(p, best, where)
}

// patch is how far the white under words reaches past them.
const patch = 5.0

// elsewhere is what it costs to stand at the second of two spots.
const elsewhere = 40.0

// How many places off a thing are looked at: the usual, and the most, where all
// of those lie on other words.
const (
	usualSteps = 16
	mostSteps  = 60
	onWords    = 1e6 // the cost of hiding other words, above all else
)

// further is how far words have moved off at a step, as a part of their size:
// little at first, then across the page.
func further(step int) float64 { return 0.25*float64(step) + 0.03*float64(step*step) }

// box is where words of this size lie, moved so far further off and along.
func (p placing) box(b block, away, slide float64) box {
	reach := 0.0
	if p.off != (spot{}) {
		reach = abs(p.off.x)*b.wide/2 + abs(p.off.y)*b.high/2 + p.gap
		slide += cornered * (sign(p.off.x)*p.along.x*b.wide + sign(p.off.y)*p.along.y*b.high) / 2
	}
	c := p.at.toward(p.off, reach+away).toward(p.along, slide)
	return box{c.x - b.wide/2, c.y - b.high/2, c.x + b.wide/2, c.y + b.high/2}
}

// cornered is how far words beside a slanting line are from having their middle
// square off the spot, where their corner comes near to the ends of the line, to
// having that corner there.
const cornered = 0.85

// sign is -1, 0 or 1; what is as good as nothing is 0.
func sign(x float64) float64 {
	if abs(x) < 1e-6 {
		return 0
	}
	return math.Copysign(1, x)
}

func abs(x float64) float64 { return max(x, -x) }

// past says whether the line of a dimension parts words in a box from what they
// are of.
func (l *layout) past(p placing, b box) bool {
	near, far := p.at.toward(p.off, p.gap/2), spot{(b.left + b.right) / 2, (b.top + b.bottom) / 2}
	for _, s := range l.solid {
		if s.cost >= onDimension && crossing(near, far, s.ends[0], s.ends[1]) {
			return true
		}
	}
	return false
}

// crossing says whether the way from a to b crosses that from c to d.
func crossing(a, b, c, d spot) bool {
	left := func(p, q, r spot) bool { return (q.x-p.x)*(r.y-p.y) > (q.y-p.y)*(r.x-p.x) }
	return left(a, b, c) != left(a, b, d) && left(c, d, a) != left(c, d, b)
}

// cost is how much is hidden by words in a box, other words being the worst, and
// how far the box would take the view over its width. It is not counted past
// enough.
func (l *layout) cost(b box, enough float64) float64 {
	cost := 20 * max(0, l.bounds.with(b.grown(patch)).wide()-max(l.wide, l.bounds.wide()))
	for _, w := range l.words {
		if b.grown(8).meets(w) {
			cost += onWords
		}
	}
	for _, s := range l.solid {
		if cost >= enough {
			break
		}
		if s.meets(b) {
			cost += s.cost
		}
	}
	return cost
}

func (l *layout) write(p placing, words block, b box) {
	patch := b.grown(patch)
	l.words = append(l.words, b)
	l.add(item{closed: true, ink: white, points: []spot{
		{patch.left, patch.top}, {patch.right, patch.top}, {patch.right, patch.bottom}, {patch.left, patch.bottom},
	}})
	for i, line := range words.lines {
		x := b.left + (words.wide-l.ruler.wide(line, p.size))/2
		y := b.top + p.size*(capHigh+lineHigh*float64(i))
		l.add(item{points: []spot{{x, y}}, text: line, size: p.size, ink: p.ink})
	}
}
