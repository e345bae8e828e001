package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// tally counts what came of examples, in all, by sort and by file.
type tally struct {
	names  []string // of what is counted
	counts map[string][]int
	all    map[string]int
}

func newTally(names ...string) *tally {
	return &tally{names, map[string][]int{}, map[string]int{}}
}

// add counts an example; what came of it is told in the order of the names.
func (t *tally) add(x *example, came ...bool) {
	for _, key := range []string{"all", x.sort, x.File} {
		if t.counts[key] == nil {
			t.counts[key] = make([]int, len(t.names))
		}
		t.all[key]++
		for i, yes := range came {
			if yes {
				t.counts[key][i]++
			}
		}
	}
}

// percent is the share, of all examples, of what came of them.
func (t *tally) percent(key, name string) float64 {
	if t.all[key] == 0 {
		return 0
	}
	return 100 * float64(t.counts[key][slices.Index(t.names, name)]) / float64(t.all[key])
}

// String is a table, the files first and all of them last.
func (t *tally) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%-36s %6s", "", "")
	for _, name := range t.names {
		fmt.Fprintf(&b, " %12s", name)
	}
	b.WriteByte('\n')
	keys := slices.SortedFunc(maps.Keys(t.counts), func(a, b string) int {
		if x, y := strings.HasSuffix(a, ".txt"), strings.HasSuffix(b, ".txt"); x != y {
			if x {
				return -1
			}
			return 1
		}
		return strings.Compare(b, a) // "all" comes last
	})
	for _, key := range keys {
		fmt.Fprintf(&b, "%-36s %6d", key, t.all[key])
		for _, name := range t.names {
			fmt.Fprintf(&b, " %10.1f %%", t.percent(key, name))
		}
		b.WriteByte('\n')
	}
	return b.String()
}
