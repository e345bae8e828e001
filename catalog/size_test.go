package catalog_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"dogleg/catalog"
	"dogleg/geometry"
)

func TestSizesOf(t *testing.T) {
	want := []catalog.Size{"1-1/2", "2", "3", "4", "5", "6", "8", "10", "12", "DN40", "DN50", "DN70", "DN80", "DN100", "DN125", "DN150", "DN200", "DN250", "DN300"}
	if got := catalog.SizesOf(catalog.CastIron); !slices.Equal(got, want) {
		t.Errorf("cast iron: %v", got)
	}
	pvc := catalog.SizesOf(catalog.PVC)
	if pvc[0] != "1/2" || pvc[len(pvc)-1] != "315 mm" || slices.Contains(pvc, "5/8") {
		t.Errorf("PVC: %v", pvc)
	}
	if got := catalog.SizesOf("clay"); got != nil {
		t.Errorf("clay: %v", got)
	}
}

func TestNear(t *testing.T) {
	for _, test := range []struct {
		material catalog.Material
		size     catalog.Size
		want     []catalog.Size
	}{
		{catalog.PVC, "1-3/8", []catalog.Size{"1-1/4", "1-1/2"}},
		{catalog.PVC, "5/8", []catalog.Size{"1/2", "3/4"}},
		{catalog.PVC, "1/4", []catalog.Size{"1/2"}},
		{catalog.PVC, "24", []catalog.Size{"15"}},
		{catalog.PVC, "105 mm", []catalog.Size{"DN100", "110 mm"}},
		{catalog.Copper, "20 mm", []catalog.Size{"18 mm", "22 mm"}},
		{catalog.Steel, "7", []catalog.Size{"6", "8"}},
		{catalog.Steel, "2", []catalog.Size{"1-1/2", "2-1/2"}}, // exists: its neighbors
		{catalog.Steel, "1.3", []catalog.Size{"1-1/4", "1-1/2"}},
		{catalog.Steel, "20 mm", []catalog.Size{"DN15", "DN25"}},
		{catalog.Steel, "two", nil},
		{catalog.Steel, "", nil},
		{catalog.Steel, "1/0", nil},
		{catalog.Steel, "3-", nil},
	} {
		if got := catalog.Near(catalog.SizesOf(test.material), test.size); !slices.Equal(got, test.want) {
			t.Errorf("%s near %q: %v, want %v", test.material, test.size, got, test.want)
		}
	}
}

// Near against the obvious way: look at all of them.
func TestNearFindsTheClosestOnEitherSide(t *testing.T) {
	sizes := map[catalog.Size]float64{"1/2": 0.5, "3/4": 0.75, "1": 1, "1-1/4": 1.25, "1-1/2": 1.5, "2": 2, "3": 3, "4": 4, "6": 6}
	rapid.Check(t, func(t *rapid.T) {
		sixteenths := rapid.IntRange(1, 160).Draw(t, "sixteenths")
		wanted := float64(sixteenths) / 16
		var offered []catalog.Size
		for name := range sizes {
			offered = append(offered, name)
		}
		got := catalog.Near(offered, catalog.Size(fmt.Sprintf("%d-%d/16", sixteenths/16, sixteenths%16)))
		for name, value := range sizes {
			if value == wanted {
				continue
			}
			between := false
			for _, n := range got {
				between = between || (value-wanted)*(sizes[n]-wanted) > 0 && abs(sizes[n]-wanted) <= abs(value-wanted)
			}
			if !between {
				t.Errorf("near %v: %v, but %s is closer", wanted, got, name)
			}
		}
	})
}

func abs(x float64) float64 { return max(x, -x) }

func TestFittingKeysReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := catalog.Fitting{
			Shape: rapid.SampledFrom([]catalog.Shape{
				catalog.Bend, catalog.Tee, catalog.SanitaryTee, catalog.Wye,
				catalog.Combination, catalog.Coupling, catalog.Union, catalog.Cap,
			}).Draw(t, "shape"),
			Street: rapid.Bool().Draw(t, "street"),
			Sweep:  rapid.SampledFrom([]catalog.Sweep{catalog.Regular, catalog.Short, catalog.Long}).Draw(t, "sweep"),
		}
		if f.Shape == catalog.Bend {
			f.Angle = geometry.Angle(rapid.IntRange(1, 90*8).Draw(t, "eighths of a degree")) / 8
		}
		if got, ok := catalog.FittingByKey(f.Key()); !ok || got != f {
			t.Errorf("%+v has the key %q, which is %+v, %v", f, f.Key(), got, ok)
		}
	})
}

func TestThatAreNoFittings(t *testing.T) {
	for _, key := range []string{"", "0", "91", "-45", "45-", "elbow", "street", "long", "short long 90", "street street 45", "1e1"} {
		if f, ok := catalog.FittingByKey(key); ok {
			t.Errorf("%q is %+v", key, f)
		}
	}
}
