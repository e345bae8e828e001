package parser

import (
	"strings"

	"dogleg/catalog"
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
	var out []Statement
	for _, p := range parts(clean) {
		out = append(out, p.statement())
	}
	out = inherited(out)
	if len(out) == 0 {
		out = append(out, refused(clean, &Misunderstanding{Trouble: NothingRead, Text: clean}))
	}
	return out
}

func refused(text string, m *Misunderstanding) Statement {
	return Statement{Text: text, Misunderstanding: m}
}

// part is one stretch of a message that says one thing.
type part struct {
	text     string
	name     string // of the job, in front of it
	elements []element
}

// statement reads one part.
func (p part) statement() Statement {
	if c := command(p.text, p.elements); c != nil {
		return Statement{Text: p.text, Command: c}
	}
	said := adjusted(corrected(p.elements))
	if a := arithmetic(p.text, said); a != nil {
		a.Name = p.name
		return Statement{Text: p.text, Ask: a}
	}
	best, second := read(p.text, said)
	if best == nil {
		return refused(p.text, &Misunderstanding{Trouble: Unclaimed, Text: p.text})
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
	if other.Kind != ask.Kind && (other.Kind == Unstated || ask.Kind == Unstated) {
		return nil
	}
	return &Misunderstanding{
		Trouble: TwoReadings, Text: text, Subject: r.difference(second), Read: *ask, Readings: []Ask{*ask, *other},
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
		q := r.scene.elements[r.at[k]].quantity
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
	m := &Misunderstanding{Text: text, Read: *ask}
	for k, l := range r.labels {
		q := r.scene.elements[r.at[k]].quantity
		m.Subject = strings.TrimSpace(q.text)
		switch {
		case q.bad != "" || infinite(q.value) || q.length() > longestLength && isMeasure(l):
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
	return r.troubleOfWhole(ask, m)
}

func nearSizes(m catalog.Material, size catalog.Size) []string {
	var out []string
	for _, s := range catalog.Near(catalog.SizesOf(m), size) {
		out = append(out, string(s))
	}
	return out
}

// troubleOfWhole is what is wrong with an ask although every number has its
// place.
func (r *reading) troubleOfWhole(ask *Ask, m *Misunderstanding) *Misunderstanding {
	m.Subject = ""
	switch {
	case ask.empty():
		m.Trouble = NothingRead
		if w := r.scene.unknown(); w != "" {
			m.Trouble, m.Subject, m.Near = UnknownWord, w, nearest(w)
		}
	case r.scene.hint("shopping") && !ask.hasLength():
		m.Trouble = NotFiguring
	case contradiction(ask) != "":
		m.Trouble, m.Subject = Contradiction, contradiction(ask)
	default:
		return nil
	}
	return m
}

// unknown is the first word that means nothing here.
func (s *scene) unknown() string {
	for _, e := range s.elements {
		if e.word != "" {
			return e.word
		}
	}
	return ""
}

// empty says whether nothing of the trade was read at all.
func (a *Ask) empty() bool {
	return a.Kind == Unstated && len(a.Measures) == 0 && a.Angle == 0 && a.Pipe == (catalog.Pipe{}) &&
		a.Grade == 0 && a.Lines == 0 && a.Ends == [2]End{} && !a.Handbook && !a.Sensitivity && !a.ComeBack && a.Want == ""
}

func (a *Ask) hasLength() bool { return len(a.Measures) > 0 }

// contradiction is the role that was given two plainly different values,
// measured the same way.
func contradiction(a *Ask) string {
	for i, m := range a.Measures {
		for _, n := range a.Measures[i+1:] {
			if m.Role != n.Role || m.Method != n.Method || m.Role == TakeoffOf || m.Role == Reading || m.Role == Face || m.Role == Depth {
				continue
			}
			if diff := m.Length - n.Length; diff > 1.0/8 || diff < -1.0/8 {
				return string(m.Role)
			}
		}
	}
	return ""
}
