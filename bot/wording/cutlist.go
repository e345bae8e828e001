package wording

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"dogleg/bot/cutlist"
	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// The phrases of the cut list and of the search among jobs.
const (
	ListEmpty      Phrase = "list empty"
	ListFull       Phrase = "list full"      // number: how many it holds
	OnTheList      Phrase = "on the list"    // piece: its line
	StillListed    Phrase = "still listed"   // piece: its line
	SawnOtherwise  Phrase = "sawn otherwise" // number, length: as it was sawn
	NothingToAdd   Phrase = "nothing to add"
	ClearReally    Phrase = "clear really" // open, done: the shared list
	ClearButton    Phrase = "clear button"
	ListChanged    Phrase = "list changed"  // since it was asked whether it is to be cleared
	NoSuchPiece    Phrase = "no such piece" // number
	NoneOpen       Phrase = "none open"
	NoneOfThatPipe Phrase = "none of that pipe"
	StockUnread    Phrase = "stock unread" // words
	RemoveWhat     Phrase = "remove what"  // number
	NoJobsOf       Phrase = "no jobs of"   // words: that were searched for
	DeadButton     Phrase = "dead button"
	PieceGone      Phrase = "piece gone"
	ListBelow      Phrase = "list below"
	JobUnreadable  Phrase = "job unreadable" // number
)

// Unsure says whether the cut of an answer is only about so, and to be left
// long.
func Unsure(a *figure.Answer) bool { return unsure(a) }

// The marks of a piece on the list.
const (
	openMark = "□"
	doneMark = "■"
)

// PieceLength is how long a piece is cut, an unsure one left long: "14-3/4
// light", "about 17-1/16".
func PieceLength(p cutlist.Piece, o Options) string {
	o.Metric = o.Metric || p.Metric
	m := manner{about: p.About}
	if p.About {
		m.left = p.Band
	}
	return o.bare(p.Length, m)
}

// PieceLine is one piece on the list of its pipe: "□ 2. 14-3/4 light, 45s,
// laundry, second floor".
func PieceLine(p cutlist.Piece, o Options) string { return o.pieceLine(p, "") }

// PieceAlone is the same with its pipe, for a line of its own.
func PieceAlone(p cutlist.Piece, o Options) string { return o.pieceLine(p, PipeName(p.Pipe, o)) }

func (o Options) pieceLine(p cutlist.Piece, pipe string) string {
	mark := openMark
	if p.Done {
		mark = doneMark
	}
	return mark + " " + o.numbered(p, pipe)
}

func (o Options) numbered(p cutlist.Piece, pipe string) string {
	parts := []string{PieceLength(p, o), o.pieceEnds(p), pipe, p.Name, p.Floor}
	return strconv.FormatUint(p.Number, 10) + ". " + strings.Join(spoken(parts), ", ")
}

// pieceEnds are the fittings at the ends of a piece: "45s", "45 and 90".
func (o Options) pieceEnds(p cutlist.Piece) string {
	first, second := p.Fittings[0], p.Fittings[1]
	switch {
	case first.Shape == "" && second.Shape == "":
		return ""
	case first == second:
		return o.fittings(first)
	case first.Shape == "" || second.Shape == "":
		if first.Shape == "" {
			first = second
		}
		return o.fitting(first)
	}
	return o.and([]string{o.fitting(first), o.fitting(second)})
}

// PipeName is what a piece is cut from: "2 PVC DWV".
func PipeName(p cutlist.Pipe, o Options) string {
	if p.System.Name == "" && p.Size == "" {
		return ""
	}
	return strings.Join(spoken([]string{string(p.Size), o.term(p.System.Name)}), " ")
}

// LotName is the heading over the pieces of a pipe.
func LotName(p cutlist.Pipe, o Options) string {
	if name := PipeName(p, o); name != "" {
		return name
	}
	return o.say("no pipe named")
}

// CutList is the whole list, those of one pipe together.
func CutList(pieces []cutlist.Piece, o Options) string {
	lines := []string{CutListHeading(pieces, o)}
	for _, lot := range cutlist.Lots(pieces) {
		lines = append(lines, LotName(lot.Pipe, o))
		for _, p := range lot.Pieces {
			lines = append(lines, PieceLine(p, o))
		}
	}
	return strings.Join(append(lines, o.aboutPieces(pieces)...), "\n")
}

// Board is the list in one message. Of one that is too long for that, the rest
// is left out, and it says so.
func Board(pieces []cutlist.Piece, o Options) string {
	if len(pieces) == 0 {
		return o.say("talk list empty")
	}
	return whole(strings.Split(CutList(pieces, o), "\n"))
}

// CheckLabel is what stands on the button of a piece: "□ 2. 14-3/4 light,
// laundry".
func CheckLabel(p cutlist.Piece, o Options) string {
	p.Floor, p.Fittings = "", [2]catalog.Fitting{}
	return o.pieceLine(p, "")
}

// CutListHeading says how many pieces are open and how many are done.
func CutListHeading(pieces []cutlist.Piece, o Options) string {
	open, done := HowMany(pieces, o)
	return o.say("cut list", "open", open, "done", done)
}

// HowMany says how many pieces of a list are open, and how many done: "1 open",
// "2 done".
func HowMany(pieces []cutlist.Piece, o Options) (open, done string) {
	n := len(cutlist.Open(pieces))
	open, done = o.say("one piece open"), o.say("one piece done")
	if n != 1 {
		open = o.say("pieces open", "number", strconv.Itoa(n))
	}
	if d := len(pieces) - n; d != 1 {
		done = o.say("pieces done", "number", strconv.Itoa(d))
	}
	return open, done
}

// aboutPieces says what to do with those open pieces whose cut is only about
// so.
func (o Options) aboutPieces(pieces []cutlist.Piece) []string {
	if slices.ContainsFunc(cutlist.Open(pieces), func(p cutlist.Piece) bool { return p.About }) {
		return []string{o.say("about pieces")}
	}
	return nil
}

// Cleared says what was on a list that is no more.
func Cleared(pieces []cutlist.Piece, o Options) string {
	open, done := HowMany(pieces, o)
	return o.say("list cleared", "open", open, "done", done)
}

// Exported says what a table and a sheet hold.
func Exported(pieces []cutlist.Piece, o Options) string {
	return o.say("exported", "list", CutListHeading(pieces, o))
}

// Saw is what takes the kerf. Name and Source are empty where only a kerf was
// given.
type Saw struct {
	Name   string // of the catalog: "hacksaw"
	Kerf   geometry.Length
	Source string
}

// SawNames is what a saw of the catalog is called, in every language.
func SawNames(saw string) []string {
	names := []string{saw}
	for _, l := range []parser.Language{parser.English, parser.Spanish} {
		if name, ok := (Options{Language: l}).said("saw " + saw); ok {
			names = append(names, name)
		}
	}
	return names
}

// Sticks says which sticks to buy and how to cut them.
func Sticks(buys []cutlist.Buy, saw Saw, o Options) string {
	var lines []string
	var pieces []cutlist.Piece
	for _, b := range buys {
		pieces = append(pieces, b.Pieces...)
		lines = append(lines, StickHeading(b, o))
		for i, s := range b.Sticks {
			lines = append(lines, StickLine(i+1, s, o))
		}
		lines = append(lines, OverLong(b, o)...)
		lines = append(lines, "")
	}
	lines = append(lines, FittingLines(pieces, o)...)
	lines = append(lines, Kerf(saw, o.ofPieces(pieces)))
	return strings.Join(append(lines, o.leftLong(pieces)...), "\n")
}

// StickHeading says how many sticks of a pipe are needed, and whether fewer
// can't do: "2 PVC DWV: 3 sticks of 10 ft. Fewer can't do."
func StickHeading(b cutlist.Buy, o Options) string {
	o = o.ofPieces(b.Pieces)
	pipe, number := LotName(b.Pipe, o), strconv.Itoa(len(b.Sticks))
	switch {
	case b.Stock == 0:
		return o.say("stock unknown", "pipe", pipe)
	case len(b.Sticks) == 0:
		return o.say("no sticks", "pipe", pipe, "stock", o.stock(b.Stock))
	case len(b.Sticks) == 1:
		return o.say("one stick", "pipe", pipe, "stock", o.stock(b.Stock))
	case b.Proven():
		return o.say("fewest sticks", "pipe", pipe, "number", number, "stock", o.stock(b.Stock))
	}
	return o.say("perhaps fewer sticks", "pipe", pipe, "number", number, "stock", o.stock(b.Stock), "least", strconv.Itoa(b.Least))
}

// ofPieces are the options to speak of pieces with: of any that were asked in
// millimeters in millimeters.
func (o Options) ofPieces(pieces []cutlist.Piece) Options {
	o.Metric = o.Metric || slices.ContainsFunc(pieces, func(p cutlist.Piece) bool { return p.Metric })
	return o
}

// StickLine is what comes out of one stick: "1) #4 62-1/2, #1 40; rest 17-1/4".
// A rest is rounded down.
func StickLine(number int, s cutlist.Stick, o Options) string {
	o = o.ofPieces(s.Pieces)
	var cuts []string
	for _, p := range s.Pieces {
		cuts = append(cuts, "#"+strconv.FormatUint(p.Number, 10)+" "+PieceLength(p, o))
	}
	return o.say("stick", "number", strconv.Itoa(number), "cuts", strings.Join(cuts, ", "), "rest", o.roundedDown(s.Rest, ""))
}

// OverLong names the pieces that are longer than a stick.
func OverLong(b cutlist.Buy, o Options) []string {
	var lines []string
	for _, p := range b.Over {
		lines = append(lines, o.say("over long", "number", strconv.FormatUint(p.Number, 10), "length", PieceLength(p, o), "stock", o.stock(b.Stock)))
	}
	return lines
}

// FittingLines count the fittings of pieces, those of one pipe on a line.
func FittingLines(pieces []cutlist.Piece, o Options) []string {
	var lines []string
	counts := cutlist.Fittings(pieces)
	for _, lot := range cutlist.Lots(pieces) {
		var parts []string
		for _, c := range counts {
			if c.Pipe == lot.Pipe {
				parts = append(parts, o.fittingCount(c))
			}
		}
		if len(parts) > 0 {
			lines = append(lines, o.say("fittings needed", "pipe", LotName(lot.Pipe, o), "fittings", strings.Join(parts, ", ")))
		}
	}
	if len(lines) > 0 {
		lines = append(lines, o.say("shared fittings"))
	}
	return lines
}

// fittingCount is "4 × 45": a multiplication sign keeps the number and the
// bend's name apart.
func (o Options) fittingCount(c cutlist.Count) string {
	return strconv.Itoa(c.Number) + " × " + o.fitting(c.Fitting)
}

// sawn is the width of a saw as a tape has it, in sixty-fourths.
func (o Options) sawn(l geometry.Length) string {
	if o.Metric {
		return o.stated(l, "")
	}
	return l.Tape(64).String()
}

// Kerf says what was reckoned for the saw.
func Kerf(s Saw, o Options) string {
	name, known := o.said("saw " + s.Name)
	switch {
	case !known:
		return o.say("kerf said", "kerf", o.stated(s.Kerf, ""))
	case s.Kerf == 0:
		return o.say("no kerf", "saw", name)
	}
	return o.say("kerf of saw", "kerf", o.sawn(s.Kerf), "saw", name)
}

// leftLong says that pieces which are only about so were reckoned longer.
func (o Options) leftLong(pieces []cutlist.Piece) []string {
	if slices.ContainsFunc(pieces, func(p cutlist.Piece) bool { return p.About }) {
		return []string{o.say("packed long")}
	}
	return nil
}

// stock writes a stock length as it is sold: in whole feet, or in meters to a
// tenth where it is that, 5.8 m, else as on the tape.
func (o Options) stock(l geometry.Length) string {
	whole := func(x float64) bool { return math.Abs(x-math.Round(x)) < 1e-6 }
	switch feet, meters := l.Inches()/12, l.Millimeters()/1000; {
	case whole(feet) && !o.Metric:
		return o.say("feet", "number", strconv.Itoa(int(math.Round(feet))))
	case whole(meters * 10):
		return decimals(meters, 1) + " m"
	}
	return o.withUnit(l, exactly)
}

// SticksTitle stands over the picture of a plan: how many sticks in all, and of
// what where they are of one pipe.
func SticksTitle(buys []cutlist.Buy, o Options) string {
	all := 0
	for _, b := range buys {
		all += len(b.Sticks)
	}
	title := o.say("sticks in all", "number", strconv.Itoa(all))
	if all == 1 {
		title = o.say("one stick in all")
	}
	if len(buys) == 1 {
		title += ", " + LotName(buys[0].Pipe, o)
	}
	return title
}

// LoadTitle stands over what the list needs of sticks and fittings.
func LoadTitle(o Options) string { return o.say("to load") }

// TruckSheet words what stands over and under the list on paper: its heading,
// and what belongs under any list that is sawn from.
func TruckSheet(pieces []cutlist.Piece, o Options) (heading string, foot []string) {
	return CutListHeading(pieces, o), append(o.aboutPieces(pieces), o.say("notice"))
}
