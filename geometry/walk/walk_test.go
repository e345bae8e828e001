package walk_test

import (
	"fmt"
	"math"
	"testing"

	"dogleg/geometry"
	"dogleg/geometry/walk"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

const thousandth = geometry.Inch / 1000

// Where the far pipe's end lands: computed independently at full precision,
// from the cut and not from the end gap.
func TestWalkLands(t *testing.T) {
	for _, c := range []struct {
		name   string
		pieces walk.Pieces
		want   walk.Point
	}{
		{
			"set 9-3/8, 45s, takeoff 1-1/16",
			walk.Pieces{Takeoffs: both(1.0625), Cut: 11.133252147247767, Angle: 45},
			walk.Point{X: 11.5, Y: 9.375},
		},
		{
			"set 5-11/16, 22-1/2s, takeoffs 13/16 and 1-1/4",
			walk.Pieces{Takeoffs: [2]geometry.Length{0.8125, 1.25}, Cut: 12.799653725468783, Angle: 22.5},
			walk.Point{X: 15.793339635996979, Y: 5.6875},
		},
		{
			"roll 7-1/4, rise 10-1/2, 60s, takeoff 15/16",
			walk.Pieces{Takeoffs: both(0.9375), Cut: 12.858748108792053, Angle: 60, Roll: 55.37584492005105},
			walk.Point{X: 9.241874054396028, Y: 7.25, Z: 10.5},
		},
		{
			"roll 14-1/16, rise 6-13/16, 45s, takeoff 1-1/2",
			walk.Pieces{Takeoffs: both(1.5), Cut: 19.09814754679677, Angle: 45, Roll: 25.847610220596255},
			walk.Point{X: 18.625749982000865, Y: 14.0625, Z: 6.8125},
		},
		{
			"set 19-5/16, 45s, takeoff 3-3/4, 1/8 at each of four joints",
			walk.Pieces{Takeoffs: both(3.75), Gaps: both(0.125), Cut: 19.5619994233304, Angle: 45},
			walk.Point{X: 27.0625, Y: 19.3125},
		},
		{
			"set 8-3/4 in a room of 21-1/4, elbows of radius 4-1/2 trimmed",
			walk.Pieces{Takeoffs: both(0.9721832554807509), Cut: 19.251623308178463, Angle: 24.38172491103047},
			walk.Point{X: 21.25, Y: 8.75},
		},
	} {
		if off := walk.Offset(c.pieces).End().Distance(c.want); off > 1e-9 {
			t.Errorf("%s lands at %v, %v from %v", c.name, walk.Offset(c.pieces).End(), off, c.want)
		}
	}
}

// The points between are where the pieces meet.
func TestWalkStopsWherePiecesMeet(t *testing.T) {
	path := walk.Offset(walk.Pieces{
		Takeoffs: [2]geometry.Length{1, 2}, Gaps: [2]geometry.Length{0.125, 0.25}, Cut: 10, Angle: 90, Roll: 90,
	})
	want := walk.Path{ // straight up between two 90s, counted by hand
		walk.FirstEnd:     {},
		walk.FirstCenter:  {X: 1.125},
		walk.PieceStart:   {X: 1.125, Z: 1.125},
		walk.PieceEnd:     {X: 1.125, Z: 11.125},
		walk.SecondCenter: {X: 1.125, Z: 13.375},
		walk.SecondEnd:    {X: 3.375, Z: 13.375},
	}
	if len(path) != len(want) {
		t.Fatalf("path %v has %d points, want %d", path, len(path), len(want))
	}
	for i := range want {
		if path[i].Distance(want[i]) > 1e-12 {
			t.Errorf("point %d is %v, want %v", i, path[i], want[i])
		}
	}
}

// Whatever the offset, formulas and walk must agree where the far pipe ends.
func TestFormulasLandWhereTheWalkDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, a, ends := drawOffset(t)
		cut, gap, turned, err := figured(r, a, ends)
		if err != nil {
			t.Skip(err) // takeoffs longer than the travel
		}
		end := walk.Offset(walk.Pieces{Takeoffs: ends.Takeoffs, Gaps: ends.Gaps, Cut: cut, Angle: a, Roll: turned}).End()
		if off := end.Distance(walk.Point{X: gap, Y: r.Roll, Z: r.Rise}); off > 1e-8 {
			t.Fatalf("lands at %v, %v off", end, off)
		}
	})
}

// A wrong formula is caught: each of these mistakes misses by more than a
// thousandth of an inch, on an offset where it matters.
func TestWalkCatchesAWrongFormula(t *testing.T) {
	r := geometry.Rolling{Roll: 14.0625, Rise: 6.8125}
	ends := geometry.Ends{Takeoffs: [2]geometry.Length{1.5, 1.25}, Gaps: [2]geometry.Length{0, 0.125}}
	const a = geometry.Angle(60)
	cut, gap, turned, err := figured(r, a, ends)
	if err != nil {
		t.Fatal(err)
	}
	set := geometry.Length(math.Sqrt(float64(r.Roll*r.Roll + r.Rise*r.Rise)))
	taken := geometry.Length(1.5 + 1.25 + 0.125)
	for _, c := range []struct {
		mistake          string
		cut, gap         geometry.Length
		angle, turned    geometry.Angle
		landsNonetheless bool
	}{
		{"none", cut, gap, a, turned, true},
		{"roll and rise added up", (r.Roll+r.Rise)/geometry.Length(a.Sin()) - taken, gap, a, turned, false},
		{"set to travel by 1.15", 1.15*set - taken, gap, a, turned, false},
		{"travel from the cosine", set/geometry.Length(a.Cos()) - taken, gap, a, turned, false},
		{"a takeoff forgotten", cut + 1.25, gap, a, turned, false},
		{"the first takeoff at both ends", cut - 0.25, gap + 0.25, a, turned, false},
		{"the gap forgotten", cut + 0.125, gap - 0.125, a, turned, false},
		{"run and end gap taken for one", cut, gap - taken, a, turned, false},
		{"run by the tangent", cut, set*geometry.Length(a.Tan()) + taken, a, turned, false},
		{"angle left between the pipes", cut, gap, 180 - a, turned, false},
		{"roll angle from plumb", cut, gap, a, 90 - turned, false},
		{"radians for degrees", cut, gap, geometry.Angle(a.Radians()), turned, false},
	} {
		end := walk.Offset(walk.Pieces{Takeoffs: ends.Takeoffs, Gaps: ends.Gaps, Cut: c.cut, Angle: c.angle, Roll: c.turned}).End()
		off := end.Distance(walk.Point{X: c.gap, Y: r.Roll, Z: r.Rise})
		if lands := off < thousandth; lands != c.landsNonetheless {
			t.Errorf("%s: %v off the far line", c.mistake, off)
		}
	}
}

// Rotations of another library end up where ours do.
func TestTurnedAgreesWithAnotherLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		component := rapid.Float64Range(-1, 1)
		vector := func(name string) r3.Vec {
			v := r3.Vec{X: component.Draw(t, name), Y: component.Draw(t, name), Z: component.Draw(t, name)}
			if r3.Norm(v) < 1e-3 {
				t.Skip("no direction")
			}
			return r3.Unit(v)
		}
		heading, axis := vector("heading"), vector("axis")
		a := geometry.Angle(rapid.Float64Range(-360, 360).Draw(t, "angle"))
		got := walk.Direction(heading).Turned(a, walk.Direction(axis))
		want := r3.NewRotation(float64(a)*math.Pi/180, axis).Rotate(heading)
		if off := r3.Norm(r3.Sub(r3.Vec(got), want)); off > 1e-12 {
			t.Fatalf("%v turned %v about %v is %v, want %v", heading, a, axis, got, want)
		}
	})
}

func TestEndOfAnEmptyPath(t *testing.T) {
	if got := (walk.Path{}).End(); got != (walk.Point{}) {
		t.Errorf("ends at %v", got)
	}
}

// figured is what package geometry says of an offset.
func figured(r geometry.Rolling, a geometry.Angle, ends geometry.Ends) (cut, gap geometry.Length, turned geometry.Angle, err error) {
	o, err := r.Offset(a)
	if err != nil {
		return 0, 0, 0, err
	}
	if turned, err = r.FromLevel(); err != nil {
		return 0, 0, 0, err
	}
	if cut, err = geometry.Cut(o.Travel, ends); err != nil {
		return 0, 0, 0, err
	}
	gap, err = geometry.EndGap(o.Run, ends)
	return cut, gap, turned, err
}

func drawOffset(t *rapid.T) (geometry.Rolling, geometry.Angle, geometry.Ends) {
	length := func(name string, most float64) geometry.Length {
		return geometry.Length(rapid.Float64Range(0, most).Draw(t, name))
	}
	r := geometry.Rolling{Roll: length("roll", 400) + 2, Rise: length("rise", 400)}
	a := rapid.OneOf(
		rapid.SampledFrom(geometry.Bends()),
		rapid.Map(rapid.Float64Range(1, 90), func(v float64) geometry.Angle { return geometry.Angle(v) }),
	).Draw(t, "angle")
	return r, a, geometry.Ends{
		Takeoffs: [2]geometry.Length{length("takeoff", 9), length("takeoff", 9)},
		Gaps:     [2]geometry.Length{length("gap", 0.25), length("gap", 0.25)},
	}
}

func both(l geometry.Length) [2]geometry.Length { return [2]geometry.Length{l, l} }

// On Juniper Street the drain steps 9-3/8 sideways with two 45s, takeoff
// 1-1/16, and the travel piece was cut 11-1/8: where does the far pipe end?
func ExampleOffset() {
	path := walk.Offset(walk.Pieces{Takeoffs: both(1.0625), Cut: 11.125, Angle: 45})
	end := path.End()
	fmt.Println("along", end.X.Tape(geometry.Sixteenths), "across", end.Y.Tape(geometry.Sixteenths))
	// Output: along 11-1/2 across 9-3/8
}

// A line on Juniper Street goes 20 along the joist, up 8 and on for 12.
func ExampleWalker() {
	w := walk.From(walk.Point{})
	w.Forward(20)
	w.Turn(-90, walk.Aside)
	w.Forward(8)
	w.Turn(90, walk.Aside)
	w.Forward(12)
	end := w.Path().End()
	fmt.Printf("%.0f along, %.0f up\n", end.X.Inches(), end.Z.Inches())
	// Output: 32 along, 8 up
}

// What a fitting takes of the line that stands may differ from what it takes of
// the piece, and the second bend may turn back otherwise than the first: the walk
// ends where gonum's vectors do.
func TestWalkOfUnlikeEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		long := rapid.Float64Range(0.1, 40)
		piece, standing := [2]float64{long.Draw(t, "first"), long.Draw(t, "second")}, [2]float64{long.Draw(t, "standing"), long.Draw(t, "other")}
		cut, turn, back := long.Draw(t, "cut"), rapid.Float64Range(1, 90).Draw(t, "turn"), rapid.Float64Range(1, 90).Draw(t, "back")
		path := walk.Offset(walk.Pieces{
			Takeoffs: [2]geometry.Length{geometry.Length(piece[0]), geometry.Length(piece[1])},
			Standing: &[2]geometry.Length{geometry.Length(standing[0]), geometry.Length(standing[1])},
			Cut:      geometry.Length(cut), Angle: geometry.Angle(turn), Back: geometry.Angle(back),
		})
		toward := func(degrees float64) r3.Vec {
			return r3.NewRotation(degrees*math.Pi/180, r3.Vec{Z: 1}).Rotate(r3.Vec{X: 1})
		}
		end := r3.Add(r3.Vec{X: standing[0]}, r3.Scale(piece[0]+cut+piece[1], toward(turn)))
		end = r3.Add(end, r3.Scale(standing[1], toward(turn-back)))
		if off := path.End().Distance(walk.Point{X: geometry.Length(end.X), Y: geometry.Length(end.Y)}); off > 1e-9 {
			t.Errorf("it lands %v off", off)
		}
	})
}
