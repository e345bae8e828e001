package sketch

import "dogleg/geometry"

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
