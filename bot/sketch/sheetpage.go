package sketch

import (
	"io"
	"math"
	"time"
)

// The rows of a sheet flow into as many columns as it takes, each as wide as a
// phone's picture. On paper more columns are smaller ones. A picture is scrolled
// through, and has more than one only where it would get too high to be shown.
const (
	paperWide, paperHigh = 612.0, 792.0 // Letter, in points of print
	paperColumn          = pageWide * paperHigh / paperWide
	pictureHigh          = 6000.0
	mostColumns          = 6
)

// The bar of a stick, in points.
const (
	barHigh   = 56.0
	barEdge   = 4.0
	boxSide   = 34.0
	boxIndent = 56.0
	largeRow  = 60.0 // the size of what is large in a row
	columnGap = 28.0
)

// PNG writes the sheet as a PNG image, as high as what is on it. The error is
// [ErrTooLarge] where that is more than a picture holds.
func (s *Sheet) PNG(w io.Writer) error {
	return s.laid(func(int) float64 { return pictureHigh }).png(w)
}

// PDF writes the sheet as one page of Letter paper. When is written into the
// file as the time it was made.
func (s *Sheet) PDF(w io.Writer, when time.Time) error {
	return s.laid(onPaper).pdf(w, s.Title, when)
}

// strip is a part of a column: words and lines that stay together.
type strip struct {
	high  float64
	items []item
}

// laid is the sheet on a page, the title over the columns; high is how high the
// page may be with so many.
func (s *Sheet) laid(high func(columns int) float64) page {
	r := newRuler()
	strips := s.strips(r)
	columns := columnsFor(strips, high)
	p := page{wide: pageWide * float64(columns), high: margin}
	p.paragraph(r, s.Title, titleSize, red)
	p.paragraph(r, s.Under, smallSize, black)
	p.high += between
	p.flow(strips, columns)
	p.high += margin
	return p
}

// strips are the rows of the sheet one after the other. A heading stays with the
// first row under it.
func (s *Sheet) strips(r ruler) []strip {
	var all []strip
	for _, b := range s.Blocks {
		heading := words(r, b.Heading, figureSize, 0, between)
		columns := columnsOf(r, b.Rows)
		for i, row := range b.Rows {
			next := row.strip(r, columns)
			if i == 0 {
				next = heading.over(next)
			}
			all = append(all, next)
		}
		if len(b.Rows) == 0 {
			all = append(all, heading)
		}
	}
	for i, line := range s.Foot {
		above := 0.0
		if i == 0 {
			above = between
		}
		all = append(all, words(r, line, smallSize, 0, above))
	}
	return all
}

// over is a strip with another one below it, as one.
func (s strip) over(below strip) strip {
	for _, i := range below.items {
		s.items = append(s.items, i.moved(0, s.high))
	}
	s.high += below.high
	return s
}

// words are lines of words from an indent on, with some space above.
func words(r ruler, text string, size, indent, above float64) strip {
	s := page{wide: pageWide - indent, high: above}
	s.paragraph(r, text, size, black)
	for i := range s.items {
		s.items[i] = s.items[i].moved(indent, 0)
	}
	return strip{s.high, s.items}
}

// columns are where the parts of the rows of a block begin, from the left of
// their column of the page: what is large, and the words.
type columns struct{ large, words float64 }

// columnsOf is where the parts begin so that none runs into the next.
func columnsOf(r ruler, rows []Row) columns {
	number, large := 0.0, 0.0
	for _, row := range rows {
		if row.Large != "" {
			number, large = max(number, r.wide(row.Number, smallSize)), max(large, r.wide(row.Large, largeRow))
		}
	}
	at := boxIndent + number + columnGap
	return columns{at, at + large + columnGap}
}

// strip lays a row out.
func (row Row) strip(r ruler, at columns) strip {
	if row.Large != "" {
		return row.withLarge(r, at)
	}
	s := words(r, row.Text, smallSize, 0, between/3)
	if row.Bar != nil {
		s.bar(r, *row.Bar)
	}
	return s
}

// withLarge lays out a row that is read from afar: what is large in it, with its
// box and its number before it. The words stand beside it where they have room,
// else below.
func (row Row) withLarge(r ruler, at columns) strip {
	s := words(r, row.Large, largeRow, at.large, between/3)
	base := s.items[0].points[0].y
	s.items = append(s.items, item{points: []spot{{margin + boxIndent, base}}, text: row.Number, size: smallSize, ink: black})
	if row.Box != NoBox {
		s.box(row.Box, base)
	}
	if r.wide(row.Text, smallSize) <= pageWide-2*margin-at.words {
		s.items = append(s.items, item{points: []spot{{margin + at.words, base}}, text: row.Text, size: smallSize, ink: black})
		return s
	}
	return s.over(words(r, row.Text, smallSize, at.large, 0))
}

// box draws a box on the line that words stand on: a frame, and filled where the
// piece is done.
func (s *strip) box(b Box, base float64) {
	top := base - boxSide
	s.rectangle(box{margin, top, margin + boxSide, top + boxSide}, black)
	if b == OpenBox {
		s.rectangle(box{margin, top, margin + boxSide, top + boxSide}.grown(-barEdge), white)
	}
}

// bar draws a stick under a row: the pieces black, what is left white, the kerfs
// red, and under each of them what the tape reads there.
func (s *strip) bar(r ruler, b Bar) {
	s.high += between / 4
	scale := (pageWide - 2*margin) / b.Stock.Inches()
	x := func(at float64) float64 { return margin + at*scale }
	whole := box{margin, s.high, pageWide - margin, s.high + barHigh}
	s.rectangle(whole, black)
	s.rectangle(whole.grown(-barEdge), white)
	var rows readings
	for _, c := range b.Cuts {
		end := c.From + c.Long
		piece := box{x(c.From.Inches()), whole.top, x(end.Inches()), whole.bottom}
		s.rectangle(piece, black)
		s.inside(r, piece, c.Label, c.Number)
		cut := item{
			points: []spot{{piece.right, whole.top - barEdge}, {piece.right, whole.bottom + barEdge}},
			ink:    red, width: max(barEdge, b.Kerf.Inches()*scale),
		}
		if c.At != "" {
			at, row := rows.place(piece.right, r.wide(c.At, smallSize))
			base := whole.bottom + (float64(row)+capHigh+0.3)*smallSize*lineHigh
			s.items = append(s.items, item{points: []spot{{at, base}}, text: c.At, size: smallSize, ink: red})
			cut.points[1].y = base - capHigh*smallSize - barEdge
		}
		s.items = append(s.items, cut)
	}
	s.high += barHigh
	if len(rows) > 0 {
		s.high += (float64(len(rows)) + 0.3) * smallSize * lineHigh
	}
}

// readings are the rows of figures under a bar, by how far to the right each of
// them reaches.
type readings []float64

// place finds room for a figure in the middle of a spot, or as near to it as the
// page goes, in the first row that has any.
func (r *readings) place(middle, wide float64) (left float64, row int) {
	left = min(max(margin, middle-wide/2), pageWide-margin-wide)
	for row < len(*r) && (*r)[row]+columnGap/2 > left {
		row++
	}
	if row == len(*r) {
		*r = append(*r, 0)
	}
	(*r)[row] = left + wide
	return left, row
}

// inside writes the first of some labels that has room into the middle of a black
// piece.
func (s *strip) inside(r ruler, b box, labels ...string) {
	for _, size := range []float64{figureSize, smallSize} {
		for _, text := range labels {
			if wide := r.wide(text, size); wide+4*barEdge <= b.wide() {
				at := spot{(b.left + b.right - wide) / 2, (b.top+b.bottom)/2 + size*capHigh/2}
				s.items = append(s.items, item{points: []spot{at}, text: text, size: size, ink: white})
				return
			}
		}
	}
}

func (s *strip) rectangle(b box, color ink) {
	s.items = append(s.items, item{
		points: []spot{{b.left, b.top}, {b.right, b.top}, {b.right, b.bottom}, {b.left, b.bottom}},
		closed: true, ink: color,
	})
}

// columnsFor is the least number of columns in which the strips are no higher
// than the page may be.
func columnsFor(strips []strip, high func(columns int) float64) int {
	for n := 1; n < mostColumns; n++ {
		if filled(strips, n) <= high(n)-4*margin-titleSize-2*smallSize {
			return n
		}
	}
	return mostColumns
}

// filled is how high n columns must be to hold the strips in order.
func filled(strips []strip, n int) float64 {
	total, highest := 0.0, 0.0
	for _, s := range strips {
		total += s.high
		highest = max(highest, s.high)
	}
	for high := max(total/float64(n), highest); ; high += highest / 2 {
		if columns, _ := flowed(strips, high); columns <= n {
			return high
		}
	}
}

// flowed is how many columns of a height the strips take, and the column and
// the height at which each of them stands.
func flowed(strips []strip, high float64) (int, []spot) {
	column, at := 0, 0.0
	var places []spot
	for _, s := range strips {
		if at+s.high > high && at > 0 {
			column, at = column+1, 0
		}
		places = append(places, spot{float64(column), at})
		at += s.high
	}
	return column + 1, places
}

// flow puts the strips into the columns, below what is there.
func (p *page) flow(strips []strip, columns int) {
	high := filled(strips, columns)
	_, places := flowed(strips, high)
	bottom := 0.0
	for i, s := range strips {
		for _, it := range s.items {
			p.items = append(p.items, it.moved(places[i].x*pageWide, p.high+places[i].y))
		}
		bottom = math.Max(bottom, places[i].y+s.high)
	}
	p.high += bottom
}
