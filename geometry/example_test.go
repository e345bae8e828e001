package geometry_test

import (
	"fmt"

	"dogleg/geometry"
)

// Juniper Street, laundry: the drain must step 9-3/8 to the side. With two 45s
// of takeoff 1-1/16, how long is the piece, and how far apart stand the ends?
func Example() {
	o, err := geometry.SetAngle(9.375*geometry.Inch, geometry.EighthBend)
	if err != nil {
		fmt.Println(err)
		return
	}
	ends := geometry.Ends{Takeoffs: [2]geometry.Length{1.0625, 1.0625}}
	cut, _ := geometry.Cut(o.Travel, ends)
	gap, _ := geometry.EndGap(o.Run, ends)
	fmt.Println("cut", cut.Tape(geometry.Sixteenths))
	fmt.Println("end gap", gap.Tape(geometry.Sixteenths))
	// Output:
	// cut 11-1/8
	// end gap 11-1/2
}

// Juniper Street, bath above the kitchen: the line rolls 7-1/4 and rises
// 10-1/2. The fitting is turned up this far, and this much in a foot of level.
func ExampleRolling() {
	r := geometry.Rolling{Roll: 7.25, Rise: 10.5}
	set, _ := r.TrueSet()
	turned, _ := r.FromLevel()
	rise, _ := r.RiseIn12()
	fmt.Printf("set %v, turned %.1f° from level, %v in 12\n",
		set.Tape(geometry.Sixteenths), turned.Degrees(), rise.Tape(geometry.Sixteenths))
	// Output: set 12-3/4, turned 55.4° from level, 17-3/8 in 12
}

// Juniper Street, mechanical room: four lines 6-1/2 apart offset with 45s.
func ExampleBank() {
	bank := geometry.Bank{Spacing: 6.5, Angle: geometry.EighthBend}
	stagger, _ := bank.Stagger()
	close, _ := bank.Unstaggered()
	fmt.Println("each bend", stagger.Tape(geometry.Sixteenths), "sooner, or they close up to", close.Tape(geometry.Sixteenths))
	// Output: each bend 2-11/16 sooner, or they close up to 4-5/8
}

// Juniper Street, basement: a beam hangs 5-1/4 below the centerline of a 2 in
// drain that steps around it with 45s, an inch clear. Clearances round up.
func ExampleObstacle() {
	beam := geometry.Obstacle{Reach: 5.25, Clearance: 1, Outside: 2.375}
	set, _ := beam.SmallestSet()
	start, _ := beam.FirstBend(geometry.EighthBend)
	fmt.Println("set at least", set.TapeUp(geometry.Sixteenths))
	fmt.Println("first bend", start.TapeUp(geometry.Sixteenths), "before the beam")
	// Output:
	// set at least 7-7/16
	// first bend 8-3/8 before the beam
}

// Juniper Street, main drain: how far it comes down in 27 ft 4 at an eighth.
func ExampleSlopeLength() {
	g, _ := geometry.SlopeLength(geometry.InchPerFoot/8, 27*geometry.Foot+4*geometry.Inch)
	fmt.Println(g.Fall.Tape(geometry.Sixteenths))
	// Output: 3-7/16
}

// Juniper Street, building drain under the slab: between the two fitting
// centers it must drop 10, and it falls at a quarter inch per foot all the way.
func ExampleDropAngle() {
	o, _ := geometry.DropAngle(10, geometry.SixteenthBend, geometry.InchPerFoot/4)
	fmt.Println("set", o.Set.Tape(geometry.Sixteenths), "travel", o.Travel.Tape(geometry.Sixteenths))
	// Output: set 9-1/2 travel 24-7/8
}

// Juniper Street, boiler: a 6 in long-radius elbow is to turn 37°.
func ExampleElbow() {
	e := geometry.Elbow{Radius: 9, Outside: 6.625, Angle: 37}
	takeoff, _ := e.Takeoff()
	back, _ := e.Back()
	throat, _ := e.Throat()
	fmt.Println("takeoff", takeoff.Tape(geometry.Sixteenths))
	fmt.Println("back", back.Tape(geometry.Sixteenths), "throat", throat.Tape(geometry.Sixteenths))
	// Output:
	// takeoff 3
	// back 7-15/16 throat 3-11/16
}

// Juniper Street, boiler: set 8-3/4 in a room of 21-1/4, with elbows cut to suit.
func ExampleTrimElbows() {
	e, _ := geometry.TrimElbows(8.75, 21.25, 4.5, 0)
	fmt.Printf("%.1f°, piece %v\n", e.Offset.Angle.Degrees(), e.Cut.Tape(geometry.Sixteenths))
	// Output: 24.4°, piece 19-1/4
}

// Juniper Street, laundry: the standing ends overlap by 2-1/8 and need an end
// gap of 8-1/2.
func ExampleTrim() {
	trim, _ := geometry.Trim(8.5, -2.125)
	fmt.Println("cut off", trim.Tape(geometry.Sixteenths))
	// Output: cut off 10-5/8
}

// Juniper Street, laundry: a piece of 10-3/16 put the far line at 8-5/8 when
// dry, and 8-1/4 is wanted.
func ExampleDryFit() {
	dry := geometry.DryFit{Cut: 10.1875, Set: 8.625, Angle: geometry.EighthBend}
	takeoff, _ := dry.Takeoff()
	trim, _ := dry.Trim(8.25)
	fmt.Println("the 45s take", takeoff.Tape(geometry.Sixteenths))
	fmt.Println("new cut", (dry.Cut - trim).Tape(geometry.Sixteenths))
	// Output:
	// the 45s take 1
	// new cut 9-11/16
}

// Juniper Street, laundry: what an eighth in the set does at 22-1/2°.
func ExampleOffset_SetOff() {
	o, _ := geometry.SetAngle(9.375, geometry.SixteenthBend)
	off, _ := o.SetOff(geometry.Inch / 8)
	fmt.Println("the cut is out by", off.Cut.Tape(geometry.Sixteenths))
	// Output: the cut is out by 5/16
}

// A length is read on the tape once, at the end.
func ExampleLength_Tape() {
	cut := 14.77 * geometry.Inch
	tape := cut.Tape(geometry.Sixteenths)
	fmt.Println(tape, tape.Lean == geometry.Heavy)
	fmt.Println((18.5 * geometry.Inch).Tape(geometry.Sixteenths).FeetInches())
	// Output:
	// 14-3/4 true
	// 1' 6-1/2"
}
