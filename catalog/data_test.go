package catalog_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dogleg/catalog"
)

// The tables as text: what a reader sees in them.

type record map[string]string

func table(t *testing.T, name string) []record {
	t.Helper()
	f, err := os.Open(filepath.Join("data", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []record
	for _, row := range rows[1:] {
		r := record{}
		for i, column := range rows[0] {
			r[column] = row[i]
		}
		all = append(all, r)
	}
	return all
}

func TestEveryRowHasAStandardAndASource(t *testing.T) {
	for name, columns := range map[string][]string{
		"pipes.csv":         {"standard", "source", "evidence"},
		"sockets.csv":       {"standard", "source", "evidence"},
		"takeoffs.csv":      {"standard", "source", "evidence", "band", "band_source"},
		"threads.csv":       {"standard", "source", "evidence", "makeup_source", "makeup_evidence", "other_source"},
		"fittings.csv":      {"source", "evidence"},
		"stock_lengths.csv": {"standard", "source", "evidence"},
		"kerfs.csv":         {"source", "evidence"},
		"systems.csv":       {"gap_source", "gap_evidence", "gap_note", "takeoff_means"},
		"sources.csv":       {"name", "kind", "license", "used_for", "seen"},
	} {
		rows := table(t, name)
		if len(rows) == 0 {
			t.Errorf("%s is empty", name)
		}
		for i, r := range rows {
			for _, column := range columns {
				if strings.TrimSpace(r[column]) == "" {
					t.Errorf("%s, row %d: no %s", name, i+2, column)
				}
			}
		}
	}
}

// What is recalled says so in its source, and what is found does not say that
// it is recalled.
func TestSourcesSayWhatTheEvidenceSays(t *testing.T) {
	for _, name := range []string{"pipes.csv", "sockets.csv", "takeoffs.csv", "fittings.csv"} {
		for i, r := range table(t, name) {
			recalled := strings.HasPrefix(r["source"], "recalled") || strings.HasSuffix(r["source"], ": recalled") || r["source"] == "common practice"
			if memory := r["evidence"] == string(catalog.Memory); memory != recalled {
				t.Errorf("%s, row %d: %s, from %q", name, i+2, r["evidence"], r["source"])
			}
			second := strings.HasPrefix(r["source"], "read second-hand")
			if got := r["evidence"] == string(catalog.SecondHand); got != second {
				t.Errorf("%s, row %d: %s, from %q", name, i+2, r["evidence"], r["source"])
			}
		}
	}
}

// A number may be taken from an open project only under a license that lets
// it be; the project is then named, with that license.
func TestOpenDataIsCreditedAndFree(t *testing.T) {
	var credited []string
	for _, r := range table(t, "sources.csv") {
		if r["kind"] != string(catalog.OpenData) {
			continue
		}
		if r["license"] != "MIT" && r["license"] != "Apache-2.0" {
			t.Errorf("%s is used under %q", r["name"], r["license"])
		}
		credited = append(credited, r["name"])
	}
	for _, name := range []string{"pipes.csv", "sockets.csv", "takeoffs.csv", "fittings.csv"} {
		for i, r := range table(t, name) {
			named := slices.ContainsFunc(credited, func(project string) bool { return strings.Contains(r["source"], project) })
			if r["evidence"] == string(catalog.OpenData) && !named {
				t.Errorf("%s, row %d: %q is not in sources.csv", name, i+2, r["source"])
			}
		}
	}
}

// How a takeoff is measured follows from the joint.
func TestTakeoffsRunToWhereTheJointEnds(t *testing.T) {
	to := map[catalog.Joint][]string{
		catalog.Solvent:    {"stop"},
		catalog.Solder:     {"stop"},
		catalog.SocketWeld: {"stop"},
		catalog.Thread:     {"end"},
		catalog.ButtWeld:   {"face"},
		catalog.NoHub:      {"end"},
		catalog.Hub:        {"hub seat", "end"},
	}
	for i, r := range table(t, "takeoffs.csv") {
		for id := range strings.FieldsSeq(r["systems"]) {
			s := system(t, id)
			if !slices.Contains(to[s.Joint], r["to"]) {
				t.Errorf("takeoffs.csv, row %d: %s to the %s", i+2, id, r["to"])
			}
			if atSpigot := r["end"] == "spigot"; s.Joint == catalog.Hub && atSpigot != (r["to"] == "end") {
				t.Errorf("takeoffs.csv, row %d: %s end to the %s", i+2, r["end"], r["to"])
			}
		}
	}
}

// A takeoff for a fitting that its system does not list could never be asked
// for.
func TestTakeoffsAreOfFittingsThatExist(t *testing.T) {
	for i, r := range table(t, "takeoffs.csv") {
		for id := range strings.FieldsSeq(r["systems"]) {
			if f := fitting(t, r["fitting"]); f.Key() != r["fitting"] || !system(t, id).Has(f) {
				t.Errorf("takeoffs.csv, row %d: %s has no %s", i+2, id, r["fitting"])
			}
		}
	}
}

func TestSystemsUseTheWordsOfTheTrade(t *testing.T) {
	materials := []catalog.Material{catalog.PVC, catalog.ABS, catalog.CPVC, catalog.Copper, catalog.Steel, catalog.CastIron, catalog.PEX, catalog.PP, catalog.PE}
	joints := []catalog.Joint{
		catalog.Solvent, catalog.Solder, catalog.Thread, catalog.ButtWeld,
		catalog.SocketWeld, catalog.NoHub, catalog.Hub, catalog.Crimp, catalog.PushFit, catalog.Fusion,
	}
	uses := []catalog.Use{"", catalog.DWV, catalog.Pressure, catalog.Sewer}
	for _, s := range catalog.Systems() {
		if !slices.Contains(materials, s.Material) || !slices.Contains(joints, s.Joint) || !slices.Contains(uses, s.Use) {
			t.Errorf("%+v", s)
		}
		for _, size := range s.Sizes() {
			if size.Metric() != s.Metric {
				t.Errorf("%s, metric %v, has a size %s", s.ID, s.Metric, size)
			}
		}
	}
}
