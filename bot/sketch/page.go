package sketch

import "math"

// page is a picture ready to be put down: areas, lines and words in points,
// from the upper left corner, Y down. What is listed later lies on top.
type page struct {
	wide, high float64
	items      []item
}

// item is a line, an area or a line of words.
type item struct {
	points []spot
	closed bool // an area, filled
	ink    ink
	width  float64   // of a line
	dashes []float64 // on and off; none is a whole line

	text string // where this is words: at points[0], the left end of the line they stand on
	size float64
}

// spot is a place on a page.
type spot struct{ x, y float64 }

func (p spot) plus(x, y float64) spot { return spot{p.x + x, p.y + y} }

// toward is p moved so many points.
func (p spot) toward(d spot, far float64) spot { return spot{p.x + d.x*far, p.y + d.y*far} }

// unit is the direction from p to q, of length 1; to the right where they are
// one.
func (p spot) unit(q spot) spot {
	x, y := q.x-p.x, q.y-p.y
	size := math.Hypot(x, y)
	if size == 0 {
		return spot{1, 0}
	}
	return spot{x / size, y / size}
}

func (p spot) far(q spot) float64 { return math.Hypot(q.x-p.x, q.y-p.y) }

func middle(p, q spot) spot { return spot{(p.x + q.x) / 2, (p.y + q.y) / 2} }

// ink is one of the few colors.
type ink struct{ r, g, b uint8 }

// The inks: black on white, for the sun. Red is for what is cut, gray for what
// is sold ready made.
var (
	white = ink{255, 255, 255}
	black = ink{0, 0, 0}
	red   = ink{196, 0, 24}
	gray  = ink{204, 204, 204}
	pale  = ink{236, 236, 236}
	slate = ink{148, 148, 148}
)

// box is a rectangle on a page.
type box struct{ left, top, right, bottom float64 }

// nothing is a box that any other one widens.
func nothing() box {
	return box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
}

func (b box) wide() float64 { return b.right - b.left }
func (b box) high() float64 { return b.bottom - b.top }

// around is b, widened to hold a line that is so wide to either side.
func (b box) around(points []spot, half float64) box {
	hold := func(spots []spot) {
		for _, p := range spots {
			b = box{min(b.left, p.x), min(b.top, p.y), max(b.right, p.x), max(b.bottom, p.y)}
		}
	}
	hold(points)
	for n := 1; n < len(points) && half > 0; n++ {
		hold(outline(points[n-1:n+1], half))
	}
	return b
}

func (b box) with(c box) box {
	return box{min(b.left, c.left), min(b.top, c.top), max(b.right, c.right), max(b.bottom, c.bottom)}
}

func (b box) grown(by float64) box {
	return box{b.left - by, b.top - by, b.right + by, b.bottom + by}
}

func (b box) meets(c box) bool {
	return b.left < c.right && c.left < b.right && b.top < c.bottom && c.top < b.bottom
}

// moved is an item somewhere else on the page.
func (i item) moved(x, y float64) item {
	points := make([]spot, len(i.points))
	for n, p := range i.points {
		points[n] = p.plus(x, y)
	}
	i.points = points
	return i
}
