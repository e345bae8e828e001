package words_test

import (
	"slices"
	"testing"

	"dogleg/parser/words"
)

func TestCarried(t *testing.T) {
	for text, want := range map[string][]string{
		"set 12 45s 3/4 copper gas line":                {"gas"},
		"set 12 45s 3/4 copper medical gas oxygen line": {"medical gas", "medical gas"},
		"2 pvc compressed air":                          {"compressed air"},
		"1-1/2 pvc cold water":                          {"water"},
		"4 Transite pipe, core drill through the wall":  {"asbestos cement", "masonry"},
		"12 set 45s 2 pvc through a joist":              {"joist"},
		"the water heater is in the way, 12 set 45s":    nil,
		"12 set 45s 2 pvc":                              nil,
		"línea de gas 3/4":                              {"gas"},
	} {
		if got := words.Carried(text); !slices.Equal(got, want) {
			t.Errorf("%q carries %q, want %q", text, got, want)
		}
	}
}
