package parser_test

import (
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
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

// value brings a value of the corpus to the form that given uses.
func value(key, v string) string {
	switch key {
	case "size", "material", "joint", "use", "schedule", "name", "want", "fittings", "method", "lines", "store", "come_back", "handbook":
		return v
	}
	for unit, scale := range map[string]float64{"mm": 1 / 25.4, "cm": 1 / 2.54} {
		if n, ok := strings.CutSuffix(v, unit); ok {
			f, _ := strconv.ParseFloat(n, 64)
			return inches(f * scale)
		}
	}
	if n, ok := strings.CutSuffix(v, "m"); ok {
		f, _ := strconv.ParseFloat(n, 64)
		return inches(f * 1000 / 25.4)
	}
	total := 0.0
	for p := range strings.SplitSeq(v, "-") {
		over, under, ok := strings.Cut(p, "/")
		n, _ := strconv.ParseFloat(over, 64)
		if ok {
			d, _ := strconv.ParseFloat(under, 64)
			n /= d
		}
		total += n
	}
	return inches(total)
}

// compare says how a statement differs from what was expected, or "".
func compare(e asks.Expectation, s parser.Statement) string {
	switch e.Mark {
	case "/":
		if s.Command == nil {
			return "no command" + describe(s)
		}
		verb, object, _ := strings.Cut(e.What, " ")
		if string(s.Command.Verb) != verb || object != "" && !strings.EqualFold(strings.ReplaceAll(object, "_", " "), s.Command.Object) {
			return fmt.Sprintf("command %v", *s.Command)
		}
		return ""
	case "!":
		return refusal(e, s)
	case "?":
		if e.What == "two readings" {
			if s.Misunderstanding == nil || s.Misunderstanding.Trouble != parser.TwoReadings {
				return "not asked back:" + describe(s)
			}
			return ""
		}
		if s.Misunderstanding != nil {
			if string(s.Misunderstanding.Wanted) != e.What {
				return "asked otherwise:" + describe(s)
			}
			return ""
		}
		if len(e.Keys) == 0 {
			return ""
		}
	case "~":
		if s.Ask == nil || !s.Ask.FollowUp {
			return "no follow-up:" + describe(s)
		}
	}
	if s.Ask == nil {
		return "not understood:" + describe(s)
	}
	if e.Kind != "" && string(s.Ask.Kind) != e.Kind {
		return "kind " + string(s.Ask.Kind) + describe(s)
	}
	if s.Ask.Kind == parser.Sum {
		return ""
	}
	got := given(s.Ask)
	want := map[string][]string{}
	for k, vs := range e.Keys {
		if k == "total" {
			continue
		}
		for _, v := range vs {
			want[k] = append(want[k], value(k, v))
		}
	}
	if _, ok := want["want"]; !ok {
		delete(got, "want")
	}
	if s.Ask.Method != "" && got["method"] == nil {
		got["method"] = []string{string(s.Ask.Method)}
	}
	if !maps.EqualFunc(got, want, func(a, b []string) bool {
		return slices.Equal(slices.Sorted(slices.Values(a)), slices.Sorted(slices.Values(b)))
	}) {
		return fmt.Sprintf("read %v", got)
	}
	return ""
}

// refusal checks what is to be refused as far as the words alone can tell; what
// only the figuring can tell is checked with it.
func refusal(e asks.Expectation, s parser.Statement) string {
	troubles := map[string][]parser.Trouble{
		"no such size":  {parser.NoSuchSize},
		"unknown":       {parser.UnknownWord, parser.OneSide, parser.NothingRead, parser.NotFiguring},
		"no such angle": {parser.NoSuchAngle},
		"bad number":    {parser.BadNumber, parser.TooLong},
		"contradiction": {parser.Contradiction},
		"not figuring":  {parser.NotFiguring, parser.NothingRead, parser.UnknownWord, parser.Unclaimed},
		"unclaimed":     {parser.Unclaimed},
	}
	if s.Misunderstanding != nil {
		if !slices.Contains(troubles[e.What], s.Misunderstanding.Trouble) {
			return "refused otherwise:" + describe(s)
		}
		return ""
	}
	if slices.Contains([]string{"not figuring", "unknown", "unclaimed"}, e.What) {
		return "answered:" + describe(s)
	}
	return "" // only the figuring can tell
}

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
