package figure_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"

	"gonum.org/v1/gonum/spatial/r3"
)

// What dogleg answers is laid out in space here by vectors and turns of
// gonum's, with nothing of packages geometry and walk but the types that an ask
// is written in. x runs along the line, y is level across it, z is up.

// spaceSeed makes the asks of the checks in space the same in every run.
const spaceSeed = 20261130

func chance(of uint64) *rand.Rand { return rand.New(rand.NewPCG(spaceSeed, of)) }

// onMarks draws a length from one number of inches to another.
func onMarks(r *rand.Rand, from, to int) float64 {
	return float64(16*from+r.IntN(16*(to-from)+1)) / 16
}

var ahead = r3.Vec{X: 1}

// radians are those of an angle in degrees.
func radians(degrees float64) float64 { return degrees * math.Pi / 180 }

// turned is the heading after a bend toward a direction that is square to x.
func turned(degrees float64, toward r3.Vec) r3.Vec {
	return r3.NewRotation(radians(degrees), r3.Cross(ahead, r3.Unit(toward))).Rotate(ahead)
}

// apart is how far a point lies from a straight line.
func apart(point, from, heading r3.Vec) float64 {
	return r3.Norm(r3.Cross(r3.Sub(point, from), r3.Unit(heading)))
}

func figured(t *testing.T, a *figure.Answer, r parser.Role) float64 {
	t.Helper()
	l, ok := a.Length(r)
	if !ok {
		t.Fatalf("no %s is figured of %+v", r, a.Ask)
	}
	return l.Inches()
}

var trade = []float64{90, 72, 60, 45, 30, 22.5, 11.25, 5.625}

// TestBanksInSpace lays out 1,000 banks, of every way to lie and to step: with
// the stagger that is answered each two diagonals run as far apart as the lines
// do before and after, and without it as far as is said.
func TestBanksInSpace(t *testing.T) {
	r := chance(1)
	for range 1000 {
		angle, spacing, count := trade[r.IntN(len(trade))], onMarks(r, 2, 24), 2+r.IntN(5)
		roll, rise := onMarks(r, 1, 40), onMarks(r, 1, 40)
		ask := ask(parser.Parallel, geometry.Angle(angle), m(parser.Spacing, spacing))
		ask.Lines = count
		step := r3.Vec{Y: roll, Z: rise}
		switch r.IntN(4) {
		case 0:
			step.Y = 0
			ask.Measures = append(ask.Measures, m(parser.Rise, rise))
		case 1:
			step.Z = 0
			ask.Measures = append(ask.Measures, m(parser.Roll, roll))
		default:
			ask.Measures = append(ask.Measures, m(parser.Roll, roll), m(parser.Rise, rise))
		}
		beside := r3.Vec{Y: 1}
		switch r.IntN(3) {
		case 0:
			ask.Lie, beside = parser.OneAbove, r3.Vec{Z: 1}
		case 1:
			ask.Lie = parser.SideBySide
		}
		a := solve(t, ask, figure.Settings{})
		heading := turned(angle, step)
		for i := range a.Lines[1:] {
			first, next := a.Lines[i], a.Lines[i+1]
			at := func(l figure.Line, start float64) r3.Vec {
				return r3.Add(r3.Vec{X: -start}, r3.Scale(l.Spacing.Inches(), beside))
			}
			if got := apart(at(next, next.Start.Inches()), at(first, first.Start.Inches()), heading); math.Abs(got-spacing) > 1e-9 {
				t.Fatalf("%+v: lines %d and %d run %v apart on the diagonal, %v before", ask, i+1, i+2, got, spacing)
			}
			if got := apart(at(next, 0), at(first, 0), heading); math.Abs(got-a.Unstaggered.Inches()) > 1e-9 {
				t.Fatalf("%+v: bent at one place they close up to %v, it says %v", ask, got, a.Unstaggered)
			}
		}
	}
}

// TestARackThatRisesHasNoStagger: lines side by side that all go up keep their
// spacing, wherever they bend. Stacked lines that roll 10 and rise 7 stagger by
// the part of the spacing that lies along the step: 8 × 7/√149 × tan 22-1/2°.
func TestARackThatRisesHasNoStagger(t *testing.T) {
	rack := ask(parser.Parallel, 45, m(parser.Spacing, 8), m(parser.Rise, 12))
	a := solve(t, rack, figure.Settings{})
	wantLength(t, a, parser.Stagger, 0)
	if math.Abs(a.Unstaggered.Inches()-8) > eps || !a.Bank.Taken || !a.Bank.Differ {
		t.Errorf("bank %+v closes up to %v", a.Bank, a.Unstaggered)
	}
	stacked := ask(parser.Parallel, 45, m(parser.Spacing, 8), m(parser.Roll, 10), m(parser.Rise, 7))
	stacked.Lie = parser.OneAbove
	wantLength(t, solve(t, stacked, figure.Settings{}), parser.Stagger, 8*7/math.Sqrt(149)*math.Tan(math.Pi/8))
}

// asksInSpace is how many asks are laid out, shared by the kinds.
const asksInSpace = 2600

// TestAsksInSpace draws asks of every kind that has a length, and holds what is
// answered against the same thing laid out by vectors, turns and brute force.
func TestAsksInSpace(t *testing.T) {
	laid := map[parser.Kind]int{}
	kinds := []struct {
		kind parser.Kind
		lay  func(*testing.T, *rand.Rand)
	}{
		{parser.Offset, layOffset},
		{parser.Offset, layTwoLengths},
		{parser.Offset, layFromPiece},
		{parser.Fit, layFit},
		{parser.Piece, layPiece},
		{parser.Piece, layPieceBetweenFaces},
		{parser.Piece, layPieceOfHubs},
		{parser.Mark, layMark},
		{parser.Parallel, layBankWithPieces},
		{parser.Around, layAround},
		{parser.Fall, layFall},
		{parser.Trim, layTrim},
		{parser.Sum, laySum},
		{parser.Multiplier, layMultiplier},
		{parser.Takeoff, layTakeoff},
		{parser.Check, layCheck},
		{parser.Riser, layRiser},
		{parser.Wrap, layWrap},
	}
	for n, k := range kinds {
		r := chance(uint64(100 + n))
		for range asksInSpace / len(kinds) {
			k.lay(t, r)
			laid[k.kind]++
			if t.Failed() {
				return
			}
		}
	}
	total := 0
	for _, k := range []parser.Kind{
		parser.Offset, parser.Fit, parser.Piece, parser.Mark, parser.Parallel, parser.Around, parser.Fall, parser.Trim,
		parser.Sum, parser.Multiplier, parser.Takeoff, parser.Check, parser.Riser, parser.Wrap,
	} {
		if laid[k] == 0 {
			t.Errorf("nothing of kind %s was laid out", k)
		}
		total += laid[k]
	}
	if total < 2000 {
		t.Errorf("only %d asks were laid out", total)
	}
}

// joints are what stands at the two ends of a piece.
type joints struct{ first, second, gap float64 }

// anyJoints draws takeoffs and a gap, and says them in an ask.
func anyJoints(r *rand.Rand, a parser.Ask) (parser.Ask, joints) {
	j := joints{onMarks(r, 0, 3) + 0.25, onMarks(r, 0, 3) + 0.25, float64(r.IntN(4)) / 32}
	a = takeoffs(a, j.first, j.second)
	a.Measures = append(a.Measures, m(parser.JointGap, j.gap))
	return a, j
}

// step draws a step to the side, upward or both, and its measures.
func step(r *rand.Rand, from, to int) (r3.Vec, []parser.Measure) {
	set := onMarks(r, from, to)
	switch r.IntN(3) {
	case 0:
		rise := onMarks(r, from, to)
		return r3.Vec{Y: set, Z: rise}, []parser.Measure{m(parser.Roll, set), m(parser.Rise, rise)}
	case 1:
		return r3.Vec{Z: set}, []parser.Measure{m(parser.Rise, set)}
	}
	return r3.Vec{Y: set}, []parser.Measure{m(parser.Set, set)}
}

// lands lays a standing pipe that ends at the origin, the piece and the pipe it
// goes to, and checks that this one ends where the answer says, on its line.
func lands(t *testing.T, a *figure.Answer, j joints, toward r3.Vec, degrees, cut, endGap float64) {
	t.Helper()
	at := r3.Scale(j.first+j.gap, ahead)
	at = r3.Add(at, r3.Scale(j.first+j.gap+cut+j.gap+j.second, turned(degrees, toward)))
	at = r3.Add(at, r3.Scale(j.second+j.gap, ahead))
	want := r3.Add(r3.Scale(endGap, ahead), toward)
	if off := r3.Norm(r3.Sub(at, want)); off > 1e-9 {
		t.Errorf("%+v: a piece of %v lands %v off, at %v instead of %v", a.Ask, cut, off, at, want)
	}
}

func layOffset(t *testing.T, r *rand.Rand) {
	degrees := trade[r.IntN(len(trade))]
	toward, measures := step(r, 12, 60)
	message, j := anyJoints(r, ask(parser.Offset, geometry.Angle(degrees), measures...))
	a := solve(t, message, figure.Settings{})
	lands(t, a, j, toward, degrees, figured(t, a, parser.Cut), figured(t, a, parser.EndGap))
	if got, want := figured(t, a, parser.Travel), r3.Norm(toward)/math.Abs(turned(degrees, toward).Y*r3.Unit(toward).Y+turned(degrees, toward).Z*r3.Unit(toward).Z); math.Abs(got-want) > 1e-9 {
		t.Errorf("%+v: travel %v, want %v", message, got, want)
	}
}

// layTwoLengths gives two of set, run and travel of a triangle drawn at random:
// what was given stays, and the angle that follows lands.
func layTwoLengths(t *testing.T, r *rand.Rand) {
	set, run := onMarks(r, 8, 40), onMarks(r, 8, 40)
	travel := r3.Norm(r3.Vec{X: run, Y: set})
	given := [][]parser.Measure{
		{m(parser.Set, set), m(parser.Run, run)},
		{m(parser.Set, set), m(parser.Travel, travel)},
		{m(parser.Run, run), m(parser.Travel, travel)},
	}[r.IntN(3)]
	message, j := anyJoints(r, ask(parser.Offset, 0, given...))
	a := solve(t, message, figure.Settings{})
	for role, want := range map[parser.Role]float64{parser.Set: set, parser.Run: run, parser.Travel: travel} {
		if got := figured(t, a, role); math.Abs(got-want) > 1e-6 {
			t.Errorf("%+v: %s %v, want %v", given, role, got, want)
		}
	}
	cut, gap := figured(t, a, parser.Cut), figured(t, a, parser.EndGap)
	at := r3.Vec{X: j.first + j.gap}
	heading := turned(a.Angle.Degrees(), r3.Vec{Y: 1})
	at = r3.Add(at, r3.Scale(cut+j.first+j.second+2*j.gap, heading))
	if off := r3.Norm(r3.Sub(r3.Add(at, r3.Vec{X: j.second + j.gap}), r3.Vec{X: gap, Y: set})); off > 1e-6 {
		t.Errorf("%+v: lands %v off", given, off)
	}
}

// layFromPiece gives a cut, or the ends apart, and finds the set that they make.
func layFromPiece(t *testing.T, r *rand.Rand) {
	degrees := trade[1+r.IntN(len(trade)-1)]
	role, l := parser.Cut, onMarks(r, 6, 60)
	if r.IntN(2) == 0 {
		role, l = parser.EndGap, onMarks(r, 30, 80)
	}
	message, j := anyJoints(r, ask(parser.Offset, geometry.Angle(degrees), m(role, l)))
	a, err := figure.Solve(message, figure.Settings{})
	if err != nil {
		return // a run too short for its fittings
	}
	set := figured(t, a, parser.Set)
	cut, ok := a.Length(parser.Cut)
	gap, ok2 := a.Length(parser.EndGap)
	if !ok || !ok2 {
		t.Fatalf("%+v: nothing is figured of the piece", message)
	}
	if role == parser.Cut && math.Abs(cut.Inches()-l) > 1e-9 || role == parser.EndGap && math.Abs(gap.Inches()-l) > 1e-9 {
		t.Errorf("%+v: what was given is %v and %v", message, cut, gap)
	}
	lands(t, a, j, r3.Vec{Y: set}, degrees, cut.Inches(), gap.Inches())
}

// layFit asks whether one bend fits a room: what is said to be left over is what
// the laid-out offset leaves.
func layFit(t *testing.T, r *rand.Rand) {
	degrees := trade[1+r.IntN(4)]
	toward, measures := step(r, 12, 40)
	room := onMarks(r, 20, 120)
	message, j := anyJoints(r, ask(parser.Fit, geometry.Angle(degrees), append(measures, m(parser.Room, room))...))
	heading := turned(degrees, toward)
	run := r3.Norm(toward) * heading.X / r3.Norm(r3.Vec{Y: heading.Y, Z: heading.Z})
	needs := run + j.first + j.second + 2*j.gap
	a, err := figure.Solve(message, figure.Settings{})
	if (err == nil) != (needs <= room+1e-9) {
		t.Errorf("%+v needs %v of %v: %v", message, needs, room, err)
	}
	if err != nil {
		return
	}
	if got := a.Bends[0].Spare.Inches(); math.Abs(got-(room-needs)) > 1e-9 {
		t.Errorf("%+v: %v to spare, want %v", message, got, room-needs)
	}
	lands(t, a, j, toward, degrees, figured(t, a, parser.Cut), figured(t, a, parser.EndGap))
}

func layPiece(t *testing.T, r *rand.Rand) {
	centers := onMarks(r, 10, 100)
	message, j := anyJoints(r, ask(parser.Piece, 0, m(parser.CenterToCenter, centers)))
	a := solve(t, message, figure.Settings{})
	end := r3.Add(r3.Scale(j.first+j.gap, ahead), r3.Scale(figured(t, a, parser.Cut)+j.gap+j.second, ahead))
	if math.Abs(end.X-centers) > 1e-9 {
		t.Errorf("%+v: the second center comes to %v", message, end.X)
	}
}

// layPieceBetweenFaces puts a piece into two sockets of depths that were said, a
// gap short of each stop.
func layPieceBetweenFaces(t *testing.T, r *rand.Rand) {
	faces, first, second, gap := onMarks(r, 10, 100), onMarks(r, 0, 3), onMarks(r, 0, 3), float64(r.IntN(4))/32
	message := depths(ask(parser.Piece, 90, by(parser.CenterToCenter, faces, parser.FaceToFace), m(parser.JointGap, gap)), first+0.25, second+0.25)
	a := solve(t, message, figure.Settings{})
	stops := [2]r3.Vec{{X: -(first + 0.25)}, {X: faces + second + 0.25}}
	end := r3.Add(stops[0], r3.Scale(gap+figured(t, a, parser.Cut)+gap, ahead))
	if off := r3.Norm(r3.Sub(end, stops[1])); off > 1e-9 {
		t.Errorf("%+v: the second end is %v off its stop", message, off)
	}
}

// layPieceOfHubs puts the spigot of a piece into the hub of the one fitting, and
// the spigot of the other, which ends where the tape was held, into the hub of the
// piece: as deep as the hub of that size is.
func layPieceOfHubs(t *testing.T, r *rand.Rand) {
	deep := map[catalog.Size]float64{"2": 2.5, "3": 2.75, "4": 3, "5": 3, "6": 3, "8": 3.5} // Modern Plumbing, 2022, figure 21-45
	sizes := []catalog.Size{"2", "3", "4", "5", "6", "8"}
	size, measured := sizes[r.IntN(len(sizes))], onMarks(r, 12, 100)
	hub := catalog.Pipe{Material: catalog.CastIron, Joint: catalog.Hub, Size: size}
	a := solve(t, pipe(ask(parser.Piece, 90, by(parser.CenterToCenter, measured, parser.FaceToFace)), hub), figure.Settings{})
	seat, stop := r3.Vec{X: measured}, r3.Vec{X: -deep[size]} // where the other's spigot ends, and where the piece does
	if off := r3.Norm(r3.Sub(r3.Add(stop, r3.Scale(figured(t, a, parser.Cut), ahead)), seat)); off > 1e-9 {
		t.Errorf("%s, %v: the laying length is %v off", size, measured, off)
	}
	rim := r3.Add(seat, r3.Scale(deep[size], ahead)) // of the piece's own hub
	if off := r3.Norm(r3.Sub(r3.Add(stop, r3.Scale(figured(t, a, parser.PipeLength), ahead)), rim)); off > 1e-9 {
		t.Errorf("%s, %v: the pipe is %v too long or short", size, measured, off)
	}
}

// layRiser stacks the pieces from below: each fitting's center comes to its
// reading.
func layRiser(t *testing.T, r *rand.Rand) {
	message := ask(parser.Riser, 0)
	type station struct{ below, above float64 }
	var stack []station
	at := 0.0
	for range 2 + r.IntN(4) {
		s := station{onMarks(r, 0, 3) + 0.25, onMarks(r, 0, 3) + 0.25}
		stack = append(stack, s)
		said := parser.Station{Fitting: catalog.Fitting{Shape: catalog.Wye}}
		put(&said.Reading, at)
		put(&said.Below, s.below)
		put(&said.Above, s.above)
		message.Stations = append(message.Stations, said)
		at += onMarks(r, 10, 40)
	}
	a := solve(t, message, figure.Settings{})
	on := 0.0
	for i := 1; i < len(stack); i++ {
		on += stack[i-1].above + a.Pieces[i-1].Inches() + stack[i].below
		if want := message.Stations[i].Reading.Inches(); math.Abs(on-want) > 1e-9 {
			t.Errorf("%+v: center %d comes to %v", message.Stations, i, on)
		}
	}
}

// layWrap turns a fitting on its pipe in small steps: so far a point of the wall
// goes around.
func layWrap(t *testing.T, r *rand.Rand) {
	degrees := 5 + float64(r.IntN(8*80))/8
	a := solve(t, pipe(ask(parser.Wrap, geometry.Angle(degrees)), threaded2), figure.Settings{})
	const outside = 2.375 // ASME B36.10M
	const steps = 2000
	walked, last := 0.0, r3.Vec{Y: outside / 2}
	for i := 1; i <= steps; i++ {
		next := r3.NewRotation(radians(degrees)*float64(i)/steps, ahead).Rotate(r3.Vec{Y: outside / 2})
		walked += r3.Norm(r3.Sub(next, last))
		last = next
	}
	if got := figured(t, a, parser.Arc); math.Abs(got-walked) > 1e-5 {
		t.Errorf("%v°: an arc of %v, walked %v", degrees, got, walked)
	}
}

// layMark cuts the standing pipe at the mark; then the far pipe stands where the
// piece lands.
func layMark(t *testing.T, r *rand.Rand) {
	degrees := trade[1+r.IntN(4)]
	toward, measures := step(r, 12, 40)
	now := onMarks(r, 1, 12)
	message, j := anyJoints(r, ask(parser.Mark, geometry.Angle(degrees), append(measures, m(parser.GapNow, now))...))
	a := solve(t, message, figure.Settings{})
	trim := figured(t, a, parser.TrimOff)
	lands(t, a, j, toward, degrees, figured(t, a, parser.Cut), now+trim)
}

// layBankWithPieces lays the piece of each line from its own start; the far
// pipes keep the spacing too.
func layBankWithPieces(t *testing.T, r *rand.Rand) {
	degrees := trade[1+r.IntN(6)]
	roll, rise, spacing := onMarks(r, 12, 40), onMarks(r, 12, 40), onMarks(r, 3, 20)
	message, j := anyJoints(r, ask(parser.Parallel, geometry.Angle(degrees), m(parser.Roll, roll), m(parser.Rise, rise), m(parser.Spacing, spacing)))
	message.Lines = 2 + r.IntN(4)
	a := solve(t, message, figure.Settings{})
	toward := r3.Vec{Y: roll, Z: rise}
	lands(t, a, j, toward, degrees, figured(t, a, parser.Cut), figured(t, a, parser.EndGap))
	heading := turned(degrees, toward)
	for i := 1; i < len(a.Lines); i++ {
		from := r3.Vec{X: -a.Lines[i].Start.Inches(), Y: a.Lines[i].Spacing.Inches()}
		before := r3.Vec{X: -a.Lines[i-1].Start.Inches(), Y: a.Lines[i-1].Spacing.Inches()}
		if got := apart(from, before, heading); math.Abs(got-spacing) > 1e-9 {
			t.Errorf("%+v: lines %d and %d are %v apart on the diagonal", message, i, i+1, got)
		}
	}
}

// layAround walks the pipe past the obstacle's corner in small steps: it comes
// as near as the clearance and half the pipe, and no nearer.
func layAround(t *testing.T, r *rand.Rand) {
	degrees := trade[1+r.IntN(5)]
	reach, clear := onMarks(r, 6, 30), onMarks(r, 0, 3)
	p := threaded2
	message, j := anyJoints(r, pipe(ask(parser.Around, geometry.Angle(degrees), m(parser.Reach, reach), m(parser.Clearance, clear)), p))
	a := solve(t, message, figure.Settings{})
	start := figured(t, a, parser.Start)
	heading := turned(degrees, r3.Vec{Y: 1})
	travel := figured(t, a, parser.Travel)
	corner := r3.Vec{Y: reach}
	near := math.Inf(1)
	bend := r3.Vec{X: -start}
	for i := range 20001 {
		on := r3.Add(bend, r3.Scale(travel*float64(i)/20000, heading))
		near = min(near, r3.Norm(r3.Sub(on, corner)))
	}
	keep := clear + 2.375/2 // 2 in pipe, ASME B36.10M
	if near < keep-1e-6 || near > keep+1e-3 {
		t.Errorf("%+v: the diagonal comes to %v of the corner, not %v", message, near, keep)
	}
	if far := r3.Add(bend, r3.Scale(travel, heading)); math.Abs(far.Y-(reach+keep)) > 1e-9 {
		t.Errorf("%+v: the far line runs %v over", message, far.Y)
	}
	if got := figured(t, a, parser.MarkAt); math.Abs(got-(start+j.first+j.gap)) > 1e-9 {
		t.Errorf("%+v: the pipe stops %v before it, want a takeoff before %v", message, got, start)
	}
}

// layFall sums a drain up, foot by foot.
func layFall(t *testing.T, r *rand.Rand) {
	long, sixteenths := 12*(3+r.IntN(60)), 1+r.IntN(8)
	message := ask(parser.Fall, 0, m(parser.Long, float64(long)))
	message.Grade = geometry.Slope(float64(sixteenths) / 16 / 12)
	a := solve(t, message, figure.Settings{})
	fall := 0.0
	for foot := 0; foot < long; foot += 12 {
		fall += float64(sixteenths) / 16
	}
	if got := figured(t, a, parser.Drop); math.Abs(got-fall) > 1e-9 {
		t.Errorf("%+v falls %v, want %v", message, got, fall)
	}
}

// layTrim walks along the wall of an elbow from its face to the cut, in short
// straight steps: so far is the mark from the face.
func layTrim(t *testing.T, r *rand.Rand) {
	degrees := 10 + float64(r.IntN(70*4))/4
	a := solve(t, pipe(ask(parser.Trim, geometry.Angle(degrees)), welded3), figure.Settings{})
	const outside, radius = 3.5, 4.5 // 3 in: ASME B36.10M, B16.9
	center := r3.Vec{Y: radius}
	for _, o := range a.Ordinates {
		round := float64(o.Eighth) * math.Pi / 4
		on := r3.Vec{Y: outside / 2 * math.Cos(round), Z: outside / 2 * math.Sin(round)}
		const steps = 400
		walked, last := 0.0, on
		for i := 1; i <= steps; i++ {
			next := r3.NewRotation(radians(degrees)*float64(i)/steps, r3.Vec{Z: 1}).Rotate(r3.Sub(on, center))
			next = r3.Add(next, center)
			walked += r3.Norm(r3.Sub(next, last))
			last = next
		}
		if got := o.Back.Inches(); math.Abs(got-walked) > 1e-4 {
			t.Errorf("%v°: mark %d is %v from the face, walked %v", degrees, o.Eighth, got, walked)
		}
	}
	// The tangents from the two faces meet a takeoff from each.
	corner := radius * math.Tan(radians(degrees)/2)
	if got := figured(t, a, parser.TakeoffOf); math.Abs(got-corner) > 1e-9 {
		t.Errorf("%v°: takeoff %v, want %v", degrees, got, corner)
	}
}

// laySum adds in whole sixteenths.
func laySum(t *testing.T, r *rand.Rand) {
	sum := &parser.Arithmetic{}
	total := 0
	for i := range 2 + r.IntN(4) {
		n := 16 + r.IntN(16*40)
		sum.Terms = append(sum.Terms, parser.Term{Length: geometry.Length(float64(n) / 16)})
		switch {
		case i == 0:
			total = n
		case r.IntN(2) == 0 && total > n:
			sum.Operators, total = append(sum.Operators, parser.Minus), total-n
		default:
			sum.Operators, total = append(sum.Operators, parser.Plus), total+n
		}
	}
	a := solve(t, parser.Ask{Kind: parser.Sum, Sum: sum}, figure.Settings{})
	if got := a.Sum.Length.Inches(); got != float64(total)/16 {
		t.Errorf("%+v is %v, want %v", sum, got, float64(total)/16)
	}
}

// layMultiplier turns a line and measures the sides that it makes.
func layMultiplier(t *testing.T, r *rand.Rand) {
	degrees := 5 + float64(r.IntN(84*8))/8
	a := solve(t, ask(parser.Multiplier, geometry.Angle(degrees)), figure.Settings{})
	heading := turned(degrees, r3.Vec{Y: 1})
	side := map[parser.Role]float64{parser.Travel: 1, parser.Set: heading.Y, parser.Run: heading.X}
	for _, f := range a.Factors {
		if want := side[f.To] / side[f.From]; math.Abs(f.Exact-want) > 1e-9*math.Max(1, want) {
			t.Errorf("%v°: %s to %s is %v, want %v", degrees, f.From, f.To, f.Exact, want)
		}
	}
}

// layTakeoff makes a takeoff of a face and a depth.
func layTakeoff(t *testing.T, r *rand.Rand) {
	depth := onMarks(r, 0, 1) + 0.5
	takeoff := onMarks(r, 1, 2)
	message := pipe(ask(parser.Takeoff, 45), drain2)
	message.Ends[0].Face, message.Ends[0].Depth = geometry.Length(takeoff+depth), geometry.Length(depth)
	message.Ends[0].Fitting.Shape, message.Ends[0].Fitting.Angle = "bend", 45
	a := solve(t, message, figure.Settings{})
	if got := figured(t, a, parser.TakeoffOf); math.Abs(got-takeoff) > 1e-9 {
		t.Errorf("%+v: takeoff %v, want %v", message, got, takeoff)
	}
}

// layCheck puts a piece between two fittings of a takeoff that nobody knows,
// measures the set that it makes, and trims as it is told: then it makes the set
// that was wanted.
func layCheck(t *testing.T, r *rand.Rand) {
	degrees := trade[1+r.IntN(5)]
	takeoff, cut, wanted := onMarks(r, 0, 3)+0.25, onMarks(r, 20, 40), onMarks(r, 4, 12)
	heading := turned(degrees, r3.Vec{Y: 1})
	set := func(piece float64) float64 { return r3.Scale(piece+2*takeoff, heading).Y }
	shown := set(cut)
	a := solve(t, ask(parser.Check, geometry.Angle(degrees), m(parser.DryFit, shown), m(parser.Set, wanted)), figure.Settings{})
	if got := set(cut - figured(t, a, parser.TrimOff)); math.Abs(got-wanted) > 1e-9 {
		t.Errorf("%v°: trimmed, the piece makes a set of %v, not %v", degrees, got, wanted)
	}
}
