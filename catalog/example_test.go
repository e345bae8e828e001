package catalog_test

import (
	"fmt"

	"dogleg/catalog"
	"dogleg/geometry"
)

// The laundry drain at Juniper Street is 2 in PVC; nobody said DWV.
func ExampleMatch() {
	for _, s := range catalog.Match(catalog.Pipe{Material: catalog.PVC, Size: "2"}) {
		fmt.Println(s.Name)
	}
	// Output:
	// PVC DWV
	// PVC schedule 40
	// PVC schedule 80
}

// The boiler at Juniper Street has 4 in steel: 45s to be welded in.
func ExampleSystem_Takeoff() {
	boiler := catalog.Match(catalog.Pipe{Material: catalog.Steel, Size: "4"})[0]
	for _, a := range boiler.Bends() {
		t, _ := boiler.Takeoff(catalog.BendOf(a), "4")
		fmt.Printf("%s: %s in, %s (sure: %v)\n", t.Fitting.Key(), t.Length.Tape(geometry.Sixteenths), t.Source, t.Evidence.Sure())
	}
	// Output:
	// 90: 6 in, ASME B16.9, center to face (sure: true)
	// 45: 2-1/2 in, ASME B16.9, center to face, recalled, unchecked (sure: false)
}

// Somebody at Juniper Street asks for 1-3/8 copper.
func ExampleNear() {
	fmt.Println(catalog.Near(catalog.SizesOf(catalog.Copper), "1-3/8"))
	// Output: [1-1/4 1-1/2]
}
