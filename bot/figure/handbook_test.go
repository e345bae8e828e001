package figure_test

import (
	"math"
	"testing"

	"dogleg/bot/figure"
	"dogleg/parser"
)

// S. E. Dibble, Elements of Plumbing, 1918, fig. 76: a set of 12 by 45s is
// 12 × 1.41 = 16.92. The takeoffs of 1-1/2 are ours.
func TestDibble(t *testing.T) {
	message := takeoffs(ask(parser.Offset, 45, m(parser.Set, 12)), 1.5, 1.5)

	book := solve(t, message, figure.Settings{Handbook: figure.TwoDecimals})
	wantLength(t, book, parser.Travel, 16.92)
	wantLength(t, book, parser.Cut, 13.92)
	wantLength(t, book, parser.EndGap, 15)
	if len(book.Exact) != len(book.Lengths) || !book.Handbook.Differs {
		t.Errorf("exact figures %v, differs %v", book.Exact, book.Handbook.Differs)
	}

	exact := solve(t, message, figure.Settings{})
	wantLength(t, exact, parser.Cut, 12*math.Sqrt2-3)
	wantLength(t, exact, parser.EndGap, 15)
	if exact.Exact != nil || exact.Handbook.Name != "three decimals" {
		t.Errorf("exact %v beside exact, compared with %q", exact.Exact, exact.Handbook.Name)
	}
}

// 12 × 1.414 = 16.968 reads 16-15/16 heavy, not 17, as 12·√2 does; the ask
// itself may want it by the book.
func TestByTheBook(t *testing.T) {
	message := takeoffs(ask(parser.Offset, 45, m(parser.Set, 12)), 1.5, 1.5)
	message.Handbook = true
	a := solve(t, message, figure.Settings{})
	wantLength(t, a, parser.Travel, 16.968)
	wantLength(t, a, parser.Cut, 13.968)
}

// Computed apart from this program: the tape shows the same cut for each, so
// the handbook does not differ there.
func TestHandbookAgreesOnTheTape(t *testing.T) {
	tests := []struct {
		ask parser.Ask
		set figure.HandbookSet
		cut float64
	}{
		{takeoffs(ask(parser.Offset, 45, m(parser.Set, 9.375)), 1.0625, 1.0625), figure.TwoDecimals, 11.09375},
		{takeoffs(ask(parser.Offset, 45, m(parser.Set, 9.375)), 1.0625, 1.0625), figure.ThreeDecimals, 11.13125},
		{takeoffs(ask(parser.Offset, 22.5, m(parser.Set, 5.6875)), 0.8125, 1.25), figure.TwoDecimals, 12.781875},
		{takeoffs(ask(parser.Offset, 22.5, m(parser.Set, 5.6875)), 0.8125, 1.25), figure.ThreeDecimals, 12.7989375},
	}
	for _, test := range tests {
		a := solve(t, test.ask, figure.Settings{Handbook: test.set})
		wantLength(t, a, parser.Cut, test.cut)
	}
}

// Correctly rounded, as printed by most books; Dibble's 5.12 and 10.22 are
// slips.
func TestMultipliersAreRoundedCorrectly(t *testing.T) {
	for angle, want := range map[float64][2]float64{
		72: {1.05, 1.051}, 60: {1.15, 1.155}, 45: {1.41, 1.414}, 30: {2, 2},
		22.5: {2.61, 2.613}, 11.25: {5.13, 5.126}, 5.625: {10.20, 10.202},
	} {
		for i, set := range []figure.HandbookSet{figure.TwoDecimals, figure.ThreeDecimals} {
			message := takeoffs(ask(parser.Offset, 0, m(parser.Set, 20.5)), 0.5, 0.5)
			message.Angle = angleOf(angle)
			if got := solve(t, message, figure.Settings{Handbook: set}).Handbook.Multiplier; got != want[i] {
				t.Errorf("%v° by %s is %v, want %v", angle, set, got, want[i])
			}
		}
	}
}

// A fit is figured by the book like any offset: 14 by 45s is 14 × 1.41 = 19.74
// of travel, 16.74 of cut with takeoffs of 1-1/2, and what is said of the bend
// is what is said of the piece.
func TestFitByTheBook(t *testing.T) {
	message := takeoffs(pipe(ask(parser.Fit, 45, m(parser.Set, 14), m(parser.Room, 22)), drain2), 1.5, 1.5)
	book := solve(t, message, figure.Settings{Handbook: figure.TwoDecimals})
	wantLength(t, book, parser.Cut, 16.74)
	best := book.Bends[0]
	if math.Abs(best.Cut.Inches()-16.74) > eps || math.Abs(best.Travel.Inches()-19.74) > eps || math.Abs(best.EndGap.Inches()-17) > eps {
		t.Errorf("the bend is said to make %+v", best)
	}
}

// Who is marked by two decimals is told multipliers of two.
func TestMultipliersOfTheBook(t *testing.T) {
	for set, want := range map[figure.HandbookSet]string{
		figure.TwoDecimals: "2.61", figure.ThreeDecimals: "2.613", figure.ExactFigures: "2.613",
	} {
		a := solve(t, ask(parser.Multiplier, 22.5), figure.Settings{Handbook: set})
		if got := a.Factors[0].Printed; got != want {
			t.Errorf("%q: %s, want %s", set, got, want)
		}
	}
}
