package catalog

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
)

// damaged is the tables with one line put at the end of a file.
func damaged(t *testing.T, name, line string) fs.FS {
	t.Helper()
	copied := fstest.MapFS{}
	paths, err := fs.Glob(files, "data/*.csv")
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range paths {
		text, err := fs.ReadFile(files, path)
		if err != nil {
			t.Fatal(err)
		}
		if path == "data/"+name {
			text = append(text, line+"\n"...)
		}
		copied[path] = &fstest.MapFile{Data: text}
	}
	return copied
}

func TestABadRowIsReportedAndLeftOut(t *testing.T) {
	for _, test := range []struct{ file, line, problem string }{
		{"pipes.csv", "pvc-dwv,5,40,5.563,0.258 in,ASTM D2665,none,memory,,", "no length"},
		{"pipes.csv", "pvc-dwv,5,40,5.563 in,,ASTM D2665,none,hearsay,,", "no evidence"},
		{"pipes.csv", "pvc-dwv,5,40,5.563 in,,ASTM D2665,none,own,,", "nobody's own"},
		{"pipes.csv", "pvc-dwv,five,40,5.563 in,,ASTM D2665,none,memory,,", "no size"},
		{"pipes.csv", "clay,5,40,5.563 in,,ASTM D2665,none,memory,,", "no system"},
		{"pipes.csv", "pvc-dwv,5,40,5.563 in,,,none,memory,,", "standard is empty"},
		{"pipes.csv", "pvc-dwv,5", "wrong number of fields"},
		{"takeoffs.csv", "pvc-dwv,45,5,,,2 in,stop,none,recalled,memory,1/8 in,none,", "no pipe of 5"},
		{"takeoffs.csv", "pvc-dwv,45,2,,,2 in,stop,none,recalled,memory,1/8 in,none,", "a second takeoff"},
		{"takeoffs.csv", "pvc-dwv,45,2,,,2 in,stop,none,,memory,1/8 in,none,", "source is empty"},
		{"fittings.csv", "pvc-dwv,elbow,none,memory,,", "no fitting"},
		{"systems.csv", "clay,clay,clay,mortar,,,0 in,none,memory,,none,none,guess,,,", "no way"},
		{"threads.csv", "7,none,1 in,1 in,1 in,none,none,memory,1 in,none,memory,1 in,none,", "no number"},
	} {
		tables := load(damaged(t, test.file, test.line))
		var problems []string
		for _, err := range tables.problems {
			problems = append(problems, err.Error())
		}
		got := strings.Join(problems, "\n")
		if !strings.Contains(got, test.problem) || !strings.Contains(got, test.file) {
			t.Errorf("%s: %q: problems %q, want %q", test.file, test.line, got, test.problem)
		}
		if _, kept := tables.pipes[place{"pvc-dwv", "5"}]; kept {
			t.Errorf("%q was kept", test.line)
		}
		if _, kept := tables.takeoffs[fittingPlace{place{"pvc-dwv", "5"}, "45", hubEnd}]; kept {
			t.Errorf("%q was kept", test.line)
		}
		if tables.system("clay").ID != "" || tables.threads["7"].PerInch != 0 {
			t.Errorf("%q was kept", test.line)
		}
	}
}

func TestMissingTablesAreReported(t *testing.T) {
	tables := load(fstest.MapFS{"data/systems.csv": &fstest.MapFile{}})
	if len(tables.problems) != 10 {
		t.Errorf("ten files are missing or empty, problems %v", tables.problems)
	}
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		load(files)
	}
}

func BenchmarkTakeoff(b *testing.B) {
	s, _ := SystemByID("pvc-dwv")
	for b.Loop() {
		s.Takeoff(BendOf(60), "2")
	}
}
