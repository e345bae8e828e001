package cutlist

import (
	"math"
	"slices"

	"dogleg/bot/cutlist/sticks"
	"dogleg/geometry"
)

// Buy says which sticks a lot is cut from.
type Buy struct {
	Lot
	Stock  geometry.Length // 0 where no length is known for this pipe
	Kerf   geometry.Length
	Sticks []Stick
	Least  int     // no plan can do with fewer sticks: that is proven
	Over   []Piece // longer than a stick: not packed
}

// Proven says whether no other plan needs fewer sticks.
func (b Buy) Proven() bool { return len(b.Sticks) == b.Least }

// Stick is one stock length and the pieces that come out of it.
type Stick struct {
	Pieces []Piece         // the longest first
	Rest   geometry.Length // usable, after the last cut
}

// Plan packs the pieces of one pipe into stock lengths of its own, with a saw
// that takes this kerf. With a stock length of 0 it is the usual one of the
// pipe, and nothing is packed where there is none. The error is that of
// [sticks.Pack], but for pieces that are too long, which are in Over.
func Plan(lot Lot, stock, kerf geometry.Length) (Buy, error) {
	b := Buy{Lot: lot, Stock: stock, Kerf: kerf}
	if stock == 0 {
		b.Stock = usual(lot.Pipe)
	}
	if b.Stock == 0 {
		return b, nil
	}
	var left []Piece
	var wanted []sticks.Piece
	for _, p := range lot.Pieces {
		if p.Sawn() > b.Stock {
			b.Over = append(b.Over, p)
			continue
		}
		left = append(left, p)
		wanted = append(wanted, sticks.Piece{Length: p.Sawn(), Count: 1})
	}
	plan, err := sticks.Pack(wanted, b.Stock, kerf)
	if err != nil {
		return b, err
	}
	b.Least = plan.Least
	for _, s := range plan.Sticks {
		stick := Stick{Rest: s.Rest}
		for _, cut := range s.Cuts {
			var p Piece
			p, left = take(left, cut)
			stick.Pieces = append(stick.Pieces, p)
		}
		b.Sticks = append(b.Sticks, stick)
	}
	return b, nil
}

// usual is the length that the pipe is mostly sold in.
func usual(p Pipe) geometry.Length {
	for _, s := range p.System.StockLengths() {
		return s.Length
	}
	return 0
}

// take picks the piece whose sawn length is the nearest to a cut of the plan:
// the plan may have made one length of two that differ in the last bit.
func take(left []Piece, cut geometry.Length) (Piece, []Piece) {
	nearest := 0
	for i, p := range left {
		if math.Abs((p.Sawn() - cut).Inches()) < math.Abs((left[nearest].Sawn() - cut).Inches()) {
			nearest = i
		}
	}
	p := left[nearest]
	return p, slices.Delete(left, nearest, nearest+1)
}
