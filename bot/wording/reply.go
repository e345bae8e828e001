package wording

import (
	"math"
	"slices"
	"strings"
	"unicode/utf16"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// longest is how long a reply may be, in UTF-16 units: what one chat message
// holds, with room to spare.
const longest = 4000

// shownCautions is how many cautions an answer carries; the rest are given on
// request.
const shownCautions = 2

// Whole words all that there is to say of an answer: the one number first and
// alone on its line, then what was understood, then all that hangs on it, with
// sources and second figures. It is what "why" gives; [Reply] is the short one.
func Whole(a *figure.Answer, o Options) string {
	if a == nil {
		return o.say("went wrong")
	}
	o = o.For(a.Ask)
	return whole(slices.Concat(
		o.namedFirst(a),
		o.unequal(a),
		o.doubts(a),
		[]string{o.first(a)},
		o.under(a),
		o.measureFirst(a),
		[]string{capital(o.read(a.Ask, a.System, a.Size))},
		o.misread(a.Ask),
		o.figures(a),
		o.roll(a),
		o.body(a),
		o.takeoffs(a),
		o.leaveLong(a),
		o.gap(a),
		o.limit(a),
		o.assumed(a),
		o.handbook(a),
		o.throws(a),
		o.pressing(a),
		o.notice(),
	))
}

// Figures are the figures of an answer, and nothing else.
func Figures(a *figure.Answer, o Options) string {
	o = o.For(a.Ask)
	return whole(slices.Concat([]string{o.first(a)}, o.under(a), o.figures(a), o.roll(a)))
}

// doubts asks about takeoffs that look like something else, before the cut that
// rests on them.
func (o Options) doubts(a *figure.Answer) []string {
	var lines []string
	if a.Reduced[0] != a.Reduced[1] {
		lines = append(lines, o.say("reducer", "first", string(a.Reduced[0]), "second", string(a.Reduced[1])))
	}
	for _, d := range a.Doubts {
		line, _ := o.said("doubt "+string(d.Like),
			"length", o.bare(d.Said.Length, exactly), "fitting", o.fitting(d.Said.Fitting),
			"pipe", o.pipe(catalog.Pipe{}, d.System, d.Said.Size), "known", o.plain(d.Known))
		if d.Cut > 0 {
			line += " " + o.say("then the cut", "length", o.bare(d.Cut, manner{about: true}))
		}
		lines = append(lines, line)
	}
	return lines
}

// measureFirst says that there is no cut before a fitting is measured, and how
// that is done.
func (o Options) measureFirst(a *figure.Answer) []string {
	u := a.Unmeasured
	if u == nil {
		return nil
	}
	if u.Declared {
		return []string{o.say("own measure", "fitting", o.fitting(u.Fitting), "means", o.term(a.System.TakeoffMeans()))}
	}
	return []string{o.say("measure first", "fitting", o.fitting(u.Fitting), "least", o.roundedDown(u.Least, ""), "most", o.roundedUp(u.Most, ""))}
}

// whole joins lines and keeps what fits one message, cutting between lines.
func whole(lines []string) string {
	kept := spoken(lines)
	for i, line := range kept {
		if len(line) > longestLine {
			kept[i] = cutAt(line, longestLine)
		}
	}
	size := 0
	if lengths(kept)+len(kept) <= longest {
		return strings.Join(kept, "\n") // no line has more units than bytes
	}
	for i, line := range kept {
		size += units(line) + 1
		if size > longest {
			kept = append(kept[:i], "…")
			break
		}
	}
	return strings.Join(kept, "\n")
}

// longestLine is longer than any line of ours, in letters: only what somebody sent makes
// one longer, and is cut so that it doesn't fill the screen.
const longestLine = 400

// units is the length of a line as Telegram counts it.
func units(line string) int {
	n := 0
	for _, r := range line {
		n += max(1, utf16.RuneLen(r))
	}
	return n
}

// unequal says that two measurements of one thing disagree. It comes before
// the cut, for until they agree the cut is worth nothing.
func (o Options) unequal(a *figure.Answer) []string {
	var lines []string
	for _, d := range a.Unequal {
		key, second := "unequal", o.reading(d.Second)
		if d.Second.Text == "" && d.Second.Method == "" {
			key, second = "unequal figured", o.bare(d.Second.Length, manner{about: unsure(a) && rests(a, d.Role)})
		}
		line, _ := o.said(key, "first", o.measure(d.First), "second", second, "apart", o.bare(d.Apart, exactly))
		lines = append(lines, capital(line))
	}
	return lines
}

// reading is a measure without its role: "13-7/8 outside to outside".
func (o Options) reading(m parser.Measure) string {
	text := o.stated(m.Length, m.Text)
	if m.Method == "" {
		return text
	}
	return text + " " + o.method(m.Method)
}

// first is the line with the one number.
func (o Options) first(a *figure.Answer) string {
	switch a.Kind {
	case parser.Fit:
		if line := o.bestBend(a); line != "" {
			return line
		}
	case parser.Sum:
		return o.sum(a.Sum)
	case parser.Multiplier:
		if len(a.Factors) > 0 {
			return o.factor(a.Factors[0])
		}
	case parser.Takeoff:
		if len(a.Own) > 0 {
			return o.kept(a.Own[0])
		}
	case parser.Trim:
		if len(a.Ordinates) > back {
			return o.marksOfElbow(a)
		}
	case parser.Unstated, parser.Offset, parser.Piece, parser.Mark, parser.Parallel,
		parser.Fall, parser.Check,
		parser.Corner, parser.Miter, parser.Saddle, parser.Wrap, parser.Riser, parser.Doglegs:
	case parser.Around:
		if line := o.aroundFirst(a); line != "" {
			return line
		}
		if a.Ask.Angle == 0 {
			return o.say("with fittings", "line", o.mainFigure(a), "fittings", o.fittings(catalog.BendOf(a.Angle)))
		}
	}
	return o.mainFigure(a)
}

// aroundFirst says where the first bend's center goes, before the obstacle. It
// is empty where another figure was asked for.
func (o Options) aroundFirst(a *figure.Answer) string {
	start, ok := a.Length(parser.Start)
	if !ok || a.Main != parser.Start {
		return ""
	}
	length := o.withUnit(start, manner{up: true})
	line := o.say("center before it", "length", length)
	if Wrapped(line) > 1 {
		line = o.say("center before it briefly", "length", length)
	}
	if a.Ask.Angle == 0 {
		line = o.say("with fittings", "line", line, "fittings", o.fittings(catalog.BendOf(a.Angle)))
	}
	return line
}

// under says right under the first number what it is measured from, or which
// other belongs to it.
func (o Options) under(a *figure.Answer) []string {
	stop, stops := a.Figured(parser.MarkAt)
	_, hub := a.Length(parser.PipeLength)
	switch {
	case a.Kind == parser.Around && a.Main == parser.Start && stops:
		return []string{o.say("pipe before it", "length", o.bare(stop.Length, mannerOf(a, stop)))}
	case a.Kind == parser.Around && a.Main == parser.Start, a.Main == parser.Least:
		return []string{o.say("rounded up")}
	case a.Kind == parser.Mark && a.Main == parser.MarkAt && readsOnTape(&a.Ask):
		return []string{o.say("mark on tape")}
	case a.Kind == parser.Mark && a.Main == parser.MarkAt:
		return []string{o.say("mark back")}
	case hub && a.Main == parser.Cut:
		return []string{o.say("saw at")}
	}
	return nil
}

// mainFigure words the figure that was asked for, whatever it is.
func (o Options) mainFigure(a *figure.Answer) string {
	switch {
	case a.Main == parser.AngleOf:
		return o.say("angle", "angle", degrees(a.Angle))
	case a.Main == parser.RollAngle:
		return o.say("roll angle", "angle", degrees(a.RollAngle))
	case a.Main == parser.Grade:
		return o.say("grade", "grade", o.everyGrade(a.Grade))
	}
	l, ok := main(a)
	if long, hub := a.Length(parser.PipeLength); hub && l.Role == parser.Cut {
		return capital(o.role(parser.Cut, o.withUnit(long, mannerOf(a, figure.Length{Role: parser.PipeLength, Length: long}))))
	}
	switch {
	case !ok:
		return capital(o.name(a.Main))
	case l.Role == parser.Stagger && l.Length < noStagger:
		return o.say("bend together")
	}
	return capital(o.figure(a, l, o.withUnit))
}

// main is the length to be said first: that of the main role, else the first
// there is.
func main(a *figure.Answer) (figure.Length, bool) {
	for _, l := range a.Lengths {
		if l.Role == a.Main {
			return l, true
		}
	}
	if len(a.Lengths) == 0 {
		return figure.Length{}, false
	}
	return a.Lengths[0], true
}

// figure words one figured length, written with or without its unit. The set
// of a rolling offset is the true set; a trim of less than nothing is what the
// pipe lacks.
func (o Options) figure(a *figure.Answer, l figure.Length, write func(geometry.Length, manner) string) string {
	m := mannerOf(a, l)
	_, hub := a.Length(parser.PipeLength)
	switch {
	case l.Role == parser.Cut && hub:
		return o.say("laying length", "length", write(l.Length, m))
	case l.Role == parser.Set && a.Rolling:
		return o.say("true set", "length", write(l.Length, m))
	case l.Role == parser.StopAt && a.Legs[0] == a.Legs[1]:
		return o.say("role stops", "length", write(l.Length, m))
	case l.Role == parser.TrimOff && l.Length < 0:
		return o.say("lacking", "length", write(-l.Length, m))
	}
	if l.Role == parser.Upper || l.Role == parser.Lower {
		if text, ok := o.elevation(a.Ask, l.Length); ok {
			return o.role(l.Role, text)
		}
	}
	return o.role(l.Role, write(l.Length, m))
}

// figures is the line of the other lengths: those that are neither said first
// nor were given as they stand.
func (o Options) figures(a *figure.Answer) []string {
	first, _ := main(a)
	switch a.Main {
	case parser.AngleOf, parser.RollAngle, parser.Grade:
		first.Role = a.Main // which is no length
	default:
	}
	_, hub := a.Length(parser.PipeLength)
	sawn := hub && first.Role == parser.Cut
	parts := make([]string, 0, len(a.Lengths))
	for _, l := range a.Lengths {
		if a.Kind == parser.Around && a.Main == parser.Start && l.Role == parser.MarkAt {
			continue
		}
		if sawn && (l.Role == parser.Cut || l.Role == parser.PipeLength) {
			if l.Role == parser.Cut {
				parts = append(parts, o.figure(a, l, o.bare))
			}
			continue
		}
		if l.Role == first.Role && !marksFirst(a) || given(&a.Ask, l) || a.Rolling && l.Role == parser.Set || inItsLine(a, l.Role) {
			continue
		}
		parts = append(parts, o.figure(a, l, o.bare))
	}
	if a.Main != parser.AngleOf && angleFollows(a) {
		parts = append(parts, o.name(parser.AngleOf)+" "+degrees(a.Angle))
	}
	return []string{capital(strings.Join(parts, " · "))}
}

// angleFollows says whether the angle follows from two lengths that were given.
func angleFollows(a *figure.Answer) bool {
	bend := a.Ask.Angle != 0 || a.Ask.Ends[0].Fitting.Angle != 0
	if bend || a.Angle == 0 || a.Kind != parser.Offset && a.Kind != parser.Fit && a.Kind != parser.Mark {
		return false
	}
	_, run := a.Ask.Length(parser.Run)
	_, travel := a.Ask.Length(parser.Travel)
	return run || travel
}

// given tells whether a figured length only repeats what was said, but for
// the last bits of the arithmetic.
func given(ask *parser.Ask, l figure.Length) bool {
	for _, m := range ask.Measures {
		if m.Role == l.Role && math.Abs((m.Length-l.Length).Inches()) < 1e-6 {
			return true
		}
	}
	return false
}

// body is what only this kind of ask has. The bends around an odd angle go
// with any offset.
func (o Options) body(a *figure.Answer) []string {
	switch a.Kind {
	case parser.Offset:
		return slices.Concat(o.inline(a), o.joints(a), o.noEnds(a), o.bends(a), o.graded(a))
	case parser.Fit, parser.Unstated:
		return o.bends(a)
	case parser.Parallel:
		return o.lines(a)
	case parser.Fall:
		return o.fall(a)
	case parser.Trim:
		return o.ordinates(a)
	case parser.Sum:
		return o.sumOtherwise(a.Sum)
	case parser.Multiplier:
		return o.factors(a.Factors)
	case parser.Takeoff:
		return append(o.keptToo(a.Own), o.means(a)...)
	case parser.Check:
		return o.findings(a)
	case parser.Around:
		if a.HubNear {
			d, _ := a.System.Dimensions(a.Size)
			return []string{o.say("hub near", "outside", o.stated(d.Outside, ""))}
		}
	case parser.Piece:
		return o.inline(a)
	case parser.Miter, parser.Saddle:
		return o.mitered(a)
	case parser.Wrap:
		return o.wrapped(a)
	case parser.Riser:
		return o.riser(a)
	case parser.Doglegs:
		return []string{o.allPieces(a)}
	case parser.Mark, parser.Corner:
	}
	return nil
}

// noEnds says that where a standing pipe ends is left out, and why.
func (o Options) noEnds(a *figure.Answer) []string {
	switch {
	case a.NoEnds == catalog.Fitting{}:
		return nil
	case a.NoEnds.Shape.BranchShape() && a.Branch != nil:
		return []string{o.say("run not cut", "fitting", o.fitting(a.NoEnds))}
	}
	return []string{o.say("no ends", "fitting", o.fitting(a.NoEnds))}
}

// gap says what is left open at each joint.
func (o Options) gap(a *figure.Answer) []string {
	g := a.Gap
	if a.Unmeasured != nil && g.Evidence == "" {
		return pushedHome(a.System, a.Size, o)
	}
	switch {
	case g.Evidence == catalog.Said && g.Length == 0:
		return []string{o.say("no gap")}
	case g.Evidence == catalog.Said:
		return []string{o.say("gap said", "length", o.stated(g.Length, ""))}
	case g.Length <= 0:
		return nil
	case a.System.Joint == catalog.PushFit:
		return pushedHome(a.System, a.Size, o)
	case g.Least > 0:
		return []string{o.say("usual gap", "sample", o.sampleGap(), "least", o.stated(g.Least, ""), "length", o.stated(g.Length, ""), "source", o.source(g.Source))}
	}
	return []string{o.say("gap", "sample", o.sampleGap(), "length", o.stated(g.Length, ""), "source", o.source(g.Source))}
}

// pushedHome says how far a pipe goes into the ring seals of a system, and how far it
// is drawn back to have room to grow; nothing of any other joint.
func pushedHome(s catalog.System, size catalog.Size, o Options) []string {
	g := s.Gap()
	if s.Joint != catalog.PushFit || g.Length <= 0 {
		return nil
	}
	lines := []string{o.say("push-fit gap", "length", o.stated(g.Length, ""), "source", o.source(g.Source), "sample", o.sampleGap())}
	if d, ok := s.Insertion(size); ok {
		key := "goes into the seal"
		if d.Evidence == catalog.Memory {
			key = "goes into the seal recalled"
		}
		line, _ := o.said(key, "depth", o.bare(d.Length, manner{about: d.Evidence != catalog.Published}), "source", o.source(d.Source))
		lines = append(lines, line)
	}
	return lines
}

// sampleGap is a gap as somebody may say one.
func (o Options) sampleGap() string {
	if o.Metric {
		return "4 mm"
	}
	return "3/32"
}

// near is how close to touching a piece has to be for the limit to matter.
const near = 1 * geometry.Inch

// limit says how small the set can get, where this cut is near it.
func (o Options) limit(a *figure.Answer) []string {
	cut, ok := a.Length(parser.Cut)
	if a.Limit == nil || !ok || cut-a.Limit.Cut > near {
		return nil
	}
	touching := o.bare(a.Limit.Touching, manner{about: unsure(a), up: true})
	if !hubbed(a.System) {
		return []string{o.say("ends limit", "length", touching)}
	}
	return []string{o.say("limit", "length", touching)}
}

// namedFirst are the cautions that stand before any cut.
func namedFirst(a *figure.Answer) []figure.Caution {
	return slices.DeleteFunc(slices.Clone(a.Cautions), func(c figure.Caution) bool { return !c.NamedFirst() })
}

func (o Options) namedFirst(a *figure.Answer) []string { return o.cautions(namedFirst(a)) }

// Pressing are the cautions that go with an answer, behind it: the rarest and
// gravest, and where there is room those of every day. What is only looked up,
// and a fall, has none of these.
func Pressing(a *figure.Answer) []figure.Caution {
	said := toSay(a)
	return said[:min(len(said), shownCautions)]
}

// toSay are the cautions of an answer that have no line of their own, as many as
// there are.
func toSay(a *figure.Answer) []figure.Caution {
	lookedUp := a.Kind == parser.Takeoff || a.Kind == parser.Fall
	return slices.DeleteFunc(slices.Clone(a.Cautions), func(c figure.Caution) bool {
		switch {
		case c == figure.CheckTakeoff, c == figure.BelowMinimum && len(a.Minimums) > 0:
			return true // lines of their own say so
		case c.NamedFirst():
			return true
		}
		return lookedUp && !a.Grave(c)
	})
}

// pressing words them.
func (o Options) pressing(a *figure.Answer) []string { return o.cautions(Pressing(a)) }

func (o Options) notice() []string {
	if !o.FirstTime {
		return nil
	}
	return []string{o.say("notice")}
}
