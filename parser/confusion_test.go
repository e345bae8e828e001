package parser_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"dogleg/parser"
)

// TestConfusion counts, over the whole corpus, which kind was asked and which
// was understood, and prints the table: a gap in the language shows as a figure
// off the diagonal. Run it with -v to see it.
func TestConfusion(t *testing.T) {
	counts := map[string]map[string]int{}
	for _, m := range corpus(t, "../testdata/asks/*.txt") {
		said := parser.Parse(m.Text)
		for i, e := range m.Want {
			asked := e.Kind
			if asked == "" {
				asked = map[string]string{"?": "(ask back)", "!": "(refuse)", "~": "(change)", "/": "(command)"}[e.Mark]
			}
			understood := "(nothing)"
			if i < len(said) {
				understood = kindOf(said[i])
			}
			if counts[asked] == nil {
				counts[asked] = map[string]int{}
			}
			counts[asked][understood]++
		}
	}
	t.Log("\n" + table(counts))
	for asked, row := range counts {
		if strings.HasPrefix(asked, "(") {
			continue
		}
		for understood, n := range row {
			if understood != asked && !strings.HasPrefix(understood, "(") {
				t.Errorf("%d of %s taken for %s", n, asked, understood)
			}
		}
	}
}

func kindOf(s parser.Statement) string {
	switch {
	case s.Command != nil:
		return "(command)"
	case s.Misunderstanding != nil:
		return "(refuse)"
	case s.Ask.FollowUp:
		return "(change)"
	}
	return string(s.Ask.Kind)
}

func table(counts map[string]map[string]int) string {
	var b strings.Builder
	for _, asked := range slices.Sorted(maps.Keys(counts)) {
		fmt.Fprintf(&b, "%-12s", asked)
		for _, understood := range slices.Sorted(maps.Keys(counts[asked])) {
			fmt.Fprintf(&b, "  %s %d", understood, counts[asked][understood])
		}
		b.WriteByte('\n')
	}
	return b.String()
}
