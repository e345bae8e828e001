package wording

import (
	"math"
	"slices"
	"strings"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// read reads an ask back in the words of the trade: "set 12, two 45s, 1-1/2
// PVC DWV". The system and size are those that were settled on; where none
// was, the pipe is read as far as it was said.
func (o Options) read(ask parser.Ask, system catalog.System, size catalog.Size) string {
	if ask.Sum != nil {
		return arithmetic(*ask.Sum)
	}
	parts := make([]string, 0, len(ask.Measures)+mostBeside)
	for _, m := range ask.Measures {
		if toldWith(m.Role, ask) {
			continue
		}
		parts = append(parts, o.measure(m))
	}
	if ask.Lines > 0 {
		parts = append(parts, o.say("lines", "number", decimals(float64(ask.Lines), 0)))
	}
	parts = append(parts, o.rackSaid(ask), o.term(string(ask.Lie)), o.turn(ask), o.grade(ask.Grade))
	parts = append(parts, o.endsGiven(ask.Ends)...)
	parts = append(parts, o.beside(ask)...)
	parts = append(parts, o.pipe(ask.Pipe, system, size))
	return strings.Join(spoken(parts), ", ")
}

// mostBeside is how much is read back beside measures: lines, bend, grade, ends, pipe.
const mostBeside = 6

// toldWith says whether a measure is read back with what it belongs to: an end, or what
// stands in the travel.
func toldWith(r parser.Role, ask parser.Ask) bool {
	if r == parser.Laying || r == parser.Place {
		return len(ask.Inline) > 0
	}
	return ofTheFitting(r) && ask.Ends != ([2]parser.End{})
}

// ofTheFitting tells apart the measures of a fitting, which are read back with
// the end that they belong to.
func ofTheFitting(r parser.Role) bool {
	return r == parser.TakeoffOf || r == parser.Face || r == parser.Depth
}

// spoken drops what there was nothing to say of.
func spoken(parts []string) []string {
	said := make([]string, 0, len(parts))
	for _, p := range parts {
		if p != "" {
			said = append(said, p)
		}
	}
	return said
}

// measure reads one measure back: "13-7/8 outside to outside" with its role.
func (o Options) measure(m parser.Measure) string {
	if feet := m.Length.Feet(); m.Role == parser.Long && feet >= 3 && feet == math.Trunc(feet) && (!o.Metric || m.Unit() == parser.Inches) && !m.Unit().Metric() && !decimalFeet.MatchString(m.Text) {
		return o.role(m.Role, o.say("feet", "number", decimals(feet, 0)))
	}
	text, plainer := o.said("said "+string(m.Role), "length", o.statedOf(m))
	if !plainer {
		text = o.role(m.Role, o.statedOf(m))
	}
	switch {
	case o.terse && m.Role == parser.GapNow:
		text = o.say("now apart", "length", o.statedOf(m))
	case o.terse && m.Role == parser.Reach && (m.Method == "" || m.Method == parser.Centers):
		text = o.say("out", "length", o.statedOf(m))
	}
	if m.Apart && strings.Contains(m.Text, "−") {
		text += " (" + m.Text + ")"
	}
	if m.Method == "" || m.Method == parser.Centers {
		return text
	}
	return text + " " + o.method(m.Method)
}

// role puts a length into the words for its role: "set 12", "ends 14-3/4
// apart". A role that has no words of its own is not a length; the length
// then stands alone.
func (o Options) role(r parser.Role, length string) string {
	if text, ok := o.said("role "+string(r), "length", length); ok {
		return text
	}
	return length
}

// name is what a role is called, in a question or in the steps.
func (o Options) name(r parser.Role) string {
	if text, ok := o.said("name " + string(r)); ok {
		return text
	}
	return strings.ReplaceAll(string(r), "_", " ")
}

// method names the way a tape was laid.
func (o Options) method(m parser.Method) string {
	if text, ok := o.said("method " + string(m)); ok {
		return text
	}
	return strings.ReplaceAll(string(m), "-", " ")
}

// turn reads the fittings back, or the angle where no fitting is meant.
func (o Options) turn(ask parser.Ask) string {
	first, second := ask.Ends[0].Fitting, ask.Ends[1].Fitting
	none := catalog.Fitting{}
	if ask.Kind == parser.Corner && ask.Angle != 0 && first != none {
		alone := ask
		alone.Angle, alone.Kind = 0, parser.Offset
		return o.say("turn of", "angle", degrees(ask.Angle)) + ", " + o.turn(alone)
	}
	switch {
	case ask.Kind == parser.Trim && ask.Angle != 0:
		return degrees(ask.Angle) // that an elbow is trimmed to, whatever it was
	case first == none && second == none && ask.Angle == 0:
		return ""
	case first == none && second == none:
		return o.anglesOf(ask)
	case second == none:
		return o.fitting(first)
	case first == none:
		return o.fitting(second)
	case first == second:
		return o.two(first)
	}
	return o.and([]string{o.fitting(first), o.fitting(second)})
}

func (o Options) anglesOf(ask parser.Ask) string {
	switch ask.Kind {
	case parser.Multiplier, parser.Trim, parser.Fall, parser.Sum, parser.Miter, parser.Saddle, parser.Wrap:
		return degrees(ask.Angle)
	case parser.Corner:
		if ask.Angle == geometry.QuarterBend {
			return o.say("turn of", "angle", degrees(ask.Angle))
		}
	case parser.Unstated, parser.Offset, parser.Fit, parser.Piece, parser.Mark,
		parser.Parallel, parser.Around, parser.Takeoff, parser.Check, parser.Riser, parser.Doglegs:
	}
	if !tradeBend(ask.Angle) {
		return degrees(ask.Angle)
	}
	if ask.Kind == parser.Takeoff {
		return o.fitting(catalog.BendOf(ask.Angle))
	}
	return o.two(catalog.BendOf(ask.Angle))
}

// two are two alike fittings.
func (o Options) two(f catalog.Fitting) string {
	if o.terse {
		return o.fittings(f)
	}
	return o.say("two", "fittings", o.fittings(f))
}

// tradeBend tells whether an angle is sold as a bend.
func tradeBend(a geometry.Angle) bool {
	return slices.Contains(geometry.Bends(), a)
}

// bendName is an angle as the trade says it, odd ones to the hundredth.
func bendName(a geometry.Angle) string {
	if tradeBend(a) || a == 67.5 {
		return catalog.AngleName(a)
	}
	return decimals(a.Degrees(), 2)
}

// fitting names one fitting: "45", "street 45", "long 90", "sanitary tee".
func (o Options) fitting(f catalog.Fitting) string {
	return o.fittingIn(f, "one ")
}

// fittings names more than one: "45s", "street 45s", "tees".
func (o Options) fittings(f catalog.Fitting) string {
	return o.fittingIn(f, "many ")
}

func (o Options) fittingIn(f catalog.Fitting, number string) string {
	text, ok := o.said(number+string(f.Shape), "angle", bendName(f.Angle))
	if !ok {
		text = string(f.Shape)
	}
	switch f.Sweep {
	case catalog.Short:
		text = o.say("short sweep", "fitting", text)
	case catalog.Long:
		text = o.say("long sweep", "fitting", text)
	case catalog.Regular:
	}
	if f.Street {
		text = o.say("street", "fitting", text)
	}
	if f.Side != "" {
		text, _ = o.said("side "+string(f.Side), "fitting", text)
	}
	return text
}

// endsGiven reads back what was said of the fittings' own measures, once
// where both ends are alike.
func (o Options) endsGiven(ends [2]parser.End) []string {
	parts := o.endGiven(ends[0])
	if measures(ends[0]) != measures(ends[1]) {
		parts = append(parts, o.endGiven(ends[1])...)
	}
	return parts
}

// measures are the measures of the fitting at an end, by their roles.
func measures(e parser.End) [6]figure.Length {
	return [...]figure.Length{
		{Role: parser.TakeoffOf, Length: e.Takeoff},
		{Role: parser.Face, Length: e.Face},
		{Role: parser.Depth, Length: e.Depth},
		{Role: parser.Spigot, Length: e.Spigot},
		{Role: parser.Inlet, Length: e.Inlet},
		{Role: parser.Outlet, Length: e.Outlet},
	}
}

func (o Options) endGiven(e parser.End) []string {
	var parts []string
	for _, l := range measures(e) {
		if l.Length > 0 {
			parts = append(parts, o.measure(parser.Measure{Role: l.Role, Length: l.Length}))
		}
	}
	return parts
}

// pipe names the pipe: "1-1/2 PVC DWV", or as much as was said of it.
func (o Options) pipe(p catalog.Pipe, system catalog.System, size catalog.Size) string {
	if size == "" {
		size = p.Size
	}
	if system.Name != "" {
		return strings.Join(spoken([]string{string(size), o.term(system.Name)}), " ")
	}
	schedule := ""
	if p.Schedule != "" {
		schedule = o.say("schedule", "schedule", p.Schedule)
	}
	if p.Material == "" && p.Use == "" && p.Joint == "" && size != "" {
		return o.say("pipe of size", "size", string(size))
	}
	return strings.Join(spoken([]string{
		string(size), o.material(p.Material), schedule, o.term(string(p.Use)), o.term(string(p.Joint)),
	}), " ")
}

func (o Options) material(m catalog.Material) string {
	if text, ok := o.said("material " + string(m)); ok {
		return text
	}
	return string(m)
}

// term translates a word that comes from data: "threaded", "butt-weld". What
// the table has no row for stays as it is.
func (o Options) term(word string) string {
	if text, ok := o.said("term " + word); ok {
		return text
	}
	return word
}

// grade reads a grade back: in inches per foot where it is a fraction of one,
// in percent otherwise.
func (o Options) grade(s geometry.Slope) string {
	if s == 0 {
		return ""
	}
	if o.Metric {
		return o.metricGrade(s)
	}
	if perFoot := geometry.Length(s.InchesPerFoot()); perFoot.Tape(64).Lean == geometry.OnMark {
		if t := perFoot.Tape(32); float64(t.Length()) == perFoot.Inches() {
			return o.say("per foot", "inches", t.String())
		}
	}
	return decimals(s.Percent(), 2) + "%"
}

// metricGrade reads a grade back for who has a metric tape: as one in a whole
// number where it is that and no whole number of percent, in percent otherwise.
func (o Options) metricGrade(s geometry.Slope) string {
	ratio, percent := s.Ratio(), s.Percent()
	if math.Abs(ratio-math.Round(ratio)) < 1e-6 && math.Abs(percent-math.Round(percent)) > 1e-6 {
		return o.say("one in", "ratio", decimals(ratio, 0))
	}
	return decimals(percent, 2) + "%"
}

// arithmetic reads a sum back as it was written: "16-15/16 - 3".
func arithmetic(sum parser.Arithmetic) string {
	var b strings.Builder
	for i, t := range sum.Terms {
		if i > 0 && i <= len(sum.Operators) {
			b.WriteString(" " + string(sum.Operators[i-1]) + " ")
		}
		b.WriteString(t.Text)
	}
	return b.String()
}

// misread says which words were read otherwise than written, and which of two
// readings was taken.
func (o Options) misread(ask parser.Ask) []string {
	var lines []string
	for _, r := range ask.Repairs {
		lines = append(lines, o.say("repaired", "wrote", r.Wrote, "read", r.Read))
	}
	for _, t := range ask.Taken {
		lines = append(lines, o.say("taken", "text", t.Text, "read", t.Read, "not", t.Not))
	}
	return lines
}

// misreadBriefly says of what could be two things which it was taken for, always,
// and how other words were mended where there is room.
func (o Options) misreadBriefly(ask parser.Ask) []row {
	var rows []row
	for _, r := range ask.Repairs {
		rows = append(rows, ranked(1, o.say("repaired", "wrote", r.Wrote, "read", r.Read))...)
	}
	for _, t := range ask.Taken {
		rows = append(rows, always(o.say("taken briefly", "text", t.Text, "read", t.Read))...)
	}
	return rows
}

// ReadBack is what was understood of an ask for some pipe, from a small letter on.
func ReadBack(a parser.Ask, system catalog.System, size catalog.Size, o Options) string {
	return o.read(a, system, size)
}

// TakeoffRead is how [ReadBack] says a takeoff.
func TakeoffRead(l geometry.Length, o Options) string {
	return o.role(parser.TakeoffOf, o.stated(l, ""))
}
