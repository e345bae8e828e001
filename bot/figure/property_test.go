package figure_test

import (
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// sixteenths draws a length in sixteenths of an inch.
func sixteenths(t *rapid.T, label string, most int) geometry.Length {
	return geometry.Length(rapid.IntRange(1, most*16).Draw(t, label)) / 16
}

// Any two of set, run, travel and angle, with takeoffs and a gap: the piece
// and what the ends take make the travel, and the pieces close.
func TestOffsetsClose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		message := parser.Ask{Kind: parser.Offset, Angle: rapid.SampledFrom(geometry.Bends()).Draw(t, "angle")}
		message.Ends[0].Takeoff = sixteenths(t, "first takeoff", 4)
		message.Ends[1].Takeoff = sixteenths(t, "second takeoff", 4)
		gap := geometry.Length(rapid.IntRange(0, 4).Draw(t, "gap")) / 16
		message.Measures = append(someMeasures(t), parser.Measure{Role: parser.JointGap, Length: gap})
		a, err := figure.Solve(message, figure.Settings{})
		if err != nil {
			checkRefusal(t, err)
			return
		}
		checkCloses(t, a, message, gap)
	})
}

// someMeasures are those of a simple or a rolling offset.
func someMeasures(t *rapid.T) []parser.Measure {
	of := func(r parser.Role) parser.Measure {
		return parser.Measure{Role: r, Length: sixteenths(t, string(r), 200)}
	}
	switch rapid.IntRange(0, 4).Draw(t, "given") {
	case 0:
		return []parser.Measure{of(parser.Roll), of(parser.Rise)}
	case 1:
		return []parser.Measure{of(parser.Travel)}
	case 2:
		return []parser.Measure{of(parser.Run)}
	case 3:
		return []parser.Measure{of(parser.Cut)}
	}
	return []parser.Measure{of(parser.Set)}
}

func checkCloses(t *rapid.T, a *figure.Answer, message parser.Ask, gap geometry.Length) {
	taken := message.Ends[0].Takeoff + message.Ends[1].Takeoff + 2*gap
	travel, _ := a.Length(parser.Travel)
	run, _ := a.Length(parser.Run)
	set, _ := a.Length(parser.Set)
	cut, _ := a.Length(parser.Cut)
	endGap, _ := a.Length(parser.EndGap)
	if off := cut + taken - travel; math.Abs(off.Inches()) > 1e-6 {
		t.Errorf("cut %v and what the ends take, %v, are not the travel, %v", cut, taken, travel)
	}
	if off := run + taken - endGap; math.Abs(off.Inches()) > 1e-6 {
		t.Errorf("run %v and what the ends take, %v, are not the end gap, %v", run, taken, endGap)
	}
	end := a.Path.End()
	across := math.Hypot(end.Y.Inches(), end.Z.Inches())
	if math.Abs(end.X.Inches()-endGap.Inches()) > 1e-3 || math.Abs(across-set.Inches()) > 1e-3 {
		t.Errorf("the pieces land at %v, not %v along and %v across", end, endGap, set)
	}
	if cut <= 0 {
		t.Errorf("cut of %v", cut)
	}
}

func checkRefusal(t *rapid.T, err error) {
	var m *figure.Missing
	var i *figure.Impossible
	if !errors.As(err, &m) && !errors.As(err, &i) {
		t.Fatalf("error is %T: %v", err, err)
	}
	if i != nil && i.Cause == figure.NotLanding {
		t.Errorf("own check failed: %v", err)
	}
}

var kinds = []parser.Kind{
	parser.Unstated, parser.Offset, parser.Fit, parser.Piece, parser.Mark, parser.Parallel, parser.Around,
	parser.Fall, parser.Trim, parser.Sum, parser.Multiplier, parser.Takeoff, parser.Check,
	parser.Corner, parser.Miter, parser.Saddle, parser.Wrap, parser.Riser, parser.Doglegs,
}

var roles = []parser.Role{
	parser.Bare, parser.Set, parser.Roll, parser.Rise, parser.Run, parser.Travel, parser.Cut, parser.EndGap,
	parser.Spacing, parser.Drop, parser.Long, parser.Start, parser.Clearance, parser.Reach, parser.CenterToCenter,
	parser.TakeoffOf, parser.Face, parser.Depth, parser.Room, parser.StickOut, parser.GapNow, parser.Overlap,
	parser.Reading, parser.Upper, parser.Lower, parser.Radius, parser.JointGap, parser.DryFit, parser.Obstacle,
	parser.Least, parser.Leg, parser.Place, parser.Straight,
}

var methods = []parser.Method{
	"", parser.Centers, parser.OutsideToOutside, parser.InsideToInside, parser.OutsideToInside,
	parser.BackToBack, parser.FaceToFace, parser.EndToCenter, parser.EndToEnd,
}

// rolesOf are the measures that go with a kind; some of them make an ask.
func rolesOf(k parser.Kind) []parser.Role {
	offset := []parser.Role{parser.Set, parser.Roll, parser.Rise, parser.Run, parser.Travel, parser.Cut, parser.EndGap, parser.JointGap}
	switch k {
	case parser.Unstated, parser.Offset:
		return offset
	case parser.Fit:
		return []parser.Role{parser.Set, parser.Room, parser.Run, parser.Roll, parser.Rise}
	case parser.Piece:
		return []parser.Role{parser.CenterToCenter, parser.Cut, parser.JointGap}
	case parser.Mark:
		return []parser.Role{parser.Set, parser.GapNow, parser.Overlap, parser.Reading, parser.StickOut, parser.Reading}
	case parser.Parallel:
		return []parser.Role{parser.Set, parser.Spacing, parser.Spacing, parser.Roll, parser.Rise}
	case parser.Around:
		return []parser.Role{parser.Reach, parser.Clearance, parser.Set, parser.Start, parser.Obstacle}
	case parser.Fall:
		return []parser.Role{parser.Long, parser.Drop, parser.Upper, parser.Lower, parser.Set}
	case parser.Trim:
		return []parser.Role{parser.Radius}
	case parser.Takeoff:
		return []parser.Role{parser.Cut, parser.DryFit}
	case parser.Check:
		return []parser.Role{parser.DryFit, parser.Set, parser.Cut}
	case parser.Corner:
		return []parser.Role{parser.Leg, parser.OtherLeg, parser.Travel, parser.StopAt, parser.Cut, parser.JointGap}
	case parser.Doglegs:
		return []parser.Role{parser.Set, parser.Set, parser.Straight, parser.CenterToCenter, parser.JointGap}
	case parser.Miter:
		return []parser.Role{parser.Radius}
	case parser.Wrap:
		return []parser.Role{parser.Roll, parser.Rise}
	case parser.Sum, parser.Multiplier, parser.Saddle, parser.Riser:
	}
	return nil
}

// anyAsk draws what may be typed: mostly sense, in which a thing may lack or
// be too much, and sometimes nonsense.
func anyAsk(t *rapid.T) parser.Ask {
	a := parser.Ask{
		Kind:  rapid.SampledFrom(kinds).Draw(t, "kind"),
		Angle: rapid.SampledFrom(append(geometry.Bends(), 0, 0, 37.5)).Draw(t, "angle"),
		Grade: rapid.SampledFrom([]geometry.Slope{0, geometry.InchPerFoot / 4, 2 * geometry.Percent}).Draw(t, "grade"),
		Lines: rapid.IntRange(0, 6).Draw(t, "lines"),
		Store: rapid.Bool().Draw(t, "store"), ComeBack: rapid.Bool().Draw(t, "come back"), Handbook: rapid.Bool().Draw(t, "handbook"),
	}
	for _, role := range rolesOf(a.Kind) {
		if rapid.Bool().Draw(t, string(role)+" given") {
			a.Measures = append(a.Measures, parser.Measure{Role: role, Length: sixteenths(t, string(role), 60), Method: anyMethod(t)})
		}
	}
	if rapid.IntRange(0, 4).Draw(t, "want said") == 0 {
		a.Want = rapid.SampledFrom(roles).Draw(t, "want")
	}
	a.Pipe = anyPipe(t)
	for end := range a.Ends {
		a.Ends[end] = anyEnd(t)
	}
	if a.Kind == parser.Sum {
		a.Sum = anySum(t)
	}
	addJoints(t, &a)
	if rapid.IntRange(0, 4).Draw(t, "nonsense") == 0 {
		addNonsense(t, &a)
	}
	return a
}

// addJoints puts in, now and then, what stands in the travel, how many pieces a
// turn has, and fittings on one tape.
func addJoints(t *rapid.T, a *parser.Ask) {
	a.Pieces = rapid.IntRange(0, 7).Draw(t, "pieces")
	for range rapid.IntRange(-5, 2).Draw(t, "in the travel") {
		a.Inline = append(a.Inline, parser.Inline{
			Fitting: catalog.Fitting{Shape: rapid.SampledFrom([]catalog.Shape{catalog.Union, catalog.Valve, catalog.Reducer}).Draw(t, "shape")},
			Laying:  sixteenths(t, "laying", 5), Place: rapid.SampledFrom([]geometry.Length{0, 10, 20, 40}).Draw(t, "place"),
		})
	}
	if a.Kind != parser.Riser {
		return
	}
	for range rapid.IntRange(0, 5).Draw(t, "stations") {
		e := anyEnd(t)
		a.Stations = append(a.Stations, parser.Station{Fitting: e.Fitting, Reading: sixteenths(t, "reading", 100), Below: e.Takeoff, Above: e.Takeoff})
	}
}

// addNonsense puts in what no pipe has.
func addNonsense(t *rapid.T, a *parser.Ask) {
	bad := rapid.SampledFrom([]geometry.Length{0, -3, 1e-12, 63360, 1e9, geometry.Length(math.Inf(1)), geometry.Length(math.NaN())})
	switch rapid.IntRange(0, 5).Draw(t, "of what") {
	case 0:
		a.Angle = rapid.SampledFrom([]geometry.Angle{1e-9, 1, -45, 120, geometry.Angle(math.NaN())}).Draw(t, "bad angle")
	case 1:
		a.Grade = rapid.SampledFrom([]geometry.Slope{-1, 5, geometry.Slope(math.NaN())}).Draw(t, "bad grade")
	case 2:
		a.Lines = rapid.SampledFrom([]int{-1, 1000000}).Draw(t, "bad lines")
	case 3:
		a.Ends[0].Takeoff = bad.Draw(t, "bad takeoff")
	case 4:
		a.Pipe = catalog.Pipe{Material: catalog.PVC, Joint: catalog.ButtWeld, Size: "1-3/8"}
	default:
		role := rapid.SampledFrom(roles).Draw(t, "role of a bad length")
		a.Measures = append(a.Measures, parser.Measure{Role: role, Length: bad.Draw(t, "bad length"), Method: anyMethod(t)})
	}
}

func anyMethod(t *rapid.T) parser.Method {
	if rapid.IntRange(0, 5).Draw(t, "method said") > 0 {
		return ""
	}
	return rapid.SampledFrom(methods).Draw(t, "method")
}

// anyPipe draws a pipe that is sold, said in full or in part, or none.
func anyPipe(t *rapid.T) catalog.Pipe {
	s := rapid.SampledFrom(catalog.Systems()).Draw(t, "system")
	p := catalog.Pipe{Material: s.Material, Size: rapid.SampledFrom(s.Sizes()).Draw(t, "size")}
	switch rapid.IntRange(0, 5).Draw(t, "how much of the pipe is said") {
	case 0:
		p = catalog.Pipe{}
	case 1:
		p.Size = ""
	case 2:
		p.Joint, p.Use = s.Joint, s.Use
	}
	return p
}

func anyEnd(t *rapid.T) parser.End {
	var e parser.End
	switch rapid.IntRange(0, 4).Draw(t, "what of the end is said") {
	case 0, 1:
		e.Takeoff = sixteenths(t, "takeoff", 4)
	case 2:
		e.Face, e.Depth = sixteenths(t, "face", 6), sixteenths(t, "depth", 2)
	case 3:
		e.Takeoff, e.Spigot = sixteenths(t, "takeoff", 4), sixteenths(t, "spigot", 4)
		e.Inlet, e.Outlet = sixteenths(t, "inlet", 4), sixteenths(t, "outlet", 4)
	}
	if rapid.IntRange(0, 5).Draw(t, "fitting said") == 0 {
		e.Fitting = rapid.SampledFrom([]catalog.Fitting{
			catalog.BendOf(45), catalog.BendOf(90),
			{Shape: catalog.Tee},
			{Shape: catalog.Bend, Angle: 45, Street: true},
			{Shape: catalog.Bend, Sweep: catalog.Long},
			{Shape: catalog.Wye, Angle: 45},
		}).Draw(t, "fitting")
	}
	if rapid.IntRange(0, 9).Draw(t, "size said") == 0 {
		e.Size = rapid.SampledFrom([]catalog.Size{"1/2", "1-1/2", "2", "4", "1-3/8", "110 mm"}).Draw(t, "other size")
	}
	return e
}

func anySum(t *rapid.T) *parser.Arithmetic {
	sum := &parser.Arithmetic{}
	for i := range rapid.IntRange(0, 4).Draw(t, "terms") {
		if i > 0 {
			sum.Operators = append(sum.Operators, rapid.SampledFrom([]parser.Operator{parser.Plus, parser.Minus, parser.Times, parser.Divide, '?'}).Draw(t, "operator"))
		}
		sum.Terms = append(sum.Terms, parser.Term{Length: sixteenths(t, "term", 120), Number: rapid.Float64().Draw(t, "number"), Plain: rapid.Bool().Draw(t, "plain")})
	}
	return sum
}

// Whatever is asked: an answer or one of the two refusals; the same again for
// the same ask; no figure that is not one, no piece of negative length; never
// our own check failing.
func TestAnyAsk(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		message := anyAsk(t)
		settings := figure.Settings{Takeoffs: []figure.OwnTakeoff{{System: "pvc-dwv", Fitting: "45", Size: "2", Length: 1.1875}}}
		a, err := figure.Solve(message, settings)
		again, _ := figure.Solve(message, settings)
		if diff := cmp.Diff(a, again, cmp.Comparer(sameFloat), cmp.Comparer(sameLength), cmp.Comparer(sameAngle), cmp.Comparer(sameSlope)); diff != "" {
			t.Fatalf("asked again it differs: %s", diff)
		}
		if err != nil {
			checkRefusal(t, err)
			return
		}
		checkSane(t, a)
	})
}

func sameFloat(a, b float64) bool          { return a == b || math.IsNaN(a) && math.IsNaN(b) }
func sameLength(a, b geometry.Length) bool { return sameFloat(float64(a), float64(b)) }
func sameAngle(a, b geometry.Angle) bool   { return sameFloat(float64(a), float64(b)) }
func sameSlope(a, b geometry.Slope) bool   { return sameFloat(float64(a), float64(b)) }

func checkSane(t *rapid.T, a *figure.Answer) {
	if a.Kind == parser.Unstated || len(a.Lengths) == 0 && len(a.Factors) == 0 && !a.Sum.Plain {
		t.Errorf("an answer without kind or figures: %+v", a)
	}
	all := a.Lengths
	for _, c := range a.Bends {
		all = append(all, figure.Length{Role: parser.Cut, Length: c.Cut}, figure.Length{Role: parser.EndGap, Length: c.EndGap})
	}
	for _, p := range a.Pieces {
		if !(p > 0) {
			t.Errorf("a piece of %v", p)
		}
	}
	for _, l := range a.Lines {
		all = append(all, figure.Length{Role: parser.Cut, Length: l.Cut}, figure.Length{Role: parser.Stagger, Length: l.Start})
	}
	for _, l := range all {
		v := l.Length.Inches()
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%s is %v", l.Role, v)
		}
		if v < 0 && !maybeNegative[l.Role] {
			t.Errorf("%s is %v", l.Role, v)
		}
	}
	if cut, ok := a.Length(parser.Cut); ok && cut <= 0 {
		t.Errorf("a cut of %v", cut)
	}
}

// maybeNegative are the figures that may be less than nothing: a trim, an
// elevation, a far end that lies on the first line's other side.
var maybeNegative = map[parser.Role]bool{
	parser.TrimOff: true, parser.MarkAt: true, parser.Total: true, parser.Upper: true, parser.Lower: true, parser.FarSet: true,
}

// What a collision suggests works: the smallest set as the tape shows it,
// rounded up; the largest takeoff; each of the other bends.
func TestWhatACollisionSuggestsWorks(t *testing.T) {
	settings := own(map[string]float64{"90": 2.25, "60": 1.75, "45": 1.25, "22-1/2": 0.875})
	rapid.Check(t, func(t *rapid.T) {
		angle := rapid.SampledFrom([]geometry.Angle{60, 45, 22.5}).Draw(t, "angle")
		set := sixteenths(t, "set", 4)
		at := func(a geometry.Angle, set geometry.Length) parser.Ask {
			return pipe(ask(parser.Offset, a, m(parser.Set, set.Inches())), drain2)
		}
		_, err := figure.Solve(at(angle, set), settings)
		var i *figure.Impossible
		if !errors.As(err, &i) || i.Cause != figure.Collide {
			t.Skip("clears")
		}
		up := i.Smallest.TapeUp(geometry.Sixteenths).Length()
		if _, err := figure.Solve(at(angle, up), settings); err != nil {
			t.Errorf("set %v by %v: the smallest set, %v, does not work: %v", set, angle, up, err)
		}
		if i.Takeoff > 0 {
			message := at(angle, set)
			message.Ends[0].Takeoff, message.Ends[1].Takeoff = i.Takeoff, i.Takeoff
			if _, err := figure.Solve(message, settings); err != nil {
				t.Errorf("set %v by %v: the largest takeoff, %v, does not work: %v", set, angle, i.Takeoff, err)
			}
		}
		for _, bend := range i.Bends {
			if _, err := figure.Solve(at(bend, set), settings); err != nil {
				t.Errorf("set %v: a %v does not work: %v", set, bend, err)
			}
		}
	})
}
