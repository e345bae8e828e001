package catalog_test

import (
	"slices"
	"testing"

	"dogleg/catalog"
	"dogleg/geometry"
)

func ids(systems []catalog.System) []string {
	var all []string
	for _, s := range systems {
		all = append(all, s.ID)
	}
	return all
}

func TestMatch(t *testing.T) {
	for _, test := range []struct {
		why  string
		pipe catalog.Pipe
		want []string
	}{
		{"PVC is DWV first", catalog.Pipe{Material: catalog.PVC, Size: "1-1/2"}, []string{"pvc-dwv", "pvc-40", "pvc-80"}},
		{"from 4 in it may be sewer", catalog.Pipe{Material: catalog.PVC, Size: "4"}, []string{"pvc-dwv", "pvc-40", "pvc-80", "pvc-sewer"}},
		{"there is no 1/2 DWV", catalog.Pipe{Material: catalog.PVC, Size: "1/2"}, []string{"pvc-40", "pvc-80"}},
		{"there is no 2-1/2 DWV", catalog.Pipe{Material: catalog.PVC, Size: "2-1/2"}, []string{"pvc-40", "pvc-80"}},
		{"use", catalog.Pipe{Material: catalog.PVC, Size: "2", Use: catalog.Pressure}, []string{"pvc-40", "pvc-80"}},
		{"use", catalog.Pipe{Material: catalog.PVC, Size: "2", Use: catalog.DWV}, []string{"pvc-dwv"}},
		{"sewer pipe before DWV", catalog.Pipe{Material: catalog.PVC, Size: "4", Use: catalog.Sewer}, []string{"pvc-sewer"}},
		{"DWV pipe makes a sewer", catalog.Pipe{Material: catalog.PVC, Size: "3", Use: catalog.Sewer}, []string{"pvc-dwv"}},
		{"DWV pipe makes a sewer", catalog.Pipe{Material: catalog.ABS, Size: "4", Use: catalog.Sewer}, []string{"abs-dwv"}},
		{"DWV pipe is schedule 40 too", catalog.Pipe{Material: catalog.PVC, Size: "2", Schedule: "40"}, []string{"pvc-40", "pvc-dwv"}},
		{"SDR 35 by its number", catalog.Pipe{Material: catalog.PVC, Size: "4", Schedule: "35"}, []string{"pvc-sewer"}},
		{"schedule 80", catalog.Pipe{Material: catalog.PVC, Size: "2", Schedule: "80"}, []string{"pvc-80"}},
		{"metric PVC is soil pipe first", catalog.Pipe{Material: catalog.PVC, Size: "110 mm"}, []string{"pvc-soil", "pvc-soil-solvent", "pvc-drain", "pvc-metric"}},
		{"DN100 is 110 mm outside", catalog.Pipe{Material: catalog.PVC, Size: "DN100"}, []string{"pvc-soil", "pvc-soil-solvent", "pvc-dwv-as", "pvc-drain"}},
		{"metric pressure pipe", catalog.Pipe{Material: catalog.PVC, Size: "50 mm", Use: catalog.Pressure}, []string{"pvc-metric"}},
		{"only pressure pipe is so small", catalog.Pipe{Material: catalog.PVC, Size: "20 mm"}, []string{"pvc-metric"}},
		{"a drain in the ground", catalog.Pipe{Material: catalog.PVC, Size: "160 mm", Use: catalog.Sewer}, []string{"pvc-drain"}},
		{"small steel is threaded", catalog.Pipe{Material: catalog.Steel, Size: "DN25"}, []string{"steel-en-threaded", "steel-en-weld"}},
		{"big steel is welded", catalog.Pipe{Material: catalog.Steel, Size: "DN100"}, []string{"steel-en-weld", "steel-en-threaded"}},
		{"a name for DN100", catalog.Pipe{Material: catalog.CastIron, Size: "100 mm"}, []string{"cast-iron-en"}},
		{"polypropylene", catalog.Pipe{Material: catalog.PP, Size: "DN50"}, []string{"pp-soil"}},
		{"metric size", catalog.Pipe{Material: catalog.Copper, Size: "22 mm"}, []string{"copper-metric"}},
		{"copper type", catalog.Pipe{Material: catalog.Copper, Size: "3/4", Schedule: "M"}, []string{"copper"}},
		{"5/8 has no type M", catalog.Pipe{Material: catalog.Copper, Size: "5/8", Schedule: "M"}, nil},
		{"copper drains are not carried", catalog.Pipe{Material: catalog.Copper, Use: catalog.DWV}, nil},
		{"small steel is threaded", catalog.Pipe{Material: catalog.Steel, Size: "2"}, []string{"steel-threaded", "steel-butt-weld", "steel-socket-weld"}},
		{"big steel is welded", catalog.Pipe{Material: catalog.Steel, Size: "2-1/2"}, []string{"steel-butt-weld", "steel-socket-weld", "steel-threaded"}},
		{"steel of no size", catalog.Pipe{Material: catalog.Steel}, []string{"steel-threaded", "steel-butt-weld", "steel-socket-weld", "steel-en-threaded", "steel-en-weld"}},
		{"a joint decides", catalog.Pipe{Material: catalog.Steel, Joint: catalog.Thread, Size: "4"}, []string{"steel-threaded"}},
		{"a joint says the material", catalog.Pipe{Joint: catalog.NoHub, Size: "4"}, []string{"cast-iron-no-hub"}},
		{"cast iron is no-hub first", catalog.Pipe{Material: catalog.CastIron, Size: "4"}, []string{"cast-iron-no-hub", "cast-iron-hub"}},
		{"no 1-1/2 with a hub", catalog.Pipe{Material: catalog.CastIron, Size: "1-1/2"}, []string{"cast-iron-no-hub"}},
		{"extra heavy has hubs", catalog.Pipe{Material: catalog.CastIron, Schedule: "XH"}, []string{"cast-iron-hub"}},
		{"nobody threads ABS", catalog.Pipe{Material: catalog.ABS, Joint: catalog.Thread}, nil},
		{"no such size", catalog.Pipe{Material: catalog.PVC, Size: "1-3/8"}, nil},
		{"no such material", catalog.Pipe{Material: "clay"}, nil},
	} {
		if got := ids(catalog.Match(test.pipe)); !slices.Equal(got, test.want) {
			t.Errorf("%s: %+v is %v, want %v", test.why, test.pipe, got, test.want)
		}
	}
}

func TestMatchKeepsTheScheduleThatWasSaid(t *testing.T) {
	found := catalog.Match(catalog.Pipe{Material: catalog.Copper, Size: "1", Schedule: "K"})
	if len(found) != 1 || found[0].Schedule != "K" {
		t.Fatalf("found %v", found)
	}
	if d, ok := found[0].Dimensions("1"); !ok || d.Wall != 0.065 { // ASTM B88
		t.Errorf("1 in type K: %v, %v", d, ok)
	}
	if again := system(t, "copper"); again.Schedule != "" {
		t.Errorf("the catalog remembers %v", again)
	}
}

func TestNothingSaidRulesNothingOut(t *testing.T) {
	if got := ids(catalog.Match(catalog.Pipe{})); len(got) != len(catalog.Systems()) {
		t.Errorf("matched %v", got)
	}
}

func TestBends(t *testing.T) {
	for id, want := range map[string][]geometry.Angle{
		"pvc-dwv":           {90, 60, 45, 22.5},
		"abs-dwv":           {90, 60, 45, 22.5},
		"pvc-40":            {90, 45},
		"copper":            {90, 45},
		"steel-threaded":    {90, 45},
		"steel-butt-weld":   {90, 45},
		"steel-socket-weld": {90, 45},
		"cast-iron-no-hub":  {90, 72, 60, 45, 22.5},
		"cast-iron-hub":     {90, 72, 60, 45, 22.5},
	} {
		if got := system(t, id).Bends(); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", id, got, want)
		}
	}
}

func TestFittingsThatExist(t *testing.T) {
	for _, test := range []struct {
		id, fitting string
		want        bool
	}{
		{"pvc-dwv", "street 45", true},
		{"pvc-dwv", "combination", true},
		{"pvc-40", "22-1/2", false},
		{"steel-butt-weld", "short 90", true},
		{"steel-butt-weld", "long 90", true}, // its regular one
		{"steel-socket-weld", "long 90", false},
		{"steel-threaded", "union", true},
		{"cast-iron-hub", "72", true},
		{"pex", "45", false},
	} {
		if got := system(t, test.id).Has(fitting(t, test.fitting)); got != test.want {
			t.Errorf("%s has a %s: %v", test.id, test.fitting, got)
		}
	}
}

func TestStockLengthsAndKerfs(t *testing.T) {
	if got := system(t, "cast-iron-no-hub").StockLengths(); got[0].Length != 10*geometry.Foot || got[0].Evidence != catalog.Published {
		t.Errorf("no-hub pipe comes in %v", got) // ASTM A888: 5 and 10 ft
	}
	if got := system(t, "pvc-metric").StockLengths(); got[0].Length != 6*geometry.Meter {
		t.Errorf("metric PVC comes in %v", got) // AS/NZS 1477: 6 m
	}
	kerfs := catalog.Kerfs()
	if len(kerfs) == 0 || kerfs[0].Saw != "tube cutter" || kerfs[0].Length != 0 {
		t.Errorf("kerfs %v", kerfs)
	}
	for _, k := range kerfs {
		if k.Length < 0 || k.Length > geometry.Inch/8 || k.Source == "" || k.Evidence == "" {
			t.Errorf("%v", k)
		}
	}
}

func TestCallersCannotChangeTheCatalog(t *testing.T) {
	s := system(t, "pvc-dwv")
	s.Sizes()[0], s.Fittings()[0], catalog.Kerfs()[0].Saw, s.StockLengths()[0].Note = "9", catalog.Fitting{}, "teeth", "none"
	if s.Sizes()[0] == "9" || s.Fittings()[0] == (catalog.Fitting{}) || catalog.Kerfs()[0].Saw == "teeth" || s.StockLengths()[0].Note == "none" {
		t.Error("a caller's change reached the tables")
	}
}
