package sketch

import (
	"math"

	"dogleg/geometry"
)

// The widths of lines, in points, and how dashes go.
const (
	edgeWide   = 5.0 // around pipes and fittings
	thinWide   = 4.0
	centerWide = 3.0
	thickWide  = 8.0
	cutWide    = 9.0
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
	inner := append([]spot{}, points...)
	if n := len(inner); n > 1 {
		inner[0] = points[0].toward(points[0].unit(points[1]), trimmed(b.Open[0]))
		inner[n-1] = points[n-1].toward(points[n-1].unit(points[n-2]), trimmed(b.Open[1]))
	}
	l.add(item{points: inner, ink: b.Part.ink(), width: wide - 2*edgeWide})
	l.inTheWay(points, wide/2)
	l.spread(points, wide/2)
}

// trimmed is how much shorter the inner stroke of a band is at an end; at one
// that goes on it covers the edge.
func trimmed(open bool) float64 {
	if open {
		return -2
	}
	return edgeWide
}

// spread widens the bounds to hold a band.
func (l *layout) spread(points []spot, half float64) {
	for _, p := range points {
		l.bounds = l.bounds.holding(p, half)
	}
}

// hatch draws slanting lines over a stretch.
func (l *layout) hatch(h Hatch) {
	const apart = 15.0
	from, to := l.spot(h.From), l.spot(h.To)
	wide := max(h.Width.Inches()*l.scale, StandingPipe.leastWide())
	along := from.unit(to)
	across := spot{-along.y, along.x}
	corners := []spot{
		from.toward(across, wide/2), to.toward(across, wide/2),
		to.toward(across, -wide/2), from.toward(across, -wide/2),
	}
	// A line is x + y = c; those that meet the stretch lie between its corners'.
	low, high := math.Inf(1), math.Inf(-1)
	for _, c := range corners {
		low, high = min(low, c.x+c.y), max(high, c.x+c.y)
	}
	for c := math.Ceil(low/apart) * apart; c < high; c += apart {
		if ends := slanting(corners, c); len(ends) == 2 {
			l.add(item{points: ends, ink: red, width: thinWide})
		}
	}
}

// slanting is where the line x + y = c comes into a rectangle and leaves it.
func slanting(corners []spot, c float64) []spot {
	var ends []spot
	for i, p := range corners {
		q := corners[(i+1)%len(corners)]
		u, v := p.x+p.y-c, q.x+q.y-c
		if (u < 0) != (v < 0) {
			ends = append(ends, p.toward(spot{q.x - p.x, q.y - p.y}, u/(u-v)))
		}
	}
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
	case ThinStroke:
	}
	l.add(i)
	l.inTheWay(i.points, i.width/2)
}

// arc draws an arc, and wants its words outside of the middle of it.
func (l *layout) arc(a Arc) placing {
	const parts = 24
	center := l.spot(a.Center)
	var points []spot
	for n := range parts + 1 {
		points = append(points, l.spot(a.Center.Toward(at(a.Start+a.Sweep/parts*geometry.Angle(n)), a.Radius)))
	}
	l.add(item{points: points, ink: black, width: thinWide})
	l.inTheWay(points, thinWide/2)
	half := points[parts/2]
	off := center.unit(half)
	return placing{
		text: a.Label, at: half, off: off, gap: 10, along: spot{-off.y, off.x}, size: figureSize, ink: black,
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
	case Figure:
	}
	if b.Main {
		p.ink = red
	}
	return p
}
