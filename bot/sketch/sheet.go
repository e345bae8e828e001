package sketch

import (
	"strconv"

	"dogleg/bot/cutlist"
	"dogleg/bot/wording"
	"dogleg/geometry"
)

// Sheet is a page of words and bars, for what is a list and not a shape: the
// plan of the sticks, and the cut list for the truck. Like a [Drawing] it is
// data first.
type Sheet struct {
	Title  string
	Under  string // a line below the title
	Blocks []Block
	Foot   []string // lines at the end
}

// Block is what stands under one heading.
type Block struct {
	Heading string
	Rows    []Row
}

// Row is a line of words, with what is written large before them, and a box to
// check off before that or a bar under it, where there is one.
type Row struct {
	Number string
	Large  string
	Text   string
	Box    Box
	Bar    *Bar
}

// Box is a box to check off.
type Box string

// The boxes.
const (
	NoBox   Box = ""
	OpenBox Box = "open"
	DoneBox Box = "done"
)

// Bar is a stick to scale: its cuts from the left, a kerf after each.
type Bar struct {
	Stock geometry.Length
	Kerf  geometry.Length
	Cuts  []Cut
}

// Cut is one piece on a bar, from its left end on, with its length, its number
// on the list, and what the tape reads at its far end when it is hooked on the
// left end of the stick.
type Cut struct {
	From, Long    geometry.Length
	Label, Number string
	At            string
}

// Rest is what is left of the stick behind the last kerf; never less than
// nothing.
func (b Bar) Rest() geometry.Length { return max(0, b.Stock-b.used()) }

func (b Bar) used() geometry.Length {
	if len(b.Cuts) == 0 {
		return 0
	}
	last := b.Cuts[len(b.Cuts)-1]
	return last.From + last.Long + b.Kerf
}

// Sticks is the picture of a plan: each stick to scale under the line that says
// what comes out of it.
func Sticks(buys []cutlist.Buy, saw wording.Saw, o wording.Options) *Sheet {
	s := &Sheet{Title: wording.SticksTitle(buys, o)}
	for _, b := range buys {
		block := Block{Heading: wording.StickHeading(b, o)}
		for i, stick := range b.Sticks {
			block.Rows = append(block.Rows, Row{Text: wording.StickLine(i+1, stick, o), Bar: barOf(b, stick, o)})
		}
		for _, line := range wording.OverLong(b, o) {
			block.Rows = append(block.Rows, Row{Text: line})
		}
		s.Blocks = append(s.Blocks, block)
	}
	if s.bars() <= mostMarked {
		s.Foot = append(s.Foot, sketcher{options: o}.say(wordMarks))
	} else {
		s.unmark()
	}
	s.Foot = append(s.Foot, wording.Kerf(saw, o))
	return s
}

// mostMarked is how many sticks a plan may have for what the tape reads at each
// cut to be under them: of more, the picture would get too large.
const mostMarked = 40

// bars is how many sticks there are.
func (s *Sheet) bars() int {
	n := 0
	for _, b := range s.Blocks {
		for _, row := range b.Rows {
			if row.Bar != nil {
				n++
			}
		}
	}
	return n
}

// unmark leaves out what the tape reads at each cut.
func (s *Sheet) unmark() {
	for _, b := range s.Blocks {
		for _, row := range b.Rows {
			for i := range row.Bar.cuts() {
				row.Bar.Cuts[i].At = ""
			}
		}
	}
}

func (b *Bar) cuts() []Cut {
	if b == nil {
		return nil
	}
	return b.Cuts
}

func numberOf(p cutlist.Piece) string { return "#" + strconv.FormatUint(p.Number, 10) }

func barOf(b cutlist.Buy, stick cutlist.Stick, o wording.Options) *Bar {
	bar := &Bar{Stock: b.Stock, Kerf: b.Kerf}
	var at geometry.Length
	for _, p := range stick.Pieces {
		bar.Cuts = append(bar.Cuts, Cut{
			From: at, Long: p.Sawn(), Label: wording.Sawn(p, o), Number: numberOf(p), At: wording.CutAt(at+p.Sawn(), p, o),
		})
		at += p.Sawn() + b.Kerf
	}
	return bar
}

// Truck is the cut list on a sheet of paper: each piece with a box to check
// off, then the sticks and the fittings to load.
func Truck(pieces []cutlist.Piece, buys []cutlist.Buy, day string, o wording.Options) *Sheet {
	title, foot := wording.TruckSheet(pieces, o)
	s := &Sheet{Title: title, Under: day, Foot: foot}
	for _, lot := range cutlist.Lots(pieces) {
		block := Block{Heading: wording.LotName(lot.Pipe, o)}
		for _, p := range lot.Pieces {
			row := Row{Number: numberOf(p), Large: wording.Sawn(p, o), Text: wording.PieceFor(p, o), Box: OpenBox}
			if p.Done {
				row.Box = DoneBox
			}
			block.Rows = append(block.Rows, row)
		}
		s.Blocks = append(s.Blocks, block)
	}
	load := Block{Heading: wording.LoadTitle(o)}
	for _, b := range buys {
		load.Rows = append(load.Rows, Row{Text: wording.StickHeading(b, o)})
	}
	for _, line := range wording.FittingLines(cutlist.Open(pieces), o) {
		load.Rows = append(load.Rows, Row{Text: line})
	}
	if len(load.Rows) > 0 {
		s.Blocks = append(s.Blocks, load)
	}
	return s
}
