package wording_test

import (
	"strings"
	"testing"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// TestTheShortAnswerLeavesOutNoDoubt: what a cut or a mark hangs on that nobody
// said stands in the first answer too, not only behind why. The figures are laid
// out by hand beside each.
func TestTheShortAnswerLeavesOutNoDoubt(t *testing.T) {
	for ask, wants := range map[string][]string{
		// 8 tan 22-1/2° = 3.3137; none where the spacing is square to the step.
		"3 lines 8 apart, set 15 45s": {"Stagger 3-5/16 in", "Stepping square to the bank: none", "Line 1, the side you leave, bends last"},
		// 8 × 10/√149 × tan 22-1/2° = 2.7147, of a stack 8 × 7/√149 × tan 22-1/2° = 1.9003
		"3 lines 8 apart, roll 10 rise 7 45s, 2 threaded steel": {"Stagger 2-11/16 in heavy", "Side by side? Stacked: 1-7/8 heavy", "Line 1, the side you leave, bends last"},
		// asin(33.875 / 39.125) = 59.98°; 60s make 33.875 / sin 60° = 39.1155
		"set 33-7/8 travel 39-1/8, 2 pvc dwv takeoff 1": {"Angle 59.98° · 60s: travel 39-1/8"},
		// atan(5 / 12) = 22.62°, hypotenuse 13; 5 / tan 22-1/2° = 12.071
		"run 12 set 5 2 pvc": {"Angle 22.62° · travel 13", "22-1/2s: run 12-1/16"},
		// atan(10 / 17) = 30.47°
		"set 10 run 17 4 butt weld": {"Angle 30.47° · an elbow cut down from a 90"},
		// 1 + 1.1875 = 2.1875; (2.1875 + 6 cos 45°) / sin 45° = 9.0936
		"around a beam, reach 6, clearance 1, 45s, 2 pvc": {"First bend's center 9-1/8 in before it", "Stop the pipe about", "Rounded up. A hub is wider: measure it"},
		// two faces of 1-1/2 + 3/4 touch at a set of 4-1/2 × sin 45° = 3.182
		"set 3 45s 2 pvc dwv":                      {"These 45s may collide", "By takeoff 1-1/2 they touch at 3-3/16."},
		"29 face to face two 90s 2 hub and spigot": {"Cut 34 in", "with the part in the hub"},
	} {
		text := wording.Refusal(problem(ask), wording.Options{})
		if problem(ask) == nil {
			text = wording.Reply(solved(t, ask), wording.Options{})
		}
		for _, want := range wants {
			if !strings.Contains(text, want) {
				t.Errorf("%q: nothing says %q:\n%s", ask, want, text)
			}
		}
	}
}

// problem is why an ask isn't answered, nil where it is.
func problem(text string) error {
	_, err := figure.Solve(parser.Likeliest(text), figure.Settings{})
	return err
}

// TestAnotherPipeThatWantsMoreIsNamed: where what was taken could be a pipe that
// wants a longer piece than the printed one, the short answer says so, since what
// is sawn off can't be put back.
func TestAnotherPipeThatWantsMoreIsNamed(t *testing.T) {
	longer := 0
	for _, s := range catalog.Systems() {
		for _, size := range s.Sizes() {
			for _, kind := range []parser.Kind{parser.Offset, parser.Mark} {
				ask := parser.Ask{Kind: kind, Angle: 45, Measures: []parser.Measure{given(parser.Roll, 30), given(parser.Rise, 21), given(parser.GapNow, 9)}}
				ask.Pipe = catalog.Pipe{Material: s.Material, Size: size}
				a, err := figure.Solve(ask, figure.Settings{})
				if err != nil {
					continue
				}
				cut, ok := a.Length(parser.Cut)
				if !ok {
					continue
				}
				for _, assumed := range a.Assumed {
					for _, other := range assumed.Instead {
						if other.Cut <= cut+a.Band+geometry.Inch/32 || a.System.Joint == catalog.PushFit {
							continue
						}
						longer++
						want := wording.Tape(other.Cut, wording.Options{}.For(a.Ask))
						want, _, _ = strings.Cut(want, " ")
						if text := wording.Reply(a, wording.Options{}); !strings.Contains(text, "about "+want) {
							t.Errorf("%s %s: %s would want %s:\n%s", size, s.Material, other.Name, want, text)
						}
					}
				}
			}
		}
	}
	if longer == 0 {
		t.Error("no pipe that is taken could want more: this test sees nothing")
	}
}

// TestWhatStandsInTheTravelIsReadBackOnce: how much of the line it takes, and where its
// center is, stand behind its name and nowhere else.
func TestWhatStandsInTheTravelIsReadBackOnce(t *testing.T) {
	text := wording.Reply(solved(t, "26 set 45s 2 pvc, union in the travel, takes 2-3/4, 8 from the first fitting"), wording.Options{})
	for _, want := range []string{"union in the travel", "takes 2-3/4 of the line", "its center at 8"} {
		if strings.Count(text, want) != 1 {
			t.Errorf("%q stands %d times in\n%s", want, strings.Count(text, want), text)
		}
	}
}
