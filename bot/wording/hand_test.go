package wording_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// solved takes a message through reading and figuring.
func solved(t *testing.T, text string) *figure.Answer {
	t.Helper()
	a, err := figure.Solve(parser.Likeliest(text), figure.Settings{})
	if err != nil {
		t.Fatalf("%q: %v: %s", text, err, wording.WholeRefusal(err, wording.Options{}))
	}
	return a
}

// told is what a message is answered with, or why it isn't.
func told(t *testing.T, text string) string {
	t.Helper()
	a, err := figure.Solve(parser.Likeliest(text), figure.Settings{})
	if err != nil {
		return wording.WholeRefusal(err, wording.Options{})
	}
	return wording.Whole(a, wording.Options{})
}

// onTape reads a mark as it is printed: 14-3/4.
func onTape(t *testing.T, text string) float64 {
	t.Helper()
	whole, fraction, mixed := strings.Cut(text, "-")
	if !mixed && strings.Contains(text, "/") {
		whole, fraction = "0", text
	}
	inches, err := strconv.ParseFloat(whole, 64)
	if err != nil {
		t.Fatalf("%q is no mark of a tape", text)
	}
	if top, bottom, ok := strings.Cut(fraction, "/"); ok {
		a, err := strconv.ParseFloat(top, 64)
		b, err2 := strconv.ParseFloat(bottom, 64)
		if err != nil || err2 != nil {
			t.Fatalf("%q is no mark of a tape", text)
		}
		inches += a / b
	}
	return inches
}

var printedTakeoff = regexp.MustCompile(`Takeoff (\S+) each`)

// TestThePrintedTakeoffMakesTheCut figures cuts by hand with the takeoff that
// the reply prints: travel is set ÷ sine, less two of those takeoffs, less two
// gaps. The first is 6-3/16 by hand where 6-1/8 would come of a finer takeoff
// than is printed.
func TestThePrintedTakeoffMakesTheCut(t *testing.T) {
	for _, test := range []struct {
		ask             string
		set, angle, gap float64
	}{
		{"set 14 60s 6 no hub", 14, 60, 0.125},
		{"set 12 60s 4 no hub", 12, 60, 0.125},
		{"set 16 45s 3/8 copper", 16, 45, 0},
		{"set 20 60s 3 no hub", 20, 60, 0.125},
		{"set 11 60s 3 pvc dwv", 11, 60, 0},
	} {
		a := solved(t, test.ask)
		printed := printedTakeoff.FindStringSubmatch(wording.Whole(a, wording.Options{}))
		if printed == nil {
			t.Errorf("%q prints no takeoff", test.ask)
			continue
		}
		byHand := test.set/math.Sin(test.angle*math.Pi/180) - 2*onTape(t, printed[1]) - 2*test.gap
		if cut, _ := a.Length(parser.Cut); math.Abs(cut.Inches()-byHand) > 1e-9 {
			t.Errorf("%q: cut %v, by hand with the printed takeoff %s it is %v", test.ask, cut, printed[1], byHand)
		}
	}
}

// TestABankSaysHowItLies: which line is the first, and what the stagger hangs on
// that nobody said.
func TestABankSaysHowItLies(t *testing.T) {
	for ask, wants := range map[string][]string{
		"3 lines 8 apart, rise 12 with 45s, 2 threaded steel takeoff 1": {
			"No stagger: bend every line at one place", "Taken as side by side. One above the other: stagger 3-5/16.",
		},
		"3 lines 8 apart, set 15 45s": {
			"Stagger 3-5/16 in", "Taken as stepping along the bank, toward an outer line. Square to it, as up from lines side by side: no stagger.",
			"Line 1: the one on the side you step away from.",
		},
		// 8 × 10/√149 × tan 22-1/2° = 2.7147, and of a stack 1.9003
		"3 lines 8 apart, roll 10 rise 7 45s": {"Stagger 2-11/16 in heavy", "Taken as side by side. One above the other: stagger 1-7/8 heavy."},
	} {
		text := told(t, ask)
		for _, want := range wants {
			if !strings.Contains(text, want) {
				t.Errorf("%q: nothing says %q:\n%s", ask, want, text)
			}
		}
	}
	stacked := solved(t, "3 lines 8 apart, roll 10 rise 7 45s").Ask
	stacked.Lie = parser.OneAbove
	a, err := figure.Solve(stacked, figure.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	text := wording.Whole(a, wording.Options{})
	if !strings.Contains(text, "Stagger 1-7/8 in heavy") || !strings.Contains(text, "one above the other") || strings.Contains(text, "Taken as") {
		t.Errorf("a stack is answered with\n%s", text)
	}
}

// TestAGivenRunIsNotContradicted: 12 and 5 make a travel of 13 at 22.62°. The
// bend that comes near is named with what it would change, and no other run.
func TestAGivenRunIsNotContradicted(t *testing.T) {
	text := told(t, "run 12 set 5 2 pvc")
	for _, want := range []string{"Angle 22.62°", "Run 12, set 5", "Travel 13", "22-1/2s come within what a tape is off: travel 13-1/16, run 12-1/16."} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing says %q:\n%s", want, text)
		}
	}
	for _, noise := range []string{"run 5", "5-5/8", "11-1/4", "short by"} {
		if strings.Contains(text, noise) {
			t.Errorf("it says %q:\n%s", noise, text)
		}
	}
}

// TestAnElbowIsMarkedFromItsFace: a 6 in elbow of 9 radius and 6-5/8 outside,
// cut to 37°: the arcs of 9 less, and more, 3.3125 are 3.673 and 7.951 long, that
// of 9 is 5.812. The takeoff of 3 is from the corner, where nothing is to be
// marked.
func TestAnElbowIsMarkedFromItsFace(t *testing.T) {
	a := solved(t, "trim a 6 weld 90 to 37")
	steps := wording.Steps(a, wording.Options{})
	if want := "From one face mark 3-11/16 at the throat, 5-13/16 at both sides and 7-15/16 at the back"; !strings.Contains(steps, want) {
		t.Errorf("nothing says %q:\n%s", want, steps)
	}
	for _, text := range []string{steps, wording.Whole(a, wording.Options{})} {
		if !strings.Contains(text, "Keep the piece with that face.") || strings.Contains(text, "from its center") {
			t.Errorf("which piece is kept isn't said, or a mark from the center:\n%s", text)
		}
	}
	r := wording.NewRecord(parser.Statement{Ask: &a.Ask}, a, nil, "")
	for i, m := range r.Marks {
		want := (9 - 3.3125*math.Cos(float64(i)*math.Pi/4)) * 37 * math.Pi / 180
		if math.Abs(m.Face-want) > 1e-9 {
			t.Errorf("mark %d is %v from the face, want %v", i, m.Face, want)
		}
	}
	if len(r.Marks) != 8 {
		t.Errorf("%d marks", len(r.Marks))
	}
}

// TestAroundSaysWhereThePipeStops: the bend's center is a takeoff farther on
// than where the pipe is cut. (1 + 1.1875 + 6 cos 45°) / sin 45° = 9.0936 rounds
// up to 9-1/8; with a takeoff of 1-1/2 the pipe stops 10.5936 before the beam.
func TestAroundSaysWhereThePipeStops(t *testing.T) {
	text := told(t, "around a beam, reach 6, clearance 1, 45s, 2 pvc, takeoff 1-7/16")
	if strings.HasPrefix(text, "Kept") {
		text = told(t, "around a beam, reach 6, clearance 1, 45s, 2 pvc")
	}
	for _, want := range []string{"First bend's center 9-1/8 in before it\nRounded up. Stop the standing pipe ", "A hub is wider"} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing says %q:\n%s", want, text)
		}
	}
	a := solved(t, "around a beam, reach 6, clearance 1, 45s, 2 pvc")
	if stop, _ := a.Length(parser.MarkAt); math.Abs(stop.Inches()-10.5936) > 1e-4 {
		t.Errorf("the standing pipe stops %v before it, want 10.5936", stop)
	}
}

// TestTheHeadlineIsTheLengthAtTheSaw: of hub-and-spigot pipe with the part in
// the hub. What is printed first is what is longer by the depth of the hub.
func TestTheHeadlineIsTheLengthAtTheSaw(t *testing.T) {
	a := solved(t, "set 12 45s 3 hub cast iron")
	lines := strings.Split(wording.Whole(a, wording.Options{}), "\n")
	cut, _ := a.Length(parser.Cut)
	long, _ := a.Length(parser.PipeLength)
	first := printedCut.FindStringSubmatch(lines[0])
	if first == nil || lines[1] != "Sawn with the part that goes in the hub." {
		t.Fatalf("%q", lines[:2])
	}
	if got := onTape(t, first[1]); got < long.Inches()+0.25-1e-9 || got > long.Inches()+0.25+1.0/16 || long <= cut {
		t.Errorf("printed %v for a pipe of %v, laying length %v", got, long, cut)
	}
	if !strings.Contains(lines[3], "Laying length about ") {
		t.Errorf("%q has no laying length", lines[3])
	}
}

// TestAMarkSaysFromWhere: back from the end of a pipe, or on the tape that it
// was read on.
func TestAMarkSaysFromWhere(t *testing.T) {
	a := solved(t, "set 12 45s 2 pvc dwv, ends are 9 apart now")
	if text := wording.Whole(a, wording.Options{}); !strings.Contains(text, "Back from the end of either standing pipe, or shared.") {
		t.Errorf("from where is the mark:\n%s", text)
	}
	a.Ask.Measures = append(a.Ask.Measures[:1:1], given(parser.Reading, 40), given(parser.Reading, 50))
	read, err := figure.Solve(a.Ask, figure.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if text := wording.Whole(read, wording.Options{}); !strings.Contains(text, "On the tape that the standing pipe's end was read on.") {
		t.Errorf("on which tape is the mark:\n%s", text)
	}
}

// TestAStreetFittingLeavesTheEndOpen: its spigot goes into a hub on the standing
// side, and how long it is nobody said. What set it makes straight in another
// bend needs both: (2-1/8 + 1-1/2) sin 45° = 2.5633.
func TestAStreetFittingLeavesTheEndOpen(t *testing.T) {
	text := told(t, "set 12 45 and street 45 2 pvc dwv takeoff 1-3/8 and 1")
	if strings.Contains(text, "nds 14") || !strings.Contains(text, "it hangs on that fitting's other side") {
		t.Errorf("where the pipe ends is said:\n%s", text)
	}
	ask := solved(t, "set 12 45 and street 45 2 abs takeoff 1-3/8 and 2-1/8").Ask
	ask.Measures, ask.Want = nil, parser.Set
	a, err := figure.Solve(ask, figure.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if set, _ := a.Length(parser.Set); math.Abs(set.Inches()-(1.375+2.125)*math.Sqrt2/2) > 1e-9 {
		t.Errorf("set %v", set)
	}
	for i := range ask.Ends {
		ask.Ends[i].Takeoff = 0
	}
	_, err = figure.Solve(ask, figure.Settings{})
	if text := wording.WholeRefusal(err, wording.Options{}); !strings.Contains(text, "center to the end of its spigot") {
		t.Errorf("nothing says what to measure:\n%s", text)
	}
	wye := told(t, "roll 7 rise 9 from wye to 45 4 no hub takeoff 5 and 3")
	if strings.Contains(wye, "nds about 1") && !strings.Contains(wye, "from the wye's center") || !strings.Contains(wye, "hangs on both ends of the wye's run") {
		t.Errorf("a wye's branch is taken for its run:\n%s", wye)
	}
}

// TestOnePieceSitsInOneSize: between a 3 and a 2 goes a reducer, whose length
// nobody said.
func TestOnePieceSitsInOneSize(t *testing.T) {
	ask := solved(t, "set 12 45s 3 pvc dwv takeoff 1-1/4").Ask
	ask.Ends[1].Size = "2"
	a, err := figure.Solve(ask, figure.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if text := wording.Whole(a, wording.Options{}); !strings.Contains(text, "One piece can't sit in a 3 and a 2: a reducer goes in") || !strings.Contains(text, "Cut about") {
		t.Errorf("a piece for two sizes:\n%s", text)
	}
}
