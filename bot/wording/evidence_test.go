package wording_test

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

var printedCut = regexp.MustCompile(`(?m)^Cut about (\S+) in`)

// TestAnUnsureCutIsLeftLong: whichever of the takeoffs in the band the fittings
// turn out to have, the piece that was sawn at the printed mark is not too
// short, and no more has to come off than is said.
func TestAnUnsureCutIsLeftLong(t *testing.T) {
	off := regexp.MustCompile(`up to (\S+) may come off`)
	for _, test := range []struct {
		ask             string
		set, angle, gap float64
		narrowest       float64 // the gap may be
		band            float64 // of a takeoff, either way
	}{
		{"set 12 45s 2 pvc dwv", 12, 45, 0, 0, 0.125},
		{"set 13-7/8 60s 3 abs", 13.875, 60, 0, 0, 0.125},
		{"set 14-5/16 45s 4 no hub", 14.3125, 45, 0.125, 0.09375, 0.125},
		{"set 19-3/16 45s 4 butt weld", 19.1875, 45, 0.125, 0.0625, 0.0625},
	} {
		a := solved(t, test.ask)
		text := wording.Whole(a, wording.Options{})
		cut, most := printedCut.FindStringSubmatch(text), off.FindStringSubmatch(text)
		if cut == nil || most == nil {
			t.Errorf("%q is answered with\n%s", test.ask, text)
			continue
		}
		travel := test.set / math.Sin(test.angle*math.Pi/180)
		takeoff := a.Ends[0].Takeoff.Length.Inches()
		longest := travel - 2*(takeoff-test.band) - 2*test.narrowest
		shortest := travel - 2*(takeoff+test.band) - 2*test.gap
		sawn := onTape(t, cut[1])
		if sawn < longest-1e-9 || sawn > longest+1.0/16 {
			t.Errorf("%q: sawn at %v, it may have to be %v", test.ask, sawn, longest)
		}
		if said := onTape(t, most[1]); said < longest-shortest-1e-9 || said > longest-shortest+1.0/16 {
			t.Errorf("%q: up to %v may come off, it says %v", test.ask, longest-shortest, said)
		}
	}
}

// TestNoCutByARoughRule: three quarter copper 90s are known no better than to
// 7/16 each, so there is no cut, but what to measure and how.
func TestNoCutByARoughRule(t *testing.T) {
	for _, ask := range []string{
		"26 center to center, 90s, 3/4 copper", "set 12 45s 2 pvc sch 40", "set 14 room 30, 2 pvc sch 40",
		"set 10 45s 1 copper, ends are 9 apart", "3 lines 8 apart, set 15 45s, 1 copper",
		"around a beam, reach 6, clearance 1, 45s, 1 copper",
	} {
		a := solved(t, ask)
		text := wording.Whole(a, wording.Options{})
		if _, cut := a.Length(parser.Cut); cut || strings.Contains(text, "Cut ") || strings.Contains(text, ", cut ") {
			t.Errorf("%q is answered with a cut:\n%s", ask, text)
		}
		if !strings.Contains(text, "first, from its center to where the pipe stops, and say takeoff and what you found") {
			t.Errorf("%q: nothing says what to measure:\n%s", ask, text)
		}
	}
	if first, _, _ := strings.Cut(told(t, "set 15 45s 1 copper"), "\n"); first != "Travel 21-3/16 in heavy" { // 21.2132
		t.Errorf("%q, want the travel", first)
	}
}

// TestTheHintNeverPrintsTheGuess: copied back unmeasured it would be kept as
// measured.
func TestTheHintNeverPrintsTheGuess(t *testing.T) {
	for _, s := range catalog.Systems() {
		for _, size := range s.Sizes() {
			ask := parser.Ask{Kind: parser.Offset, Angle: 45, Measures: []parser.Measure{{Role: parser.Set, Length: 40}}}
			ask.Pipe = catalog.Pipe{Material: s.Material, Joint: s.Joint, Use: s.Use, Schedule: s.Schedule, Size: size}
			a, err := figure.Solve(ask, figure.Settings{})
			if err != nil || a.Ends[0].Takeoff.Evidence.Sure() {
				continue
			}
			text, t0 := wording.Whole(a, wording.Options{}), a.Ends[0].Takeoff
			for _, l := range []geometry.Length{t0.Length, t0.CenterToFace()} {
				for _, word := range []string{"takeoff", "face"} {
					if mark := `"` + word + " " + l.Tape(geometry.Sixteenths).String() + `"`; strings.Contains(text, mark) {
						t.Errorf("%s %s: the hint has the guess %s:\n%s", size, s.Name, mark, text)
					}
				}
			}
		}
	}
}

// TestAPieceFromOneFitting has one takeoff and none at its plain end; of
// hub-and-spigot pipe that of the hub. 26-7/8 less 4-1/2 is 22-3/8.
func TestAPieceFromOneFitting(t *testing.T) {
	a := solved(t, "center of the 90 to end of pipe 26-7/8, 4 hub and spigot cast iron")
	if cut, _ := a.Length(parser.Cut); math.Abs(cut.Inches()-22.375) > 1e-9 {
		t.Errorf("cut %v, want 22.375", cut)
	}
	text := told(t, "center of the 90 to end of pipe 31-1/8, 1 threaded steel")
	if !strings.Contains(text, "Cut about") {
		t.Errorf("a 90 of threaded steel:\n%s", text)
	}
}

// TestEndToEndHangsOnNoTakeoff: the piece was measured itself.
func TestEndToEndHangsOnNoTakeoff(t *testing.T) {
	if first, _, _ := strings.Cut(told(t, "end to end 27, two 90s, 2 pvc dwv"), "\n"); first != "Cut 27 in" {
		t.Errorf("%q, want Cut 27 in", first)
	}
}

// TestAFaceIsNoTakeoff: the face and the depth that the table has, typed as a
// takeoff, are asked about before the cut. 12 × √2 less two of 1-1/2 is 13.97.
func TestAFaceIsNoTakeoff(t *testing.T) {
	for ask, wants := range map[string][]string{
		"set 12 45s 2 pvc dwv takeoff 2-1/4":                           {"to the stop, or to the face?", "about 1-1/2 to the stop", "Then the cut would be about 14.", "Cut about 12-1/2"},
		"set 12 45s 2 pvc dwv takeoff 2-1/4, socket depth 3/4":         {"to the stop, or to the face?"},
		"set 12 45s 2 pvc dwv takeoff 2-5/16, socket depth 3/4":        {"to the stop, or to the face?"},
		"set 12 45s 2 pvc dwv takeoff 3/4":                             {"is that how far the pipe goes in?", "Cut about 15-1/2"},
		"set 12 45s 2 pvc dwv fitting allowance 3/4":                   {"is that how far the pipe goes in?"},
		"29 center to center, two 90s, 1 threaded steel takeoff 1-1/2": {"to the stop, or to the face?"},
	} {
		text := told(t, ask)
		for _, want := range wants {
			if !strings.Contains(text, want) {
				t.Errorf("%q: nothing says %q:\n%s", ask, want, text)
			}
		}
	}
	for _, ask := range []string{
		"set 12 45s 2 pvc dwv takeoff 1-3/8", "set 12 45s 2 pvc dwv face 2-1/4 depth 3/4",
		"set 12 45s 3/4 copper takeoff 3/8", "set 12 45s takeoff 2-1/4",
	} {
		if text := told(t, ask); strings.Contains(text, "If it is the") {
			t.Errorf("%q is questioned:\n%s", ask, text)
		}
	}
}

// TestNoDefiniteCutRestsOnLess than what was measured, said or seen in print: of
// every system, size and bend, by the tables alone, and the gap too.
func TestNoDefiniteCutRestsOnLess(t *testing.T) {
	definite, about, none := 0, 0, 0
	for _, s := range catalog.Systems() {
		for _, size := range s.Sizes() {
			for _, angle := range s.Bends() {
				for _, kind := range []parser.Kind{parser.Offset, parser.Parallel, parser.Around, parser.Mark} {
					ask := parser.Ask{Kind: kind, Angle: angle, Measures: []parser.Measure{
						given(parser.Set, 90), given(parser.Spacing, 30), given(parser.Reach, 20), given(parser.Clearance, 2), given(parser.GapNow, 30),
					}}
					ask.Pipe = catalog.Pipe{Material: s.Material, Joint: s.Joint, Use: s.Use, Schedule: s.Schedule, Size: size}
					a, err := figure.Solve(ask, figure.Settings{})
					if err != nil {
						continue
					}
					sure := a.Gap.Length == 0 || a.Gap.Evidence.Sure()
					for _, e := range a.Ends {
						sure = sure && (e.Takeoff.Length == 0 || e.Takeoff.Evidence.Sure())
					}
					_, cut := a.Length(parser.Cut)
					text := wording.Whole(a, wording.Options{})
					switch {
					case !cut:
						none++
					case wording.Unsure(a):
						about++
					default:
						definite++
						if !sure {
							t.Errorf("%v %s %s: definite by %s and a gap by %s:\n%s", angle, size, s.Name, a.Ends[0].Takeoff.Evidence, a.Gap.Evidence, text)
						}
					}
					if !sure && regexp.MustCompile(`(?i)\bcut \d`).MatchString(text) {
						t.Errorf("%v %s %s: a bare cut:\n%s", angle, size, s.Name, text)
					}
				}
			}
		}
	}
	if about < 100 || none < 100 {
		t.Errorf("%d definite, %d about, %d without a cut: this test no longer sees them", definite, about, none)
	}
}

// TestTheTurnIsToldFromPlumbAndFromLevel: 8 and 14 turn 29.74° from plumb, 60.26°
// up from level, which is what the reply says.
func TestTheTurnIsToldFromPlumbAndFromLevel(t *testing.T) {
	steps := wording.Steps(solved(t, "roll 8 rise 14 45s 3 abs"), wording.Options{})
	if !strings.Contains(steps, "= 29.74°, 60.26° up from level") {
		t.Errorf("the two are not linked:\n%s", steps)
	}
}
