package parser_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"dogleg/catalog"
	"dogleg/parser"
	"dogleg/parser/asks"
)

// The corpus under testdata/asks was written by thinking as the people who
// ask, before the parser read any of it. See its README for the form.

func corpus(t testing.TB, pattern string) []asks.Message {
	t.Helper()
	all, err := asks.Read(pattern)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// given lists what an ask states, in the words of the corpus.
func given(a *parser.Ask) map[string][]string {
	g := map[string][]string{}
	add := func(k, v string) {
		if v != "" && (v != "0" || strings.HasPrefix(k, "gap_now")) {
			g[k] = append(g[k], v)
		}
	}
	for _, m := range a.Measures {
		if m.Method != "" && m.Method != parser.Centers {
			add("method", string(m.Method))
			add("measured", inches(m.Length.Inches()))
			continue
		}
		add(string(m.Role), inches(m.Length.Inches()))
	}
	add("angle", inches(a.Angle.Degrees()))
	add("size", strings.ReplaceAll(string(a.Pipe.Size), " mm", "mm"))
	add("material", string(a.Pipe.Material))
	add("joint", string(a.Pipe.Joint))
	add("use", string(a.Pipe.Use))
	add("schedule", a.Pipe.Schedule)
	add("grade", inches(a.Grade.InchesPerFoot()))
	add("lines", strconv.Itoa(a.Lines))
	add("name", strings.ToLower(a.Name))
	add("want", string(a.Want))
	add("fittings", fittings(a))
	for key, on := range map[string]bool{"store": a.Store, "come_back": a.ComeBack, "handbook": a.Handbook} {
		if on {
			add(key, "yes")
		}
	}
	return g
}

func fittings(a *parser.Ask) string {
	var names []string
	for _, e := range a.Ends {
		if e.Fitting != (catalog.Fitting{}) {
			names = append(names, strings.ReplaceAll(e.Fitting.Key(), " ", "-"))
		}
	}
	return strings.Join(names, ",")
}

func inches(v float64) string { return strconv.FormatFloat(math.Round(v*1e6)/1e6, 'f', -1, 64) }

func describe(s parser.Statement) string {
	switch {
	case s.Command != nil:
		return fmt.Sprintf(" command %v", *s.Command)
	case s.Misunderstanding != nil:
		m := s.Misunderstanding
		return fmt.Sprintf(" %s %q near %v wanted %q", m.Trouble, m.Subject, m.Near, m.Wanted)
	}
	return fmt.Sprintf(" %s %v followup=%v", s.Ask.Kind, given(s.Ask), s.Ask.FollowUp)
}
