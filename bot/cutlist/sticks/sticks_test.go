package sticks_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"dogleg/bot/cutlist/sticks"
	"dogleg/geometry"
)

const (
	tenFeet = 10 * geometry.Foot
	hacksaw = geometry.Inch / 16
)

func TestPackByHand(t *testing.T) {
	for _, c := range []struct {
		name        string
		pieces      []sticks.Piece
		stock, kerf geometry.Length
		want        int
	}{
		{"nothing", nil, tenFeet, hacksaw, 0},
		{"none of one", []sticks.Piece{{30, 0}}, tenFeet, hacksaw, 0},
		{"a whole stick needs no cut", []sticks.Piece{{tenFeet, 1}}, tenFeet, hacksaw, 1},
		{"two halves and a kerf are too long", []sticks.Piece{{60, 2}}, tenFeet, hacksaw, 2},
		{"two halves less half a kerf fill it", []sticks.Piece{{60 - hacksaw/2, 2}}, tenFeet, hacksaw, 1},
		{"two halves with a saw that takes nothing", []sticks.Piece{{60, 2}}, tenFeet, 0, 1},
		{"six meters in six", []sticks.Piece{{geometry.Meter, 6}}, 6 * geometry.Meter, 0, 1},
		{"thirds of a foot", []sticks.Piece{{geometry.Foot / 3, 30}}, tenFeet, 0, 1},
		// The longest first makes 6 6, then 5 5 2, then 2; the best is 6 5 2 twice.
		{"the longest first is not the best", []sticks.Piece{{6, 2}, {5, 2}, {2, 2}}, 13, 0, 2},
		// Two of 8 never share 15, though all seven would pour into four.
		{"lengths that don't share", []sticks.Piece{{8, 7}}, 15, 0, 7},
	} {
		t.Run(c.name, func(t *testing.T) {
			plan := pack(t, c.pieces, c.stock, c.kerf)
			if len(plan.Sticks) != c.want || !plan.Proven() {
				t.Errorf("%d sticks, proven %t, want %d, proven", len(plan.Sticks), plan.Proven(), c.want)
			}
			wantWhole(t, plan, c.pieces, c.stock, c.kerf)
		})
	}
}

// A stick of 120 less two pieces of 40 and two kerfs leaves 39-7/8; less
// another of 39-13/16 it leaves a sixteenth, which is dust.
func TestRestIsWhatCanBeUsed(t *testing.T) {
	plan := pack(t, []sticks.Piece{{40, 2}}, tenFeet, hacksaw)
	if got := plan.Sticks[0].Rest; math.Abs(float64(got-39.875)) > 1e-6 {
		t.Errorf("rest of %v, want 39.875", got)
	}
	plan = pack(t, []sticks.Piece{{40, 2}, {39.8125, 1}}, tenFeet, hacksaw)
	if got := plan.Sticks[0].Rest; got != 0 {
		t.Errorf("rest of %v, want none", got)
	}
}

func TestPackRefuses(t *testing.T) {
	_, err := sticks.Pack([]sticks.Piece{{48, 2}, {120.5, 1}}, tenFeet, hacksaw)
	if long, ok := errors.AsType[*sticks.TooLong](err); !ok || long.Piece != 120.5 || long.Stock != tenFeet {
		t.Errorf("a piece longer than the stock: %v", err)
	}
	_, err = sticks.Pack([]sticks.Piece{{1, sticks.Most}, {2, 1}}, tenFeet, hacksaw)
	if _, ok := errors.AsType[*sticks.TooMany](err); !ok {
		t.Errorf("too many pieces: %v", err)
	}
	for name, err := range map[string]error{
		"no stock":       packing([]sticks.Piece{{48, 2}}, 0, hacksaw),
		"negative kerf":  packing([]sticks.Piece{{48, 2}}, tenFeet, -1),
		"no length":      packing([]sticks.Piece{{0, 2}}, tenFeet, hacksaw),
		"not a number":   packing([]sticks.Piece{{geometry.Length(math.NaN()), 1}}, tenFeet, hacksaw),
		"negative count": packing([]sticks.Piece{{48, -1}}, tenFeet, hacksaw),
		"over a mile":    packing([]sticks.Piece{{48, 1}}, 2*geometry.Longest, hacksaw),
	} {
		if _, ok := errors.AsType[*geometry.Problem](err); !ok {
			t.Errorf("%s: %v, want a problem", name, err)
		}
	}
}

func packing(pieces []sticks.Piece, stock, kerf geometry.Length) error {
	_, err := sticks.Pack(pieces, stock, kerf)
	return err
}

// On small lists every way to share the pieces out is tried.
func TestPackAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stock := geometry.Length(rapid.IntRange(10, 40).Draw(t, "stock"))
		kerf := geometry.Length(rapid.IntRange(0, 2).Draw(t, "kerf"))
		lengths := rapid.SliceOfN(rapid.IntRange(1, int(stock)), 0, 8).Draw(t, "lengths")
		var pieces []sticks.Piece
		for _, l := range lengths {
			pieces = append(pieces, sticks.Piece{Length: geometry.Length(l), Count: 1})
		}
		plan, err := sticks.Pack(pieces, stock, kerf)
		if err != nil {
			t.Fatal(err)
		}
		if want := fewest(lengths, nil, int(stock), int(kerf)); len(plan.Sticks) != want || !plan.Proven() {
			t.Fatalf("%d sticks, proven %t, want %d", len(plan.Sticks), plan.Proven(), want)
		}
		wantWhole(t, plan, pieces, stock, kerf)
	})
}

// fewest tries each piece on each stick begun, and on a new one.
func fewest(lengths, used []int, stock, kerf int) int {
	if len(lengths) == 0 {
		return len(used)
	}
	l := lengths[0]
	best := fewest(lengths[1:], append(slices.Clone(used), l), stock, kerf)
	for i := range used {
		if used[i]+kerf+l <= stock {
			tried := slices.Clone(used)
			tried[i] += kerf + l
			best = min(best, fewest(lengths[1:], tried, stock, kerf))
		}
	}
	return best
}

func TestPackCutsEveryPieceOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stock := geometry.Length(rapid.IntRange(100, 21*12*16).Draw(t, "sixteenths of stock")) / 16
		kerf := geometry.Length(rapid.IntRange(0, 8).Draw(t, "32nds of kerf")) / 32
		count := rapid.IntRange(0, 40).Draw(t, "count")
		var pieces []sticks.Piece
		for range count {
			pieces = append(pieces, sticks.Piece{
				Length: geometry.Length(rapid.IntRange(1, int(stock*16)).Draw(t, "sixteenths")) / 16,
				Count:  rapid.IntRange(0, 6).Draw(t, "times"),
			})
		}
		plan, err := sticks.Pack(pieces, stock, kerf)
		if err != nil {
			t.Fatal(err)
		}
		wantWhole(t, plan, pieces, stock, kerf)
	})
}

// wantWhole wants every piece cut exactly once, no stick over its length, each
// rest as it is left, and no fewer sticks than were proven to be needed or than
// all the pipe in them.
func wantWhole(t interface{ Errorf(string, ...any) }, plan sticks.Plan, pieces []sticks.Piece, stock, kerf geometry.Length) {
	wanted, cut := map[geometry.Length]int{}, map[geometry.Length]int{}
	var pipe geometry.Length
	for _, p := range pieces {
		if p.Count > 0 {
			wanted[p.Length] += p.Count
			pipe += geometry.Length(p.Count) * p.Length
		}
	}
	const dust = 1e-4
	for _, s := range plan.Sticks {
		used := -kerf
		for _, c := range s.Cuts {
			cut[c]++
			used += c + kerf
		}
		if used > stock+dust {
			t.Errorf("%v make %v of a stick of %v", s.Cuts, used, stock)
		}
		if rest := max(0, stock-used-kerf); math.Abs(float64(s.Rest-rest)) > dust {
			t.Errorf("rest of %v after %v, want %v", s.Rest, s.Cuts, rest)
		}
	}
	if fmt.Sprint(wanted) != fmt.Sprint(cut) {
		t.Errorf("cut %v, want %v", cut, wanted)
	}
	if len(plan.Sticks) < plan.Least || float64(plan.Least) < float64(pipe/stock)-dust {
		t.Errorf("%d sticks, at least %d, for %v of pipe", len(plan.Sticks), plan.Least, pipe)
	}
}

func pack(t *testing.T, pieces []sticks.Piece, stock, kerf geometry.Length) sticks.Plan {
	t.Helper()
	plan, err := sticks.Pack(pieces, stock, kerf)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

// list is a made-up list of so many cuts, in sixteenths, between 3 in and the
// longest.
func list(seed uint64, count int, longest geometry.Length) []sticks.Piece {
	random := rand.New(rand.NewPCG(seed, 0))
	var pieces []sticks.Piece
	for range count {
		sixteenths := 48 + random.IntN(int(longest*16)-48)
		pieces = append(pieces, sticks.Piece{Length: geometry.Length(sixteenths) / 16, Count: 1})
	}
	return pieces
}

func BenchmarkPack200(b *testing.B) {
	for _, longest := range []geometry.Length{24, 60, 118} {
		b.Run(fmt.Sprintf("to %v", longest), func(b *testing.B) {
			proven, lists := 0, 0
			for b.Loop() {
				plan, err := sticks.Pack(list(uint64(lists), 200, longest), tenFeet, hacksaw)
				if err != nil {
					b.Fatal(err)
				}
				lists++
				if plan.Proven() {
					proven++
				}
			}
			b.ReportMetric(100*float64(proven)/float64(lists), "%proven")
		})
	}
}

// The cuts of the upstairs bath at Juniper Street, out of ten-foot sticks with a
// hacksaw.
func ExamplePack() {
	plan, err := sticks.Pack([]sticks.Piece{
		{Length: 14.25, Count: 4},
		{Length: 38.5, Count: 2},
		{Length: 61, Count: 1},
	}, 10*geometry.Foot, geometry.Inch/16)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, s := range plan.Sticks {
		fmt.Println(i+1, s.Cuts, "rest", s.Rest.Tape(geometry.Sixteenths))
	}
	fmt.Println("fewest:", plan.Proven())
	// Output:
	// 1 [61 in 38.5 in 14.25 in] rest 6-1/16
	// 2 [38.5 in 14.25 in 14.25 in 14.25 in] rest 38-1/2
	// fewest: true
}
