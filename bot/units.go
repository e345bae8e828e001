package bot

import (
	"cmp"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/parser"
	"dogleg/store"
)

// A bare number has a unit that somebody meant. It is settled before anything is
// figured, and the measure then says it: by what stands beside it, by what it
// changes, by what the person set. Where none of these tells, it is asked, once:
// the answer is the person's unit from then on.

// mostInches is over which number a bare length is doubted as inches, by its role:
// no set of over six feet, no lines four feet apart and no takeoff of one is told as a
// bare number of them, but a metric tape says it of a hand's breadth. Along the line a
// piece may be longer.
func mostInches(r parser.Role) float64 {
	switch r {
	case parser.Set, parser.Roll, parser.Rise, parser.Reach, parser.Clearance:
		return 72
	case parser.Spacing, parser.Stagger:
		return 48
	case parser.TakeoffOf, parser.Face, parser.Depth, parser.JointGap, parser.Radius:
		return 12
	default:
		return 100
	}
}

// mostMeters is under which number the length, or the level, of a graded line is
// in meters where the tape is metric: nobody grades a line of so few millimeters.
const mostMeters = 100

// metric says whether this person's bare numbers are millimeters.
func (t *turn) metric() bool { return t.settings.Metric || t.conversation.Metric }

// settled is an ask whose bare numbers have a unit, as far as they need one. The
// error is a *[figure.Missing] where it has to be asked.
func (t *turn) settled(a parser.Ask) (parser.Ask, error) {
	a.Sum = sumSettled(a.Sum, t.metric())
	open := a.Open()
	if len(open) == 0 {
		return a, nil
	}
	beside, disagree := unitOf(a)
	switch {
	case disagree:
		return a, openUnit(a)
	case beside.Metric():
		return a.In(metricBeside(beside)), nil
	case beside == parser.Inches && !t.settings.Inches && beyondInches(a):
		return a, openUnit(a)
	case beside == parser.Inches:
		return inInches(a), nil
	case t.metric() && lessThanThePipe(a):
		return a, openUnit(a)
	case t.metric():
		return a.In(metricBeside(parser.Millimeters)), nil
	case !t.settings.Inches && onlyMetric(a):
		return a.In(metricBeside(parser.Millimeters)), nil
	case t.doubts(a):
		return a, openUnit(a)
	}
	return inInches(a), nil
}

// sumSettled is tape arithmetic whose bare numbers are millimeters where another of
// its lengths is metric, or the person's are: but not beside a fraction, which only an
// inch tape has.
func sumSettled(s *parser.Arithmetic, theirs bool) *parser.Arithmetic {
	if s == nil {
		return nil
	}
	metric, inches := theirs, false
	var open []int
	for i, term := range s.Terms {
		if term.Plain {
			continue
		}
		switch u := measureOf(term).Unit(); {
		case u == parser.OpenUnit && term.Length != 0:
			open = append(open, i)
		default:
			metric, inches = metric || u.Metric(), inches || !u.Metric()
		}
	}
	if len(open) == 0 || !metric || inches {
		return s
	}
	told := *s
	told.Terms, told.InMetric = slices.Clone(s.Terms), true
	for _, i := range open {
		m := measureOf(told.Terms[i]).In(parser.Millimeters)
		told.Terms[i].Length, told.Terms[i].Text = m.Length, m.Text
	}
	return &told
}

// measureOf is a term of a sum as a measure.
func measureOf(t parser.Term) parser.Measure { return parser.Measure{Length: t.Length, Text: t.Text} }

// Asked is the one thing that a message asks, as this conversation would figure it
// for somebody whom it doesn't know. It is false where the message asks several, or
// none that needs no question.
func (c *Conversation) Asked(text string) (parser.Ask, bool) {
	t := &turn{conversation: c}
	statements := Read(text, t.said())
	if len(statements) != 1 {
		return parser.Ask{}, false
	}
	ask := statements[0].Ask
	if m := statements[0].Misunderstanding; m != nil {
		if a, ok := t.oneReading(m); ok {
			ask = &a
		}
	}
	if ask == nil {
		return parser.Ask{}, false
	}
	settled, err := t.settled(*ask)
	return settled, err == nil
}

// doubts says whether the bare numbers of an ask may be millimeters, of a person
// who did not set so: beside metric pipe; where they are too large for inches; and
// where a reader took them for that.
func (t *turn) doubts(a parser.Ask) bool {
	taken := false
	for _, i := range a.Open() {
		_, u := a.Measures[i].Number()
		taken = taken || u.Metric()
	}
	large := beyondInches(a)
	metric := parser.MetricSize(a.Pipe.Size) || large && a.Kind == parser.Fall
	if t.settings.Inches {
		return metric && large
	}
	return metric || large || taken
}

// surelyMillimeters is over which number a bare length beside metric pipe is
// millimeters, unless the person has set inches: common practice. Who has a metric pipe
// and an inch tape in the hand at once measures no five feet of offset.
const surelyMillimeters = 60

// onlyMetric says whether the bare lengths of the line, beside metric pipe, are
// millimeters to everyone.
func onlyMetric(a parser.Ask) bool {
	line := 0
	for _, i := range a.Open() {
		m := a.Measures[i]
		if m.Role.OfFitting() {
			continue
		}
		if n, _ := m.Number(); n <= surelyMillimeters || longLine(m.Role) {
			return false
		}
		line++
	}
	return line > 0 && parser.MetricSize(a.Pipe.Size)
}

// beyondInches says whether a bare length is hardly one of inches.
func beyondInches(a parser.Ask) bool {
	if steep(a) {
		return true
	}
	for _, i := range a.Open() {
		m := a.Measures[i]
		n, _ := m.Number()
		switch {
		case longLine(m.Role):
			if ratio(a) || m.Role != parser.Long && strings.ContainsAny(m.Text, ".,") {
				return true // a level to a hundredth is one of meters or of feet
			}
		case n > mostInches(m.Role), ofMeters(m), m.Role == parser.Drop && strings.Contains(m.Text, ".") && math.Mod(n*16, 1) != 0:
			return true // a fall to a hundredth is like a level
		}
	}
	return false
}

// steep says whether a drain would fall more than a quarter of its length, as its bare
// numbers stand: these are hardly told in one unit.
func steep(a parser.Ask) bool {
	drop, long := a.All(parser.Drop), a.All(parser.Long)
	return a.Kind == parser.Fall && len(drop) == 1 && len(long) == 1 && len(a.Open()) == 2 &&
		drop[0].Length > long[0].Length/4
}

// ofMeters says whether a bare length of the line has decimals and is less than
// any number of inches or millimeters that is told so: 0.52.
func ofMeters(m parser.Measure) bool {
	n, _ := m.Number()
	return !m.Role.OfFitting() && n < 1 && strings.ContainsAny(m.Text, ".,")
}

// lessThanThePipe says whether a bare length of the line would, in millimeters, be
// less than its pipe is wide, where that has a size in inches: so told, it is
// hardly millimeters even of who set so.
func lessThanThePipe(a parser.Ask) bool {
	inches, ok := catalog.ParseInches(string(a.Pipe.Size))
	if !ok {
		return false
	}
	for _, i := range a.Open() {
		m := a.Measures[i]
		if n, _ := m.Number(); !m.Role.OfFitting() && !longLine(m.Role) && n < inches.Millimeters() {
			return true
		}
	}
	return false
}

// longLine says whether a length is one along a graded line, or a level on it.
func longLine(r parser.Role) bool {
	return r == parser.Long || r == parser.Upper || r == parser.Lower
}

// ratio says whether the grade of a line is none of an inch rule: 1 in 60, 2%. A
// bare length beside it is hardly inches.
func ratio(a parser.Ask) bool {
	sixteenths := a.Grade.InchesPerFoot() * 16
	return a.Kind == parser.Fall && a.Grade != 0 && math.Abs(sixteenths-math.Round(sixteenths)) > 1e-6
}

// unitOf is the unit that the measures of an ask say, the line's before the
// fittings'; whether they say two, with neither before the other.
func unitOf(a parser.Ask) (u parser.Unit, disagree bool) {
	for _, ofFittings := range []bool{false, true} {
		for _, m := range a.Measures {
			next := m.Unit()
			switch {
			case m.Role.OfFitting() != ofFittings || next == parser.OpenUnit || m.Text == "" || m.Length == 0:
			case u == parser.OpenUnit:
				u = next
			case u.Metric() != next.Metric() && !ofFittings:
				return u, true
			}
		}
	}
	return u, false
}

// metricBeside gives a bare number the metric unit of what was said beside it: a
// fitting is measured in millimeters, a long line in meters.
func metricBeside(u parser.Unit) func(parser.Measure) parser.Unit {
	return func(m parser.Measure) parser.Unit {
		n, _ := m.Number()
		long := longLine(m.Role)
		switch {
		case long && n < mostMeters, ofMeters(m):
			return parser.Meters
		case long || m.Role.OfFitting():
			return parser.Millimeters
		case u == parser.Meters && n >= 20:
			return parser.Millimeters
		}
		return u
	}
}

// inInches takes back what a reader took for millimeters.
func inInches(a parser.Ask) parser.Ask {
	for _, i := range a.Open() {
		if _, taken := a.Measures[i].Number(); taken.Metric() {
			return a.In(inchesOf)
		}
	}
	return a
}

// inchesOf gives a bare number the unit of an inch tape: feet, where a reader took
// it for that.
func inchesOf(m parser.Measure) parser.Unit {
	if _, taken := m.Number(); taken == parser.Feet {
		return parser.Feet
	}
	return parser.Inches
}

// openUnit asks for the unit of the first bare number.
func openUnit(a parser.Ask) error {
	m := a.Measures[a.Open()[0]]
	n, _ := m.Number()
	number := strconv.FormatFloat(n, 'f', -1, 64)
	metric, other := metricBeside(parser.Millimeters)(m), parser.Inches
	if metric == parser.Meters && longLine(m.Role) {
		other = parser.Feet
	}
	a = a.In(func(parser.Measure) parser.Unit { return parser.Inches }) // so that it is read back as it was said
	return &figure.Missing{
		Wanted:  parser.UnitOf,
		Options: []string{number + " " + string(metric), number + " " + string(other)},
		Partly:  &figure.Answer{Ask: a, Kind: a.Kind},
	}
}

// follows is a change whose bare numbers are in the unit of what it changes.
func (t *turn) follows(change, before parser.Ask) parser.Ask {
	unit, _ := unitOf(before)
	if beside, _ := unitOf(change); beside != parser.OpenUnit {
		return change // which says its own
	}
	switch {
	case unit == parser.Inches:
		return inInches(change)
	case !before.Metric():
		return change
	}
	return change.In(func(m parser.Measure) parser.Unit {
		u := unit
		for _, old := range before.Measures {
			if old.Role == m.Role && old.Unit().Metric() {
				u = old.Unit()
			}
		}
		if u == parser.OpenUnit || u == parser.Inches {
			u = parser.Millimeters
		}
		return metricBeside(u)(m)
	})
}

// unitWords are the words that answer which unit is meant, with or without the
// number.
var unitWords = regexp.MustCompile(`(?i)^\s*[\d.,/\s-]*(?:(mm|mil+[ií]met(?:er|re|ro)s?|metric|m[eé]tricos?)|(cm|cent[ií]met(?:er|re|ro)s?)|(m|met(?:er|re)s?|metros?)|(in|inch(?:es)?|"|pulg|pulgadas?)|(ft|feet|foot|'|pies?))\.?\s*$`)

// unitSaid is the unit that a message names, and nothing else.
func unitSaid(text string) (parser.Unit, bool) {
	found := unitWords.FindStringSubmatch(text)
	for i, u := range []parser.Unit{parser.Millimeters, parser.Centimeters, parser.Meters, parser.Inches, parser.Feet} {
		if found != nil && found[i+1] != "" {
			return u, true
		}
	}
	return parser.OpenUnit, false
}

// settleUnit answers what waits for a unit, where the message names one.
func (t *turn) settleUnit(text string) []part {
	u, ok := unitSaid(text)
	if !ok {
		return nil
	}
	var parts []part
	var open []question
	for _, q := range t.waiting {
		if q.Wanted != parser.UnitOf {
			open = append(open, q)
			continue
		}
		s := parser.Statement{Text: text, Ask: &q.Ask}
		p := t.safely(s, func(s parser.Statement) part { return t.inUnit(s, q, u) })
		p.heading = q.Asked
		parts = append(parts, p)
	}
	t.waiting = open
	return parts
}

// inUnit answers an ask whose unit is known now, and keeps it as the person's.
func (t *turn) inUnit(s parser.Statement, q question, u parser.Unit) part {
	ask := q.Ask.In(func(parser.Measure) parser.Unit { return u })
	if u.Metric() {
		ask = q.Ask.In(metricBeside(u))
	}
	kept := t.keepUnit(u)
	s.Ask = &ask
	p := t.figureWhole(s, ask, q)
	if kept != "" {
		p.text = strings.TrimRight(p.text, "\n") + "\n" + kept
		p.record.Reply = p.text
	}
	return p
}

// keepUnit keeps a unit as the person's, if they have set none, and says so.
func (t *turn) keepUnit(u parser.Unit) string {
	if t.settings.Metric || t.settings.Inches {
		return ""
	}
	t.settings.Metric, t.settings.Inches = u.Metric(), !u.Metric()
	t.note(store.Settings, t.settings)
	if u.Metric() {
		return t.say(wording.MillimetersKept)
	}
	return t.say(wording.InchesKept)
}

// sameSize says whether two names are of one size of one pipe: DN100 and 100 mm of
// cast iron.
func sameSize(a, b catalog.Pipe) bool {
	return a.Size != "" && b.Size != "" && slices.ContainsFunc(catalog.Systems(), func(s catalog.System) bool {
		return s.Material == a.Material && s.HasSize(a.Size) && s.NameOf(a.Size) == s.NameOf(b.Size)
	})
}

// oneReading is what all readings of a message come to once the unit of their bare
// numbers is settled, or will be asked: they differ in nothing else, but that one
// may say more of the pipe. A size that nobody sells is no reading.
func (t *turn) oneReading(m *parser.Misunderstanding) (parser.Ask, bool) {
	if m.Trouble != parser.TwoReadings || len(m.Readings) < 2 {
		return parser.Ask{}, false
	}
	var readings []parser.Ask
	for _, asks := range m.Readings {
		if len(asks) != 1 {
			return parser.Ask{}, false
		}
		if p := asks[0].Pipe; p.Size == "" || catalog.Sold(p.Material, p.Size) {
			readings = append(readings, asks[0])
		}
	}
	if len(readings) == 0 {
		return parser.Ask{}, false
	}
	inOne := func(a parser.Ask) parser.Ask { return a.In(func(parser.Measure) parser.Unit { return parser.Inches }) }
	best, one := readings[0], inOne(readings[0])
	for _, r := range readings[1:] {
		other := inOne(r)
		pipe, ok := fuller(one.Pipe, other.Pipe)
		one.Pipe, other.Pipe = pipe, pipe
		if !ok || !other.SaysAs(&one) {
			return parser.Ask{}, false
		}
		best.Pipe = pipe
	}
	return best, true
}

// inUnits is what was not understood, its readings with the units of their bare
// numbers where these are known.
func (t *turn) inUnits(m *parser.Misunderstanding) *parser.Misunderstanding {
	told := *m
	told.Readings = nil
	for _, asks := range m.Readings {
		asks = slices.Clone(asks)
		for i := range asks {
			if a, err := t.settled(asks[i]); err == nil {
				asks[i] = a
			}
		}
		same := func(o []parser.Ask) bool {
			return slices.EqualFunc(o, asks, func(a, b parser.Ask) bool { return a.SaysAs(&b) })
		}
		if !slices.ContainsFunc(told.Readings, same) {
			told.Readings = append(told.Readings, asks)
		}
	}
	if len(told.Readings) > 0 && len(told.Readings[0]) == 1 {
		told.Read = told.Readings[0][0]
	}
	return &told
}

// fuller is a pipe with all that is said of it twice; false where that differs.
func fuller(a, b catalog.Pipe) (catalog.Pipe, bool) {
	if sameSize(a, b) {
		b.Size = a.Size
	}
	both := catalog.Pipe{
		Material: cmp.Or(a.Material, b.Material), Joint: cmp.Or(a.Joint, b.Joint), Use: cmp.Or(a.Use, b.Use),
		Schedule: cmp.Or(a.Schedule, b.Schedule), Size: cmp.Or(a.Size, b.Size),
	}
	within := func(p catalog.Pipe) bool {
		return (p.Material == "" || p.Material == both.Material) && (p.Joint == "" || p.Joint == both.Joint) && (p.Use == "" || p.Use == both.Use) &&
			(p.Schedule == "" || p.Schedule == both.Schedule) && (p.Size == "" || p.Size == both.Size)
	}
	return both, within(a) && within(b)
}
