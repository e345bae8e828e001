package main

import (
	"fmt"
	"log"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"dogleg/geometry"
	"dogleg/parser"
	"dogleg/parser/ask"
	"dogleg/parser/asks"
	"dogleg/parser/measure"
	"dogleg/parser/read"
)

// example is a message of the corpus with what stood before it.
type example struct {
	asks.Message
	said  read.Said
	meant []read.Meant
	want  []*ask.Ask // of each line, as a whole ask; nil where it is none
	sort  string
}

// The sorts of examples.
const (
	plain   = "plain"
	several = "several"
	change  = "change"
	command = "command"
	nothing = "none"
	which   = "which" // two readings are as good
	refused = "refused"
	broken  = "broken" // its label can't be read
)

// teachable says whether an example says what is meant in full.
func (x *example) teachable() bool { return x.sort != refused && x.sort != broken }

// train is the part that the reader learns from. The messages that stand beside
// the folder of the people's are in it too.
const train = "train"

// corpus reads all messages under a folder, by the part that their writer is in.
func corpus(dir string) (map[string][]*example, error) {
	people := filepath.Join(dir, "people")
	part, err := parts(filepath.Join(people, "parts.csv"))
	if err != nil {
		return nil, err
	}
	byPart := map[string][]*example{}
	for _, folder := range []string{people, dir} {
		files, err := filepath.Glob(filepath.Join(folder, "*.txt"))
		if err != nil {
			return nil, err
		}
		for _, f := range files {
			p := train
			if folder == people {
				if p = part[strings.TrimSuffix(filepath.Base(f), ".txt")]; p == "" {
					return nil, fmt.Errorf("%s is in no part: see parts.csv", f)
				}
			}
			x, err := load(f)
			if err != nil {
				return nil, err
			}
			byPart[p] = append(byPart[p], x...)
		}
	}
	return byPart, nil
}

// parts says which set of messages belongs to which part.
func parts(name string) (map[string]string, error) {
	b, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	out := map[string]string{}
	for line := range strings.Lines(string(b)) {
		if f := strings.Split(strings.TrimSpace(line), ","); len(f) > 1 {
			out[f[0]] = f[1]
		}
	}
	return out, nil
}

// load reads the messages of a file in order: each change changes what stands just
// above it.
func load(file string) ([]*example, error) {
	all, err := asks.Read(file)
	if err != nil {
		return nil, err
	}
	var out []*example
	var said read.Said
	for _, m := range all {
		x := &example{Message: m, said: said}
		said.Wanted = ""
		for _, e := range m.Want {
			a, err := e.Ask()
			if err != nil {
				log.Printf("%s:%d: %v", m.File, m.Line, err)
				x.sort = broken
				continue
			}
			x.add(e, a, &said)
		}
		x.simplify()
		if len(x.meant) > 1 && x.teachable() {
			x.sort = several
		}
		out = append(out, x)
	}
	return out, nil
}

// nothings are the expectations that ask nothing, with the reader's names of them.
var nothings = map[string]string{"withdrawn": "withdrawn", "nothing asked": "talk", "not for this": "elsewhere"}

// add adds one thing that is meant; said is what has been said so far.
func (x *example) add(e asks.Expectation, a *ask.Ask, said *read.Said) {
	var w read.Meant
	var whole *ask.Ask
	switch {
	case e.Mark == "/":
		verb, _, _ := strings.Cut(e.What, " ")
		w.Verb, x.sort = ask.Verb(verb), command
	case e.Mark == "?" && e.Kind == "":
		w.Nothing, x.sort = e.What, which
	case e.Mark == "!" && e.Kind == "":
		w.Nothing, x.sort = nothings[e.What], nothing
		if w.Nothing == "" {
			x.sort = refused
		}
	default:
		w.Ask, x.sort = a, plain
		full := *a
		if a.FollowUp {
			x.sort = change
			full = asWhole(*a, said.Last)
		}
		full.Measures = withReadings(full.Measures, x.Text)
		whole, said.Last = &full, &full
		if e.Mark == "?" {
			said.Wanted = ask.Role(strings.Fields(e.What)[0])
		}
	}
	x.meant, x.want = append(x.meant, w), append(x.want, whole)
}

// withReadings gives the steps of a line that a message tells as the difference of two
// readings those readings, which its label leaves out: what is asked next may tell one of
// them anew.
func withReadings(in []ask.Measure, text string) []ask.Measure {
	out := slices.Clone(in)
	var told []float64 // in inches
	tokens := measure.Tokens(text)
	for i := range tokens {
		for _, x := range measure.At(text, tokens, i) {
			if !x.Length() || x.Plural {
				continue
			}
			told = append(told, x.Inches())
			if x.Unit == measure.NoUnit {
				told = append(told, x.Number/25.4)
			}
		}
	}
	for i := range out {
		m := &out[i]
		if m.Role != ask.Set && m.Role != ask.Roll && m.Role != ask.Rise || slices.ContainsFunc(told, func(v float64) bool { return ask.Near(v, m.Length.Inches()) }) {
			continue
		}
		for k, a := range told {
			for _, b := range told[:k] {
				if ask.Near(math.Abs(a-b), m.Length.Inches()) {
					m.Apart, m.Readings = true, [2]geometry.Length{geometry.Length(max(a, b)), geometry.Length(min(a, b))}
				}
			}
		}
	}
	return out
}

// asWhole is an ask with what it changes.
func asWhole(a ask.Ask, last *ask.Ask) ask.Ask {
	if a.FollowUp && last != nil {
		a = last.With(a)
	}
	a.FollowUp = false
	return a
}

// simplify drops what needs no answer of its own: talk beside an ask, and the same
// ask for another of its figures.
func (x *example) simplify() {
	var meant []read.Meant
	var want []*ask.Ask
	asked := slices.ContainsFunc(x.want, func(a *ask.Ask) bool { return a != nil })
	for i, w := range x.meant {
		n := len(want)
		switch {
		case asked && w.Nothing != "" && w.Nothing != string(ask.TwoReadings):
		case n > 0 && want[n-1] != nil && x.want[i] != nil && asks.Same(asks.FactsOf(want[n-1]), asks.FactsOf(x.want[i])) == "":
		default:
			meant, want = append(meant, w), append(want, x.want[i])
		}
	}
	x.meant, x.want = meant, want
	if asked && x.sort == nothing {
		x.sort = plain
	}
}

// differs says how statements differ from what is meant, or "".
func (x *example) differs(said []ask.Statement) string {
	if len(said) != len(x.meant) {
		return fmt.Sprintf("%d statements, want %d", len(said), len(x.meant))
	}
	last := x.said.Last
	for i, s := range said {
		w := x.meant[i]
		switch {
		case w.Verb != "":
			if s.Command == nil || !sameVerb(s.Command, w.Verb) {
				return "no command " + string(w.Verb)
			}
		case w.Nothing != "":
			if s.Ask != nil || s.Command != nil || (w.Nothing == string(ask.TwoReadings)) != parser.EitherOf(s) {
				return "something, want " + w.Nothing
			}
		case s.Ask == nil || x.want[i] == nil:
			return "no ask"
		default:
			got := asWhole(*s.Ask, last)
			if d := asks.Same(asks.FactsOf(x.want[i]), asks.FactsOf(&got)); d != "" {
				return d
			}
			last = &got
		}
	}
	return ""
}

// saysAll says whether statements hold what is often left to be understood, too: the
// joint, the use and the schedule.
func (x *example) saysAll(said []ask.Statement) bool {
	last := x.said.Last
	for i, s := range said {
		if s.Ask == nil || x.want[i] == nil {
			continue
		}
		got := asWhole(*s.Ask, last)
		last = &got
		w, g := asks.FactsOf(x.want[i]).Words, asks.FactsOf(&got).Words
		if w["joint"] != g["joint"] || w["use"] != g["use"] || w["schedule"] != g["schedule"] {
			return false
		}
	}
	return true
}

func sameVerb(c *ask.Command, verb ask.Verb) bool {
	return c.Verb == verb || c.Verb == ask.Setting && (verb == "metric" || verb == "inches") ||
		(c.Verb == ask.Glossary || c.Verb == ask.Rule) && verb == ask.Explain
}

// print prints an example, what is meant by it, and what came of it.
func (x *example) print(what string) {
	fmt.Printf("%s:%d [%s] %q\n", x.File, x.Line, x.sort, x.Text)
	for _, e := range x.Want {
		fmt.Printf("\t%s\n", e.Line)
	}
	fmt.Printf("\t-> %s\n", what)
}
