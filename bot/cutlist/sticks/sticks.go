package sticks

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dogleg/geometry"
)

// Piece is a length to be cut, and how often.
type Piece struct {
	Length geometry.Length
	Count  int
}

// Stick is one stock length and what is cut from it.
type Stick struct {
	Cuts []geometry.Length // the longest first
	Rest geometry.Length   // usable, after the last cut's kerf
}

// Plan says which cuts come from which stick.
type Plan struct {
	Sticks []Stick
	Least  int // no plan can do with fewer sticks than this: that is proven
}

// Proven says whether no other plan needs fewer sticks.
func (p Plan) Proven() bool { return len(p.Sticks) == p.Least }

// Most is how many pieces one list may have: more than a truck carries, and
// few enough that a slip of the thumb costs no time.
const Most = 5000

// TooLong says that a piece is longer than a stick.
type TooLong struct{ Piece, Stock geometry.Length }

// Error is for logs; people read wording.
func (t *TooLong) Error() string {
	return fmt.Sprintf("sticks: a piece of %v is longer than the stock of %v", t.Piece, t.Stock)
}

// TooMany says that a list has more than [Most] pieces.
type TooMany struct{ Count int }

// Error is for logs; people read wording.
func (t *TooMany) Error() string {
	return fmt.Sprintf("sticks: %d pieces are more than %d", t.Count, Most)
}

// Pack packs pieces into sticks of the stock length with a saw that takes this
// kerf. The same list always makes the same plan. The error is a *[TooLong], a
// *[TooMany], or a *[geometry.Problem] where a figure can't be one: a length of
// nothing, a negative kerf or count.
func Pack(pieces []Piece, stock, kerf geometry.Length) (Plan, error) {
	if err := check(pieces, stock, kerf); err != nil {
		return Plan{}, err
	}
	l := listOf(pieces, stock, kerf)
	packed, least := l.pack()
	plan := Plan{Least: least}
	for _, bin := range packed {
		plan.Sticks = append(plan.Sticks, l.stick(bin))
	}
	return plan, nil
}

func check(pieces []Piece, stock, kerf geometry.Length) error {
	if err := sane("stock length", stock, true); err != nil {
		return err
	}
	if err := sane("kerf", kerf, false); err != nil {
		return err
	}
	count := 0
	for _, p := range pieces {
		if err := sane("piece", p.Length, true); err != nil {
			return err
		}
		if p.Count < 0 {
			return &geometry.Problem{Reason: geometry.NotPositive, What: "count", Value: float64(p.Count)}
		}
		if p.Count > Most-count {
			return &TooMany{p.Count}
		}
		count += p.Count
		if units(p.Length) > units(stock) {
			return &TooLong{p.Length, stock}
		}
	}
	return nil
}

// sane refuses what is no length of pipe; something says that it must also be
// more than nothing.
func sane(what string, l geometry.Length, something bool) error {
	v := l.Inches()
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return &geometry.Problem{Reason: geometry.NotANumber, What: what, Value: v}
	case v < 0 || something && units(l) == 0:
		return &geometry.Problem{Reason: geometry.NotPositive, What: what, Value: v}
	case l > geometry.Longest:
		return &geometry.Problem{Reason: geometry.TooLong, What: what, Value: v}
	}
	return nil
}

// perInch is how many units an inch has. Both 1/128 in and 1/100 mm are whole
// numbers of them, so that whether six pieces of a meter fill a stick of six,
// or ten of a foot one of ten, does not hang on the last bit of a float.
const perInch = 25.4 * 64000

func units(l geometry.Length) int64 { return int64(math.Round(l.Inches() * perInch)) }

// list is what is to be packed, in whole units. A size is the length of a piece
// and one kerf; the room in a stick is the stock length and one kerf.
type list struct {
	lengths []geometry.Length // different from each other, the longest first
	sizes   []int64
	counts  []int
	room    int64
	kerf    int64
}

// bin is how many pieces of each size are in one stick.
type bin []int

func listOf(pieces []Piece, stock, kerf geometry.Length) list {
	counted := map[int64]Piece{}
	for _, p := range pieces {
		size := units(p.Length)
		counted[size] = Piece{p.Length, counted[size].Count + p.Count}
	}
	l := list{room: units(stock) + units(kerf), kerf: units(kerf)}
	var all []Piece
	for _, p := range counted {
		if p.Count > 0 {
			all = append(all, p)
		}
	}
	slices.SortFunc(all, func(a, b Piece) int { return cmp.Compare(b.Length, a.Length) })
	for _, p := range all {
		l.lengths = append(l.lengths, p.Length)
		l.sizes = append(l.sizes, units(p.Length)+units(kerf))
		l.counts = append(l.counts, p.Count)
	}
	return l
}

// stick is a bin with the lengths back in it.
func (l list) stick(b bin) Stick {
	rest := l.room
	var s Stick
	for i, n := range b {
		rest -= int64(n) * l.sizes[i]
		s.Cuts = append(s.Cuts, slices.Repeat([]geometry.Length{l.lengths[i]}, n)...)
	}
	s.Rest = geometry.Length(max(0, float64(rest-l.kerf)) / perInch)
	return s
}
