package sketch

import "io"

// Chart is how an apprentice did, by kind of problem: a bar for each, as long as
// there were problems and black as far as they were right. Like a [Drawing] it is data first.
type Chart struct {
	Title string
	Bars  []ChartBar
}

// ChartBar is one bar of a chart, Right of Asked of it black.
type ChartBar struct {
	Label        string
	Right, Asked int
}

// PNG writes the chart as a PNG image, 1080 points across.
func (c *Chart) PNG(w io.Writer) error {
	r := newRuler()
	p := page{wide: pageWide, high: margin}
	p.paragraph(r, c.Title, largeSize, black)
	most := c.most()
	for _, b := range c.Bars {
		p.high += between
		p.paragraph(r, b.Label, figureSize, black)
		p.chartBar(b, most)
	}
	p.high += margin
	return p.png(w)
}

// most is how many problems the longest bar stands for.
func (c *Chart) most() int {
	most := 1
	for _, b := range c.Bars {
		most = max(most, b.Asked)
	}
	return most
}

// widestProblem is how wide one problem is drawn at most, so that one that was
// right doesn't look like much, and leastProblem at least for lines between them.
const (
	widestProblem = 160.0
	leastProblem  = 24.0
)

// chartBar adds a bar below what is there, as long as there were problems: a box
// for each, black where it was right.
func (p *page) chartBar(b ChartBar, most int) {
	p.high += barEdge * 2
	one := min(widestProblem, (p.wide-2*margin)/float64(most))
	frame := box{margin, p.high, margin + one*float64(b.Asked), p.high + barHigh}
	inside := frame.grown(-barEdge)
	s := strip{}
	s.rectangle(frame, black)
	s.rectangle(inside, white)
	if b.Right > 0 {
		right := inside
		right.right = min(inside.right, margin+one*float64(b.Right))
		s.rectangle(right, black)
	}
	for n := 1; n < b.Asked && one >= leastProblem; n++ {
		line := item{ink: gray, width: barEdge}
		x := margin + one*float64(n)
		line.points = []spot{{x, inside.top}, {x, inside.bottom}}
		s.items = append(s.items, line)
	}
	p.items = append(p.items, s.items...)
	p.high += barHigh
}
