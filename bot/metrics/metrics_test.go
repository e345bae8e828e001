package metrics_test

import (
	"encoding/json"
	"fmt"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"dogleg/bot/metrics"
	"dogleg/bot/telegram"

	"github.com/prometheus/client_golang/prometheus/testutil/promlint"
)

// read is what Prometheus gets to read.
func read(t *testing.T, m *metrics.Meters) string {
	t.Helper()
	response := httptest.NewRecorder()
	m.Handler().ServeHTTP(response, httptest.NewRequest("GET", "/metrics", nil))
	if response.Code != 200 {
		t.Fatalf("status %d: %s", response.Code, response.Body)
	}
	return response.Body.String()
}

func TestWhatIsCountedIsRead(t *testing.T) {
	health := new(telegram.Health)
	m := metrics.New([]string{"offset", "fit"}, health)
	if text := read(t, m); !strings.Contains(text, `dogleg_answers_total{kind="fit",outcome="misunderstood"} 0`) {
		t.Errorf("what hasn't happened yet is not there with 0:\n%s", text)
	}
	health.Updates.Add(7)
	health.Repeated.Add(2)
	health.Relayed.Add(5)
	health.Unsent.Add(3)
	health.Unheard.Add(4)
	health.Receiving.Store(true)
	m.Answer("offset", metrics.Answered)
	m.Answer("offset", metrics.Answered)
	m.Answer(metrics.NoAsk, metrics.Misunderstood)
	m.Cut(true)
	m.Cut(false)
	m.Cut(false)
	m.Figured(3 * time.Millisecond)
	m.Committed(20 * time.Millisecond)
	m.Heard(2 * time.Second)
	m.Delivered(time.Second)
	text := read(t, m)
	for _, line := range []string{
		`dogleg_updates_total{result="handled"} 7`,
		`dogleg_updates_total{result="repeated"} 2`,
		`dogleg_updates_total{result="relayed"} 5`,
		`dogleg_unsent_messages 3`,
		`dogleg_unheard_recordings 4`,
		`dogleg_receiving 1`,
		`dogleg_answers_total{kind="offset",outcome="answered"} 2`,
		`dogleg_answers_total{kind="none",outcome="misunderstood"} 1`,
		`dogleg_cuts_total{evidence="provisional"} 1`,
		`dogleg_cuts_total{evidence="sure"} 2`,
		`dogleg_figuring_seconds_sum 0.003`,
		`dogleg_commit_seconds_sum 0.02`,
		`dogleg_hearing_seconds_sum 2`,
		`dogleg_delivery_seconds_sum 1`,
	} {
		if !strings.Contains(text, line+"\n") {
			t.Errorf("lacks %s", line)
		}
	}
	if t.Failed() {
		t.Log(text)
	}
}

// Prometheus' own linter of names, units and help.
func TestNamesAreGood(t *testing.T) {
	problems, err := promlint.New(strings.NewReader(all(t))).Lint()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range problems {
		if strings.HasPrefix(p.Metric, "dogleg_") {
			t.Errorf("%s: %s", p.Metric, p.Text)
		}
	}
}

// all is what Prometheus reads of one of several machines, which is all there is.
func all(t *testing.T) string {
	t.Helper()
	m := metrics.New([]string{"offset"}, new(telegram.Health))
	m.Share(func() metrics.Journal {
		return metrics.Journal{Leading: true, Position: 12, Written: 5, Waited: 250 * time.Millisecond, Snapshots: 1}
	})
	return read(t, m)
}

// TestShareReadsTheJournal: the journal's counts are read when Prometheus reads.
func TestShareReadsTheJournal(t *testing.T) {
	text := all(t)
	for _, line := range []string{
		"dogleg_leading 1", "dogleg_journal_position 12", "dogleg_journal_written_total 5",
		"dogleg_journal_wait_seconds_total 0.25", "dogleg_snapshots_total 1",
	} {
		if !strings.Contains(text, "\n"+line+"\n") {
			t.Errorf("no line %q", line)
		}
	}
}

// TestCountsAddUp: parts with a health each are counted together, and the first
// says whether updates are received.
func TestCountsAddUp(t *testing.T) {
	receives, answers := new(telegram.Health), new(telegram.Health)
	receives.Relayed.Add(3)
	answers.Updates.Add(2)
	answers.Receiving.Store(true)
	text := read(t, metrics.New(nil, receives, answers))
	for _, line := range []string{`dogleg_updates_total{result="relayed"} 3`, `dogleg_updates_total{result="handled"} 2`, "dogleg_receiving 0"} {
		if !strings.Contains(text, "\n"+line+"\n") {
			t.Errorf("no line %q", line)
		}
	}
}

// named finds the metrics in a query or on a page.
var named = regexp.MustCompile(`\b(?:dogleg|process|go)_[a-z_]*[a-z]\b`)

// exists says whether a metric of this name is read, a histogram's parts too.
func exists(text, name string) bool {
	return strings.Contains(text, "\n"+name+" ") || strings.Contains(text, "\n"+name+"{")
}

// TestQueriesNameWhatExists looks at every query of the dashboard and of the
// alerts, and wants each of our metrics to be on the dashboard.
func TestQueriesNameWhatExists(t *testing.T) {
	text := all(t)
	queries := dashboardQueries(t)
	if len(queries) < 8 {
		t.Fatalf("%d queries found; they got lost, or this test no longer finds them", len(queries))
	}
	for _, query := range append(queries, alertQueries(t)...) {
		names := named.FindAllString(query, -1)
		if len(names) == 0 {
			t.Errorf("no metric in %q", query)
		}
		for _, name := range names {
			if !exists(text, name) {
				t.Errorf("%q names %s, which is not there", query, name)
			}
		}
	}
	shown := strings.Join(queries, "\n")
	for _, help := range regexp.MustCompile(`# HELP (dogleg_\w+)`).FindAllStringSubmatch(text, -1) {
		if !strings.Contains(shown, help[1]) {
			t.Errorf("%s is on no panel of the dashboard", help[1])
		}
	}
}

// TestPageNamesWhatExists holds the page on reading the metrics against them.
func TestPageNamesWhatExists(t *testing.T) {
	text := all(t)
	page, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range regexp.MustCompile("`(dogleg_[a-z_]+)").FindAllStringSubmatch(string(page), -1) {
		if !strings.Contains(text, "# HELP "+name[1]+" ") {
			t.Errorf("README.md has %s, which is not there", name[1])
		}
	}
	for _, help := range regexp.MustCompile(`# HELP (dogleg_\w+)`).FindAllStringSubmatch(text, -1) {
		if !strings.Contains(string(page), help[1]) {
			t.Errorf("README.md lacks %s", help[1])
		}
	}
}

func dashboardQueries(t *testing.T) (queries []string) {
	t.Helper()
	content, err := os.ReadFile(filepath.Join("..", "..", "deploy", "grafana.json"))
	if err != nil {
		t.Fatal(err)
	}
	var board struct {
		Panels []struct {
			Title   string
			Targets []struct{ Expr string }
		}
	}
	if err := json.Unmarshal(content, &board); err != nil {
		t.Fatal(err)
	}
	for _, p := range board.Panels {
		if len(p.Targets) == 0 {
			t.Errorf("panel %q asks nothing", p.Title)
		}
		for _, target := range p.Targets {
			queries = append(queries, target.Expr)
		}
	}
	return queries
}

func alertQueries(t *testing.T) (queries []string) {
	t.Helper()
	content, err := os.ReadFile(filepath.Join("..", "..", "deploy", "alerts.yml"))
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(content)) {
		if _, query, ok := strings.Cut(line, "expr: "); ok {
			queries = append(queries, strings.TrimSpace(query))
		}
	}
	if len(queries) == 0 {
		t.Error("no alert found")
	}
	return queries
}

func ExampleNew() {
	health := new(telegram.Health)
	m := metrics.New([]string{"offset"}, health)
	m.Answer("offset", metrics.Answered)
	response := httptest.NewRecorder()
	m.Handler().ServeHTTP(response, httptest.NewRequest("GET", "/metrics", nil))
	for line := range strings.Lines(response.Body.String()) {
		if strings.Contains(line, `kind="offset",outcome="answered"`) {
			fmt.Print(line)
		}
	}
	// Output: dogleg_answers_total{kind="offset",outcome="answered"} 1
}
