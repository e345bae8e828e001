package catalog_test

import (
	"slices"
	"testing"

	"dogleg/catalog"
)

// A row of a larger size comes after that of a smaller one, so that the last that
// fits holds; and what is larger is never hung closer.
func TestHangersGoUpBySize(t *testing.T) {
	found := 0
	for _, s := range catalog.Systems() {
		last := map[string]catalog.Hanger{}
		for _, size := range s.Sizes() {
			codes := []string{}
			for _, h := range s.Hangers(size) {
				found++
				codes = append(codes, h.Code)
				if h.Spacing < last[h.Code].Spacing || h.Spacing < 24 || h.Spacing > 144 {
					t.Errorf("%s %s: %v apart by %s", size, s.ID, h.Spacing, h.Table)
				}
				last[h.Code] = h
			}
			if slices.Sort(codes); len(slices.Compact(codes)) != len(s.Hangers(size)) {
				t.Errorf("%s %s: two rows of one code", size, s.ID)
			}
		}
	}
	if found < 100 {
		t.Errorf("only %d spacings", found)
	}
}

// The tables as they are recalled: copper tubing of 1-1/4 and under every 6 ft, of
// 1-1/2 and over every 10 by one code; of 1-1/2 still every 6 by the other.
func TestHangersOfCopper(t *testing.T) {
	copper := system(t, "copper")
	for size, want := range map[catalog.Size][2]float64{"1/2": {72, 72}, "1-1/4": {72, 72}, "1-1/2": {120, 72}, "2": {120, 120}} {
		h := copper.Hangers(size)
		if len(h) != 2 || h[0].Code != "IPC" || h[0].Spacing.Inches() != want[0] || h[1].Code != "UPC" || h[1].Spacing.Inches() != want[1] {
			t.Errorf("%s copper: %+v", size, h)
		}
	}
}

// A quart makes fewer joints of larger pipe; metric pipe goes by the next inch size.
func TestCementGoesFartherOnSmallPipe(t *testing.T) {
	last := 1e9
	for _, s := range catalog.Systems() {
		if s.Joint != catalog.Solvent {
			continue
		}
		last = 1e9
		for _, size := range s.Sizes() {
			c, ok := catalog.CementFor(size)
			if !ok {
				continue
			}
			if c.Joints > last || c.Joints < 1 {
				t.Errorf("%s %s: %v joints a quart", size, s.ID, c.Joints)
			}
			last = c.Joints
		}
	}
	a, _ := catalog.CementFor("50 mm")
	b, _ := catalog.CementFor("2")
	if a != b {
		t.Errorf("50 mm: %v, 2 in: %v", a, b)
	}
}
