package geometry_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"dogleg/geometry"

	"pgregory.net/rapid"
)

// wantProblem reports an error that is not a problem of this reason.
func wantProblem(t *testing.T, err error, reason geometry.Reason) {
	t.Helper()
	var p *geometry.Problem
	if !errors.As(err, &p) || p.Reason != reason {
		t.Errorf("error %v, want one that says it %v", err, reason)
	}
}

// given is what a figure may be asked to work with, sound or not.
type given struct {
	lengths [4]geometry.Length
	angles  [2]geometry.Angle
	slope   geometry.Slope
	welds   int
}

// A figure hands out the lengths that it figured, or an error.
type figured func(given) ([]geometry.Length, error)

func one(l geometry.Length, err error) ([]geometry.Length, error) { return []geometry.Length{l}, err }

func three(o geometry.Offset, err error) ([]geometry.Length, error) {
	return []geometry.Length{o.Set, o.Run, o.Travel}, err
}

func thrown(t geometry.Throw, err error) ([]geometry.Length, error) {
	return []geometry.Length{t.Cut, t.Set, t.Run}, err
}

func graded(g geometry.Graded, err error) ([]geometry.Length, error) {
	return []geometry.Length{g.Fall, g.Length}, err
}

func turned(a geometry.Angle, err error) ([]geometry.Length, error) {
	return []geometry.Length{geometry.Length(a)}, err
}

func marked(marks []geometry.Ordinate, err error) ([]geometry.Length, error) {
	lengths := []geometry.Length{0}
	for _, m := range marks {
		lengths = append(lengths, m.Around, m.Along)
	}
	return lengths, err
}

func (g given) ends() geometry.Ends {
	return geometry.Ends{Takeoffs: [2]geometry.Length{g.lengths[1], g.lengths[2]}, Gaps: [2]geometry.Length{g.lengths[3], g.lengths[3]}}
}

func (g given) pair() [2]geometry.Length { return [2]geometry.Length{g.lengths[1], g.lengths[2]} }

func (g given) rolling() geometry.Rolling {
	return geometry.Rolling{Roll: g.lengths[0], Rise: g.lengths[1]}
}

func (g given) obstacle() geometry.Obstacle {
	return geometry.Obstacle{Reach: g.lengths[0], Clearance: g.lengths[1], Outside: g.lengths[2]}
}

func (g given) bank() geometry.Bank {
	return geometry.Bank{Spacing: g.lengths[0], Roll: g.angles[1], Angle: g.angles[0]}
}

func (g given) elbow() geometry.Elbow {
	return geometry.Elbow{Radius: g.lengths[0], Outside: g.lengths[1], Angle: g.angles[0]}
}

func (g given) miter() geometry.Miter {
	return geometry.Miter{Outside: g.lengths[0], Turn: g.angles[0], Welds: g.welds}
}

func (g given) saddle() geometry.Saddle {
	return geometry.Saddle{Branch: g.lengths[0], Header: g.lengths[1], Angle: g.angles[0]}
}

func cornered(c geometry.Corner, err error) ([]geometry.Length, error) {
	return []geometry.Length{c.Legs[0], c.Legs[1], c.Travel, c.Square}, err
}

func (g given) dryFit() geometry.DryFit {
	return geometry.DryFit{Cut: g.lengths[0], Set: g.lengths[1], Angle: g.angles[0], Gap: g.lengths[3]}
}

func (g given) offset() geometry.Offset {
	return geometry.Offset{Set: g.lengths[1], Run: g.lengths[2], Travel: g.lengths[3], Angle: g.angles[0]}
}

// figures are all the figures whose lengths never come out negative.
var figures = map[string]figured{
	"SetAngle": func(g given) ([]geometry.Length, error) { return three(geometry.SetAngle(g.lengths[0], g.angles[0])) },
	"RunAngle": func(g given) ([]geometry.Length, error) { return three(geometry.RunAngle(g.lengths[0], g.angles[0])) },
	"TravelAngle": func(g given) ([]geometry.Length, error) {
		return three(geometry.TravelAngle(g.lengths[0], g.angles[0]))
	},
	"SetRun":         func(g given) ([]geometry.Length, error) { return three(geometry.SetRun(g.lengths[0], g.lengths[1])) },
	"SetTravel":      func(g given) ([]geometry.Length, error) { return three(geometry.SetTravel(g.lengths[0], g.lengths[1])) },
	"RunTravel":      func(g given) ([]geometry.Length, error) { return three(geometry.RunTravel(g.lengths[0], g.lengths[1])) },
	"TrueSet":        func(g given) ([]geometry.Length, error) { return one(g.rolling().TrueSet()) },
	"Rolling.Offset": func(g given) ([]geometry.Length, error) { return three(g.rolling().Offset(g.angles[0])) },
	"FromLevel":      func(g given) ([]geometry.Length, error) { return turned(g.rolling().FromLevel()) },
	"FromPlumb":      func(g given) ([]geometry.Length, error) { return turned(g.rolling().FromPlumb()) },
	"RiseIn12":       func(g given) ([]geometry.Length, error) { return one(g.rolling().RiseIn12()) },
	"RollOff":        func(g given) ([]geometry.Length, error) { return one(g.rolling().RollOff(g.lengths[2])) },
	"RiseOff":        func(g given) ([]geometry.Length, error) { return one(g.rolling().RiseOff(g.lengths[2])) },
	"Stagger":        func(g given) ([]geometry.Length, error) { return one(g.bank().Stagger()) },
	"Unstaggered":    func(g given) ([]geometry.Length, error) { return one(g.bank().Unstaggered()) },
	"Keep":           func(g given) ([]geometry.Length, error) { return one(g.obstacle().Keep()) },
	"SmallestSet":    func(g given) ([]geometry.Length, error) { return one(g.obstacle().SmallestSet()) },
	"FirstBend":      func(g given) ([]geometry.Length, error) { return one(g.obstacle().FirstBend(g.angles[0])) },
	"CornerLoss": func(g given) ([]geometry.Length, error) {
		return one(g.obstacle().CornerLoss(g.lengths[3], g.angles[0]))
	},
	"BetweenBends": func(g given) ([]geometry.Length, error) {
		return one(g.obstacle().BetweenBends(g.lengths[3], g.offset()))
	},
	"SlopeLength": func(g given) ([]geometry.Length, error) { return graded(geometry.SlopeLength(g.slope, g.lengths[0])) },
	"SlopeFall":   func(g given) ([]geometry.Length, error) { return graded(geometry.SlopeFall(g.slope, g.lengths[0])) },
	"FallLength": func(g given) ([]geometry.Length, error) {
		return graded(geometry.FallLength(g.lengths[0], g.lengths[1]))
	},
	"FallBetween": func(g given) ([]geometry.Length, error) { return one(geometry.FallBetween(g.lengths[0], g.lengths[1])) },
	"DevelopedLength": func(g given) ([]geometry.Length, error) {
		return one(geometry.DevelopedLength(g.lengths[0], g.offset()))
	},
	"PlumbSet": func(g given) ([]geometry.Length, error) { return one(geometry.PlumbSet(g.lengths[0], g.slope)) },
	"DropAngle": func(g given) ([]geometry.Length, error) {
		return three(geometry.DropAngle(g.lengths[0], g.angles[0], g.slope))
	},
	"BendTakeoff":     func(g given) ([]geometry.Length, error) { return one(geometry.BendTakeoff(g.lengths[0], g.angles[0])) },
	"Elbow.Takeoff":   func(g given) ([]geometry.Length, error) { return one(g.elbow().Takeoff()) },
	"Back":            func(g given) ([]geometry.Length, error) { return one(g.elbow().Back()) },
	"Side":            func(g given) ([]geometry.Length, error) { return one(g.elbow().Side()) },
	"Throat":          func(g given) ([]geometry.Length, error) { return one(g.elbow().Throat()) },
	"Elbow.Ordinates": func(g given) ([]geometry.Length, error) { return marked(g.elbow().Ordinates()) },
	"CutAngle":        func(g given) ([]geometry.Length, error) { return turned(g.miter().CutAngle()) },
	"Cutback":         func(g given) ([]geometry.Length, error) { return one(g.miter().Cutback()) },
	"Miter.Ordinates": func(g given) ([]geometry.Length, error) { return marked(g.miter().Ordinates()) },
	"Cut":             func(g given) ([]geometry.Length, error) { return one(geometry.Cut(g.lengths[0], g.ends())) },
	"Centers":         func(g given) ([]geometry.Length, error) { return one(geometry.Centers(g.lengths[0], g.ends())) },
	"EndGap":          func(g given) ([]geometry.Length, error) { return one(geometry.EndGap(g.lengths[0], g.ends())) },
	"RunOf":           func(g given) ([]geometry.Length, error) { return one(geometry.RunOf(g.lengths[0], g.ends())) },
	"Spare":           func(g given) ([]geometry.Length, error) { return one(geometry.Spare(g.lengths[0], g.lengths[1])) },
	"TrimElbows": func(g given) ([]geometry.Length, error) {
		e, err := geometry.TrimElbows(g.lengths[0], g.lengths[1], g.lengths[2], g.lengths[3])
		return []geometry.Length{e.Takeoff, e.Cut, e.Offset.Travel, e.Offset.Run}, err
	},
	"TouchingSet": func(g given) ([]geometry.Length, error) { return one(geometry.TouchingSet(g.pair(), g.angles[0])) },
	"ZeroPipeSet": func(g given) ([]geometry.Length, error) { return one(geometry.ZeroPipeSet(g.ends(), g.angles[0])) },
	"StreetSet": func(g given) ([]geometry.Length, error) {
		return one(geometry.StreetSet(g.lengths[0], g.lengths[1], g.angles[0]))
	},
	"CornerLeg": func(g given) ([]geometry.Length, error) {
		return cornered(geometry.CornerLeg(g.lengths[0], 1, g.angles))
	},
	"CornerTravel": func(g given) ([]geometry.Length, error) {
		return cornered(geometry.CornerTravel(g.lengths[0], g.angles))
	},
	"Saddle.Shortest":  func(g given) ([]geometry.Length, error) { return one(g.saddle().Shortest()) },
	"Saddle.At":        func(g given) ([]geometry.Length, error) { return one(g.saddle().At(g.angles[1])) },
	"Saddle.Ordinates": func(g given) ([]geometry.Length, error) { return marked(g.saddle().Ordinates()) },
	"Saddle.Longest": func(g given) ([]geometry.Length, error) {
		l, _, err := g.saddle().Longest()
		return one(l, err)
	},
	"Miter.At": func(g given) ([]geometry.Length, error) { return one(g.miter().At(g.angles[1])) },
	"Miter.Pieces": func(g given) ([]geometry.Length, error) {
		end, middle, err := g.miter().Pieces(g.lengths[1])
		return []geometry.Length{end, middle}, err
	},
	"WrapArc":        func(g given) ([]geometry.Length, error) { return one(geometry.WrapArc(g.lengths[0], g.angles[0])) },
	"Girth":          func(g given) ([]geometry.Length, error) { return one(geometry.Girth(g.lengths[0])) },
	"LargestTakeoff": func(g given) ([]geometry.Length, error) { return one(geometry.LargestTakeoff(g.lengths[0], g.pair())) },
	"OutsideToOutside": func(g given) ([]geometry.Length, error) {
		return one(geometry.OutsideToOutside(g.lengths[0], g.lengths[1], g.lengths[2]))
	},
	"InsideToInside": func(g given) ([]geometry.Length, error) {
		return one(geometry.InsideToInside(g.lengths[0], g.lengths[1], g.lengths[2]))
	},
	"SameSide": func(g given) ([]geometry.Length, error) {
		return one(geometry.SameSide(g.lengths[0], g.lengths[1], g.lengths[2]))
	},
	"FaceToFace": func(g given) ([]geometry.Length, error) { return one(geometry.FaceToFace(g.lengths[0], g.pair())) },
	"CenterToFace": func(g given) ([]geometry.Length, error) {
		return one(geometry.CenterToFace(g.lengths[0], g.lengths[1]))
	},
	"MarkAt":         func(g given) ([]geometry.Length, error) { return one(geometry.MarkAt(g.lengths[0], g.lengths[1])) },
	"DryFit.Takeoff": func(g given) ([]geometry.Length, error) { return one(g.dryFit().Takeoff()) },
	"SetOff":         func(g given) ([]geometry.Length, error) { return thrown(g.offset().SetOff(g.lengths[0])) },
	"CutOff":         func(g given) ([]geometry.Length, error) { return thrown(g.offset().CutOff(g.lengths[0])) },
	"TakeoffOff":     func(g given) ([]geometry.Length, error) { return thrown(g.offset().TakeoffOff(g.lengths[0])) },
	"AngleOff":       func(g given) ([]geometry.Length, error) { return thrown(g.offset().AngleOff(g.angles[1])) },
}

// trims are the figures whose lengths may be less than nothing.
var trims = map[string]figured{
	"Trim":        func(g given) ([]geometry.Length, error) { return one(geometry.Trim(g.lengths[0], g.lengths[1])) },
	"DryFit.Trim": func(g given) ([]geometry.Length, error) { return one(g.dryFit().Trim(g.lengths[2])) },
	"LowerInvert": func(g given) ([]geometry.Length, error) {
		return one(geometry.Graded{Fall: 1}.LowerInvert(g.lengths[0]))
	},
	"UpperInvert": func(g given) ([]geometry.Length, error) {
		return one(geometry.Graded{Fall: 1}.UpperInvert(g.lengths[0]))
	},
}

// Whatever is given, every figure is a length that can be, or a problem and
// nothing else.
func TestNoFigureIsNonsense(t *testing.T) {
	for name, figure := range figures {
		t.Run(name, rapid.MakeCheck(func(t *rapid.T) { checkSound(t, figure, true) }))
	}
	for name, figure := range trims {
		t.Run(name, rapid.MakeCheck(func(t *rapid.T) { checkSound(t, figure, false) }))
	}
}

func checkSound(t *rapid.T, figure figured, neverNegative bool) {
	lengths, err := figure(drawGiven(t))
	var p *geometry.Problem
	if err != nil && !errors.As(err, &p) {
		t.Fatalf("error %v is no problem", err)
	}
	for _, l := range lengths {
		v := float64(l)
		switch {
		case err != nil && v != 0:
			t.Fatalf("hands out %v with the error %v", l, err)
		case math.IsNaN(v) || math.IsInf(v, 0), neverNegative && v < 0:
			t.Fatalf("figured %v without an error", l)
		}
	}
}

// drawGiven draws lengths and angles of every sort, most of them sound.
func drawGiven(t *rapid.T) (g given) {
	sound := rapid.Float64Range(0.01, 500)
	odd := rapid.SampledFrom([]float64{0, -1, 1e-300, 70000, 1e308, math.NaN(), math.Inf(1), math.Inf(-1), 63360})
	length := rapid.OneOf(sound, sound, sound, sound, odd, rapid.Float64())
	angle := rapid.OneOf(rapid.Float64Range(0.1, 90), rapid.SampledFrom([]float64{90, 45, 5.625, 0, -3, 91, 1e-300, math.NaN(), math.Inf(1)}))
	for i := range g.lengths {
		g.lengths[i] = geometry.Length(length.Draw(t, "length"))
	}
	for i := range g.angles {
		g.angles[i] = geometry.Angle(angle.Draw(t, "angle"))
	}
	g.slope = geometry.Slope(rapid.OneOf(rapid.Float64Range(0, 1), odd).Draw(t, "grade"))
	g.welds = rapid.IntRange(-1, 5).Draw(t, "welds")
	return g
}

// A value that no one can mean is refused wherever it is given as the first
// length, and the reason says which it is.
func TestProblemsSayWhy(t *testing.T) {
	sound := given{[4]geometry.Length{24, 30, 36, 48}, [2]geometry.Angle{45, 30}, geometry.InchPerFoot / 4, 1}
	for name, figure := range figures {
		if strings.HasPrefix(name, "FallBetween") || strings.HasSuffix(name, "Off") || name == "TouchingSet" || name == "ZeroPipeSet" {
			continue // an elevation, and those that take no first length
		}
		for value, reason := range map[geometry.Length]geometry.Reason{
			geometry.Length(math.NaN()):  geometry.NotANumber,
			geometry.Length(math.Inf(1)): geometry.NotANumber,
			-1:                           geometry.NotPositive,
			geometry.Longest + 1:         geometry.TooLong,
		} {
			g := sound
			g.lengths[0] = value
			_, err := figure(g)
			t.Run(name, func(t *testing.T) { wantProblem(t, err, reason) })
		}
	}
}

func TestAnglesAreRefused(t *testing.T) {
	for angle, reason := range map[geometry.Angle]geometry.Reason{
		geometry.Angle(math.NaN()): geometry.NotANumber, 0: geometry.AngleRange, -45: geometry.AngleRange, 90.001: geometry.AngleRange,
	} {
		_, err := geometry.SetAngle(12, angle)
		wantProblem(t, err, reason)
	}
}

func TestProblemsOfAnOffset(t *testing.T) {
	_, err := geometry.SetTravel(9, 9)
	wantProblem(t, err, geometry.TravelTooShort)
	_, err = geometry.RunTravel(9, 8)
	wantProblem(t, err, geometry.TravelTooShort)
	_, err = geometry.RunAngle(9, 90)
	wantProblem(t, err, geometry.NothingToResolve)
	_, err = geometry.SetAngle(geometry.Longest, 1) // runs 57 miles
	wantProblem(t, err, geometry.TooLong)
	if got, want := err.Error(), "is longer than a mile"; !strings.Contains(got, want) {
		t.Errorf("error %q does not say %q", got, want)
	}
}

// Every reason has words of its own, for the log.
func TestReasonsAreWorded(t *testing.T) {
	seen := map[string]geometry.Reason{"is wrong": 0}
	for r := geometry.NotANumber; r <= geometry.TooTight; r++ {
		if other, taken := seen[r.String()]; taken {
			t.Errorf("reasons %d and %d both say %q", r, other, r)
		}
		seen[r.String()] = r
	}
}
