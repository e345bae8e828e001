package sketch

import (
	"cmp"
	"math"
	"slices"

	"dogleg/geometry"
)

// The widths of lines, in points, and how dashes go.
const (
	edgeWide   = 5.0 // around pipes and fittings
	thinWide   = 4.0
	centerWide = 3.0
	thickWide  = 8.0
	cutWide    = 9.0
	hookWide   = 14.0
)

var (
	dashed       = []float64{20, 14}
	centerDashed = []float64{34, 10, 8, 10}
)

// leastWide is how wide a band is drawn at least, whatever the scale.
func (p Part) leastWide() float64 {
	switch p {
	case StandingPipe, ComesOff:
		return 20
	case PipePiece:
		return 22
	case FittingBody:
		return 24
	case FittingHub:
		return 34
	case Solid, Blade, Doubt:
	}
	return 0
}

func (p Part) ink() ink {
	switch p {
	case PipePiece:
		return black
	case FittingBody, FittingHub:
		return gray
	case ComesOff:
		return pale
	case Solid:
		return slate
	case StandingPipe, Blade, Doubt:
	}
	return white
}

// band draws a band in two strokes: a black one, and on it a narrower one that
// leaves its edges free. It is shorter too, but for an end that goes on.
func (l *layout) band(b Band) {
	points := l.spots(b.Points)
	wide := max(b.Width.Inches()*l.scale, b.Part.leastWide())
	l.add(item{points: points, ink: black, width: wide})
	inner := shortened(points, trimmed(b.Open[0]), trimmed(b.Open[1]))
	l.add(item{points: inner, ink: b.Part.ink(), width: wide - 2*edgeWide})
	if b.Part == Solid { // words may lie on an obstacle, and some are of it, but not on its edge
		edge := outline(points, wide/2)
		l.inTheWay(append(edge, edge[0]), edgeWide/2, hiding(edgeWide/2))
		return
	}
	l.inTheWay(points, wide/2, hiding(wide/2))
}

// circle draws a pipe cut across, no smaller than a band of its part is wide.
func (l *layout) circle(c Circle) {
	const parts = 48
	radius, center := max(c.Radius.Inches()*l.scale, c.Part.leastWide()*0.7), l.spot(c.Center)
	for _, disk := range []struct {
		radius float64
		ink    ink
	}{{radius, black}, {radius - edgeWide, c.Part.ink()}} {
		var points []spot
		for n := range parts {
			sin, cos := math.Sincos(2 * math.Pi * float64(n) / parts)
			points = append(points, center.plus(disk.radius*cos, disk.radius*sin))
		}
		l.add(item{points: points, closed: true, ink: disk.ink})
	}
	l.inTheWay([]spot{center.plus(-radius, 0), center.plus(radius, 0)}, radius, hiding(radius))
}

// trimmed is how much shorter the inner stroke of a band is at an end; at one
// that goes on it covers the edge.
func trimmed(open bool) float64 {
	if open {
		return -2
	}
	return edgeWide
}

// shortened is a line without so much at its two ends; less than nothing makes
// it longer. One that is no longer than that is its middle.
func shortened(points []spot, begin, end float64) []spot {
	front := beheaded(points, begin)
	slices.Reverse(front)
	front = beheaded(front, end)
	slices.Reverse(front)
	return front
}

// beheaded is a line without so much of its beginning, walked along it.
func beheaded(points []spot, off float64) []spot {
	rest := slices.Clone(points)
	for len(rest) > 2 && rest[0].far(rest[1]) <= off {
		off -= rest[0].far(rest[1])
		rest = rest[1:]
	}
	if len(rest) > 1 {
		rest[0] = rest[0].toward(rest[0].unit(rest[1]), min(off, rest[0].far(rest[1])/2))
	}
	return rest
}

// hatch draws slanting lines over a stretch, inside of its edges.
func (l *layout) hatch(h Hatch) {
	const apart = 15.0
	wide := max(h.Width.Inches()*l.scale, FittingBody.leastWide()) - 2*edgeWide
	outline := outline(shortened(l.spots(h.Points), edgeWide, edgeWide), wide/2)
	// A line is x + y = c; those that meet the stretch lie between its corners'.
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range outline {
		low, high = min(low, p.x+p.y), max(high, p.x+p.y)
	}
	for c := math.Ceil(low/apart) * apart; c < high; c += apart {
		for ends := range slices.Chunk(slanting(outline, c), 2) {
			l.add(item{points: ends, ink: red, width: thinWide})
		}
	}
}

// outline is the corners around a line that is so wide to either side.
func outline(points []spot, half float64) []spot {
	var there, back []spot
	for i, p := range points {
		along := points[max(i-1, 0)].unit(points[min(i+1, len(points)-1)])
		across := spot{-along.y, along.x}
		there, back = append(there, p.toward(across, half)), append(back, p.toward(across, -half))
	}
	slices.Reverse(back)
	return append(there, back...)
}

// slanting is where the line x + y = c goes into an area and out of it, in the
// order of X.
func slanting(outline []spot, c float64) []spot {
	var ends []spot
	for i, p := range outline {
		q := outline[(i+1)%len(outline)]
		u, v := p.x+p.y-c, q.x+q.y-c
		if (u < 0) != (v < 0) {
			ends = append(ends, p.toward(spot{q.x - p.x, q.y - p.y}, u/(u-v)))
		}
	}
	slices.SortFunc(ends, func(p, q spot) int { return cmp.Compare(p.x, q.x) })
	return ends
}

// line draws a line as its stroke says.
func (l *layout) line(line Line) {
	i := item{points: l.spots(line.Points), ink: black, width: thinWide}
	switch line.Stroke {
	case CenterStroke:
		i.width, i.dashes = centerWide, centerDashed
	case DashStroke:
		i.dashes = dashed
	case ThickStroke:
		i.width = thickWide
	case CutStroke:
		i.width, i.ink = cutWide, red
	case HookStroke:
		i.width = hookWide
	case ThinStroke:
	}
	l.add(i)
	cost := hiding(i.width / 2)
	switch line.Stroke {
	case CutStroke:
		cost *= 4
	case DashStroke, CenterStroke: // which words may break
		cost /= 2
	case ThinStroke, ThickStroke, HookStroke:
	}
	l.inTheWay(i.points, i.width/2, cost)
}

// arc draws an arc, and wants its words outside of the middle of it, or else
// beside its beginning, out of the angle.
func (l *layout) arc(a Arc) placing {
	const parts = 24
	center := l.spot(a.Center)
	var points []spot
	for n := range parts + 1 {
		points = append(points, l.spot(a.Center.Toward(at(a.Start+a.Sweep/parts*geometry.Angle(n)), a.Radius)))
	}
	l.add(item{points: points, ink: black, width: thinWide})
	l.inTheWay(points, thinWide/2, hiding(thinWide/2))
	half := points[parts/2]
	off, base := center.unit(half), center.unit(points[0])
	away := spot{-base.y, base.x}
	if a.Sweep < 0 {
		away = spot{base.y, -base.x}
	}
	return placing{
		text: a.Label, at: half, off: off, gap: 10, along: spot{-off.y, off.x}, size: figureSize, ink: black, close: true,
		other: &placing{text: a.Label, at: points[0], off: away, gap: 14, along: base, close: true},
	}
}

// label wants a place for words.
func (l *layout) label(b Label) placing {
	p := placing{
		text: b.Text, at: l.spot(b.At), off: spot{b.Side.X, -b.Side.Y}, gap: 12,
		along: spot{b.Side.Y, b.Side.X}, size: figureSize, ink: black,
	}
	switch b.Size {
	case Large:
		p.size = largeSize
	case Small:
		p.size = smallSize
	case Tiny:
		p.size, p.gap = tinySize, 4
	case Figure:
	}
	if b.away > 0 {
		p.gap = b.away
	}
	if b.Main {
		p.ink = red
	}
	return p
}
