package main

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"text/tabwriter"
	"time"
)

// The benchmarks of this package measure the whole program against the least
// that the same work could cost, in the same run, so that what they say holds on
// any machine, and on a busy one. Each puts its findings into one table, which
// is printed behind what go test prints:
//
//	go test ./cmd/dogleg -run '^$' -bench .

// finding is one line of the table: what was measured, against which floor.
type finding struct{ what, ours, floor, ratio, aim string }

// findings are those of the benchmarks that ran, each by its last run: a
// benchmark is run several times until its length is right.
var findings []finding

// found puts a line into the table.
func found(f finding) {
	same := func(other finding) bool { return other.what == f.what }
	if at := slices.IndexFunc(findings, same); at >= 0 {
		findings[at] = f
		return
	}
	findings = append(findings, f)
}

// compared is a line of two durations, whose ratio goes with go test's own
// output too.
func compared(b *testing.B, what string, ours, floor time.Duration, unit, aim string) {
	ratio := float64(ours) / float64(floor)
	b.ReportMetric(ratio, unit)
	found(finding{what, brief(ours), brief(floor), fmt.Sprintf("%.2f ×", ratio), aim})
}

// brief is a duration as far as it can be trusted.
func brief(d time.Duration) string {
	switch {
	case d < 100*time.Microsecond:
		return d.Round(10 * time.Nanosecond).String()
	case d < 100*time.Millisecond:
		return d.Round(10 * time.Microsecond).String()
	}
	return d.Round(time.Millisecond).String()
}

// withTable is a run of tests that prints the table of its benchmarks at the
// end.
type withTable struct{ *testing.M }

func (m withTable) Run() int {
	code := m.M.Run()
	if len(findings) > 0 {
		printTable()
	}
	return code
}

func printTable() {
	w := tabwriter.NewWriter(os.Stdout, 0, 0, 1, ' ', 0)
	fmt.Fprintln(w, "| measured\t| dogleg\t| floor\t| ratio\t| aim\t|")
	fmt.Fprintln(w, "| ---\t| ---\t| ---\t| ---\t| ---\t|")
	for _, f := range findings {
		fmt.Fprintf(w, "| %s\t|\n", strings.Join([]string{f.what, f.ours, f.floor, f.ratio, f.aim}, "\t| "))
	}
	w.Flush()
}

// middle is the median of durations.
func middle(all []time.Duration) time.Duration { return share(all, 0.5) }

// share is the duration that this part of all stay within.
func share[T int | float64 | time.Duration](all []T, part float64) T {
	sorted := slices.Sorted(slices.Values(all))
	return sorted[min(int(part*float64(len(sorted))), len(sorted)-1)]
}
