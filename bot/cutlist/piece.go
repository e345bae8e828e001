package cutlist

import (
	"dogleg/catalog"
	"dogleg/geometry"
)

// Piece is a piece of pipe on the list.
type Piece struct {
	Number   uint64 // on the list
	Length   geometry.Length
	Metric   bool            // asked in millimeters
	About    bool            // it rests on a takeoff that nobody has checked
	Band     geometry.Length // and may be out by so much, either way
	Pipe     Pipe
	Fittings [2]catalog.Fitting // at its ends; zero where there is none
	Name     string
	Floor    string // in words
	Done     bool   // it is sawn
}

// Sawn is what the piece takes out of a stick: its length, and as much more as
// it has to be left long.
func (p Piece) Sawn() geometry.Length {
	if p.About {
		return p.Length + p.Band
	}
	return p.Length
}

// Pipe is what a piece is cut from. The zero Pipe is one that nobody named.
type Pipe struct {
	System catalog.System
	Size   catalog.Size
}

// Lot is all pieces of one pipe.
type Lot struct {
	Pipe
	Pieces []Piece
}

// Lots puts the pieces of one pipe together, both in the order of the list.
func Lots(pieces []Piece) []Lot {
	var lots []Lot
	at := map[Pipe]int{}
	for _, p := range pieces {
		i, ok := at[p.Pipe]
		if !ok {
			i, at[p.Pipe] = len(lots), len(lots)
			lots = append(lots, Lot{Pipe: p.Pipe})
		}
		lots[i].Pieces = append(lots[i].Pieces, p)
	}
	return lots
}

// Open are the pieces that are not yet sawn.
func Open(pieces []Piece) []Piece {
	var open []Piece
	for _, p := range pieces {
		if !p.Done {
			open = append(open, p)
		}
	}
	return open
}

// Count is how many of one fitting, of one pipe and size, are needed.
type Count struct {
	Pipe
	Fitting catalog.Fitting
	Number  int
}

// Fittings counts the fittings at the ends of pieces: those of one pipe
// together, in the order of the list.
func Fittings(pieces []Piece) []Count {
	var counts []Count
	for _, lot := range Lots(pieces) {
		at := map[catalog.Fitting]int{}
		for _, p := range lot.Pieces {
			for _, f := range p.Fittings {
				if f.Shape == "" {
					continue
				}
				if _, ok := at[f]; !ok {
					at[f] = len(counts)
					counts = append(counts, Count{Pipe: lot.Pipe, Fitting: f})
				}
				counts[at[f]].Number++
			}
		}
	}
	return counts
}
