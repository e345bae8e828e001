package store_test

import (
	"bytes"
	"encoding/csv"
	"errors"
	"strings"
	"testing"
	"time"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/store"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// What is written reads back the same, to the last bit of its length.
func TestTableRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var want []store.Takeoff
		for range rapid.IntRange(0, 8).Draw(t, "rows") {
			s := rapid.SampledFrom(catalog.Systems()).Draw(t, "system")
			f := catalog.BendOf(rapid.SampledFrom(geometry.Bends()).Draw(t, "bend"))
			f.Street = rapid.Bool().Draw(t, "street")
			want = append(want, store.Takeoff{
				System: s.ID, Fitting: f.Key(), Size: rapid.SampledFrom(s.Sizes()).Draw(t, "size"),
				Line:   rapid.StringMatching(`([a-z",=+@'-]{1,6}( [a-zñ",]{1,6}){0,2})?`).Draw(t, "line"),
				Length: geometry.Length(rapid.Float64Range(0.001, 40).Draw(t, "inches")),
				How:    rapid.SampledFrom([]string{"", "center to stop", "dry fit"}).Draw(t, "how"),
				When:   noon.Add(time.Duration(rapid.Int64Range(0, 1e6).Draw(t, "seconds")) * time.Second),
			})
		}
		var table bytes.Buffer
		if err := store.WriteTakeoffs(&table, want); err != nil {
			t.Fatal(err)
		}
		got, err := store.ReadTakeoffs(&table, time.Time{}, nil)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("(-written +read):\n%s", diff)
		}
	})
}

func TestTableAsItIsWritten(t *testing.T) {
	var table bytes.Buffer
	err := store.WriteTakeoffs(&table, []store.Takeoff{
		sixteenths("pvc-dwv", "45", "2", "the grey ones", 18),
		{System: "copper-metric", Fitting: "90", Size: "22 mm", Length: 13 * geometry.Millimeter, How: "face, less depth", When: noon},
	})
	if err != nil {
		t.Fatal(err)
	}
	day := noon.Format(time.RFC3339)
	want := "system,fitting,size,line,inches,how,when\n" +
		"pvc-dwv,45,2,the grey ones,1-1/8,center to stop," + day + "\n" +
		"copper-metric,90,22 mm,,0.5118110236220472,\"face, less depth\"," + day + "\n" // 13 / 25.4
	if diff := cmp.Diff(want, table.String()); diff != "" {
		t.Errorf("table (-want +got):\n%s", diff)
	}
}

// A spreadsheet takes no cell for a formula, whatever the line is called.
func TestTableHasNoFormulas(t *testing.T) {
	var table bytes.Buffer
	for _, line := range []string{"=1+1", "+cmd", "-2", "@sum(a1)", "\t=1", "'=1"} {
		takeoff := sixteenths("pvc-dwv", "45", "2", line, 18)
		takeoff.How = line
		if err := store.WriteTakeoffs(&table, []store.Takeoff{takeoff}); err != nil {
			t.Fatal(err)
		}
	}
	rows, err := csv.NewReader(&table).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		for _, cell := range row {
			if cell != "" && strings.ContainsAny(cell[:1], "=+-@\t\r") {
				t.Errorf("the cell %q is a formula", cell)
			}
		}
	}
}

// A table that someone typed: other order, other columns, nothing but what is
// needed.
func TestTableAsPeopleWriteIt(t *testing.T) {
	table := "\ufeffInches,remark,Fitting, size,system\r\n1-1/8,measured twice,45,2,pvc-dwv\r\n5/16,,90,1/2,copper\r\n"
	got, err := store.ReadTakeoffs(strings.NewReader(table), noon, nil)
	if err != nil {
		t.Fatal(err)
	}
	want := []store.Takeoff{
		{System: "pvc-dwv", Fitting: "45", Size: "2", Length: 1.125, When: noon},
		{System: "copper", Fitting: "90", Size: "1/2", Length: 0.3125, When: noon},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("takeoffs (-want +got):\n%s", diff)
	}
}

func TestTableThatIsWrong(t *testing.T) {
	const header = "system,fitting,size,line,inches,how,when\n"
	good := "pvc-dwv,45,2,,1-1/8,,\n"
	for name, test := range map[string]struct{ table, want string }{
		"empty":             {"", "no header"},
		"no header":         {good, "the header has no system"},
		"no such system":    {header + good + "clay,45,2,,1-1/8,,\n", `line 3: no system "clay"`},
		"no such fitting":   {header + "pvc-dwv,elbow,2,,1-1/8,,\n", `line 2: no fitting "elbow"`},
		"no such size":      {header + "pvc-dwv,45,7,,1-1/8,,\n", "line 2: no 7 in PVC DWV"},
		"a date":            {header + "pvc-dwv,45,2,,8-Jan,,\n", `line 2: "8-Jan" is no takeoff`}, // what a spreadsheet makes of 1/8
		"no length":         {header + "pvc-dwv,45,2,,0,,\n", `"0" is no takeoff`},
		"not a number":      {header + "pvc-dwv,45,2,,NaN,,\n", `"NaN" is no takeoff`},
		"no day":            {header + "pvc-dwv,45,2,,1-1/8,,yesterday\n", `"yesterday" is no day`},
		"a field too few":   {header + "pvc-dwv,45,2\n", "wrong number of fields"},
		"refused by others": {header + "pvc-dwv,45,2,,9,,\n", "line 2: too long"},
	} {
		t.Run(name, func(t *testing.T) {
			got, err := store.ReadTakeoffs(strings.NewReader(test.table), noon, func(t store.Takeoff) error {
				if t.Length > 8 {
					return errors.New("too long")
				}
				return nil
			})
			if err == nil || !strings.Contains(err.Error(), test.want) || len(got) != 0 {
				t.Errorf("%d takeoffs, %v, want %q", len(got), err, test.want)
			}
		})
	}
}

// All that is wrong is said at once.
func TestTableSaysAllThatIsWrong(t *testing.T) {
	table := "system,fitting,size,inches\nclay,45,2,1\npvc-dwv,45,2,1\npvc-dwv,45,2,none\n"
	_, err := store.ReadTakeoffs(strings.NewReader(table), noon, nil)
	for _, line := range []string{"line 2", "line 4"} {
		if err == nil || !strings.Contains(err.Error(), line) {
			t.Errorf("%v, want %s in it", err, line)
		}
	}
}
