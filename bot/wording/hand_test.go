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
	said := parser.Parse(text)
	if len(said) != 1 || said[0].Ask == nil {
		t.Fatalf("%q is not read as one thing asked", text)
	}
	a, err := figure.Solve(*said[0].Ask, figure.Settings{})
	if err != nil {
		t.Fatalf("%q: %v: %s", text, err, wording.Refusal(err, wording.Options{}))
	}
	return a
}

// told is what a message is answered with, or why it isn't.
func told(t *testing.T, text string) string {
	t.Helper()
	said := parser.Parse(text)
	if len(said) != 1 || said[0].Ask == nil {
		t.Fatalf("%q is not read as one thing asked", text)
	}
	a, err := figure.Solve(*said[0].Ask, figure.Settings{})
	if err != nil {
		return wording.Refusal(err, wording.Options{})
	}
	return wording.Reply(a, wording.Options{})
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
		printed := printedTakeoff.FindStringSubmatch(wording.Reply(a, wording.Options{}))
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
