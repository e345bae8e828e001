package sketch

// How a dimension is drawn, in points.
const (
	firstRow  = 40.0 // the first row lies this far off
	nextRow   = 88.0 // and each further one this much more
	witness   = 12.0 // how far the lines to its ends run on past it
	arrowLong = 26.0
	arrowWide = 18.0
	outward   = 44.0 // how far the line goes on where its arrows stand outside
)

// dimensions draws dimensions, what is cut on top of the others and with the
// first choice of a place for its words.
func (l *layout) dimensions(all []Dimension) []placing {
	var main, others []placing
	for _, d := range all {
		if !d.Main {
			others = append(others, l.dimension(d))
		}
	}
	for _, d := range all {
		if d.Main {
			main = append(main, l.dimension(d))
		}
	}
	return append(main, others...)
}

// dimension draws a dimension, and wants its words on the far side of it.
func (l *layout) dimension(d Dimension) placing {
	along := spot{d.direction().X, -d.direction().Y}
	side := spot{along.y, -along.x} // to the left, as it is seen
	off := side
	if d.Row <= 0 {
		off = spot{-side.x, -side.y}
	}
	through := l.spot(d.Through).toward(off, l.letter*rowOff(d.Row))
	color, size := black, figureSize
	if d.Main {
		color, size = red, mainSize
	}
	ends := [2]spot{}
	for i, p := range []Point{d.From, d.To} {
		measured := l.spot(p)
		ends[i] = foot(measured, through, along)
		if measured.far(ends[i]) > 1 {
			beyond := ends[i].toward(measured.unit(ends[i]), witness)
			l.add(item{points: []spot{measured, beyond}, ink: color, width: centerWide})
			l.inTheWay([]spot{measured, beyond}, centerWide/2, onWitness)
		}
	}
	l.arrows(ends[0], ends[1], color)
	words := placing{
		text: d.Label, at: middle(ends[0], ends[1]), off: off, gap: 18, along: along, size: size, ink: color, keeps: true,
	}
	if d.Axis == Along && !d.Main {
		words.other = &placing{text: d.Label, at: ends[1], off: off, gap: 18, along: along, ink: color, keeps: true}
	}
	return words
}

func rowOff(row int) float64 {
	if row == 0 {
		return 0
	}
	return firstRow + nextRow*(abs(float64(row))-1)
}

// foot is where the line through a spot, in a direction, comes nearest to p.
func foot(p, through, along spot) spot {
	return through.toward(along, (p.x-through.x)*along.x+(p.y-through.y)*along.y)
}

// arrows draws the line between two spots, its arrows inside, or outside where
// there is no room.
func (l *layout) arrows(p, q spot, color ink) {
	d := p.unit(q)
	inside := p.far(q) > 2.6*arrowLong
	from, to := p, q
	if !inside {
		from, to = p.toward(d, -outward), q.toward(d, outward)
	}
	l.add(item{points: []spot{from, to}, ink: color, width: thinWide})
	l.inTheWay([]spot{from, to}, arrowWide/2, onDimension)
	for _, tip := range []struct {
		at    spot
		sense float64
	}{{p, 1}, {q, -1}} {
		if !inside {
			tip.sense = -tip.sense
		}
		base := tip.at.toward(d, tip.sense*arrowLong)
		across := spot{-d.y, d.x}
		l.add(item{closed: true, ink: color, points: []spot{
			tip.at, base.toward(across, arrowWide/2), base.toward(across, -arrowWide/2),
		}})
	}
}
