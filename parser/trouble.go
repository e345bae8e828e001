package parser

import (
	"math"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser/measure"
	learned "dogleg/parser/read"
	"dogleg/parser/words"
)

// refused says of a message what is wrong with it.
func refused(text string, trouble Trouble) Statement {
	return Statement{Text: text, Misunderstanding: &Misunderstanding{Trouble: trouble, Text: text}}
}

// mostShown is how many bytes of a message that is too long are shown.
const mostShown = 64

// unreadable says what is wrong with a message that no reading is looked for in: too
// much text, a figure that is none.
func unreadable(text string) *Misunderstanding {
	if m := tooLong(text); m != nil {
		return m
	}
	if figure := measure.Unreadable(text); figure != "" {
		return &Misunderstanding{Trouble: BadNumber, Text: text, Subject: figure}
	}
	return nil
}

// tooLong says that a message has more text than anyone asks with.
func tooLong(text string) *Misunderstanding {
	if !learned.TooLong(text) {
		return nil
	}
	return &Misunderstanding{Trouble: TooLong, Text: strings.ToValidUTF8(text[:min(len(text), mostShown)], "")}
}

// notFigured says that there is nothing to figure in a message: of one word that looks
// like one of the trade's, which.
func notFigured(text string) Statement {
	s := refused(text, NotFiguring)
	if fields := strings.Fields(text); len(fields) == 1 {
		if near := words.Nearest(strings.ToLower(fields[0])); len(near) > 0 {
			s.Misunderstanding.Trouble, s.Misunderstanding.Subject, s.Misunderstanding.Near = UnknownWord, fields[0], near
		}
	}
	return s
}

// checked is what a reading says, with what can't be in the place of an ask that holds
// it.
func checked(r learned.Reading) []Statement {
	for i, s := range r.Statements {
		if s.Ask == nil {
			continue
		}
		if m := wrong(s.Ask, r.Passed); m != nil {
			m.Text, m.Read = s.Text, *s.Ask
			r.Statements[i] = Statement{Text: s.Text, Misunderstanding: m}
		}
	}
	return r.Statements
}

// wrong is what is wrong with an ask, by itself or by the figures of its message that
// it passes over; nil where nothing is.
func wrong(a *Ask, passed []measure.Measure) *Misunderstanding {
	for _, x := range passed {
		switch {
		case x.Unit == measure.Degrees && (x.Number <= 0 || x.Number >= 180), x.Plural && x.Unit == measure.NoUnit && x.Number > 90 && a.Angle == 0:
			return &Misunderstanding{Trouble: NoSuchAngle, Subject: x.Text}
		case x.Number == 0 && x.Length():
			return &Misunderstanding{Trouble: BadNumber, Subject: x.Text}
		}
	}
	for _, m := range a.Measures {
		if m.Length > geometry.Longest || math.IsNaN(m.Length.Inches()) {
			found := &Misunderstanding{Trouble: BadNumber, Subject: m.Text}
			a.Measures = nil // read back they would be hundreds of digits
			return found
		}
	}
	if other := contradiction(a); other != "" {
		return &Misunderstanding{Trouble: Contradiction, Subject: string(other)}
	}
	return noSuchSize(a)
}

// noSuchSize says that the pipe of an ask is not sold in its size, and which are near.
func noSuchSize(a *Ask) *Misunderstanding {
	p := a.Pipe
	sizes := catalog.SizesOf(p.Material)
	if p.Size == "" || a.Kind == Saddle || MetricSize(p.Size) || len(sizes) == 0 || catalog.Sold(p.Material, p.Size) {
		return nil
	}
	found := &Misunderstanding{Trouble: NoSuchSize, Subject: string(p.Size), Wanted: SizeOf}
	for _, s := range catalog.Near(sizes, p.Size) {
		found.Near = append(found.Near, string(s))
	}
	return found
}

// contradiction is the role that was given two plainly different values, measured the
// same way.
func contradiction(a *Ask) Role {
	for i, m := range a.Measures {
		for _, n := range a.Measures[i+1:] {
			if m.Role != n.Role || !sameWay(m.Method, n.Method) || m.Role.OfFitting() || m.Role == Reading || m.Role == Set && a.Kind == Doglegs {
				continue
			}
			if math.Abs((m.Length - n.Length).Inches()) > 1.0/8 {
				return m.Role
			}
		}
	}
	return ""
}

// sameWay says whether two measures were taken the same way.
func sameWay(a, b Method) bool {
	centers := func(m Method) bool { return m == "" || m == Centers }
	return a == b || centers(a) && centers(b)
}
