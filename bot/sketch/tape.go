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

// How much of the tape is shown to each side of the mark: the usual, in inches
// and in millimeters, and the most where the mark may be far out.
const (
	stripReach       = 0.62 * geometry.Inch
	stripReachMetric = 14 * geometry.Millimeter
	stripMost        = 2.2 * geometry.Inch
)

// strip is a strip of tape with the mark on it, of the figure that is said
// first; false where that is nothing to be found on a tape. What lies between
// the strip and the tape's end is left out.
func (s sketcher) strip() (View, bool) {
	l, ok := s.marked()
	if !ok {
		return View{}, false
	}
	mark, lean := wording.Reading(s.answer, l, s.options)
	band := s.doubt(l)
	c := s.scale()
	reach := min(stripMost, max(c.reach, max(l.Length-mark, mark-l.Length)+1.2*band))
	begin := max(0, mark-reach)
	t := blade{begin, begin + 2*reach, reach * 0.64}
	v := View{Name: "tape", high: 400}
	middle := -t.wide / 2
	v.Bands = append(v.Bands, Band{Blade, []Point{{t.begin, middle}, {t.end, middle}}, t.wide, [2]bool{begin > 0, true}})
	high := 0.28 * t.wide
	if band > 0 {
		high = 0.6 * t.wide
		s.doubtOn(&v, t, l.Length, band)
	}
	t.ticksOn(&v, c)
	v.Lines = append(v.Lines, Line{CutStroke, []Point{{mark, high}, {mark, -c.foot() * t.wide}}})
	if lean != geometry.OnMark {
		v.Lines = append(v.Lines, t.leaning(mark, lean))
	}
	v.Labels = append(v.Labels, Label{At: Point{mark, high}, Side: up, Text: wording.Label(s.answer, l, s.options), Main: true})
	t.figuresOn(&v, c, mark)
	t.endOn(&v, s.hookedOn(l.Role))
	return v, true
}

// doubtOn shows from where to where the mark may have to go once the fitting is
// measured.
func (s sketcher) doubtOn(v *View, t blade, exact, band geometry.Length) {
	y := t.wide / 9
	low, high := Point{max(exact-band, t.begin), y}, Point{min(exact+band, t.end), y}
	v.Bands = append(v.Bands, Band{Doubt, []Point{low, high}, 2 * y, [2]bool{}})
	v.Hatches = append(v.Hatches, Hatch{[]Point{low, high}, 2 * y})
	text := s.say(wordUnmeasured) + " " + wording.Within(band, s.options)
	v.Labels = append(v.Labels, Label{At: Point{(low.X + high.X) / 2, 2 * y}, Side: up, Text: text, Size: Small})
}

// blade is the piece of tape that is shown, with its edge at zero and so wide
// below it: wider than a real one, for the ticks to be long.
type blade struct{ begin, end, wide geometry.Length }

// leaning is an arrow head on the line of the mark, on the side on which what is
// heavy or light lies.
func (t blade) leaning(mark geometry.Length, lean geometry.Lean) Line {
	side := geometry.Length(1)
	if lean == geometry.Light {
		side = -1
	}
	tip := Point{mark + side*t.wide/5, t.wide / 7}
	back := Point{tip.X - side*t.wide/12, 0}
	return Line{CutStroke, []Point{{mark, tip.Y}, tip, {back.X, tip.Y + t.wide/12}, tip, {back.X, tip.Y - t.wide/12}}}
}

// doubt is how far the mark may be out, either way.
func (s sketcher) doubt(l figure.Length) geometry.Length {
	switch l.Role {
	case parser.Cut, parser.PipeLength, parser.EndGap, parser.MarkAt:
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

// scale is how a tape is divided: its smallest part, and how long the mark is
// at each multiple of it, the coarsest first, as a part of the blade's width.
type scale struct {
	part  geometry.Length
	marks []tick
	every int // parts from one figure to the next
	whole int // a figure is one more for so many parts
	small int // parts from one small figure to the next, near the mark
	reach geometry.Length
	name  func(part int) string // of the mark between two figures
}

type tick struct {
	every int // parts
	long  geometry.Length
}

// foot is where the longest mark ends, as a part of the blade's width.
func (c scale) foot() geometry.Length { return c.marks[0].long }

func (s sketcher) scale() scale {
	if s.options.Metric {
		return scale{
			part: geometry.Millimeter, marks: []tick{{10, 0.54}, {5, 0.34}, {1, 0.22}},
			every: 10, whole: 1, small: 1, reach: stripReachMetric,
			name: strconv.Itoa,
		}
	}
	d := int(cmp.Or(s.options.Division, geometry.Sixteenths))
	c := scale{
		part:  geometry.Inch / geometry.Length(d),
		every: d, whole: d, small: max(1, d/int(geometry.Sixteenths)), reach: stripReach,
	}
	for long := geometry.Length(0.54); d > 0; d, long = d/2, long*0.8 {
		c.marks = append(c.marks, tick{d, long})
	}
	c.name = func(part int) string {
		fraction := geometry.Length(part%c.every) * c.part
		return fraction.Tape(geometry.Division(c.every)).String()
	}
	return c
}

// at is the longest mark that a part has.
func (c scale) at(part int) tick {
	for _, t := range c.marks {
		if part%t.every == 0 {
			return t
		}
	}
	return c.marks[len(c.marks)-1]
}

// parts is from which part of the tape to which the blade shows.
func (t blade) parts(c scale) (first, last int) {
	return int(math.Ceil(float64(t.begin/c.part) - 1e-9)), int(math.Floor(float64(t.end/c.part) + 1e-9))
}

// ticksOn draws the marks of the tape; whole inches and centimeters stand out.
func (t blade) ticksOn(v *View, c scale) {
	first, last := t.parts(c)
	for n := first; n <= last; n++ {
		tick, stroke := c.at(n), ThinStroke
		if tick == c.marks[0] {
			stroke = ThickStroke
		}
		x := geometry.Length(n) * c.part
		v.Lines = append(v.Lines, Line{stroke, []Point{{x, 0}, {x, -tick.long * t.wide}}})
	}
}

// figuresOn writes the name of the mark, the whole inches or centimeters, and on
// a strip that leaves room for them the parts near the mark.
func (t blade) figuresOn(v *View, c scale, mark geometry.Length) {
	at := int(math.Round(float64(mark / c.part)))
	if at%c.every != 0 {
		v.Labels = append(v.Labels, Label{At: Point{mark, -t.wide * (c.foot() + 0.1)}, Text: c.name(at), Main: true})
	}
	small := c.small
	if t.end-t.begin > 2.05*c.reach {
		small *= 2
	}
	first, last := t.parts(c)
	for n := first; n <= last; n++ {
		p := Point{geometry.Length(n) * c.part, -t.wide * 0.86}
		switch near := max(n-at, at-n); {
		case n%c.every == 0 && n > 0 && p.X-t.begin > c.edge() && t.end-p.X > c.edge():
			v.Labels = append(v.Labels, Label{At: p, Text: strconv.Itoa(n / c.whole), Main: n == at})
		case n%c.every != 0 && n%small == 0 && near > 0 && near <= mostNear*c.small && t.end-t.begin <= 3*c.reach:
			p.Y = -t.wide * (c.at(n).long + 0.06)
			v.Labels = append(v.Labels, Label{At: p, Text: strconv.Itoa(n % c.every / c.small), Size: Tiny})
		}
	}
}

// mostNear is how many marks to either side of the one that is meant are counted
// in figures.
const mostNear = 4

// edge is how near to an end of the blade no figure has room.
func (c scale) edge() geometry.Length { return c.reach / 14 }

// endOn draws the end of the tape with its hook, where nothing lies between it
// and the strip; else apart, broken off.
func (t blade) endOn(v *View, hooked string) {
	zero := Point{t.begin, 0}
	if t.begin > 0 {
		zero.X -= t.wide * 0.62
		middle := -t.wide / 2
		v.Bands = append(v.Bands, Band{Blade, []Point{{zero.X, middle}, {zero.X + t.wide*0.4, middle}}, t.wide, [2]bool{false, true}})
	}
	v.Lines = append(v.Lines, Line{HookStroke, []Point{{zero.X, t.wide * 0.14}, {zero.X, -t.wide}}})
	v.Labels = append(
		v.Labels,
		Label{At: Point{zero.X + t.wide*0.14, -t.wide * 0.86}, Text: "0"},
		Label{At: Point{zero.X + t.wide*0.2, t.wide * 0.14}, Side: up, Text: hooked, Size: Small},
	)
}

// hookedOn says what the end of the tape is laid on, where that is plain.
func (s sketcher) hookedOn(r parser.Role) string {
	switch r {
	case parser.Cut, parser.PipeLength, parser.TrimOff:
		return s.say(wordPipeEnd)
	case parser.MarkAt:
		trim, _ := s.answer.Length(parser.TrimOff)
		if mark, _ := s.answer.Length(r); mark == trim {
			return s.say(wordPipeEnd) // else it is on the tape that was read
		}
	case parser.Start:
		return s.say(wordFace)
	}
	return ""
}
