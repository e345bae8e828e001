package figure_test

import (
	"errors"
	"fmt"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Juniper Street, the laundry: the drain has to step 7-5/8 in to miss a joist.
// The plumber measured the 45s at 1-3/16.
func ExampleSolve() {
	laundry := parser.Ask{
		Kind:     parser.Offset,
		Angle:    geometry.EighthBend,
		Measures: []parser.Measure{{Role: parser.Set, Length: 7.625 * geometry.Inch}},
		Pipe:     catalog.Pipe{Material: catalog.PVC, Use: catalog.DWV, Size: "2"},
	}
	own := figure.Settings{Takeoffs: []figure.OwnTakeoff{
		{System: "pvc-dwv", Fitting: "45", Size: "2", Length: 1.1875 * geometry.Inch},
	}}
	answer, err := figure.Solve(laundry, own)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, l := range answer.Lengths {
		fmt.Println(l.Role, l.Length.Tape(geometry.Sixteenths))
	}
	// Output:
	// cut 8-7/16
	// end_gap 10
	// travel 10-13/16
	// run 7-5/8
	// set 7-5/8
}

// Juniper Street, under the stairs: a step of 2-1/2 in is too little for two
// hubs of 2-1/8 from center to face.
func ExampleSolve_collide() {
	stairs := parser.Ask{
		Kind:     parser.Offset,
		Angle:    geometry.EighthBend,
		Measures: []parser.Measure{{Role: parser.Set, Length: 2.5 * geometry.Inch}},
	}
	for end := range stairs.Ends {
		stairs.Ends[end] = parser.End{Face: 2.125 * geometry.Inch, Depth: 1.125 * geometry.Inch}
	}
	_, err := figure.Solve(stairs, figure.Settings{})
	var impossible *figure.Impossible
	if errors.As(err, &impossible) {
		fmt.Println(impossible.Cause)
		fmt.Println("smallest set", impossible.Smallest.TapeUp(geometry.Sixteenths))
	}
	// Output:
	// fittings collide
	// smallest set 3-1/16
}

// Juniper Street, the kitchen: nobody has said what pipe it is, so travel and
// run are all there is yet.
func ExampleSolve_missing() {
	kitchen := parser.Ask{
		Kind:     parser.Offset,
		Angle:    geometry.SixteenthBend,
		Measures: []parser.Measure{{Role: parser.Set, Length: 5.5 * geometry.Inch}},
	}
	_, err := figure.Solve(kitchen, figure.Settings{})
	var missing *figure.Missing
	if errors.As(err, &missing) {
		travel, _ := missing.Partly.Length(parser.Travel)
		fmt.Println("travel", travel.Tape(geometry.Sixteenths))
		fmt.Println("which", missing.Wanted)
	}
	// Output:
	// travel 14-3/8
	// which pipe
}
