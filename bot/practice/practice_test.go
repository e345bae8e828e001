package practice_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"dogleg/bot/figure"
	"dogleg/bot/practice"
	"dogleg/geometry"

	"pgregory.net/rapid"
)

// sines are those of the bends by their radicals, with no sine function in
// sight; the half-angle formula makes one of the other.
var sines = map[float64]float64{
	72:    math.Sqrt(10+2*math.Sqrt(5)) / 4,
	60:    math.Sqrt(3) / 2,
	45:    math.Sqrt(0.5),
	30:    0.5,
	22.5:  math.Sqrt(2-math.Sqrt2) / 2,
	11.25: math.Sqrt(2-math.Sqrt(2+math.Sqrt2)) / 2,
}

// worked is the answer to a problem, computed apart from the program.
func worked(t *testing.T, p practice.Problem) float64 {
	t.Helper()
	if p.Kind == practice.Fall {
		return float64(p.Long) * float64(p.Grade)
	}
	both := float64(p.Takeoffs[0]) + float64(p.Takeoffs[1])
	if p.Kind == practice.Piece {
		return float64(p.Centers) - both
	}
	sine, ok := sines[float64(p.Angle())]
	if !ok {
		t.Fatalf("no sine of %v", p.Angle())
	}
	cosine := math.Sqrt(1 - sine*sine)
	switch p.Kind {
	case practice.Travel:
		return float64(p.Set) / sine
	case practice.Cut, practice.Branch, practice.TwoAngles:
		return float64(p.Set)/sine - both
	case practice.Trimming:
		return (float64(p.Dry) - float64(p.Set)) / sine
	case practice.Marking:
		return float64(p.Set)/sine*cosine + both - float64(p.Apart)
	case practice.EndGap:
		return float64(p.Set)/sine*cosine + both
	case practice.Rolling:
		return math.Sqrt(float64(p.Roll)*float64(p.Roll)+float64(p.Rise)*float64(p.Rise))/sine - both
	case practice.Stagger: // the tangent of half the angle is √((1-cos)/(1+cos))
		return float64(p.Spacing) * math.Sqrt((1-cosine)/(1+cosine))
	case practice.Piece, practice.Fall:
	}
	t.Fatalf("no kind %q", p.Kind)
	return 0
}

// said is a reply as a tape reads.
func said(inches float64) practice.Said { return practice.Said{Length: geometry.Length(inches)} }

// made is how many problems of each kind are checked, closely how many of them
// on every mark for two inches around the answer.
const (
	made    = 5_000
	closely = 500
)

// Each of five thousand problems of each kind can be built, has the answer that
// is computed here, and is marked by it.
func TestProblemsAreSound(t *testing.T) {
	for _, k := range practice.Kinds() {
		t.Run(string(k), func(t *testing.T) {
			t.Parallel()
			chance := rand.New(rand.NewPCG(1972, 11))
			for n := range made {
				p, err := practice.Make(k, 0, chance)
				if err != nil {
					t.Fatal(err)
				}
				around := 6 // thirty-seconds: where right becomes wrong
				if n < closely {
					around = 64
				}
				checkProblem(t, p, around)
				checkSlips(t, p)
			}
		})
	}
}

func checkProblem(t *testing.T, p practice.Problem, around int) {
	t.Helper()
	want := worked(t, p)
	answer, err := figure.Solve(p.Ask(), figure.Settings{})
	if err != nil {
		t.Fatalf("%+v can't be built: %v", p, err)
	}
	if got, _ := answer.Length(p.Wanted()); math.Abs(got.Inches()-want) > 1e-6 || answer.Main != p.Wanted() {
		t.Fatalf("%+v is figured as %s %v, want %v", p, answer.Main, got, want)
	}
	checkMarks(t, p, want, around)
}

// checkMarks holds the marker against what is said of it, so many thirty-seconds
// around the answer: right is what lies within a sixteenth of
// the exact figure or of its nearest mark, and nothing else.
func checkMarks(t *testing.T, p practice.Problem, want float64, around int) {
	t.Helper()
	onTape := math.Floor(want*16+0.5) / 16
	for n := -around; n <= around; n++ {
		reply := onTape + float64(n)/32
		right := math.Abs(reply-want) <= 1./16+1e-9 || math.Abs(reply-onTape) <= 1./16+1e-9
		if m := p.Mark(said(reply), figure.ExactFigures); m.Right != right {
			t.Fatalf("%+v, exactly %v: a reply of %v is marked %+v", p, want, reply, m)
		}
	}
}

// drawn draws a sound problem.
func drawn(t *rapid.T) practice.Problem {
	k := rapid.SampledFrom(practice.Kinds()).Draw(t, "kind")
	p, err := practice.Make(k, 0, rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0)))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// slipsOf are the figures that slips lead to, worked here from what they are
// and not from the marker's own list.
func slipsOf(p practice.Problem) map[practice.Slip][]float64 {
	both := float64(p.Takeoffs[0]) + float64(p.Takeoffs[1])
	first, second := float64(p.Takeoffs[0]), float64(p.Takeoffs[1])
	sine := sines[float64(p.Angle())]
	cosine := math.Sqrt(1 - sine*sine)
	set := float64(p.Set)
	roll, rise := float64(p.Roll), float64(p.Rise)
	switch p.Kind {
	case practice.Travel:
		return map[practice.Slip][]float64{
			practice.NoMultiplier: {set}, practice.Divided: {set * sine}, practice.RunForTravel: {set * cosine / sine}, practice.Cosine: {set / cosine},
		}
	case practice.Cut, practice.Branch, practice.TwoAngles:
		return map[practice.Slip][]float64{
			practice.Divided: {set*sine - both}, practice.NoMultiplier: {set - both}, practice.RunForTravel: {set*cosine/sine - both}, practice.Cosine: {set/cosine - both},
			practice.OneTakeoff: {set/sine - first, set/sine - second}, practice.NoTakeoff: {set / sine}, practice.AddedEnds: {set/sine + both},
		}
	case practice.EndGap:
		return map[practice.Slip][]float64{
			practice.TravelForRun: {set/sine + both}, practice.OneTakeoff: {set*cosine/sine + first},
			practice.NoTakeoff: {set * cosine / sine}, practice.TookOffEnds: {set*cosine/sine - both},
		}
	case practice.Rolling:
		return map[practice.Slip][]float64{
			practice.RollAndRise: {(roll+rise)/sine - both}, practice.RollAlone: {roll/sine - both}, practice.RiseAlone: {rise/sine - both},
			practice.OneTakeoff: {math.Hypot(roll, rise)/sine - first},
		}
	case practice.Piece:
		return map[practice.Slip][]float64{
			practice.OneTakeoff: {float64(p.Centers) - first, float64(p.Centers) - second},
			practice.NoTakeoff:  {float64(p.Centers)}, practice.AddedEnds: {float64(p.Centers) + both},
		}
	case practice.Stagger:
		return map[practice.Slip][]float64{
			practice.WholeAngle: {float64(p.Spacing) * sine / cosine},
			practice.Divided:    {float64(p.Spacing) / math.Sqrt((1-cosine)/(1+cosine))},
		}
	case practice.Trimming:
		high := float64(p.Dry) - set
		return map[practice.Slip][]float64{
			practice.NoMultiplier: {high}, practice.Divided: {high * sine}, practice.RunForTravel: {high * cosine / sine}, practice.Cosine: {high / cosine},
		}
	case practice.Marking:
		apart := float64(p.Apart)
		return map[practice.Slip][]float64{
			practice.NotThere: {set*cosine/sine + both}, practice.NoTakeoff: {set*cosine/sine - apart}, practice.OneTakeoff: {set*cosine/sine + first - apart},
			practice.TravelForRun: {set/sine + both - apart}, practice.TookOffEnds: {set*cosine/sine - both - apart},
		}
	case practice.Fall:
		return map[practice.Slip][]float64{practice.InchesLong: {float64(p.Long) * float64(p.Grade) * 12}}
	}
	return nil
}

// A slip, read on the tape, is wrong and is recognized; unless it leads to the
// right figure all the same, as the cosine of 45 does. Where two slips come to
// one figure, the commoner is named.
func TestSlipsAreRecognized(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { checkSlips(t, drawn(t)) })
}

func checkSlips(t interface{ Fatalf(string, ...any) }, p practice.Problem) {
	right := p.Figure().Inches()
	for slip, figures := range slipsOf(p) {
		for _, f := range figures {
			m := p.Mark(said(math.Round(f*16)/16), figure.ExactFigures)
			switch {
			case math.Abs(f-right) < 1e-9:
				if !m.Right {
					t.Fatalf("%+v: %s leads to the right %v, marked %+v", p, slip, f, m)
				}
			case f <= 0:
			case m.Right:
				t.Fatalf("%+v: %s leads to %v, marked right beside %v", p, slip, f, right)
			case m.Slip != slip && m.Or != slip && !alike(p, m.Slip, f):
				t.Fatalf("%+v: %s leads to %v, taken for %q", p, slip, f, m.Slip)
			}
		}
	}
}

// alike says whether another slip leads to the same figure: at 45 the run is
// the set, so that taking it for the travel is leaving the multiplier out.
func alike(p practice.Problem, slip practice.Slip, f float64) bool {
	for _, other := range slipsOf(p)[slip] {
		if math.Abs(other-f) < 1e-9 {
			return true
		}
	}
	return false
}

// Whatever is replied: within a sixteenth of the exact figure it is right, and
// further off than the tape's own rounding allows it is wrong, by any book.
func TestMarkingIsFair(t *testing.T) {
	books := []figure.HandbookSet{figure.ExactFigures, figure.ThreeDecimals}
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t)
		off := rapid.Float64Range(-2, 2).Draw(t, "off")
		m := p.Mark(said(p.Figure().Inches()+off), rapid.SampledFrom(books).Draw(t, "book"))
		if math.Abs(off) <= 1./16 && !m.Right {
			t.Fatalf("%+v: off by %v is marked wrong", p, off)
		}
		if math.Abs(off) > 3./32+1./32 && m.Right {
			t.Fatalf("%+v: off by %v is marked right", p, off)
		}
	})
}

// A reply by the multipliers that the apprentice's book prints is right; it is
// also right where it is exact.
func TestTheBookIsRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t)
		for set, scale := range map[figure.HandbookSet]float64{figure.TwoDecimals: 100, figure.ThreeDecimals: 1000} {
			if p.Kind != practice.Cut {
				t.Skip("only a cut is worked here")
			}
			printed := math.Round(1/sines[float64(p.Angle())]*scale) / scale
			byBook := float64(p.Set)*printed - float64(p.Takeoffs[0]) - float64(p.Takeoffs[1])
			if m := p.Mark(said(math.Round(byBook*16)/16), set); !m.Right {
				t.Fatalf("%+v: %v by the book of %s is marked %+v", p, byBook, set, m)
			}
			if m := p.Mark(said(p.Figure().Inches()), set); !m.Right {
				t.Fatalf("%+v: the exact figure is marked %+v", p, m)
			}
		}
	})
}

// 24 on 45s is 33.94 and a bit, 33-15/16; by 1.41 it is 33.84, which reads
// 33-13/16 heavy.
func TestTwoDecimalsAreASlipUnlessTheBookHasThem(t *testing.T) {
	p := practice.Problem{Kind: practice.Travel, Set: 24, Fittings: bends(45)}
	if m := p.Mark(said(33.8125), figure.ExactFigures); m.Right || m.Slip != practice.TwoPlaces {
		t.Errorf("by 1.41: %+v", m)
	}
	if m := p.Mark(said(33.8125), figure.TwoDecimals); !m.Right {
		t.Errorf("by a book of two decimals: %+v", m)
	}
	if m := p.Mark(said(33.9375), figure.ExactFigures); !m.Right || m.Slip != practice.NoSlip {
		t.Errorf("exact: %+v", m)
	}
}
