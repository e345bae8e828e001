package cutlist_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"dogleg/bot/cutlist"
	"dogleg/catalog"
	"dogleg/geometry"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

var (
	stack  = pipe("pvc-dwv", "2")
	supply = pipe("copper", "3/4")
	fine   = catalog.BendOf(45)
	square = catalog.BendOf(90)
)

func pipe(system string, size catalog.Size) cutlist.Pipe {
	s, ok := catalog.SystemByID(system)
	if !ok {
		panic(system)
	}
	return cutlist.Pipe{System: s, Size: size}
}

func piece(number uint64, inches geometry.Length, of cutlist.Pipe, first, second catalog.Fitting) cutlist.Piece {
	return cutlist.Piece{Number: number, Length: inches, Pipe: of, Fittings: [2]catalog.Fitting{first, second}}
}

func TestLotsKeepTheOrderOfTheList(t *testing.T) {
	var got []string
	for _, lot := range cutlist.Lots([]cutlist.Piece{
		piece(1, 10, stack, fine, fine), piece(2, 20, supply, square, square), piece(5, 30, stack, fine, square),
	}) {
		for _, p := range lot.Pieces {
			got = append(got, fmt.Sprintf("%s %d", lot.System.ID, p.Number))
		}
	}
	if diff := cmp.Diff([]string{"pvc-dwv 1", "pvc-dwv 5", "copper 2"}, got); diff != "" {
		t.Error(diff)
	}
}

// Two 45s and a 90 of the stack, from two pieces: three 45s and one 90. A piece
// that goes on into something else has one fitting.
func TestFittingsAreCountedForEachPipe(t *testing.T) {
	var got []string
	for _, c := range cutlist.Fittings([]cutlist.Piece{
		piece(1, 10, stack, fine, fine), piece(2, 20, supply, square, square),
		piece(3, 30, stack, square, fine), piece(4, 30, stack, fine, catalog.Fitting{}),
	}) {
		got = append(got, fmt.Sprintf("%s %s: %d × %s", c.Size, c.System.ID, c.Number, c.Fitting.Key()))
	}
	want := []string{"2 pvc-dwv: 4 × 45", "2 pvc-dwv: 1 × 90", "3/4 copper: 2 × 90"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// By hand: 80 and 39-7/8 with a kerf of 1/8 are just 120, the 60 and the 20 go
// on a second stick, of which 120 − 60 − 20 − 2 × 1/8 is left.
func TestPlanByHand(t *testing.T) {
	lot := cutlist.Lot{Pipe: stack, Pieces: []cutlist.Piece{
		piece(1, 20, stack, fine, fine), piece(2, 60, stack, fine, fine),
		piece(3, 39.875, stack, fine, fine), piece(4, 80, stack, fine, fine), piece(5, 121, stack, fine, fine),
	}}
	b, err := cutlist.Plan(lot, 120, 0.125)
	if err != nil {
		t.Fatal(err)
	}
	if !b.Proven() || len(b.Sticks) != 2 || len(b.Over) != 1 || b.Over[0].Number != 5 {
		t.Fatalf("%d sticks, at least %d; too long: %v", len(b.Sticks), b.Least, b.Over)
	}
	var got []string
	for _, s := range b.Sticks {
		var line strings.Builder
		for _, p := range s.Pieces {
			line.WriteString(fmt.Sprintf("#%d ", p.Number))
		}
		got = append(got, fmt.Sprintf("%srest %v", line.String(), s.Rest.Inches()))
	}
	if diff := cmp.Diff([]string{"#4 #3 rest 0", "#2 #1 rest 39.75"}, got); diff != "" {
		t.Error(diff)
	}
}

// The usual stick of PVC DWV is 10 ft (stock_lengths.csv); a pipe that nobody
// named has none.
func TestUsualStock(t *testing.T) {
	b, err := cutlist.Plan(cutlist.Lot{Pipe: stack, Pieces: []cutlist.Piece{piece(1, 119, stack, fine, fine)}}, 0, 0)
	if err != nil || b.Stock != 120 || len(b.Sticks) != 1 {
		t.Errorf("%v, %v", b, err)
	}
	b, err = cutlist.Plan(cutlist.Lot{Pieces: []cutlist.Piece{piece(1, 119, cutlist.Pipe{}, fine, fine)}}, 0, 0)
	if err != nil || b.Stock != 0 || b.Sticks != nil {
		t.Errorf("%v, %v", b, err)
	}
}

// An unsure piece takes what it may be out: 59-1/2 and 1/2 are 60, and of two
// such ones and a kerf 120 is too short.
func TestUnsurePiecesArePackedLong(t *testing.T) {
	unsure := piece(1, 59.5, stack, fine, fine)
	unsure.About, unsure.Band = true, 0.5
	second := unsure
	second.Number = 2
	b, err := cutlist.Plan(cutlist.Lot{Pipe: stack, Pieces: []cutlist.Piece{unsure, second}}, 120, 0.125)
	if err != nil || len(b.Sticks) != 2 {
		t.Errorf("%v, %v", b, err)
	}
}

// Each piece comes out of one stick, and no stick holds more than there is of
// it. The number of sticks is checked against every other way to cut them in
// package sticks.
func TestEveryPieceIsCutOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kerf := geometry.Length(rapid.IntRange(0, 4).Draw(t, "32nds of kerf")) / 32
		lot := cutlist.Lot{Pipe: stack}
		for i := range rapid.IntRange(0, 30).Draw(t, "count") {
			p := piece(uint64(i+1), geometry.Length(rapid.IntRange(1, 130*16).Draw(t, "sixteenths"))/16, stack, fine, fine)
			p.Length += geometry.Length(rapid.Float64Range(0, 1e-7).Draw(t, "a hair"))
			lot.Pieces = append(lot.Pieces, p)
		}
		b, err := cutlist.Plan(lot, 120, kerf)
		if err != nil {
			t.Fatal(err)
		}
		var cut []uint64
		for _, s := range b.Sticks {
			used := s.Rest
			for i, p := range s.Pieces {
				cut = append(cut, p.Number)
				used += p.Length
				if i > 0 {
					used += kerf
				}
			}
			if used > 120+1e-5 {
				t.Fatalf("a stick is cut into %v", used)
			}
		}
		for _, p := range b.Over {
			cut = append(cut, p.Number)
		}
		slices.Sort(cut)
		for i, n := range cut {
			if n != uint64(i+1) {
				t.Fatalf("cut %v of %d", cut, len(lot.Pieces))
			}
		}
		if len(cut) != len(lot.Pieces) {
			t.Fatalf("%d cut of %d", len(cut), len(lot.Pieces))
		}
	})
}

// BenchmarkPlan200 plans lists of 200 pieces of a house, from a foot to nine.
func BenchmarkPlan200(b *testing.B) {
	chance := rand.New(rand.NewPCG(1, 2))
	lot := cutlist.Lot{Pipe: stack}
	for i := range 200 {
		lot.Pieces = append(lot.Pieces, piece(uint64(i+1), geometry.Length(12*16+chance.IntN(96*16))/16, stack, fine, fine))
	}
	for b.Loop() {
		plan, err := cutlist.Plan(lot, 120, 0.125)
		if err != nil || len(plan.Over) > 0 {
			b.Fatal(err, plan.Over)
		}
		b.ReportMetric(float64(len(plan.Sticks)-plan.Least), "unproven")
	}
}
