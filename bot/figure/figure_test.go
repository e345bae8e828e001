package figure_test

import (
	"errors"
	"math"
	"testing"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// The tests give takeoffs as said in the message, or as the user's own, so
// that they do not hang on what the catalog knows.

const eps = 1e-9

// ask is a message as it was understood: a kind, an angle and measures.
func ask(kind parser.Kind, a geometry.Angle, measures ...parser.Measure) parser.Ask {
	return parser.Ask{Kind: kind, Angle: a, Measures: measures}
}

func m(r parser.Role, inches float64) parser.Measure {
	return parser.Measure{Role: r, Length: geometry.Length(inches)}
}

func by(r parser.Role, inches float64, method parser.Method) parser.Measure {
	return parser.Measure{Role: r, Length: geometry.Length(inches), Method: method}
}

func takeoffs(a parser.Ask, first, second float64) parser.Ask {
	a.Ends[0].Takeoff, a.Ends[1].Takeoff = geometry.Length(first), geometry.Length(second)
	return a
}

func depths(a parser.Ask, first, second float64) parser.Ask {
	a.Ends[0].Depth, a.Ends[1].Depth = geometry.Length(first), geometry.Length(second)
	return a
}

func pipe(a parser.Ask, p catalog.Pipe) parser.Ask {
	a.Pipe = p
	return a
}

var (
	drain2    = catalog.Pipe{Material: catalog.PVC, Use: catalog.DWV, Size: "2"}
	welded3   = catalog.Pipe{Material: catalog.Steel, Joint: catalog.ButtWeld, Size: "3"}
	threaded2 = catalog.Pipe{Material: catalog.Steel, Joint: catalog.Thread, Size: "2"}
)

// own are takeoffs of the user's own for 2 in PVC DWV, by fitting.
func own(of map[string]float64) figure.Settings {
	var s figure.Settings
	for fitting, inches := range of {
		s.Takeoffs = append(s.Takeoffs, figure.OwnTakeoff{
			System: "pvc-dwv", Fitting: fitting, Size: "2", Length: geometry.Length(inches), When: "3 Nov",
		})
	}
	return s
}

func solve(t *testing.T, a parser.Ask, s figure.Settings) *figure.Answer {
	t.Helper()
	answer, err := figure.Solve(a, s)
	if err != nil {
		t.Fatalf("Solve: %v", err)
	}
	return answer
}

func impossible(t *testing.T, a parser.Ask, s figure.Settings) *figure.Impossible {
	t.Helper()
	_, err := figure.Solve(a, s)
	var i *figure.Impossible
	if !errors.As(err, &i) {
		t.Fatalf("Solve: error is %v, want *Impossible", err)
	}
	return i
}

func missing(t *testing.T, a parser.Ask) *figure.Missing {
	t.Helper()
	_, err := figure.Solve(a, figure.Settings{})
	var i *figure.Missing
	if !errors.As(err, &i) {
		t.Fatalf("Solve: error is %v, want *Missing", err)
	}
	return i
}

func wantLength(t *testing.T, a *figure.Answer, r parser.Role, want float64) {
	t.Helper()
	got, ok := a.Length(r)
	if !ok || math.Abs(got.Inches()-want) > eps {
		t.Errorf("%s is %v (figured: %v), want %v in", r, got, ok, want)
	}
}

func wantEnd(t *testing.T, a *figure.Answer, x, y, z float64) {
	t.Helper()
	end := a.Path.End()
	if math.Abs(end.X.Inches()-x) > 1e-4 || math.Abs(end.Y.Inches()-y) > 1e-4 || math.Abs(end.Z.Inches()-z) > 1e-4 {
		t.Errorf("walk lands at %v, want (%v, %v, %v)", end, x, y, z)
	}
}

func angleOf(degrees float64) geometry.Angle { return geometry.Angle(degrees) }

func wantAngle(t *testing.T, what string, got geometry.Angle, want float64) {
	t.Helper()
	if math.Abs(got.Degrees()-want) > eps {
		t.Errorf("%s is %v, want %v°", what, got, want)
	}
}
