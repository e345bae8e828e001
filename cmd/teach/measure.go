package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"dogleg/bot/figure"
	"dogleg/parser"
	"dogleg/parser/ask"
	"dogleg/parser/read"
)

// shown says whether what fails of an example is to be printed.
func (x *example) shown(show string) bool {
	return show != "" && (show == "all" || strings.Contains(x.File, show))
}

// coverage says for how many examples a path says what is meant.
func coverage(in []*example, show string) {
	t := newTally("covered")
	for i, l := range lessons(in) {
		if l == nil {
			continue
		}
		t.add(in[i], l.Covered())
		if !l.Covered() && in[i].shown(show) {
			in[i].print(in[i].differs(l.Near))
		}
	}
	fmt.Print(t)
}

// likeliest says how often a model's likeliest reading is right, whatever its
// probability, and how often the right one is among the six likeliest.
func likeliest(m *read.Model, in []*example, show string) {
	t := newTally("right", "of six", "sure", "sure wrong")
	began := time.Now()
	var outcomes []outcome
	for _, x := range in {
		if !x.teachable() {
			continue
		}
		r := read.Gather(m.Read(x.Text, x.said), parser.Same)
		at := slices.IndexFunc(r, func(r read.Reading) bool { return x.differs(r.Statements) == "" })
		if len(r) > 0 {
			outcomes = append(outcomes, outcome{r[0].Probability, at == 0, at != 0 && x.figuresOtherwise(r[0].Statements)})
		}
		sure := len(r) > 0 && r[0].Probability > 0.9
		t.add(x, at == 0, at >= 0 && at < 6, sure, sure && at != 0 && anyAsk(r[0].Statements))
		if at != 0 && len(r) > 0 && x.shown(show) {
			x.print(fmt.Sprintf("p=%.2f, right at %d: %s", r[0].Probability, at, x.differs(r[0].Statements)))
		}
	}
	fmt.Print(t)
	curve(outcomes, len(in))
	fmt.Printf("%.2f ms a message\n", time.Since(began).Seconds()*1000/float64(max(1, len(in))))
}

// anyAsk says whether anything is asked.
func anyAsk(s []ask.Statement) bool {
	return slices.ContainsFunc(s, func(s ask.Statement) bool { return s.Ask != nil })
}

// answered says how well messages are answered: right at once; asked back, with the
// right reading among those offered; figured from a wrong reading. It returns the
// shares, in percent, of the first and of the last.
func answered(in []*example, show string) (right, wrong float64) {
	t := newTally("right", "or a tap", "otherwise", "wrong")
	for _, x := range in {
		if x.sort == broken {
			continue
		}
		s := parser.Read(x.Text, x.said)
		d := "answered, want a question"
		switch {
		case x.sort != refused && x.sort != which:
			d = x.differs(s)
		case !anyAsk(s):
			d = "" // it is asked about, or refused
		}
		otherwise := d != "" && anyAsk(s)
		figured := otherwise && x.figuresOtherwise(s)
		t.add(x, d == "", d == "" || x.offered(s), otherwise, figured)
		if figured && x.shown(show) {
			x.print(d)
		}
	}
	fmt.Print(t)
	return t.percent("all", "right"), t.percent("all", "wrong")
}

// offered says whether what is meant is one tap away.
func (x *example) offered(s []ask.Statement) bool {
	return slices.ContainsFunc(s, func(s ask.Statement) bool {
		m := s.Misunderstanding
		if m == nil {
			return false
		}
		if len(x.meant) == 1 && x.meant[0].Verb != "" && slices.ContainsFunc(m.Commands, func(v ask.Verb) bool { return sameVerb(&ask.Command{Verb: v}, x.meant[0].Verb) }) {
			return true
		}
		return slices.ContainsFunc(m.Readings, func(asks []ask.Ask) bool {
			var s []ask.Statement
			for _, a := range asks {
				s = append(s, ask.Statement{Ask: &a})
			}
			return x.differs(s) == ""
		})
	})
}

// figuresOtherwise says whether a figure comes of a reading that isn't one of what
// is meant, or something is kept.
func (x *example) figuresOtherwise(s []ask.Statement) bool {
	var meant []*figure.Answer
	for _, w := range x.want {
		if w != nil {
			if a, err := figure.Solve(*w, figure.Settings{}); err == nil {
				meant = append(meant, a)
			}
		}
	}
	last := x.said.Last
	for _, one := range s {
		if one.Ask == nil || one.Ask.Sum != nil && len(one.Ask.Sum.Terms) == 1 {
			continue // what a number alone is for is asked
		}
		whole := asWhole(*one.Ask, last)
		last = &whole
		got, err := figure.Solve(whole, figure.Settings{})
		if err == nil && !slices.ContainsFunc(meant, func(a *figure.Answer) bool { return sameFigures(a, got) }) {
			return true
		}
	}
	return false
}

// sameFigures says whether two answers come to the same.
func sameFigures(a, b *figure.Answer) bool {
	l, ok := a.Length(a.Main)
	m, also := b.Length(a.Main)
	return a.Ask.Store == b.Ask.Store && ok == also && ask.Near(l.Inches(), m.Inches()) &&
		ask.Near(a.Angle.Degrees(), b.Angle.Degrees()) && ask.Near(a.Grade.InchesPerFoot(), b.Grade.InchesPerFoot()) &&
		ask.Near(a.Sum.Number, b.Sum.Number) && (ok || a.Main == b.Main)
}

// calibration prints how often the likeliest reading is right, by its probability.
func calibration(in []*example) {
	const bins = 10
	var all, right [bins + 1]int
	for _, x := range in {
		if !x.teachable() {
			continue
		}
		r := read.Gather(read.Learned().Read(x.Text, x.said), parser.Same)
		if len(r) == 0 {
			continue
		}
		b := int(r[0].Probability * bins)
		all[b]++
		if x.differs(r[0].Statements) == "" {
			right[b]++
		}
	}
	for i := range bins {
		fmt.Printf("p %.1f to %.1f: %4d messages, %5.1f %% right\n", float64(i)/bins, float64(i+1)/bins, all[i], 100*float64(right[i])/float64(max(1, all[i])))
	}
}
