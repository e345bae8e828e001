package store_test

import (
	"bytes"
	"strings"
	"testing"

	"dogleg/store"

	"github.com/google/go-cmp/cmp"
)

// FuzzReadTakeoffs: whatever table somebody hands in, it is read whole or not at
// all, and what was read comes back from the table that is written of it.
func FuzzReadTakeoffs(f *testing.F) {
	for _, table := range []string{
		"system,fitting,size,inches\npvc-dwv,45,2,1-1/8\n",
		"\ufeffSize,Inches,Fitting,System,When\n1-1/2,1.0625,street 45,abs-dwv,2026-11-03\n",
		"system,fitting,size,line,inches,how,when\ncopper,45,3/4,\"the, \"\"grey\"\" ones\",5/8,center to stop,2026-11-03T07:30:00Z\n",
		"system,fitting,size,inches\npvc-dwv,45,2,1e308\npvc-dwv,45,2,-0\npvc-dwv,45,2,1/0\npvc-dwv,45,2,NaN\n",
		"system,fitting,size,inches\npvc-dwv,45,2\n", "system\n\"", "", "\x00", "\xff\xfe", strings.Repeat(",", 4000), strings.Repeat("(", 4000),
		"system,system,fitting,size,inches\npvc-dwv,x,45,2,1\n",
	} {
		f.Add([]byte(table))
	}
	f.Fuzz(func(t *testing.T, table []byte) {
		read, err := store.ReadTakeoffs(bytes.NewReader(table), noon, nil)
		if err != nil {
			if read != nil {
				t.Error("takeoffs beside an error")
			}
			return
		}
		var written bytes.Buffer
		if err := store.WriteTakeoffs(&written, read); err != nil {
			t.Fatal(err)
		}
		again, err := store.ReadTakeoffs(&written, noon, nil)
		if err != nil || len(again) != len(read) {
			t.Fatalf("%d takeoffs, written and read %d: %v", len(read), len(again), err)
		}
		for i, want := range read {
			if want.Length <= 0 {
				t.Errorf("a takeoff of %v", want.Length)
			}
			got := again[i]
			if !got.When.Equal(want.When.Truncate(1e9)) {
				t.Errorf("when: %v, want %v", got.When, want.When)
			}
			got.When = want.When
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("takeoff %d (-read +read again):\n%s", i, diff)
			}
		}
	})
}
