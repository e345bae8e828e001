package cutlist

import (
	"strconv"

	"dogleg/bot/sketch"
	"dogleg/bot/wording"
	"dogleg/geometry"
)

// PlanSheet is the picture of a plan: each stick to scale under the line that says
// what comes out of it.
func PlanSheet(buys []Buy, saw Saw, o wording.Options) *sketch.Sheet {
	s := &sketch.Sheet{Title: planTitle(buys, o)}
	for _, b := range buys {
		block := sketch.Block{Heading: stickHeading(b, o)}
		for i, stick := range b.Sticks {
			block.Rows = append(block.Rows, sketch.Row{Text: stickLine(i+1, stick, o), Bar: barOf(b, stick, o)})
		}
		for _, line := range overLong(b, o) {
			block.Rows = append(block.Rows, sketch.Row{Text: line})
		}
		s.Blocks = append(s.Blocks, block)
	}
	if bars(s) <= mostMarked {
		s.Foot = append(s.Foot, Say(o, "marks"))
	} else {
		unmark(s)
	}
	var pieces []Piece
	for _, b := range buys {
		pieces = append(pieces, b.Pieces...)
	}
	s.Foot = append(s.Foot, kerfWords(saw, ofPieces(pieces, o)))
	return s
}

// mostMarked is how many sticks a plan may have for what the tape reads at each
// cut to be under them: of more, the picture would get too large.
const mostMarked = 40

// bars is how many sticks there are.
func bars(s *sketch.Sheet) int {
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
func unmark(s *sketch.Sheet) {
	for _, b := range s.Blocks {
		for _, row := range b.Rows {
			if row.Bar == nil {
				continue
			}
			for i := range row.Bar.Cuts {
				row.Bar.Cuts[i].At = ""
			}
		}
	}
}

func numberOf(p Piece) string { return "#" + strconv.FormatUint(p.Number, 10) }

func barOf(b Buy, stick Stick, o wording.Options) *sketch.Bar {
	bar := &sketch.Bar{Stock: b.Stock, Kerf: b.Kerf}
	var at geometry.Length
	for _, p := range stick.Pieces {
		bar.Cuts = append(bar.Cuts, sketch.Cut{
			From: at, Long: p.Sawn(), Label: Sawn(p, o), Number: numberOf(p), At: cutAt(at+p.Sawn(), p, o),
		})
		at += p.Sawn() + b.Kerf
	}
	return bar
}

// TruckSheet is the cut list on a sheet of paper: each piece with a box to check
// off, then the sticks and the fittings to load.
func TruckSheet(pieces []Piece, buys []Buy, day string, o wording.Options) *sketch.Sheet {
	title, foot := truckWords(pieces, o)
	s := &sketch.Sheet{Title: title, Under: day, Foot: foot}
	for _, lot := range Lots(pieces) {
		block := sketch.Block{Heading: lotName(lot.Pipe, o)}
		for _, p := range lot.Pieces {
			row := sketch.Row{Number: numberOf(p), Large: Sawn(p, o), Text: pieceFor(p, o), Box: sketch.OpenBox}
			if p.Done {
				row.Box = sketch.DoneBox
			}
			block.Rows = append(block.Rows, row)
		}
		s.Blocks = append(s.Blocks, block)
	}
	load := sketch.Block{Heading: loadTitle(o)}
	for _, b := range buys {
		load.Rows = append(load.Rows, sketch.Row{Text: stickHeading(b, o)})
	}
	for _, line := range fittingLines(Open(pieces), o) {
		load.Rows = append(load.Rows, sketch.Row{Text: line})
	}
	if len(load.Rows) > 0 {
		s.Blocks = append(s.Blocks, load)
	}
	return s
}

// MaterialSheet is the picture of what the pieces take: each pipe with its lines.
func MaterialSheet(needs []Material, o wording.Options) *sketch.Sheet {
	s := &sketch.Sheet{Title: materialTitle(needs, o), Foot: materialFoot(needs, o)}
	for _, m := range needs {
		s.Blocks = append(s.Blocks, sketch.Block{Heading: stickHeading(m.Buy, o), Rows: rowsOf(materialLines(m, o))})
	}
	if lines := joiningLines(needs, o); len(lines) > 0 {
		s.Blocks = append(s.Blocks, sketch.Block{Heading: Say(o, "for the joints"), Rows: rowsOf(lines)})
	}
	return s
}

func rowsOf(lines []string) []sketch.Row {
	var rows []sketch.Row
	for _, line := range lines {
		rows = append(rows, sketch.Row{Text: line})
	}
	return rows
}
