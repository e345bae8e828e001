package sketch

import (
	"cmp"
	"math"
	"strconv"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/geometry"
	"dogleg/parser"
)

// How much of the tape is shown to each side of the mark: the usual, and the
// most where the mark may be far out.
const (
	stripReach = 1.2 * geometry.Inch
	stripMost  = 2.2 * geometry.Inch
)

// strip is a strip of tape with the mark on it, of the figure that is said
// first; false where that is nothing to be found on a tape.
func (s sketcher) strip() (View, bool) {
	l, ok := s.marked()
	if !ok {
		return View{}, false
	}
	where, band := s.reading(l), s.doubt(l)
	exact := l.Length
	reach := min(stripMost, max(stripReach, 1.3*band))
	begin := max(0, where-reach)
	t := blade{begin, begin + 2*reach, reach * 2 / 3}
	v := View{Name: "tape", high: 330}
	middle := -t.wide / 2
	v.Bands = append(v.Bands, Band{Blade, []Point{{t.begin, middle}, {t.end, middle}}, t.wide, [2]bool{begin > 0, true}})
	high := 0.3 * t.wide
	if band > 0 {
		low, high := Point{max(exact-band, t.begin), t.wide / 10}, Point{min(exact+band, t.end), t.wide / 10}
		v.Bands = append(v.Bands, Band{Doubt, []Point{low, high}, t.wide / 5, [2]bool{}})
		v.Hatches = append(v.Hatches, Hatch{[]Point{low, high}, t.wide / 5})
	}
	s.ticksOn(&v, t)
	v.Lines = append(v.Lines, Line{CutStroke, []Point{{where, high}, {where, -t.wide * 0.62}}})
	v.Labels = append(v.Labels, Label{At: Point{where, high}, Side: up, Text: wording.Label(s.answer, l, s.options), Size: Large, Main: true})
	return v, true
}

// blade is the piece of tape that is shown, with its edge at zero and so wide
// below it: wider than a real one, for the ticks to be long.
type blade struct{ begin, end, wide geometry.Length }

// doubt is how far the mark may be out, either way.
func (s sketcher) doubt(l figure.Length) geometry.Length {
	switch l.Role {
	case parser.Cut, parser.EndGap, parser.MarkAt:
		if s.unsure() {
			return s.answer.Band
		}
	}
	return 0
}

// marked is the length to be found on the tape.
func (s sketcher) marked() (figure.Length, bool) {
	switch s.answer.Kind {
	case parser.Sum:
		return figure.Length{Role: parser.Total, Length: s.answer.Sum.Length}, !s.answer.Sum.Plain && s.answer.Sum.Length > 0
	case parser.Trim, parser.Multiplier, parser.Takeoff, parser.Miter, parser.Saddle, parser.Riser:
		return figure.Length{}, false
	case parser.Unstated, parser.Offset, parser.Fit, parser.Piece, parser.Mark,
		parser.Parallel, parser.Around, parser.Fall, parser.Check,
		parser.Corner, parser.Wrap, parser.Doglegs:
	}
	if long, ok := s.answer.Length(parser.PipeLength); ok && s.answer.Main == parser.Cut {
		return figure.Length{Role: parser.PipeLength, Length: long}, true
	}
	for _, l := range s.answer.Lengths {
		if l.Role == s.answer.Main {
			return l, l.Length > 0
		}
	}
	return figure.Length{}, false
}

// reading is where the arrow points: at the exact length, which shows how heavy
// or light it is; a clearance, which is rounded to the safe side, and a cut
// that is left long, at the mark that is printed.
func (s sketcher) reading(l figure.Length) geometry.Length {
	left := wording.LeftLong(s.answer, l)
	if !l.Up && left == 0 {
		return l.Length
	}
	round := math.Ceil
	if left < 0 {
		round = math.Floor
	}
	mark := geometry.Inch / geometry.Length(max(s.options.Division, geometry.Sixteenths))
	if s.options.Metric {
		mark = geometry.Millimeter
	}
	sure := math.Copysign(1e-9, left.Inches())
	return geometry.Length(round(float64((l.Length+left)/mark)-sure)) * mark
}

// scale is how a tape is divided: its smallest part, and how long the mark is
// at each multiple of it, the coarsest first, as a part of the blade's width.
type scale struct {
	part  geometry.Length
	marks []tick
	every int // parts from one figure to the next
	write func(parts int) string
}

type tick struct {
	every int // parts
	long  geometry.Length
}

func (s sketcher) scale() scale {
	if s.options.Metric {
		return scale{
			geometry.Millimeter,
			[]tick{{10, 0.5}, {5, 0.32}, {1, 0.2}},
			20,
			func(parts int) string { return strconv.Itoa(parts) },
		}
	}
	d := int(cmp.Or(s.options.Division, geometry.Sixteenths))
	c := scale{part: geometry.Inch / geometry.Length(d), every: d}
	for long := geometry.Length(0.56); d > 0; d, long = d/2, long*0.8 {
		c.marks = append(c.marks, tick{d, long})
	}
	c.write = func(parts int) string { return strconv.Itoa(parts / c.every) }
	return c
}

// ticksOn draws the marks of the tape, and its figures.
func (s sketcher) ticksOn(v *View, t blade) {
	c := s.scale()
	for n := int(math.Ceil(float64(t.begin/c.part) - 1e-9)); geometry.Length(n)*c.part <= t.end+1e-9; n++ {
		x := geometry.Length(n) * c.part
		for _, tick := range c.marks {
			if n%tick.every == 0 {
				v.Lines = append(v.Lines, Line{weightOf(tick, c), []Point{{x, 0}, {x, -tick.long * t.wide}}})
				break
			}
		}
		if n%c.every == 0 && n > 0 {
			v.Labels = append(v.Labels, Label{At: Point{x, -t.wide * 0.8}, Text: c.write(n), Size: c.size(n)})
		}
	}
}

// weightOf lets whole inches and centimeters stand out.
func weightOf(t tick, c scale) Stroke {
	if t == c.marks[0] {
		return ThickStroke
	}
	return ThinStroke
}

// size is how large a figure is written: smaller where it has many digits.
func (c scale) size(n int) Size {
	if len(c.write(n)) > 3 {
		return Small
	}
	return Figure
}
