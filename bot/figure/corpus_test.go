package figure_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"
	"dogleg/parser/asks"
)

// TestCorpus takes every message of the corpus through reading and figuring:
// what must be asked back is asked back, what must be refused is refused, and
// no cut comes of either.
func TestCorpus(t *testing.T) {
	all, err := asks.Read("../../testdata/asks/*.txt")
	if err != nil {
		t.Fatal(err)
	}
	read := 0
	for _, m := range all {
		said := parser.Parse(m.Text)
		if len(said) != len(m.Want) {
			continue // how well it is read is measured elsewhere
		}
		for i, want := range m.Want {
			if !isRead(want, said[i]) {
				continue
			}
			read++
			if problem := judge(want, said[i]); problem != "" {
				t.Errorf("%s:%d %q\n\twant %s\n\t%s", m.File, m.Line, m.Text, want.Line, problem)
			}
		}
	}
	if read < 1000 {
		t.Errorf("%d messages are read as they are labelled", read)
	}
}

// isRead says whether a statement is what its label says.
func isRead(want asks.Expectation, s parser.Statement) bool {
	label, err := want.Ask()
	return err == nil && label != nil && s.Ask != nil && asks.Same(asks.FactsOf(label), asks.FactsOf(s.Ask)) == ""
}

func judge(want asks.Expectation, s parser.Statement) string {
	if s.Ask == nil || want.Mark == "/" || want.Mark == "~" {
		return ""
	}
	answer, err := figure.Solve(*s.Ask, figure.Settings{})
	var missing *figure.Missing
	var impossible *figure.Impossible
	switch {
	case want.Mark == "?" && want.What != "two readings":
		if !errors.As(err, &missing) || string(missing.Wanted) != want.What {
			return outcome(answer, err)
		}
	case want.Mark == "!":
		if !errors.As(err, &impossible) || !slices.Contains(causes[want.What], impossible.Cause) {
			return outcome(answer, err)
		}
	case want.Mark == "":
		if errors.As(err, &missing) {
			return outcome(answer, err)
		}
	}
	return ""
}

// causes lists what figuring may find of what the corpus calls a trouble.
var causes = map[string][]figure.Cause{
	"no such angle": {figure.NoSuchFitting, figure.BadGeometry},
	"no such size":  {figure.NoSuchSize},
	"bad number":    {figure.BadGeometry},
	"contradiction": {figure.BadGeometry, figure.AnglesDiffer, figure.Overgiven},
}

func outcome(a *figure.Answer, err error) string {
	if err != nil {
		return err.Error()
	}
	main, _ := a.Length(a.Main)
	return fmt.Sprintf("answered %s %s", a.Main, main.Tape(geometry.Sixteenths))
}
