package figure_test

import (
	"errors"
	"math"
	"testing"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"

	"gonum.org/v1/gonum/spatial/r3"
)

// What follows lays out, by gonum's vectors, lines of fittings whose ends or
// turns differ.

// layer lays a line out: where it stands and which way it faces.
type layer struct{ at, heading r3.Vec }

func (l *layer) forward(far float64) { l.at = r3.Add(l.at, r3.Scale(far, l.heading)) }

func (l *layer) turn(degrees float64, axis r3.Vec) {
	l.heading = r3.NewRotation(radians(degrees), axis).Rotate(l.heading)
}

// across is the axis about which a line along x turns toward a step.
func across(toward r3.Vec) r3.Vec { return r3.Unit(r3.Cross(ahead, toward)) }

// off is how far a point is from where it should be.
func off(t *testing.T, a *figure.Answer, at, want r3.Vec) {
	t.Helper()
	if d := r3.Norm(r3.Sub(at, want)); d > 1e-9 {
		t.Errorf("%+v: lands %v off, at %v instead of %v", a.Ask, d, at, want)
	}
}

var (
	street45 = catalog.Fitting{Shape: catalog.Bend, Angle: 45, Street: true}
	wye      = catalog.Fitting{Shape: catalog.Wye, Angle: 45}
	santee   = catalog.Fitting{Shape: catalog.SanitaryTee}
)

// laidOut is how many of each are laid out.
const laidOut = 300

// TestStreetFittingsInSpace lays out a street fitting whose spigot sits in a hub
// that stands, the piece in its own hub, and a bend at the other end, either way
// round: the line that stands ends where it says.
func TestStreetFittingsInSpace(t *testing.T) {
	r := chance(31)
	for range laidOut {
		degrees := trade[1+r.IntN(5)]
		toward, measures := step(r, 15, 40)
		hub, other, spigot := onMarks(r, 0, 2)+0.25, onMarks(r, 0, 2)+0.25, onMarks(r, 1, 4)
		street := r.IntN(2)
		message := ask(parser.Offset, geometry.Angle(degrees), measures...)
		message.Ends[street] = parser.End{Fitting: catalog.Fitting{Shape: catalog.Bend, Angle: geometry.Angle(degrees), Street: true}, Takeoff: geometry.Length(hub), Spigot: geometry.Length(spigot)}
		message.Ends[1-street] = parser.End{Fitting: catalog.BendOf(geometry.Angle(degrees)), Takeoff: geometry.Length(other)}
		a := solve(t, message, figure.Settings{})
		standing, piece := [2]float64{other, other}, [2]float64{other, other}
		standing[street], piece[street] = spigot, hub
		l := layer{heading: ahead}
		l.forward(standing[0])
		l.turn(degrees, across(toward))
		l.forward(piece[0] + figured(t, a, parser.Cut) + piece[1])
		l.turn(-degrees, across(toward))
		l.forward(standing[1])
		off(t, a, l.at, r3.Add(r3.Scale(figured(t, a, parser.EndGap), ahead), toward))
	}
}

// TestStreetSetsInSpace lays out a street fitting straight in the hub of another
// bend: there is the set that it makes, and the pipes end as far apart as it
// says.
func TestStreetSetsInSpace(t *testing.T) {
	r := chance(32)
	for range laidOut {
		degrees := trade[1+r.IntN(5)]
		hub, other, spigot := onMarks(r, 0, 2)+0.25, onMarks(r, 0, 2)+0.25, onMarks(r, 1, 4)
		message := ask(parser.Offset, geometry.Angle(degrees))
		street := r.IntN(2)
		message.Ends[street] = parser.End{Fitting: catalog.Fitting{Shape: catalog.Bend, Angle: geometry.Angle(degrees), Street: true}, Takeoff: geometry.Length(hub), Spigot: geometry.Length(spigot)}
		message.Ends[1-street] = parser.End{Fitting: catalog.BendOf(geometry.Angle(degrees)), Takeoff: geometry.Length(other)}
		a := solve(t, message, figure.Settings{})
		l := layer{heading: ahead}
		l.forward(other)
		l.turn(degrees, r3.Vec{Z: 1})
		l.forward(other + spigot)
		l.turn(-degrees, r3.Vec{Z: 1})
		l.forward(hub)
		off(t, a, l.at, r3.Vec{X: figured(t, a, parser.EndGap), Y: figured(t, a, parser.Set)})
	}
}

// TestStreetSetWithAPup: the pup's length, the two hubs' takeoffs and sin 45° make
// the set; laid out, it lands there.
func TestStreetSetWithAPup(t *testing.T) {
	message := ask(parser.Offset, 45, m(parser.Cut, 3.5))
	message.Ends = [2]parser.End{{Fitting: street45, Takeoff: 1.25, Spigot: 2.125}, {Fitting: catalog.BendOf(45), Takeoff: 1.375}}
	a := solve(t, message, figure.Settings{})
	l := layer{heading: ahead}
	l.forward(2.125)
	l.turn(45, r3.Vec{Z: 1})
	l.forward(1.25 + 3.5 + 1.375)
	l.turn(-45, r3.Vec{Z: 1})
	l.forward(1.375)
	off(t, a, l.at, r3.Vec{X: figured(t, a, parser.EndGap), Y: figured(t, a, parser.Set)})
	if a.Main != parser.Set {
		t.Errorf("first is %s", a.Main)
	}
}

// TestSmallestSet: two hubs of 2-1/8 from center to face touch at 4-1/4 × sin 45°
// = 3.005 (trade check C14); between them is a piece that fills both hubs.
func TestSmallestSet(t *testing.T) {
	message := depths(takeoffs(pipe(ask(parser.Offset, 45), drain2), 1, 1), 1.125, 1.125)
	message.Want = parser.Least
	a := solve(t, message, figure.Settings{})
	wantLength(t, a, parser.Least, 3.005203820042827)
	wantLength(t, a, parser.Cut, 2.25)
}

// TestARefusalSaysWhatAStreetFittingMakes: with a spigot that was measured at
// 2-1/8 a street 45 in a 45 of 1-1/2 makes (2-1/8 + 1-1/2) × sin 45°. With none
// measured it is said between what sets it lies; and where even the shortest
// spigot makes too large a set, none is promised.
func TestARefusalSaysWhatAStreetFittingMakes(t *testing.T) {
	message := takeoffs(pipe(ask(parser.Offset, 45, m(parser.Set, 2.5625)), drain2), 1.5, 1.5)
	i := impossible(t, message, own(map[string]float64{"street 45 spigot": 2.125}))
	if want := (2.125 + 1.5) * math.Sqrt2 / 2; math.Abs(i.StreetSets[0].Inches()-want) > eps || i.StreetSets[0] != i.StreetSets[1] {
		t.Errorf("a street 45 makes %v, want %v", i.StreetSets, want)
	}
	if math.Abs(i.Street.Inches()-(2.5625*math.Sqrt2-1.5)) > eps {
		t.Errorf("a street 45 of %v would do", i.Street)
	}
	i = impossible(t, message, figure.Settings{})
	if least, most := i.StreetSets[0].Inches(), i.StreetSets[1].Inches(); !(least < 2.5625 && 2.5625 < most) || i.Street == 0 {
		t.Errorf("a street 45 makes between %v and %v", least, most)
	}
	message.Measures[0].Length = 1.25
	if i = impossible(t, message, figure.Settings{}); i.Street != 0 {
		t.Errorf("a street 45 of %v is said to do for a set of 1-1/4", i.Street)
	}
}

// TestUnlikeBendsInSpace lays out two bends that differ: the far pipe ends where
// it says, and runs as far out of parallel as it says.
func TestUnlikeBendsInSpace(t *testing.T) {
	r := chance(33)
	angles := []float64{72, 60, 45, 30, 22.5, 11.25}
	for range laidOut {
		first, second := angles[r.IntN(len(angles))], angles[r.IntN(len(angles))]
		if first == second {
			continue
		}
		toward, measures := step(r, 15, 40)
		message, j := anyJoints(r, ask(parser.Offset, 0, measures...))
		message.Ends[0].Fitting, message.Ends[1].Fitting = catalog.BendOf(geometry.Angle(first)), catalog.BendOf(geometry.Angle(second))
		a := solve(t, message, figure.Settings{})
		l := layer{heading: ahead}
		l.forward(j.first + j.gap)
		l.turn(first, across(toward))
		l.forward(j.first + j.gap + figured(t, a, parser.Cut) + j.gap + j.second)
		if d := math.Abs(r3.Dot(l.at, r3.Unit(toward)) - r3.Norm(toward)); d > 1e-9 {
			t.Errorf("%+v: the second bend stands %v off the set", message, d)
		}
		l.turn(-second, across(toward))
		l.forward(j.second + j.gap)
		off(t, a, l.at, r3.Add(r3.Scale(figured(t, a, parser.FarEnd), ahead), r3.Scale(figured(t, a, parser.FarSet), r3.Unit(toward))))
		out := math.Acos(r3.Dot(l.heading, ahead)) * 180 / math.Pi
		if math.Abs(a.Unlike.Off.Degrees()-out) > 1e-6 || a.Unlike.Away != (r3.Dot(l.heading, toward) > 0) {
			t.Errorf("%+v: the far line runs %v off, it says %+v", message, out, a.Unlike)
		}
	}
}

// TestWyesInSpace lays an offset out from the center of a wye, at the outlet's
// side or the other end, and cuts the run: the far pipe ends where it says from
// the wye's center, and the hole in the run is where the wye's run ends.
func TestWyesInSpace(t *testing.T) {
	r := chance(34)
	for range laidOut {
		toward, measures := step(r, 15, 40)
		gap := float64(r.IntN(3)) / 16
		branch, bend := onMarks(r, 2, 6), onMarks(r, 0, 3)+0.25
		inlet, outlet := onMarks(r, 2, 6), onMarks(r, 0, 2)+0.25
		end := r.IntN(2)
		message := ask(parser.Offset, 45, append(measures, m(parser.JointGap, gap))...)
		message.Ends[end] = parser.End{Fitting: wye, Takeoff: geometry.Length(branch), Inlet: geometry.Length(inlet), Outlet: geometry.Length(outlet)}
		message.Ends[1-end] = parser.End{Fitting: catalog.BendOf(45), Takeoff: geometry.Length(bend)}
		a := solve(t, message, figure.Settings{})
		l := layer{heading: ahead} // from the wye's center, along its run
		l.turn(45, across(toward))
		l.forward(branch + gap + figured(t, a, parser.Cut) + gap + bend)
		l.turn(-45, across(toward))
		l.forward(bend + gap)
		off(t, a, l.at, r3.Add(r3.Scale(figured(t, a, parser.FarEnd), ahead), toward))
		if got, want := figured(t, a, parser.CutOut), inlet+outlet+2*gap; math.Abs(got-want) > eps {
			t.Errorf("%+v: %v is cut out, want %v", message, got, want)
		}
		if a.Branch.End != end || !a.Branch.Known() || a.EndGapKnown() {
			t.Errorf("%+v: branch %+v", message, a.Branch)
		}
	}
}

// TestSquareEndsInSpace lays an offset out from the pipe that ends in a 45 to the
// center of what stands square to the step: a sanitary tee, whose run may stand
// up, or a 90, which may turn any way.
func TestSquareEndsInSpace(t *testing.T) {
	r := chance(35)
	square := []catalog.Fitting{santee, {Shape: catalog.Tee}, {Shape: catalog.Combination}, catalog.BendOf(90)}
	for range laidOut {
		toward, measures := step(r, 15, 40)
		f := square[r.IntN(len(square))]
		end := r.IntN(2)
		message, j := anyJoints(r, ask(parser.Offset, 45, measures...))
		message.Ends[end].Fitting, message.Ends[1-end].Fitting = f, catalog.BendOf(45)
		a := solve(t, message, figure.Settings{})
		bend, piece := j.first, j.second
		if end == 0 {
			bend, piece = piece, bend
		}
		l := layer{heading: ahead}
		l.forward(bend + j.gap)
		l.turn(45, across(toward))
		l.forward(bend + j.gap + figured(t, a, parser.Cut) + j.gap + piece)
		off(t, a, l.at, r3.Add(r3.Scale(figured(t, a, parser.FarEnd), ahead), toward))
		if a.From != f || a.Unlike != nil {
			t.Errorf("%+v: from %v, unlike %v", message, a.From, a.Unlike)
		}
	}
}

// TestATeeWithoutAnotherBendLeavesSquare: nobody said a bend, so the piece leaves
// the tee square and is as long as the set.
func TestATeeWithoutAnotherBendLeavesSquare(t *testing.T) {
	message := takeoffs(ask(parser.Offset, 0, m(parser.Set, 20)), 3, 2)
	message.Ends[0].Fitting, message.Ends[1].Fitting = santee, catalog.BendOf(90)
	a := solve(t, message, figure.Settings{})
	wantLength(t, a, parser.Cut, 15)
	wantLength(t, a, parser.Run, 0)
}

// TestThreeNumbersOfABranch are kept from one message, and are found again.
func TestThreeNumbersOfABranch(t *testing.T) {
	message := pipe(ask(parser.Takeoff, 0), drain2)
	message.Store = true
	message.Ends[0] = parser.End{Fitting: catalog.Fitting{Shape: catalog.Wye}, Takeoff: 3.25, Inlet: 3.25, Outlet: 1.0625}
	message.Ends[1] = message.Ends[0]
	a := solve(t, message, figure.Settings{})
	var settings figure.Settings
	kept := map[string]float64{}
	for _, own := range a.Own {
		kept[own.Takeoff.Fitting.Key()] = own.Takeoff.Length.Inches()
		settings.Takeoffs = append(settings.Takeoffs, figure.OwnTakeoff{System: own.System.ID, Fitting: own.Takeoff.Fitting.Key(), Size: own.Takeoff.Size, Length: own.Takeoff.Length})
	}
	if want := map[string]float64{"wye": 3.25, "wye inlet": 3.25, "wye outlet": 1.0625}; len(kept) != 3 || kept["wye"] != want["wye"] || kept["wye inlet"] != want["wye inlet"] || kept["wye outlet"] != want["wye outlet"] {
		t.Fatalf("kept %v", kept)
	}
	offset := pipe(ask(parser.Offset, 45, m(parser.Set, 20)), drain2)
	offset.Ends[0].Fitting, offset.Ends[1] = wye, parser.End{Fitting: catalog.BendOf(45), Takeoff: 1.5}
	found := solve(t, offset, settings)
	wantLength(t, found, parser.Cut, 20*math.Sqrt2-3.25-1.5)
	wantLength(t, found, parser.CutOut, 3.25+1.0625)
}

// TestABranchThatNobodyMeasured leaves out what is cut out of the run, and says
// which fitting to measure.
func TestABranchThatNobodyMeasured(t *testing.T) {
	message := takeoffs(pipe(ask(parser.Offset, 45, m(parser.Set, 20)), drain2), 3.25, 1.5)
	message.Ends[0].Fitting, message.Ends[1].Fitting = wye, catalog.BendOf(45)
	a := solve(t, message, figure.Settings{})
	if _, ok := a.Length(parser.CutOut); ok || a.NoEnds != wye || a.Branch.Known() {
		t.Errorf("%+v", a)
	}
	wantLength(t, a, parser.FarEnd, 21.5)
}

func TestUnlikeBendsWantASet(t *testing.T) {
	message := takeoffs(ask(parser.Offset, 0, m(parser.EndGap, 20)), 1, 1)
	message.Ends[0].Fitting, message.Ends[1].Fitting = catalog.BendOf(45), catalog.BendOf(30)
	_, err := figure.Solve(message, figure.Settings{})
	if missing := (*figure.Missing)(nil); !errors.As(err, &missing) || missing.Wanted != parser.Set {
		t.Errorf("error is %v", err)
	}
}

// TestCornersInSpace lays corners of two bends out, from where the first line
// stops: the second begins on its own line through the corner, as far from it as
// it says; and the piece passes as near to the corner as it says.
func TestCornersInSpace(t *testing.T) {
	r := chance(36)
	bends := []float64{60, 45, 30, 22.5, 11.25}
	for range laidOut {
		first, second := bends[r.IntN(len(bends))], bends[r.IntN(len(bends))]
		role := []parser.Role{parser.Leg, parser.OtherLeg, parser.Travel, parser.StopAt, parser.OtherStopAt, parser.Cut}[r.IntN(6)]
		message, j := anyJoints(r, ask(parser.Corner, 0, m(role, onMarks(r, 20, 60))))
		message.Ends[0].Fitting, message.Ends[1].Fitting = catalog.BendOf(geometry.Angle(first)), catalog.BendOf(geometry.Angle(second))
		a, err := figure.Solve(message, figure.Settings{})
		if err != nil {
			t.Fatalf("%+v: %v", message, err)
		}
		stop := figured(t, a, parser.StopAt)
		other, ok := a.Length(parser.OtherStopAt)
		if !ok {
			other = geometry.Length(stop)
		}
		l := layer{r3.Vec{X: -stop}, ahead}
		l.forward(j.first + j.gap)
		l.turn(first, r3.Vec{Z: 1})
		if d := apart(r3.Vec{}, l.at, l.heading); math.Abs(d-figured(t, a, parser.Diagonal)) > 1e-9 {
			t.Errorf("%+v: the piece passes %v from the corner, it says %v", message, d, figured(t, a, parser.Diagonal))
		}
		l.forward(j.first + j.gap + figured(t, a, parser.Cut) + j.gap + j.second)
		l.turn(second, r3.Vec{Z: 1})
		l.forward(j.second + j.gap)
		off(t, a, l.at, r3.Scale(other.Inches(), l.heading))
		if given, ok := a.Length(role); ok && math.Abs((given-message.Measures[0].Length).Inches()) > 1e-9 {
			t.Errorf("%+v: %s comes out as %v", message, role, given)
		}
	}
}

// TestASquareCornerOfTwo45s: with legs of 12 the travel is 16.9706 and passes
// 8.4853 from the corner (handbook check 2d, computed apart).
func TestASquareCornerOfTwo45s(t *testing.T) {
	a := solve(t, takeoffs(ask(parser.Corner, 90, m(parser.Leg, 12)), 1.5, 1.5), figure.Settings{})
	wantLength(t, a, parser.Travel, 16.970562748477143)
	wantLength(t, a, parser.Diagonal, 8.485281374238571)
	wantLength(t, a, parser.Cut, 13.970562748477143)
	wantLength(t, a, parser.StopAt, 13.5)
	said := ask(parser.Corner, 45, m(parser.Leg, 12))
	wantLength(t, solve(t, takeoffs(said, 1.5, 1.5), figure.Settings{}), parser.Cut, 13.970562748477143)
}

// TestCornersThatCantBe: hubs that overlap, bends that don't make the turn.
func TestCornersThatCantBe(t *testing.T) {
	tight := depths(takeoffs(pipe(ask(parser.Corner, 90, m(parser.Leg, 2)), drain2), 1.5, 1.5), 0.75, 0.75)
	if i := impossible(t, tight, figure.Settings{}); i.Cause != figure.CornerTooTight || math.Abs(i.Smallest.Inches()-4.5/math.Sqrt2) > eps {
		t.Errorf("%s, smallest %v", i.Cause, i.Smallest)
	}
	other := takeoffs(ask(parser.Corner, 90, m(parser.Leg, 12)), 1, 1)
	other.Ends[0].Fitting, other.Ends[1].Fitting = catalog.BendOf(45), catalog.BendOf(30)
	if i := impossible(t, other, figure.Settings{}); i.Cause != figure.TurnDiffers {
		t.Errorf("%s", i.Cause)
	}
	least := depths(takeoffs(pipe(ask(parser.Corner, 90), drain2), 1.5, 1.5), 0.75, 0.75)
	least.Want = parser.Least
	wantLength(t, solve(t, least, figure.Settings{}), parser.Leg, 4.5/math.Sqrt2)
}

// TestInlineInSpace lays the pieces and what stands between them along the
// travel: they end at the second fitting, and each center is where it says.
func TestInlineInSpace(t *testing.T) {
	r := chance(37)
	for range laidOut {
		set := onMarks(r, 60, 90)
		message, j := anyJoints(r, ask(parser.Offset, 45, m(parser.Set, set)))
		place := onMarks(r, 15, 18)
		placed := r.IntN(2) == 0
		for n := range 1 + r.IntN(3) {
			in := parser.Inline{Fitting: catalog.Fitting{Shape: catalog.Union}, Laying: geometry.Length(onMarks(r, 1, 4))}
			if placed {
				in.Place = geometry.Length(place + float64(n)*18)
			}
			message.Inline = append(message.Inline, in)
		}
		a := solve(t, message, figure.Settings{})
		at := j.first + j.gap
		for i, p := range a.Pieces {
			at += p.Inches()
			if i == len(message.Inline) {
				break
			}
			in := message.Inline[i]
			center := at + j.gap + in.Laying.Inches()/2
			if math.Abs(center-a.Inline[i].Place.Inches()) > 1e-9 || placed && math.Abs(center-in.Place.Inches()) > 1e-9 {
				t.Errorf("%+v: piece %d puts the union at %v", message, i, center)
			}
			if !placed && math.Abs((p-a.Pieces[0]).Inches()) > 1e-9 {
				t.Errorf("%+v: pieces %v", message, a.Pieces)
			}
			at += 2*j.gap + in.Laying.Inches()
		}
		if want := set*math.Sqrt2 - j.gap - j.second; len(a.Pieces) != len(message.Inline)+1 || math.Abs(at-want) > 1e-9 {
			t.Errorf("%+v: the last piece ends at %v, want %v", message, at, want)
		}
	}
}

// TestDoglegsInSpace lays two offsets out with the straight between.
func TestDoglegsInSpace(t *testing.T) {
	r := chance(38)
	for range laidOut {
		first, second := trade[1+r.IntN(5)], trade[1+r.IntN(5)]
		one, two, straight := onMarks(r, 15, 30), onMarks(r, 15, 30), onMarks(r, 12, 40)
		message, j := anyJoints(r, ask(parser.Doglegs, 0, m(parser.Set, one), m(parser.Set, two), m(parser.Straight, straight)))
		message.Ends[0].Fitting, message.Ends[1].Fitting = catalog.BendOf(geometry.Angle(first)), catalog.BendOf(geometry.Angle(second))
		message.ComeBack = r.IntN(2) == 0
		a := solve(t, message, figure.Settings{})
		side := 1.0
		if message.ComeBack {
			side = -1
		}
		a1, a2 := j.first+j.gap, j.second+j.gap
		l := layer{heading: ahead}
		l.turn(first, r3.Vec{Z: 1})
		l.forward(a1 + a.Pieces[0].Inches() + a1)
		l.turn(-first, r3.Vec{Z: 1})
		l.forward(a1 + a.Pieces[1].Inches() + a2)
		l.turn(side*second, r3.Vec{Z: 1})
		l.forward(a2 + a.Pieces[2].Inches() + a2)
		if math.Abs(l.at.X-figured(t, a, parser.Run)) > 1e-9 || math.Abs(math.Abs(l.at.Y)-figured(t, a, parser.Set)) > 1e-9 || math.Abs(l.at.Y-(one+side*two)) > 1e-9 {
			t.Errorf("%+v: lands at %v; %v along and %v over", message, l.at, figured(t, a, parser.Run), figured(t, a, parser.Set))
		}
	}
}

// TestARiserOfOneTape: from finished floor a plain end at 0, a wye at 14-1/2 that
// takes 1 below and 3-1/4 above, a 45 at 40 that takes 1-1/2: pieces of 13-1/2 and
// 20-3/4, added up by hand.
func TestARiserOfOneTape(t *testing.T) {
	message := ask(parser.Riser, 0)
	message.Stations = []parser.Station{
		{Fitting: catalog.BendOf(45), Reading: 40, Below: 1.5, Above: 1.5},
		{},
		{Fitting: wye, Reading: 14.5, Below: 1, Above: 3.25},
	}
	a := solve(t, message, figure.Settings{})
	if len(a.Pieces) != 2 || a.Pieces[0] != 13.5 || a.Pieces[1] != 20.75 {
		t.Errorf("pieces %v", a.Pieces)
	}
	if s := a.Stations; s[0].Above != 0 || s[1].Below != 13.5 || s[1].Above != 17.75 || s[2].Below != 38.5 {
		t.Errorf("stations %+v", s)
	}
	message.Stations[0].Reading = 15
	if i := impossible(t, message, figure.Settings{}); i.Cause != figure.TooShort {
		t.Errorf("%s", i.Cause)
	}
}

// TestMiteredTurns: by a piping engineer's page a 90 of four welds on a centerline
// radius of 381 mm has middle pieces of 151.6, end pieces of 75.8, and on 273 mm
// pipe a cutback of twice 27.15; a 45 of one weld on 4.5 in pipe is cut back .9320
// on each side of the base line (both printed to what is given here).
func TestMiteredTurns(t *testing.T) {
	mm := float64(geometry.Millimeter)
	message := pipe(ask(parser.Miter, 90, m(parser.Radius, 381*mm)), catalog.Pipe{Material: catalog.Steel, Joint: catalog.ButtWeld, Size: "10"})
	message.Pieces = 5
	a := solve(t, message, figure.Settings{})
	for role, want := range map[parser.Role]float64{parser.MiddlePiece: 151.6, parser.EndPiece: 75.8} {
		if got := figured(t, a, role) / mm; math.Abs(got-want) > 0.05 {
			t.Errorf("%s %v mm, want %v", role, got, want)
		}
	}
	if got := figured(t, a, parser.Cutback) / mm / 2; math.Abs(got-27.15) > 0.05 {
		t.Errorf("half the cutback %v mm", got) // of 10.75 in, 273.05 mm
	}
	if a.CutAngle != 11.25 {
		t.Errorf("cut at %v", a.CutAngle)
	}
	four := pipe(ask(parser.Miter, 45), catalog.Pipe{Material: catalog.Steel, Joint: catalog.ButtWeld, Size: "4"})
	if got := figured(t, solve(t, four, figure.Settings{}), parser.Cutback) / 2; math.Abs(got-0.9320) > 5e-5 {
		t.Errorf("half the cutback %v", got)
	}
	four.Pieces = 6
	if i := impossible(t, four, figure.Settings{}); i.Cause != figure.PieceCount {
		t.Errorf("%s", i.Cause)
	}
}

// TestMitersInSpace cuts the wall of a pipe by the plane that halves the turn: the
// marks lie on it.
func TestMitersInSpace(t *testing.T) {
	r := chance(39)
	for range 60 {
		turn, pieces := 20+70*r.Float64(), 2+r.IntN(4)
		message := pipe(ask(parser.Miter, geometry.Angle(turn)), catalog.Pipe{Material: catalog.Steel, Joint: catalog.ButtWeld, Size: "6"})
		message.Pieces = pieces
		a := solve(t, message, figure.Settings{})
		half := turn / float64(2*(pieces-1))
		normal := r3.NewRotation(radians(half), r3.Vec{Z: 1}).Rotate(ahead) // of the cut's plane, through the axis at x = 0
		for i, past := range a.Strip.Points {
			around := 2 * math.Pi * float64(i) / float64(len(a.Strip.Points)-1)
			wall := r3.Vec{Y: 6.625 / 2 * math.Cos(around), Z: 6.625 / 2 * math.Sin(around)} // the throat lies toward the turn
			x := -r3.Dot(wall, normal) / normal.X
			throat := -6.625 / 2 * normal.Y / normal.X
			if math.Abs(x-throat-past.Inches()) > 1e-9 {
				t.Fatalf("%+v: at %v it reaches %v, on the plane %v", message, around, past, x-throat)
			}
		}
	}
}

// TestSaddlesInSpace finds by halving where each line of the branch's wall meets
// the header's wall, as far from its centerline as its radius.
func TestSaddlesInSpace(t *testing.T) {
	r := chance(40)
	sizes := map[catalog.Size]float64{"2": 2.375, "3": 3.5, "4": 4.5, "6": 6.625}
	pairs := [][2]catalog.Size{{"2", "2"}, {"2", "4"}, {"3", "6"}, {"4", "6"}, {"6", "6"}}
	for range 60 {
		pair, angle := pairs[r.IntN(len(pairs))], 30+60*r.Float64()
		message := pipe(ask(parser.Saddle, geometry.Angle(angle)), catalog.Pipe{Material: catalog.Steel, Joint: catalog.ButtWeld, Size: pair[0]})
		message.Ends[1].Size = pair[1]
		a := solve(t, message, figure.Settings{})
		branch, header := sizes[pair[0]]/2, sizes[pair[1]]/2
		axis := r3.NewRotation(radians(angle), r3.Vec{Y: -1}).Rotate(ahead) // the header lies along x, the branch leans toward it
		throat := r3.Cross(axis, r3.Vec{Y: -1})                             // square to the branch, where the two close in
		if throat.X < 0 {
			throat = r3.Scale(-1, throat)
		}
		meets := func(around float64) float64 {
			wall := r3.Add(r3.Scale(branch*math.Cos(around), throat), r3.Vec{Y: branch * math.Sin(around)})
			inside, outside := 0.0, 60.0
			if low := r3.Add(wall, r3.Scale(-60, axis)); math.Hypot(low.Y, low.Z) < header {
				t.Fatal("the branch ends inside of the header")
			}
			// From the height where the wall's line is nearest to the header's axis outward.
			inside = -wall.Z / axis.Z
			for range 200 {
				mid := (inside + outside) / 2
				if p := r3.Add(wall, r3.Scale(mid, axis)); math.Hypot(p.Y, p.Z) < header {
					inside = mid
				} else {
					outside = mid
				}
			}
			return inside
		}
		for i, past := range a.Strip.Points {
			around := 2 * math.Pi * float64(i) / float64(len(a.Strip.Points)-1)
			if want := meets(0) - meets(around); math.Abs(want-past.Inches()) > 1e-7 {
				t.Fatalf("%+v: at %v it reaches %v, laid out %v", message, around, past, want)
			}
		}
		longest := math.Inf(1)
		for i := range 3600 {
			longest = min(longest, meets(float64(i)*math.Pi/1800))
		}
		if got := figured(t, a, parser.Fishmouth); math.Abs(got-(meets(0)-longest)) > 1e-4 || got > meets(0)-longest+1e-4 {
			t.Errorf("%+v: it is cut %v deep, laid out %v", message, got, meets(0)-longest)
		}
		if math.Abs(figured(t, a, parser.TakeoffOf)-meets(0)) > 1e-9 {
			t.Errorf("%+v: its shortest line stays %v off", message, meets(0))
		}
	}
}

// TestWraps: 33.69° is 1.3230 on 4.5 in pipe, .6983 on 2.375 and 1.9478 on 6.625
// (computed apart, π · diameter · angle / 360); a fitting that rolls 8 and rises
// 12 is turned 56.31° up from level.
func TestWraps(t *testing.T) {
	for size, want := range map[catalog.Size]float64{"4": 1.3230, "2": 0.6983, "6": 1.9478} {
		a := solve(t, pipe(ask(parser.Wrap, 33.69), catalog.Pipe{Material: catalog.Steel, Joint: catalog.ButtWeld, Size: size}), figure.Settings{})
		if got := figured(t, a, parser.Arc); math.Abs(got-want) > 6e-5 {
			t.Errorf("on %s: %v, want %v", size, got, want)
		}
	}
	a := solve(t, pipe(ask(parser.Wrap, 0, m(parser.Roll, 8), m(parser.Rise, 12)), drain2), figure.Settings{})
	if want := math.Pi * 2.375 * 56.309932474020215 / 360; math.Abs(figured(t, a, parser.Arc)-want) > eps {
		t.Errorf("arc %v, want %v", figured(t, a, parser.Arc), want)
	}
}

// TestWhatTurnsNothingStandsInTheTravel: a union that is named beside the bends of
// an offset is no end of it; how long it is is asked, and then the pieces are those
// of an offset with a union said to stand in the travel. One with a takeoff of its
// own is at an end.
func TestWhatTurnsNothingStandsInTheTravel(t *testing.T) {
	union := catalog.Fitting{Shape: catalog.Union}
	beside := takeoffs(ask(parser.Offset, 45, m(parser.Set, 30), m(parser.Laying, 2.125)), 1.5, 1.5)
	said := beside
	said.Measures, said.Inline = said.Measures[:1], []parser.Inline{{Fitting: union, Laying: 2.125}}
	want := solve(t, said, figure.Settings{}).Pieces
	for _, ends := range [][2]catalog.Fitting{{catalog.BendOf(45), union}, {union, catalog.BendOf(45)}, {union, union}} {
		beside.Ends[0].Fitting, beside.Ends[1].Fitting = ends[0], ends[1]
		a := solve(t, beside, figure.Settings{})
		if len(a.Pieces) != 2 || a.Pieces[0] != want[0] || a.Pieces[1] != want[1] {
			t.Errorf("%v: pieces %v, want %v", ends, a.Pieces, want)
		}
		unsaid := beside
		unsaid.Measures = unsaid.Measures[:1]
		_, err := figure.Solve(unsaid, figure.Settings{})
		if missing := (*figure.Missing)(nil); !errors.As(err, &missing) || missing.Wanted != parser.Laying {
			t.Errorf("%v: error is %v", ends, err)
		}
	}
	own := takeoffs(ask(parser.Offset, 45, m(parser.Set, 30)), 1.5, 0.75)
	own.Ends[0].Fitting, own.Ends[1].Fitting = catalog.BendOf(45), union
	wantLength(t, solve(t, own, figure.Settings{}), parser.Cut, 30*math.Sqrt2-2.25)
}
