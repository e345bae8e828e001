package parser

import (
	"slices"
	"strings"
	"unicode"

	"dogleg/catalog"
	"dogleg/geometry"
)

// longestMessage is the most text that is read, in bytes: as much as a chat
// message can hold. More than that is not a question about pipe.
const longestMessage = 4096

// Parse reads a message: one statement for each thing said in it, in order. It
// always returns at least one statement, whatever the text.
func Parse(text string) []Statement {
	if len(text) > longestMessage {
		return []Statement{refused(text[:64], &Misunderstanding{Trouble: TooLong, Text: strings.ToValidUTF8(text[:64], "")})}
	}
	clean := plain(text)
	if len(clean) > mostPieces && pieces(clean) > mostPieces {
		return []Statement{refused(clean[:min(len(clean), 64)], &Misunderstanding{Trouble: TooLong, Text: clean[:min(len(clean), 64)]})}
	}
	var out []Statement
	all := parts(clean)
	if len(all) > mostStatements {
		return []Statement{refused(clean[:min(len(clean), 64)], &Misunderstanding{Trouble: TooLong, Text: clean})}
	}
	for _, p := range together(clean, expanded(all)) {
		out = append(out, p.statement())
	}
	out = inherited(out)
	if len(out) == 0 {
		out = append(out, refused(clean, &Misunderstanding{Trouble: NothingRead, Text: clean}))
	}
	return out
}

// mostPieces is how many words, figures and marks are read: more than a day's
// cuts have.
const mostPieces = 500

// pieces counts the runs of letters, the runs of digits and the marks in a text.
func pieces(text string) int {
	const (
		space = iota
		digit
		letter
	)
	n, before := 0, space
	for _, r := range text {
		now := space
		switch {
		case unicode.IsDigit(r):
			now = digit
		case unicode.IsLetter(r):
			now = letter
		case !unicode.IsSpace(r):
			n++
		}
		if now != space && now != before {
			n++
		}
		before = now
	}
	return n
}

// mostStatements is how many things one message may ask: a day's cuts, a line
// each.
const mostStatements = 40

func refused(text string, m *Misunderstanding) Statement {
	return Statement{Text: text, Misunderstanding: m}
}

// part is one stretch of a message that says one thing.
type part struct {
	text     string
	base     int    // where its text begins in the message
	name     string // of the job, in front of it
	elements []element
	said     *Statement // what it says, once it was read
}

// statement reads the part, once.
func (p *part) statement() Statement {
	if p.said == nil {
		s := p.read()
		p.said = &s
	}
	return *p.said
}

func (p *part) read() Statement {
	if c := command(p.text, p.elements); c != nil {
		return Statement{Text: p.text, Command: c}
	}
	said := adjusted(closer(corrected(p.elements)))
	if a := arithmetic(p.text, said); a != nil {
		a.Name = p.name
		return Statement{Text: p.text, Ask: a}
	}
	said = withoutFraming(withoutTimes(withoutCameOut(said)))
	best, second := read(p.text, said)
	if best == nil {
		return refused(p.text, &Misunderstanding{Trouble: TooLong, Text: p.text})
	}
	ask := best.build()
	ask.Name = p.name
	if m := best.trouble(ask, p.text); m != nil {
		return refused(p.text, m)
	}
	if m := best.rival(second, ask, p.text); m != nil {
		return refused(p.text, m)
	}
	best.taken(second, ask)
	return Statement{Text: p.text, Ask: ask}
}

// closeCall is how much more a second reading may cost and still be asked about.
const closeCall = 0.55

// rival asks back where a second reading is as good as the first and both are
// real pipe.
func (r *reading) rival(second *reading, ask *Ask, text string) *Misunderstanding {
	if second == nil || second.cost-r.cost > closeCall || !second.sound() {
		return nil
	}
	other := second.build()
	if other.Kind != ask.Kind && (other.Kind == Unstated || ask.Kind == Unstated) || contradiction(other) != "" {
		return nil
	}
	if ask.SaysAs(other) {
		return nil
	}
	return &Misunderstanding{
		Trouble: TwoReadings, Text: text, Subject: r.difference(second), Read: *ask, Readings: [][]Ask{{*ask}, {*other}},
	}
}

// taken notes which of two ways to cut up a number was taken.
func (r *reading) taken(second *reading, ask *Ask) {
	if second == nil || second.scene.broken == r.scene.broken || second.cost-r.cost > 4.5 {
		return
	}
	if subject := r.difference(second); subject != "" {
		ask.Taken = append(ask.Taken, Taken{Text: subject, Read: r.words(), Not: second.words()})
	}
}

// difference is the stretch of text that two readings take differently.
func (r *reading) difference(other *reading) string {
	joined, cut := r, other
	if r.scene.broken > 0 {
		joined, cut = other, r
	}
	for k := range joined.at {
		q := joined.scene.elements[joined.at[k]].quantity
		if len(q.broken) == 0 {
			continue
		}
		for _, i := range cut.at {
			c := cut.scene.elements[i].quantity
			if c.begin == q.begin && c.end < q.end {
				return q.text
			}
		}
	}
	return ""
}

// words says a reading in few words: "set 7-1/2".
func (r *reading) words() string {
	var out []string
	for k, l := range r.labels {
		q := r.number(k)
		switch {
		case l.role == SizeOf:
			out = append(out, string(l.size)+" pipe")
		case isMeasure(l):
			out = append(out, strings.ReplaceAll(string(l.role), "_", " ")+" "+strings.Join(strings.Fields(q.text), "-"))
		}
	}
	return strings.Join(out, ", ")
}

// trouble is what is wrong with the best reading, if anything is.
func (r *reading) trouble(ask *Ask, text string) *Misunderstanding {
	m := r.wrong(ask)
	if m.Trouble == "" {
		return nil
	}
	found := m // by itself, so that nothing is allocated where nothing is wrong
	found.Text, found.Read = text, measurable(*ask)
	return &found
}

// wrong is what is wrong with the best reading; its Trouble is empty where nothing
// is, as mostly.
func (r *reading) wrong(ask *Ask) (m Misunderstanding) {
	for k, l := range r.labels {
		q := r.number(k)
		m.Subject = strings.TrimSpace(q.text)
		switch {
		case isMeasure(l) && q.value == 0 && l.role != GapNow && l.role != Clearance && l.role != JointGap:
			m.Trouble = BadNumber
		case q.bad != "" || infinite(q.value) || q.length() > geometry.Longest && isMeasure(l):
			m.Trouble = BadNumber
		case l.odd && l.role == AngleOf:
			m.Trouble = NoSuchAngle
		case l.odd && l.role == SizeOf:
			m.Trouble, m.Wanted = NoSuchSize, SizeOf
			m.Near = nearSizes(ask.Pipe.Material, l.size)
		case l.role == Bare && !l.count:
			m.Trouble = Unclaimed
		default:
			continue
		}
		return m
	}
	m = r.wrongAsWhole(ask)
	if m.Trouble == "" && r.cost > dearest {
		m.Trouble, m.Subject = Unclaimed, r.dearestNumber()
	}
	return m
}

// dearest is the most that a reading may cost and still be believed: more than
// any right reading of what people sent us, where the dearest cost 5.
const dearest = 5.5

// dearestNumber is the number that fits its reading least.
func (r *reading) dearestNumber() string {
	at := 0
	for k := range r.labels {
		l := &r.labels[k]
		if l.cost > r.labels[at].cost {
			at = k
		}
	}
	if len(r.labels) == 0 {
		return r.scene.text
	}
	return strings.TrimSpace(r.number(at).text)
}

// measurable is an ask without the lengths, angles and grades that can't be:
// read back they would be hundreds of digits, or none.
func measurable(a Ask) Ask {
	a.Measures = slices.DeleteFunc(slices.Clone(a.Measures), func(m Measure) bool { return !withinMile(m.Length) })
	for i := range a.Ends {
		for _, l := range []*geometry.Length{&a.Ends[i].Takeoff, &a.Ends[i].Face, &a.Ends[i].Depth} {
			if !withinMile(*l) {
				*l = 0
			}
		}
	}
	if float64(a.Grade) > geometry.Longest.Inches() {
		a.Grade = 0
	}
	if a.Angle > 360 {
		a.Angle = 0
	}
	return a
}

func withinMile(l geometry.Length) bool { return l <= geometry.Longest && !infinite(l.Inches()) }

func nearSizes(m catalog.Material, size catalog.Size) []string {
	var out []string
	for _, s := range catalog.Near(catalog.SizesOf(m), size) {
		out = append(out, string(s))
	}
	return out
}

// wrongAsWhole is what is wrong with an ask although every number has its
// place.
func (r *reading) wrongAsWhole(ask *Ask) (m Misunderstanding) {
	switch word := r.strange(); {
	case ask.Empty() && r.scene.unknown() != "":
		m.Trouble, m.Subject = UnknownWord, r.scene.unknown()
		m.Near = nearest(m.Subject)
	case ask.Empty():
		m.Trouble = NothingRead
	case r.scene.has(senseElsewhere) && ask.Angle == 0 && !r.scene.hasRole(Set):
		m.Trouble = NotFiguring // what it costs, weighs or holds
	case r.scene.hint("shopping") && ask.Kind != Trim && (len(ask.Measures) == 0 || ask.Kind == Unstated), r.scene.hint("need") && r.countsBends() && len(ask.Measures) == 0:
		m.Trouble = NotFiguring
	case r.onlyBare(ask), ask.Kind == Unstated && len(ask.Measures) == 0 && ask.Angle == 0 && r.scene.has(senseAsk) && r.scene.unknown() != "" && !r.scene.hint("same"):
		m.Trouble = NotFiguring
	case r.scene.loneSide() != "" && !r.scene.trims():
		m.Trouble, m.Subject = OneSide, r.scene.loneSide()
	case word != "":
		m.Trouble, m.Subject, m.Near = UnknownWord, word, nearest(word)
	case contradiction(ask) != "":
		m.Trouble, m.Subject = Contradiction, contradiction(ask)
	case r.scene.otherMaterial != "":
		m.Trouble, m.Subject = Contradiction, string(ask.Pipe.Material)+", "+r.scene.otherMaterial
	default:
		return r.twoMeanings(ask)
	}
	return m
}

// strange is an unknown word that stands where a role or a material should: 2
// inch bamboo, 9 floomp. What it would change nobody can say.
func (r *reading) strange() string {
	for k := range r.labels {
		l := &r.labels[k]
		if l.term >= 0 || l.role == AngleOf || l.role == Grade {
			continue
		}
		for next := r.at[k] + 1; next < len(r.scene.elements); next++ {
			e := r.scene.elements[next]
			if e.word != "" && (l.role == SizeOf || l.bare && l.role == Set && r.number(k).unit == noUnit) {
				return e.word
			}
			if !e.term.is(senseLink) && !e.term.is(senseArticle) {
				break
			}
		}
	}
	return ""
}

// loneSide is the one side of a pipe that was measured from, without the other.
func (s *scene) loneSide() string {
	for i := range s.elements {
		e := &s.elements[i]
		if side, ok := e.term.means(senseSide); ok && side != "center" && side != "end" && side != "face" {
			return e.text
		}
	}
	return ""
}

// onlyBare says whether all there is to an ask are numbers that no word of the
// trade claims: "be there at 10".
func (r *reading) onlyBare(a *Ask) bool {
	if a.Angle != 0 || a.Pipe.Material != "" || a.Pipe.Joint != "" || a.Grade != 0 || a.Want != "" || a.FollowUp && r.scene.hint("same") || r.correctsLast() {
		return false
	}
	for _, m := range a.Measures {
		if !m.Bare || m.Method != "" {
			return false
		}
	}
	return len(a.Measures) > 0 && len(r.scene.hints) == 0 && !r.scene.has(senseRole) || len(a.Measures) == 0 && a.Pipe.Size != "" && r.scene.unknown() != ""
}

func (r *reading) correctsLast() bool {
	return len(r.scene.elements) > 0 && r.scene.elements[0].term.is(senseCorrection)
}

// twoMeanings asks back where a word of the trade means two things, and both
// make sense here.
func (r *reading) twoMeanings(ask *Ask) Misunderstanding {
	other := func(word string, from, to Role) Misunderstanding {
		second := *ask
		second.Measures = slices.Clone(ask.Measures)
		for i := range second.Measures {
			if second.Measures[i].Role == from {
				second.Measures[i].Role = to
			}
		}
		if from == TakeoffOf {
			second.Ends[0].Depth, second.Ends[1].Depth = second.Ends[0].Takeoff, second.Ends[1].Takeoff
			second.Ends[0].Takeoff, second.Ends[1].Takeoff = 0, 0
		}
		return Misunderstanding{Trouble: TwoReadings, Subject: word, Readings: [][]Ask{{*ask}, {second}}}
	}
	said := func(word string) bool {
		return slices.ContainsFunc(r.labels, func(l label) bool { return l.term >= 0 && r.scene.elements[l.term].text == word })
	}
	_, set := ask.Length(Set)
	_, rise := ask.Length(Rise)
	_, run := ask.Length(Run)
	switch {
	case said("advance") && run && !set:
		return other("advance", Run, Set)
	case said("spread") && set && ask.Kind == Offset:
		return other("spread", Set, Spacing)
	case (said("makeup") || said("make up")) && ask.Ends[0].Takeoff > 0:
		return other("makeup", TakeoffOf, Depth)
	case set && rise && ask.Kind == Offset:
		return other("set", Set, Roll)
	case r.bareRolling() && !r.scene.hint("rolling"):
		return other("and", Roll, Set)
	}
	return r.wholeGrade(ask)
}

// wholeGrade asks back where a grade is a whole number and nothing else: a grade of
// 2 is more likely 2 in 100 than 2 inches in a foot.
func (r *reading) wholeGrade(ask *Ask) (m Misunderstanding) {
	for k := range r.labels {
		l := &r.labels[k]
		q := r.number(k)
		if l.role != Grade || q.unit != noUnit || !q.whole {
			continue
		}
		if l.term >= 0 {
			m.Subject = r.scene.elements[l.term].text
		}
		perCent := *ask
		perCent.Grade = geometry.Slope(q.number) * 12 / 100 * geometry.InchPerFoot
		m.Trouble, m.Readings = TwoReadings, [][]Ask{{perCent}, {*ask}}
		return m
	}
	return m
}

// bareRolling says whether two lengths were taken for roll and rise with only
// an "and" between them.
func (r *reading) bareRolling() bool {
	for k := range r.labels {
		l := &r.labels[k]
		if l.role == Rise && l.bare && k > 0 && r.scene.elements[r.at[k]-1].term.is(senseAnd) {
			return true
		}
	}
	return false
}

// unknown is the first word that means nothing here.
func (s *scene) unknown() string {
	for i := range s.elements {
		e := &s.elements[i]
		if e.word != "" {
			return e.word
		}
	}
	return ""
}

// sameWay says whether two measures were taken the same way.
func sameWay(a, b Method) bool {
	centers := func(m Method) bool { return m == "" || m == Centers }
	return a == b || centers(a) && centers(b)
}

// contradiction is the role that was given two plainly different values,
// measured the same way.
func contradiction(a *Ask) string {
	for i, m := range a.Measures {
		for _, n := range a.Measures[i+1:] {
			if m.Role != n.Role || !sameWay(m.Method, n.Method) || m.Role == TakeoffOf || m.Role == Reading || m.Role == Face || m.Role == Depth {
				continue
			}
			if diff := m.Length - n.Length; diff > 1.0/8 || diff < -1.0/8 {
				return string(m.Role)
			}
		}
	}
	return ""
}
